import assert from 'node:assert/strict';
import test from 'node:test';
import type { HeatPicture } from '../../../src/assessment/time/picture.ts';
import type { Drawing } from '../../../src/sheets/drawing.ts';
import { svg } from '../../../src/sheets/svg.ts';
import { drawHeat } from '../../../src/sheets/time/heat.ts';
import { imperialUnits } from '../../../src/units/display.ts';
import { assertDrawn } from '../golden.ts';
import { textsOf, touchingTexts } from '../touching.ts';
import { wordsOnCurves } from './clear.ts';
import { heatPicture } from './invented.ts';

const partOf = (drawing: Drawing, name: string) => drawing.parts.find((part) => part.name === name);
const words = (drawing: Drawing): string[] => textsOf(drawing).map(({ text }) => text);
const isCurve = (name: string): boolean => /^(winding|case)-/.test(name);
const missing: HeatPicture = {
  ...heatPicture,
  courses: [],
  missing: ['Measure the bare diameter of the wire.'],
};

test('the heat picture is drawn as it was', () => {
  assertDrawn('heat', svg(drawHeat(heatPicture, { width: 240 })));
  assertDrawn('heat-phone-dark', svg(drawHeat(heatPicture, { width: 96 }), { colours: 'dark' }));
  assertDrawn('heat-not-known', svg(drawHeat(missing, { width: 96 })));
});

test('the time axis is logarithmic: equal steps for equal ratios', () => {
  const axes = partOf(drawHeat(heatPicture, { width: 250 }), 'heat-axes');
  const at = (said: string): number => {
    const found = axes?.elements.find((element) => element.kind === 'text' && element.text === said);
    assert.ok(found?.kind === 'text', said);
    return found.at.x;
  };
  const decade = at('10 s') - at('1 s');
  assert.ok(Math.abs(at('10 min') - at('1 min') - decade) < 1e-9);
  assert.ok(Math.abs(at('1 min') - at('1 s') - decade * Math.log10(60)) < 1e-9);
  assert.ok(Math.abs(at('1 h') - at('1 min') - decade * Math.log10(60)) < 1e-9);
});

test('a ring stands where a winding passes a limit: on the limit, at its moment', () => {
  const drawing = drawHeat(heatPicture, { width: 250 });
  const ring = partOf(drawing, 'crossing-held-off-class-b')?.elements.find(({ kind }) => kind === 'circle');
  const limit = partOf(drawing, 'limit-class-b')?.elements[0];
  assert.ok(ring?.kind === 'circle' && limit?.kind === 'line');
  assert.ok(Math.abs(ring.centre.y - limit.from.y) < 1e-9);
  const [left, right] = [limit.from.x, limit.to.x];
  // The axis runs from 1 s to the six hours of the courses.
  const share = Math.log10(19.6) / Math.log10(21600);
  assert.ok(Math.abs(ring.centre.x - (left + share * (right - left))) < 1e-9);
  assert.ok(words(drawing).includes('19.6 s'));
});

test('limits stand at the class less the hot spot, in the degrees of the reader', () => {
  const drawing = drawHeat(heatPicture, { width: 250, units: imperialUnits });
  assert.ok(words(drawing).some((said) => said === 'mean of the winding 248 °F, its hottest place 18 °F more'));
  const limit = partOf(drawing, 'limit-class-b')?.elements[0];
  const axes = partOf(drawing, 'heat-axes')?.elements ?? [];
  const level = (said: string): number => {
    const found = axes.find((element) => element.kind === 'text' && element.text === said && element.align === 'end');
    assert.ok(found?.kind === 'text', said);
    return found.at.y + 0.9;
  };
  assert.ok(limit?.kind === 'line');
  const perDegree = (level('300') - level('200')) / 100;
  assert.ok(Math.abs(limit.from.y - (level('200') + 48 * perDegree)) < 1e-6, `${limit.from.y}`);
});

test('the fuse is a band from its fastest to its slowest; one that may never open reaches the edge and says so', () => {
  const band = (picture: HeatPicture) =>
    partOf(drawHeat(picture, { width: 250 }), 'mark-fuse')?.elements.find(({ kind }) => kind === 'polyline');
  const [closed, open] = [
    band(heatPicture),
    band({ ...heatPicture, marks: [{ name: 'fuse', words: 'fuse opens', from_s: 2.1, to_s: null }] }),
  ];
  assert.ok(closed?.kind === 'polyline' && open?.kind === 'polyline');
  const rightOf = (points: readonly { x: number }[]): number => Math.max(...points.map(({ x }) => x));
  assert.ok(rightOf(closed.points) < 243 && Math.abs(rightOf(open.points) - 244) < 1e-9);
  const never = drawHeat({ ...heatPicture, marks: [{ name: 'fuse', words: 'fuse opens', from_s: 2.1, to_s: null }] });
  assert.ok(never.sentences.includes('Fuse opens, 2.1 s at the fastest; the slowest never.'));
});

test('no words cover others or leave the sheet, and none lie on a curve, at any width', () => {
  for (const width of [88, 96, 110, 125, 142, 180, 210, 254])
    for (const units of [undefined, imperialUnits]) {
      const drawing = drawHeat(heatPicture, { width, ...(units && { units }) });
      assert.deepEqual(touchingTexts(drawing), [], `${width}`);
      assert.deepEqual(wordsOnCurves(drawing, isCurve), [], `${width}`);
    }
});

test('each course has its own dashes; winding and can of one course differ in width', () => {
  const drawing = drawHeat(heatPicture);
  const styleOf = (name: string): string | undefined => {
    const element = partOf(drawing, name)?.elements[0];
    return element && 'style' in element ? element.style : undefined;
  };
  const names = heatPicture.courses.flatMap(({ name }) => [`winding-${name}`, `case-${name}`]);
  assert.equal(new Set(names.map(styleOf)).size, 6);
});

test('what is missing is said, and a course that stays below its class says that', () => {
  assert.deepEqual(drawHeat(missing).sentences, ['Not known yet.', 'Measure the bare diameter of the wire.']);
  const said = drawHeat(heatPicture).sentences;
  assert.ok(said.some((sentence) => sentence.startsWith('Stays below class B 130')));
  assert.ok(said.some((sentence) => /^Passes class B 130 .* after 19.6 s\.$/.test(sentence)));
});

test('courses with holes and no limits at all are drawn', () => {
  const bare: HeatPicture = {
    courses: heatPicture.courses.map((course) => ({ ...course, case_K: course.time_s.map(() => null) })),
    limits: [],
    crossings: [],
    marks: [],
    touch: null,
    cautions: [],
    missing: [],
  };
  const drawing = drawHeat(bare);
  svg(drawing);
  assert.deepEqual(touchingTexts(drawing), []);
});
