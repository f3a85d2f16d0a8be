/** The refinement of continuous variables against tops whose place is known. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { refineWithin } from '../../src/numerics/discrete-search-refine.ts';
import { leastOf } from '../../src/numerics/discrete-search.ts';

const near = (actual: number, expected: number, tolerance: number, what = '') =>
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what} ${actual}, expected ${expected} ± ${tolerance}`);

test('the largest circle in a triangle of sides 3, 4, 5 has radius 1', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 22 }), fc.nat(1000), (x, y, seed) => {
      const inside = ([x, y]: readonly number[]) => leastOf([() => x, () => y, () => (12 - 3 * x - 4 * y) / 5]);
      const { at, value, converged } = refineWithin(
        inside,
        [x / 10, y / 10],
        [
          [0, 4],
          [0, 3],
        ],
        { seed, most: 2000 },
      );
      assert.equal(converged, true);
      near(value, 1, 1e-3);
      near(at[0], 1, 3e-3);
      near(at[1], 1, 3e-3);
    }),
    { numRuns: 60, seed: 1 },
  );
});

test('the straight line nearest to x² from -1 to 1 is y = 1/2, off by 1/2 at three places (P. L. Chebyshev)', () => {
  const places = Array.from({ length: 21 }, (_, i) => (i - 10) / 10);
  const { at, value } = refineWithin(
    ([a, b]) => leastOf(places.map((x) => () => -Math.abs(x * x - a - b * x))),
    [0, 0.7],
    [
      [-2, 2],
      [-2, 2],
    ],
  );
  near(value, -0.5, 1e-3);
  near(at[0], 0.5, 3e-3);
  near(at[1], 0, 3e-3);
});

test('the curved valley of H. H. Rosenbrock is followed to its end, and a hill in six variables is climbed', () => {
  const valley = refineWithin(
    ([x, y]) => -100 * (y - x * x) ** 2 - (1 - x) ** 2,
    [-1.2, 1],
    [
      [-2, 2],
      [-2, 2],
    ],
    { most: 5000 },
  );
  near(valley.at[0], 1, 2e-3);
  near(valley.at[1], 1, 4e-3);
  const six = Array.from({ length: 6 }, (_, i) => [-1 - i, 2 + i] as const);
  const hill = refineWithin(
    (x) => 1 - x.reduce((sum, c, i) => sum + (i + 1) * (c - 0.3 * i) ** 2, 0),
    [0, 0, 0, 0, 0, 0],
    six,
  );
  hill.at.forEach((c, i) => near(c, 0.3 * i, 1e-3));
});

test('a top on a bound is found, values without a solution are walked around, and held variables stay', () => {
  const corner = refineWithin(
    ([x, y]) => x - y,
    [0.5, 0.5],
    [
      [0, 1],
      [0, 1],
    ],
  );
  assert.deepEqual(corner.at, [1, 0]);
  const ring = refineWithin(
    ([x, y]) => (Math.hypot(x, y) > 1 ? -Infinity : x),
    [0, 0],
    [
      [-2, 2],
      [-2, 2],
    ],
  );
  near(ring.value, 1, 1e-3);
  const held = refineWithin(
    ([x, y]) => -((x - 0.2) ** 2) - y,
    [0.9, 3],
    [
      [0, 1],
      [3, 3],
    ],
  );
  near(held.at[0], 0.2, 1e-4);
  assert.equal(held.at[1], 3);
  assert.deepEqual(
    refineWithin(() => 4, [1], [[1, 1]]),
    { converged: true, at: [1], value: 4, evaluations: 1, step: 0 },
  );
});

test('never worse than the start, never outside, no more evaluations than told, the same every time', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: -5, max: 5 }), fc.integer({ min: 0, max: 5 }), fc.nat(100)), {
        minLength: 1,
        maxLength: 4,
      }),
      fc.integer({ min: 1, max: 150 }),
      fc.nat(50),
      (axes, most, seed) => {
        const bounds = axes.map(([from, width]) => [from, from + width] as const);
        const start = axes.map(([from, width, share]) => from + (width * share) / 100);
        let calls = 0;
        const wavy = (x: readonly number[]) => {
          calls++;
          x.forEach((c, i) => assert.ok(bounds[i][0] <= c && c <= bounds[i][1], `${c} is outside`));
          return x.reduce((sum, c, i) => sum + Math.sin(c * (i + 2)) - Math.abs(c), 0);
        };
        const before = wavy(start);
        calls = 0;
        const found = refineWithin(wavy, start, bounds, { most, seed });
        assert.ok(
          found.value >= before && found.evaluations <= most,
          `${found.value}, ${found.evaluations} of ${most}`,
        );
        assert.equal(calls, found.evaluations);
        assert.equal(wavy(found.at), found.value);
        assert.deepEqual(refineWithin(wavy, start, bounds, { most, seed }), found);
      },
    ),
    { numRuns: 300, seed: 1 },
  );
  assert.equal(refineWithin(([x]) => x, [0], [[0, 9]], { most: 3 }).converged, false);
  assert.throws(() => refineWithin(() => 0, [2], [[0, 1]]), /outside/);
  assert.throws(() => refineWithin(() => 0, [2], []), RangeError);
  assert.throws(() => refineWithin(() => Number.NaN, [0], [[0, 1]]), /not a number/);
});

test('where planes meet at random the top is missed by little in one, two and three variables', () => {
  const random = xoroshiro128plus(8);
  const number = () => uniformFloat64(random) - 0.5;
  const missed = (n: number, planes: number) =>
    Array.from({ length: 60 }, () => {
      // Slopes that sum to nothing: no direction rises on all planes, so the top, 1, is where they all meet.
      const slopes = Array.from({ length: planes - 1 }, () => Array.from({ length: n }, number));
      slopes.push(Array.from({ length: n }, (_, i) => -slopes.reduce((sum, slope) => sum + slope[i], 0)));
      const top = Array.from({ length: n }, number);
      const least = (x: readonly number[]) =>
        leastOf(slopes.map((slope) => () => 1 - slope.reduce((sum, s, i) => sum + s * (x[i] - top[i]), 0)));
      const start = top.map(() => 0);
      return (
        1
        - refineWithin(
          least,
          start,
          start.map(() => [-1, 1]),
        ).value
      );
    });
  // As few planes as can hold a top are the hardest: edges are sharp.
  for (const [n, planes, worst, mean] of [
    [1, 3, 1e-6, 1e-6],
    [2, 4, 0.01, 2e-4],
    [3, 5, 0.02, 1e-3],
    [2, 6, 1e-4, 1e-5],
    [3, 8, 1e-3, 1e-4],
  ]) {
    const all = missed(n, planes);
    const sum = all.reduce((a, b) => a + b, 0);
    assert.ok(Math.min(...all) > -1e-12, 'nothing is above the top');
    assert.ok(Math.max(...all) < worst, `${n} variables, ${planes} planes: worst ${Math.max(...all)}`);
    assert.ok(sum / 60 < mean, `${n} variables, ${planes} planes: mean ${sum / 60}`);
  }
});
