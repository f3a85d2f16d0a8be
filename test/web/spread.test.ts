import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import { spread } from '../../src/web/drawings/spread.ts';

const spot = fc.record({
  x: fc.double({ min: 20, max: 80, noNaN: true }),
  y: fc.double({ min: 20, max: 60, noNaN: true }),
  isFixed: fc.constant(false),
});

test('up to eight handles on a phone’s drawing never lie under one finger', () => {
  fc.assert(
    fc.property(fc.array(spot, { maxLength: 8 }), (spots) => {
      const places = spread(spots, 12, 100, 80);
      for (const [i, a] of places.entries()) {
        assert.ok(a.x >= 6 && a.x <= 94 && a.y >= 6 && a.y <= 74);
        for (const b of places.slice(i + 1)) assert.ok(Math.hypot(a.x - b.x, a.y - b.y) > 11, JSON.stringify(places));
      }
    }),
    { seed: 5, numRuns: 500 },
  );
});

test('a handle alone stays where it is, a fixed one always, and the others give way', () => {
  assert.deepEqual(spread([{ x: 30, y: 30, isFixed: false }], 12, 100, 80), [{ x: 30, y: 30, isFixed: false }]);
  const [fixed, other] = spread(
    [
      { x: 30, y: 30, isFixed: true },
      { x: 30, y: 30, isFixed: false },
    ],
    12,
    100,
    80,
  );
  assert.deepEqual(fixed, { x: 30, y: 30, isFixed: true });
  assert.ok(other !== undefined && Math.abs(Math.hypot(other.x - 30, other.y - 30) - 12) < 0.01);
});
