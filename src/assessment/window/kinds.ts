/** What a window of a spring is: plain data. */
import type { End } from '../lever-moments.ts';
import type { Warmth } from '../scene.ts';

/** Where the spring in question acts: a moment about the shaft, or a force on the plunger. */
export type SpringPlace = 'lever' | 'shaft' | 'plunger';

export interface WindowQuestion {
  readonly on: SpringPlace;
  /** Index in the job's list of the spring that is taken out; null where one more is asked for. */
  readonly index: number | null;
}

export const windowChecks = [
  'pulls-in-from-full-stroke',
  'pulls-in-everywhere',
  'holds-at-home',
  'returns-from-every-gap',
  'returns-from-home',
  'over-travel-stays-shut',
  'chain-stays-taut',
] as const;
export type WindowCheck = (typeof windowChecks)[number];

/** One edge at one gap, and what decides it. */
export interface Edge {
  /** N m or N. A floor is never below zero; infinite where no spring of this place can do it. */
  readonly value: number;
  readonly check: WindowCheck;
  readonly friction: End | null;
  readonly supply: End | null;
  readonly coil: Warmth | null;
  readonly line: MarginLine;
}

/**
 * The margin near an edge as a function of the trial x, for a screen of very many: (n0 + n1 x)/(d0 + d1 x), from two points
 * on the open side of the edge. Right at the edge; forces are straight lines of x but where friction changes sides.
 */
export interface MarginLine {
  readonly n0: number;
  readonly n1: number;
  readonly d0: number;
  readonly d1: number;
  readonly wanted: number;
}

export interface WindowStation {
  readonly gap: number;
  readonly shaftAngle: number;
  readonly floor: Edge;
  readonly ceiling: Edge;
}

export interface WindowScene {
  readonly moved: string | null;
  readonly stations: readonly WindowStation[];
}

export interface SpringWindow {
  readonly question: WindowQuestion;
  /** N m about the shaft, or N along the plunger. */
  readonly acts: 'moment' | 'force';
  /** As surveyed first, then the engine moved on its mounts. Empty where readings are missing. */
  readonly scenes: readonly WindowScene[];
  /** Where floor and ceiling come nearest; null where it is not known. */
  readonly tightest: Tightest | null;
  /** Whether at every gap a spring force lies between floor and ceiling. */
  readonly isOpen: boolean;
  /** Paths of readings that must be taken first, and why it is not known. */
  readonly missing: readonly string[];
  readonly unknown: string | null;
}

export interface Tightest {
  readonly moved: string | null;
  readonly station: WindowStation;
  /** Ceiling minus floor; negative where it is shut. */
  readonly width: number;
}
