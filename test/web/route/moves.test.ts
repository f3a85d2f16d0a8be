import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import type { CableRun } from '../../../src/assessment/cable/data.ts';
import { cableStudy } from '../../../src/assessment/cable/study.ts';
import { apply, inverse } from '../../../src/job/change.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { HandCable, Job } from '../../../src/job/schema.ts';
import { drawRoute } from '../../../src/sheets/route/route.ts';
import { viewOf } from '../../../src/sheets/route/views.ts';
import { cableOf } from '../../../src/web/route/cable.ts';
import { addedAfter, firstRun, keepFriction, movedBy, movedTo, takenAway } from '../../../src/web/route/moves.ts';

const demo = (name: string): Job => {
  const url = new URL(`../../../src/job/demos/${name}.json`, import.meta.url);
  const reading = readDocument(JSON.parse(readFileSync(url, 'utf8')));
  assert.ok(reading.ok, `${name} reads`);
  return reading.job;
};
const ferry = demo('ferry');
const cable = (job: Job): HandCable => {
  const found = cableOf(job);
  assert.ok(found !== null, 'there is a cable');
  return found.cable;
};
const study = (job: Job) => cableStudy(job, cable(job));
const reads = (job: Job) => {
  const reading = readDocument(job);
  assert.ok(reading.ok, 'what was changed still reads');
};

const drawn = () => {
  const { frame } = drawRoute(study(ferry).run, { width: 170, height: 110, scales: 'free' });
  assert.ok(frame !== null, 'the ferry is drawn');
  return frame;
};

test('a corner that is put where it already stands on the sheet stays; put elsewhere it comes to stand there', () => {
  const frame = drawn();
  const { run } = study(ferry);
  assert.ok(run !== null, 'the run is known');
  const corners: CableRun['corners'] = run.corners;
  for (const view of frame.views)
    for (const [corner, place] of corners.entries()) {
      const at = viewOf(view, frame.scale).at(place);
      const same: Job = apply(ferry, movedTo(ferry, corner, view, frame.scale, at));
      assert.deepEqual(study(same).run, run, `${view.name} ${corner}`);
      // 400 mm to the right and 200 mm up, as the sheet has it.
      const to = { x: at.x + 400 * frame.scale, y: at.y + 200 * frame.scale };
      const moved = study(apply(ferry, movedTo(ferry, corner, view, frame.scale, to))).run?.corners[corner];
      assert.ok(moved !== undefined, 'the corner is still there');
      const wanted = { ...place, [view.across]: place[view.across] + 400, [view.up]: place[view.up] + 200 };
      for (const axis of ['x_mm', 'y_mm', 'z_mm'] as const)
        assert.ok(Math.abs(moved[axis] - wanted[axis]) < 1e-6, `${view.name} ${corner} ${axis}: ${moved[axis]}`);
    }
});

test('a drawing in the frame of an earlier one keeps scale and place, and only what moved is elsewhere', () => {
  const frame = drawn();
  const plan = frame.views[1];
  const moved = apply(ferry, movedBy(ferry, 6, plan, 900, 0));
  const held = drawRoute(study(moved).run, { width: 170, height: 110, scales: 'free', frame });
  assert.deepEqual(held.frame, frame);
  const corners = (drawing: typeof held) => {
    const line = drawing.parts.find(({ name }) => name === 'plan-corners')?.elements[0];
    assert.ok(line?.kind === 'polyline', 'the corners are drawn');
    return line.points;
  };
  const before = corners(drawRoute(study(ferry).run, { width: 170, height: 110, scales: 'free' }));
  const after = corners(held);
  assert.deepEqual(after.slice(0, 6), before.slice(0, 6));
  assert.ok(Math.abs(after[6].x - before[6].x - 900 * frame.scale) < 1e-9, 'by 900 mm to scale');
  const free = drawRoute(study(moved).run, { width: 170, height: 110, scales: 'free' });
  assert.notDeepEqual(free.frame, frame, 'let go, it lies on the sheet as it fits');
});

