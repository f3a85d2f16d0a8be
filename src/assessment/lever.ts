/** The stop lever of a job and the effort that it asks, as inputs of physics: SI, radians. Readings that were not taken are NaN. */
import type { Job } from '../job/schema.ts';
import { effortCurve, frictionMoment, steadyMoment, type EffortCurve, type EffortReading } from '../physics/load.ts';
import { valueOf, type DefaultReader } from './readings.ts';

/** The lever as surveyed, and the effort it asks; every means of moving it meets this. */
export interface Lever {
  readonly toStop: 1 | -1;
  readonly run: number;
  readonly noFuel: number;
  readonly hardStop: number;
  readonly runStop: number;
  readonly armMinusShaft: number;
  readonly lash: number;
  /** One curve for each state of the engine that was read; null where a reading is missing. */
  readonly efforts: readonly EffortCurve[] | null;
  /** +1 where the readings were taken moving the lever towards stop, -1 towards run. */
  readonly readTowards: 1 | -1;
  /** Lever friction over friction as read: as read, and with cold oil. */
  readonly frictionFactor: Pair;
  /** Extra friction moment of the first movement after standing, N m. */
  readonly breakaway: number;
}

/** Low friction and high friction. */
export interface Pair {
  readonly low: number;
  readonly high: number;
}

export function leverOf(job: Job, reader: DefaultReader): Lever {
  const { lever, effort } = job.survey;
  const run = valueOf(lever.runAngle, 'angle');
  const noFuel = valueOf(lever.noFuelAngle, 'angle');
  const toStop = noFuel - run < 0 ? -1 : 1;
  const armMinusShaft = valueOf(lever.armOffset, 'angle') + (2 * Math.PI * job.layout.hubPosition) / lever.hubPositions;
  const zero = reader.value('survey.effort.balanceZero', effort.balanceZero, 'force');
  const efforts = effortCurves(effort.readings, zero, reader);
  const oil = reader.value('survey.effort.coldOil', effort.coldOil, 'ratio');
  return {
    toStop,
    run,
    noFuel,
    hardStop: valueOf(lever.hardStopAngle, 'angle'),
    runStop: valueOf(lever.runStopAngle, 'angle'),
    armMinusShaft,
    lash: valueOf(lever.lash, 'angle'),
    efforts,
    readTowards: effort.towards === 'stop' ? 1 : -1,
    frictionFactor: { low: 1, high: oil },
    // A lever that is moved towards stop starts from run, one moved towards run starts from stop.
    breakaway:
      efforts === null
        ? NaN
        : breakaway(effort.firstPull, zero, efforts, effort.towards === 'stop' ? run : noFuel, reader),
  };
}

function effortCurves(
  readings: Job['survey']['effort']['readings'],
  zero: number,
  reader: DefaultReader,
): EffortCurve[] | null {
  const byState = new Map<string, EffortReading[]>();
  let squareAssumed = false;
  for (let i = 0; i < readings.length; i++) {
    const { engine, angle, radius, pull, easingBack, offSquare } = readings[i];
    const taken: EffortReading = {
      angle: valueOf(angle, 'angle'),
      radius: valueOf(radius, 'length'),
      pull: valueOf(pull, 'force'),
      easingBack: valueOf(easingBack, 'force'),
      offSquare:
        offSquare === undefined && squareAssumed
          ? 0
          : reader.value(
              `survey.effort.readings[${i}].offSquare`,
              offSquare,
              'angle',
              'survey.effort.readings[].offSquare',
            ),
    };
    squareAssumed ||= offSquare === undefined;
    if (Number.isNaN(taken.angle + taken.radius + taken.pull + taken.easingBack)) return null;
    const state = byState.get(engine);
    if (state === undefined) byState.set(engine, [taken]);
    else state.push(taken);
  }
  return byState.size === 0 ? null : [...byState.values()].map((state) => effortCurve(state, zero));
}

/** Extra friction of the first movement: from the first pull where the lever stood, else a factor on the friction as read. */
function breakaway(
  firstPull: Job['survey']['effort']['firstPull'],
  zero: number,
  efforts: readonly EffortCurve[],
  start: number,
  reader: DefaultReader,
): number {
  if (firstPull === undefined) {
    const factor = reader.value('survey.effort.firstPull', undefined, 'ratio');
    return (factor - 1) * Math.max(...efforts.map((curve) => frictionMoment(curve, start)));
  }
  const moment = (valueOf(firstPull.pull, 'force') - zero) * valueOf(firstPull.radius, 'length');
  const running = Math.min(...efforts.map((curve) => steadyMoment(curve, start) + frictionMoment(curve, start)));
  return Math.max(0, moment - running);
}
