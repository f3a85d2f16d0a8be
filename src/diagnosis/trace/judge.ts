/** Sorts the falls of the current into landings, stage changes and the rest, and says how far each can be believed. */
import { comesBackFaster, isLate } from './coil-limits.ts';
import type { Context } from './context.ts';
import { cuspNear } from './cusp.ts';
import { breakInside, type Fall } from './falls.ts';
import { threePieces, type ThreePieces } from './landing-before-step.ts';
import { median } from './signal.ts';

export interface Landing {
  readonly time_s: number;
  readonly plusMinus_s: number;
  readonly confidence: number;
  /** Current at the shoulder before and in the dip, A. */
  readonly before_A: number;
  readonly dip_A: number;
}

export interface StageChange {
  readonly time_s: number;
  readonly plusMinus_s: number;
  readonly confidence: number;
  readonly heavy_A: number;
  readonly hold_A: number;
  /** The heavy current had stood still before: nothing moved any more when it fell. */
  readonly afterSteady: boolean;
  /** The current was already sinking faster and faster, as a plunger on its way makes it. */
  readonly whileMoving: boolean;
}

/** A stage change leaves at most this share of the heavy current. */
const MOST_HOLD = 0.85;
/** A quick break of the current that comes back before this time is a contact that bounces, s. */
const BOUNCES_UNTIL_S = 0.01;

interface Judged {
  readonly landing: Landing | null;
  readonly landingBounces_s: readonly number[];
  readonly stage: StageChange | null;
  readonly reclosings_s: readonly number[];
  readonly supplyDips_s: readonly number[];
  readonly quickBreaks_s: readonly number[];
}

/** Sorts the falls into landings, stage changes and the rest. */
export function judge(falls: readonly Fall[], context: Context): Judged {
  const { seconds, step, from } = context;
  const landings: { landing: Landing; top: number }[] = [];
  const steps: Fall[] = [];
  const supplyDips: number[] = [];
  const quickBreaks: number[] = [];
  for (const fall of falls) {
    const comesBack = fall.rise > 0.4 * fall.drop;
    const isEarly = (fall.top - from) * step < BOUNCES_UNTIL_S;
    if (isEarly && comesBack && (isAbrupt(fall, context) || fall.bend < 0.44)) {
      quickBreaks.push(seconds(fall.tenth));
      continue;
    }
    // What is sampled too slowly to have a shape, and comes back before any stage change, is a landing if anything.
    const isShapeless =
      comesBack && steps.length === 0 && fall.ninety - fall.tenth < 4 && fall.high < 0.97 * context.peak + fall.low;
    const landing = landingIn(fall, context);
    if (
      !isShapeless
      && isStep(fall, fall === falls.at(-1), context)
      && (landing === null || landing.confidence < 0.5)
    ) {
      steps.push(fall);
      continue;
    }
    if (landing !== null && landing.confidence > 0.05) landings.push({ landing, top: fall.top });
    else if (comesBack) supplyDips.push(seconds(fall.tenth));
  }
  const first = steps[0];
  const beforeStep = first === undefined ? landings : landings.filter(({ top }) => top <= first.top);
  const pieces = first === undefined ? null : piecesOf(first, context);
  const stage = first === undefined ? null : stageOf(first, pieces, context);
  if (pieces !== null && stage?.afterSteady === false && !beforeStep.some(({ landing }) => landing.confidence >= 0.3)) {
    const landing = landingAtStep(first, pieces, context);
    if (landing !== null) beforeStep.push({ landing, top: first.top });
  }
  const sure = beforeStep.find(({ landing }) => landing.confidence >= 0.5);
  const chosen = sure ?? beforeStep.toSorted((a, b) => b.landing.confidence - a.landing.confidence)[0];
  const after =
    chosen === undefined
      ? []
      : landings.filter(({ top }) => top > chosen.top && (first === undefined || top < first.top));
  return {
    landing: chosen?.landing ?? null,
    landingBounces_s: after.map(({ landing }) => landing.time_s),
    stage,
    reclosings_s: steps.filter(({ rise, drop }) => rise > 0.6 * drop).map(({ next }) => seconds(next)),
    supplyDips_s: supplyDips,
    quickBreaks_s: quickBreaks,
  };
}

/** What a parabola and an exponential miss of a real current, as a share of it; a clean trace proves no more than that. */
const MODEL_ERROR = 0.002;

