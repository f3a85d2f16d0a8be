/** What a search knows at any moment between its stages: plain data, to be put down, sent on and taken up again. */
import type { SearchState } from '../../numerics/discrete-search.ts';
import type { Closing } from './closing.ts';
import type { Near, Tried } from './nearest.ts';
import type { Problem, Rated } from './problem.ts';
import type { Barrier } from './screen.ts';

export type Phase =
  | 'looking'
  | 'assessing'
  | 'other springs'
  | 'refining'
  | 'looking at every step'
  | 'assessing steps'
  | 'nearest'
  | 'second changes'
  | 'closing'
  | 'done';

export interface Run {
  readonly phase: Phase;
  /** Pieces of this phase that are done. */
  readonly piece: number;
  readonly lookedAt: number;
  /** Kept by the quick look, one list for each kind of connection. */
  readonly kept: readonly SearchState['kept'][];
  /** Layouts placed and asked for forces by the quick look. */
  readonly placed: number;
  readonly forced: number;
  readonly turnedAway: readonly (readonly [Barrier, number])[];
  /** Assessed at rest, best first. */
  readonly pool: readonly Rated[];
  readonly assessed: number;
  /** What is to be refined, and what has been. */
  readonly waiting: readonly Rated[];
  readonly refined: readonly Rated[];
  /** Of every step: what may be better than the best of its kind that is known. */
  readonly steps: readonly SearchState['kept'][];
  /** Kinds of connection in which no layout on settable steps is better than what was found. */
  readonly exact: readonly boolean[];
  readonly singles: readonly Tried[];
  readonly nearest: Near | null;
  readonly limits: readonly Closing[];
}

export function beginRun({ screens }: Problem): Run {
  return {
    phase: 'looking',
    piece: 0,
    lookedAt: 0,
    kept: screens.map(() => []),
    placed: 0,
    forced: 0,
    turnedAway: [],
    pool: [],
    assessed: 0,
    waiting: [],
    refined: [],
    steps: screens.map(() => []),
    exact: screens.map(() => false),
    singles: [],
    nearest: null,
    limits: [],
  };
}

/** Everything that was assessed, best first. */
export function ratedOf({ pool, refined }: Run): Rated[] {
  return [...refined, ...pool].sort(byValue);
}

export function bestOf(run: Run): Rated | null {
  return ratedOf(run)[0] ?? null;
}

export const byValue = (a: Rated, b: Rated): number => b.value - a.value;
