/** Distributions by their inverses, and quantities that depend on each other. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { normalCumulative, normalQuantile } from '../../src/numerics/distribution-normal.ts';
import {
  correlationProblem,
  jointDistribution,
  jointDraws,
  type Dependence,
} from '../../src/numerics/distribution-joint.ts';
import {
  distributionMoments,
  distributionProblem,
  distributionQuantile,
  type Distribution,
} from '../../src/numerics/distribution.ts';
import { sobolPoints, sobolSequence } from '../../src/numerics/quasi-random.ts';
import { addToMoments, noMoments, standardDeviation } from '../../src/numerics/statistics.ts';

const near = (actual: number, expected: number, tolerance: number, what = '') =>
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what} ${actual}, expected ${expected} ± ${tolerance}`);

test('percentage points of the normal distribution as tables print them', () => {
  // Handbook of Mathematical Functions (Abramowitz, Stegun 1964), tables 26.1 and 26.5, from memory.
  for (const [p, z] of [
    [0.5, 0],
    [0.75, 0.67449],
    [0.9, 1.28155],
    [0.95, 1.64485],
    [0.975, 1.95996],
    [0.99, 2.32635],
    [0.999, 3.09023],
    [0.9999, 3.71902],
  ]) {
    near(normalQuantile(p), z, 0.5e-5, `share ${p}`);
    near(normalCumulative(z), p, 5e-6, `below ${z}`);
  }
});

test('the normal distribution from its density, by a plain integration', () => {
  const steps = 20_000;
  for (const z of [-6.2, -5.6, -3.3, -1, -0.4, 0.3, 0.7, 2.2, 5.7]) {
    // Simpson from 0 to |z|, and from |z| on for the tail itself.
    const integral = (from: number, to: number) => {
      const h = (to - from) / steps;
      let sum = 0;
      for (let i = 0; i <= steps; i++) {
        const x = from + i * h;
        sum += (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp((-x * x) / 2);
      }
      return (sum * h) / 3 / Math.sqrt(2 * Math.PI);
    };
    const tail = integral(Math.abs(z), Math.abs(z) + 10);
    near(normalCumulative(-Math.abs(z)) / tail, 1, 1e-12, `tail beyond ${z}`);
    near(normalCumulative(Math.abs(z)), 0.5 + integral(0, Math.abs(z)), 1e-13, `below ${z}`);
  }
});

test('there and back, deep into the tail', () => {
  fc.assert(
    fc.property(fc.double({ min: -37, max: 0, noNaN: true }), (z) =>
      near(normalQuantile(normalCumulative(z)), z, 1e-12 * (1 - z)),
    ),
    { numRuns: 2000, seed: 1 },
  );
  fc.assert(
    fc.property(fc.double({ min: 0, max: 5, noNaN: true }), (z) => near(normalQuantile(normalCumulative(z)), z, 1e-9)),
    { numRuns: 1000, seed: 1 },
  );
  assert.equal(normalQuantile(0), -Infinity);
  assert.equal(normalQuantile(1), Infinity);
  assert.equal(Number.isNaN(normalQuantile(-0.1)), true);
});

test('truncated and triangular draws as a general-purpose reference library has them (SciPy 1.17.1, truncnorm and triang)', () => {
  const shares = [1e-6, 0.1, 0.5, 0.9, 1 - 1e-6];
  const cut = (mean: number, standardDeviation: number, from: number, to: number) =>
    ({ shape: 'truncated normal', mean, standardDeviation, from, to }) as const;
  const cases: [Distribution, readonly number[], readonly number[], mean: number, deviation: number][] = [
    [
      cut(0, 1, -1, 2),
      shares,
      [-0.9999966169740943, -0.704647821094745, 0.17116391801782482, 1.2557153641502152, 1.999984838533999],
      0.22963717909132902,
      0.7209455868590458,
    ],
    [
      cut(5, 2, 8, 9),
      shares,
      [8.000000680325794, 8.06984400107746, 8.395474825123147, 8.848684823263111, 8.99999836798501],
      8.42858162457275,
      0.28216491488535866,
    ],
    [
      cut(0, 1, 6, 8),
      shares,
      [6.0000001623776384, 6.017085051314984, 6.11156496120527, 6.363413413274562, 7.882172817229158],
      6.158481366839988,
      0.15487160297433697,
    ],
    [
      cut(0, 1, -8, -6),
      shares,
      [-7.882172817231361, -6.363413413274562, -6.11156496120527, -6.017085051314984, -6.0000001623776384],
      -6.158481366839988,
      0.15487160297433697,
    ],
    // SciPy's shape is the place of the mode as a share of the width: triang(0.3, loc 1, scale 4).
    [
      { shape: 'triangular', from: 1, mode: 2.2, to: 5 },
      [0.01, 0.2, 0.3, 0.9],
      [1.2190890230020663, 1.9797958971132712, 2.2, 3.941699475574164],
      2.7333333333333334,
      0.8379870059984357,
    ],
  ];
  for (const [distribution, at, values, mean, deviation] of cases) {
    const inverse = distributionQuantile(distribution);
    at.forEach((share, i) => near(inverse(share), values[i], 1e-9, `${JSON.stringify(distribution)} at ${share}`));
    const moments = distributionMoments(distribution);
    near(moments.mean, mean, 1e-9, 'mean');
    near(moments.standardDeviation, deviation, 1e-9, 'standard deviation');
  }
});

const every: readonly Distribution[] = [
  { shape: 'normal', mean: -3, standardDeviation: 0.5 },
  { shape: 'rectangular', from: 2, to: 9 },
  { shape: 'triangular', from: 0, mode: 0, to: 1 },
  { shape: 'triangular', from: -2, mode: 5, to: 5 },
  { shape: 'triangular', from: -2, mode: 1, to: 5 },
  { shape: 'truncated normal', mean: 1, standardDeviation: 2, from: 0, to: 1.5 },
  { shape: 'truncated normal', mean: 0, standardDeviation: 1, from: -9, to: 0.1 },
];

test('draws have the moments that are stated, rise with the share and keep to their limits', () => {
  for (const distribution of every) {
    const inverse = distributionQuantile(distribution);
    const n = 100_000;
    const draws = Float64Array.from({ length: n }, (_, i) => inverse((i + 0.5) / n));
    for (let i = 1; i < n; i++) assert.ok(draws[i] > draws[i - 1], `${distribution.shape} does not rise at ${i / n}`);
    const { mean, standardDeviation: deviation } = distributionMoments(distribution);
    const moments = addToMoments(noMoments, draws);
    near(moments.mean, mean, 1e-4 * deviation, distribution.shape);
    near(standardDeviation(moments)! / deviation, 1, 2e-4, distribution.shape);
    if (distribution.shape === 'normal') continue;
    assert.ok(draws[0] >= distribution.from && draws[n - 1] <= distribution.to, distribution.shape);
  }
});

test('a distribution without meaning is told in words, and refused', () => {
  const wrong: [Distribution, RegExp][] = [
    [{ shape: 'normal', mean: Number.NaN, standardDeviation: 1 }, /mean .* not finite: NaN/],
    [{ shape: 'normal', mean: 0, standardDeviation: 0 }, /not above zero: 0/],
    [{ shape: 'rectangular', from: 2, to: 2 }, /no width/],
    [{ shape: 'triangular', from: 0, mode: 3, to: 2 }, /mode 3/],
    [{ shape: 'truncated normal', mean: 0, standardDeviation: 1, from: 40, to: 41 }, /nothing of/],
  ];
  for (const [distribution, words] of wrong) {
    assert.match(distributionProblem(distribution) ?? '', words);
    assert.throws(() => distributionQuantile(distribution), words);
    assert.throws(() => distributionMoments(distribution), words);
  }
  for (const distribution of every) assert.equal(distributionProblem(distribution), null);
});

const normal: Distribution = { shape: 'normal', mean: 0, standardDeviation: 1 };
const rectangle: Distribution = { shape: 'rectangular', from: 0, to: 1 };

/** Pearson's correlation of two columns of quasi-random draws. */
function correlationOf(distributions: readonly Distribution[], dependence: Dependence, a: number, b: number): number {
  const joint = jointDistribution(distributions, dependence);
  const draws = jointDraws(joint, sobolPoints(sobolSequence(joint.dimensions, 11), 0, 16_384));
  const column = (c: number) => Float64Array.from({ length: 16_384 }, (_, i) => draws[i * distributions.length + c]);
  const [x, y] = [column(a), column(b)];
  const [mx, my] = [addToMoments(noMoments, x), addToMoments(noMoments, y)];
  const product = x.reduce((sum, value, i) => sum + (value - mx.mean) * (y[i] - my.mean), 0);
  return product / Math.sqrt(mx.squares * my.squares);
}

