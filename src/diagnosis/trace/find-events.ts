/**
 * What happened in a recorded current: switch-on, the plunger's landing, the stage change, switch-off. docs/current-trace.md
 * describes the method. Everything here is measured from the trace alone; what it means for an installation is said in
 * `outcome.ts`.
 */
import { clippedAt } from './clipping.ts';
import { fallsOf, type Fall } from './falls.ts';
import { bendUpward } from './coil-limits.ts';
import type { Context } from './context.ts';
import { judge, type Landing, type StageChange } from './judge.ts';
import { colourOf, noiseOf, spreadOver, stepOf, takeOffHum, type Hum } from './noise.ts';
import { firstPulse, oddWidth, type Pulse } from './pulse.ts';
import { median, signalOf, smoothed, type Signal } from './signal.ts';
import type { Trace } from './trace.ts';

export interface Found {
  /** On the clock of the trace, s; null where the trace does not show it. */
  readonly on_s: number | null;
  readonly onPlusMinus_s: number;
  readonly off_s: number | null;
  readonly landing: Landing | null;
  /** Small dips shortly after the landing. */
  readonly landingBounces_s: readonly number[];
  /** An upward bend without a fall, which may be a soft landing. */
  readonly bend_s: number | null;
  readonly stage: StageChange | null;
  /** The current went back from hold to heavy. */
  readonly reclosings_s: readonly number[];
  /** The heavy current was back and stayed. */
  readonly endsHeavy: boolean;
  readonly contactBounces_s: readonly number[];
  readonly interruptions_s: readonly number[];
  /** Falls that came back and are neither landing nor switch. */
  readonly supplyDips_s: readonly number[];
  /** Share by which the current sank slowly from its greatest steady value. */
  readonly sag: number;
  readonly pulses: number;
  readonly offset_A: number;
  readonly offsetFrom: Pulse['offsetFrom'];
  readonly noise_A: number;
  readonly converterStep_A: number;
  readonly hum: Hum | null;
  /** The least dip that would have been seen, A. */
  readonly visibleDip_A: number;
  readonly peak_A: number;
  /** Steady current at the end of the pulse, A. */
  readonly last_A: number;
  /** Whether that current had come to rest. */
  readonly settled: boolean;
  /** Length of the pulse that was seen, s. */
  readonly seen_s: number;
  readonly clipped_A: number | null;
  readonly reversed: boolean;
  readonly interval_s: number;
}

/** Points that the finder works on at once. */
const MOST_POINTS = 40_000;
/** After this time from switch-on nothing of a pull-in is looked for at full fineness, s. */
const FINE_S = 3;
const CONTACT_BOUNCE_S = 0.015;

/** Null where no current is ever switched on. */
export function findEvents(trace: Trace): Found | null {
  const begin = trace.time[0];
  const end = trace.time[trace.time.length - 1];
  const whole = signalOf(trace, begin, end, MOST_POINTS);
  const reversed = isReversed(whole.x);
  const converterStep = stepOf(trace.current);
  const rough = examine(whole, trace, reversed, converterStep);
  if (rough === null || whole.each < 1.5 || whole.step < 1e-4) return rough;
  // The same once more, closer: from shortly before switch-on for as long as a pull-in may take.
  const on = rough.on_s ?? begin;
  const from = Math.max(begin, on - 0.2);
  const to = Math.min(end, (rough.off_s ?? end) + 0.1, on + FINE_S);
  const fine = examine(signalOf(trace, from, to, MOST_POINTS), trace, reversed, converterStep);
  if (fine === null) return rough;
  const isCut = to < (rough.off_s ?? end);
  return {
    ...fine,
    pulses: rough.pulses,
    off_s: rough.off_s,
    ...(isCut
      ? {
          stage: fine.stage ?? rough.stage,
          reclosings_s: [...fine.reclosings_s, ...rough.reclosings_s.filter((t) => t > to)],
          interruptions_s: [...fine.interruptions_s, ...rough.interruptions_s.filter((t) => t > to)],
          endsHeavy: rough.endsHeavy,
          last_A: rough.last_A,
          settled: rough.settled,
          seen_s: rough.seen_s,
          sag: rough.sag,
        }
      : {}),
  };
}

function isReversed(x: Float64Array): boolean {
  const sorted = Float64Array.from(x).sort();
  const high = sorted[Math.floor(0.995 * (sorted.length - 1))];
  const low = sorted[Math.floor(0.005 * (sorted.length - 1))];
  return -low > Math.max(high, 0);
}

