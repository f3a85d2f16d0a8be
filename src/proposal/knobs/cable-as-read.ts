/**
 * Friction and drag as two readings at the handle gave them, written down as such.
 *
 * The readings belong to the cable as it hung when they were taken: whoever moves its lever end, its route or a spring must
 * keep what they said of the core, and not read them anew against another lever.
 */
import { cableRigOf, type CablePrefix } from '../../assessment/cable/rig.ts';
import { apply, change, type Change } from '../../job/change.ts';
import type { HandCable, HandStop, Job } from '../../job/schema.ts';
import { formatQuantity } from '../../units/quantity.ts';
import type { Knob } from './knob.ts';

/** A hand cable and where it stands in its job. */
export interface Cabled {
  readonly job: Job;
  readonly cable: HandCable | HandStop;
  readonly prefix: CablePrefix;
}

/** The hand cable of a job, be it its means or the hand stop beside another; null where it has none. */
export function cabled(job: Job): Cabled | null {
  if (job.means.kind === 'hand cable') return { job, cable: job.means, prefix: 'means' };
  return job.handStop === undefined ? null : { job, cable: job.handStop, prefix: 'handStop' };
}

/** Nothing where there are no readings; null where they contradict each other, or something that they rest on is missing. */
function asRead({ job, cable, prefix }: Cabled): readonly Change[] | null {
  if (cable.readings === undefined) return [];
  const { friction, drag } = cableRigOf(job, cable);
  if (friction === null || Number.isNaN(drag)) return null;
  const digits = (value: number) => Number(value.toPrecision(4));
  const middle = (friction.low + friction.high) / 2;
  return [
    cableWithout({ job, cable, prefix }, ['readings'], {
      friction: `${digits(middle)} ± ${digits((friction.high - friction.low) / 2)}`,
      drag: formatQuantity(drag, 'force', 'N', { significantDigits: 4 }),
    }),
  ];
}

/**
 * The cable with some fields taken away and some set, as one change: taken back, it is the very object that it was, its fields
 * in the order in which they were written.
 */
export function cableWithout(
  { job, cable, prefix }: Cabled,
  taken: readonly (keyof HandCable)[],
  set: Partial<HandCable>,
): Change {
  const kept = Object.fromEntries(Object.entries(cable).filter(([name]) => !taken.includes(name as keyof HandCable)));
  return change(job, prefix, { ...kept, ...set });
}

/** Knobs that change what the readings were taken with: each setting writes down first what they gave. */
export function keepingReadings(at: Cabled, knobsOf: (at: Cabled) => Knob[]): Knob[] {
  const first = asRead(at);
  if (first === null) return [];
  if (first.length === 0) return knobsOf(at);
  const kept = cabled(apply(at.job, first));
  if (kept === null) return [];
  return knobsOf(kept).map((knob) => ({
    ...knob,
    settingAt(amount) {
      const setting = knob.settingAt(amount);
      return setting === null ? null : { words: setting.words, changes: [...first, ...setting.changes] };
    },
  }));
}
