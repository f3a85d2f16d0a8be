import assert from 'node:assert/strict';
import { test } from 'node:test';
import { cableStudy } from '../../../src/assessment/cable/study.ts';
import type { CableStudy } from '../../../src/assessment/cable/data.ts';
import type { Job } from '../../../src/job/schema.ts';
import { drawEffort } from '../../../src/sheets/route/effort.ts';
import { drawRoute } from '../../../src/sheets/route/route.ts';
import { drawRouteAndEffort } from '../../../src/sheets/route/sheet.ts';
import { svg } from '../../../src/sheets/svg.ts';
import { imperialUnits } from '../../../src/units/quantity.ts';
import { byLining, cables, withCable } from '../../assessment/cable/cables.ts';
import { changed } from '../../job/jobs.ts';
import { assertDrawn } from '../golden.ts';
import { textsOf, touchingTexts } from '../touching.ts';

const study = (job: Job): CableStudy => cableStudy(job, withCable(job).means);
const [ferry] = cables;
const tight = study(changed(byLining, { 'means.route[2].radius': '1200 mm' }));
const undrawn = study(changed(byLining, { 'means.route': [] }));
const unread = study(changed(byLining, { 'means.route[2].x': 'not measured' }));
const stairs = (bends: number) =>
  Array.from({ length: bends + 2 }, (_, i) => ({
    x: `${Math.ceil(i / 2) * 600} mm`,
    y: `${Math.floor(i / 2) * 600} mm`,
    z: `${i * 20} mm`,
    ...(i === 0 || i === bends + 1 ? {} : { radius: '220 mm' }),
  }));

test('golden: the ferry, bends without room, not drawn, not known', () => {
  assertDrawn('route-ferry', svg(drawRouteAndEffort(study(ferry.job))));
  assertDrawn(
    'route-without-room-narrow-dark',
    svg(drawRouteAndEffort(tight, { width: 110, height: 190, scales: 'free' }), { colours: 'dark' }),
  );
  assertDrawn('route-not-drawn-imperial', svg(drawRouteAndEffort(undrawn, { units: imperialUnits })));
  assertDrawn('route-not-known', svg(drawRouteAndEffort(unread)));
});

test('the views are to scale: a length of the installation is that length on the sheet, and both views have one scale', () => {
  const { run } = study(ferry.job);
  const drawing = drawRoute(run, { width: 180, height: 120 });
  assert.ok(textsOf(drawing).some(({ text }) => text === 'Scale 1:50'));
  const line = (view: string) => {
    const corners = drawing.parts.find(({ name }) => name === `${view}-corners`)?.elements[0];
    assert.ok(corners?.kind === 'polyline', view);
    return corners.points;
  };
  // From corner 1 to corner 2: 1900 mm along x, 38 mm on the sheet, in both views; the handle 800 mm above.
  for (const view of ['plan', 'elevation']) {
    const points = line(view);
    assert.ok(Math.abs(points[2].x - points[1].x - 38) < 1e-9, view);
  }
  assert.ok(Math.abs(line('elevation')[0].y - line('elevation')[1].y - 16) < 1e-9, 'the handle stands above');
  assert.ok(
    line('elevation').every(({ y }) => y > Math.max(...line('plan').map((one) => one.y))),
    'elevation above plan',
  );
});

test('a tee stands on the run where its length along the conduit says, with its name; a second cable does not', () => {
  const teed = cables.find(({ name }) => name === 'tee')!.job;
  const { run } = study(teed);
  // 550 mm down to bend 1, 250 mm × 90° round it, 1400 mm along the beam to bend 2, and 57 mm of 393 mm round that.
  const round = (2400 - 550 - 1400 - (250 * Math.PI) / 2) / 250;
  const at = { x_mm: 1900 - 250 + 250 * Math.sin(round), y_mm: 250 * (1 - Math.cos(round)), z_mm: 900 };
  for (const axis of ['x_mm', 'y_mm', 'z_mm'] as const)
    assert.ok(Math.abs((run?.junction?.at?.[axis] ?? NaN) - at[axis]) < 1e-6, axis);
  const drawing = drawRoute(run);
  assert.ok(
    drawing.parts.some(({ name }) => name === 'plan-junction'),
    'marked',
  );
  assert.ok(textsOf(drawing).some(({ text }) => text === 'tee: Engine-room door'));
  assert.ok(
    drawing.sentences.some((sentence) =>
      sentence.startsWith('After 2400 mm from the handle "Engine-room door" joins by a tee'),
    ),
  );
  assert.deepEqual(touchingTexts(drawing), []);
  const ends = [0, 100].map(
    (joins) => study(changed(teed, { 'means.secondStation.joins': `${joins} m` })).run?.junction,
  );
  assert.deepEqual([ends[0]?.at, ends[1]], [{ x_mm: 0, y_mm: 0, z_mm: 1700 }, null]);
  const cable = cables.find(({ name }) => name === 'second cable')!.job;
  assert.equal(study(cable).run?.junction, null);
  assert.ok(!drawRoute(study(cable).run).parts.some(({ name }) => name.endsWith('-junction')));
});

