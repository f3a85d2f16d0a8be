/** A root search that says how it ended: `at` is the best abscissa, `residual` the value there. */
export interface RootResult {
  readonly converged: boolean;
  readonly at: number;
  readonly residual: number;
  readonly iterations: number;
}

/**
 * Root of `f` between two abscissae of opposite sign, by regula falsi with halved weights
 * (the Illinois rule), guarded by bisection. Superlinear on smooth functions and never leaves the bracket.
 *
 * Returns `converged: false` when the signs agree at the ends, or when the bracket is still wider than `tolerance` after
 * `most` evaluations.
 *
 * M. Dowell, P. Jarratt, A modified regula falsi method for computing the root of an equation, BIT 11 (1971) 168-174
 */
export function findRoot(f: (x: number) => number, from: number, to: number, tolerance = 1e-12, most = 80): RootResult {
  return findRootBetween(f, from, f(from), to, f(to), tolerance, most);
}

/** `findRoot` where the values at both ends are known. */
export function findRootBetween(
  f: (x: number) => number,
  from: number,
  atFrom: number,
  to: number,
  atTo: number,
  tolerance = 1e-12,
  most = 80,
): RootResult {
  let a = from;
  let b = to;
  let fa = atFrom;
  let fb = atTo;
  if (fa === 0) return { converged: true, at: a, residual: 0, iterations: 1 };
  if (fb === 0) return { converged: true, at: b, residual: 0, iterations: 2 };
  if (!(fa * fb < 0)) {
    const nearer = Math.abs(fa) < Math.abs(fb);
    return { converged: false, at: nearer ? a : b, residual: nearer ? fa : fb, iterations: 2 };
  }
  let kept = 0;
  for (let iterations = 3; iterations <= most; iterations++) {
    let x = b - (fb * (b - a)) / (fb - fa);
    if (!(x > Math.min(a, b) && x < Math.max(a, b))) x = (a + b) / 2;
    const fx = f(x);
    if (fx === 0 || Math.abs(b - a) <= tolerance) return { converged: true, at: x, residual: fx, iterations };
    if (fx * fb < 0) {
      a = b;
      fa = fb;
      kept = 0;
    } else if (++kept > 1) fa /= 2;
    const moved = Math.abs(x - b);
    b = x;
    fb = fx;
    if (moved <= tolerance) {
      // A short step is no proof: the root lies between here and a step of the tolerance towards the other end, or not yet.
      const near = b + Math.sign(a - b) * Math.min(tolerance, Math.abs(a - b));
      const fNear = f(near);
      if (fNear * fb <= 0) return { converged: true, at: b, residual: fb, iterations: iterations + 1 };
      b = near;
      fb = fNear;
      fa /= 2;
    }
  }
  return { converged: Math.abs(b - a) <= tolerance, at: b, residual: fb, iterations: most };
}
