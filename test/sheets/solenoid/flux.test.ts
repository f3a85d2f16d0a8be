import assert from 'node:assert/strict';
import test from 'node:test';
import { prepareField } from '../../../src/physics/magnetics/field.ts';
import { lowCarbonPlate } from '../../../src/physics/magnetics/steel.ts';
import { COIL, solenoidProblem } from '../../../src/physics/solenoid/field/solenoid-problem.ts';
import { drawFlux, type FieldPicture } from '../../../src/sheets/solenoid/flux.ts';
import { svg } from '../../../src/sheets/svg.ts';
import { referenceCases } from '../../published/solenoid-reference.ts';
import { textsOf, touchingTexts } from '../touching.ts';

function solved(number: number, gap: number, ampereTurns: number): FieldPicture {
  const { solenoid } = referenceCases[number];
  const problem = solenoidProblem(solenoid, gap, lowCarbonPlate);
  const field = prepareField(problem, 1.5);
  const solution = field.solve({ [COIL]: ampereTurns });
  assert.ok(solution.convergence.converged);
  const { coordinates, triangles, region } = field.mesh;
  return {
    solenoid,
    gap,
    ampereTurns,
    coordinates,
    triangles,
    isSteel: Array.from(region, (r) => (r >= 0 && problem.regions[r].material !== 'air' ? 1 : 0)),
    potential: solution.potential,
    fluxDensity: Array.from(region, (_, e) => field.fluxDensity(solution, e)),
    saturated: { from: 1.6, words: 'above 1.6 T' },
  };
}

const closed = solved(0, 0.0005, 2400);

/** One six-node triangle pair that fills a rectangle of radius 0 to 20 mm, height 0 to 50 mm, with a uniform field. */
function uniform(flux: number): FieldPicture {
  const n = 24;
  const side = 2 * n + 1;
  const coordinates: number[] = [];
  const triangles: number[] = [];
  for (let j = 0; j < side; j++)
    for (let i = 0; i < side; i++) coordinates.push((0.02 * i) / (side - 1), (0.05 * j) / (side - 1));
  for (let j = 0; j < n; j++)
    for (let i = 0; i < n; i++) {
      const at = (a: number, b: number): number => (2 * j + b) * side + 2 * i + a;
      triangles.push(at(0, 0), at(2, 0), at(2, 2), at(1, 0), at(2, 1), at(1, 1));
      triangles.push(at(0, 0), at(2, 2), at(0, 2), at(1, 1), at(1, 2), at(0, 1));
    }
  const elements = triangles.length / 6;
  return {
    ...closed,
    coordinates,
    triangles,
    isSteel: Array.from({ length: elements }, () => 1),
    potential: coordinates.filter((_, k) => k % 2 === 0).map((r) => (flux * r * r) / 2),
    fluxDensity: Array.from({ length: elements }, () => flux),
  };
}

test('in a uniform field the lines lie where equal fluxes say: radius with the square root of their number', () => {
  const drawing = drawFlux(uniform(1.2), { width: 180, height: 130 });
  const lines = drawing.parts.find(({ name }) => name === 'flux-lines');
  const axis = drawing.parts.find(({ name }) => name === 'axis')?.elements[0];
  assert.ok(lines && axis?.kind === 'line');
  const can = 0.02;
  const outline = drawing.parts.find(({ name }) => name === 'outlines')?.elements[0];
  assert.ok(outline?.kind === 'polyline');
  const scale = Math.max(...outline.points.map(({ y }) => y - axis.from.y)) / can;
  const heights = lines.elements.flatMap((element) => {
    assert.ok(element.kind === 'polyline');
    const up = element.points[0].y - axis.from.y;
    return up > 0 ? [up] : [];
  });
  heights.sort((a, b) => a - b);
  // All the flux is 1.2 T × π (20 mm)² = 1.508 mWb: lines of 200 µWb, the first half of that from the axis.
  assert.equal(heights.length, 8);
  heights.forEach((height, k) => {
    const radius = Math.sqrt((0.2e-3 * (k + 0.5)) / (Math.PI * 1.2));
    // The square of the radius is taken straight over a quarter of an element of 0.83 mm.
    assert.ok(Math.abs(height / scale - radius) < 1e-5, `line ${k}: ${height / scale} is not ${radius}`);
  });
  assert.ok(drawing.sentences.some((words) => words.includes('200 µWb')));
});

test('a real field has lines on both sides of the axis, bands that deepen, saturation hatched, and a legend with units', () => {
  const drawing = drawFlux(closed, { reach: 0.012 });
  const part = (name: string) => drawing.parts.find((one) => one.name === name);
  assert.ok((part('flux-lines')?.elements.length ?? 0) > 10);
  const bands = drawing.parts.filter(({ name }) => /^band-\d+$/.test(name));
  assert.ok(bands.length >= 4 && bands.length <= 8);
  const hatching = part('saturated')?.elements[0];
  assert.ok(hatching?.kind === 'hatch' && hatching.lines.length > 5);
  const words = textsOf(drawing).map(({ text }) => text);
  assert.ok(words.includes('Flux density') && words.some((one) => /^[\d.]+ T and above$/.test(one)));
  assert.ok(words.includes('saturated') && words.includes('above 1.6 T'));
  assert.ok(words.some((one) => one.endsWith('Wb per line')) && words.some((one) => one.endsWith(' mm')));
  assert.equal(words.filter((one) => one.endsWith('T and above')).length, bands.length);
});

test('nothing is hatched where nothing is saturated', () => {
  const drawing = drawFlux(solved(0, 0.012, 100), { reach: 0.012 });
  assert.deepEqual(drawing.parts.find(({ name }) => name === 'saturated')?.elements, []);
  assert.ok(drawing.sentences.includes('No steel is saturated.'));
});

test('without current there are no lines, and no error', () => {
  const still = {
    ...closed,
    potential: closed.potential.length === 0 ? [] : new Float64Array(closed.potential.length),
  };
  const drawing = drawFlux({ ...still, fluxDensity: new Float64Array(closed.fluxDensity.length) });
  assert.deepEqual(drawing.parts.find(({ name }) => name === 'flux-lines')?.elements, []);
  assert.doesNotMatch(svg(drawing), /NaN/);
});

test('a picture has less than 300 kB, and no words cover others, at any size', () => {
  for (const [number, gap, level] of [
    [0, 0.0005, 2400],
    [1, 0.008, 3000],
    [3, 0.0004, 4000],
  ]) {
    const field = number === 0 ? closed : solved(number, gap, level);
    for (const [width, height] of [
      [180, 130],
      [140, 100],
      [96, 110],
    ]) {
      const drawing = drawFlux(field, { width, height, reach: 0.012 });
      assert.deepEqual(touchingTexts(drawing), []);
      assert.ok(svg(drawing).length < 300_000, `${svg(drawing).length}`);
    }
  }
});

test('the picture stays in its window: nothing of it lies off the sheet', () => {
  const drawing = drawFlux(closed, { width: 180, height: 130 });
  for (const { elements, name } of drawing.parts)
    for (const element of elements) {
      const points =
        element.kind === 'polyline' ? element.points : element.kind === 'hatch' ? element.lines.flat() : [];
      for (const { x, y } of points) assert.ok(x >= 0 && x <= 180 && y >= 0 && y <= 130, `${name} at ${x}, ${y}`);
    }
});
