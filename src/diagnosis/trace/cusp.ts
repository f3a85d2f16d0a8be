/**
 * The instant at which the plunger lands, from the cusp in the current.
 *
 * Two curves that meet at t_c are fitted to the points around the low by least squares:
 *
 *     i = c + a1 u + a2 u²  before,   i = c + b1 u + b2 u²  after,   u = t - t_c
 *
 * and t_c is moved over a quarter of the interval at a time; the one with the least sum of squares is the landing, where
 * σ² (3 (t_c - t_low)/reach)² is added so that what noise leaves open is settled near the low. It is
 * known to where the sum of squares has grown by 4 σ² (about 95 % for white noise of standard deviation σ). b1 - a1 is
 * the break of the slope. Own method, common practice of two-phase regression, no source.
 */
import { choleskyFactor, choleskySolve } from '../../numerics/positive-definite.ts';

export interface Cusp {
  /** Point, with a fraction. */
  readonly at: number;
  readonly plusMinus: number;
  readonly level: number;
  /** A per point. */
  readonly slopeBefore: number;
  readonly slopeAfter: number;
}

const MOST_PER_SIDE = 400;

/** Null where there are too few points to fit. */
export function cuspNear(
  x: Float64Array,
  low: number,
  from: number,
  to: number,
  reach: number,
  noise: number,
): Cusp | null {
  const first = Math.max(0, Math.floor(from));
  const last = Math.min(x.length - 1, Math.ceil(to));
  if (last - first < 6) return null;
  const stride = Math.max(1, Math.ceil((last - first) / (2 * MOST_PER_SIDE)));
  const trial = Math.max(0.25, stride / 2);
  const tried: { at: number; squares: number; fit: Float64Array }[] = [];
  for (let at = Math.max(first + 2, low - reach); at <= Math.min(last - 2, low + reach); at += trial) {
    const found = fitAround(x, first, last, stride, at);
    // Only a break upward is a landing.
    if (found === null || found.fit[3] <= found.fit[1]) continue;
    const away = (at - low) / Math.max(1, reach / 3);
    tried.push({ at, squares: found.squares + (away * away * noise * noise) / stride, fit: found.fit });
  }
  if (tried.length === 0) return null;
  const best = tried.reduce((a, b) => (b.squares < a.squares ? b : a));
  const bound = best.squares + (4 * (noise * noise)) / stride;
  const near = tried.filter(({ squares }) => squares <= bound);
  const plusMinus = Math.max(0.5, ...near.map(({ at }) => Math.abs(at - best.at)));
  const [level, slopeBefore, , slopeAfter] = best.fit;
  return { at: best.at, plusMinus, level, slopeBefore, slopeAfter };
}

/** Means of `stride` neighbours are fitted, so that a fine grid costs no more than a coarse one. */
function fitAround(x: Float64Array, first: number, last: number, stride: number, at: number) {
  const scale = 1 / (last - first);
  const normal = new Float64Array(25);
  const right = new Float64Array(5);
  const row = new Float64Array(5);
  let [whole, before, after] = [0, 0, 0];
  for (let k = first; k + stride - 1 <= last; k += stride) {
    let value = 0;
    for (let j = 0; j < stride; j++) value += x[k + j];
    value /= stride;
    const u = (k + (stride - 1) / 2 - at) * scale;
    row[0] = 1;
    row[1] = u < 0 ? u : 0;
    row[2] = u < 0 ? u * u : 0;
    row[3] = u < 0 ? 0 : u;
    row[4] = u < 0 ? 0 : u * u;
    if (u < 0) before++;
    else if (u > 0) after++;
    for (let i = 0; i < 5; i++) {
      right[i] += row[i] * value;
      for (let j = 0; j <= i; j++) normal[i * 5 + j] += row[i] * row[j];
    }
    whole += value * value;
  }
  if (before < 3 || after < 2) return null;
  // A touch on the diagonal keeps a side of two points solvable; it changes nothing elsewhere.
  for (let i = 0; i < 5; i++) normal[i * 5 + i] *= 1 + 1e-10;
  normal[24] += 1e-9;
  normal[12] += 1e-9;
  const factor = choleskyFactor(normal, 5);
  if (factor === null) return null;
  const fit = choleskySolve(factor, right);
  let squares = whole;
  for (let i = 0; i < 5; i++) squares -= fit[i] * right[i];
  fit[1] *= scale;
  fit[3] *= scale;
  return { squares: Math.max(0, squares), fit };
}
