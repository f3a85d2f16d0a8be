/**
 * JCGM 101:2008, Evaluation of measurement data, Supplement 1 (propagation of distributions by a Monte Carlo method),
 * worked examples 9.2 to 9.4. The printed figures are from memory; those that have a closed form were worked out anew,
 * and the test holds both. Intervals are for 95 %.
 *
 * The source used a million random draws or more and prints what it got; here eight scrambles of 65,536 quasi-random
 * points.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { jointDistribution, jointDraws, type Dependence } from '../../src/numerics/distribution-joint.ts';
import type { Distribution } from '../../src/numerics/distribution.ts';
import { sobolPoints, sobolSequence } from '../../src/numerics/quasi-random.ts';
import { acrossScrambles } from '../../src/numerics/statistics-scrambles.ts';
import { addToMoments, coverageInterval, noMoments, sorted, standardDeviation } from '../../src/numerics/statistics.ts';
import { agrees, within, type Source } from './printed.ts';

const POINTS = 65_536;

interface Propagated {
  readonly mean: number;
  readonly deviation: number;
  readonly from: number;
  readonly to: number;
}

function propagate(
  inputs: readonly Distribution[],
  model: (x: Float64Array) => number,
  kind: 'symmetric' | 'shortest' = 'symmetric',
  dependence: Dependence = {},
): Propagated {
  const joint = jointDistribution(inputs, dependence);
  const results = Array.from({ length: 8 }, (_, seed) => {
    const draws = jointDraws(joint, sobolPoints(sobolSequence(joint.dimensions, seed), 0, POINTS));
    const y = Float64Array.from({ length: POINTS }, (_, i) =>
      model(draws.subarray(i * inputs.length, (i + 1) * inputs.length)),
    );
    const moments = addToMoments(noMoments, y);
    return { mean: moments.mean, deviation: standardDeviation(moments)!, ...coverageInterval(sorted(y), 0.95, kind) };
  });
  const over = (part: (one: Propagated) => number) => acrossScrambles(results.map(part)).value;
  return {
    mean: over((one) => one.mean),
    deviation: over((one) => one.deviation),
    from: over((one) => one.from),
    to: over((one) => one.to),
  };
}

const printed = (clause: string): Source => ({ source: `JCGM 101:2008, ${clause}`, provenance: 'memory' });
const derived = (clause: string): Source => ({ source: `JCGM 101:2008, ${clause}`, provenance: 'memory, derived' });

const normal = (mean: number, standardDeviation: number): Distribution => ({
  shape: 'normal',
  mean,
  standardDeviation,
});
const rectangular = (mean: number, deviation: number): Distribution => ({
  shape: 'rectangular',
  from: mean - Math.sqrt(3) * deviation,
  to: mean + Math.sqrt(3) * deviation,
});
const sum = (x: Float64Array) => x.reduce((a, b) => a + b, 0);

test('9.2.2: the sum of four normal quantities', () => {
  const y = propagate([normal(0, 1), normal(0, 1), normal(0, 1), normal(0, 1)], sum);
  agrees(y.deviation, '2.00', printed('9.2.2, table 2'), 'u');
  agrees(y.from, '-3.92', printed('9.2.2, table 2'), 'from');
  agrees(y.to, '3.92', printed('9.2.2, table 2'), 'to');
  within(y.to, 2 * 1.959964, 0.003, derived('9.2.2'), 'to');
});

test('9.2.3: the sum of four rectangular quantities of the same width', () => {
  const y = propagate([rectangular(0, 1), rectangular(0, 1), rectangular(0, 1), rectangular(0, 1)], sum);
  agrees(y.deviation, '2.00', printed('9.2.3, table 3'), 'u');
  agrees(y.from, '-3.88', printed('9.2.3, table 3'), 'from');
  agrees(y.to, '3.88', printed('9.2.3, table 3'), 'to');
  within(y.to, 2 * Math.sqrt(3) * (2 - (3 / 5) ** (1 / 4)), 0.002, derived('9.2.3.3 and annex E'), 'to');
});

test('9.2.4: four rectangular quantities, one ten times as wide', () => {
  const y = propagate([rectangular(0, 1), rectangular(0, 1), rectangular(0, 1), rectangular(0, 10)], sum);
  agrees(y.deviation, '10.1', printed('9.2.4, table 4'), 'u');
  agrees(y.from, '-17.0', printed('9.2.4, table 4'), 'from');
  agrees(y.to, '17.0', printed('9.2.4, table 4'), 'to');
  // The first-order law with a factor of 1.96 gives 19.9: wider than the distribution itself is.
  within(y.deviation * 1.96, 19.9, 0.05, derived('9.2.4'), 'first order');
});

test('9.3: calibration of a mass standard in air', () => {
  // Milligrams and kilograms per cubic metre; the result is the deviation from 100 g.
  const inputs = [
    normal(100_000, 0.05),
    normal(1.234, 0.02),
    { shape: 'rectangular', from: 1.1, to: 1.3 },
    { shape: 'rectangular', from: 7000, to: 9000 },
    { shape: 'rectangular', from: 7950, to: 8050 },
  ] as const;
  const model = ([mass, added, air, weight, reference]: Float64Array) =>
    (mass + added) * (1 + (air - 1.2) * (1 / weight - 1 / reference)) - 100_000;
  const y = propagate(inputs, model, 'shortest');
  const source = printed('9.3.2, table 6');
  // The last digit of the source's mean, 1.2341, is the error of its draws: all terms but one are even about 1.234.
  within(y.mean, 1.2341, 2e-4, source, 'mean');
  // From the moments of the inputs u is 0.07548; the source's draws gave 0.0754.
  const perWeight = Math.log(9000 / 7000) / 2000;
  const perReference = Math.log(8050 / 7950) / 100;
  const apart = 1 / (7000 * 9000) + 1 / (7950 * 8050) - 2 * perWeight * perReference;
  const exact = Math.sqrt(0.05 ** 2 + 0.02 ** 2 + (100_000 ** 2 * apart * 0.2 ** 2) / 12);
  within(y.deviation, exact, 2e-5, derived('9.3'), 'u');
  within(y.deviation, 0.0754, 1e-4, source, 'u');
  // The distribution is all but even about 1.234, so its shortest interval can be shifted by 1 % of its width at no
  // cost that draws show: 0.003 mg for the ends, much less for the width and for the interval that cuts alike on both
  // sides.
  within(y.from, 1.0834, 3e-3, source, 'from');
  within(y.to, 1.3825, 3e-3, source, 'to');
  within(y.to - y.from, 1.3825 - 1.0834, 6e-4, source, 'width');
  const even = propagate(inputs, model, 'symmetric');
  within(even.to - even.from, 1.3825 - 1.0834, 6e-4, source, 'width');
  within((even.from + even.to) / 2, 1.234, 2e-4, derived('9.3'), 'middle');
  // First order leaves the air out altogether: √(0.05² + 0.02²).
  within(Math.hypot(0.05, 0.02), 0.0539, 0.00005, source, 'u to first order');
  assert.ok(y.deviation > 1.3 * Math.hypot(0.05, 0.02), 'the buoyancy counts');
});

test('9.4: comparison loss in microwave power, zero estimates, independent and correlated by 0.9', () => {
  const squares = ([a, b]: Float64Array) => a * a + b * b;
  const inputs = [normal(0, 0.005), normal(0, 0.005)];
  // In millionths. Independent: an exponential distribution of mean 2 u² = 50, whose shortest interval ends at 50 ln
  // 20.
  const free = propagate(inputs, squares, 'shortest');
  agrees(1e6 * free.mean, '50', printed('9.4.2.2, table 8'), 'mean');
  agrees(1e6 * free.deviation, '50', printed('9.4.2.2, table 8'), 'u');
  agrees(1e6 * free.from, '0', printed('9.4.2.2, table 8'), 'from');
  agrees(1e6 * free.to, '150', printed('9.4.2.2, table 8'), 'to');
  within(1e6 * free.to, 50 * Math.log(20), 0.4, derived('9.4.2.2'), 'to');
  const bound = propagate(inputs, squares, 'shortest', { correlated: [{ members: [0, 1], matrix: [1, 0.9, 0.9, 1] }] });
  agrees(1e6 * bound.mean, '50', printed('9.4.3.2, table 10'), 'mean');
  agrees(1e6 * bound.deviation, '67', printed('9.4.3.2, table 10'), 'u');
  within(1e6 * bound.deviation, 50 * Math.sqrt(1 + 0.9 ** 2), 0.1, derived('9.4.3'), 'u');
  agrees(1e6 * bound.to, '185', printed('9.4.3.2, table 10'), 'to');
});
