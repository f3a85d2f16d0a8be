/** A stretch of the trace on an even grid, and the sums over it that the finder lives on. */
import type { Trace } from './trace.ts';

export interface Signal {
  /** Time of the first point, s. */
  readonly start: number;
  /** s between points. */
  readonly step: number;
  /** A. */
  readonly x: Float64Array;
  /** Samples of the trace in one point, 1 or more. */
  readonly each: number;
}

/**
 * From `from` to `to` in at most `most` points. Where the trace has more samples each point is the mean of its share;
 * otherwise it is read off between the two neighbours, which changes nothing where the samples are even.
 */
export function signalOf({ time, current, interval_s }: Trace, from: number, to: number, most: number): Signal {
  const start = Math.max(from, time[0]);
  const end = Math.min(to, time[time.length - 1]);
  const step = Math.max(interval_s, (end - start) / (most - 1));
  const n = Math.max(1, Math.floor((end - start) / step + 1.0001));
  const x = new Float64Array(n);
  const each = step / interval_s;
  let at = firstAtOrAfter(time, start - step / 2);
  for (let k = 0; k < n; k++) {
    const t = start + k * step;
    let sum = 0;
    let count = 0;
    if (each >= 1.5) for (; at < time.length && time[at] < t + step / 2; at++, count++) sum += current[at];
    if (count > 0) x[k] = sum / count;
    else {
      while (at < time.length - 1 && time[at] < t - 1e-6 * step) at++;
      const before = at > 0 && time[at] > t ? at - 1 : at;
      const span = time[at] - time[before];
      const share = span > 0 ? Math.min(1, Math.max(0, (t - time[before]) / span)) : 0;
      x[k] = current[before] + share * (current[at] - current[before]);
    }
  }
  return { start, step, x, each: Math.max(1, each) };
}

export function firstAtOrAfter(time: Float64Array, t: number): number {
  let [low, high] = [0, time.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (time[middle] < t) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Mean over `width` points around each (an odd number; fewer at the ends, where both sides shorten alike). */
export function smoothed(x: Float64Array, width: number): Float64Array {
  const n = x.length;
  const half = Math.floor(width / 2);
  if (half === 0) return x.slice();
  const sums = new Float64Array(n + 1);
  for (let k = 0; k < n; k++) sums[k + 1] = sums[k] + x[k];
  const mean = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const h = Math.min(half, k, n - 1 - k);
    mean[k] = (sums[k + h + 1] - sums[k - h]) / (2 * h + 1);
  }
  return mean;
}

/** Slope of the straight line through x[from] … x[to] inclusive, per point. */
export function slopeOver(x: Float64Array, from: number, to: number): number {
  const n = to - from + 1;
  if (n < 2) return 0;
  const middle = (from + to) / 2;
  let [above, below] = [0, 0];
  for (let k = from; k <= to; k++) {
    above += (k - middle) * x[k];
    below += (k - middle) ** 2;
  }
  return above / below;
}

export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}

export function quantile(values: ArrayLike<number>, share: number): number {
  if (values.length === 0) return 0;
  const sorted = Float64Array.from(values).sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}
