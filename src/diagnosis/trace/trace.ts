/** What a recorded current is once it has been read: plain columns in seconds and amperes, and how they were come by. */

export interface TraceOptions {
  /** Name of the current's column, or its number counted from 1. */
  readonly channel?: string;
  /** Seconds between samples, where the file has no times or they are not to be believed. */
  readonly interval_s?: number;
  /** What one volt of the clamp means. */
  readonly ampsPerVolt?: number;
}

export interface TraceProblem {
  /** Line of the file, counted from 1; null where the whole file is meant. */
  readonly row: number | null;
  /** What stood there, shortened. */
  readonly read: string;
  readonly problem: string;
}

/** How the file was understood: shown to the person, so that a wrong guess is seen. */
export interface TraceReadAs {
  readonly separator: 'comma' | 'semicolon' | 'tab' | 'bar' | 'spaces' | 'none';
  readonly decimal: 'point' | 'comma';
  /** Header lines before the first sample. */
  readonly headerLines: number;
  readonly timeColumn: string | null;
  readonly timeUnit: string;
  readonly currentColumn: string;
  readonly currentUnit: string;
  readonly ampsPerVolt: number | null;
}

export interface Trace {
  readonly readAs: TraceReadAs;
  /** s, never falling. */
  readonly time: Float64Array;
  /** A, as recorded: offset, hum and polarity untouched. */
  readonly current: Float32Array;
  /** Samples in the file; more than `time.length` where neighbours were averaged to bound memory. */
  readonly samplesRead: number;
  /** Median time between kept samples, s. */
  readonly interval_s: number;
  /** Stretches without samples, longest first, at most ten. */
  readonly gaps: readonly { readonly from_s: number; readonly to_s: number }[];
  readonly cautions: readonly string[];
}

export type TraceReading =
  | { readonly ok: true; readonly trace: Trace }
  | {
      readonly ok: false;
      readonly problems: readonly TraceProblem[];
      /** Columns that could be the current, where the person has to say which. */
      readonly channels: readonly string[];
    };
