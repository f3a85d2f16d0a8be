/** Friction of a cable out of two readings at its handle, one with the lever end free, one connected. */
import { quantityIn } from '../../job/quantity-text.ts';
import type { HandCable, Job } from '../../job/schema.ts';
import { calibrate, type CalibrationOutcome, type ReadingBand } from '../../physics/cable/calibration.ts';
import { turnBetween, type LeverEnd } from '../../physics/cable/lever-end.ts';
import type { Piece } from '../../physics/cable/route.ts';
import type { Core } from '../../physics/cable/strand.ts';
import type { Lever } from '../lever.ts';
import type { RigSprings } from '../springs-of.ts';
import type { Course } from './course.ts';
import { leverLoad } from './lever-load.ts';
import { swingOf } from './swing.ts';

interface ForCalibration {
  readonly job: Job;
  readonly lever: Lever;
  readonly springs: RigSprings;
  readonly course: Course | null;
  readonly core: Core | null;
  readonly end: LeverEnd | null;
  readonly isPulled: boolean | null;
  readonly axis: number;
  /** Travel of the hand over travel of the core. */
  readonly ratio: number;
}

/** Friction from the readings at the handle, which are those of the hand; null where there are none, or something that they rest on is missing. */
export function calibrationOf(cable: HandCable, known: ForCalibration): CalibrationOutcome | null {
  const { readings } = cable;
  const { lever, springs, course, core, end, isPulled } = known;
  if (readings === undefined || course === null || core === null || end === null || isPulled === null) return null;
  const [free, connected] = [inCore(readings.free, known.ratio), inCore(readings.connected, known.ratio)];
  if (free === null || connected === null) return null;
  const poses = swingOf(end, lever);
  if (poses === null || lever.efforts === null || course.pieces.length === 0) return null;
  const forces = poses.map(({ arm, shaftAngle, direction }) => {
    const acting = (isPulled ? 1 : -1) * lever.toStop * arm;
    const load = leverLoad(lever, springs, shaftAngle, lever.frictionFactor.low).towardsStop;
    return {
      force: acting > 0 ? Math.max(0, load) / acting : NaN,
      offAxis: Math.abs(turnBetween(known.axis, direction)),
    };
  });
  if (forces.some(({ force }) => Number.isNaN(force))) return null;
  const hardest = forces.reduce((most, next) => (next.force > most.force ? next : most));
  // The mouth of the conduit is one more bend.
  const mouth: Piece = {
    kind: 'bend',
    length: 1e-9,
    angle: Math.max(hardest.offAxis, 1e-12),
    radius: 1e-9 / Math.max(hardest.offAxis, 1e-12),
    tangentZ: 0,
    normalZ: 0,
    corner: -1,
  };
  // The load on the lever was read with a balance too: its own ± carries over.
  const share = effortShare(known.job);
  const pull: ReadingBand = {
    low: hardest.force * (1 - share),
    value: hardest.force,
    high: hardest.force * (1 + share),
  };
  const sliding = { weight: core.weight, bendingStiffness: 0, radialClearance: 0 };
  // A push follows the same law: signs change, sizes do not.
  return calibrate([mouth, ...course.fromLever], sliding, pull, free, connected);
}

/** The largest share that the ± of a pull at the lever is of it. */
function effortShare({ survey }: Job): number {
  return survey.effort.readings.reduce((most, { pull }) => {
    const read = quantityIn(pull, 'force');
    return read === null || !(read.value > 0) ? most : Math.max(most, (read.plusMinus ?? 0) / read.value);
  }, 0);
}

/** A force of the hand as the core has it. */
function inCore(text: string, ratio: number): ReadingBand | null {
  const quantity = quantityIn(text, 'force');
  if (quantity === null) return null;
  const value = quantity.value * ratio;
  const half = (quantity.plusMinus ?? 0) * ratio;
  return { low: Math.max(0, value - half), value, high: value + half };
}
