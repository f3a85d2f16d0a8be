import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import { hatch, taperedBar } from '../../src/sheets/drawing.ts';
import { distance, point, polar, plus, type Point } from '../../src/sheets/plane.ts';
import { freeScale, roundStep, scaleBar, scaleWords, standardScale } from '../../src/sheets/scale.ts';
import { imperialUnits, metricUnits } from '../../src/units/display.ts';

test('hatching covers its area and nothing else: length of lines times spacing is the area', () => {
  const ring = (size: number): Point[] => [
    point(-size, -size),
    point(size, -size),
    point(size, size),
    point(-size, size),
  ];
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 31 }), fc.integer({ min: 10, max: 40 }), (turn, inner) => {
      const drawn = hatch([ring(50), ring(inner)], 0.5, turn / 10);
      assert.ok(drawn.kind === 'hatch');
      const length = drawn.lines.reduce((sum, [from, to]) => sum + distance(from, to), 0);
      const area = 4 * (50 * 50 - inner * inner);
      // One line more or less along an edge of 100 mm.
      assert.ok(Math.abs(length * 0.5 - area) < 2 * 100 * 0.5 + 2 * 2 * inner * 0.5);
      for (const [from, to] of drawn.lines) {
        const middle = point((from.x + to.x) / 2, (from.y + to.y) / 2);
        const reach = Math.max(Math.abs(middle.x), Math.abs(middle.y));
        assert.ok(reach <= 50 + 1e-9 && reach >= inner - 1e-9);
      }
    }),
    { seed: 50, numRuns: 100 },
  );
});

test('a tapered bar touches both circles square to their radii', () => {
  const [a, b] = [point(3, 4), point(40, -12)];
  const bar = taperedBar('outline', a, 9, b, 5, 'none');
  assert.ok(bar.kind === 'path');
  const [first, second] = bar.segments;
  assert.ok(first && second && 'centre' in first && 'centre' in second);
  const leave = plus(a, polar(9, first.to));
  const meet = plus(b, polar(5, second.from));
  const side = point(meet.x - leave.x, meet.y - leave.y);
  assert.ok(Math.abs(side.x * Math.cos(first.to) + side.y * Math.sin(first.to)) < 1e-9);
  assert.ok(Math.abs(side.x * Math.cos(second.from) + side.y * Math.sin(second.from)) < 1e-9);
});

test('scales are those of ISO 5455:1979, table 1', () => {
  assert.equal(standardScale(0.99), 1 / 2);
  assert.equal(standardScale(1), 1);
  assert.equal(standardScale(4.9), 2);
  assert.equal(standardScale(0.15), 1 / 10);
  assert.equal(scaleWords(1 / 5), '1:5');
  assert.equal(scaleWords(2), '2:1');
  assert.equal(scaleWords(0.91), null);
  assert.equal(freeScale(0.9199), 0.91);
  assert.equal(roundStep(49), 20);
  assert.equal(roundStep(50), 50);
});

test('the scale bar measures what it says', () => {
  const millimetres = scaleBar(point(0, 0), 0.5, 45, metricUnits);
  assert.equal(millimetres.words, '50 mm');
  assert.ok(Math.abs(millimetres.length - 25) < 1e-9);
  const inches = scaleBar(point(0, 0), 0.5, 45, imperialUnits);
  assert.equal(inches.words, '2 in');
  assert.ok(Math.abs(inches.length - 25.4) < 1e-9);
});
