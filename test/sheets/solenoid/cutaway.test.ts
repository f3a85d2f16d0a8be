import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import type { SolenoidDimensions } from '../../../src/physics/solenoid/field/dimensions.ts';
import { textBox, type Drawing, type TextElement } from '../../../src/sheets/drawing.ts';
import { boxAround, boxesOverlap, grown, type Box } from '../../../src/sheets/plane.ts';
import { drawCutaway } from '../../../src/sheets/solenoid/cutaway.ts';
import { svg } from '../../../src/sheets/svg.ts';
import { imperialUnits, metricUnits } from '../../../src/units/display.ts';
import { referenceCases } from '../../published/solenoid-reference.ts';
import { assertDrawn } from '../golden.ts';
import { textsOf } from '../touching.ts';

/** Invented for this test: a conical seat, a tube, a shim and a bored plunger. */
const everything: SolenoidDimensions = {
  can: { outerRadius: 0.022, wall: 0.003, length: 0.056 },
  bottomPlate: { thickness: 0.005 },
  topPlate: { thickness: 0.005 },
  plunger: { radius: 0.008, length: 0.05, bore: { radius: 0.002, depth: 0.02, from: 'tail' } },
  radialClearance: 0.0007,
  seat: { radius: 0.009, faceHeight: 0.021, cone: { includedAngle: Math.PI / 3, tipRadius: 0.003 } },
  coil: { innerRadius: 0.0105, outerRadius: 0.018, bottom: 0.0065, top: 0.049 },
  guideTube: { innerRadius: 0.0082, outerRadius: 0.0092 },
  residualShim: 0.0003,
};

function boxOf(drawing: Drawing, name: string): Box {
  const found = drawing.parts.find((part) => part.name === name);
  const outline = found?.elements.find((element) => element.kind === 'polyline');
  assert.ok(outline?.kind === 'polyline', name);
  const box = boxAround(outline.points);
  assert.ok(box);
  return box;
}

/** The room of a text, also of one that reads upwards. */
function roomOf(element: TextElement): Box {
  const { at } = element;
  const level = textBox({ ...element, angle: 0 });
  if (element.angle === 0) return level;
  return {
    left: at.x - (level.top - at.y),
    right: at.x + (at.y - level.bottom),
    bottom: at.y + (level.left - at.x),
    top: at.y + (level.right - at.x),
  };
}

function touchingTexts(drawing: Drawing): string[] {
  const rooms = textsOf(drawing).map((element) => ({ words: element.text, box: grown(roomOf(element), -0.05) }));
  return rooms.flatMap(({ words, box }, i) => [
    ...rooms.slice(i + 1).flatMap((other) => (boxesOverlap(box, other.box) ? [`${words} and ${other.words}`] : [])),
    ...(box.left < 0 || box.bottom < 0 || box.right > drawing.width || box.top > drawing.height
      ? [`${words} off the sheet`]
      : []),
  ]);
}

const near = (a: number, b: number, by = 1e-6): void => assert.ok(Math.abs(a - b) < by, `${a} is not ${b}`);

test('every part is true to the scale that the bar shows', () => {
  for (const { solenoid, gaps } of referenceCases) {
    const gap = gaps[4];
    const drawing = drawCutaway(solenoid, { gap, reach: gaps[gaps.length - 1] });
    assert.ok(drawing.frame);
    const { scale } = drawing.frame;
    const can = boxOf(drawing, 'part-can');
    near(can.right - can.left, solenoid.can.length * scale);
    near(can.top - can.bottom, solenoid.can.wall * scale);
    near(can.top - drawing.frame.axis, solenoid.can.outerRadius * scale);
    const coil = boxOf(drawing, 'part-coil');
    near(coil.top - coil.bottom, (solenoid.coil.outerRadius - solenoid.coil.innerRadius) * scale);
    near(boxOf(drawing, 'part-plunger').top - drawing.frame.axis, solenoid.plunger.radius * scale);
    const bar = drawing.parts.find(({ name }) => name === 'scale');
    const words = bar?.elements.findLast((element) => element.kind === 'text');
    assert.ok(words?.kind === 'text');
    const half = bar?.elements[0];
    assert.ok(half?.kind === 'polyline');
    const ends = boxAround(half.points);
    assert.ok(ends);
    near((2 * (ends.right - ends.left) * 1000) / scale, Number.parseFloat(words.text), 1e-6);
    assert.match(words.text, / mm$/);
  }
});

test('the plunger moves by the gap, and nothing else moves', () => {
  const { solenoid } = referenceCases[0];
  const at = (gap: number) => drawCutaway(solenoid, { gap, reach: 0.012 });
  const [home, out] = [at(0.0002), at(0.0102)];
  assert.deepEqual(out.frame, home.frame);
  near(boxOf(out, 'part-plunger').left - boxOf(home, 'part-plunger').left, 0.01 * (home.frame?.scale ?? 0));
  for (const name of ['part-can', 'part-coil', 'part-seat', 'part-topPlate'])
    assert.deepEqual(boxOf(out, name), boxOf(home, name));
});

