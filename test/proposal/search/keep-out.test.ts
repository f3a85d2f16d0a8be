/** Bars against circles and rectangles: known distances, and every point of the bar asked one by one. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { clearOf, entered, type Bar, type Shape } from '../../../src/proposal/search/keep-out.ts';

const bar = (ax: number, ay: number, bx: number, by: number, half = 1): Bar => ({ part: 'bar', ax, ay, bx, by, half });
const circle = (x: number, y: number, radius: number): Shape => ({ shape: 'circle', name: 'c', x, y, radius });
const box: Shape = { shape: 'rectangle', name: 'r', left: 0, right: 10, bottom: 0, top: 4 };

test('distances that can be read off', () => {
  assert.equal(clearOf(bar(0, 0, 10, 0), circle(5, 7, 2)), 4);
  assert.equal(clearOf(bar(0, 0, 10, 0), circle(13, 4, 2)), 2);
  assert.equal(clearOf(bar(-5, 7, 15, 7), box), 2);
  assert.equal(clearOf(bar(13, -4, 13, -9, 0.5), box), 4.5);
  assert.equal(clearOf(bar(-5, 2, 15, 2), box), -1);
  assert.equal(clearOf(bar(4, 1, 5, 2), box), -1);
  assert.equal(entered([bar(0, 0, 10, 0)], [circle(5, 7, 2), circle(5, 2, 2)])?.shape.name, 'c');
  assert.equal(entered([bar(0, 20, 10, 20)], [circle(5, 7, 2), box]), null);
});

test('the least distance is that of the nearest of many points of the bar', () => {
  const far = fc.double({ min: -30, max: 30, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(far, far, far, far), fc.tuple(far, far, far, far), ([ax, ay, bx, by], [p, q, r, s]) => {
      const shape: Shape = {
        shape: 'rectangle',
        name: '',
        left: Math.min(p, q),
        right: Math.max(p, q),
        bottom: Math.min(r, s),
        top: Math.max(r, s),
      };
      const middle = bar(ax, ay, bx, by, 0);
      let least = Infinity;
      for (let i = 0; i <= 4000; i++) {
        const x = ax + ((bx - ax) * i) / 4000;
        const y = ay + ((by - ay) * i) / 4000;
        least = Math.min(
          least,
          Math.hypot(Math.max(shape.left - x, 0, x - shape.right), Math.max(shape.bottom - y, 0, y - shape.top)),
        );
      }
      const found = clearOf(middle, shape);
      assert.ok(Math.abs(found - least) < 0.03, `${found} against ${least}`);
    }),
    { seed: 20261, numRuns: 300 },
  );
});
