/**
 * The standard normal distribution, both ways, to the last digits of a double.
 *
 * [1] M. J. Wichura, Algorithm AS 241: the percentage points of the normal distribution, Appl. Statist. 37 (1988)
 *     477-484
 * [2] W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969) 631-637
 */

/**
 * z below which the share `p` lies, by the rational approximations of PPND16 [1]: relative error near 1e-15 for p from
 * 1e-300 to 1 - 1e-16. Shares 0 and 1 give -∞ and ∞, a number that is no share gives NaN.
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(A, r)) / polynomial(B, r);
  }
  if (p === 0) return -Infinity;
  if (p === 1) return Infinity;
  const tail = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const z =
    tail <= 5
      ? polynomial(C, tail - 1.6) / polynomial(D, tail - 1.6)
      : polynomial(E, tail - 5) / polynomial(F, tail - 5);
  return q < 0 ? -z : z;
}

/**
 * Share below `z`, by the rational approximations of [2]: relative error below 1e-14 down to z = -37, where it is
 * 6e-300.
 */
export function normalCumulative(z: number): number {
  const y = Math.abs(z);
  if (y <= 0.67448975) return 0.5 + (z * polynomial(P, y * y)) / polynomial(Q, y * y);
  const fraction = y <= Math.sqrt(32) ? polynomial(R, y) / polynomial(S, y) : farFraction(y);
  // exp(-y²/2) in two factors, since y² itself is rounded.
  const coarse = Math.trunc(y * 16) / 16;
  const tail = Math.exp((-coarse * coarse) / 2) * Math.exp((-(y - coarse) * (y + coarse)) / 2) * fraction;
  return z > 0 ? 1 - tail : tail;
}

function farFraction(y: number): number {
  const s = 1 / (y * y);
  return (1 / Math.sqrt(2 * Math.PI) - (s * polynomial(T, s)) / polynomial(U, s)) / y;
}

/** Coefficients from the constant on. */
function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i];
  return sum;
}

// Coefficients as the sources print them, from the constant on.
/* oxlint-disable no-loss-of-precision */
const A = [
  3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125, 45921.953931549871457,
  67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
];
const B = [
  1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867, 39307.89580009271061,
  28729.085735721942674, 5226.495278852854561,
];
const C = [
  1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504, 1.27045825245236838258,
  0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4,
];
const D = [
  1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459,
  0.0151986665636164571966, 5.475938084995344946e-4, 1.05075007164441684324e-9,
];
const E = [
  6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123, 0.026532189526576123093,
  0.0012426609473880784386, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
];
const F = [
  1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525, 7.868691311456132591e-4,
  1.8463183175100546818e-5, 1.4215117583164458887e-7, 2.04426310338993978564e-15,
];

const P = [
  18154.981253343561249, 1067.6894854603709582, 161.02823106855587881, 2.2352520354606839287, 0.065682337918207449113,
];
const Q = [45507.789335026729956, 10260.932208618978205, 976.09855173777669322, 47.20258190468824187, 1];
const R = [
  9842.7148383839780218, 11602.651437647350124, 6848.1904505362823326, 2494.5375852903726711, 597.27027639480026226,
  93.506656132177855979, 8.8831497943883759412, 0.39894151208813466764, 1.0765576773720192317e-8,
];
const S = [
  19685.429676859990727, 38912.003286093271411, 34900.952721145977266, 18615.571640885098091, 6485.558298266760755,
  1519.377599407554805, 235.38790178262499861, 22.266688044328115691, 1,
];
const T = [
  2.9112874951168792e-5, 0.001421619193227893466, 0.022235277870649807, 0.1274011611602473639, 0.21589853405795699,
  0.02307344176494017303,
];
const U = [
  7.29751555083966205e-5, 0.00378239633202758244, 0.0659881378689285515, 0.468238212480865118, 1.28426009614491121, 1,
];
