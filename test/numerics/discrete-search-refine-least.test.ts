/** The raising of the least margin against tops whose place is known. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { refineLeast } from '../../src/numerics/discrete-search-refine-least.ts';
import { refineWithin } from '../../src/numerics/discrete-search-refine.ts';

const near = (actual: number, expected: number, tolerance: number, what = '') =>
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what} ${actual}, expected ${expected} ± ${tolerance}`);

test('the largest circle in a triangle of sides 3, 4, 5 has radius 1, found to the last digits in a few rounds', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 30 }), (x, y) => {
      const sides = ([x, y]: readonly number[]) => [x, y, (12 - 3 * x - 4 * y) / 5];
      const { at, value, converged, evaluations } = refineLeast(
        sides,
        [x / 10, y / 10],
        [
          [0, 4],
          [0, 3],
        ],
      );
      assert.equal(converged, true);
      near(value, 1, 1e-10);
      near(at[0], 1, 1e-10);
      near(at[1], 1, 1e-10);
      assert.ok(evaluations < 30, `${evaluations}`);
    }),
    { numRuns: 100, seed: 1 },
  );
});

// Both from C. Charalambous, A. R. Conn, SIAM J. Numer. Anal. 15 (1978) 162-187, as collections of test problems give
// them (memory).
test('minimax problems of the literature: two variables with least 1.9522245, four with least -44 at 0, 1, 2, -1', () => {
  const two = refineLeast(
    ([x, y]) => [-(x * x + y ** 4), -((2 - x) ** 2 + (2 - y) ** 2), -2 * Math.exp(y - x)],
    [2, 2],
    [
      [-3, 3],
      [-3, 3],
    ],
    { most: 500 },
  );
  near(two.value, -1.9522245, 1e-6);
  near(two.at[0], 1.13904, 1e-4);
  near(two.at[1], 0.89956, 1e-4);
  const four = refineLeast(
    ([a, b, c, d]) => {
      const f = a * a + b * b + 2 * c * c + d * d - 5 * a - 5 * b - 21 * c + 7 * d;
      return [
        -f,
        -f - 10 * (a * a + b * b + c * c + d * d + a - b + c - d - 8),
        -f - 10 * (a * a + 2 * b * b + c * c + 2 * d * d - a - d - 10),
        -f - 10 * (2 * a * a + b * b + c * c + 2 * a - b - d - 5),
      ];
    },
    [0, 0, 0, 0],
    [
      [-3, 3],
      [-3, 3],
      [-3, 3],
      [-3, 3],
    ],
    { most: 1000 },
  );
  near(four.value, 44, 1e-4);
  [0, 1, 2, -1].forEach((x, i) => near(four.at[i], x, 5e-3, `variable ${i}`));
});

test('where planes and curved margins meet at random the top is found, in up to six variables', () => {
  const random = xoroshiro128plus(8);
  const number = () => uniformFloat64(random) - 0.5;
  for (const n of [1, 2, 3, 6]) {
    for (const curved of [0, 2]) {
      for (let round = 0; round < 20; round++) {
        // Slopes that sum to nothing, and curves that only fall: the top, 1, is where all meet.
        const slopes = Array.from({ length: n + 1 + (round % 3) * n }, () => Array.from({ length: n }, number));
        slopes.push(Array.from({ length: n }, (_, i) => -slopes.reduce((sum, slope) => sum + slope[i], 0)));
        const top = Array.from({ length: n }, number);
        const margins = (x: readonly number[]) => {
          const square = x.reduce((sum, c, i) => sum + (c - top[i]) ** 2, 0);
          return slopes.map(
            (slope, j) => 1 - slope.reduce((sum, s, i) => sum + s * (x[i] - top[i]), 0) - curved * (j % 3) * square,
          );
        };
        const start = top.map(() => 0);
        const { value, converged } = refineLeast(
          margins,
          start,
          start.map(() => [-1, 1]),
        );
        assert.equal(converged, true);
        near(value, 1, 1e-8, `${n} variables, curve ${curved}`);
      }
    }
  }
});

test('a top on a bound, a margin that is infinitely good, and a held variable', () => {
  const bound = refineLeast(
    ([x, y]) => [x - y, 3 - y],
    [0.5, 0.5],
    [
      [0, 1],
      [0, 1],
    ],
  );
  near(bound.value, 1, 1e-12);
  assert.deepEqual(bound.at, [1, 0]);
  assert.ok(bound.evaluations < 20, `the bound is known for the end: ${bound.evaluations} evaluations`);
  const idle = refineLeast(([x]) => [Infinity, 1 - x, 1 + x], [0.4], [[-1, 1]]);
  near(idle.value, 1, 1e-12);
  const held = refineLeast(
    ([x, y]) => [x + y, 2 - x],
    [0, 3],
    [
      [0, 2],
      [3, 3],
    ],
  );
  near(held.at[0], 0, 1e-12);
  assert.equal(held.at[1], 3);
  assert.deepEqual(
    refineLeast(() => [4, 5], [1], [[1, 1]]),
    { converged: true, at: [1], value: 4, evaluations: 1, step: 0 },
  );
});

test('a start without a solution is given back as it is; steps into places without one are not taken', () => {
  const stuck = refineLeast(([x]) => [-Infinity, x], [0.2], [[0, 1]]);
  assert.deepEqual([stuck.converged, stuck.at, stuck.value], [false, [0.2], -Infinity]);
  const edge = refineLeast(
    ([x, y]) => (x + y > 1 ? [-Infinity] : [x, y + 0.2]),
    [0.1, 0.1],
    [
      [0, 1],
      [0, 1],
    ],
  );
  near(edge.value, 0.6, 1e-3);
});

test('never worse than the start, never outside, no more evaluations than told, and what it leaves refineWithin goes on from', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: -5, max: 5 }), fc.integer({ min: 0, max: 5 }), fc.nat(100)), {
        minLength: 1,
        maxLength: 4,
      }),
      fc.integer({ min: 1, max: 150 }),
      (axes, most) => {
        const bounds = axes.map(([from, width]) => [from, from + width] as const);
        const start = axes.map(([from, width, share]) => from + (width * share) / 100);
        let calls = 0;
        const wavy = (x: readonly number[]) => {
          calls++;
          x.forEach((c, i) => assert.ok(bounds[i][0] <= c && c <= bounds[i][1], `${c} is outside`));
          return [...x.map((c, i) => Math.sin(c * (i + 2)) - Math.abs(c)), Math.floor(x[0])];
        };
        const before = Math.min(...wavy(start));
        calls = 0;
        const found = refineLeast(wavy, start, bounds, { most });
        assert.ok(
          found.value >= before && found.evaluations <= most,
          `${found.value}, ${found.evaluations} of ${most}`,
        );
        assert.equal(calls, found.evaluations);
        assert.equal(Math.min(...wavy(found.at)), found.value);
        assert.deepEqual(refineLeast(wavy, start, bounds, { most }), found);
        const on = refineWithin((x) => Math.min(...wavy(x)), found.at, bounds, { most });
        assert.ok(on.value >= found.value, `${on.value}`);
      },
    ),
    { numRuns: 300, seed: 1 },
  );
  assert.throws(() => refineLeast(() => [0], [2], [[0, 1]]), /outside/);
  assert.throws(() => refineLeast(() => [0], [2], []), RangeError);
  assert.throws(() => refineLeast(() => [], [0], [[0, 1]]), /no margin/);
  assert.throws(() => refineLeast(() => [1, Number.NaN], [0], [[0, 1]]), /not a number/);
});
