import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import type { SolvedMap } from '../../../src/assessment/solenoid/map.ts';
import { apply, change, inverse } from '../../../src/job/change.ts';
import { demoJobs } from '../../../src/job/demos.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job, Solenoid } from '../../../src/job/schema.ts';
import type { SolenoidDocument } from '../../../src/job/solenoid/schema.ts';
import {
  bodyIntoJob,
  bodyReadings,
  mapIntoJob,
  mapOf,
  turnsTyped,
  windingsToName,
} from '../../../src/web/solenoid/job-map.ts';

const railcar = demoJobs.find(({ name }) => name === 'railcar')?.document as unknown as Job;
const solenoid = JSON.parse(
  readFileSync(new URL('../../../examples/solenoid-railcar.json', import.meta.url), 'utf8'),
) as SolenoidDocument;
const line = (gap_m: number) => ({
  gap_m,
  ampereTurns: [0.1, 100, 900],
  coEnergy_J: [1e-9, 1e-3, 0.1],
  fluxLinkage_Wb: [1e-8, 1e-5, 1e-4],
  force_N: [1e-7, 3, 90],
});
const solved: SolvedMap = {
  lines: [line(0), line(0.01)],
  turns: 812.5,
  estimatedError: { force: 0.01, fluxLinkage: 0.01 },
};
const single = { stages: 'single coil', resistance: '6 Ω', readAt: '20 °C' } as const;
const means = (job: Job): Solenoid => {
  assert.ok(job.means.kind === 'solenoid');
  return job.means;
};
const withCoil = (coil: unknown): Job => apply(railcar, [change(railcar, 'means.coil', coil)]);

test('one winding gets the solved turns; two need both from a person; unknown turns need one', () => {
  const one = means(withCoil(single));
  assert.deepEqual(mapOf(one, solved, {})?.turns, [812.5]);
  assert.deepEqual(windingsToName(one, null), ['pull-in']);
  assert.equal(mapOf(one, { ...solved, turns: null }, {}), null);
  assert.deepEqual(mapOf(one, { ...solved, turns: null }, { 'pull-in': '790' })?.turns, [790]);
  const two = means(railcar);
  assert.equal(two.coil.stages, 'pull-in and hold windings');
  assert.deepEqual(windingsToName(two, 812.5), ['pull-in', 'hold']);
  assert.equal(mapOf(two, solved, {}), null);
  assert.equal(mapOf(two, solved, { 'pull-in': '165' }), null);
  assert.deepEqual(mapOf(two, solved, { 'pull-in': '165', hold: '1100' })?.turns, [165, 1100]);
});

test('what is no number of turns is none', () => {
  for (const text of ['', ' ', '0', '-3', 'many', '2e7', 'NaN', 'Infinity']) assert.equal(turnsTyped(text), null, text);
  assert.equal(turnsTyped(' 512,5 '), 512.5);
});

test('the job with the map reads, also with typed turns; a coil of another kind is refused in words', () => {
  for (const job of [railcar, withCoil(single)]) {
    const map = mapOf(means(job), solved, { 'pull-in': '165', hold: '1100' });
    assert.ok(map !== null);
    const changes = mapIntoJob(job, map);
    const next = apply(job, changes);
    const reading = readDocument(JSON.parse(JSON.stringify(next)));
    assert.ok(reading.ok, JSON.stringify(reading));
    assert.deepEqual(means(reading.job).map, JSON.parse(JSON.stringify(map)));
    assert.deepEqual(apply(next, inverse(changes)), job);
  }
  const wrong = readDocument(apply(railcar, [change(railcar, 'means.map', { turns: [812.5], lines: solved.lines })]));
  assert.ok(!wrong.ok && wrong.problems.some(({ problem }) => /two windings: take the map away/.test(problem)));
});

test('only what the job has not measured, and the bench has, is offered', () => {
  assert.deepEqual(bodyReadings(means(railcar), solenoid), []);
  const job = apply(railcar, [
    change(railcar, 'means.body.diameter', 'not measured'),
    change(railcar, 'means.body.wireDiameter', 'not measured'),
  ]);
  assert.deepEqual(
    bodyReadings(means(job), solenoid).map(({ path, text }) => [path, text]),
    [
      ['means.body.diameter', '52.0 mm'],
      ['means.body.wireDiameter', '0.56 mm'],
    ],
  );
  const filled = apply(job, bodyIntoJob(job, solenoid));
  assert.equal(means(filled).body.diameter, '52.0 mm');
  assert.equal(means(filled).body.length, means(railcar).body.length);
  assert.ok(readDocument(filled).ok);
  const unread = { ...solenoid, can: { ...solenoid.can, outsideDiameter: 'not measured' } };
  assert.deepEqual(
    bodyReadings(means(job), unread).map(({ path }) => path),
    ['means.body.wireDiameter'],
  );
});