test('the effort ends where the study says, against the limits of the handle', () => {
  const known = study(ferry.job);
  const drawing = drawEffort(known);
  const box = drawing.parts.find(({ name }) => name === 'effort-axes')?.elements[0];
  const worst = drawing.parts.find(({ name }) => name === 'worst')?.elements[0];
  const avoid = drawing.parts.find(({ name }) => name === 'avoid')?.elements[0];
  assert.ok(box?.kind === 'polyline' && worst?.kind === 'polyline' && avoid?.kind === 'line', 'drawn');
  const [bottom, top] = [box.points[0].y, box.points[2].y];
  const value = (y: number) => ((y - bottom) / (top - bottom)) * 100;
  const last = worst.points[worst.points.length - 1];
  assert.ok(Math.abs(value(last.y) - (known.worst?.coreForce_N ?? NaN)) < 1e-6, 'at the handle');
  assert.ok(Math.abs(value(worst.points[0].y) - (known.worst?.leverForce_N ?? NaN)) < 1e-6, 'at the lever');
  assert.ok(Math.abs(value(avoid.from.y) - (known.limit?.avoidBeyond_N ?? NaN)) < 1e-6, 'the limit');
  assert.equal(drawing.parts.filter(({ name }) => /^band-\d+$/.test(name)).length, 5);
  // A handle that gears down bears more in the core: its limit lies higher by as much.
  const geared = study(changed(ferry.job, { 'means.handle.ratio': '1.5' }));
  const said = textsOf(drawEffort(geared)).map(({ text }) => text);
  assert.ok(said.includes(`${(81.2 * 1.5).toFixed(1)} N`), said.join(' | '));
});

test('no text covers another or leaves the sheet, and every bend has its number', () => {
  for (const { name, job } of cables) {
    for (const options of [{}, { width: 110, height: 190, scales: 'free' as const }, { units: imperialUnits }]) {
      const drawing = drawRouteAndEffort(study(job), options);
      assert.deepEqual(touchingTexts(drawing), [], name);
      const names = drawing.parts.map((one) => one.name);
      assert.equal(new Set(names).size, names.length, `${name}: a name for each part`);
    }
  }
  for (const bends of [1, 12, 30, 200]) {
    const drawing = drawRouteAndEffort(study(changed(byLining, { 'means.route': stairs(bends) })));
    assert.deepEqual(touchingTexts(drawing), [], `${bends} bends`);
    const numbers = drawing.parts.filter(({ name }) => /^run-plan-bend-\d+$/.test(name)).length;
    assert.equal(numbers, bends, `${bends} bends are drawn`);
  }
});

test('bends for which there is no room are crossed out, in the drawing and in its sentences', () => {
  const drawing = drawRoute(tight.run);
  assert.ok(drawing.parts.some(({ name, role }) => name === 'plan-misfits' && role === 'fails'));
  assert.ok(
    drawing.sentences.some((one) => /Along the beam: no room: \d+ mm would fit/.test(one)),
    drawing.sentences.join(' '),
  );
  assert.ok(!drawRoute(study(ferry.job).run).parts.some(({ role }) => role === 'fails'));
});

test('the sentences say what the drawing shows', () => {
  const { sentences } = drawRouteAndEffort(study(ferry.job));
  const said = sentences.join(' ');
  for (const words of [
    /5 bends, 314° in all/,
    /1100 mm down/,
    /Bend 3: 61°, R 220 mm, Round the casing/,
    /worn and cold/i,
    /costs most/,
  ])
    assert.match(said, words);
  assert.doesNotMatch(said, /NaN|null|undefined/);
});
