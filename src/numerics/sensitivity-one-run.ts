/**
 * First-order sensitivity from draws that are there anyway, for a screen that has no time for more runs.
 *
 * The draws are put in order of one input and cut into K bins of equal count; what the means of the bins scatter is
 * what the input explains (the correlation ratio). Noise makes them scatter too, and that has to be taken off:
 *
 *     several sets   S = Σ over bins of the mean of (m_r - m̄_r)(m_s - m̄_s) over all pairs of sets r ≠ s, / (K V)
 *     one set        S = 1 - (Σ squares within bins / (N - K)) / (Σ squares about the mean / (N - 1))               [1]
 *
 * m_r is the mean of a bin in set r, m̄_r the mean of that set, V the variance. The sets are scrambles: their noise is
 * independent, so it drops out of the products. (Random draws go into one set: the edges of their bins would differ
 * from set to set.) One set has to assume noise as random draws make it; quasi-random draws make less, so that up to K
 * (1 - S) / N too much is taken off.
 *
 * **Bias.** Downward by what the effect changes within a bin: of a straight effect 1/K² of S, of a wave with m periods
 * over the range about (m π)² / (3 K²) of S. Not upward. An input without effect scatters about 0, also below it.
 *
 * Works for inputs that depend on each other too: it is then the share explained by knowing that input and whatever
 * goes with it. Total indices cannot be had in this way.
 *
 * [1] T. L. Kelley, An unbiased correlation ratio measure, Proc. Natl. Acad. Sci. 21 (1935) 554-559
 */
import { jackknife, type Estimate } from './statistics-scrambles.ts';
import { addToMoments, joinMoments, noMoments, type Moments } from './statistics.ts';

export interface DrawnSet {
  /** count × dimensions, flat; shares or the quantities themselves, their order alone counts. */
  readonly inputs: Float64Array;
  readonly results: ArrayLike<number>;
}

/**
 * Bins for `n` draws in each set: √n / 1.5, from 4 to 64, rounded down to a power of two, so that bins hold whole nets
 * (common practice, no source).
 */
export function binsFor(n: number): number {
  return 2 ** Math.floor(Math.log2(Math.max(4, Math.min(64, Math.sqrt(n) / 1.5))));
}

/**
 * Index of each input, from one or more sets of equal size. With several sets, standard errors by leaving one out in
 * turn, and Student's intervals; with one, √(4 S (1 - S)² / N + 2 K (1 - S)² / N²), that of random draws with normal
 * residuals, and no interval. Null when the results do not vary.
 *
 * @throws RangeError when sets differ in size, inputs do not go with results, a result is not finite, or draws are
 *   fewer than 2 in a bin
 */
export function oneRunIndices(sets: readonly DrawnSet[], bins?: number): readonly Estimate[] | null {
  const [some] = sets;
  if (some === undefined) throw new RangeError('no draws to reckon sensitivity from');
  const n = some.results.length;
  const K = bins ?? binsFor(n);
  if (!(K >= 2 && n >= 2 * K)) throw new RangeError(`${n} draws are too few for ${K} bins`);
  const dimensions = some.inputs.length / n;
  if (!Number.isInteger(dimensions)) throw new RangeError(`${some.inputs.length} inputs do not go with ${n} results`);
  for (const { inputs, results } of sets) {
    if (results.length !== n || inputs.length !== n * dimensions) throw new RangeError('sets of draws differ in size');
  }
  const moments = sets.map(({ results }) => addToMoments(noMoments, results));
  if (!(moments.reduce(joinMoments).squares > 0)) return null;
  return Array.from({ length: dimensions }, (_, column) => {
    const deviations = sets.map((set, k) => binDeviations(set, moments[k].mean, column, K));
    return sets.length === 1 ? ofOneSet(deviations[0], moments[0].squares, n) : ofSeveral(deviations, moments, n);
  });
}

function ofOneSet({ means, counts }: Binned, squares: number, n: number): Estimate {
  const K = means.length;
  const between = means.reduce((sum, mean, bin) => sum + mean * mean * counts[bin], 0);
  const value = 1 - (squares - between) / (n - K) / (squares / (n - 1));
  const share = Math.min(1, Math.max(0, value));
  const standardError = (1 - share) * Math.sqrt((4 * share) / n + (2 * K) / (n * n));
  return { value, standardError, lower: null, upper: null };
}

function ofSeveral(deviations: readonly Binned[], moments: readonly Moments[], n: number): Estimate {
  return jackknife(deviations.length, (without) => {
    const used = deviations.filter((_, set) => set !== without);
    const { squares, count } = moments.filter((_, set) => set !== without).reduce(joinMoments);
    let products = 0;
    const K = used[0].means.length;
    for (let bin = 0; bin < K; bin++) {
      // Sum over pairs r ≠ s of d_r d_s is (Σ d)² - Σ d².
      let sum = 0;
      let own = 0;
      for (const { means, counts } of used) {
        sum += means[bin] * Math.sqrt(counts[bin]);
        own += means[bin] * means[bin] * counts[bin];
      }
      products += sum * sum - own;
    }
    return products / (n * used.length * (used.length - 1)) / (squares / count);
  });
}

/** Of one set: means of the bins, less the mean of the set, and draws in them. */
interface Binned {
  readonly means: Float64Array;
  readonly counts: Float64Array;
}

function binDeviations({ inputs, results }: DrawnSet, mean: number, column: number, bins: number): Binned {
  const n = results.length;
  const dimensions = inputs.length / n;
  const order = Uint32Array.from({ length: n }, (_, i) => i);
  order.sort((i, j) => inputs[i * dimensions + column] - inputs[j * dimensions + column] || i - j);
  const means = new Float64Array(bins);
  const counts = new Float64Array(bins);
  for (let bin = 0; bin < bins; bin++) {
    const from = Math.floor((bin * n) / bins);
    const to = Math.floor(((bin + 1) * n) / bins);
    for (let k = from; k < to; k++) means[bin] += (results[order[k]] - mean) / (to - from);
    counts[bin] = to - from;
  }
  return { means, counts };
}
