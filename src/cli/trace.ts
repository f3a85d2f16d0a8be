/** `stopwright trace`: what a recorded current shows of a pull-in. */
import { createReadStream } from 'node:fs';
import { compareWithPrediction, comparedWords, type Compared } from '../diagnosis/trace/compare.ts';
import type { Outcome } from '../diagnosis/trace/outcome.ts';
import { coilKnown, predictedEvents, type PredictedEvents } from '../diagnosis/trace/predicted.ts';
import { reportOf, type TraceReport } from '../diagnosis/trace/report.ts';
import type { Trace, TraceOptions, TraceReading } from '../diagnosis/trace/trace.ts';
import { TraceReader } from '../diagnosis/trace/trace-reader.ts';
import { ampWords, msWords } from '../diagnosis/trace/words.ts';
import type { Job } from '../job/schema.ts';
import { readQuantity } from '../units/quantity.ts';
import { UNREADABLE, WRONG_USAGE } from './exit-codes.ts';
import { jobFrom } from './job-file.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';

export interface TraceCommandOptions {
  readonly channel?: string;
  readonly ampsPerVolt?: string;
  readonly interval?: string;
  readonly json?: boolean;
}

const WIDTH = 80;
const CAUTION =
  'Isolate fuel and battery before hands go near the lever. A trace supports, and never replaces, a look at the gap at home and the judgement of a competent person.';

export async function traceCommand(
  path: string,
  jobPath: string | undefined,
  options: TraceCommandOptions,
): Promise<number> {
  const wanted = traceOptions(options);
  if (typeof wanted === 'string') return refuse(WRONG_USAGE, wanted);
  if (path === '-' && jobPath === '-') return refuse(WRONG_USAGE, 'Only one of the two can come from standard input.');
  let job: Job | null = null;
  if (jobPath !== undefined) {
    const file = jobFrom(jobPath);
    if (!file.ok) return refuse(UNREADABLE, file.reason);
    job = file.job;
  }
  const read = await traceFrom(path, wanted);
  if (typeof read === 'string') return refuse(UNREADABLE, read);
  if (!read.ok) return refuse(UNREADABLE, refusalWords(path, read));
  const report = reportOf(read.trace, job === null ? null : coilKnown(job));
  const predicted = job === null ? null : predictedEvents(job);
  const compared = predicted === null || report.found === null ? [] : compareWithPrediction(report.found, predicted);
  const paint = paintFor(process.stdout.isTTY, process.env['NO_COLOR']);
  const text =
    options.json === true
      ? `${JSON.stringify(asJson(read.trace, report, predicted, compared), null, 2)}\n`
      : inWords(path, read.trace, report, job, predicted, compared, paint);
  await new Promise<void>((resolve, reject) =>
    process.stdout.write(text, (error) => (error ? reject(error) : resolve())),
  );
  return exitCode(report);
}

const codes: Readonly<Record<Outcome, number>> = {
  'came home': 0,
  chatters: 2,
  'end switch did not work': 2,
  'never came home': 2,
  'dropped out': 2,
  'not known': 3,
};

/** 0 came home, 1 came home but not for sure, 2 did not, 3 cannot be told. */
function exitCode({ outcome: { outcome, confidence } }: TraceReport): number {
  return outcome === 'came home' && confidence < 0.65 ? 1 : codes[outcome];
}

function traceOptions({ channel, ampsPerVolt, interval }: TraceCommandOptions): TraceOptions | string {
  const options: { channel?: string; ampsPerVolt?: number; interval_s?: number } = {};
  if (channel !== undefined) options.channel = channel;
  if (ampsPerVolt !== undefined) {
    const value = Number(ampsPerVolt.replace(',', '.'));
    if (!(value > 0) || !Number.isFinite(value))
      return `amps per volt: ${plain(ampsPerVolt)} is not a number above zero. A clamp of 100 mV/A gives 10.`;
    options.ampsPerVolt = value;
  }
  if (interval !== undefined) {
    const read = readQuantity(interval, 'time');
    if (!read.ok) return `interval: ${plain(read.problem)}`;
    if (!(read.quantity.value > 0)) return 'interval: it must be above zero';
    options.interval_s = read.quantity.value;
  }
  return options;
}

async function traceFrom(path: string, options: TraceOptions): Promise<TraceReading | string> {
  const reader = new TraceReader(options);
  const stream = path === '-' ? process.stdin : createReadStream(path, { highWaterMark: 1 << 20 });
  try {
    for await (const chunk of stream) {
      reader.push(chunk as Uint8Array);
      if (reader.isRefused) break;
    }
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    const known: Readonly<Record<string, string>> = {
      ENOENT: 'there is no such file',
      EISDIR: 'that is a folder',
      EACCES: 'this user may not read it',
    };
    return `Cannot read ${plain(path)}: ${known[code] ?? code}.`;
  }
  return reader.end();
}

