import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import type { DrawnKeepOut } from '../../src/assessment/picture.ts';
import { drawMechanism, toSheet } from '../../src/sheets/mechanism.ts';
import { svg } from '../../src/sheets/svg.ts';
import { assertDrawn } from './golden.ts';
import { invent } from './pictures.ts';
import { textsOf, touchingTexts } from './touching.ts';

const shapes: readonly DrawnKeepOut[] = [
  { index: 0, name: 'Fuel filter', shape: 'circle', centre: { x: 0.05, y: 0.09 }, radius: 0.014 },
  { index: 1, name: 'Bulkhead', shape: 'rectangle', from: { x: -3, y: -0.03 }, to: { x: 3, y: -0.5 } },
];

test('golden: a round thing and a bulkhead that runs off the sheet', () => {
  const drawing = drawMechanism(invent({ connection: 'slotted lever', gap: 0.0122, keepOut: shapes }));
  assertDrawn('mechanism-keep-out', svg(drawing));
  assert.ok(
    textsOf(drawing).some(({ text }) => text === 'Fuel filter'),
    'the name stands beside it',
  );
  assert.ok(
    drawing.sentences.some((said) => said.startsWith('In the way: Fuel filter, round, centre 50.0 mm right')),
    `it is said in words: ${drawing.sentences.join(' ')}`,
  );
});

const measure = fc.integer({ min: -400, max: 400 }).map((mm) => mm / 1000);
const place = fc.record({ x: measure, y: measure });
const anyShape = fc.oneof(
  fc.record({
    shape: fc.constant('circle' as const),
    name: fc.constantFrom('', 'Pipe', 'Alternator'),
    centre: place,
    radius: fc.integer({ min: 1, max: 900 }).map((mm) => mm / 1000),
  }),
  fc.record({ shape: fc.constant('rectangle' as const), name: fc.constantFrom('', 'Pipe'), from: place, to: place }),
);
const anyShapes = fc
  .array(anyShape, { maxLength: 5 })
  .map((some) => some.map((one, index): DrawnKeepOut => ({ ...one, index })));

test('hatching and outline stay on the sheet and inside the shape, no words touch, handles have names of their own', () => {
  fc.assert(
    fc.property(anyShapes, (keepOut) => {
      const drawing = drawMechanism(invent({ connection: 'pinned link', gap: 0.01, keepOut }));
      assert.deepEqual(touchingTexts(drawing), []);
      const names = drawing.handles.map(({ name }) => name);
      assert.equal(new Set(names).size, names.length, names.join(', '));
      for (const { name, elements } of drawing.parts.filter((one) => /^keep-out-\d+$/.test(one.name))) {
        const shape = keepOut[Number(name.slice('keep-out-'.length)) - 1];
        for (const element of elements) {
          const points =
            element.kind === 'hatch' ? element.lines.flat() : element.kind === 'polyline' ? element.points : [];
          for (const { x, y } of points) {
            assert.ok(x > -1e-6 && x < drawing.width + 1e-6, `${name} leaves the sheet: x ${x}`);
            assert.ok(y > -1e-6 && y < drawing.height + 1e-6, `${name} leaves the sheet: y ${y}`);
            assert.ok(isWithin(shape, drawing.frame, x, y), `${name} is drawn beyond its outline: ${x}, ${y}`);
          }
        }
      }
    }),
    { seed: 23, numRuns: 150 },
  );
});

function isWithin(shape: DrawnKeepOut, frame: Parameters<typeof toSheet>[0], x: number, y: number): boolean {
  if (shape.shape === 'circle') {
    const centre = toSheet(frame, shape.centre);
    return Math.hypot(x - centre.x, y - centre.y) <= shape.radius * 1000 * frame.scale + 1e-6;
  }
  const [a, b] = [toSheet(frame, shape.from), toSheet(frame, shape.to)];
  const between = (value: number, one: number, other: number) =>
    value >= Math.min(one, other) - 1e-6 && value <= Math.max(one, other) + 1e-6;
  return between(x, a.x, b.x) && between(y, a.y, b.y);
}

test('a bulkhead as wide as the craft takes no more than 40 % of the scale', () => {
  const bare = drawMechanism(invent({ connection: 'slotted lever', gap: 0.01 }));
  const beside = drawMechanism(invent({ connection: 'slotted lever', gap: 0.01, keepOut: shapes }));
  // A third more on each side: 1 / (1 + 2/3), rounded down to two figures.
  assert.ok(beside.frame.scale >= bare.frame.scale * 0.59, `${beside.frame.scale} of ${bare.frame.scale}`);
});
