/**
 * Time and heat of one installation as plain data for drawings, tables and files: what the solenoid does in the first tenths
 * of a second, and what its coil bears in the minutes after.
 *
 * Base SI, temperatures in K, gaps in metres from home. What is not known is null, never NaN. Every course is in step with
 * its own times, which rise.
 */

/** Values in step with times; null where one is not known. */
export type Course = readonly (number | null)[];

/** What a run can show; in the words that people read. */
export type TimeEventKind =
  | 'current off'
  | 'starts moving'
  | 'stalls'
  | 'end switch works'
  | 'stage changes'
  | 'comes home'
  | 'bounces'
  | 'end switch recloses'
  | 'leaves home'
  | 'at rest';

export interface TimeEvent {
  readonly kind: TimeEventKind;
  readonly time_s: number;
  readonly gap_m: number | null;
  readonly supplyCurrent_A: number | null;
}

/** One course of events from one state of supply, coil and friction. Time starts when the switch closes, or when it opens. */
export interface TimeRun {
  /** Unique among its neighbours: small letters, digits and hyphens. */
  readonly name: string;
  /** "weakest", "diode". */
  readonly words: string;
  /** "low battery, hot coil, high friction". */
  readonly conditions: string;
  readonly time_s: readonly number[];
  readonly supplyCurrent_A: Course;
  readonly gap_m: Course;
  /** Volts at the terminals of the coil. */
  readonly terminal_V: Course;
  /** Mean of the winding. */
  readonly coilTemperature_K: Course;
  /** In the order of time. */
  readonly events: readonly TimeEvent[];
  readonly outcome: TimeOutcome;
  /** What has to be known of how it was reckoned: an approximation, a solver that stopped short. */
  readonly cautions: readonly string[];
}

export type TimeOutcome =
  | 'comes home'
  | 'stalls'
  | 'does not start'
  | 'drops out'
  | 'comes out'
  | 'stays at home'
  | 'not finished';

/** Current off from standing at home, with one kind of suppression. Times from the opening of the switch. */
export interface ReleaseRun extends TimeRun {
  readonly isFitted: boolean;
  /** Until it leaves home. */
  readonly releaseTime_s: number | null;
  /** Until it is at rest again, fully out. */
  readonly returnTime_s: number | null;
  /** Greatest, against the polarity in service or along it. */
  readonly peakTerminal_V: number | null;
  /** Greatest across the contact that opens. */
  readonly peakContact_V: number | null;
}

export interface MeasuredEvent {
  readonly kind: TimeEventKind;
  /** From switch-on. */
  readonly time_s: number;
  /** 0 to 1. */
  readonly confidence: number;
}

/** A current that was recorded on the job, its time shifted so that it starts at switch-on, thinned to a few thousand points. */
export interface MeasuredTrace {
  /** Name of the file or channel. */
  readonly words: string;
  readonly time_s: readonly number[];
  readonly supplyCurrent_A: Course;
  readonly events: readonly MeasuredEvent[];
  /** What it shows, in sentences: "Came home at 38 ms, end switch worked at 41 ms." */
  readonly findings: readonly string[];
  readonly cautions: readonly string[];
}

/** How long the command to stop has to stay on, so that the engine stands still before fuel can come back. */
export interface HoldTime {
  /** From no fuel until the engine stands still. */
  readonly runDown_s: number;
  readonly isRunDownDefault: boolean;
  /** Slowest way home; null where it does not come home or that is not known. */
  readonly home_s: number | null;
  /** What the control holds by itself; null where somebody holds it by hand or that is not known. */
  readonly holds_s: number | null;
  /** Way home, run-down and a margin together; null where the way home is not known. */
  readonly needed_s: number | null;
  readonly words: string;
}

export interface TimePicture {
  /** Pull-in, weakest first. */
  readonly runs: readonly TimeRun[];
  readonly releases: readonly ReleaseRun[];
  readonly measured: MeasuredTrace | null;
  readonly holdTime: HoldTime | null;
  /** Readings without which there are no runs, in words. */
  readonly missing: readonly string[];
}

export interface HeatCourse {
  /** Unique: small letters, digits and hyphens. */
  readonly name: string;
  /** "held off home". */
  readonly words: string;
  /** "charging, hottest day, pull-in current". */
  readonly conditions: string;
  readonly time_s: readonly number[];
  /** Mean of the winding. */
  readonly winding_K: Course;
  /** Outside of the can. */
  readonly case_K: Course;
}

/** A line that the mean of the winding should stay below: a thermal class, less what the hottest place lies above the mean. */
export interface HeatLimit {
  readonly name: string;
  /** "class B 130". */
  readonly words: string;
  readonly class_K: number;
  readonly hotSpot_K: number;
  /** The class of this coil, and not one beside it. */
  readonly isOwn: boolean;
}

export interface LimitCrossing {
  /** Names of the course and the limit. */
  readonly course: string;
  readonly limit: string;
  readonly time_s: number;
}

/** Something that ends the current: one time, or a band from the fastest to the slowest. */
export interface HeatMark {
  readonly name: string;
  /** "cut-out", "fuse opens". */
  readonly words: string;
  readonly from_s: number;
  /** The same as `from_s` for one time; null where the slowest may never end it. */
  readonly to_s: number | null;
}

export interface HeatPicture {
  readonly courses: readonly HeatCourse[];
  readonly limits: readonly HeatLimit[];
  readonly crossings: readonly LimitCrossing[];
  readonly marks: readonly HeatMark[];
  /** The can burns bare skin above this after `contact_s`. */
  readonly touch: { readonly temperature_K: number; readonly contact_s: number } | null;
  readonly cautions: readonly string[];
  readonly missing: readonly string[];
}
