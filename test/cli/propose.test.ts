/** `stopwright propose`: words, JSON, files that keep what they claim, stopping, and wrong usage. */
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { assess } from '../../src/assessment/assess.ts';
import { readJob, writeJob } from '../../src/job/read.ts';
import type { Proposals } from '../../src/proposal/search/search.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import { changed, demo } from '../job/jobs.ts';
import { narrowDemo } from '../proposal/search/spaces.ts';
import { assertHarmless, assertReadable, stopwright } from './command.ts';

const narrow = { millimetres: 12, degrees: 4, connections: ['pinned link', 'slotted lever'] };

test('proposals in words and as files; each file has the verdict and the margins that are claimed', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'stopwright-propose-'));
  try {
    const input = writeJob(narrowDemo('short-stroke', narrow));
    const [words, json] = await Promise.all([
      stopwright(['propose', '-', '--most', '3'], { input }),
      stopwright(['propose', '-', '--most', '3', '--json', '--out', folder], { input }),
    ]);
    assert.deepEqual([words.code, json.code], [0, 0], words.err);
    assertReadable(words.out);
    assertHarmless(words.err);
    for (const part of ['Proposal 1: ', 'Nearest to what is there', 'Isolate fuel', 'Smallest single change'])
      assert.ok(words.out.includes(part), part);
    const found = JSON.parse(json.out) as Proposals;
    assert.equal(found.format, 'stopwright proposals');
    const offers = [...found.offers, found.nearest!];
    assert.deepEqual(readdirSync(folder).sort(), [
      'nearest.json',
      ...found.offers.map((_, i) => `proposal-${i + 1}.json`),
    ]);
    offers.forEach((offer, i) => {
      const name = i < found.offers.length ? `proposal-${i + 1}.json` : 'nearest.json';
      const read = readJob(readFileSync(join(folder, name), 'utf8'));
      assert.ok(read.ok, name);
      const { findings, verdict } = assess(read.job);
      assert.equal(verdict, offer.verdict, name);
      assert.deepEqual(
        offer.margins.map(({ id, margin }) => [id, margin]),
        findings.map(({ id, margin }) => [id, margin]),
        name,
      );
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test('any number of threads gives the same, to the last digit', async () => {
  const input = writeJob(narrowDemo('short-stroke', narrow));
  const run = (workers: string) => stopwright(['propose', '-', '--json', '--workers', workers], { input });
  const [none, one, three] = await Promise.all([run('0'), run('1'), run('3')]);
  assert.deepEqual([none.code, one.code, three.code], [0, 0, 0], none.err + one.err + three.err);
  assert.equal(one.out, none.out);
  assert.equal(three.out, none.out);
});

test('Ctrl-C ends the search and prints the best so far', async () => {
  const executable = fileURLToPath(new URL('../../bin/stopwright.mjs', import.meta.url));
  const child = spawn(process.execPath, [executable, 'propose', '-', '--json']);
  let out = '';
  let err = '';
  let isTold = false;
  child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
    // The first word of progress: the search is under way.
    if (!isTold) child.kill('SIGINT');
    isTold = true;
  });
  child.stdin.end(writeJob(demo('railcar')));
  const code = await new Promise((resolve) => child.on('close', resolve));
  assert.equal(code, 130, err);
  assert.match(err, /Stopped\. The best so far:/);
  const found = JSON.parse(out) as Proposals;
  assert.equal(found.finished, false);
  assert.ok(found.counts.lookedAt > 0 && found.counts.lookedAt < found.counts.combinations);
});

test('wrong usage, a job by hand, and a job without its place say what is wrong', async () => {
  const railcar = demo('railcar');
  const cases = [
    [['propose', '-', '--most', '0'], writeJob(railcar), 64, /--most/],
    [['propose', '-', '--seed', 'x'], writeJob(railcar), 64, /--seed/],
    [['propose', '-', '--workers', '-1'], writeJob(railcar), 64, /--workers/],
    [['propose', '-'], writeJob(demo('ferry')), 65, /hand cable/],
    [['propose', '-'], writeJob(changed(railcar, { 'layout.homePin.x': NOT_MEASURED })), 65, /must be read first/],
  ] as const;
  await Promise.all(
    cases.map(async ([args, input, code, words]) => {
      const outcome = await stopwright(args, { input });
      assert.deepEqual([outcome.code, outcome.out], [code, '']);
      assert.match(outcome.err, words);
    }),
  );
  const help = await stopwright(['propose', '--help']);
  assert.equal(help.code, 0);
  assertReadable(help.out);
});
