/** The figures that a job predicts, to be set beside a trace, and what the job knows of its coil. */
import { quantityIn } from '../../job/quantity-text.ts';
import type { Job } from '../../job/schema.ts';
import type { CoilKnown } from './outcome.ts';

export interface PredictedEvents {
  /** s after switch-on; null where the job predicts none. */
  readonly home_s: number | null;
  readonly stage_s: number | null;
  readonly heavy_A: number | null;
  readonly hold_A: number | null;
  /** Least current in the dip, A. */
  readonly dip_A: number | null;
  /** The corner that was reckoned, in words. */
  readonly corner: string;
}

/**
 * SEAM: the motion of this job in its usual corner. Null until `assessment/motion-of.ts` is there: fill it from
 * `motionOf(job, corner)`, and nothing else has to change.
 */
export function predictedEvents(_job: Job): PredictedEvents | null {
  return null;
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
