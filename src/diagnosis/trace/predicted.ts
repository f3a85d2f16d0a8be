/** The figures that a job predicts, to be set beside a trace, and what the job knows of its coil. */
import { isSolenoid } from '../../assessment/assess.ts';
import { HARDEST, pullIn, SLOWEST } from '../../assessment/time/motion-of.ts';
import { rigOf } from '../../assessment/rig.ts';
import { electricCorners, scenesOf } from '../../assessment/scene.ts';
import { quantityIn } from '../../job/quantity-text.ts';
import type { Job } from '../../job/schema.ts';
import type { Motion } from '../../physics/motion/motion.ts';
import type { CoilKnown } from './outcome.ts';

/** From the least to the greatest of the two corners in which a job is reckoned. */
export interface Between {
  readonly least: number;
  readonly greatest: number;
}

export interface PredictedEvents {
  /** s after switch-on; null where the job predicts none. */
  readonly home_s: Between | null;
  readonly stage_s: Between | null;
  readonly heavy_A: Between | null;
  readonly hold_A: Between | null;
  /** Least current in the dip, A; null where flux is not known well enough to tell. */
  readonly dip_A: Between | null;
  /** The corners that were reckoned, in words. */
  readonly corner: string;
}

/** Null where the means is no solenoid, or where a reading is missing that the motion rests on. */
export function predictedEvents(job: Job): PredictedEvents | null {
  if (!isSolenoid(job)) return null;
  const rig = rigOf(job);
  const electric = electricCorners(rig);
  const [scene] = scenesOf(rig, electric);
  const runs = [pullIn(rig, scene, HARDEST), pullIn(rig, scene, SLOWEST)];
  const motions = runs.flatMap((run) => (run.known ? [run.motion] : []));
  if (motions.length < runs.length) return null;
  const stage = ({ events }: Motion) => events.find(({ kind }) => kind === 'stage change')?.time ?? null;
  const isExact = motions.every(({ approximation }) => approximation === null);
  return {
    home_s: between(motions.map(({ timeToHome }) => timeToHome)),
    stage_s: between(motions.map(stage)),
    heavy_A: between(motions.map(({ peakCurrent }) => peakCurrent)),
    hold_A: between(electric.map(({ hold }) => hold.supply)),
    dip_A: isExact ? between(motions.map(({ dip }) => dip?.current ?? null)) : null,
    corner: 'From charging with a cold coil and low friction to the weakest source with a hot coil and high friction.',
  };
}

function between(values: readonly (number | null)[]): Between | null {
  const known = values.flatMap((value) => (value !== null && Number.isFinite(value) ? [value] : []));
  return known.length < values.length || known.length === 0
    ? null
    : { least: Math.min(...known), greatest: Math.max(...known) };
}

/** What the job says of the stages of its coil; null where its means is no solenoid. */
export function coilKnown(job: Job): CoilKnown | null {
  if (job.means.kind !== 'solenoid') return null;
  const { coil } = job.means;
  return {
    stages: coil.stages,
    delay_s: coil.stages === 'timed economiser' ? (quantityIn(coil.delay, 'time')?.value ?? null) : null,
  };
}
