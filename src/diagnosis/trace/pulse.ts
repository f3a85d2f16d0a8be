/** Where the current is on: switch-on, interruptions, switch-off, and what stands before and after. */
import { median, quantile, smoothed, type Signal } from './signal.ts';

export interface Interruption {
  /** Points. */
  readonly from: number;
  readonly to: number;
}

export interface Pulse {
  /** Current without current, A. */
  readonly offset: number;
  readonly offsetFrom: 'before switch-on' | 'after switch-off' | 'taken as zero';
  /** Point of switch-on, with a fraction; null where the trace begins with the current on. */
  readonly on: number | null;
  readonly onPlusMinus: number;
  /** First and last point with current. */
  readonly from: number;
  readonly to: number;
  /** Point of switch-off, with a fraction; null where the trace ends with the current on. */
  readonly off: number | null;
  /** Where the current fell to nothing and came back, shorter than `BREAK_S`. */
  readonly interruptions: readonly Interruption[];
  /** Pulses after this one. */
  readonly more: number;
  /** A, above the offset. */
  readonly top: number;
}

/** A current that stays away longer than this is switched off, not interrupted, s. */
export const BREAK_S = 0.04;

/**
 * The first pulse of the signal; null where the current never rises out of the noise. Less than `leastShare` of the
 * greatest current counts as none.
 */
export function firstPulse({ x, step }: Signal, noise: number, leastShare = 0.008): Pulse | null {
  const n = x.length;
  const width = oddWidth(Math.min(0.001 / step, (noise / (0.004 * range(x) + 1e-30)) ** 2));
  const y = smoothed(x, width);
  const residue = noise / Math.sqrt(width);
  const few = Math.min(5, n);
  const [soon, ends] = [median(x.subarray(0, few)), median(x.subarray(n - few))];
  // A recording that was triggered by the rise itself has only its first sample to show nothing.
  const begins = x[0] + 4 * noise < soon ? x[0] : soon;
  const top = quantile(y, 0.995);
  const low = quantile(y, 0.005);
  if (!(top - low > Math.max(8 * residue, 1e-9))) return null;
  const isOff = (level: number): boolean => level - Math.min(low, 0.05 * top) < 0.2 * (top - Math.min(low, 0.05 * top));
  const startsOff = isOff(begins);
  const endsOff = isOff(ends);

  let first = 0;
  let reached = 0;
  let offset = 0;
  let offsetFrom: Pulse['offsetFrom'] = 'taken as zero';
  if (startsOff) {
    const tenth = begins + 0.1 * (top - begins);
    while (first < n && y[first] < tenth) first++;
    if (first === n) return null;
    reached = first;
    let foot = first;
    const floor = begins + Math.max(4 * residue, leastShare * (top - begins));
    while (foot > 0 && y[foot] > floor) foot--;
    first = foot;
    const before = foot - Math.floor(width / 2) - 1;
    if (before >= 4) {
      offset = mean(x, 0, before);
      offsetFrom = 'before switch-on';
    }
  }
  if (offsetFrom === 'taken as zero' && endsOff && n > 20) {
    offset = median(x.subarray(n - Math.max(5, Math.floor(n / 100))));
    offsetFrom = 'after switch-off';
  }
  const height = top - offset;
  const floor = offset + Math.max(4.5 * residue, 0.01 * height);
  const on = startsOff ? switchOn(y, first, offset, height) : null;

  // A small hold current shows only in a longer mean.
  const longWidth = oddWidth(Math.max(width, 0.01 / step));
  const calm = smoothed(x, longWidth);
  const calmFloor = offset + Math.max((4.5 * noise) / Math.sqrt(longWidth), leastShare * height);
  // The pulse ends where the current stays away. A residue that only flickers about the floor is not a return: the
  // current must come back to a third of what it was shortly before it went.
  const longBreak = Math.max(3, BREAK_S / step);
  const interruptions: Interruption[] = [];
  let to = reached;
  let more = 0;
  for (let k = reached + 1; k < n; k++) {
    if (y[k] > floor) {
      to = k;
      continue;
    }
    const before = y.subarray(Math.max(first, k - Math.ceil(0.06 / step)), k);
    const wasThere = Math.max(...before) - offset;
    const back = nextAbove(y, k, Math.max(offset + 0.3 * wasThere, floor));
    if (back - k < longBreak && back < n && wasThere > 2 * (floor - offset)) {
      const stays = Math.max(3, Math.round(0.003 / step));
      if (back - k >= 2 && mean(y, back, Math.min(n - 1, back + stays)) > offset + 0.25 * wasThere)
        interruptions.push({ from: k, to: back });
      k = to = back;
      continue;
    }
    if (calm[k] > calmFloor) {
      to = k;
      continue;
    }
    more = pulsesAfter(y, k, offset + 0.1 * height, longBreak);
    break;
  }
  const isCutOff = to >= n - 1 - Math.floor(width / 2);
  const off = isCutOff && !fallsAtEnd(y, first, to, offset) ? null : switchOff(y, first, to, offset, residue);
  return {
    offset,
    offsetFrom,
    on,
    onPlusMinus: Math.max(0.5, width / 2),
    from: first,
    to,
    off,
    interruptions: interruptions.filter(({ from }) => off === null || from < off),
    more,
    top: height,
  };
}

