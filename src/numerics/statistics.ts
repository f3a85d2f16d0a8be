/**
 * What a row of draws says: mean, spread, quantiles, coverage intervals, bins. Every function refuses numbers that are
 * not finite, so a draw without a result has to be counted by the caller, not averaged.
 *
 * [1] T. F. Chan, G. H. Golub, R. J. LeVeque, Algorithms for computing the sample variance, Amer. Statist. 37 (1983)
 *     242-247
 * [2] R. J. Hyndman, Y. Fan, Sample quantiles in statistical packages, Amer. Statist. 50 (1996) 361-365
 * [3] H. A. David, H. N. Nagaraja, Order Statistics, 3rd ed. (2003), 7.1
 * [4] JCGM 101:2008, 7.7 and 5.3
 * [5] D. Freedman, P. Diaconis, On the histogram as a density estimator, Z. Wahrsch. verw. Gebiete 57 (1981) 453-476
 */

/**
 * Count, mean and sum of squared deviations from it: enough to go on adding, or to join with those of another worker.
 */
export interface Moments {
  readonly count: number;
  readonly mean: number;
  readonly squares: number;
}

export const noMoments: Moments = { count: 0, mean: 0, squares: 0 };

/** @throws RangeError when a number is not finite */
export function addToMoments(moments: Moments, values: ArrayLike<number>): Moments {
  let { count, mean, squares } = moments;
  for (let i = 0; i < values.length; i++) {
    const value = finite(values[i]);
    count++;
    const before = value - mean;
    mean += before / count;
    squares += before * (value - mean);
  }
  return { count, mean, squares };
}

/** Of two sets of draws together. [1] */
export function joinMoments(a: Moments, b: Moments): Moments {
  if (a.count === 0) return b;
  if (b.count === 0) return a;
  const count = a.count + b.count;
  const step = b.mean - a.mean;
  return {
    count,
    mean: a.mean + (step * b.count) / count,
    squares: a.squares + b.squares + (step * step * a.count * b.count) / count,
  };
}

/** Standard deviation of the distribution that was drawn from, with n - 1; null for fewer than two draws. */
export function standardDeviation({ count, squares }: Moments): number | null {
  return count < 2 ? null : Math.sqrt(squares / (count - 1));
}

/** A sorted copy. @throws RangeError when there is no number or one is not finite */
export function sorted(values: ArrayLike<number>): Float64Array {
  if (values.length === 0) throw new RangeError('no draws to put in order');
  return Float64Array.from(values, finite).sort();
}

/**
 * Value below which the share `p` of sorted draws lies: between draws, the i-th of n standing at (i - 1/2) / n (type 5
 * of [2]).
 */
export function quantile(ordered: Float64Array, p: number): number {
  const rank = Math.min(ordered.length - 1, Math.max(0, p * ordered.length - 0.5));
  const below = Math.floor(rank);
  const above = Math.min(ordered.length - 1, below + 1);
  return ordered[below] + (rank - below) * (ordered[above] - ordered[below]);
}

export interface QuantileWithError {
  readonly value: number;
  /** Limits of a 95 % interval for the true quantile; null when fewer than five draws lie on either side. */
  readonly lower: number | null;
  readonly upper: number | null;
}

/**
 * A quantile with what it may be off because the draws are few: the draws whose ranks are 1.96 √(n p (1 - p)) away [3].
 * That holds for independent random draws; of a whole scramble of quasi-random points the quantile is nearer than that.
 */
export function quantileWithError(ordered: Float64Array, p: number): QuantileWithError {
  const n = ordered.length;
  const reach = 1.959964 * Math.sqrt(n * p * (1 - p));
  const value = quantile(ordered, p);
  if (Math.min(n * p, n * (1 - p)) < 5) return { value, lower: null, upper: null };
  const low = Math.max(1, Math.floor(n * p - reach));
  const high = Math.min(n - 1, Math.ceil(n * p + reach));
  return { value, lower: ordered[low - 1], upper: ordered[high] };
}

export interface CoverageInterval {
  readonly from: number;
  readonly to: number;
}

/**
 * Interval between two draws that holds the share `p` of them: with as many left out on either side, or the shortest
 * there is.
 * [4] The shortest is the better word on a lopsided margin, and jumps about when draws are few.
 *
 * @throws RangeError when the draws are too few to leave any out
 */
export function coverageInterval(ordered: Float64Array, p: number, kind: 'symmetric' | 'shortest'): CoverageInterval {
  const M = ordered.length;
  const product = p * M;
  const q = Number.isInteger(product) ? product : Math.floor(product + 0.5);
  if (!(q >= 1 && q < M)) throw new RangeError(`${M} draws are too few for an interval that holds ${p} of them`);
  let r = Number.isInteger((M - q) / 2) ? (M - q) / 2 : Math.floor((M - q + 1) / 2);
  if (kind === 'shortest') {
    r = 1;
    for (let i = 2; i <= M - q; i++) {
      if (ordered[i + q - 1] - ordered[i - 1] < ordered[r + q - 1] - ordered[r - 1]) r = i;
    }
  }
  return { from: ordered[r - 1], to: ordered[r + q - 1] };
}

export interface Histogram {
  readonly from: number;
  readonly width: number;
  /** Draws in each bin; a draw on an edge belongs to the bin above it. */
  readonly counts: readonly number[];
}

/**
 * Bins for the eye: as wide as [5] proposes (twice the quartile distance over the cube root of the count), rounded to
 * 1, 2 or 5 times a power of ten, on multiples of that width, and not more than `most`. Draws that are all alike make
 * one bin of no width.
 */
export function histogram(ordered: Float64Array, most = 60): Histogram {
  const n = ordered.length;
  const first = ordered[0];
  const range = ordered[n - 1] - first;
  if (!(range > 0)) return { from: first, width: 0, counts: [n] };
  const proposed = (2 * (quantile(ordered, 0.75) - quantile(ordered, 0.25))) / Math.cbrt(n);
  let width = roundWidth(Math.max(proposed, range / most));
  while (Math.floor((first + range) / width) - Math.floor(first / width) + 1 > most) width = roundWidth(width * 1.1);
  const start = Math.floor(first / width);
  const counts = Array.from({ length: Math.floor(ordered[n - 1] / width) - start + 1 }, () => 0);
  for (const value of ordered) counts[Math.floor(value / width) - start]++;
  return { from: start * width, width, counts };
}

function roundWidth(least: number): number {
  const decade = 10 ** Math.floor(Math.log10(least));
  return ([1, 2, 5].find((step) => step * decade >= least * (1 - 1e-12)) ?? 10) * decade;
}

function finite(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`a draw is not finite: ${value}`);
  return value;
}
