/**
 * The undo steps of one job: changes with names, and how many of them are done. Plain data, so that they can be kept
 * with the job and taken up again after a reload.
 */
import { apply, inverse, type Change } from '../../job/change.ts';

export interface Step {
  /** What was done, as a person would say it: "Run angle 62° → 63°". */
  readonly name: string;
  readonly changes: readonly Change[];
  /** Steps of one gesture (one drag, one stay in a field) are put together. */
  readonly gesture: string | null;
}

export interface Steps {
  readonly list: readonly Step[];
  /** How many of the list are done; those after it can be done again. */
  readonly done: number;
}

/** What is kept with the job between visits. */
export interface KeptSteps extends Steps {
  /** The revision at which they stand. They are of use with that one only. */
  readonly at: string;
}

export const noSteps: Steps = { list: [], done: 0 };

/** At least this many steps are kept; older ones go first. */
export const MOST_STEPS = 2000;

/** Adds a step; what could have been done again is given up. A step of the gesture that made the last one joins it. */
export function addStep({ list, done }: Steps, step: Step): Steps {
  const before = list.slice(0, done);
  const last = before.at(-1);
  if (last !== undefined && step.gesture !== null && last.gesture === step.gesture) {
    const joined: Step = { ...step, changes: joinChanges(last.changes, step.changes) };
    return { list: [...before.slice(0, -1), joined], done };
  }
  const list_ = [...before, step].slice(-MOST_STEPS);
  return { list: list_, done: list_.length };
}

/** Ends the gesture of the last step, so that the next one stands for itself. */
export function endGesture(steps: Steps): Steps {
  const { list, done } = steps;
  const last = list.at(-1);
  if (last === undefined || last.gesture === null) return steps;
  return { list: [...list.slice(0, -1), { ...last, gesture: null }], done };
}

export interface Moved<T> {
  readonly document: T;
  readonly steps: Steps;
  readonly step: Step;
}

export function undo<T>(document: T, { list, done }: Steps): Moved<T> | null {
  const step = list[done - 1];
  if (step === undefined) return null;
  return { document: apply(document, inverse(step.changes)), steps: { list, done: done - 1 }, step };
}

export function redo<T>(document: T, { list, done }: Steps): Moved<T> | null {
  const step = list[done];
  if (step === undefined) return null;
  return { document: apply(document, step.changes), steps: { list, done: done + 1 }, step };
}

/** Later changes after earlier ones; two at one place become one. */
function joinChanges(earlier: readonly Change[], later: readonly Change[]): readonly Change[] {
  const samePlaces = earlier.length === later.length && earlier.every(({ path }, i) => later[i]?.path === path);
  if (!samePlaces) return [...earlier, ...later];
  return earlier.map(({ path, from }, i) => ({ path, from, to: later[i]?.to }));
}

/** As text for keeping, without the oldest steps where it would be longer than `mostCharacters`. */
export function writeSteps(kept: KeptSteps, mostCharacters: number): string {
  let { list, done } = kept;
  for (;;) {
    const text = JSON.stringify({ at: kept.at, done, list });
    if (text.length <= mostCharacters || list.length === 0) return text;
    const drop = Math.max(1, Math.ceil(list.length * Math.min(0.5, 1 - mostCharacters / text.length)));
    list = list.slice(drop);
    done = Math.max(0, done - drop);
  }
}

/** The steps in a kept text; null where it holds none that can be used. */
export function readSteps(text: string | null): KeptSteps | null {
  if (text === null) return null;
  try {
    const { at, done, list } = JSON.parse(text) as Partial<KeptSteps>;
    const usable =
      typeof at === 'string' && Array.isArray(list) && Number.isInteger(done) && done! >= 0 && done! <= list.length;
    return usable ? { at, done: done!, list } : null;
  } catch {
    return null;
  }
}
