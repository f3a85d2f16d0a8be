/** Numbers inside sentences, in the units that the reader's instruments have. */
import { display, type Dimension, type DisplayUnits } from '../units/quantity.ts';

export interface Words {
  length(metres: number): string;
  angle(radians: number): string;
  force(newtons: number): string;
  current(amps: number): string;
  voltage(volts: number): string;
  power(watts: number): string;
  stress(pascals: number): string;
  percent(share: number): string;
}

export function wordsIn(units: DisplayUnits): Words {
  const say = (dimension: Dimension, digits: number) => (value: number) => display(value, dimension, units, digits);
  return {
    length: say('length', 3),
    angle: say('angle', 3),
    force: say('force', 3),
    current: say('current', 3),
    voltage: say('voltage', 3),
    power: say('power', 3),
    stress: say('stress', 3),
    percent: (share) => `${Math.round(share * 100)} %`,
  };
}
