/** What is asked of a study of spread, as plain data: it crosses to workers as it is. */
import type { InstrumentName } from './instruments.ts';

export interface SpreadRequest {
  /** Points in all; taken up to a power of two in each scramble. */
  readonly draws: number;
  /** Independent scrambles, whose scatter tells the error. */
  readonly scrambles: number;
  /** Whole number: the same seed gives the same result, whoever does the work. */
  readonly seed: number;
  /** A reading without ± : off by what its instrument may be off, or exact. */
  readonly unwritten: 'instrument' | 'exact';
  /** Readings that share a part of their error. */
  readonly shared: readonly SharedError[];
}

/** Of these readings each pair has this correlation: 1 for one error that is common to all of them. */
export interface SharedError {
  /** "all lengths by the same caliper", "springs of one batch". */
  readonly name: string;
  /** Every reading that this instrument took; or */
  readonly instrument?: InstrumentName;
  /** the readings at these paths, or below them. */
  readonly paths?: readonly string[];
  /** Above 0, at most 1. */
  readonly correlation: number;
}

export const usualRequest: SpreadRequest = {
  draws: 8192,
  scrambles: 8,
  seed: 1,
  unwritten: 'instrument',
  shared: [],
};

/** A request that cannot be done, with the field that it is about; '' for the request itself. */
export interface SpreadProblem {
  readonly path: string;
  readonly problem: string;
}