function refusalWords(path: string, { problems, channels }: TraceReading & { ok: false }): string {
  const name = path === '-' ? 'The trace on standard input' : plain(path);
  const lines = problems.map(({ row, read, problem }) => {
    const where = row === null ? '' : `row ${row}: `;
    const what = read === '' ? '' : `read "${plain(read)}": `;
    return wrapped(`${where}${what}${plain(problem)}`, WIDTH, '  ', '      ');
  });
  const hints: string[] = [];
  if (channels.length > 0) hints.push('  Choose with --channel NAME, or its number counted from 1.');
  if (problems.some(({ problem }) => problem.includes('one volt of the clamp')))
    hints.push('  Say it with --amps-per-volt X: a clamp of 100 mV/A gives 10.');
  if (problems.some(({ problem }) => problem.includes('say the interval')))
    hints.push('  Say it with --interval, as in --interval "0.1 ms".');
  return [`${name} cannot be used.`, ...lines, ...hints].join('\n');
}

function inWords(
  path: string,
  trace: Trace,
  report: TraceReport,
  job: Job | null,
  predicted: PredictedEvents | null,
  compared: readonly Compared[],
  paint: Paint,
): string {
  const { outcome, events, cautions, sentence } = report;
  const colour = { 0: paint.good, 1: paint.warn, 2: paint.bad, 3: paint.warn }[exitCode(report)] ?? paint.warn;
  const lines = [paint.strong(plain(path === '-' ? 'Trace on standard input' : path).slice(0, WIDTH)), ''];
  lines.push(
    colour(`${outcome.outcome} (${Math.round(100 * outcome.confidence)} %)`),
    wrapped(plain(sentence), WIDTH, '    ', '    '),
  );
  if (events.length > 0) lines.push('', paint.strong('Events, counted from switch-on'));
  for (const { what, sinceOn_s, time_s, words } of events)
    lines.push(
      wrapped(
        `${(sinceOn_s === null ? msWords(time_s) : msWords(sinceOn_s)).padStart(10)}  ${what}: ${words}`,
        WIDTH,
        '',
        ' '.repeat(14),
      ),
    );
  if (job !== null) {
    lines.push('', paint.strong(`Beside the job: ${plain(job.name)}`.slice(0, WIDTH)));
    if (predicted === null) lines.push('  Its times are not known; stopwright motion says which readings to take.');
    else
      lines.push(
        wrapped(plain(predicted.corner), WIDTH, '  ', '  '),
        ...compared.map((one) => wrapped(comparedWords(one), WIDTH, '  ', '      ')),
      );
  }
  if (cautions.length > 0)
    lines.push('', paint.strong('Mind'), ...cautions.map((one) => wrapped(plain(one), WIDTH, '  ', '      ')));
  lines.push(
    '',
    paint.strong('Read as'),
    ...readAsLines(trace, report).map((line) => wrapped(plain(line), WIDTH, '  ', '      ')),
    '',
    wrapped(CAUTION, WIDTH, '', ''),
    '',
  );
  return lines.map((line) => line.trimEnd()).join('\n');
}

function readAsLines({ readAs, samplesRead, interval_s, time }: Trace, { found }: TraceReport): string[] {
  const { timeColumn, timeUnit, currentColumn, currentUnit, ampsPerVolt, separator, decimal, headerLines } = readAs;
  const interval =
    interval_s < 1e-4
      ? `${Number((1e6 * interval_s).toPrecision(4))} microseconds`
      : `${Number((1e3 * interval_s).toPrecision(4))} ms`;
  const lines = [
    `${samplesRead} samples every ${interval}, ${msWords(time[time.length - 1] - time[0])} in all`,
    `time: ${timeColumn === null ? 'from the interval' : `column "${timeColumn}" in ${timeUnit}`}; current: column "${currentColumn}" in ${currentUnit}${ampsPerVolt === null ? '' : `, ${Number(ampsPerVolt.toPrecision(6))} A per V`}`,
    `separator: ${separator}; decimal ${decimal}; ${headerLines === 1 ? 'one line' : `${headerLines} lines`} before the first sample`,
  ];
  if (found !== null)
    lines.push(
      `noise ${ampWords(found.noise_A)}, offset ${ampWords(found.offset_A)}${found.hum === null ? '' : `, hum ${ampWords(found.hum.amplitude_A)} at ${Number(found.hum.frequency_Hz.toPrecision(3))} Hz taken off`}`,
    );
  return lines;
}

function asJson(trace: Trace, report: TraceReport, predicted: PredictedEvents | null, compared: readonly Compared[]) {
  const { outcome, sentence, events, cautions, found } = report;
  return {
    format: 'stopwright trace',
    version: 1,
    outcome: outcome.outcome,
    reason: outcome.reason,
    confidence: outcome.confidence,
    home_s: outcome.home_s,
    sentence,
    events,
    cautions,
    found,
    predicted,
    compared,
    readAs: { ...trace.readAs, samples: trace.samplesRead, interval_s: trace.interval_s },
  };
}

function refuse(code: number, words: string): number {
  process.stderr.write(`${words}\n`);
  return code;
}
