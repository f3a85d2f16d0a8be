/** The shape-keeping cubic: through its points, never past them, and as exact as theory says. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { pchip, pchipAt, pchipPairInto } from '../../src/numerics/pchip.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const points = fc.array(fc.record({ step: share, value: share }), { minLength: 1, maxLength: 12 }).map((drawn) => {
  let at = -1;
  return {
    x: drawn.map(({ step }) => (at += 1e-3 + step)),
    y: drawn.map(({ value }) => (value < 0.1 ? 0 : 20 * value - 10)),
  };
});
/** A place in one of the intervals. */
const place = (x: readonly number[], part: number) => {
  const i = Math.min(x.length - 2, Math.floor(part * (x.length - 1)));
  return { i, at: x[i] + (part * (x.length - 1) - i) * (x[i + 1] - x[i]) };
};

test('goes through every point and holds its end values beyond', () => {
  fc.assert(
    fc.property(points, share, ({ x, y }, beyond) => {
      const curve = pchip(x, y);
      for (const [i, at] of x.entries()) assert.equal(Math.abs(pchipAt(curve, at) - y[i]) < 1e-12, true);
      assert.equal(pchipAt(curve, x[0] - beyond), y[0]);
      assert.equal(pchipAt(curve, x[x.length - 1] + beyond), y[y.length - 1]);
      assert.equal(Number.isNaN(pchipAt(curve, Number.NaN)), true);
    }),
    { numRuns: 200, seed: 1 },
  );
});

test('no overshoot: between two points it stays between them, and runs one way only', () => {
  fc.assert(
    fc.property(points, share, share, ({ x, y }, a, b) => {
      if (x.length < 2) return;
      const curve = pchip(x, y);
      const { i, at } = place(x, a);
      const [low, high] = [Math.min(y[i], y[i + 1]), Math.max(y[i], y[i + 1])];
      const value = pchipAt(curve, at);
      assert.ok(value >= low - 1e-12 && value <= high + 1e-12, `${value} outside ${low} to ${high}`);
      const further = at + b * (x[i + 1] - at);
      assert.ok((pchipAt(curve, further) - value) * Math.sign(y[i + 1] - y[i]) >= -1e-12, 'turns back');
    }),
    { numRuns: 1000, seed: 2 },
  );
});

test('has no step and no kink: values and slopes meet from both sides of a point', () => {
  fc.assert(
    fc.property(points, ({ x, y }) => {
      const curve = pchip(x, y);
      for (let i = 1; i + 1 < x.length; i++) {
        const h = 1e-6 * Math.min(x[i] - x[i - 1], x[i + 1] - x[i]);
        const [before, here, after] = [-h, 0, h].map((step) => pchipAt(curve, x[i] + step));
        const scale = 20 / Math.min(x[i] - x[i - 1], x[i + 1] - x[i]);
        assert.equal(Math.abs((after - here) / h - (here - before) / h) < 1e-3 * scale, true);
      }
    }),
    { numRuns: 200, seed: 3 },
  );
});

test('follows its points when they are moved, turned upside down or stretched', () => {
  fc.assert(
    fc.property(points, share, ({ x, y }, part) => {
      if (x.length < 2) return;
      const { at } = place(x, part);
      const value = pchipAt(pchip(x, y), at);
      const flipped = pchipAt(
        pchip(
          x.map((v) => 3 * v + 1),
          y.map((v) => 5 - 2 * v),
        ),
        3 * at + 1,
      );
      assert.equal(Math.abs(flipped - (5 - 2 * value)) < 1e-9, true);
      const backwards = pchipAt(pchip(x.map((v) => -v).reverse(), [...y].reverse()), -at);
      assert.equal(Math.abs(backwards - value) < 1e-9, true);
    }),
    { numRuns: 200, seed: 4 },
  );
});

function worstError(f: (x: number) => number, from: number, to: number, intervals: number): number {
  const x = Array.from({ length: intervals + 1 }, (_, i) => from + ((to - from) * i) / intervals);
  const curve = pchip(x, x.map(f));
  let worst = 0;
  for (let i = 0; i <= 20 * intervals; i++) {
    const at = from + ((to - from) * i) / (20 * intervals);
    worst = Math.max(worst, Math.abs(pchipAt(curve, at) - f(at)));
  }
  return worst;
}

test('order of convergence: three on a smooth rising curve, two where it turns, exact on a straight line', () => {
  // Weighted harmonic mean of the secants: slopes are off by h², values by h³ (Fritsch and Butland 1984); at a turning
  // point the slope is set to zero and the error is that of a flat top, h².
  const order = (f: (x: number) => number, from: number, to: number) =>
    Math.log2(worstError(f, from, to, 64) / worstError(f, from, to, 128));
  const cubic = (x: number) => x ** 3 + x;
  assert.ok(order(cubic, 0.5, 2) > 2.8, `cubic ${order(cubic, 0.5, 2)}`);
  assert.ok(order(Math.exp, 0, 1) > 2.8, `exp ${order(Math.exp, 0, 1)}`);
  const turning = order((x) => Math.cos(x - 0.013), -1, 1);
  assert.ok(turning > 1.8 && turning < 3.3, `cos ${turning}`);
  assert.equal(worstError((x) => 3 - 2 * x, -1, 5, 7) < 1e-14, true);
});

test('two curves over the same abscissae, looked up together, give what each gives alone', () => {
  const x = [-1, 0.5, 0.75, 2, 4];
  const [first, second] = [pchip(x, [3, 1, 1.5, -2, 0]), pchip(x, [0, 0, 1, 1, 7])];
  const into = new Float64Array(4);
  const places = [...x, ...Array.from({ length: 200 }, (_, i) => -1.5 + i * 0.03), Number.NaN];
  for (const at of places) {
    pchipPairInto(first, second, at, into, 1);
    assert.deepEqual([...into], [0, pchipAt(first, at), pchipAt(second, at), 0], `at ${at}`);
  }
});

test('what is no curve is refused', () => {
  for (const [x, y] of [
    [[], []],
    [[1, 2], [1]],
    [
      [1, 1],
      [1, 2],
    ],
    [
      [2, 1],
      [1, 2],
    ],
    [
      [1, Number.NaN],
      [1, 2],
    ],
  ] as const) {
    assert.throws(() => pchip(x, y), RangeError);
  }
});
