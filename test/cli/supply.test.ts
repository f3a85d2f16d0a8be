/** `stopwright supply`: the table of conductors, its verdict as exit code, its refusals. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { supplyStudy } from '../../src/assessment/supply/study.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import type { Job } from '../../src/job/schema.ts';
import { altered, changed, demo } from '../job/jobs.ts';
import { assertHarmless, assertReadable, stopwright, type Outcome } from './command.ts';

const supply = (job: Job, ...args: string[]): Promise<Outcome> =>
  stopwright(['supply', '-', ...args], { input: JSON.stringify(job) });

const railcar = demo('railcar');

test('it prints what was reckoned: a row for each size in each state, and the smallest that works', async () => {
  const [metric, inch] = await Promise.all([supply(railcar), supply(railcar, '--units', 'inch')]);
  assert.deepEqual([metric.code, metric.err, inch.code], [0, '', 0]);
  const study = supplyStudy(railcar)!;
  for (const [{ out }, system] of [
    [metric, 'metric'],
    [inch, 'gauge'],
  ] as const) {
    assertReadable(out);
    const rows = study.rows.filter((row) => row.system === system);
    const best = study.smallest.find((one) => one.system === system && one.state === null)!;
    assert.ok(out.replaceAll(/\s+/g, ' ').includes(best.words), best.words);
    for (const row of rows) {
      const lines = out.split('\n').filter((line) => line.startsWith(`${row.label} `));
      assert.equal(lines.length, 5, `${row.label}: four states and the guards`);
      row.states.forEach(({ pullIn, verdict }, s) => {
        assert.ok(lines[s].includes(pullIn.terminalVolts_V!.toFixed(2)), `${row.label}: ${lines[s]}`);
        assert.ok(lines[s].endsWith(verdict), `${row.label}: ${lines[s]}`);
      });
    }
  }
  assert.match(metric.out, /Isolate fuel and battery/);
});

test('--json prints the study as it is', async () => {
  const { code, out } = await supply(demo('pump-house'), '--json');
  assert.equal(code, 0);
  assert.deepEqual(JSON.parse(out), {
    format: 'stopwright supply',
    ...(JSON.parse(JSON.stringify(supplyStudy(demo('pump-house')))) as object),
  });
});

test('the exit code is the verdict on the conductor as laid, and the reason is said', async () => {
  const thin = { 'supply.out.section': '2.5 mm²', 'supply.back.section': '2.5 mm²', 'supply.fuse.rating': '15 A' };
  const [isThin, fails, unknown] = await Promise.all([
    supply(changed(railcar, thin)),
    supply(changed(railcar, { 'supply.fuse': 'none' })),
    supply(altered(railcar, { 'supply.out.length': NOT_MEASURED })),
  ]);
  assert.deepEqual([isThin.code, fails.code, unknown.code], [1, 2, 3]);
  assert.match(isThin.out, /The pull on a low battery: thin/);
  assert.match(fails.out, /No fuse guards the conductor/);
  assert.match(unknown.out, /Take this reading: supply.out.length/);
  for (const { out } of [isThin, fails, unknown]) assertReadable(out);
});

test('0 V, no circuit and no file are refused in plain words, with exit code 65', async () => {
  const [volts, cable, none] = await Promise.all([
    supply(altered(railcar, { 'supply.low': '0 V' })),
    supply(demo('ferry')),
    stopwright(['supply', 'nowhere.json']),
  ]);
  for (const { code, out, err } of [volts, cable, none]) {
    assert.deepEqual([code, out], [65, '']);
    assertHarmless(err);
  }
  assert.match(volts.err, /supply\.low/);
  assert.match(cable.err, /works by hand cable: there is no circuit/);
});

test('text of a job reaches the terminal harmless', async () => {
  const job = changed(railcar, { name: '\u001b[31mred', 'supply.stations': [] });
  const { out } = await supply(job);
  assertHarmless(out);
});

test('wrong usage is answered with a suggestion', async () => {
  const { code, err } = await stopwright(['supply', '-', '--unit', 'inch']);
  assert.equal(code, 64);
  assert.match(err, /Did you mean --units\?/);
});
