/** `stopwright motion`: in words, as JSON, as a trace, and what it says when there is nothing to follow. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { timePicture } from '../../src/assessment/time/study.ts';
import { heatPicture } from '../../src/assessment/time/heat-study.ts';
import { writeJob } from '../../src/job/read.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import type { Job } from '../../src/job/schema.ts';
import { isSolenoid } from '../../src/assessment/assess.ts';
import { changed, demo } from '../job/jobs.ts';
import { assertReadable, stopwright } from './command.ts';

const said = (job: Job, ...options: string[]) => stopwright(['motion', '-', ...options], { input: writeJob(job) });

test('the demonstrations with a solenoid: exit code, every run, the releases, the heat, within 80 columns', async () => {
  const codes = { railcar: 0, 'pump-house': 0, 'short-stroke': 0 };
  await Promise.all(
    Object.entries(codes).map(async ([name, code]) => {
      const outcome = await said(demo(name));
      assert.deepEqual([outcome.code, outcome.err], [code, ''], name);
      assertReadable(outcome.out);
      assert.match(outcome.out, /weakest \(.*\): comes home/s);
      assert.match(outcome.out, /diode \(fitted\): leaves home after/);
      assert.match(outcome.out, /passes class 155 \(F\)\s+after/);
      assert.match(outcome.out, /Eddy currents in solid steel are left out/);
      assert.match(outcome.out.replace(/\s+/g, ' '), /Isolate fuel and battery/);
    }),
  );
  // The command lasts for as long as the engine runs on, which only energise to stop has to wait for.
  const [toStop, toRun] = await Promise.all([said(demo('railcar')), said(demo('pump-house'))]);
  assert.match(toStop.out, /Keep the command on for/);
  assert.doesNotMatch(toRun.out, /Keep the command on/);
});

test('--json prints both pictures as they are reckoned', async () => {
  const job = demo('railcar');
  assert.ok(isSolenoid(job));
  const outcome = await said(job, '--json');
  assert.equal(outcome.code, 0);
  const printed: unknown = JSON.parse(outcome.out);
  assert.deepEqual(printed, {
    format: 'stopwright motion',
    version: 1,
    job: job.name,
    time: JSON.parse(JSON.stringify(timePicture(job))),
    heat: JSON.parse(JSON.stringify(heatPicture(job))),
  });
});

test('--csv prints one run, by name', async () => {
  const [weakest, zener, wrong] = await Promise.all([
    said(demo('railcar'), '--csv'),
    said(demo('railcar'), '--csv', 'zener'),
    said(demo('railcar'), '--csv', 'sideways'),
  ]);
  for (const { code, out, err } of [weakest, zener]) {
    assert.deepEqual([code, err], [0, '']);
    const rows = out.trimEnd().split(/\r?\n/);
    assert.ok(rows.length > 100, `${rows.length} rows`);
    const columns = rows[0].split(',').length;
    for (const row of rows) assert.equal(row.split(',').length, columns, row);
  }
  assert.notEqual(weakest.out, zener.out);
  assert.deepEqual([wrong.code, wrong.out], [64, '']);
  assert.match(wrong.err, /weakest, strongest, none, diode/);
});

test('what does not come home has exit code 2, what is not known 3, and a hand cable is not followed', async () => {
  const stalled = changed(demo('railcar'), { 'supply.low': '9 V' });
  const unread = changed(demo('railcar'), { 'means.plunger.mass': NOT_MEASURED, 'means.body.mass': NOT_MEASURED });
  const [stalls, unknown, cable] = await Promise.all([said(stalled), said(unread), said(demo('ferry'))]);
  assert.equal(stalls.code, 2, stalls.out);
  assert.match(stalls.out, /does not start|stalls/);
  assert.equal(unknown.code, 3);
  assert.match(unknown.out, /Take this reading: means\.plunger\.mass/);
  assert.match(unknown.out, /Take this reading: means\.body\.mass/);
  assert.equal(cable.code, 3);
  assert.match(cable.err, /has no solenoid/);
  const hot = await said(changed(demo('railcar'), { 'surroundings.hottest': '140 °C' }));
  assert.match(hot.out, /Take this reading: surroundings\.hottest/);
});
