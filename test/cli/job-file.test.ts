/** Jobs that come from a file or from standard input, and those that cannot be read. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { writeJob } from '../../src/job/read.ts';
import { altered, demo } from '../job/jobs.ts';
import { assertHarmless, stopwright } from './command.ts';

let folder: string;
before(() => {
  folder = mkdtempSync(join(tmpdir(), 'stopwright-jobs-'));
});
after(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return name;
}

const quick = ['--no-remedies'];

test('a file and standard input give the same', async () => {
  const text = writeJob(demo('railcar'));
  const [fromFile, fromInput] = await Promise.all([
    stopwright(['assess', file('railcar.json', `\ufeff${text}`), ...quick], { folder }),
    stopwright(['assess', '-', ...quick], { input: text }),
  ]);
  assert.deepEqual(fromFile, fromInput);
  assert.equal(fromFile.code, 0);
});

test('an unreadable document says all its problems on standard error, and nothing on standard output', async () => {
  const broken = altered(demo('railcar'), {
    'survey.lever.runAngle': '62 mm',
    'supply.nominal': 13,
    notes: undefined,
    'extra\u001b[31m': '\u001b[2J',
  });
  for (const options of [[], ['--json']]) {
    const outcome = await stopwright(['assess', '-', ...options], { input: JSON.stringify(broken) });
    assert.deepEqual([outcome.code, outcome.out], [65, '']);
    assert.match(outcome.err, /standard input cannot be read: 4 problems/);
    for (const path of ['survey.lever.runAngle', 'supply.nominal', 'notes', 'extra'])
      assert.match(outcome.err, new RegExp(`^  ${path}`, 'm'));
    assertHarmless(outcome.err);
  }
});

test('what is no job at all is refused with the reason', async () => {
  mkdirSync(join(folder, 'a-folder'));
  const cases: readonly (readonly [string, RegExp])[] = [
    ['nowhere.json', /Cannot read nowhere\.json: there is no such file/],
    ['a-folder', /that is a folder/],
    [file('empty.json', ''), /not JSON/],
    [file('words.json', 'hello \u001b[31m'), /not JSON/],
    [file('list.json', '[]'), /a job document is a JSON object/],
    [
      file('newer.json', writeJob(demo('ferry')).replace(/"version": \d+/, '"version": 9')),
      /written by a newer program/,
    ],
    [file('large.json', 'x'.repeat(10_000_000)), /at most 2000000 characters/],
    [file('deep.json', '['.repeat(1_000_000)), /cannot be read/],
    [
      file(
        'many.json',
        `{"format":"stopwright job","version":1${Array.from({ length: 200 }, (_, i) => `,"k${i}":1`).join('')}}`,
      ),
      /and \d+ more/,
    ],
  ];
  await Promise.all(
    cases.map(async ([path, words]) => {
      const outcome = await stopwright(['assess', path, ...quick], { folder });
      assert.deepEqual([outcome.code, outcome.out], [65, ''], path);
      assert.match(outcome.err, words, path);
      assert.ok(outcome.err.length < 20_000);
      assertHarmless(outcome.err);
    }),
  );
});
