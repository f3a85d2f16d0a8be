/** Do the readings agree with the dimensions and with each other? */
import { choleskyFactor, choleskyInverse, dotProduct } from '../../numerics/positive-definite.ts';
import type { Trim } from './trim.ts';

export interface JudgedReading {
  /** The pull that the dimensions and all other readings lead to expect, N (the median). */
  readonly expected: number;
  /** ln(pull as read / expected). */
  readonly difference: number;
  /** The difference over its standard deviation: beyond ±`CONTRADICTS` it is no accident. */
  readonly score: number;
}

export interface Judgement {
  readonly readings: readonly JudgedReading[];
  /** Σ of squared independent scores of all readings together, of which as many are expected as there are readings. */
  readonly chiSquare: number;
  /** Chance of a χ² as large or larger if model, priors and stated errors are right. */
  readonly chance: number;
  /** Numbers (from 0) of the readings that do not fit with the rest, worst first. */
  readonly contradicting: readonly number[];
  /** Pairs that contradict each other directly, with their difference over its standard deviation. */
  readonly pairs: readonly { readonly first: number; readonly second: number; readonly score: number }[];
  /** Do all agree? */
  readonly agree: boolean;
  /** √(χ²/n) where they do not, else 1: what the band must be widened by to cover the scatter (Birge ratio [1]). */
  readonly widen: number;
}

/** Scores beyond this are taken for a contradiction: 1 in 370 by chance. */
export const CONTRADICTS = 3;
/** A χ² less likely than this is a contradiction even where no single reading stands out. */
const LEAST_CHANCE = 0.003;

/**
 * Leave-one-out residuals of the linear Gaussian model at the fit, without fitting again: with the covariance S of
 * everything that makes readings differ from the prior mean, and r their differences from it,
 *
 *     e_i = (S⁻¹ r)_i / (S⁻¹)_ii,     var e_i = 1 / (S⁻¹)_ii           [2]
 *
 * and for a pair the difference of their residuals, each given all the other readings.
 *
 * [1] R. T. Birge, The calculation of errors by the method of least squares, Phys. Rev. 40 (1932) 207
 * [2] C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine Learning, MIT Press 2006, section 5.4.2
 */
export function judgeReadings(trim: Trim): Judgement {
  const { readings, slopes, residuals, scores, errorCovariance } = trim;
  const n = readings.length;
  if (n === 0) return { readings: [], chiSquare: 0, chance: 1, contradicting: [], pairs: [], agree: true, widen: 1 };
  const total = errorCovariance.map((value, k) => value + dotProduct(slopes[Math.floor(k / n)], slopes[k % n]));
  const r = residuals.map((value, i) => value + dotProduct(slopes[i], scores));
  const inverse = choleskyInverse(choleskyFactor(total, n)!);
  const weighted = r.map((_, i) => dotProduct(inverse.subarray(i * n, (i + 1) * n), r));
  const chiSquare = dotProduct(r, weighted);
  const judged = readings.map(({ pull }, i): JudgedReading => {
    const variance = 1 / inverse[i * n + i];
    const difference = weighted[i] * variance;
    return { expected: pull * Math.exp(-difference), difference, score: difference / Math.sqrt(variance) };
  });
  const pairs = [];
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      const score = pairScore(total, r, n, i, j);
      if (Math.abs(score) > CONTRADICTS) pairs.push({ first: i, second: j, score });
    }
  const chance = chiSquareChance(chiSquare, n);
  const contradicting = judged
    .map(({ score }, i) => ({ score: Math.abs(score), i }))
    .filter(({ score }) => score > CONTRADICTS)
    .sort((a, b) => b.score - a.score)
    .map(({ i }) => i);
  const agree = contradicting.length === 0 && pairs.length === 0 && chance >= LEAST_CHANCE;
  return {
    readings: judged,
    chiSquare,
    chance,
    contradicting,
    pairs: pairs.sort((a, b) => Math.abs(b.score) - Math.abs(a.score)),
    agree,
    widen: agree ? 1 : Math.max(1, Math.sqrt(chiSquare / n)),
  };
}

/** Difference of two readings over its standard deviation, from the prior alone: no third reading has a say. */
function pairScore(total: Float64Array, r: Float64Array, n: number, i: number, j: number): number {
  return (r[i] - r[j]) / Math.sqrt(total[i * n + i] + total[j * n + j] - 2 * total[i * n + j]);
}

/**
 * Chance that χ² of n degrees of freedom exceeds x: the finite series for even n, and for odd n with the complementary
 * error function. [1] M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.4.4 and 26.4.5
 */
export function chiSquareChance(x: number, n: number): number {
  if (!(x > 0)) return 1;
  const half = x / 2;
  let term = n % 2 === 0 ? Math.exp(-half) : Math.sqrt((2 * x) / Math.PI) * Math.exp(-half);
  let sum = n % 2 === 0 ? term : n === 1 ? 0 : term;
  for (let k = n % 2 === 0 ? 2 : 3; k < n; k += 2) {
    term *= x / k;
    sum += term;
  }
  return Math.min(1, sum + (n % 2 === 0 ? 0 : complementaryError(Math.sqrt(half))));
}

/** erfc(x) for x ≥ 0, to 1.2e-7 of itself (W. H. Press et al., Numerical Recipes, section 6.2: Chebyshev fit). */
function complementaryError(x: number): number {
  const t = 1 / (1 + x / 2);
  const series = [
    -1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223,
    0.17087277,
  ].reduceRight((sum, c) => sum * t + c, 0);
  return t * Math.exp(-x * x + series);
}
