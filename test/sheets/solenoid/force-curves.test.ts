import assert from 'node:assert/strict';
import test from 'node:test';
import { drawForceCurves, type ForceCurves } from '../../../src/sheets/solenoid/force-curves.ts';
import { svg } from '../../../src/sheets/svg.ts';
import { imperialUnits } from '../../../src/units/display.ts';
import { textsOf, touchingTexts } from '../touching.ts';

/** Invented: force falls as the square of the gap. */
const gaps = Array.from({ length: 61 }, (_, i) => 0.0002 * i + 0.0001);
const curve = (factor: number): number[] => gaps.map((gap) => (factor * 4e-5) / (gap + 0.001) ** 2);
const given: ForceCurves = {
  curves: [
    {
      name: 'warm',
      words: '24 V, 20 °C coil',
      isChief: true,
      gaps,
      force: curve(5),
      band: { low: curve(4), high: curve(6) },
    },
    { name: 'hot', words: '18 V, 90 °C coil', isChief: false, gaps, force: curve(2), band: null },
  ],
  readings: [
    { name: '1', words: 'Reading 1', gap: 0.004, force: 9, plusMinus: 0.5, expected: 8, contradicts: false },
    { name: '2', words: 'Reading 2', gap: 0.008, force: 7, plusMinus: null, expected: 2.5, contradicts: true },
  ],
  gap: 0.0051,
  next: { gap: 0.006, words: 'next reading' },
  isCoarse: false,
};

test('readings stand at their gap and force on the axes that are drawn, with a line to the curve', () => {
  const drawing = drawForceCurves(given);
  const axis = drawing.gapAxis;
  assert.ok(axis);
  const centre = (name: string) => {
    const ring = drawing.parts
      .find((part) => part.name === `reading-${name}`)
      ?.elements.find((element) => element.kind === 'circle');
    assert.ok(ring?.kind === 'circle');
    return ring.centre;
  };
  const share = (0.004 - axis.from) / (axis.to - axis.from);
  assert.ok(Math.abs(centre('1').x - (axis.left + share * (axis.right - axis.left))) < 1e-9);
  // Heights are in proportion to force: both readings against the foot of the axis.
  assert.ok(Math.abs((centre('1').y - 12) / (centre('2').y - 12) - 9 / 7) < 1e-9);
  const first = drawing.parts.find(({ name }) => name === 'reading-1')?.elements[0];
  assert.ok(first?.kind === 'line');
  assert.ok(Math.abs((first.to.y - 12) / (first.from.y - 12) - 8 / 9) < 1e-9);
});

test('residuals are said beside the readings, and one that contradicts says so without colour', () => {
  const drawing = drawForceCurves(given);
  const words = textsOf(drawing).map(({ text }) => text);
  assert.ok(words.includes('9.0 N, 1.0 N over') && words.includes('7.0 N, 4.5 N over'));
  const strokes = (name: string): number =>
    drawing.parts.find((part) => part.name === name)?.elements.filter(({ kind }) => kind === 'line').length ?? 0;
  assert.ok(strokes('reading-2') > 2, 'crossed out');
  assert.ok(drawing.sentences.some((said) => /Reading 2.*contradicts the rest/.test(said)));
});

test('the band is drawn and said at the cursor, units on both axes', () => {
  const drawing = drawForceCurves(given, { units: imperialUnits });
  assert.ok(drawing.parts.some(({ name, elements }) => name === 'band-warm' && elements.length > 0));
  assert.ok(!drawing.parts.some(({ name }) => name === 'band-hot'));
  const words = textsOf(drawing).map(({ text }) => text);
  assert.ok(words.includes('Force towards home, lbf') && words.includes('gap, in'));
  assert.ok(drawing.sentences.some((said) => /95 % between .* lbf and .* lbf/.test(said)));
});

test('a coarse curve is dashed and says that it is coarse', () => {
  const drawing = drawForceCurves({ ...given, isCoarse: true });
  const element = drawing.parts.find(({ name }) => name === 'curve-warm')?.elements[0];
  assert.ok(element?.kind === 'polyline' && element.style === 'hidden');
  assert.ok(textsOf(drawing).some(({ text }) => text.startsWith('coarse')));
});

test('no words cover others at any size; without curves it says that there are none', () => {
  for (const [width, height] of [
    [200, 110],
    [150, 100],
    [96, 90],
  ])
    for (const gap of [0.0001, 0.004, 0.0121])
      for (const isCoarse of [true, false])
        assert.deepEqual(touchingTexts(drawForceCurves({ ...given, gap, isCoarse }, { width, height })), []);
  const empty = drawForceCurves({ curves: [], readings: [], gap: null, next: null, isCoarse: false });
  assert.equal(empty.gapAxis, null);
  assert.match(svg(empty), /No curve yet/);
});
