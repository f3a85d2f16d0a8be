/** Numbers inside sentences, in the units that the reader's instruments have. */
import { display, type Dimension, type DisplayUnits } from '../units/quantity.ts';

export interface Words {
  length(metres: number): string;
  angle(radians: number): string;
  force(newtons: number): string;
  current(amps: number): string;
  voltage(volts: number): string;
  power(watts: number): string;
  resistance(ohms: number): string;
  temperature(kelvins: number): string;
  /** "38 ms", "4.2 s", "25 min", "more than an hour". */
  time(seconds: number): string;
  speed(metresPerSecond: number): string;
  stress(pascals: number): string;
  pressure(pascals: number): string;
  volume(cubicMetres: number): string;
  torque(newtonMetres: number): string;
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
    resistance: say('resistance', 3),
    temperature: (kelvins) => display(kelvins, 'temperature', units, Math.abs(kelvins - 273.15) < 100 ? 2 : 3),
    time: timeWords,
    speed: say('velocity', 2),
    stress: say('stress', 3),
    pressure: say('pressure', 2),
    volume: say('volume', 2),
    torque: say('torque', 2),
    percent: percentWords,
  };
}

/** More than ten times the whole is said as that: no figure of it means anything. */
function percentWords(share: number): string {
  if (Number.isNaN(share)) return 'no telling how much';
  return Math.abs(share) > 10 ? 'over 1000 %' : `${Math.round(share * 100)} %`;
}

/** In the unit in which a person would say it. */
export function timeWords(seconds: number): string {
  if (seconds < 1e-3) return 'less than 1 ms';
  const of = (value: number, unit: string) => `${Number(value.toPrecision(value < 10 ? 2 : 3))} ${unit}`;
  if (seconds < 1) return of(seconds * 1000, 'ms');
  if (seconds < 120) return of(seconds, 's');
  return seconds < 3600 ? of(seconds / 60, 'min') : 'more than an hour';
}
