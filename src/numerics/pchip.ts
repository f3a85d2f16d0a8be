/**
 * Piecewise cubic Hermite interpolation that keeps the shape of the data: no overshoot, monotone where the data are.
 *
 * Slopes are the weighted harmonic mean of the neighbouring secants where those agree in sign, zero where they do not;
 * end slopes are the three-point formula, limited to keep the shape. [1][2]
 *
 * [1] F. N. Fritsch, R. E. Carlson, Monotone piecewise cubic interpolation, SIAM J. Numer. Anal. 17 (1980) 238-246
 * [2] F. N. Fritsch, J. Butland, A method for constructing local monotone piecewise cubic interpolants,
 *     SIAM J. Sci. Stat. Comput. 5 (1984) 300-304
 */
export interface Pchip {
  /** Abscissae, strictly increasing. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly slope: readonly number[];
}

/** @throws RangeError when fewer than one point is given or the abscissae do not strictly increase */
export function pchip(x: ArrayLike<number>, y: ArrayLike<number>): Pchip {
  const n = x.length;
  if (n === 0 || y.length !== n)
    throw new RangeError(`pchip needs as many ordinates as abscissae, at least one: read ${n} and ${y.length}`);
  // Plain lists: for a handful of points they are made far quicker than typed ones.
  const slope: number[] = [];
  // While the slopes are unknown, the secants stand in their places.
  for (let i = 0; i + 1 < n; i++) {
    const h = x[i + 1] - x[i];
    if (!(h > 0)) throw new RangeError(`pchip abscissae must increase: ${x[i]} is followed by ${x[i + 1]}`);
    slope.push((y[i + 1] - y[i]) / h);
  }
  slope.push(n === 2 ? slope[0] : 0);
  if (n > 2) {
    const end = endSlope(x[n - 1] - x[n - 2], x[n - 2] - x[n - 3], slope[n - 2], slope[n - 3]);
    const first = endSlope(x[1] - x[0], x[2] - x[1], slope[0], slope[1]);
    let before = slope[0];
    for (let i = 1; i + 1 < n; i++) {
      const after = slope[i];
      slope[i] = 0;
      if (before * after > 0) {
        const near = x[i] - x[i - 1];
        const far = x[i + 1] - x[i];
        const w1 = 2 * far + near;
        const w2 = far + 2 * near;
        slope[i] = (w1 + w2) / (w1 / before + w2 / after);
      }
      before = after;
    }
    slope[0] = first;
    slope[n - 1] = end;
  }
  return { x: listOf(x), y: listOf(y), slope };
}

function listOf(values: ArrayLike<number>): number[] {
  const list: number[] = [];
  for (let i = 0; i < values.length; i++) list.push(values[i]);
  return list;
}

function endSlope(h0: number, h1: number, secant0: number, secant1: number): number {
  const slope = ((2 * h0 + h1) * secant0 - h0 * secant1) / (h0 + h1);
  if (slope * secant0 <= 0) return 0;
  if (secant0 * secant1 < 0 && Math.abs(slope) > 3 * Math.abs(secant0)) return 3 * secant0;
  return slope;
}

/** Value at `at`; beyond the ends the end value, so a caller that must not extrapolate checks the range itself. */
export function pchipAt(curve: Pchip, at: number): number {
  const { x, y } = curve;
  const last = x.length - 1;
  if (!(at > x[0])) return Number.isNaN(at) ? NaN : y[0];
  if (at >= x[last]) return y[last];
  return cubicAt(curve, cellOf(x, at), at);
}

/** `pchipAt` of two curves over the same abscissae, looked up once: into two places beside each other. */
export function pchipPairInto(first: Pchip, second: Pchip, at: number, into: Float64Array, place: number): void {
  const { x } = first;
  const last = x.length - 1;
  if (at > x[0] && at < x[last]) {
    const cell = cellOf(x, at);
    into[place] = cubicAt(first, cell, at);
    into[place + 1] = cubicAt(second, cell, at);
    return;
  }
  const end = at > x[0] ? last : 0;
  into[place] = Number.isNaN(at) ? NaN : first.y[end];
  into[place + 1] = Number.isNaN(at) ? NaN : second.y[end];
}

/** The cell that holds `at`, which lies between the first and the last abscissa. */
function cellOf(x: readonly number[], at: number): number {
  let low = 0;
  let high = x.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle] <= at) low = middle;
    else high = middle;
  }
  return low;
}

function cubicAt({ x, y, slope }: Pchip, low: number, at: number): number {
  const high = low + 1;
  const h = x[high] - x[low];
  const t = (at - x[low]) / h;
  const u = 1 - t;
  return (
    y[low] * (1 + 2 * t) * u * u
    + h * slope[low] * t * u * u
    + y[high] * t * t * (3 - 2 * t)
    - h * slope[high] * t * t * u
  );
}
