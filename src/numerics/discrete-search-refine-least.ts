/**
 * Greatest least margin near a start, where the margins are told one by one: for more variables, and nearer to the top,
 * than `refineWithin` can go by the least margin alone. [1]
 *
 * Each round takes the slope of every margin by a small step in each variable, and asks where the least of the
 * straightened margins is greatest within a box of the present reach and the bounds: a linear programme,
 *
 *     t greatest,  t ≤ c_j + g_j · d for each margin j,  lower ≤ d ≤ upper
 *
 * solved by the simplex method [2]. The step is taken when the true least margin gains; the reach doubles where the
 * straightened margins foretold the gain well and shrinks to a third where they did not. Variables are counted in the
 * width of their bounds.
 *
 * Good where a corner of margins holds the top: it closes in on that faster than any step halves. On a round hill of
 * one margin it is slower, and a margin that jumps or has kinks of its own can stop it early: go on with `refineWithin`
 * from there. Local, like that. A start where a margin is -Infinity has no slope: it is given back, not converged.
 * Cost: one more evaluation a round than there are variables.
 *
 * [1] K. Madsen, An algorithm for minimax solution of overdetermined systems of non-linear equations, J. Inst. Math.
 *     Appl. 16 (1975) 321-328
 * [2] R. G. Bland, New finite pivoting rules for the simplex method, Math. Oper. Res. 2 (1977) 103-107
 */
import type { Refined, RefineSettings } from './discrete-search-refine.ts';

/**
 * `most` counts evaluations of all margins together; by default 40 times one more than the number of variables. `seed`
 * is of no effect.
 *
 * @throws RangeError when the bounds do not go with the start, the start is outside, there is no margin, or one is NaN
 */
export function refineLeast(
  margins: (x: readonly number[]) => readonly number[],
  start: readonly number[],
  bounds: readonly (readonly [from: number, to: number])[],
  { most = 40 * (start.length + 1), step: firstStep = 0.1, tolerance = 1e-6 }: RefineSettings = {},
): Refined {
  if (bounds.length !== start.length) throw new RangeError(`${bounds.length} bounds for ${start.length} variables`);
  bounds.forEach(([from, to], i) => {
    if (!(from <= start[i] && start[i] <= to))
      throw new RangeError(`variable ${i} starts at ${start[i]}, outside ${from} to ${to}`);
  });
  const free = bounds.flatMap(([from, to], i) => (from < to ? [i] : []));
  let evaluations = 0;
  const left = () => most - evaluations;
  const marginsAt = (x: readonly number[]): readonly number[] => {
    evaluations++;
    const found = margins(x);
    if (found.length === 0) throw new RangeError('there is no margin to raise');
    if (found.some(Number.isNaN)) throw new RangeError(`a margin is not a number at ${x.join(', ')}`);
    return found;
  };
  let at = [...start];
  let here = marginsAt(at);
  let value = Math.min(...here);
  let reach = firstStep;
  let converged = free.length === 0;
  while (!converged && Number.isFinite(value) && left() > free.length) {
    // Place and slopes in shares of the width. A margin that is infinitely good cannot be the least and has no slope.
    const shares = free.map((i) => (at[i] - bounds[i][0]) / (bounds[i][1] - bounds[i][0]));
    const slopes = free.map((i, k) => {
      const small = Math.max(1e-7, Math.min(1e-4, reach / 10)) * (shares[k] < 0.5 ? 1 : -1);
      const beside = [...at];
      beside[i] += small * (bounds[i][1] - bounds[i][0]);
      return marginsAt(beside).map((margin, j) => (Number.isFinite(margin - here[j]) ? (margin - here[j]) / small : 0));
    });
    const finite = here.flatMap((margin, j) => (Number.isFinite(margin) ? [j] : []));
    const values = finite.map((j) => here[j]);
    const rows = finite.map((j) => slopes.map((slope) => slope[j]));
    let better = false;
    while (!better && !converged && left() > 0) {
      const lower = shares.map((share) => Math.max(-share, -reach));
      const upper = shares.map((share) => Math.min(1 - share, reach));
      const move = raiseLeast(values, rows, lower, upper);
      const foretold = Math.min(...values.map((margin, j) => margin + dot(rows[j], move))) - value;
      if (!(foretold > tolerance * 1e-3 * Math.max(Number.MIN_VALUE, Math.abs(value)))) {
        converged = true;
        break;
      }
      const place = [...at];
      free.forEach((i, k) => {
        const [from, to] = bounds[i];
        place[i] = Math.min(to, Math.max(from, at[i] + move[k] * (to - from)));
      });
      const found = marginsAt(place);
      const gain = Math.min(...found) - value;
      if (gain > 0.75 * foretold) reach = Math.min(0.5, 2 * reach);
      else if (!(gain > 0.25 * foretold)) reach /= 3;
      if (gain > 0.01 * foretold) {
        [at, here, value, better] = [place, found, Math.min(...found), true];
      } else converged = reach <= tolerance;
    }
  }
  return { converged, at, value, evaluations, step: free.length === 0 ? 0 : reach };
}

