/** The end of reading: columns taken from the blocks, times with too few digits spread evenly, what is odd said. */
import { fromSI } from '../../units/quantity.ts';
import type { Layout } from './layout.ts';
import type { Samples } from './samples.ts';
import type { Trace, TraceProblem, TraceReading } from './trace.ts';

export interface ReadingNotes {
  readonly samplesRead: number;
  readonly leftOut: readonly TraceProblem[];
  readonly missing: number;
  readonly firstMissing: number;
}

/** Fewer samples than this show nothing. */
const LEAST_SAMPLES = 8;
/** Steps longer than this many usual ones are a gap. */
const GAP = 4;
const MOST_GAPS = 10;

export function finishTrace(layout: Layout, samples: Samples, notes: ReadingNotes): TraceReading {
  const averaged = samples.averaged;
  const { time, current } = samples.take();
  const refuse = (problem: string): TraceReading => ({
    ok: false,
    problems: [{ row: null, read: '', problem }],
    channels: [],
  });
  if (time.length === 0) return refuse('There is not one sample in the file that can be read.');
  if (time.length < LEAST_SAMPLES)
    return refuse(`There are only ${time.length} samples: at least ${LEAST_SAMPLES} are needed to show anything.`);
  const cautions = [...layout.cautions];
  for (const { row, read, problem } of notes.leftOut.slice(0, 3))
    cautions.push(`Row ${row} left out: read "${read}", ${problem}.`);
  if (notes.leftOut.length > 3)
    cautions.push(`${notes.leftOut.length === 20 ? '20 or more' : notes.leftOut.length} rows were left out in all.`);
  if (notes.missing > 0)
    cautions.push(
      `${notes.missing === 1 ? 'One sample has' : `${notes.missing} samples have`} no reading, the first in row ${notes.firstMissing}.`,
    );
  if (averaged > 1) cautions.push(`${notes.samplesRead} samples: each ${averaged} neighbours were averaged to one.`);

  const spread = spreadEvenly(time);
  if (spread === 'stuck') return refuse('The times do not rise: every sample stands at the same time.');
  if (spread === 'spread')
    cautions.push('The times have too few digits to tell neighbours apart: samples were spaced evenly.');
  const interval_s = medianStep(time);
  if (!(interval_s > 0))
    return refuse('More than half of the samples share their time with a neighbour: say the interval.');
  const gaps = gapsIn(time, interval_s);
  if (gaps.length > 0) {
    const [{ from_s, to_s }] = gaps;
    const many =
      gaps.length === 1
        ? 'There is a gap'
        : `There are ${gaps.length === MOST_GAPS ? 'ten or more' : gaps.length} gaps`;
    const [length, start] = [to_s - from_s, from_s - time[0]].map((value) =>
      Number(fromSI(value, 'ms').toPrecision(4)),
    );
    cautions.push(
      `${many} in the times${gaps.length === 1 ? '' : ', the longest'} of ${length} ms, ${start} ms after the first sample.`,
    );
  }
  const trace: Trace = {
    readAs: layout.readAs,
    time,
    current,
    samplesRead: notes.samplesRead,
    interval_s,
    gaps,
    cautions,
  };
  return { ok: true, trace };
}

/**
 * Times printed with too few digits stand still and then jump. Where they are otherwise evenly spaced (no time further
 * than one jump from the straight line), they are put on that line.
 */
function spreadEvenly(time: Float64Array): 'as they were' | 'spread' | 'stuck' {
  const n = time.length;
  let repeated = 0;
  let largest = 0;
  for (let k = 1; k < n; k++) {
    const step = time[k] - time[k - 1];
    if (step === 0) repeated++;
    if (step > largest) largest = step;
  }
  if (largest === 0) return 'stuck';
  if (repeated === 0) return 'as they were';
  const slope = (time[n - 1] - time[0]) / (n - 1);
  for (let k = 0; k < n; k++) if (Math.abs(time[k] - time[0] - slope * k) > 1.01 * largest) return 'as they were';
  const start = time[0];
  for (let k = 0; k < n; k++) time[k] = start + slope * k;
  return 'spread';
}

function medianStep(time: Float64Array): number {
  const stride = Math.max(1, Math.floor(time.length / 20_001));
  const steps: number[] = [];
  for (let k = 1; k < time.length; k += stride) steps.push(time[k] - time[k - 1]);
  return steps.sort((a, b) => a - b)[steps.length >> 1];
}

function gapsIn(time: Float64Array, interval_s: number): { from_s: number; to_s: number }[] {
  const gaps: { from_s: number; to_s: number }[] = [];
  for (let k = 1; k < time.length; k++) {
    if (time[k] - time[k - 1] > GAP * interval_s) {
      gaps.push({ from_s: time[k - 1], to_s: time[k] });
      if (gaps.length > 4 * MOST_GAPS) gaps.sort(longestFirst).splice(MOST_GAPS);
    }
  }
  return gaps.sort(longestFirst).slice(0, MOST_GAPS);
}

function longestFirst(a: { from_s: number; to_s: number }, b: { from_s: number; to_s: number }): number {
  return b.to_s - b.from_s - (a.to_s - a.from_s);
}
