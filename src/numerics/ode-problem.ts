/** What is integrated, how exactly, and what comes of it. */

/** What is integrated: rates of change of a state of fixed size, and values that end the integration on falling through zero. */
export interface OdeSystem {
  readonly size: number;
  /** How many of the last entries are plain integrals, on which no rate and no event depends; none if left out. */
  readonly integrals?: number;
  /** Writes the rates of change at a time and state. Called some hundred times a run: it should make no objects. */
  rates(time: number, state: Float64Array, rates: Float64Array): void;
  readonly events: number;
  /** Writes one value for each event. */
  eventValues(time: number, state: Float64Array, values: Float64Array): void;
}

export interface OdeOptions {
  readonly relativeTolerance: number;
  /** Of each entry of the state; Infinity leaves an entry out of the error control (a plain integral over the others). */
  readonly absoluteTolerance: Float64Array;
  /** Longest step; no limit if left out. */
  readonly longestStep?: number;
  /**
   * Greatest change of each entry within a step, reckoned by its rate at the beginning; no limit if left out. For entries on
   * which others depend by curves with bends that a long step might jump over unseen.
   */
  readonly longestChange?: Float64Array;
  /** 20,000 if left out. */
  readonly mostSteps?: number;
}

/** How a run ended. Anything but 'end' and 'event' means that it stopped short. */
export type OdeReason = 'end' | 'event' | 'step too small' | 'too many steps' | 'not a number';

export interface OdeResult {
  readonly reason: OdeReason;
  readonly time: number;
  /** The event that fell through zero; -1 if none did. */
  readonly event: number;
  readonly accepted: number;
  readonly rejected: number;
  /** Greatest estimated error of an accepted step, as a multiple of what was allowed (at most 1); of the step given up, if it stopped short. */
  readonly residual: number;
}

/** A step just taken: its ends, and the state anywhere between them. */
export interface OdeStep {
  readonly from: number;
  readonly to: number;
  /** State at its end. */
  readonly end: Float64Array;
  /** State at from + share × (to - from), to fourth order. */
  interpolate(share: number, state: Float64Array): void;
}
