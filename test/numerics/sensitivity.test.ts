/**
 * Sensitivity indices against models whose shares are known, and the errors that are stated against those that are
 * made.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import { normalQuantile } from '../../src/numerics/distribution-normal.ts';
import { sobolPoints, sobolSequence } from '../../src/numerics/quasi-random.ts';
import { binsFor, oneRunIndices } from '../../src/numerics/sensitivity-one-run.ts';
import {
  eachColumn,
  pickFreezePoints,
  sensitivityIndices,
  varianceParts,
  type Factors,
} from '../../src/numerics/sensitivity.ts';

const near = (actual: number, expected: number, tolerance: number, what = '') =>
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what} ${actual}, expected ${expected} ± ${tolerance}`);

type Model = (x: Float64Array) => number;

function run(model: Model, rows: Float64Array, dimensions: number): Float64Array {
  return Float64Array.from({ length: rows.length / dimensions }, (_, i) =>
    model(rows.subarray(i * dimensions, (i + 1) * dimensions)),
  );
}

function indices(model: Model, dimensions: number, factors: Factors, points: number, scrambles: number, seed = 1) {
  return sensitivityIndices(
    Array.from({ length: scrambles }, (_, k) =>
      varianceParts(run(model, pickFreezePoints(dimensions, factors, points, seed + k), dimensions), factors.length),
    ),
  );
}

test('the points: A, B, and A with the columns of one factor from B', () => {
  const factors = [[0, 2], [1]];
  const rows = pickFreezePoints(3, factors, 4, 9);
  const row = (block: number, i: number) => [...rows.subarray((block * 4 + i) * 3, (block * 4 + i + 1) * 3)];
  for (let i = 0; i < 4; i++) {
    const [a, b] = [row(0, i), row(1, i)];
    assert.deepEqual([...a, ...b], [...sobolPoints(sobolSequence(6, 9), i, 1)]);
    assert.deepEqual(row(2, i), [b[0], a[1], b[2]]);
    assert.deepEqual(row(3, i), [a[0], b[1], a[2]]);
  }
  assert.equal(rows.length, 4 * 4 * 3);
  assert.throws(() => pickFreezePoints(65, eachColumn(65), 4, 1), RangeError);
  assert.throws(() => pickFreezePoints(2, [[2]], 4, 1), /no column 2/);
});

test('a sum of normal quantities: shares of the variances, first order and total alike', () => {
  const weights = [1, 2, 3, 0];
  const model: Model = (x) => x.reduce((sum, u, i) => sum + weights[i] * normalQuantile(u), 100);
  const found = indices(model, 4, eachColumn(4), 1024, 8)!;
  near(found.mean, 100, 0.01);
  near(found.variance, 14, 0.1);
  for (const [i, share] of [1 / 14, 4 / 14, 9 / 14, 0].entries()) {
    near(found.first[i].value, share, 0.01, `first ${i}`);
    near(found.total[i].value, share, 0.01, `total ${i}`);
  }
  assert.equal(found.total[3].value, 0, 'what does nothing has a total of nothing');
});

test('a product has no first order about zero, and all of it in the total; a factor of two columns has both', () => {
  const model: Model = (x) => (x[0] - 0.5) * (x[1] - 0.5) + 0.1 * x[2];
  const V = 1 / 144 + 0.01 / 12;
  const each = indices(model, 3, eachColumn(3), 2048, 8)!;
  near(each.first[0].value, 0, 0.02);
  near(each.total[0].value, 1 / 144 / V, 0.02);
  const both = indices(model, 3, [[0, 1], [2]], 2048, 8)!;
  near(both.first[0].value, 1 / 144 / V, 0.02);
  near(both.first[1].value, 0.01 / 12 / V, 0.02);
});

/** Product of (|4 x - 2| + a) / (1 + a): partial variances 1 / (3 (1 + a)²), after I. M. Sobol'. */
const weightsOfG = [0, 1, 4.5, 9, 99, 99];
const gFunction: Model = (x) =>
  x.reduce((product, u, i) => (product * (Math.abs(4 * u - 2) + weightsOfG[i])) / (1 + weightsOfG[i]), 1);
const partial = weightsOfG.map((a) => 1 / (3 * (1 + a) ** 2));
const varianceOfG = partial.reduce((product, v) => product * (1 + v), 1) - 1;
const firstOfG = partial.map((v) => v / varianceOfG);
const totalOfG = partial.map((v) => (v * (1 + varianceOfG)) / (1 + v) / varianceOfG);

test("the g-function's indices, from its own formula; intervals hold them as often as they say", () => {
  let held = 0;
  let asked = 0;
  for (let set = 0; set < 30; set++) {
    const { first, total } = indices(gFunction, 6, eachColumn(6), 256, 8, 1000 * set)!;
    for (const [found, truth] of [
      [first, firstOfG],
      [total, totalOfG],
    ] as const) {
      found.forEach(({ value, lower, upper }, i) => {
        near(value, truth[i], 0.05, `set ${set}, factor ${i}`);
        asked++;
        if (lower! <= truth[i] && truth[i] <= upper!) held++;
      });
    }
  }
  // Estimates of one set share their runs, so the count scatters more than a binomial one.
  assert.ok(held / asked > 0.9 && held / asked < 0.985, `${held} of ${asked}`);
});