/** The three pieces around a stage change. */
function piecesOf(fall: Fall, { x, y, step, width, noise, peak, from: begin }: Context): ThreePieces | null {
  const about = steepest(y, fall, Math.max(1, Math.round(0.001 / step)));
  const near = Math.max(2, width, 0.005 / step);
  // A current that dies away began to before its first tenth was gone, however noisy the place where it is steepest.
  const isDecay = fall.bend < 0.36 && !isAbrupt(fall, { width });
  const earliest = isDecay ? Math.min(about - near, fall.tenth - near) : about - near;
  const first = isDecay
    ? Math.min(fall.top - Math.max(2, 0.002 / step), earliest)
    : earliest - Math.max(6, 0.007 / step);
  const from = Math.max(begin, Math.floor(first));
  const tailOff = Math.min(0.03 / step, Math.max(0.01 / step, fall.ninety - about));
  const to = Math.min(x.length - 1, fall.bottom, Math.ceil(about + Math.max(5, tailOff)));
  const tail = y.subarray(Math.min(Math.ceil(fall.ninety), fall.bottom), fall.bottom + 1);
  const hold = tail.length > 3 ? median(tail) : fall.low;
  // The time constant, as the time in which what is left above hold falls to its e-th part.
  const start = Math.min(fall.bottom, Math.ceil(about + width));
  const part = hold + (y[start] - hold) / Math.E;
  let end = start;
  while (end < fall.bottom && y[end] > part) end++;
  const decay = Math.max(0.3, end - start);
  return threePieces(
    x,
    from,
    to,
    Math.max(from + 3, earliest),
    about + Math.max(2, width),
    hold,
    decay,
    Math.max(noise, MODEL_ERROR * peak),
  );
}

/** Where the fall is steepest, over `reach` points on both sides. */
function steepest(y: Float64Array, { top, bottom }: Fall, reach: number): number {
  let best = top;
  let most = -Infinity;
  for (let k = top; k <= bottom; k++) {
    const drop = y[Math.max(top, k - reach)] - y[Math.min(bottom, k + reach)];
    if (drop > most) {
      most = drop;
      best = k;
    }
  }
  return best;
}

function highBefore(y: Float64Array, at: number, most: number): number {
  let high = at;
  for (let k = at; k > Math.max(0, at - most); k--) if (y[k] > y[high]) high = k;
  return high;
}

/** The landing that a stage change followed at once: by its cusp, or else by the fall that the plunger's motion made. */
function landingAtStep(
  fall: Fall,
  pieces: ThreePieces,
  { y, step, residue, least, peak, seconds }: Context,
): Landing | null {
  const high = y[highBefore(y, fall.top, Math.round(0.04 / step))];
  const fell = high - pieces.level;
  if (pieces.slopeBefore >= 0 || fell < Math.max(least, 0.03 * peak)) return null;
  const isSeen = pieces.landing !== null && pieces.bend < 0;
  const depth = ramp(fell / Math.max(residue, 1e-12), 6, 14);
  return {
    time_s: seconds(isSeen ? (pieces.landing ?? pieces.step) : pieces.step),
    plusMinus_s: isSeen ? pieces.landingPlusMinus * step : Math.max(2 * step, 0.001),
    // Without a cusp only the sinking current before the step speaks for a plunger on its way.
    confidence: depth * (isSeen ? 0.55 + 0.4 * ramp(pieces.gain, 16, 120) : 0.45),
    before_A: high,
    dip_A: pieces.level,
  };
}

function isAbrupt({ tenth, ninety }: Fall, { width }: Pick<Context, 'width'>): boolean {
  return ninety - tenth <= 1.3 * width + 1.5;
}

/** Longer than this a current does not take to fall to hold, s. */
const SLOWEST_STEP_S = 0.08;

/** Whether a switch made the fall: the current drops to a good deal less, and then stays there for a while. */
function isStep(fall: Fall, isLast: boolean, context: Context): boolean {
  const { step, last } = context;
  if (fall.low > MOST_HOLD * fall.high) return false;
  // A supply that sinks and comes back leaves more than an end switch does.
  if (fall.rise > 0.4 * fall.drop && fall.low > 0.55 * fall.high) return false;
  const duration = fall.ninety - fall.tenth;
  const isConvex = isAbrupt(fall, context) || fall.bend < 0.44;
  const until = fall.next > fall.bottom && !isLast ? fall.next : last;
  const dwells = until - fall.ninety > Math.max(2 * duration, 0.015 / step, 3);
  // A landing that comes back is no step, however steep its end is.
  if (fall.rise > 0.4 * fall.drop) return isConvex;
  return duration * step < SLOWEST_STEP_S && (dwells || isConvex);
}

