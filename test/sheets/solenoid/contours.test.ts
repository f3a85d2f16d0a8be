import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import type { Point } from '../../../src/sheets/plane.ts';
import {
  areaAbove,
  clippedLine,
  clippedRing,
  contour,
  curvedSurface,
  plainTriangles,
  simplified,
  type Surface,
} from '../../../src/sheets/solenoid/contours.ts';

/** A square from -1 to 1 in 2 n² triangles, with a value at each corner. */
function square(n: number, value: (x: number, y: number) => number): Surface {
  const coordinates: number[] = [];
  const triangles: number[] = [];
  const side = n + 1;
  for (let j = 0; j <= n; j++) for (let i = 0; i <= n; i++) coordinates.push((2 * i) / n - 1, (2 * j) / n - 1);
  for (let j = 0; j < n; j++)
    for (let i = 0; i < n; i++) {
      const a = j * side + i;
      triangles.push(a, a + 1, a + side + 1, a, a + side + 1, a + side);
    }
  const values = Array.from({ length: side * side }, (_, k) => value(coordinates[2 * k], coordinates[2 * k + 1]));
  return { coordinates, triangles, values };
}

const signedArea = (ring: readonly Point[]): number =>
  ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length];
    return sum + (a.x * b.y - b.x * a.y) / 2;
  }, 0);
const whole = (rings: readonly (readonly Point[])[]): number => rings.reduce((sum, ring) => sum + signedArea(ring), 0);

test('a contour of the distance from the middle is one closed circle', () => {
  const lines = contour(
    square(60, (x, y) => Math.hypot(x, y)),
    0.7,
  );
  assert.equal(lines.length, 1);
  const [line] = lines;
  assert.ok(Math.hypot(line[0].x - line[line.length - 1].x, line[0].y - line[line.length - 1].y) < 1e-12);
  // A straight piece of length 1/30 leaves a circle of radius 0.7 by its square over eight radii.
  for (const { x, y } of line) assert.ok(Math.abs(Math.hypot(x, y) - 0.7) < (1 / 30) ** 2 / (8 * 0.7) + 1e-3);
});

test('areas above a level have the area of the figure: a disc, a disc cut by the edge, a ring with its hole', () => {
  const near = (found: number, wanted: number): void => assert.ok(Math.abs(found / wanted - 1) < 4e-3, `${found}`);
  near(
    whole(
      areaAbove(
        square(80, (x, y) => -Math.hypot(x, y)),
        -0.7,
      ),
    ),
    Math.PI * 0.49,
  );
  near(
    whole(
      areaAbove(
        square(80, (x, y) => -Math.hypot(x - 1, y)),
        -0.7,
      ),
    ),
    (Math.PI * 0.49) / 2,
  );
  const ring = areaAbove(
    square(80, (x, y) => -Math.abs(Math.hypot(x, y) - 0.6)),
    -0.2,
  );
  assert.equal(ring.length, 2);
  near(whole(ring), Math.PI * (0.64 - 0.16));
  assert.ok(
    ring.some((one) => signedArea(one) < 0),
    'the hole runs clockwise',
  );
});

test('all of a surface lies above its least value, and nothing above its greatest', () => {
  const surface = square(7, (x, y) => x * y + 3 * x);
  assert.ok(Math.abs(whole(areaAbove(surface, -10)) - 4) < 1e-9);
  assert.deepEqual(areaAbove(surface, 10), []);
  assert.deepEqual(contour(surface, 10), []);
});

test('areas of random surfaces add up: what is above and what is below', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 36, maxLength: 36 }), (values) => {
      const surface = { ...square(5, () => 0), values };
      const below = { ...surface, values: values.map((value) => -value) };
      // Halves keep clear of the whole numbers, so that no value lies on the level itself.
      assert.ok(Math.abs(whole(areaAbove(surface, 0.5)) + whole(areaAbove(below, -0.5)) - 4) < 1e-9);
    }),
    { seed: 7, numRuns: 300 },
  );
});

test('a six-node triangle becomes four that cover it', () => {
  assert.deepEqual([...plainTriangles([0, 1, 2, 3, 4, 5], () => true)], [0, 3, 5, 3, 1, 4, 5, 4, 2, 3, 4, 5]);
  assert.equal(plainTriangles([0, 1, 2, 3, 4, 5], () => false).length, 0);
});

test('inside an element values follow the polynomial of second degree through its nodes, and elements join', () => {
  const value = (x: number, y: number): number => 1 + 2 * x - y + 3 * x * x - x * y + 0.5 * y * y;
  const places = [
    [0, 0],
    [2, 0],
    [2, 2],
    [0, 2],
    [1, 0],
    [2, 1],
    [1, 1],
    [1, 2],
    [0, 1],
  ];
  const sixNode = [0, 1, 2, 4, 5, 6, 0, 2, 3, 6, 7, 8];
  const surface = curvedSurface(
    places.flat(),
    sixNode,
    places.map(([x, y]) => value(x, y)),
  );
  assert.equal(surface.triangles.length, 2 * 16 * 3);
  for (let n = 0; n < surface.values.length; n++)
    assert.ok(Math.abs(surface.values[n] - value(surface.coordinates[2 * n], surface.coordinates[2 * n + 1])) < 1e-12);
  // The two triangles share a side of five places, so that their 15 places each make 25.
  assert.equal(surface.values.length, 25);
  assert.ok(Math.abs(whole(areaAbove(surface, -100)) - 4) < 1e-12);
});

test('a simplified line stays within its tolerance and keeps its ends', () => {
  const line = Array.from({ length: 400 }, (_, i) => ({ x: i / 10, y: Math.sin(i / 10) }));
  const fewer = simplified(line, 0.01);
  assert.ok(fewer.length < 150);
  assert.deepEqual([fewer[0], fewer[fewer.length - 1]], [line[0], line[399]]);
  for (const { x, y } of line) {
    const k = fewer.findIndex((p) => p.x >= x);
    const [a, b] = [fewer[Math.max(0, k - 1)], fewer[k]];
    const onLine = k === 0 ? a.y : a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y);
    assert.ok(Math.abs(onLine - y) < 0.0145); // upright distance, slopes up to 1
  }
});

test('lines and rings are cut at the window', () => {
  const window = { left: 0, bottom: 0, right: 1, top: 1 };
  const zigzag = [-0.5, 0.5, 1.5, 0.5, -0.5].map((y, i) => ({ x: 0.2 + i * 0.15, y }));
  const pieces = clippedLine(zigzag, window);
  assert.equal(pieces.length, 2);
  for (const { x, y } of pieces.flat()) assert.ok(x >= 0 && x <= 1 && y >= -1e-12 && y <= 1 + 1e-12);
  const ring = [
    { x: -1, y: -1 },
    { x: 0.5, y: -1 },
    { x: 0.5, y: 0.5 },
    { x: -1, y: 0.5 },
  ];
  assert.ok(Math.abs(signedArea(clippedRing(ring, window)) - 0.25) < 1e-12);
  assert.deepEqual(
    clippedRing(
      ring.map(({ x, y }) => ({ x: x - 5, y })),
      window,
    ),
    [],
  );
});