/**
 * Where the least of c_j + g_j · d is greatest within lower ≤ d ≤ upper: simplex method on a tableau, with the rule
 * that never goes round in circles. From d = lower, which is always allowed, so that no first phase is needed.
 */
function raiseLeast(
  values: readonly number[],
  slopes: readonly (readonly number[])[],
  lower: readonly number[],
  upper: readonly number[],
): number[] {
  const n = lower.length;
  const m = values.length;
  const atLower = values.map((value, j) => value + dot(slopes[j], lower));
  const base = Math.min(...atLower);
  // Columns: d - lower (n), t - base, then the right side. Rows: margins, then upper limits. All right sides are 0 or
  // above.
  const rows = [
    ...slopes.map((slope, j) => [...slope.map((g) => -g), 1, atLower[j] - base]),
    ...lower.map((from, i) => [...lower.map((_, k) => (k === i ? 1 : 0)), 0, upper[i] - from]),
  ];
  const aim = [...lower.map(() => 0), -1, 0];
  /** Which variable a column or a row stands for: numbers up to n are those of the columns, then come the slacks. */
  const columns = Array.from({ length: n + 1 }, (_, k) => k);
  const basis = Array.from({ length: m + n }, (_, r) => n + 1 + r);
  for (let turn = 0; turn < 50 * (m + n + 1); turn++) {
    let enter = -1;
    for (let k = 0; k <= n; k++) if (aim[k] < -1e-12 && (enter < 0 || columns[k] < columns[enter])) enter = k;
    if (enter < 0) break;
    let leave = -1;
    for (let r = 0; r < rows.length; r++) {
      if (!(rows[r][enter] > 1e-12)) continue;
      const sooner = leave < 0 ? -1 : rows[r][n + 1] / rows[r][enter] - rows[leave][n + 1] / rows[leave][enter];
      if (sooner < 0 || (sooner === 0 && basis[r] < basis[leave])) leave = r;
    }
    if (leave < 0) break;
    pivot([...rows, aim], leave, enter);
    [columns[enter], basis[leave]] = [basis[leave], columns[enter]];
  }
  const d = [...lower];
  basis.forEach((variable, r) => {
    if (variable < n) d[variable] += Math.max(0, rows[r][n + 1]);
  });
  return d.map((one, i) => Math.min(upper[i], one));
}

/** Exchanges the variable of a row for that of a column. */
function pivot(rows: readonly number[][], leave: number, enter: number): void {
  const pivotRow = rows[leave];
  const by = pivotRow[enter];
  pivotRow[enter] = 1;
  for (let k = 0; k < pivotRow.length; k++) pivotRow[k] /= by;
  for (const row of rows) {
    if (row === pivotRow) continue;
    const times = row[enter];
    if (times === 0) continue;
    row[enter] = 0;
    for (let k = 0; k < row.length; k++) row[k] -= times * pivotRow[k];
  }
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, x, i) => sum + x * b[i], 0);
}
