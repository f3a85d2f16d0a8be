/** What the events of a trace say of the installation: came home, never came home, dropped out, or cannot be told. */
import type { Found } from './find-events.ts';
import type { StageChange } from './judge.ts';

export type Outcome =
  | 'came home'
  | 'end switch did not work'
  | 'never came home'
  | 'dropped out'
  | 'chatters'
  | 'not known';

/** What is known of the coil beforehand, from a job; null where nothing is. */
export interface CoilKnown {
  readonly stages: 'single coil' | 'pull-in and hold windings' | 'series resistor' | 'timed economiser';
  /** s from switch-on; null where it was not measured or there is none. */
  readonly delay_s: number | null;
}

/** Why the outcome is what it is: `words.ts` makes the sentence. */
export type Reason =
  | 'dip and stage change'
  | 'dip'
  | 'motion and stage change'
  | 'stage change alone'
  | 'dip and timer'
  | 'timer without dip'
  | 'dip without stage change'
  | 'rose and stayed'
  | 'seen too short'
  | 'too noisy'
  | 'doubtful dip'
  | 'bend only'
  | 'went back to heavy'
  | 'end switch chatters'
  | 'switch-on not seen';

export interface TraceOutcome {
  readonly outcome: Outcome;
  readonly reason: Reason;
  /** 0 to 1: how far the outcome can be believed. */
  readonly confidence: number;
  /** Home at, s after switch-on; null where it is not known to be. */
  readonly home_s: number | null;
}

/** A dip in which there is more trust than this is taken for one. */
const BELIEVED = 0.5;
/** A stage change later than this after the dip was not made by the plunger, s. */
const SWITCH_FOLLOWS_S = 0.06;
/** Earlier than this a timer does not reduce the current, as a rule, s. Common practice, no source. */
const EARLIEST_TIMER_S = 0.15;
/** A dip of this share of the current is what a plunger leaves at least, as a rule. Common practice, no source. */
const LEAST_DIP = 0.06;
/** Slower than this, and the dip falls between two samples, s. */
const SLOWEST_INTERVAL_S = 0.002;
/** A pull-in that has not ended after this long may still be on its way, s. */
const LONG_ENOUGH_S = 0.1;

export function outcomeOf(found: Found, coil: CoilKnown | null): TraceOutcome {
  const { on_s, landing, stage } = found;
  if (on_s === null) return { outcome: 'not known', reason: 'switch-on not seen', confidence: 1, home_s: null };
  const dip = landing !== null && landing.confidence >= BELIEVED ? landing : null;
  const after = (time_s: number): number => time_s - on_s;
  const couldSee =
    found.visibleDip_A < LEAST_DIP * found.peak_A && found.interval_s <= SLOWEST_INTERVAL_S && found.clipped_A === null;

  if (stage !== null && found.endsHeavy)
    return { outcome: 'dropped out', reason: 'went back to heavy', confidence: stage.confidence * 0.9, home_s: null };
  if (stage !== null && found.reclosings_s.length >= 2)
    return {
      outcome: 'chatters',
      reason: 'end switch chatters',
      confidence: 0.9 * stage.confidence,
      home_s: dip === null ? null : after(dip.time_s),
    };

  if (stage !== null) {
    const isTimer = timerMade(stage, after(stage.time_s), dip === null ? null : dip.time_s, coil);
    if (dip !== null) {
      const confidence =
        isTimer === true || after(dip.time_s) > EARLIEST_TIMER_S
          ? dip.confidence
          : 1 - (1 - dip.confidence) * (1 - 0.7 * stage.confidence);
      return {
        outcome: 'came home',
        reason: isTimer === true ? 'dip and timer' : 'dip and stage change',
        confidence,
        home_s: after(dip.time_s),
      };
    }
    if (isTimer === true)
      return couldSee && found.bend_s === null
        ? { outcome: 'never came home', reason: 'timer without dip', confidence: 0.6, home_s: null }
        : { outcome: 'not known', reason: 'timer without dip', confidence: 0.7, home_s: null };
    // The end switch is worked by the plunger: its stage change shows that it came home, if it is an end switch.
    const moved = stage.whileMoving && !stage.afterSteady;
    const known = isTimer === false ? 0.85 : moved ? 0.8 : couldSee ? 0.45 : 0.6;
    const confidence = known * stage.confidence;
    return confidence >= BELIEVED
      ? {
          outcome: 'came home',
          reason: moved ? 'motion and stage change' : 'stage change alone',
          confidence,
          home_s: after(stage.time_s),
        }
      : { outcome: 'not known', reason: 'stage change alone', confidence: 1 - confidence, home_s: null };
  }

  if (dip !== null) {
    const wantsSwitch =
      coil !== null && (coil.stages === 'pull-in and hold windings' || coil.stages === 'series resistor');
    const isLongEnough = found.seen_s - after(dip.time_s) > SWITCH_FOLLOWS_S;
    if (wantsSwitch && isLongEnough)
      return {
        outcome: 'end switch did not work',
        reason: 'dip without stage change',
        confidence: 0.9 * dip.confidence,
        home_s: null,
      };
    return { outcome: 'came home', reason: 'dip', confidence: dip.confidence, home_s: after(dip.time_s) };
  }
  if (landing !== null && landing.confidence > 0.15)
    return { outcome: 'not known', reason: 'doubtful dip', confidence: 1 - landing.confidence, home_s: null };
  if (found.bend_s !== null) return { outcome: 'not known', reason: 'bend only', confidence: 0.7, home_s: null };
  if (found.seen_s < LONG_ENOUGH_S || !found.settled)
    return { outcome: 'not known', reason: 'seen too short', confidence: 0.9, home_s: null };
  if (!couldSee) return { outcome: 'not known', reason: 'too noisy', confidence: 0.9, home_s: null };
  const twoStages = coil !== null && coil.stages !== 'single coil';
  return { outcome: 'never came home', reason: 'rose and stayed', confidence: twoStages ? 0.95 : 0.75, home_s: null };
}

/** Whether a timer made the stage change: true, false, or null where it cannot be told. */
function timerMade(
  stage: StageChange,
  sinceOn_s: number,
  dip_s: number | null,
  coil: CoilKnown | null,
): boolean | null {
  if (coil !== null && coil.stages !== 'timed economiser') return coil.stages === 'single coil' ? null : false;
  if (coil !== null && coil.delay_s !== null && Math.abs(sinceOn_s - coil.delay_s) < 0.15 * coil.delay_s + 0.005)
    return true;
  if (coil !== null && coil.delay_s === null) return true;
  if (dip_s !== null) return stage.time_s - dip_s > SWITCH_FOLLOWS_S;
  if (stage.afterSteady && sinceOn_s > EARLIEST_TIMER_S) return true;
  if (sinceOn_s > 2 * EARLIEST_TIMER_S) return true;
  return null;
}
