/**
 * A hand cable for an installation that describes none: the distance and the bends of its survey, and starting values for
 * the rest. Every one of them is told; none of them is a reading.
 */
import type { HandCable, Job } from '../../job/schema.ts';
import { formatQuantity } from '../../units/quantity.ts';
import type { Assumption } from '../finding.ts';
import { DefaultReader } from '../readings.ts';
import { leverOf } from '../lever.ts';
import { askedOf } from './asked.ts';

const START = 'starting value of this program, no source';
const CONDUIT_AWAY = 0.12;

export interface UsualCable {
  readonly means: HandCable;
  readonly assumed: readonly Assumption[];
}

/** The conduit ends square to the arm in the middle of its swing; readings of the lever that are missing stay missing. */
export function usualCable(job: Job): UsualCable {
  const lever = leverOf(job, new DefaultReader());
  const { radius } = askedOf(job);
  const middle = (lever.run + lever.noFuel) / 2 + lever.armMinusShaft;
  const square = middle + (lever.toStop * Math.PI) / 2;
  const millimetres = (metres: number) =>
    Number.isNaN(metres) ? 'not measured' : formatQuantity(metres, 'length', 'mm', { significantDigits: 4 });
  const at = (along: (angle: number) => number) => millimetres(radius * along(middle) + CONDUIT_AWAY * along(square));
  const means: HandCable = {
    kind: 'hand cable',
    handle: { kind: 'T-handle', posture: 'standing', travel: '75 mm' },
    route: [],
    core: { construction: 'strand 1x19, stainless', diameter: '2.5 mm', moves: 'by pulling only' },
    conduit: { bore: '3.2 mm', lining: 'PTFE' },
    towardsStop: 'pulled',
    leverEnd: {
      conduitEnd: { x: at(Math.cos), y: at(Math.sin) },
      radius: millimetres(radius),
      angle: Number.isNaN(lever.armMinusShaft)
        ? 'not measured'
        : formatQuantity(lever.armMinusShaft, 'angle', '°', { significantDigits: 4 }),
      fitting: 'swivel',
      slack: '0 mm',
    },
    secondStation: 'none',
  };
  const told: readonly (readonly [string, string])[] = [
    ['means.handle', 'T-handle with 75 mm of travel, pulled standing'],
    ['means.core', '1x19 stainless strand of 2.5 mm, pulled only'],
    ['means.conduit', 'bore 3.2 mm, PTFE liner'],
    ['means.leverEnd', `swivel on an arm of ${means.leverEnd.radius}, conduit square to it in the middle of the swing`],
  ];
  return { means, assumed: told.map(([path, text]) => ({ path, text, source: START })) };
}
