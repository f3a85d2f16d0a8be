/**
 * Variance-based sensitivity of a model y = f(x) with independent factors x₁ … x_d.
 *
 *     first order   S_i = Var(E(y | x_i)) / Var(y)            share of the variance that would go if x_i alone were
 *     known total         T_i = E(Var(y | all but x_i)) / Var(y)    share that would stay if all but x_i were known
 *
 * From two independent sets of points, A and B, and for each factor A with the columns of that factor taken from B
 * (AB_i):
 *
 *     S_i V = mean of f(B) (f(AB_i) - f(A))                   [1], with f counted from its mean
 *     T_i V = mean of (f(A) - f(AB_i))² / 2                   [2]
 *
 * with V the variance of f(A) and f(B) together. Cost: N (d + 2) runs of the model for each scramble of N base points.
 * S_i can come out a little below 0 or above T_i: that is the error of the estimate, which is given, and not hidden by
 * clipping.
 *
 * Factors that are not independent have no such shares: quantities that depend on each other count as one factor, with
 * all their columns.
 *
 * [1] A. Saltelli, P. Annoni, I. Azzini, F. Campolongo, M. Ratto, S. Tarantola, Variance based sensitivity analysis of
 *     model output, Comput. Phys. Commun. 181 (2010) 259-270, table 2 (b)
 * [2] M. J. W. Jansen, Analysis of variance designs for model output, Comput. Phys. Commun. 117 (1999) 35-43
 */
import { mostDimensions, sobolPoints, sobolSequence } from './quasi-random.ts';
import { jackknife, type Estimate } from './statistics-scrambles.ts';

/** Columns of a point, from 0, that belong to each factor. */
export type Factors = readonly (readonly number[])[];

/** Each column a factor of its own. */
export const eachColumn = (dimensions: number): Factors => Array.from({ length: dimensions }, (_, column) => [column]);

/**
 * The points to run: the rows of A, then of B, then of AB_i for each factor, `points` rows each, flat.
 *
 * A and B are the two halves of one scrambled sequence of 2 × dimensions, so that points may have 64 dimensions at
 * most.
 *
 * @throws RangeError when there are too many dimensions, or a factor names a column that is not there
 */
export function pickFreezePoints(dimensions: number, factors: Factors, points: number, seed: number): Float64Array {
  if (2 * dimensions > mostDimensions)
    throw new RangeError(`${dimensions} dimensions, where ${mostDimensions / 2} are most`);
  for (const column of factors.flat()) {
    if (!(Number.isInteger(column) && column >= 0 && column < dimensions)) {
      throw new RangeError(`there is no column ${column} of ${dimensions}`);
    }
  }
  const both = sobolPoints(sobolSequence(2 * dimensions, seed), 0, points);
  const size = points * dimensions;
  const rows = new Float64Array(size * (factors.length + 2));
  for (let i = 0; i < points; i++) {
    rows.set(both.subarray(2 * i * dimensions, (2 * i + 1) * dimensions), i * dimensions);
    rows.set(both.subarray((2 * i + 1) * dimensions, (2 * i + 2) * dimensions), size + i * dimensions);
  }
  factors.forEach((columns, f) => {
    const at = (f + 2) * size;
    rows.copyWithin(at, 0, size);
    for (let i = 0; i < points; i++) {
      for (const column of columns) rows[at + i * dimensions + column] = rows[size + i * dimensions + column];
    }
  });
  return rows;
}

/** Parts of the variance as one scramble sees them, in squares of the result's unit. */
export interface VarianceParts {
  readonly mean: number;
  readonly variance: number;
  readonly first: readonly number[];
  readonly total: readonly number[];
}

/**
 * Parts of the variance from the results in the order of `pickFreezePoints`.
 *
 * @throws RangeError when the results do not fill d + 2 equal blocks of two or more, or one is not finite
 */
export function varianceParts(results: ArrayLike<number>, factors: number): VarianceParts {
  const n = results.length / (factors + 2);
  if (!(Number.isInteger(n) && n >= 2))
    throw new RangeError(`${results.length} results do not fill ${factors + 2} blocks`);
  let sum = 0;
  for (let i = 0; i < results.length; i++) {
    if (!Number.isFinite(results[i])) throw new RangeError(`a result is not finite: ${results[i]}`);
    if (i < 2 * n) sum += results[i];
  }
  const mean = sum / (2 * n);
  let squares = 0;
  for (let i = 0; i < 2 * n; i++) squares += (results[i] - mean) ** 2;
  const first: number[] = [];
  const total: number[] = [];
  for (let f = 0; f < factors; f++) {
    let own = 0;
    let all = 0;
    for (let i = 0; i < n; i++) {
      const change = results[(f + 2) * n + i] - results[i];
      own += (results[n + i] - mean) * change;
      all += change * change;
    }
    first.push(own / n);
    total.push(all / (2 * n));
  }
  // Not 2 n - 1: the mean of quasi-random results errs far less than that of random ones.
  return { mean, variance: squares / (2 * n), first, total };
}

export interface SensitivityIndices {
  readonly mean: number;
  readonly variance: number;
  readonly first: readonly Estimate[];
  readonly total: readonly Estimate[];
}

/**
 * Indices from one or more scrambles of the same size: parts summed over all of them, then divided. Standard errors by
 * leaving one scramble out in turn, intervals by Student's t; null with fewer than three scrambles. Null as a whole
 * when the result does not vary.
 *
 * @throws RangeError when there is no scramble
 */
export function sensitivityIndices(scrambles: readonly VarianceParts[]): SensitivityIndices | null {
  const [some] = scrambles;
  if (some === undefined) throw new RangeError('no scramble to reckon sensitivity from');
  const mean = average(scrambles.map((one) => one.mean));
  const variance = average(scrambles.map((one) => one.variance));
  if (!(variance > 0)) return null;
  const index = (part: (one: VarianceParts) => number): Estimate =>
    jackknife(scrambles.length, (without) => {
      const used = scrambles.filter((_, k) => k !== without);
      return average(used.map(part)) / average(used.map((one) => one.variance));
    });
  return {
    mean,
    variance,
    first: some.first.map((_, f) => index((one) => one.first[f])),
    total: some.total.map((_, f) => index((one) => one.total[f])),
  };
}

const average = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0) / numbers.length;
