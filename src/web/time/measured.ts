/** Reads a recorded current in the worker, piece by piece, and makes of it what can be laid over the reckoned one. */
import type { MeasuredEvent, MeasuredTrace } from '../../assessment/time/picture.ts';
import type { Found } from '../../diagnosis/trace/find-events.ts';
import type { CoilKnown, TraceOutcome } from '../../diagnosis/trace/outcome.ts';
import { comparedWords, compareWithPrediction } from '../../diagnosis/trace/compare.ts';
import type { PredictedEvents } from '../../diagnosis/trace/predicted.ts';
import { reportOf, type TraceReport } from '../../diagnosis/trace/report.ts';
import { TraceReader } from '../../diagnosis/trace/trace-reader.ts';
import type { Trace, TraceProblem, TraceReadAs } from '../../diagnosis/trace/trace.ts';
import { thinned } from './thinned.ts';

export interface MeasureOptions {
  /** Name of the column that is the current. */
  readonly channel?: string;
  /** What one volt of the clamp means. */
  readonly ampsPerVolt?: number;
}

export type MeasuredReading =
  | {
      readonly ok: true;
      readonly trace: MeasuredTrace;
      /** How the file was understood. */
      readonly readAs: string;
    }
  | { readonly ok: false; readonly problems: readonly string[]; readonly channels: readonly string[] };

/** Share of the work that is reading; the rest is looking for events. */
const READING_SHARE = 0.85;

export async function readMeasured(
  file: File,
  options: MeasureOptions,
  coil: CoilKnown | null,
  tell: (share: number) => void,
  predicted: PredictedEvents | null = null,
): Promise<MeasuredReading> {
  const reader = new TraceReader(options);
  const pieces = file.stream().getReader();
  let done = 0;
  for (;;) {
    const { value, done: isEnd } = await pieces.read();
    if (isEnd || reader.isRefused) break;
    reader.push(value);
    done += value.length;
    tell((READING_SHARE * done) / Math.max(1, file.size));
  }
  const reading = reader.end();
  if (!reading.ok) return { ok: false, problems: reading.problems.map(problemWords), channels: reading.channels };
  const { trace } = reading;
  const report = reportOf(trace, coil);
  if (report.found === null) return { ok: false, problems: [report.sentence], channels: [] };
  return { ok: true, trace: measuredOf(file.name, trace, report, report.found, predicted), readAs: readAsWords(trace) };
}

const problemWords = ({ row, read, problem }: TraceProblem): string =>
  `${row === null ? '' : `Row ${row}: `}${problem}${read === '' ? '' : ` (read ${read})`}`;

const separatorWords: Readonly<Record<TraceReadAs['separator'], string>> = {
  comma: 'commas',
  semicolon: 'semicolons',
  tab: 'tabs',
  bar: 'bars',
  spaces: 'spaces',
  none: 'one column',
};

/** "2400 samples; current in column “A” in A, time in column “s” in s; commas between cells, decimal point". */
function readAsWords({ readAs, samplesRead }: Trace): string {
  const { timeColumn, timeUnit, currentColumn, currentUnit, ampsPerVolt, separator, decimal } = readAs;
  const current = `current in column “${currentColumn}” in ${currentUnit}`;
  const clamp = ampsPerVolt === null ? '' : `, ${ampsPerVolt} A for each volt`;
  const time = timeColumn === null ? 'no column of times' : `time in column “${timeColumn}” in ${timeUnit}`;
  return `Read: ${samplesRead} samples; ${current}${clamp}; ${time}; ${separatorWords[separator]}, decimal ${decimal}.`;
}

/** What of a recording is drawn at most, s. */
const LONGEST_S = 10;
const PIECES = 1500;

/** The current without its offset, the right way round, its time from switch-on; events with what they can be believed. */
function measuredOf(
  name: string,
  trace: Trace,
  report: TraceReport,
  found: Found,
  predicted: PredictedEvents | null,
): MeasuredTrace {
  const { time, current } = trace;
  const on = found.on_s ?? time[0] ?? 0;
  const end = Math.min(time[time.length - 1] ?? on, on + LONGEST_S);
  const { time_s, supplyCurrent_A } = thinned(time, current, on, end, PIECES);
  const sign = found.reversed ? -1 : 1;
  return {
    words: name,
    time_s: time_s.map((at) => at - on),
    supplyCurrent_A: supplyCurrent_A.map((amps) => sign * amps - found.offset_A),
    events: eventsOf(found, report.outcome, on),
    findings: [
      report.sentence,
      ...(predicted === null
        ? []
        : compareWithPrediction(found, predicted).map((one) => `${upper(comparedWords(one))}.`)),
    ],
    cautions: report.cautions,
  };
}

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** A dip in which there is less trust than this is no event. */
const LEAST_CONFIDENCE = 0.2;

function eventsOf({ landing, stage, reclosings_s, off_s }: Found, outcome: TraceOutcome, on: number): MeasuredEvent[] {
  const events: MeasuredEvent[] = [];
  if (landing !== null && landing.confidence >= LEAST_CONFIDENCE)
    events.push({
      // Where the full current stays on after the dip, it was stopped short of home.
      kind: outcome.reason === 'dip without stage change' ? 'stalls' : 'comes home',
      time_s: landing.time_s - on,
      confidence: landing.confidence,
    });
  const isTimer = outcome.reason === 'timer without dip' || outcome.reason === 'dip and timer';
  if (stage !== null)
    events.push({
      kind: isTimer ? 'stage changes' : 'end switch works',
      time_s: stage.time_s - on,
      confidence: stage.confidence,
    });
  for (const at of reclosings_s)
    events.push({ kind: 'end switch recloses', time_s: at - on, confidence: stage?.confidence ?? 1 });
  if (off_s !== null) events.push({ kind: 'current off', time_s: off_s - on, confidence: 1 });
  return events.sort((a, b) => a.time_s - b.time_s);
}