function stageOf(fall: Fall, pieces: ThreePieces | null, context: Context): StageChange {
  const { y, step, width, breakWidth, residue, peak, seconds } = context;
  const high = y[highBefore(y, fall.top, Math.round(0.04 / step))];
  const moved = pieces !== null && pieces.slopeBefore < 0 && high - pieces.level > context.least;
  const isQuick = isAbrupt(fall, context);
  // A step in one go is blurred alike on both sides; a current that dies away begins where its slope breaks.
  const [at, plusMinus] = isQuick
    ? [(fall.tenth + fall.ninety) / 2, 0.5 + (fall.ninety - fall.tenth) / 2]
    : pieces === null
      ? [Math.min(fall.tenth, breakInside(y, fall, breakWidth)), Math.max(1, breakWidth)]
      : [pieces.step, pieces.stepPlusMinus];
  const look = Math.max(4, Math.round(0.02 / step));
  const from = Math.max(0, Math.floor(fall.tenth) - look - width);
  const stretch = y.subarray(from, Math.max(from + 1, Math.floor(at) - width));
  const spread = stretch.length < 4 ? Infinity : Math.max(...stretch) - Math.min(...stretch);
  const after = y.subarray(Math.ceil(fall.ninety), Math.max(Math.ceil(fall.ninety) + 1, fall.bottom + 1));
  return {
    time_s: seconds(at),
    plusMinus_s: plusMinus * step,
    confidence: 0.97 * ramp(fall.drop / Math.max(residue, 1e-12), 7, 20) * ramp(fall.low / fall.high, MOST_HOLD, 0.7),
    heavy_A: Math.max(fall.low, y[Math.max(fall.top, Math.floor(at - width / 2))]),
    hold_A: after.length > 3 ? median(after) : fall.low,
    afterSteady: spread < Math.max(0.02 * peak, 6 * residue),
    whileMoving: moved,
  };
}

/** The fall as a landing, with how far it can be believed; null where no cusp can be fitted. */
function landingIn(fall: Fall, context: Context): Landing | null {
  const { x, step, width, residue, noise, clipped, seconds, y } = context;
  const points = fall.ninety - fall.tenth;
  const left = Math.max(5, 1.2 * (fall.bottom - fall.half));
  const right = Math.max(4, Math.min(0.008 / step, 1.5 * left, fall.next - fall.bottom));
  const from = Math.max(fall.top, fall.bottom - left);
  // The low of a blurred, noisy cusp lies to its right, where the current comes back slowly.
  const reach = Math.max(width / 2 + 1.5, Math.min(0.6 * left, 0.004 / step));
  const cusp = cuspNear(x, fall.bottom, from, Math.min(fall.bottom + right, x.length - 1), reach, noise);
  if (cusp === null) return null;
  const usualSlope = (0.8 * fall.drop) / Math.max(points, 0.5);
  const sharpness = (cusp.slopeAfter - cusp.slopeBefore) / usualSlope;
  const confidence =
    0.97
    * ramp(Math.min(fall.drop, 2 * fall.rise) / Math.max(residue, 1e-12), 6, 14)
    * ramp(fall.bend, 0.46, 0.56)
    * ramp(sharpness, 0.4, 0.9)
    * ramp(points, 0.5 * width, 1.1 * width + 1)
    // No coil lets its current come back much faster than it first rose; a jump is a contact's or the supply's.
    * ramp(comesBackFaster(fall, context), 4, 2.5)
    * (isLate(fall, context) ? 0.7 : 1)
    // A staircase of few steps has no shape to judge by.
    * (context.stairs > 0 ? ramp(fall.drop / context.stairs, 4, 12) : 1)
    * ramp((2 * cusp.plusMinus) / Math.max(points, 1), 2, 0.7)
    * (clipped !== null && y[fall.top] > 0.97 * clipped ? 0.6 : 1);
  return {
    time_s: seconds(cusp.at),
    plusMinus_s: cusp.plusMinus * step,
    confidence,
    before_A: fall.high,
    dip_A: Math.min(fall.low, cusp.level),
  };
}

/** 0 at `none`, 1 at `full`, straight between; `full` may be the smaller. */
export function ramp(value: number, none: number, full: number): number {
  return Math.min(1, Math.max(0, (value - none) / (full - none)));
}
