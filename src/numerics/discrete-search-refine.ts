/**
 * Greatest value of a function of a few bounded variables, near a start: a direct search without derivatives.
 *
 * Each round tries a step along every axis of a turned cross, forth and back, and goes to the first place that is
 * better: a step found there is repeated, doubled each time, while it pays. Then the step doubles; when nothing was
 * better it halves. Once it is below the tolerance the search begins again with the first step and other directions,
 * until that has gained nothing three times in a row. The crosses are turned by the mirror of a direction that is new
 * in every round, so that in time no direction is left out: that is what carries it along the edge where two margins of
 * a maximin meet, on which steps along the axes alone stand still. [1][2] The first round goes along the axes.
 * Variables are counted in the width of their bounds, and a step over a bound ends on it.
 *
 * Meant for three variables at most: docs/spread-numerics.md says by how much it falls short of the top of edges that
 * meet at random. Where the margins can be had one by one, `refineLeast` is nearer and quicker.
 *
 * Local: it finds the hill on which it starts. Values that are -Infinity (no solution there) are walked around. Differs
 * from [2] in having no mesh; a step has to gain more than a millionth of its square, as a share of the value, which
 * does the same. [1]
 *
 * [1] T. G. Kolda, R. M. Lewis, V. Torczon, Optimization by direct search, SIAM Rev. 45 (2003) 385-482
 * [2] M. A. Abramson, C. Audet, J. E. Dennis, S. Le Digabel, OrthoMADS: a deterministic MADS instance with orthogonal
 *     directions, SIAM J. Optim. 20 (2009) 948-966
 */
import { normalQuantile } from './distribution-normal.ts';
import { sobolPoints, sobolSequence } from './quasi-random.ts';

export interface Refined {
  /** New beginnings gained nothing more before the evaluations ran out. No proof of a top: see the limits above. */
  readonly converged: boolean;
  readonly at: readonly number[];
  readonly value: number;
  readonly evaluations: number;
  /** Last step, as a share of the width of the bounds: how sharply the place is known. */
  readonly step: number;
}

export interface RefineSettings {
  /** Evaluations at most. Default 300 times one more than the number of variables. */
  readonly most?: number;
  /** First step and the step at which it ends, as shares of the width. Defaults 0.1 and 1e-6. */
  readonly step?: number;
  readonly tolerance?: number;
  /** Changes the order of directions; the same seed gives the same result. */
  readonly seed?: number;
}

/**
 * New beginnings without gain, in a row, after which it ends: the first alone may miss the way along an edge
 * (measured).
 */
const FRUITLESS = 3;

/**
 * @throws RangeError when the bounds do not go with the start or are the wrong way round, the start is outside, or a
 *   value is NaN. Bounds that are equal hold their variable.
 */
export function refineWithin(
  f: (x: readonly number[]) => number,
  start: readonly number[],
  bounds: readonly (readonly [from: number, to: number])[],
  { most = 300 * (start.length + 1), step: firstStep = 0.1, tolerance = 1e-6, seed = 1 }: RefineSettings = {},
): Refined {
  if (bounds.length !== start.length) throw new RangeError(`${bounds.length} bounds for ${start.length} variables`);
  bounds.forEach(([from, to], i) => {
    if (!(from <= start[i] && start[i] <= to))
      throw new RangeError(`variable ${i} starts at ${start[i]}, outside ${from} to ${to}`);
  });
  const free = bounds.flatMap(([from, to], i) => (from < to ? [i] : []));
  let evaluations = 0;
  const valueAt = (x: readonly number[]): number => {
    evaluations++;
    const value = f(x);
    if (Number.isNaN(value)) throw new RangeError(`the function is not a number at ${x.join(', ')}`);
    return value;
  };
  let at = [...start];
  let value = valueAt(at);
  let step = firstStep;
  /** Tries a place; goes there when it is better by enough. */
  const tryStep = (direction: Float64Array, length: number): boolean => {
    const place = [...at];
    free.forEach((i, k) => {
      const [from, to] = bounds[i];
      place[i] = Math.min(to, Math.max(from, at[i] + direction[k] * length * (to - from)));
    });
    if (place.every((x, i) => x === at[i])) return false;
    const found = valueAt(place);
    if (!(found > value + (value === -Infinity ? 0 : 1e-6 * step * step * Math.max(Number.MIN_VALUE, Math.abs(value)))))
      return false;
    at = place;
    value = found;
    return true;
  };
  if (free.length === 0) return { converged: true, at, value, evaluations, step: 0 };
  const turns = sobolSequence(free.length, seed);
  const more = () => evaluations < most;
  let converged = false;
  let beganWith = -Infinity;
  let fruitless = 0;
  for (let round = 0; !converged && more(); round++) {
    const cross = turnedCross(free.length, round === 0 ? null : sobolPoints(turns, round, 1));
    const steps = cross.flatMap((direction) => [step, -step].map((length) => ({ direction, length })));
    const moved = steps.find(({ direction, length }) => more() && tryStep(direction, length));
    if (moved !== undefined) {
      let reach = 2 * moved.length;
      while (more() && tryStep(moved.direction, reach)) reach *= 2;
    }
    step = moved === undefined ? step / 2 : Math.min(0.5, step * 2);
    if (step > tolerance) continue;
    fruitless = value - beganWith > tolerance * Math.abs(value) ? 0 : fruitless + 1;
    converged = fruitless >= FRUITLESS;
    beganWith = value;
    if (!converged) step = firstStep;
  }
  return { converged, at, value, evaluations, step };
}

/** Rows of the mirror I - 2 q qᵀ, q a unit vector from evenly spread shares; the axes themselves without. */
function turnedCross(n: number, shares: Float64Array | null): readonly Float64Array[] {
  const q = shares === null ? new Float64Array(n) : shares.map(normalQuantile);
  const length = Math.hypot(...q);
  return Array.from({ length: n }, (_, row) =>
    Float64Array.from({ length: n }, (_, column) => {
      const mirrored = length > 0 ? (2 * q[row] * q[column]) / (length * length) : 0;
      return (row === column ? 1 : 0) - mirrored;
    }),
  );
}