function nextAbove(y: Float64Array, from: number, level: number): number {
  let k = from;
  while (k < y.length && y[k] <= level) k++;
  return k;
}

/** Stretches above the level, counted once where less than `apart` points part them. */
function pulsesAfter(y: Float64Array, from: number, level: number, apart: number): number {
  let count = 0;
  let lastAbove = -Infinity;
  for (let k = from; k < y.length; k++) {
    if (y[k] <= level) continue;
    if (k - lastAbove > apart) count++;
    lastAbove = k;
  }
  return count;
}

/** Straight back from where the rise passes 4 and 12 %: the rise of a coil begins straight. */
function switchOn(y: Float64Array, foot: number, offset: number, height: number): number {
  const crossing = (share: number): number => {
    const level = offset + share * height;
    let k = foot;
    while (k < y.length - 1 && y[k + 1] < level) k++;
    const rise = y[k + 1] - y[k];
    return k === foot && y[foot] >= level ? foot : k + (rise > 0 ? Math.min(1, Math.max(0, (level - y[k]) / rise)) : 0);
  };
  const [early, late] = [crossing(0.04), crossing(0.12)];
  return Math.max(foot === 0 ? 0 : foot - 1, Math.min(early, early - (late - early) / 2));
}

/** The last point that still stands at the level before the fall. */
function switchOff(y: Float64Array, from: number, to: number, offset: number, residue: number): number {
  const level = levelBefore(y, from, to) - offset;
  const share = Math.max(0.5, 1 - Math.max(0.07, (4 * residue) / Math.max(level, 1e-30)));
  let k = to;
  while (k > from && y[k] - offset < share * level) k--;
  return k;
}

function levelBefore(y: Float64Array, from: number, to: number): number {
  const tail = Math.max(from, to - Math.max(3, Math.floor(0.4 * (to - from))));
  return median(y.subarray(tail, to + 1));
}

/** Whether the trace stops while the current is still dying away: well below its level, and not yet flat. */
function fallsAtEnd(y: Float64Array, from: number, to: number, offset: number): boolean {
  const level = levelBefore(y, from, to) - offset;
  const end = y[to] - offset;
  if (end > 0.7 * level) return false;
  let onset = to;
  while (onset > from && y[onset] - offset < 0.93 * level) onset--;
  // Next to nothing, a short while before the end of the trace, is the tail of a current switched off.
  if (end < 0.25 * level && to - onset < 0.15 * (to - from)) return true;
  const back = Math.max(2, Math.floor(0.3 * (to - onset)));
  return y[Math.max(from, to - back)] - y[to] > 0.06 * level;
}

export function oddWidth(points: number): number {
  return Number.isFinite(points) ? 2 * Math.floor(Math.max(0, Math.min(points, 2001)) / 2) + 1 : 1;
}

function mean(x: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let k = from; k <= to; k++) sum += x[k];
  return sum / (to - from + 1);
}

function range(x: Float64Array): number {
  return quantile(x, 0.99) - quantile(x, 0.01);
}
