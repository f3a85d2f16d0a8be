/** Greatest value of a function of one variable, for lines that keep furthest from both edges of a window. */

/** Greatest value of a concave function, by golden sections. */
export function greatest(
  of: (x: number) => number,
  from: number,
  to: number,
): { readonly at: number; readonly value: number } {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  let [x, y] = [b - golden * (b - a), a + golden * (b - a)];
  let [fx, fy] = [of(x), of(y)];
  for (let i = 0; i < 40; i++) {
    if (fx < fy) {
      [a, x, fx] = [x, y, fy];
      y = a + golden * (b - a);
      fy = of(y);
    } else {
      [b, y, fy] = [y, x, fx];
      x = b - golden * (b - a);
      fx = of(x);
    }
  }
  return { at: (a + b) / 2, value: of((a + b) / 2) };
}
