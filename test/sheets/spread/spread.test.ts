/** Histograms and bars of a spread, from numbers that are made up: nothing touches, and everything is said. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { FindingSpread } from '../../../src/assessment/spread/outcome.ts';
import { histogram, sorted } from '../../../src/numerics/statistics.ts';
import { drawHistograms } from '../../../src/sheets/spread/histograms.ts';
import { drawInfluences } from '../../../src/sheets/spread/influences.ts';
import { svg } from '../../../src/sheets/svg.ts';
import { touchingTexts } from '../touching.ts';

const estimate = (value: number) => ({ value, standardError: 0.004, lower: value - 0.01, upper: value + 0.01 });

function made(title: string, middle: number, reach: number, marginUnit: string, wanted: number): FindingSpread {
  // A triangle of draws, so that the picture can be judged by eye.
  const draws = sorted(
    Array.from({ length: 400 }, (_, i) => middle + reach * (((i % 20) + Math.floor(i / 20)) / 19 - 1)),
  );
  const failing = draws.filter((margin) => margin < 0).length / 400;
  return {
    id: title,
    title,
    question: 'stops',
    marginUnit,
    wanted,
    nominal: middle,
    failing: estimate(failing),
    thin: estimate(0.2),
    undecided: 0,
    mean: middle,
    standardDeviation: reach / 2.4,
    interval: { from: middle - 0.8 * reach, to: middle + 0.8 * reach },
    histogram: histogram(draws, 40),
    influences: [],
  };
}

const findings = [
  made('Lever is free to reach run', 0.5, 1.2, '°', 0.5),
  made('Pulls in from full stroke', 0.28, 0.12, 'share', 0.25),
  made('Volts arrive at the coil in hold, far from its limit', 30, 1, 'share', 0),
  made('Comes fully home before the hard stop', -2.4, 1, '°', 1),
];

test('histograms keep their words apart at every width, with the limit where it lies', () => {
  for (const width of [80, 120, 180]) {
    const drawing = drawHistograms(findings, { width });
    assert.deepEqual(touchingTexts(drawing), [], `at ${width} mm`);
    assert.ok(!svg(drawing).includes('NaN'), 'no place is missing');
    const limits = drawing.parts.filter(({ name }) => name.endsWith('-limit'));
    assert.equal(limits.length, 3, 'the limit is drawn where the draws come near it, and not where they are far');
  }
});

test('the bars left of the limit are those that fail', () => {
  const [first] = findings;
  const drawing = drawHistograms([first], { width: 120 });
  const partOf = (name: string) => drawing.parts.find((one) => one.name === `spread-1-${name}`)?.elements ?? [];
  const limit = partOf('limit').find(({ kind }) => kind === 'line');
  assert.ok(limit?.kind === 'line', 'there is a limit');
  for (const bar of partOf('fails')) {
    assert.ok(bar.kind === 'polyline', 'a bar');
    assert.ok(Math.max(...bar.points.map(({ x }) => x)) <= limit.from.x + 1e-9, 'left of the limit');
  }
  const failing = (first.histogram?.counts ?? []).filter(
    (count, i) => count > 0 && (first.histogram?.from ?? 0) + (i + 0.5) * (first.histogram?.width ?? 0) < 0,
  );
  assert.equal(partOf('fails').length, failing.length, 'one bar for each bin that fails');
  assert.match(drawing.sentences.join(' '), /fails \d/);
});

test('influences are ranked bars with their error; none at all is said', () => {
  const bars = [
    { words: 'Plunger pin at home, x', share: estimate(0.42) },
    {
      words: 'A name that is so long that it cannot stand on a narrow sheet without being cut short somewhere',
      share: estimate(0.02),
    },
  ];
  for (const width of [80, 140]) assert.deepEqual(touchingTexts(drawInfluences('What matters', bars, { width })), []);
  assert.match(drawInfluences('What matters', []).sentences.join(' '), /No single quantity/);
});
