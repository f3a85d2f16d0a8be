/** A trace read to its end: events, outcome, words. What the command and the screen show, as plain data. */
import { findEvents, type Found } from './find-events.ts';
import { outcomeOf, type CoilKnown, type TraceOutcome } from './outcome.ts';
import type { Trace } from './trace.ts';
import { ampWords, msWords, outcomeWords, sureness, traceCautions } from './words.ts';

export interface TraceEvent {
  readonly what: string;
  /** s after switch-on; null where switch-on was not seen. */
  readonly sinceOn_s: number | null;
  /** On the clock of the trace, s. */
  readonly time_s: number;
  readonly plusMinus_s: number | null;
  readonly confidence: number | null;
  readonly words: string;
}

export interface TraceReport {
  readonly found: Found | null;
  readonly outcome: TraceOutcome;
  readonly sentence: string;
  readonly events: readonly TraceEvent[];
  readonly cautions: readonly string[];
}

export function reportOf(trace: Trace, coil: CoilKnown | null): TraceReport {
  const found = findEvents(trace);
  if (found === null) {
    const outcome: TraceOutcome = { outcome: 'not known', reason: 'switch-on not seen', confidence: 1, home_s: null };
    const sentence = 'Nothing is switched on in this trace: the current never rises out of the noise.';
    return { found, outcome, sentence, events: [], cautions: [...trace.cautions] };
  }
  const outcome = outcomeOf(found, coil);
  return {
    found,
    outcome,
    sentence: outcomeWords(found, outcome),
    events: eventsOf(found),
    cautions: traceCautions(trace, found, outcome),
  };
}

function eventsOf(found: Found): TraceEvent[] {
  const { on_s, landing, stage, off_s } = found;
  const event = (
    what: string,
    time_s: number,
    words: string,
    plusMinus_s: number | null = null,
    confidence: number | null = null,
  ): TraceEvent => ({ what, sinceOn_s: on_s === null ? null : time_s - on_s, time_s, plusMinus_s, confidence, words });
  const sure = (confidence: number): string => `${sureness(confidence)} (${Math.round(100 * confidence)} %)`;
  const events: TraceEvent[] = [];
  if (on_s !== null) events.push(event('switch-on', on_s, 'current begins to rise', found.onPlusMinus_s));
  for (const time of found.contactBounces_s)
    events.push(event('contact bounce', time, 'current breaks and comes back'));
  if (landing !== null)
    events.push(
      event(
        'landing',
        landing.time_s,
        `dip from ${ampWords(landing.before_A)} to ${ampWords(landing.dip_A)}, ± ${msWords(landing.plusMinus_s)}, ${sure(landing.confidence)}`,
        landing.plusMinus_s,
        landing.confidence,
      ),
    );
  for (const time of found.landingBounces_s) events.push(event('landing bounce', time, 'a further small dip'));
  if (stage !== null)
    events.push(
      event(
        'stage change',
        stage.time_s,
        `from ${ampWords(stage.heavy_A)} to ${ampWords(stage.hold_A)}, ± ${msWords(stage.plusMinus_s)}, ${sure(stage.confidence)}`,
        stage.plusMinus_s,
        stage.confidence,
      ),
    );
  for (const time of found.reclosings_s) events.push(event('heavy current again', time, 'the stage change is undone'));
  for (const time of found.supplyDips_s) events.push(event('supply dip', time, 'current sags and comes back'));
  for (const time of found.interruptions_s) events.push(event('interruption', time, 'no current for a moment'));
  if (off_s !== null) events.push(event('switch-off', off_s, 'current begins to fall to nothing'));
  return events.sort((a, b) => a.time_s - b.time_s);
}
