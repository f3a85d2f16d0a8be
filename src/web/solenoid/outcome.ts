/** What a solve comes to, as plain data that crosses from the worker to the page and into the cache. SI throughout. */
import type { ForceCurves } from '../../sheets/solenoid/force-curves.ts';

/** Rows that can be written into the job. */
export interface CurveForJob {
  readonly words: string;
  readonly stage: 'pull-in' | 'hold';
  readonly voltage: number;
  readonly coilTemperature: number;
  readonly gaps: readonly number[];
  readonly force: readonly number[];
  /** Half the width of the 95 % band; null where there is none. */
  readonly halfWidth: readonly number[] | null;
}

export interface Said {
  readonly kind: 'contradiction' | 'next' | 'caution';
  readonly words: string;
}

/** A number with its name, already in words. */
export interface Fact {
  readonly name: string;
  readonly value: string;
  readonly note: string;
}

export interface Outcome {
  readonly isCoarse: boolean;
  readonly curves: ForceCurves['curves'];
  readonly readings: ForceCurves['readings'];
  readonly next: ForceCurves['next'];
  readonly said: readonly Said[];
  readonly facts: readonly Fact[];
  readonly forJob: readonly CurveForJob[];
  /** Turns of the winding on the bench before any pull had its say; null where they are not known. */
  readonly turns: number | null;
}
