/** `stopwright assess`, on the demonstrations and on what comes out badly. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import type { Assessment } from '../../src/assessment/finding.ts';
import { demoJobs } from '../../src/job/demos.ts';
import { writeJob } from '../../src/job/read.ts';
import type { Job } from '../../src/job/schema.ts';
import { marginWords } from '../../src/cli/assess.ts';
import { paintFor } from '../../src/cli/print.ts';
import { withRemedies } from '../../src/proposal/remedy.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import { changed, demo } from '../job/jobs.ts';
import { assertReadable, stopwright } from './command.ts';

const said = (job: Job, ...options: string[]) => stopwright(['assess', '-', ...options], { input: writeJob(job) });

const codes: Readonly<Record<string, number>> = {
  railcar: 0,
  'pump-house': 0,
  ferry: 1,
  'short-stroke': 2,
  'binding-pin': 2,
};

test('each demonstration: three answers, findings worst first, within 80 columns, and its exit code', async () => {
  assert.deepEqual(
    Object.keys(codes),
    demoJobs.map(({ name }) => name),
  );
  await Promise.all(
    Object.entries(codes).map(async ([name, code]) => {
      const job = demo(name);
      const outcome = await said(job, '--no-remedies');
      assert.equal(outcome.code, code, name);
      assertReadable(outcome.out);
      assert.equal(outcome.err, '');
      const { answers, findings, caution } = assess(job);
      const lines = outcome.out.split('\n');
      assert.equal(lines[0], job.name);
      for (const { words, verdict } of answers)
        assert.ok(
          lines.some((line) => line.startsWith(words) && line.includes(` ${verdict}`)),
          words,
        );
      const order = findings.map(({ title }) => outcome.out.indexOf(` ${title}\n`));
      assert.deepEqual(
        order,
        [...order].sort((a, b) => a - b),
        name,
      );
      assert.ok(order[0] > 0);
      for (const { missing } of findings)
        for (const path of missing) assert.match(outcome.out, new RegExp(`Take this reading: .*${path}`, 's'));
      assert.ok(outcome.out.replace(/\s+/g, ' ').includes(caution));
    }),
  );
});

test('a margin of many times is said in times, not in thousands of per cent', async () => {
  assert.equal(marginWords({ margin: 0.31, wanted: 0.25, marginUnit: 'share' }), 'margin 31 %, wanted 25 %');
  assert.equal(
    marginWords({ margin: 31.2, wanted: 1, marginUnit: 'share' }),
    '32 times what is needed, wanted margin 100 %',
  );
  assert.equal(marginWords({ margin: 99, wanted: 0, marginUnit: 'share' }), 'margin ample, wanted 0 %');
  const { out } = await said(demo('railcar'), '--no-remedies');
  assert.doesNotMatch(out, /\d{4,} %/);
  assert.doesNotMatch(out, /\b0 ms\b/);
});

test('a thin margin makes exit code 1', async () => {
  const thin = changed(demo('railcar'), { 'supply.low': '20.5 V' });
  assert.equal(assess(thin).verdict, 'thin');
  const outcome = await said(thin);
  assert.equal(outcome.code, 1);
  assertReadable(outcome.out);
  assert.equal(outcome.err, '');
  assert.match(outcome.out, /~ thin/);
  assert.match(outcome.out, /Would mend it: /);
});

test('what fails outweighs what is not known, and what is not known outweighs what is thin', async () => {
  const failing = changed(demo('short-stroke'), { 'means.stickingForce': NOT_MEASURED });
  const unknown = changed(demo('railcar'), { 'means.stickingForce': NOT_MEASURED, 'supply.low': '20.5 V' });
  const outcomes = await Promise.all([said(failing, '--no-remedies'), said(unknown, '--no-remedies')]);
  assert.deepEqual(
    outcomes.map(({ code }) => code),
    [2, 3],
  );
});

test('--json prints everything, versioned, field names with their units', async () => {
  const [whole, bare] = await Promise.all([
    said(demo('short-stroke'), '--json'),
    said(demo('railcar'), '--json', '--no-remedies'),
  ]);
  assert.deepEqual([whole.code, whole.err, bare.code], [2, '', 0]);
  const job = demo('short-stroke');
  const printed: Assessment = JSON.parse(whole.out);
  assert.deepEqual(printed, JSON.parse(JSON.stringify(withRemedies(job, assess(job)))));
  assert.equal(printed.version, 1);
  assert.ok(printed.findings.some(({ remedies }) => remedies.length > 0));
  for (const finding of printed.findings)
    for (const field of ['id', 'title', 'verdict', 'value', 'limit', 'margin', 'unit', 'at', 'because', 'remedies'])
      assert.ok(Object.hasOwn(finding, field), `${finding.id} has no ${field}`);
  const { sweep } = printed;
  assert.ok(sweep !== null);
  assert.ok(sweep.gap_mm.length >= 65);
  for (const name of Object.keys(sweep)) assert.match(name, /_(mm|deg|N)$|^overTravel$/);
  for (const name of Object.keys(printed.travel ?? {})) assert.match(name, /_(mm|deg)$/);
  assert.equal(printed.currents.length, 8);
  assert.deepEqual(JSON.parse(bare.out), JSON.parse(JSON.stringify(assess(demo('railcar')))));
});

test('other units change the words alone', async () => {
  const [inch, kilograms] = await Promise.all([
    said(demo('railcar'), '--units', 'inch'),
    said(demo('railcar'), '--units', 'kgf'),
  ]);
  for (const outcome of [inch, kilograms]) {
    assert.equal(outcome.code, 0);
    assertReadable(outcome.out);
    assert.equal(outcome.err, '');
  }
  assert.match(inch.out, /lbf/);
  assert.match(inch.out, / in from home/);
  assert.match(kilograms.out, / kgf/);
  assert.doesNotMatch(kilograms.out, /lbf/);
});

test('colour is for a terminal that wants it', async () => {
  const outcome = await stopwright(['assess', '-'], {
    input: writeJob(demo('railcar')),
    env: { FORCE_COLOR: '1', TERM: 'xterm-256color' },
  });
  assertReadable(outcome.out);
  const words = 'X fails';
  const escape = '\u001b[';
  const painted = paintFor(true, undefined).bad(words);
  assert.ok(painted.startsWith(escape) && painted.endsWith(`m${words}${escape}0m`), JSON.stringify(painted));
  assert.ok(paintFor(true, '').good(words).startsWith(escape));
  assert.equal(paintFor(true, '1').bad(words), words);
  assert.equal(paintFor(false, undefined).strong(words), words);
});

test('names with escapes, marks of direction or markup are shown harmless', async () => {
  const names = ['\u001b[2J\u001b]0;owned\u0007Name', '\u202egnidaer \u2028\u0085', '<script>alert(1)</script>'];
  await Promise.all(
    names.map(async (name) => {
      const job = changed(demo('railcar'), {
        name,
        'return.springs[0].name': name,
        'return.springs[0].spring.initialTension': '90 N',
        'supply.contacts[0].name': name,
        'supply.contacts[0].rating': '1 A',
      });
      const outcome = await said(job, ...(name.startsWith('<') ? [] : ['--no-remedies']));
      assert.equal(outcome.code, 2);
      assertReadable(outcome.out);
      assert.equal(outcome.err, '');
      const visible = outcome.out.split('\n')[0] ?? '';
      assert.ok(visible.length > 0 && (name.startsWith('<') ? visible === name : true), visible);
    }),
  );
});
