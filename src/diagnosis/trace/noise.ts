/** How much of the trace is noise: its size, the steps of the converter, and hum of the mains or of a generator. */
import { median, quantile, type Signal } from './signal.ts';

/**
 * Standard deviation of the noise from third differences x[k+3] - 3 x[k+2] + 3 x[k+1] - x[k], whose variance is 20 times
 * that of white noise while anything smooth all but cancels. The median keeps steps and cusps out. In a coarsely
 * stepped trace more than half of the differences are zero; then the greatest tenth is left off and the rest squared.
 */
export function noiseOf(x: Float64Array): number {
  if (x.length < 8) return 0;
  const size = new Float64Array(x.length - 3);
  for (let k = 0; k < size.length; k++) size[k] = Math.abs(x[k + 3] - 3 * x[k + 2] + 3 * x[k + 1] - x[k]);
  size.sort();
  const middle = size[size.length >> 1];
  if (middle > 0) return middle / (0.6745 * Math.sqrt(20));
  const kept = Math.floor(0.9 * size.length);
  let sum = 0;
  for (let k = 0; k < kept; k++) sum += size[k] ** 2;
  // Squares of a normal variable without its outer tenth: 0.623 of the whole.
  return Math.sqrt(sum / kept / 0.623 / 20);
}

/** The step of the converter: the least difference between readings that occur; 0 where there is no such lattice. */
export function stepOf(current: ArrayLike<number>): number {
  const stride = Math.max(1, Math.floor(current.length / 20_000));
  const values = new Set<number>();
  for (let k = 0; k < current.length; k += stride) values.add(current[k]);
  if (values.size < 2 || values.size > 4096) return 0;
  const sorted = Float64Array.from(values).sort();
  const range = sorted[sorted.length - 1] - sorted[0];
  let least = range;
  for (let k = 1; k < sorted.length; k++) {
    const difference = sorted[k] - sorted[k - 1];
    // Readings printed in few digits differ by rounding from their own lattice.
    if (difference > 1e-5 * range && difference < least) least = difference;
  }
  return least;
}

export interface Hum {
  readonly frequency_Hz: number;
  readonly amplitude_A: number;
}

export interface QuietStretch {
  /** First and last point, inclusive. */
  readonly from: number;
  readonly to: number;
}

/** Less than this, two cycles of 50 Hz, and a wave cannot be told from a drift. */
const LEAST_QUIET_S = 0.04;
const MOST_POINTS = 4000;

/**
 * Fits one sine wave of 40 to 70 Hz (mains, generators near their speed) through the quiet stretches, each with a mean
 * and a slope of its own, and takes it off the whole trace in place. Null where none stands out: it must carry a
 * fifth of what the quiet stretches vary by, and stand above the noise.
 */
export function takeOffHum({ x, step }: Signal, stretches: readonly QuietStretch[], noise: number): Hum | null {
  const usable = stretches.filter(({ from, to }) => (to - from) * step > LEAST_QUIET_S / 2 && to - from > 12);
  const points = usable.reduce((sum, { from, to }) => sum + to - from + 1, 0);
  if (points * step < LEAST_QUIET_S || step > 0.004) return null;
  const stride = Math.max(1, Math.floor(Math.min(points / MOST_POINTS, 0.002 / step)));
  const fits = (frequency: number) => waveThrough(x, step, usable, stride, frequency);
  let best = fits(50);
  for (let frequency = 40; frequency <= 70; frequency += 0.5) {
    const fit = fits(frequency);
    if (fit.explained > best.explained) best = fit;
  }
  for (const finer of [0.1, 0.02]) {
    const around = best.frequency;
    for (let k = -5; k <= 5; k++) {
      const fit = fits(around + k * finer);
      if (fit.explained > best.explained) best = fit;
    }
  }
  const amplitude = Math.hypot(best.cosine, best.sine);
  const uncertain = noise * Math.sqrt(2 / Math.max(1, best.points));
  if (best.explained < 0.2 || amplitude < 8 * uncertain || amplitude < 0.3 * noise) return null;
  for (let k = 0; k < x.length; k++) {
    const phase = 2 * Math.PI * best.frequency * step * k;
    x[k] -= best.cosine * Math.cos(phase) + best.sine * Math.sin(phase);
  }
  return { frequency_Hz: best.frequency, amplitude_A: amplitude };
}

function waveThrough(
  x: Float64Array,
  step: number,
  stretches: readonly QuietStretch[],
  stride: number,
  frequency: number,
) {
  let [cc, ss, cs, cx, sx, xx, points] = [0, 0, 0, 0, 0, 0, 0];
  for (const { from, to } of stretches) {
    const n = Math.floor((to - from) / stride) + 1;
    const [c, s, v] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
    for (let k = 0; k < n; k++) {
      const phase = 2 * Math.PI * frequency * step * (from + k * stride);
      c[k] = Math.cos(phase);
      s[k] = Math.sin(phase);
      v[k] = x[from + k * stride];
    }
    for (const column of [c, s, v]) takeOffLine(column);
    for (let k = 0; k < n; k++) {
      cc += c[k] * c[k];
      ss += s[k] * s[k];
      cs += c[k] * s[k];
      cx += c[k] * v[k];
      sx += s[k] * v[k];
      xx += v[k] * v[k];
    }
    points += n;
  }
  const determinant = cc * ss - cs * cs;
  if (!(determinant > 1e-9 * cc * ss) || xx === 0) return { frequency, cosine: 0, sine: 0, explained: 0, points };
  const cosine = (cx * ss - sx * cs) / determinant;
  const sine = (sx * cc - cx * cs) / determinant;
  return { frequency, cosine, sine, explained: (cosine * cx + sine * sx) / xx, points };
}

function takeOffLine(column: Float64Array): void {
  const n = column.length;
  const middle = (n - 1) / 2;
  let [sum, moment, spread] = [0, 0, 0];
  for (let k = 0; k < n; k++) {
    sum += column[k];
    moment += (k - middle) * column[k];
    spread += (k - middle) ** 2;
  }
  for (let k = 0; k < n; k++) column[k] -= sum / n + ((k - middle) * moment) / Math.max(1, spread);
}

/**
 * How much slower than white noise a mean over some points settles, 1 or more: the spread of means of 8 points over
 * what white noise would leave, from a stretch without signal.
 */
export function colourOf(x: Float64Array, from: number, to: number, noise: number): number {
  const blocks = Math.floor((to - from + 1) / 8);
  if (blocks < 12 || noise === 0) return 1;
  const jumps = new Float64Array(blocks - 1);
  let before = 0;
  for (let b = 0; b < blocks; b++) {
    let sum = 0;
    for (let k = 0; k < 8; k++) sum += x[from + 8 * b + k];
    if (b > 0) jumps[b - 1] = Math.abs(sum / 8 - before);
    before = sum / 8;
  }
  const spread = median(jumps) / 0.6745 / Math.SQRT2;
  return Math.min(6, Math.max(1, (spread * Math.sqrt(8)) / noise));
}

/** Spread of a quiet stretch about its mean, by its middle two thirds, so that a few outliers do not count. */
export function spreadOver(x: Float64Array, from: number, to: number): number {
  const part = x.subarray(from, to + 1);
  return (quantile(part, 0.8413) - quantile(part, 0.1587)) / 2;
}
