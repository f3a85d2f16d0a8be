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
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly slope: Float64Array;
}

/** @throws RangeError when fewer than one point is given or the abscissae do not strictly increase */
export function pchip(x: ArrayLike<number>, y: ArrayLike<number>): Pchip {
  const n = x.length;
  if (n === 0 || y.length !== n)
    throw new RangeError(`pchip needs as many ordinates as abscissae, at least one: read ${n} and ${y.length}`);
  const h = new Float64Array(Math.max(0, n - 1));
  const secant = new Float64Array(Math.max(0, n - 1));
  for (let i = 0; i + 1 < n; i++) {
    h[i] = x[i + 1] - x[i];
    if (!(h[i] > 0)) throw new RangeError(`pchip abscissae must increase: ${x[i]} is followed by ${x[i + 1]}`);
    secant[i] = (y[i + 1] - y[i]) / h[i];
  }
  const slope = new Float64Array(n);
  if (n === 2) slope.fill(secant[0]);
  if (n > 2) {
    for (let i = 1; i + 1 < n; i++) {
      const before = secant[i - 1];
      const after = secant[i];
      if (before * after <= 0) continue;
      const w1 = 2 * h[i] + h[i - 1];
      const w2 = h[i] + 2 * h[i - 1];
      slope[i] = (w1 + w2) / (w1 / before + w2 / after);
    }
    slope[0] = endSlope(h[0], h[1], secant[0], secant[1]);
    slope[n - 1] = endSlope(h[n - 2], h[n - 3], secant[n - 2], secant[n - 3]);
  }
  return { x: Float64Array.from(x), y: Float64Array.from(y), slope };
}

function endSlope(h0: number, h1: number, secant0: number, secant1: number): number {
  const slope = ((2 * h0 + h1) * secant0 - h0 * secant1) / (h0 + h1);
  if (slope * secant0 <= 0) return 0;
  if (secant0 * secant1 < 0 && Math.abs(slope) > 3 * Math.abs(secant0)) return 3 * secant0;
  return slope;
}

/** Value at `at`; beyond the ends the end value, so a caller that must not extrapolate checks the range itself. */
export function pchipAt(curve: Pchip, at: number): number {
  const { x, y, slope } = curve;
  const last = x.length - 1;
  if (!(at > x[0])) return Number.isNaN(at) ? NaN : y[0];
  if (at >= x[last]) return y[last];
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle] <= at) low = middle;
    else high = middle;
  }
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
