/** `stopwright drawer`: words, JSON, files that keep what they claim, threads, and wrong usage. */
import assert from 'node:assert/strict';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { assess } from '../../src/assessment/assess.ts';
import { readJob, writeJob } from '../../src/job/read.ts';
import type { ItemTried } from '../../src/proposal/drawer-item.ts';
import { demo } from '../job/jobs.ts';
import { assertReadable, stopwright } from './command.ts';

const example = fileURLToPath(new URL('../../examples/drawer.json', import.meta.url));

interface Data {
  readonly finished: boolean;
  readonly solenoids: readonly ItemTried[];
  readonly cables: readonly ItemTried[];
  readonly handCables: readonly ItemTried[];
}

test('solenoids and cables in words and as files, the same by one thread and by three', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'stopwright-drawer-'));
  try {
    const input = writeJob(demo('railcar'));
    const [words, one, three] = await Promise.all([
      stopwright(['drawer', '-', example], { input }),
      stopwright(['drawer', '-', example, '--json', '--workers', '0'], { input }),
      stopwright(['drawer', '-', example, '--json', '--workers', '3', '--out', folder], { input }),
    ]);
    assert.deepEqual([words.code, one.code, three.code], [0, 0, 0], words.err + one.err + three.err);
    assertReadable(words.out);
    for (const part of ['Two windings, 28 mm stroke', 'Kept out', 'Take these readings of it first', 'Isolate fuel'])
      assert.ok(words.out.includes(part), part);
    assert.equal(three.out, one.out);
    const data = JSON.parse(one.out) as Data;
    assert.ok(data.finished, 'it came to its end');
    const fits = data.solenoids.filter((tried) => tried.fits);
    assert.deepEqual(
      readdirSync(folder).sort(),
      fits.map((_, i) => `solenoid-${i + 1}.json`),
    );
    fits.forEach(({ verdict, name }, i) => {
      const read = readJob(readFileSync(join(folder, `solenoid-${i + 1}.json`), 'utf8'));
      assert.ok(read.ok, name);
      assert.equal(assess(read.job).verdict, verdict, name);
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test('a job by hand cable has the hand cables tried, and the rest told of', async () => {
  const { code, out, err } = await stopwright(['drawer', '-', example], { input: writeJob(demo('ferry')) });
  assert.equal(code, 1, err);
  assertReadable(out);
  assert.match(out, /Thin, lined, new/);
  assert.match(out, /its route asks/);
  assert.match(out.replaceAll(/\s+/g, ' '), /5 solenoids of this drawer are of no use/);
});

test('an empty drawer says so; wrong usage and what cannot be read are refused in words', async () => {
  const railcar = writeJob(demo('railcar'));
  const empty = JSON.stringify({ format: 'stopwright drawer', version: 1, name: 'Nothing', notes: '', springs: [], solenoids: [], cables: [] }); // prettier-ignore
  const folder = mkdtempSync(join(tmpdir(), 'stopwright-drawer-'));
  const job = join(folder, 'job.json');
  try {
    writeFileSync(job, railcar);
    const nothing = await stopwright(['drawer', job, '-'], { input: empty });
    assert.equal(nothing.code, 2);
    assert.match(nothing.out, /no solenoid and no cable in this drawer/);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  const cases = [
    [['drawer', '-', '-'], 64, /Only one/],
    [['drawer', '-', example, '--workers', 'two'], 64, /--workers/],
    [['drawer', '-', 'nowhere.json'], 65, /nowhere\.json/],
  ] as const;
  await Promise.all(
    cases.map(async ([args, code, words]) => {
      const outcome = await stopwright(args, { input: railcar });
      assert.deepEqual([outcome.code, outcome.out], [code, '']);
      assert.match(outcome.err, words);
    }),
  );
});
