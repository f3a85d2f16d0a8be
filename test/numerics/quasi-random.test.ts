/** Evenness of the quasi-random points, and what scrambling keeps of it and adds to it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { mostDimensions, sobolPoints, sobolSequence } from '../../src/numerics/quasi-random.ts';
import { acrossScrambles } from '../../src/numerics/statistics-scrambles.ts';

const draw = (dimensions: number, seed: number | null, count: number, first = 0) =>
  sobolPoints(sobolSequence(dimensions, seed), first, count);

/** Mean of a function over points. */
function meanOver(points: Float64Array, dimensions: number, f: (x: Float64Array) => number): number {
  const count = points.length / dimensions;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += f(points.subarray(i * dimensions, (i + 1) * dimensions));
  return sum / count;
}

function randomPoints(dimensions: number, seed: number, count: number): Float64Array {
  const random = xoroshiro128plus(seed);
  return Float64Array.from({ length: dimensions * count }, () => uniformFloat64(random));
}

/** Product of Σ x_j e^x_j-like factors with mean 1: smooth, every dimension and every pair matters. */
const smooth = (x: Float64Array) => x.reduce((product, u) => product * (1 + 0.9 * (Math.exp(u) - (Math.E - 1))), 1);

test('the plain points are those of a general-purpose reference library (SciPy 1.17.1, stats.qmc.Sobol, not scrambled)', () => {
  assert.deepEqual(
    [...draw(6, null, 8)],
    [
      [0, 0, 0, 0, 0, 0],
      [0.5, 0.5, 0.5, 0.5, 0.5, 0.5],
      [0.75, 0.25, 0.25, 0.25, 0.75, 0.75],
      [0.25, 0.75, 0.75, 0.75, 0.25, 0.25],
      [0.375, 0.375, 0.625, 0.875, 0.375, 0.125],
      [0.875, 0.875, 0.125, 0.375, 0.875, 0.625],
      [0.625, 0.125, 0.875, 0.625, 0.625, 0.875],
      [0.125, 0.625, 0.375, 0.125, 0.125, 0.375],
    ].flat(),
  );
  const far = draw(128, null, 1, 1000);
  assert.deepEqual(
    [0, 1, 10, 63, 127].map((d) => far[d]),
    [0.2197265625, 0.0966796875, 0.0849609375, 0.4462890625, 0.5439453125],
  );
  assert.equal(
    far.reduce((sum, x) => sum + x, 0),
    66.060546875,
    'all 128 dimensions of point 1000',
  );
});

test('each dimension has one point in each of 2ᵏ slices, plain and scrambled, in every aligned block', () => {
  for (const seed of [null, 1, -7]) {
    for (const [count, first] of [
      [1024, 0],
      [256, 768],
      [2, 4],
    ] as const) {
      const points = draw(mostDimensions, seed, count, first);
      for (let d = 0; d < mostDimensions; d++) {
        const seen = new Set(
          Array.from({ length: count }, (_, i) => Math.floor(points[i * mostDimensions + d] * count)),
        );
        assert.equal(seen.size, count, `dimension ${d}, seed ${seed}, ${count} from ${first}`);
      }
    }
  }
});

test('a net: t = 0 in the first two dimensions and 1 in the first three, as the degrees of the polynomials say', () => {
  const m = 9;
  for (const [dimensions, t] of [
    [2, 0],
    [3, 1],
  ] as const) {
    for (const seed of [null, 3, 4]) {
      const points = draw(dimensions, seed, 2 ** m);
      for (let a = 0; a <= m - t; a++) {
        for (let b = 0; a + b <= m - t; b++) {
          const parts = dimensions === 2 ? [a, m - t - a] : [a, b, m - t - a - b];
          if (dimensions === 2 && b > 0) continue;
          const boxes = new Map<string, number>();
          for (let i = 0; i < 2 ** m; i++) {
            const box = parts.map((bits, d) => Math.floor(points[i * dimensions + d] * 2 ** bits)).join(' ');
            boxes.set(box, (boxes.get(box) ?? 0) + 1);
          }
          assert.equal(boxes.size, 2 ** (m - t), `boxes of ${parts.join(', ')} bits, seed ${seed}`);
          assert.ok(
            [...boxes.values()].every((count) => count === 2 ** t),
            `count in boxes of ${parts.join(', ')} bits`,
          );
        }
      }
    }
  }
});

/** Mean square of the star discrepancy of two columns, after T. T. Warnock 1972, the closed sum. */
function discrepancy(points: Float64Array, dimensions: number, a: number, b: number): number {
  const n = points.length / dimensions;
  let single = 0;
  let double = 0;
  for (let i = 0; i < n; i++) {
    const [x, y] = [points[i * dimensions + a], points[i * dimensions + b]];
    single += (1 - x * x) * (1 - y * y);
    for (let j = 0; j < n; j++) {
      double += (1 - Math.max(x, points[j * dimensions + a])) * (1 - Math.max(y, points[j * dimensions + b]));
    }
  }
  return 1 / 9 - single / (2 * n) + double / (n * n);
}

