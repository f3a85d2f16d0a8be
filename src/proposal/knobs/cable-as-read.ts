/**
 * Friction and drag as two readings at the handle gave them, written down as such.
 *
 * The readings belong to the cable as it hung when they were taken: whoever moves its lever end, its route or a spring must
 * keep what they said of the core, and not read them anew against another lever.
 */
import { isByHand, type CableJob } from '../../assessment/cable/assess.ts';
import { cableRigOf } from '../../assessment/cable/rig.ts';
import { apply, change, type Change } from '../../job/change.ts';
import type { HandCable, Job } from '../../job/schema.ts';
import { formatQuantity } from '../../units/quantity.ts';
import type { Knob } from './knob.ts';

/** Nothing where there are no readings; null where they contradict each other, or something that they rest on is missing. */
function asRead(job: CableJob): readonly Change[] | null {
  if (job.means.readings === undefined) return [];
  const { friction, drag } = cableRigOf(job, job.means);
  if (friction === null || Number.isNaN(drag)) return null;
  const digits = (value: number) => Number(value.toPrecision(4));
  const middle = (friction.low + friction.high) / 2;
  return [
    meansWithout(job, ['readings'], {
      friction: `${digits(middle)} ± ${digits((friction.high - friction.low) / 2)}`,
      drag: formatQuantity(drag, 'force', 'N', { significantDigits: 4 }),
    }),
  ];
}

/**
 * The cable with some fields taken away and some set, as one change: taken back, it is the very object that it was, its fields
 * in the order in which they were written.
 */
export function meansWithout(job: CableJob, taken: readonly (keyof HandCable)[], set: Partial<HandCable>): Change {
  const kept = Object.fromEntries(
    Object.entries(job.means).filter(([name]) => !taken.includes(name as keyof HandCable)),
  );
  return change(job, 'means', { ...kept, ...set });
}

/** Knobs that change what the readings were taken with: each setting writes down first what they gave. */
export function keepingReadings(job: CableJob, knobsOf: (job: CableJob) => Knob[]): Knob[] {
  const first = asRead(job);
  if (first === null) return [];
  if (first.length === 0) return knobsOf(job);
  const kept = apply<Job>(job, first);
  if (!isByHand(kept)) return [];
  return knobsOf(kept).map((knob) => ({
    ...knob,
    settingAt(amount) {
      const setting = knob.settingAt(amount);
      return setting === null ? null : { words: setting.words, changes: [...first, ...setting.changes] };
    },
  }));
}
