/** The window drawn: both edges filled, the present spring, springs of the drawer, nothing outside the sheet, no word on another. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { SolenoidJob } from '../../../src/assessment/rig.ts';
import { usualQuestion, windowOf } from '../../../src/assessment/window/window.ts';
import { windowData, type WindowData } from '../../../src/assessment/window/data.ts';
import { lineIn } from '../../../src/assessment/window/line.ts';
import type { Job } from '../../../src/job/schema.ts';
import { textBox, type Drawing } from '../../../src/sheets/drawing.ts';
import { svg } from '../../../src/sheets/svg.ts';
import { drawWindow } from '../../../src/sheets/window/window.ts';
import { imperialUnits, metricUnits } from '../../../src/units/quantity.ts';
import { changed, demo } from '../../job/jobs.ts';

function dataOf(given: Job): WindowData {
  const job = given as SolenoidJob;
  const window = windowOf(job, usualQuestion(job));
  return windowData(window, lineIn(job, window));
}

const named = (drawing: Drawing, name: string) => drawing.parts.find((one) => one.name === name);

function assertOnSheet(drawing: Drawing, about: string): void {
  const boxes = drawing.parts.flatMap(({ elements }) => elements).flatMap((one) => (one.kind === 'text' ? [{ words: one.text, ...textBox(one) }] : [])); // prettier-ignore
  for (const { words, left, right, bottom, top } of boxes)
    assert.ok(
      left >= -0.1 && bottom >= -0.1 && right <= drawing.width + 0.1 && top <= drawing.height + 0.1,
      `${about}: ${words}`,
    );
  boxes.forEach((a, i) =>
    boxes.slice(i + 1).forEach((b) => {
      const touches =
        a.left < b.right - 0.1 && b.left < a.right - 0.1 && a.bottom < b.top - 0.4 && b.bottom < a.top - 0.4;
      assert.ok(!touches, `${about}: "${a.words}" on "${b.words}"`);
    }),
  );
  assert.ok(!svg(drawing).includes('NaN'), `${about}: NaN`);
}

test('both edges are filled, the present spring lies between them, others are thin', () => {
  for (const name of ['railcar', 'pump-house', 'short-stroke', 'binding-pin']) {
    const window = dataOf(demo(name));
    const others = [{ name: 'one', values: window.scenes[0].gap_mm.map(() => 0.5) }];
    for (const width of [110, 160, 210])
      for (const units of [metricUnits, imperialUnits]) {
        const drawing = drawWindow({ window, others }, { width, units });
        for (const part of ['present', 'other-0', 'floor', 'ceiling'])
          assert.ok(named(drawing, part) !== undefined, `${name}: ${part}`);
        assertOnSheet(drawing, `${name} ${width}`);
      }
  }
  const open = drawWindow({ window: dataOf(demo('railcar')), others: [] });
  assert.ok(named(open, 'too-weak')!.elements.length > 0 && named(open, 'too-strong')!.elements.length > 0, 'filled');
  assert.equal(named(open, 'shut')!.elements.length, 0, 'nothing is hatched');
});

test('where floor and ceiling have crossed it is hatched, and the sentences say shut', () => {
  const drawing = drawWindow({ window: dataOf(changed(demo('railcar'), { 'supply.low': '19 V' })), others: [] });
  assert.ok(
    named(drawing, 'shut')!.elements.some(({ kind }) => kind === 'hatch'),
    'hatched',
  );
  assert.match(drawing.sentences[0], /shut/);
});

test('the engine on its mounts adds dashed edges; missing readings leave a notice', () => {
  const moved = drawWindow({
    window: dataOf(changed(demo('railcar'), { 'surroundings.engineMoves': '2 mm' })),
    others: [],
  });
  assert.ok(named(moved, 'moved-0')!.elements.length > 0, 'dashed');
  const missing = drawWindow({
    window: dataOf(changed(demo('railcar'), { 'means.plunger.mass': 'not measured' })),
    others: [],
  });
  assert.deepEqual(
    missing.parts.map(({ name }) => name),
    ['notice'],
  );
});
