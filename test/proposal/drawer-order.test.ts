/** A spring to order lies in the window, and in the job shows the margins that were said. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { relativeMargin } from '../../src/assessment/finding.ts';
import { rigOf, type SolenoidJob } from '../../src/assessment/rig.ts';
import { windowOf } from '../../src/assessment/window/window.ts';
import { lineIn } from '../../src/assessment/window/line.ts';
import { apply } from '../../src/job/change.ts';
import { readJob, writeJob } from '../../src/job/read.ts';
import type { Job } from '../../src/job/schema.ts';
import { springForce } from '../../src/physics/spring/working.ts';
import { springToOrder } from '../../src/proposal/drawer-order.ts';
import { closedWords, specificationRows } from '../../src/proposal/drawer-words.ts';
import { metricUnits } from '../../src/units/quantity.ts';
import { changed, demo } from '../job/jobs.ts';

const solenoid = (job: Job) => job as SolenoidJob;

test('each offer, put in the job, lies in its window, gives the forces of its specification, and keeps its margins', () => {
  for (const name of ['railcar', 'pump-house']) {
    const job = solenoid(demo(name));
    const { offers, closed, asked, question } = springToOrder(job);
    assert.ok(closed === null && offers.length > 0 && asked !== null, name);
    for (const { fit, offer } of offers) {
      const read = readJob(writeJob(apply(job, fit.changes)));
      assert.ok(read.ok, name);
      const after = solenoid(read.job);
      const line = lineIn(after, windowOf(after, question))!;
      assert.ok(line.toFloor!.distance >= 0 && line.toCeiling!.distance >= 0, `${name}: inside`);
      const { findings, verdict } = assess(after);
      assert.equal(verdict, fit.verdict, name);
      assert.equal(relativeMargin(findings.find(({ id }) => id === fit.decidedBy)!), fit.least, name);
      const spring = rigOf(after).springs[question.index!];
      assert.ok(offer.specification.kind !== 'torsion', name);
      for (const load of offer.specification.loads) {
        const force = springForce(spring.working, load.length);
        // Turns and tension are told in five figures.
        assert.ok(
          Math.abs(force - load.force) < 2e-3 * load.force,
          `${name} ${load.name}: ${force}, said ${load.force}`,
        );
      }
      const rows = specificationRows(offer.specification, metricUnits);
      for (const wanted of [
        'Wire',
        'Outside diameter',
        'Turns',
        'Ends',
        'Free length',
        'Load F1',
        'Load F2',
        'Rate',
        'Surface',
      ])
        assert.ok(
          rows.some(([row]) => row === wanted),
          `${name}: ${wanted}`,
        );
    }
  }
});

test('where none can be ordered it says why', () => {
  const shut = springToOrder(solenoid(demo('binding-pin')));
  assert.deepEqual([shut.offers, shut.closed], [[], 'window shut']);
  const bare = springToOrder(solenoid(changed(demo('railcar'), { return: { springs: [] } })));
  assert.equal(bare.closed, 'no place');
  for (const { closed } of [shut, bare]) assert.ok(closedWords(closed)!.length > 10);
});

test('round the plunger the spring goes into its bore and over the plunger', () => {
  const job = solenoid(demo('pump-house'));
  const places = { plunger: { roomAtHome: '60 mm', outsideMost: '60 mm' } };
  const { offers } = springToOrder(job, places, { on: 'plunger', index: null });
  assert.ok(offers.length > 0, 'offered');
  const plunger = rigOf(job).guide.diameter;
  for (const { offer, fit } of offers) {
    assert.ok(offer.specification.kind !== 'torsion', 'pressed');
    assert.ok(offer.specification.outsideDiameter <= 0.06 && offer.specification.insideDiameter > plunger, 'room');
    assert.equal(apply(job, fit.changes).return.springs.length, 2);
  }
});