test('no words cover others or leave the sheet, in both systems of units, down to the width of a phone', () => {
  const cases = [...referenceCases.map(({ solenoid }) => solenoid), everything];
  for (const solenoid of cases)
    for (const units of [metricUnits, imperialUnits])
      for (const [width, height] of [
        [180, 130],
        [130, 110],
        [96, 100],
      ])
        for (const gap of [0.0002, 0.003, 0.008])
          assert.deepEqual(touchingTexts(drawCutaway(solenoid, { gap, reach: 0.008, width, height, units })), []);
});

test('every dimension line carries a value with its unit, and the sentences say them all', () => {
  const drawing = drawCutaway(everything, { gap: 0.004, reach: 0.008 });
  const lines = drawing.parts.filter(({ name }) => name.startsWith('dimension-'));
  assert.deepEqual(lines.map(({ name }) => name.slice(10)).sort(), [
    'bottom-plate',
    'can',
    'can-length',
    'gap',
    'plunger',
    'plunger-length',
    'seat-height',
    'top-plate',
    'winding',
  ]);
  for (const { name, elements } of lines)
    assert.ok(
      elements.some((element) => element.kind === 'text' && element.text.endsWith(' mm')),
      name,
    );
  const said = drawing.sentences.join(' ');
  for (const value of ['44 mm', '3 mm', '56 mm', '16 mm', '0.7 mm', '60°', '21 mm', '36 mm', '0.3 mm', '16.4 mm'])
    assert.ok(said.includes(value), `${value} is not in: ${said}`);
});

test('brass, steel and winding are told apart by their hatching', () => {
  const drawing = drawCutaway(everything, { gap: 0.004 });
  const angles = new Map(
    ['can', 'topPlate', 'plunger', 'guideTube', 'coil'].map((name) => {
      const hatchings = drawing.parts
        .find((part) => part.name === `part-${name}`)
        ?.elements.filter((element) => element.kind === 'hatch');
      const turns = hatchings?.map((element) => {
        const [from, to] = element.lines[Math.floor(element.lines.length / 2)];
        return Math.round((((Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI + 180) % 180) * 10) / 10;
      });
      return [name, turns];
    }),
  );
  assert.deepEqual(Object.fromEntries(angles), {
    can: [45],
    topPlate: [135],
    plunger: [135],
    guideTube: [60],
    coil: [45, 135],
  });
});

test('a winding too large for its can is drawn as it is, marked by word and stroke, with the reason', () => {
  const { solenoid } = referenceCases[0];
  const tooLarge = { ...solenoid, coil: { ...solenoid.coil, outerRadius: 0.022 } };
  const drawing = drawCutaway(tooLarge, { gap: 0.002 });
  assert.match(drawing.misfit ?? '', /coil outer radius \(22 mm\) must not exceed inner radius of the can \(17 mm\)/);
  const marked = drawing.parts.filter(({ name, role }) => role === 'fails' && name.startsWith('part-'));
  assert.deepEqual(marked.map(({ name }) => name).sort(), ['part-can', 'part-coil']);
  assert.ok(textsOf(drawing).some(({ text }) => /winding.*does not fit/.test(text)));
  assert.ok(textsOf(drawing).some(({ text }) => text.startsWith('Does not fit:')));
  near(boxOf(drawing, 'part-coil').top - (drawing.frame?.axis ?? 0), 0.022 * (drawing.frame?.scale ?? 0));
  assert.equal(drawCutaway(solenoid, { gap: 0.002 }).misfit, null);
});

test('whatever the numbers, a drawing comes out without a NaN; what has a size is on it', () => {
  const number = fc.oneof(
    { weight: 6, arbitrary: fc.double({ min: 1e-4, max: 0.1, noNaN: true }) },
    fc.constantFrom(0, -0.01, Number.NaN, Infinity, 1e3, 1e-9),
  );
  const dimensions = fc.record({
    can: fc.record({ outerRadius: number, wall: number, length: number }),
    bottomPlate: fc.record({ thickness: number }),
    topPlate: fc.record({ thickness: number }),
    plunger: fc.record({ radius: number, length: number }),
    radialClearance: number,
    seat: fc.record({
      radius: number,
      faceHeight: number,
      cone: fc.record({ includedAngle: number, tipRadius: number }),
    }),
    coil: fc.record({ innerRadius: number, outerRadius: number, bottom: number, top: number }),
    residualShim: number,
  });
  fc.assert(
    fc.property(dimensions, fc.double({ min: 0, max: 0.02, noNaN: true }), (solenoid, gap) => {
      const drawing = drawCutaway(solenoid, { gap });
      const written = svg(drawing); // throws where a number is not finite
      assert.doesNotMatch(written + drawing.sentences.join(' '), /NaN|Infinity|undefined/);
      assert.ok(written.length < 300_000, `${written.length}`);
      const isCoilSized = Object.values(solenoid.coil).every(Number.isFinite);
      if (isCoilSized && drawing.frame !== null) assert.ok(drawing.parts.some(({ name }) => name === 'part-coil'));
    }),
    { seed: 30, numRuns: 400 },
  );
});

test('the golden cutaways are as they were', () => {
  assertDrawn('solenoid-cutaway', svg(drawCutaway(everything, { gap: 0.004, reach: 0.008 })));
  const { solenoid } = referenceCases[0];
  const tooLarge = { ...solenoid, coil: { ...solenoid.coil, outerRadius: 0.022 } };
  assertDrawn('solenoid-does-not-fit', svg(drawCutaway(tooLarge, { gap: 0.002, width: 130, height: 110 })));
});