test('every neighbouring pair of dimensions is more even than random points are in the mean; most are far more so', () => {
  const n = 512;
  const random = (1 / 4 - 1 / 9) / n;
  const measured = discrepancy(randomPoints(2, 1, n), 2, 0, 1);
  assert.ok(measured > random / 8 && measured < random * 8, `the yardstick itself: ${measured} beside ${random}`);
  const dimensions = 64;
  for (const seed of [null, 5]) {
    const points = draw(dimensions, seed, n);
    const ratios = Array.from({ length: dimensions - 1 }, (_, d) => discrepancy(points, dimensions, d, d + 1) / random);
    assert.ok(Math.max(...ratios) < 1, `worst ${Math.max(...ratios)}, seed ${seed}`);
    assert.ok(ratios.sort((x, y) => x - y)[31] < 0.1, `median ${ratios[31]}, seed ${seed}`);
    assert.ok(discrepancy(points, dimensions, 0, 1) / random < 0.03, 'the first pair');
  }
});

test('the error of a smooth mean falls at least like 1/N, where that of random points falls like 1/√N', () => {
  const spread = (count: number, points: (seed: number) => Float64Array) => {
    const errors = Array.from({ length: 60 }, (_, seed) => (meanOver(points(seed + 1), 5, smooth) - 1) ** 2);
    return Math.sqrt(errors.reduce((sum, square) => sum + square, 0) / errors.length) || count;
  };
  const quasi = [128, 2048].map((count) => spread(count, (seed) => draw(5, seed, count)));
  const random = [128, 2048].map((count) => spread(count, (seed) => randomPoints(5, seed, count)));
  const order = ([few, many]: number[]) => Math.log(few / many) / Math.log(16);
  assert.ok(order(quasi) > 1, `scrambled points: order ${order(quasi)}`);
  assert.ok(Math.abs(order(random) - 0.5) < 0.12, `random points: order ${order(random)}`);
  assert.ok(quasi[1] < random[1] / 20, `2048 points: ${quasi[1]} beside ${random[1]}`);
  const plain = [128, 2048].map((count) => Math.abs(meanOver(draw(5, null, count), 5, smooth) - 1));
  assert.ok(plain[1] < plain[0] / 8 && plain[1] < random[1], `plain points: ${plain.join(', ')}`);
});

test('the mean of few scrambled points is unbiased, on a smooth function and on a step', () => {
  const step = (x: Float64Array) => (x[0] + x[1] + x[2] > 1.9 ? 1 : 0);
  // 1 - F(1.9), F of the sum of three shares: (1.9³ - 3 · 0.9³) / 6.
  const stepMean = 1 - (1.9 ** 3 - 3 * 0.9 ** 3) / 6;
  for (const [f, truth] of [
    [smooth, 1],
    [step, stepMean],
  ] as const) {
    const means = Array.from({ length: 4000 }, (_, seed) => meanOver(draw(3, seed, 8), 3, f));
    const { value, standardError } = acrossScrambles(means);
    assert.ok(Math.abs(value - truth) < 3.5 * standardError!, `${value} ± ${standardError}, truth ${truth}`);
  }
});

test('over many seeds the same point is uniform, and its dimensions go their own ways', () => {
  const seeds = 4096;
  for (const number of [0, 1, 5]) {
    const cells = new Float64Array(64);
    for (let seed = 0; seed < seeds; seed++) {
      const [x, y] = draw(2, seed, 1, number);
      cells[Math.floor(x * 8) * 8 + Math.floor(y * 8)]++;
    }
    const χ2 = cells.reduce((sum, count) => sum + (count - seeds / 64) ** 2 / (seeds / 64), 0);
    // 63 degrees of freedom: a share of 0.001 lies above 103.4.
    assert.ok(χ2 < 103.4, `point ${number}: ${χ2}`);
  }
});

test('intervals from eight scrambles hold the truth as often as they say', () => {
  let held = 0;
  for (let set = 0; set < 400; set++) {
    const means = Array.from({ length: 8 }, (_, k) => meanOver(draw(4, 8 * set + k + 100_000, 64), 4, smooth));
    const { lower, upper } = acrossScrambles(means);
    if (lower! <= 1 && 1 <= upper!) held++;
  }
  // 380 ± 3 · √(400 · 0.95 · 0.05) = 380 ± 13.
  assert.ok(held >= 367 && held <= 393, `${held} of 400`);
});

test('a block is part of the sequence, wherever it begins', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 9 }),
      fc.option(fc.integer()),
      fc.nat(300),
      fc.nat(40),
      (dimensions, seed, first, count) => {
        const whole = draw(dimensions, seed, first + count);
        assert.deepEqual(draw(dimensions, seed, count, first), whole.subarray(first * dimensions));
      },
    ),
    { numRuns: 100, seed: 1 },
  );
  const last = draw(3, 9, 3, 2 ** 32 - 3);
  assert.equal(
    last.every((x) => x > 0 && x < 1),
    true,
    'the last points there are',
  );
});

test('a seed always gives the same points, another seed others (unchanged since the first version)', () => {
  assert.deepEqual(
    [...draw(2, 1, 2)],
    [0.8961525304475799, 0.7869679265422747, 0.22009475447703153, 0.16180635744240135],
  );
  assert.notDeepEqual(draw(2, 1, 2), draw(2, 2, 2));
  assert.equal(
    draw(64, 1, 4096).every((x) => x > 0 && x < 1),
    true,
  );
});

test('what the table does not hold is refused', () => {
  for (const dimensions of [0, mostDimensions + 1, 1.5, Number.NaN])
    assert.throws(() => sobolSequence(dimensions, 1), RangeError);
  for (const seed of [0.5, 2 ** 32, Number.NaN]) assert.throws(() => sobolSequence(2, seed), RangeError);
  for (const [first, count] of [
    [-1, 2],
    [0, -1],
    [2 ** 32 - 1, 2],
    [0.5, 1],
  ]) {
    assert.throws(() => draw(2, 1, count, first), RangeError);
  }
});