test('a copula gives normal quantities their correlations, and rectangular ones (6/π) arcsin(ρ/2)', () => {
  const matrix = [1, 0.8, -0.3, 0.8, 1, 0.1, -0.3, 0.1, 1];
  const correlated = [{ members: [0, 2, 3], matrix }];
  for (const [a, b, ρ] of [
    [0, 2, 0.8],
    [0, 3, -0.3],
    [2, 3, 0.1],
    [0, 1, 0],
  ]) {
    near(correlationOf([normal, normal, normal, normal], { correlated }, a, b), ρ, 1e-3, `normal ${a} ${b}`);
    const flat = (6 / Math.PI) * Math.asin(ρ / 2);
    near(
      correlationOf([rectangle, rectangle, rectangle, rectangle], { correlated }, a, b),
      flat,
      1e-3,
      `flat ${a} ${b}`,
    );
  }
});

test('whatever depends on what, each quantity keeps its own distribution', () => {
  const dependence: Dependence = {
    together: [[0, 5]],
    correlated: [{ members: [1, 4], matrix: [1, -0.9, -0.9, 1] }],
  };
  const joint = jointDistribution(every, dependence);
  assert.equal(joint.dimensions, every.length - 1);
  assert.deepEqual(
    joint.factors.map(({ members }) => members),
    [[0, 5], [1, 4], [2], [3], [6]],
  );
  const draws = jointDraws(joint, sobolPoints(sobolSequence(joint.dimensions, 2), 0, 8192));
  every.forEach((distribution, c) => {
    const moments = addToMoments(
      noMoments,
      Float64Array.from({ length: 8192 }, (_, i) => draws[i * every.length + c]),
    );
    const { mean, standardDeviation: deviation } = distributionMoments(distribution);
    near(moments.mean, mean, 2e-3 * deviation, distribution.shape);
    near(standardDeviation(moments)! / deviation, 1, 3e-3, distribution.shape);
  });
  near(correlationOf([normal, rectangle, normal], { together: [[0, 2]] }, 0, 2), 1, 1e-12, 'together');
});