test('one scramble gives indices without errors, a result that does not vary gives none', () => {
  const one = indices(gFunction, 6, eachColumn(6), 512, 1)!;
  assert.equal(one.first[0].standardError, null);
  assert.equal(
    indices(() => 3, 2, eachColumn(2), 16, 2),
    null,
  );
  assert.throws(() => sensitivityIndices([]), RangeError);
  assert.throws(() => varianceParts([1, 2, 3], 2), /do not fill/);
  assert.throws(() => varianceParts([1, 2, 3, Number.NaN, 3, 4], 1), /not finite/);
});

const randomShares = (random: RandomGenerator, count: number) =>
  Float64Array.from({ length: count }, () => uniformFloat64(random));

test('the quick index finds first orders from eight small scrambles, and errs as it says', () => {
  const n = 128;
  const rounds = 60;
  const found = Array.from({ length: rounds }, (_, round) =>
    oneRunIndices(
      Array.from({ length: 8 }, (_, k) => {
        const inputs = sobolPoints(sobolSequence(6, 8 * round + k), 0, n);
        return { inputs, results: run(gFunction, inputs, 6) };
      }),
      8,
    )!,
  );
  let held = 0;
  for (let i = 0; i < 6; i++) {
    // |4 x - 2| is two straight halves of 4 bins each.
    const seen = firstOfG[i] * (1 - 1 / 16);
    const errors = found.map((one) => one[i].value - seen);
    const mean = errors.reduce((a, b) => a + b, 0) / rounds;
    const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / rounds);
    const stated = found.reduce((sum, one) => sum + one[i].standardError!, 0) / rounds;
    held += found.filter((one) => one[i].lower! <= seen && seen <= one[i].upper!).length;
    assert.ok(stated < 0.03, `factor ${i} says ${stated}`);
    near(mean, 0, (4 * stated) / Math.sqrt(rounds), `mean error of factor ${i}`);
    assert.ok(rms < 1.4 * stated && rms > stated / 2, `factor ${i}: errs by ${rms}, says ${stated}`);
  }
  assert.ok(held > 0.9 * rounds * 6, `intervals hold ${held} of ${rounds * 6}`);
});

test('the quick index from one set of random draws errs as it says', () => {
  const n = 1024;
  const random = xoroshiro128plus(4);
  const found = Array.from({ length: 60 }, () => {
    const inputs = randomShares(random, n * 6);
    return oneRunIndices([{ inputs, results: run(gFunction, inputs, 6) }])!;
  });
  for (let i = 0; i < 6; i++) {
    const errors = found.map((one) => one[i].value - firstOfG[i] * (1 - 4 / binsFor(n) ** 2));
    const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
    const stated = found.reduce((sum, one) => sum + one[i].standardError!, 0) / errors.length;
    assert.ok(rms < 1.4 * stated && rms > stated / 2, `factor ${i}: errs by ${rms}, says ${stated}`);
    near(
      errors.reduce((a, b) => a + b, 0) / errors.length,
      0,
      (4 * stated) / Math.sqrt(60),
      `mean error of factor ${i}`,
    );
  }
});

test('the stated bias of the quick index: 1/K² of a straight effect, about (mπ)²/(3K²) of a wave', () => {
  const n = 65_536;
  const inputs = Float64Array.from({ length: n }, (_, i) => (i + 0.5) / n);
  const lost = (results: Float64Array, K: number, sets: number) =>
    1
    - oneRunIndices(
      Array.from({ length: sets }, () => ({ inputs, results })),
      K,
    )![0].value;
  for (const sets of [1, 3]) {
    for (const K of [4, 8, 16]) {
      near(lost(inputs, K, sets) * K * K, 1, 0.01, `straight, ${K} bins`);
      for (const m of [1, 2]) {
        const wave = inputs.map((u) => Math.sin(2 * Math.PI * m * u));
        if (m * 8 <= K)
          near(lost(wave, K, sets) / ((m * Math.PI) ** 2 / (3 * K * K)), 1, 0.06, `${m} waves, ${K} bins`);
      }
    }
  }
});

test('the quick index needs draws enough, and a result', () => {
  const set = (inputs: number, results: readonly number[]) => ({ inputs: new Float64Array(inputs), results });
  const counted = (n: number) => Array.from({ length: n }, (_, i) => i);
  assert.deepEqual([16, 128, 1024, 1e6].map(binsFor), [4, 4, 16, 64]);
  assert.throws(() => oneRunIndices([]), /no draws/);
  assert.throws(() => oneRunIndices([set(6, counted(6))]), /too few/);
  assert.throws(() => oneRunIndices([set(9, counted(8))]), /do not go with/);
  assert.throws(() => oneRunIndices([set(8, counted(8)), set(9, counted(9))]), /differ in size/);
  assert.throws(() => oneRunIndices([set(8, [1, 2, 3, 4, 5, 6, 7, Infinity])]), /not finite/);
  assert.equal(
    oneRunIndices([
      set(
        8,
        Array.from({ length: 8 }, () => 3),
      ),
    ]),
    null,
  );
  const tied = oneRunIndices([
    set(
      64,
      counted(64).map((i) => i % 2),
    ),
  ])!;
  assert.ok(tied[0].value < 0.01, 'an input that does not vary explains nothing');
  assert.equal(
    oneRunIndices([set(8, counted(8)), set(8, counted(8))])![0].standardError,
    null,
    'two sets have no error',
  );
});
