/** What the lever asks of any means, whatever moves it: the moment, and on an arm the pull and the travel. */
import { toSI } from '../../units/quantity.ts';
import type { Connection, Job } from '../../job/schema.ts';
import { DefaultReader, valueOf } from '../readings.ts';
import { leverLoad } from '../cable/lever-load.ts';
import { leverOf } from '../lever.ts';

export interface Asked {
  /** Greatest moment between run and no-fuel, cold oil, first movement counted, N m. */
  readonly moment: number;
  /** Arm on which it is taken, m. */
  readonly radius: number;
  /** Pull square to that arm, N, and travel of its end from run to no-fuel, m. */
  readonly force: number;
  readonly travel: number;
}

const STEPS = 48;
/** The lever as it was read: springs that are fitted beside it belong to a means. */
const noSprings = { springs: [], shaftSprings: [] };

/** Numbers are NaN where a reading is missing. */
export function askedOf(job: Job): Asked {
  const lever = leverOf(job, new DefaultReader());
  const radius = armRadius(job.layout.connection);
  const swing = lever.noFuel - lever.run;
  const travel = Math.abs(swing) * radius;
  let moment = -Infinity;
  for (let i = 0; i <= STEPS; i++) {
    const { towardsStop } = leverLoad(lever, noSprings, lever.run + (swing * i) / STEPS, lever.frictionFactor.high);
    moment = Math.max(moment, towardsStop + (i === 0 ? lever.breakaway : 0));
  }
  return { moment, radius, force: moment / radius, travel };
}

const USUAL_ARM = toSI(50, 'mm');

/** Where the connection holds the arm, or would; a usual arm where that was not read. */
function armRadius(connection: Connection): number {
  const radius =
    connection.kind === 'slotted lever'
      ? (valueOf(connection.slotFrom, 'length') + valueOf(connection.slotTo, 'length')) / 2
      : valueOf(connection.armRadius, 'length');
  return Number.isNaN(radius) ? USUAL_ARM : radius;
}
