/**
 * Least value of a function with one dip between `from` and `to`, by golden section: `steps` evaluations narrow the
 * interval by 0.618 each, so 20 steps leave 1/15,000 of it.
 *
 * J. Kiefer, Sequential minimax search for a maximum, Proc. Amer. Math. Soc. 4 (1953) 502-506
 */
export function leastBetween(
  f: (x: number) => number,
  from: number,
  to: number,
  steps = 20,
): { readonly at: number; readonly value: number } {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let a = from;
  let b = to;
  let x1 = b - ratio * (b - a);
  let x2 = a + ratio * (b - a);
  let f1 = f(x1);
  let f2 = f(x2);
  for (let i = 2; i < steps; i++) {
    if (f1 <= f2) {
      b = x2;
      x2 = x1;
      f2 = f1;
      x1 = b - ratio * (b - a);
      f1 = f(x1);
    } else {
      a = x1;
      x1 = x2;
      f1 = f2;
      x2 = a + ratio * (b - a);
      f2 = f(x2);
    }
  }
  return f1 <= f2 ? { at: x1, value: f1 } : { at: x2, value: f2 };
}