function examine(signal: Signal, trace: Trace, reversed: boolean, converterStep: number): Found | null {
  const { x, step, start } = signal;
  if (reversed) for (let k = 0; k < x.length; k++) x[k] = -x[k];
  // Noise smaller than the converter's step no longer stirs it: readings stick to a step, and no mean gets between.
  const sticks = noiseOf(x) * Math.sqrt(signal.each) < 0.5 * converterStep;
  let noise = noiseFloor(x, converterStep, signal.each);
  // Until hum is off, it may pass for a small current.
  const roughly = firstPulse(signal, noise, 0.03);
  if (roughly === null) return null;
  const hum = takeOffHum(signal, quietStretches(signal, roughly), noise);
  if (hum !== null) noise = noiseFloor(x, converterStep, signal.each);
  const pulse = firstPulse(signal, noise);
  if (pulse === null) return null;
  const before = Math.floor((pulse.on ?? 0) - 3);
  let colour = 1;
  if (before > 30) {
    noise = Math.max(noise, spreadOver(x, 0, before));
    colour = colourOf(x, 0, before, noise);
  }
  for (let k = 0; k < x.length; k++) x[k] -= pulse.offset;

  const peak = pulse.top;
  const width = oddWidth(Math.min(0.002 / step, ((7 * noise * colour) / (0.015 * peak)) ** 2));
  const residue = Math.max((noise * colour) / Math.sqrt(width), sticks ? 0.3 * converterStep : 0);
  const least = Math.max(7 * residue, 0.012 * peak);
  const y = smoothed(x, width);
  const last = Math.max(pulse.from, Math.floor((pulse.off ?? pulse.to) - width / 2));
  const seconds = (point: number): number => start + point * step;

  const bounces = pulse.interruptions.filter(({ from }) => (from - pulse.from) * step < CONTACT_BOUNCE_S);
  const settledAt = bounces.length === 0 ? pulse.from : (bounces.at(-1)?.to ?? pulse.from);
  const interruptions = pulse.interruptions.filter((one) => !bounces.includes(one));
  const isInterrupted = ({ top, ninety }: Fall): boolean =>
    pulse.interruptions.some(({ from, to }) => from <= ninety + width && to >= top);
  const falls = fallsOf(y, settledAt, last, least).filter((fall) => !isInterrupted(fall));
  const breakWidth = Math.max(3, Math.round(0.003 / step), Math.ceil(width / 2));
  const context: Context = {
    x,
    y,
    step,
    width,
    residue,
    noise,
    least,
    breakWidth,
    peak,
    stairs: sticks ? converterStep : 0,
    from: pulse.from,
    last,
    seconds,
    clipped: null,
  };
  const clipped = clippedAt(
    x,
    pulse.from,
    last,
    Math.max(noise, converterStep / 4),
    converterStep,
    Math.max(5, Math.round(0.001 / step)),
  );
  const judged = judge(falls, { ...context, clipped });

  // A step shortly before the end of the trace is the beginning of the end: what follows is too short for a hold.
  const atEnd =
    pulse.off === null && judged.stage !== null && isAtEnd(judged.stage.time_s, seconds(pulse.from), seconds(last));
  const stage = atEnd ? null : judged.stage;
  const offTime = atEnd ? judged.stage.time_s : pulse.off === null ? null : seconds(pulse.off);
  const ends = atEnd ? Math.max(pulse.from + 1, Math.floor((judged.stage.time_s - start) / step - width)) : last;
  const begins = Math.max(pulse.from, stage === null ? 0 : Math.ceil((stage.time_s - start) / step) + 1);
  const untilStage =
    stage === null ? ends : Math.max(pulse.from, Math.floor((stage.time_s - start) / step - width - 0.004 / step));
  const tail = y.subarray(
    Math.max(begins, ends - Math.max(4, Math.floor(0.15 * (ends - pulse.from)))),
    Math.max(begins, ends) + 1,
  );
  const lastLevel = median(tail);
  const drift = Math.abs(median(tail.subarray(tail.length >> 1)) - median(tail.subarray(0, (tail.length >> 1) + 1)));
  return {
    on_s: pulse.on === null ? null : seconds(pulse.on),
    onPlusMinus_s: pulse.onPlusMinus * step,
    off_s: offTime,
    ...judged,
    stage,
    bend_s: judged.landing === null ? bendUpward({ ...context, last: untilStage }) : null,
    endsHeavy: stage !== null && lastLevel > stage.hold_A + 0.6 * (stage.heavy_A - stage.hold_A),
    contactBounces_s: [...bounces.map(({ from }) => seconds(from)), ...judged.quickBreaks_s].sort((a, b) => a - b),
    interruptions_s: interruptions.map(({ from }) => seconds(from)),
    sag: stage === null ? sagOf(y, pulse.from, ends, lastLevel, peak) : 0,
    pulses: 1 + pulse.more,
    offset_A: pulse.offset,
    offsetFrom: pulse.offsetFrom,
    noise_A: noise,
    converterStep_A: converterStep,
    hum,
    visibleDip_A: least,
    peak_A: peak,
    last_A: lastLevel,
    settled: drift < Math.max(0.02 * peak, 3 * residue),
    seen_s: (ends - pulse.from) * step,
    clipped_A: clipped === null ? null : clipped + pulse.offset,
    reversed,
    interval_s: trace.interval_s,
  };
}

/** Whether less than 0.12 s and less than a sixth of the pulse is seen after `at`. */
function isAtEnd(at: number, from: number, to: number): boolean {
  return to - at < 0.12 && to - at < (to - from) / 6;
}

function noiseFloor(x: Float64Array, converterStep: number, each: number): number {
  return Math.max(noiseOf(x), converterStep / Math.sqrt(12 * each));
}

/** Before switch-on, the last third before switch-off, after switch-off: where only noise and hum should be. */
function quietStretches({ x }: Signal, { on, from, to, off }: Pulse) {
  const third = Math.floor((to - from) / 3);
  return [
    { from: 0, to: Math.floor((on ?? 0) - 3) },
    { from: to - third, to: Math.floor((off ?? to) - 3) },
    { from: to + Math.max(5, third), to: off === null ? 0 : x.length - 1 },
  ];
}

/** How far the steady current lies below the greatest one before it, as a share, where it sank slowly. */
function sagOf(y: Float64Array, from: number, to: number, lastLevel: number, peak: number): number {
  const quarter = Math.floor((to - from) / 4);
  const early = quarter < 8 ? lastLevel : median(y.subarray(from + quarter, from + 2 * quarter));
  return Math.max(0, (early - lastLevel) / peak);
}
