/** What draws say, and how far that can be trusted. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { normalQuantile } from '../../src/numerics/distribution-normal.ts';
import { sobolPoints, sobolSequence } from '../../src/numerics/quasi-random.ts';
import { acrossScrambles, shareAcrossScrambles, studentQuantile } from '../../src/numerics/statistics-scrambles.ts';
import {
  addToMoments,
  coverageInterval,
  histogram,
  joinMoments,
  noMoments,
  quantile,
  quantileWithError,
  sorted,
  standardDeviation,
} from '../../src/numerics/statistics.ts';

const near = (actual: number, expected: number, tolerance: number, what = '') =>
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what} ${actual}, expected ${expected} ± ${tolerance}`);
const numbers = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 60 });

test('mean and deviation of a row whose answer is known, also far from zero', () => {
  const moments = addToMoments(noMoments, [1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16]);
  assert.equal(moments.mean, 1e9 + 10);
  assert.equal(standardDeviation(moments), Math.sqrt(30));
  assert.equal(standardDeviation(addToMoments(noMoments, [5])), null);
});

test('moments do not care how the draws are cut and joined', () => {
  fc.assert(
    fc.property(numbers, fc.nat(60), (values, cut) => {
      const mean = values.reduce((a, b) => a + b, 0) / values.length;
      const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
      const parts = [values.slice(0, cut), values.slice(cut)].map((part) => addToMoments(noMoments, part));
      for (const whole of [
        addToMoments(noMoments, values),
        addToMoments(parts[0], values.slice(cut)),
        joinMoments(parts[0], parts[1]),
      ]) {
        assert.equal(whole.count, values.length);
        near(whole.mean, mean, 1e-9 * (1 + Math.abs(mean)) + 1e-8);
        near(whole.squares, squares, 1e-9 * (1 + squares) + 1e-4);
      }
    }),
    { numRuns: 300, seed: 1 },
  );
});

test('quantiles stand between the draws, the i-th of n at (i - 1/2)/n', () => {
  const ordered = sorted([3, 1, 4, 2]);
  assert.deepEqual([...ordered], [1, 2, 3, 4]);
  assert.deepEqual(
    [0, 0.125, 0.25, 0.5, 0.875, 1].map((p) => quantile(ordered, p)),
    [1, 1, 1.5, 2.5, 4, 4],
  );
  assert.equal(quantile(sorted([7]), 0.3), 7);
});

test('the interval of a quantile holds the true one as often as it says, or more', () => {
  const random = xoroshiro128plus(5);
  for (const p of [0.05, 0.5, 0.9]) {
    let held = 0;
    for (let k = 0; k < 1000; k++) {
      const { lower, upper } = quantileWithError(sorted(Array.from({ length: 200 }, () => uniformFloat64(random))), p);
      if (lower! <= p && p <= upper!) held++;
    }
    // 950 ± 3 · √(1000 · 0.95 · 0.05); ranks are rounded outward, so more is right.
    assert.ok(held >= 930 && held <= 985, `${held} of 1000 at ${p}`);
  }
  assert.deepEqual(quantileWithError(sorted([1, 2, 3]), 0.95), { value: 3, lower: null, upper: null });
});

test('coverage intervals: of all that hold as many draws the shortest, and the one in the middle', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 4, maxLength: 40 }),
      fc.integer({ min: 30, max: 80 }),
      (values, percent) => {
        const ordered = sorted(values);
        const M = ordered.length;
        const q = Math.round((percent / 100) * M + 1e-9);
        if (q < 1 || q >= M) return;
        const widths = Array.from({ length: M - q }, (_, i) => ordered[i + q] - ordered[i]);
        const shortest = coverageInterval(ordered, percent / 100, 'shortest');
        assert.equal(shortest.to - shortest.from, Math.min(...widths));
        const { from, to } = coverageInterval(ordered, percent / 100, 'symmetric');
        assert.ok(
          widths.some((_, i) => ordered[i] === from && ordered[i + q] === to),
          'q draws apart',
        );
        const below = ordered.filter((value) => value < from).length;
        const above = ordered.filter((value) => value > to).length;
        assert.ok(below <= (M - q + 1) / 2 && above <= (M - q + 1) / 2, `${below} below, ${above} above of ${M - q}`);
      },
    ),
    { numRuns: 500, seed: 1 },
  );
  // e^-x: the shortest starts at 0 and ends at ln 20, the symmetric one cuts 2.5 % on either side.
  const ordered = Float64Array.from({ length: 10_000 }, (_, i) => -Math.log(1 - (i + 0.5) / 10_000));
  near(coverageInterval(ordered, 0.95, 'shortest').to, Math.log(20), 3e-3);
  near(coverageInterval(ordered, 0.95, 'symmetric').from, -Math.log(0.975), 1e-3);
  near(coverageInterval(ordered, 0.95, 'symmetric').to, -Math.log(0.025), 5e-3);
  assert.throws(() => coverageInterval(sorted([1, 2, 3]), 0.95, 'shortest'), /too few/);
});

test('bins hold every draw, have round edges, and are not too many', () => {
  fc.assert(
    fc.property(numbers, fc.constantFrom(1e-6, 1, 1e4), (values, scale) => {
      const ordered = sorted(values.map((value) => value * scale));
      const { from, width, counts } = histogram(ordered, 30);
      assert.equal(
        counts.reduce((a, b) => a + b, 0),
        values.length,
      );
      assert.ok(counts.length <= 30, `${counts.length} bins`);
      if (width === 0) return;
      near(
        Math.abs(
          [1, 2, 5, 10].reduce(
            (best, m) => Math.min(best, Math.abs(width / 10 ** Math.floor(Math.log10(width) + 1e-9) - m)),
            9,
          ),
        ),
        0,
        1e-9,
      );
      near(from / width, Math.round(from / width), 1e-6 * (1 + Math.abs(from / width)));
      assert.ok(from <= ordered[0] + 1e-9 * Math.abs(from) && counts[0] > 0 && counts.at(-1)! > 0, 'no empty end');
    }),
    { numRuns: 500, seed: 1 },
  );
  const bell = Float64Array.from({ length: 4096 }, (_, i) => normalQuantile((i + 0.5) / 4096));
  const { width, counts } = histogram(bell);
  // Freedman and Diaconis: 2 · 1.349 / 16 = 0.169, next round width 0.2.
  assert.equal(width, 0.2);
  assert.ok(counts.length > 30 && counts.length < 42, `${counts.length}`);
  assert.deepEqual(histogram(sorted([2, 2, 2])), { from: 2, width: 0, counts: [3] });
});

test("Student's t as a general-purpose reference library has it (SciPy 1.17.1)", () => {
  const table = [
    [1, 12.706204736174694, 63.656741162871526],
    [2, 4.302652729749462, 9.924843200918287],
    [3, 3.1824463052837078, 5.840909309733355],
    [7, 2.364624251592784, 3.4994832973504924],
    [15, 2.131449545559776, 2.946712883475238],
    [30, 2.0422724563012378, 2.7499956535672254],
  ];
  for (const [ν, t95, t99] of table) {
    near(studentQuantile(0.975, ν) / t95, 1, 1e-10, `${ν} degrees of freedom`);
    near(studentQuantile(0.995, ν) / t99, 1, 1e-10, `${ν} degrees of freedom`);
  }
  near(studentQuantile(0.975, 100_000), normalQuantile(0.975), 1e-4, 'many');
  assert.equal(studentQuantile(0.5, 4), 0);
  assert.throws(() => studentQuantile(0.4, 3), RangeError);
  assert.throws(() => studentQuantile(0.9, 0), RangeError);
});

test('results of scrambles: mean, error, and nothing claimed from one alone', () => {
  const four = acrossScrambles([1, 2, 3, 4]);
  assert.equal(four.value, 2.5);
  near(four.standardError!, Math.sqrt(5 / 3) / 2, 1e-15);
  near(four.upper! - 2.5, (3.1824463052837 * Math.sqrt(5 / 3)) / 2, 1e-12);
  assert.deepEqual(acrossScrambles([3]), { value: 3, standardError: null, lower: null, upper: null });
  assert.throws(() => acrossScrambles([]), RangeError);
});

test('a probability from scrambles holds the truth as often as it says; quasi-random points make the interval narrower', () => {
  let held = 0;
  let width = 0;
  // Share of x + y > 1.4: 0.6²/2.
  const truth = 0.18;
  for (let set = 0; set < 300; set++) {
    const hits = Array.from({ length: 8 }, (_, k) => {
      const points = sobolPoints(sobolSequence(2, 8 * set + k), 0, 128);
      let count = 0;
      for (let i = 0; i < 128; i++) if (points[2 * i] + points[2 * i + 1] > 1.4) count++;
      return count;
    });
    const { lower, upper } = shareAcrossScrambles(hits, 128);
    width += (upper! - lower!) / 300;
    if (lower! <= truth && truth <= upper!) held++;
  }
  assert.ok(held >= 274 && held <= 296, `${held} of 300`);
  assert.ok(width < 0.5 * 2 * 1.96 * Math.sqrt((truth * (1 - truth)) / 1024), `width ${width}`);
});

test('no hit at all is no certainty', () => {
  const none = shareAcrossScrambles([0, 0, 0, 0], 250);
  assert.equal(none.value, 0);
  assert.equal(none.lower, 0);
  near(none.upper!, 3.841459 / 1003.841459, 1e-8);
  const all = shareAcrossScrambles([250, 250, 250, 250], 250);
  near(all.lower!, 1 - none.upper!, 1e-12);
  assert.equal(all.upper, 1);
  // Wilson's interval for 10 of 100 (from memory: 0.0552 to 0.1744).
  const one = shareAcrossScrambles([10], 100);
  near(one.lower!, 0.0552, 0.5e-4);
  near(one.upper!, 0.1744, 0.5e-4);
  assert.throws(() => shareAcrossScrambles([3], 2), RangeError);
  assert.throws(() => shareAcrossScrambles([], 2), RangeError);
});

test('a draw without a result is refused, not averaged', () => {
  for (const bad of [Number.NaN, Infinity]) {
    assert.throws(() => addToMoments(noMoments, [1, bad]), /not finite/);
    assert.throws(() => sorted([1, bad]), /not finite/);
  }
  assert.throws(() => sorted([]), /no draws/);
});
