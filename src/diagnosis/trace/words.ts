/** The sentences about a trace: what happened, how sure that is, and what to mind. Plain words, no markup. */
import { fromSI } from '../../units/quantity.ts';
import type { Found } from './find-events.ts';
import type { TraceOutcome } from './outcome.ts';
import type { Trace } from './trace.ts';

const digits = (value: number, most: number): string => String(Number(value.toPrecision(most)));
/** "38.2 ms", whole milliseconds from 100 on. */
export function msWords(seconds: number): string {
  const ms = fromSI(seconds, 'ms');
  return `${Math.abs(ms) >= 100 ? Math.round(ms) : Math.round(10 * ms) / 10} ms`;
}

export function ampWords(amperes: number): string {
  return `${digits(amperes, 3)} A`;
}

/** "sure", "likely", "doubtful": a confidence in a word. */
export function sureness(confidence: number): 'sure' | 'likely' | 'doubtful' {
  return confidence >= 0.9 ? 'sure' : confidence >= 0.65 ? 'likely' : 'doubtful';
}

/** The outcome in one or two sentences. */
export function outcomeWords(found: Found, { reason, outcome }: TraceOutcome): string {
  const since = (time_s: number): string => msWords(time_s - (found.on_s ?? 0));
  const dip = found.landing === null ? '' : since(found.landing.time_s);
  const step = found.stage === null ? '' : since(found.stage.time_s);
  const hold = found.stage === null ? '' : ampWords(found.stage.hold_A);
  const noDip = `no dip deeper than ${ampWords(found.visibleDip_A)}`;
  switch (reason) {
    case 'dip and stage change':
      return `Came home at ${dip}; the current fell to ${hold} at ${step}, as an end switch makes it.`;
    case 'dip':
      return `Came home at ${dip}; the current then went to ${ampWords(found.last_A)} and was not reduced. That is right for a single coil. With an end switch it would mean that the switch was not worked.`;
    case 'motion and stage change':
      return `The current sank as a plunger on its way makes it, until the stage change to ${hold} at ${step}: it came home about then. The dip itself cannot be seen.`;
    case 'stage change alone':
      return outcome === 'came home'
        ? `No dip can be seen at this noise; the stage change to ${hold} at ${step} shows that it came home, if an end switch made it.`
        : `The current fell to ${hold} at ${step}, but ${noDip} is in the trace. An end switch would show that it came home; a timer shows nothing.`;
    case 'dip and timer':
      return `Came home at ${dip}. The current was reduced to ${hold} at ${step}, so long after that a timer made the step, or an end switch that hangs.`;
    case 'timer without dip':
      return outcome === 'never came home'
        ? `Never came home, by all that can be seen: ${noDip}, and the step to ${hold} at ${step} is a timer's, which knows nothing of the plunger.`
        : `Cannot be told: the step to ${hold} at ${step} is a timer's, which knows nothing of the plunger, and no clear dip stands before it.`;
    case 'dip without stage change':
      return `The plunger stopped at ${dip}, but the heavy current of ${ampWords(found.last_A)} stayed on: it was stopped short of home, or the end switch does not open. The coil burns if that lasts.`;
    case 'rose and stayed':
      return `Never came home: the current rose smoothly to ${ampWords(found.last_A)} and stayed there.`;
    case 'seen too short':
      return `Cannot be told: only ${msWords(found.seen_s)} with current were seen, and it had not come to rest. Record longer.`;
    case 'too noisy':
      return `Cannot be told: a dip of less than ${ampWords(found.visibleDip_A)} would not be seen in this trace.`;
    case 'doubtful dip':
      return `Cannot be told: what may be a dip at ${dip} hardly stands out, and no stage change follows.`;
    case 'bend only':
      return `Cannot be told: the current only bends at ${since(found.bend_s ?? 0)}, without a dip. A slow landing may look like that.`;
    case 'went back to heavy':
      return `Dropped out: after the stage change at ${step} the heavy current came back and stayed.`;
    case 'end switch chatters':
      return `The end switch chatters: after ${step} the heavy current came back ${found.reclosings_s.length} times. The plunger is not held firmly home.`;
    case 'switch-on not seen':
      return 'Cannot be told: the trace begins with the current already on. Start recording before switching on.';
  }
}

/** What to mind when reading the result. */
export function traceCautions(trace: Trace, found: Found, outcome: TraceOutcome): string[] {
  const cautions = [...trace.cautions];
  const on = found.on_s ?? trace.time[0];
  if (found.reversed)
    cautions.push('The current is negative: the clamp sits the wrong way round. It was read reversed.');
  if (found.clipped_A !== null)
    cautions.push(
      `The recording is cut off at ${ampWords(found.clipped_A)}: what lies above is not known. Choose a wider range.`,
    );
  if (trace.interval_s > 5e-4)
    cautions.push(
      `One sample every ${msWords(trace.interval_s)} is slow for a dip of a few milliseconds: record at least 2 samples a millisecond.`,
    );
  if (found.offsetFrom !== 'before switch-on')
    cautions.push(
      found.offsetFrom === 'after switch-off'
        ? 'There is no quiet stretch before switch-on: the zero of the clamp was taken after switch-off.'
        : 'There is no quiet stretch before switch-on: the zero of the clamp was taken as it stands.',
    );
  if (found.pulses > 1) cautions.push(`The current is switched on ${found.pulses} times: only the first is read.`);
  if (found.contactBounces_s.length > 0)
    cautions.push(
      `A contact bounces at switch-on (${found.contactBounces_s.length === 1 ? 'once' : `${found.contactBounces_s.length} times`}).`,
    );
  if (found.interruptions_s.length > 0)
    cautions.push(
      `The current was interrupted ${found.interruptions_s.length === 1 ? 'once' : `${found.interruptions_s.length} times`}, first at ${msWords(found.interruptions_s[0] - on)}: look for a loose contact.`,
    );
  if (found.supplyDips_s.length > 0)
    cautions.push(
      `The current sagged and came back ${found.supplyDips_s.length === 1 ? 'once' : `${found.supplyDips_s.length} times`}, first at ${msWords(found.supplyDips_s[0] - on)}: the supply, not the plunger.`,
    );
  if (found.sag > 0.05)
    cautions.push(`The steady current sank by ${Math.round(100 * found.sag)} %: the supply sags, or the coil warms.`);
  if (found.reclosings_s.length === 1 && outcome.outcome === 'came home')
    cautions.push('The end switch closed once more after it had opened.');
  const gap = trace.gaps.find(
    ({ from_s, to_s }) => found.on_s !== null && to_s > found.on_s && from_s < found.on_s + 0.5,
  );
  if (gap !== undefined) cautions.push('A gap in the times lies within the pull-in: what happened in it is not known.');
  if (outcome.reason === 'dip' || outcome.reason === 'dip and timer')
    cautions.push(
      'A dip shows that the plunger stopped, not where: a lever that meets its hard stop first leaves the same dip. Check the gap at home.',
    );
  return cautions;
}