test('arrow keys move along the axes of their view, keep the ± and can be taken back', () => {
  const [elevation] = drawn().views;
  const rough = apply(ferry, [{ path: 'means.route[2].z', from: '900 mm', to: '900 mm ± 20' }]);
  const changes = movedBy(rough, 2, elevation, 0, -10);
  const later = apply(rough, changes);
  assert.equal(cable(later).route[2].z, '890 mm ± 20 mm');
  assert.equal(cable(later).route[2].y, cable(rough).route[2].y);
  assert.deepEqual(apply(later, inverse(changes)), rough);
});

test('a corner that is added lies half-way and changes no force until it is moved; taken away, all is as before', () => {
  for (let corner = 0; corner < 6; corner += 1) {
    const more = apply(ferry, addedAfter(ferry, corner));
    reads(more);
    assert.equal(cable(more).route.length, 8);
    const [before, after] = [study(ferry).worst?.handleForce_N, study(more).worst?.handleForce_N];
    assert.ok(
      typeof before === 'number' && typeof after === 'number' && Math.abs(after - before) < 0.005 * before,
      `after corner ${corner}: ${before} N, then ${after} N`,
    );
    assert.deepEqual(apply(more, takenAway(more, corner + 1)), ferry);
  }
  assert.deepEqual(addedAfter(ferry, 6), [], 'nothing comes after the lever');
  assert.deepEqual([takenAway(ferry, 0), takenAway(ferry, 6)], [[], []], 'both ends stay');
});

test('beside a corner that was not measured an added one is not measured either', () => {
  const unread = apply(ferry, [{ path: 'means.route[2].x', from: '1900 mm', to: 'not measured' }]);
  const added = cable(apply(unread, addedAfter(unread, 1))).route[2];
  assert.deepEqual([added.x, added.y, added.z], ['not measured', '0 mm', '900 mm']);
});

test('a run begins with its ends as far apart as the survey says, in its unit, and not without that reading', () => {
  const empty = apply(ferry, [{ path: 'means.route', from: cable(ferry).route, to: [] }]);
  const begun = apply(empty, firstRun(empty));
  reads(begun);
  const { run } = study(begun);
  assert.ok(run !== null && Math.abs(run.length_mm - 6500) < 1e-9, `${run?.length_mm} mm`);
  assert.equal(cable(begun).route[1].x, '6.5 m');
  const unread = apply(empty, [{ path: 'survey.run.distance', from: '6.5 m', to: 'not measured' }]);
  assert.deepEqual(firstRun(unread), []);
});

test('the cable is the means, or else the hand stop beside it, or none', () => {
  const railcar = demo('railcar');
  assert.equal(cableOf(railcar), null);
  assert.equal(cableOf(ferry)?.path, 'means');
  const beside = { ...railcar, handStop: { ...cable(ferry), whileEffortWasRead: 'apart' } } as unknown as Job;
  assert.equal(cableOf(beside)?.path, 'handStop');
  const moved = apply(beside, movedBy(beside, 1, drawn().views[1], 10, 0));
  assert.equal(cable(moved).route[1].x, '10 mm');
});

test('with the friction kept and the readings put away the effort is as before, and follows the run from then on', () => {
  const { calibrated, worst } = study(ferry);
  assert.ok(calibrated !== null && worst?.handleForce_N !== undefined && worst.handleForce_N !== null);
  const kept = apply(ferry, keepFriction(ferry, calibrated));
  reads(kept);
  assert.equal(cable(kept).readings, undefined);
  const after = study(kept).worst?.handleForce_N;
  assert.ok(typeof after === 'number' && Math.abs(after / worst.handleForce_N - 1) < 0.01, `${after} N`);
  const farther = apply(kept, [{ path: 'means.route[3].y', from: cable(kept).route[3].y, to: '1650 mm' }]);
  const moved = study(farther).worst?.handleForce_N;
  assert.ok(typeof moved === 'number' && moved > after + 1, `${moved} N after ${after} N`);
  assert.deepEqual(apply(kept, inverse(keepFriction(ferry, calibrated))), ferry);
  assert.deepEqual(keepFriction(kept, calibrated), [], 'nothing to put away any more');
});
