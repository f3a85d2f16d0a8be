/**
 * Error of a quasi-random result, from several scrambles of the same size: their results are independent and unbiased,
 * so their scatter is the error. [1] Eight scrambles of N/8 points cost little accuracy beside one of N, and without
 * them there is no error to be had at all.
 *
 * [1] P. L'Ecuyer, C. Lemieux, Recent advances in randomized quasi-Monte Carlo methods, in: Modeling Uncertainty (2002)
 *     419-474
 * [2] E. B. Wilson, Probable inference, the law of succession, and statistical inference, J. Amer. Statist. Assoc. 22
 *     (1927) 209-212
 * [3] M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4
 * [4] B. Efron, C. Stein, The jackknife estimate of variance, Ann. Statist. 9 (1981) 586-596
 */
import { normalQuantile } from './distribution-normal.ts';
import { findRoot } from './roots.ts';
import { addToMoments, noMoments, standardDeviation } from './statistics.ts';

export interface Estimate {
  readonly value: number;
  /** Standard error; null when there was one scramble only. */
  readonly standardError: number | null;
  /** Limits of a 95 % interval; null where the standard error is. */
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Mean of one result per scramble, with the interval of Student's t. @throws RangeError when there is no scramble */
export function acrossScrambles(results: readonly number[]): Estimate {
  if (results.length === 0) throw new RangeError('no scramble to average');
  const moments = addToMoments(noMoments, results);
  const spread = standardDeviation(moments);
  const value = moments.mean;
  if (spread === null) return { value, standardError: null, lower: null, upper: null };
  const standardError = spread / Math.sqrt(results.length);
  const reach = studentQuantile(0.975, results.length - 1) * standardError;
  return { value, standardError, lower: value - reach, upper: value + reach };
}

/**
 * A result that is no plain mean, from what is left when each scramble is left out in turn [4]: `result(null)` is that
 * of all of them, `result(k)` that without scramble k. With two scrambles, where a result may need both, there is no
 * error.
 */
export function jackknife(scrambles: number, result: (without: number | null) => number): Estimate {
  const value = result(null);
  if (scrambles < 3) return { value, standardError: null, lower: null, upper: null };
  const { squares } = addToMoments(
    noMoments,
    Array.from({ length: scrambles }, (_, k) => result(k)),
  );
  const standardError = Math.sqrt(((scrambles - 1) / scrambles) * squares);
  const reach = studentQuantile(0.975, scrambles - 1) * standardError;
  return { value, standardError, lower: value - reach, upper: value + reach };
}

/**
 * Fewest hits and fewest misses in each scramble for the scatter of the scrambles to be believed (common practice, no
 * source).
 */
const FEWEST = 5;

/**
 * A probability from the hits in each scramble of `draws` points.
 *
 * The interval is Student's across the scrambles. Where a scramble has fewer than five hits or misses its scatter says
 * little (no hit at all would look like certainty), so the interval is Wilson's [2] for as many random draws, which is
 * wider: no hit in n draws leaves the probability below 3.84 / (n + 3.84).
 *
 * @throws RangeError when there is no scramble, or the hits are not whole numbers up to the draws
 */
export function shareAcrossScrambles(hits: readonly number[], draws: number): Estimate {
  for (const hit of hits) {
    if (!(Number.isInteger(hit) && hit >= 0 && hit <= draws)) throw new RangeError(`${hit} hits in ${draws} draws`);
  }
  const across = acrossScrambles(hits.map((hit) => hit / draws));
  if (across.lower !== null && across.upper !== null && hits.every((hit) => hit >= FEWEST && draws - hit >= FEWEST)) {
    return { ...across, lower: Math.max(0, across.lower), upper: Math.min(1, across.upper) };
  }
  const n = hits.length * draws;
  const z2 = normalQuantile(0.975) ** 2;
  const { value: p } = across;
  const middle = (p + z2 / (2 * n)) / (1 + z2 / n);
  const reach = Math.sqrt((z2 * (p * (1 - p) + z2 / (4 * n))) / n) / (1 + z2 / n);
  return { ...across, lower: Math.max(0, middle - reach), upper: Math.min(1, middle + reach) };
}

/**
 * Student's t below which the share `p`, from 0.5 to below 1, lies, for a whole number of degrees of freedom: root of
 * the finite sums [3] for P(|T| < t), with θ = arctan(t / √ν).
 *
 * @throws RangeError when either is out of range
 */
export function studentQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p >= 0.5 && p < 1 && Number.isInteger(degreesOfFreedom) && degreesOfFreedom >= 1)) {
    throw new RangeError(
      `Student's t is given for shares from 0.5 to 1 and whole degrees of freedom, not ${p}, ${degreesOfFreedom}`,
    );
  }
  const wanted = 2 * p - 1;
  const { at } = findRoot((θ) => studentWithin(θ, degreesOfFreedom) - wanted, 0, Math.PI / 2, 1e-15, 200);
  return Math.sqrt(degreesOfFreedom) * Math.tan(at);
}

function studentWithin(θ: number, ν: number): number {
  const odd = ν % 2 === 1;
  const cosine = Math.cos(θ);
  let term = odd ? cosine : 1;
  let sum = ν === 1 ? 0 : term;
  for (let k = odd ? 3 : 2; k < ν; k += 2) {
    term *= (cosine * cosine * (k - 1)) / k;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (θ + Math.sin(θ) * sum) : Math.sin(θ) * sum;
}
