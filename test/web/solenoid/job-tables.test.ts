import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import { apply, inverse } from '../../../src/job/change.ts';
import { demoJobs } from '../../../src/job/demos.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import { metricUnits, readQuantity } from '../../../src/units/quantity.ts';
import { intoJob, tableOf, tablesOf } from '../../../src/web/solenoid/job-tables.ts';
import type { CurveForJob } from '../../../src/web/solenoid/outcome.ts';

const railcar = demoJobs.find(({ name }) => name === 'railcar')?.document as unknown as Job;
const curve: CurveForJob = {
  words: 'Pull-in at 24 V, 20 °C',
  stage: 'pull-in',
  voltage: 24,
  coilTemperature: 293.15,
  gaps: [0.0001, 0.001, 0.006, 0.012],
  force: [310.123456, 140, 31.4159, 11.06],
  halfWidth: [40, 12.345, 2, 0.9],
};

test('a solved curve is a table that reads, told apart by its source, with the band as ±', () => {
  const table = tableOf(curve);
  assert.equal(table.source, 'field solve');
  assert.deepEqual(table.drive, { by: 'voltage', voltage: '24 V', coilTemperature: '20 °C' });
  assert.deepEqual(table.rows[1], { gap: '1 mm', force: '140 N ± 12 N' });
  table.rows.forEach(({ gap, force }, i) => {
    const [g, f] = [readQuantity(gap, 'length'), readQuantity(force, 'force')];
    assert.ok(g.ok && f.ok);
    assert.ok(Math.abs(g.quantity.value / curve.gaps[i] - 1) < 5e-4);
    assert.ok(Math.abs(f.quantity.value / curve.force[i] - 1) < 5e-4);
    assert.ok(f.quantity.plusMinus !== null);
  });
  assert.doesNotMatch(JSON.stringify(tableOf({ ...curve, halfWidth: null })), /±/);
});

test('tables that were read stay; a second solve takes the place of the first; one step takes it back', () => {
  assert.equal(railcar.means.kind, 'solenoid');
  const before = railcar.means.kind === 'solenoid' ? railcar.means.force.length : 0;
  const changes = intoJob(railcar, [curve]);
  const once = apply(railcar, changes);
  assert.ok(once.means.kind === 'solenoid' && once.means.force.length === before + 1);
  assert.deepEqual(tablesOf(once.means, 'pull-in').solved, 1);
  const twice = apply(once, intoJob(once, [{ ...curve, voltage: 20 }]));
  assert.ok(twice.means.kind === 'solenoid' && twice.means.force.length === before + 1);
  assert.match(JSON.stringify(twice.means.force), /"20 V"/);
  assert.deepEqual(apply(once, inverse(changes)), railcar);
});

test('the job with the table reads and is assessed', () => {
  const job = apply(railcar, intoJob(railcar, [curve]));
  const reading = readDocument(JSON.parse(JSON.stringify(job)));
  assert.ok(reading.ok, JSON.stringify(reading));
  assert.ok(assess(reading.job, metricUnits).findings.length > 0);
});

test('a job that works by something else is left alone', () => {
  const ferry = demoJobs.find(({ name }) => name === 'ferry')?.document as unknown as Job;
  assert.notEqual(ferry.means.kind, 'solenoid');
  assert.deepEqual(intoJob(ferry, [curve]), []);
});

test('the example of the page is the one that the command line is shown with', () => {
  const text = (path: string): string => readFileSync(new URL(path, import.meta.url), 'utf8');
  assert.equal(text('../../../src/web/solenoid/example.json'), text('../../../examples/solenoid-railcar.json'));
});