test('dependence without meaning is refused', () => {
  assert.equal(correlationProblem([1, 0.5, 0.5, 1], 2), null);
  assert.match(correlationProblem([1, 0.5, 0.4, 1], 2) ?? '', /other way round/);
  assert.match(correlationProblem([1, 2, 2, 1], 2) ?? '', /between -1 and 1, not at 2/);
  assert.match(correlationProblem([0.9, 0, 0, 1], 2) ?? '', /by 1, not 0.9/);
  assert.match(correlationProblem([1], 2) ?? '', /2 rows/);
  assert.match(correlationProblem([1, 0.9, -0.9, 0.9, 1, 0.9, -0.9, 0.9, 1], 3) ?? '', /cannot all be true/);
  assert.match(correlationProblem([1, 1, 1, 1], 2) ?? '', /move fully together/);
  assert.throws(() => jointDistribution([normal], { together: [[1]] }), /no quantity 1 of 1/);
  assert.throws(() => jointDistribution([normal, normal], { together: [[0, 1], [1]] }), /stands twice/);
  assert.throws(
    () => jointDistribution([normal, normal], { correlated: [{ members: [0, 1], matrix: [1, 1, 1, 1] }] }),
    RangeError,
  );
  assert.throws(() => jointDraws(jointDistribution([normal, normal]), new Float64Array(3)), /do not fill/);
});
