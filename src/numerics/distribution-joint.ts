/**
 * Draws of several quantities at once: independent, correlated, or moving together.
 *
 * **Correlated** quantities share a Gaussian copula: independent normal numbers z become L z, with L Lᵀ the matrix of
 * correlations, and Φ of each is the share that goes into the inverse of its distribution. [1] The matrix is that of
 * the normal numbers, which is also that of the draws where all of them are normal. Of two rectangular quantities the
 * draws correlate by (6/π) arcsin(ρ/2) instead, 0.483 for 0.5. A copula knows pairs only: it makes extremes meet less
 * often than many causes in common would.
 *
 * Quantities that move **together** (two lengths measured with one rule that is wrong) use one and the same share.
 *
 * [1] JCGM 101:2008, 6.4.8 and C.5, gives this for normal quantities; R. B. Nelsen, An Introduction to Copulas, 2nd ed.
 *     (2006)
 */
import { distributionQuantile, type Distribution } from './distribution.ts';
import { normalCumulative, normalQuantile } from './distribution-normal.ts';
import { choleskyFactor } from './positive-definite.ts';

/** Which quantities depend on each other, by their place in the list. A quantity stands in one group at most. */
export interface Dependence {
  readonly together?: readonly (readonly number[])[];
  readonly correlated?: readonly {
    readonly members: readonly number[];
    /** Row by row, members × members. */
    readonly matrix: ArrayLike<number>;
  }[];
}

export interface JointDistribution {
  readonly quantities: number;
  /** Independent shares that one draw needs. */
  readonly dimensions: number;
  /** What can be frozen or redrawn on its own: the quantities that depend on each other, and the shares behind them. */
  readonly factors: readonly { readonly members: readonly number[]; readonly columns: readonly number[] }[];
  /** By factor: lower triangle of its copula, row by row, or null where each member uses the only share as it is. */
  readonly triangles: readonly (Float64Array | null)[];
  readonly quantiles: readonly ((share: number) => number)[];
}

/** What is wrong with a matrix of correlations, in words; null when it is sound. */
export function correlationProblem(matrix: ArrayLike<number>, members: number): string | null {
  if (matrix.length !== members * members)
    return `${members} rows of ${members} correlations wanted, not ${matrix.length} numbers`;
  for (let i = 0; i < members; i++) {
    if (matrix[i * members + i] !== 1) return `a quantity correlates with itself by 1, not ${matrix[i * members + i]}`;
    for (let j = 0; j < i; j++) {
      const below = matrix[i * members + j];
      if (!(Math.abs(below) <= 1)) return `a correlation lies between -1 and 1, not at ${below}`;
      if (below !== matrix[j * members + i])
        return `correlation ${below} of a pair is ${matrix[j * members + i]} the other way round`;
    }
  }
  return choleskyFactor(Float64Array.from(matrix), members) === null
    ? 'these correlations cannot all be true at once, or some quantities move fully together'
    : null;
}

/**
 * Plan for drawing `distributions`, the factors in the order of their first members.
 *
 * @throws RangeError when a distribution or a matrix is not sound, or a group names a quantity that is not there or in
 *   two groups
 */
export function jointDistribution(
  distributions: readonly Distribution[],
  dependence: Dependence = {},
): JointDistribution {
  const n = distributions.length;
  const groups: { members: readonly number[]; matrix: ArrayLike<number> | null }[] = [
    ...(dependence.together ?? []).map((members) => ({ members, matrix: null })),
    ...(dependence.correlated ?? []),
  ];
  const grouped = new Set<number>();
  for (const member of groups.flatMap(({ members }) => members)) {
    if (!(Number.isInteger(member) && member >= 0 && member < n))
      throw new RangeError(`there is no quantity ${member} of ${n}`);
    if (grouped.has(member)) throw new RangeError(`quantity ${member} stands twice in the groups`);
    grouped.add(member);
  }
  for (let i = 0; i < n; i++) if (!grouped.has(i)) groups.push({ members: [i], matrix: null });
  const used = groups.filter(({ members }) => members.length > 0);
  used.sort((a, b) => Math.min(...a.members) - Math.min(...b.members));
  let dimensions = 0;
  return {
    quantities: n,
    factors: used.map(({ members, matrix }) => ({
      members,
      columns: matrix === null ? [dimensions++] : members.map(() => dimensions++),
    })),
    triangles: used.map(({ members, matrix }) => (matrix === null ? null : triangle(matrix, members.length))),
    quantiles: distributions.map(distributionQuantile),
    dimensions,
  };
}

function triangle(matrix: ArrayLike<number>, members: number): Float64Array {
  const problem = correlationProblem(matrix, members);
  const factor = problem === null ? choleskyFactor(Float64Array.from(matrix), members) : null;
  if (factor === null) throw new RangeError(problem ?? 'correlations are not positive definite');
  // The factor holds its diagonal inverted.
  return factor.lower.map((value, k) => (k % (members + 1) === 0 ? 1 / value : value));
}

/**
 * Draws from independent shares (count × dimensions, each above 0 and below 1): a flat array of count × quantities.
 *
 * @throws RangeError when the shares do not fill whole draws
 */
export function jointDraws(joint: JointDistribution, shares: Float64Array): Float64Array {
  const { quantities, dimensions, factors, triangles, quantiles } = joint;
  const count = dimensions === 0 ? 0 : shares.length / dimensions;
  if (!Number.isInteger(count)) throw new RangeError(`${shares.length} shares do not fill draws of ${dimensions}`);
  const draws = new Float64Array(count * quantities);
  factors.forEach(({ members, columns }, f) => {
    const lower = triangles[f];
    const z = new Float64Array(columns.length);
    for (let i = 0; i < count; i++) {
      const from = i * dimensions;
      const to = i * quantities;
      if (lower === null) {
        for (const member of members) draws[to + member] = quantiles[member](shares[from + columns[0]]);
        continue;
      }
      columns.forEach((column, j) => (z[j] = normalQuantile(shares[from + column])));
      members.forEach((member, row) => {
        let sum = 0;
        for (let j = 0; j <= row; j++) sum += lower[row * members.length + j] * z[j];
        draws[to + member] = quantiles[member](inside(normalCumulative(sum)));
      });
    }
  });
  return draws;
}

/** A share that rounding has put on 0 or 1 would make a normal quantity infinite. */
function inside(share: number): number {
  return Math.min(1 - 2 ** -53, Math.max(Number.MIN_VALUE, share));
}
