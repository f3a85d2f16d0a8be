/** Older documents: the runner is proved with steps made up here, and every real step with a kept document. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';
import { migrate, migrations, type Migration } from '../../src/job/migrations/migrate.ts';
import { readJob, writeJob } from '../../src/job/read.ts';
import { VERSION } from '../../src/job/schema.ts';

/** Files `0001-railcar.json`: a document as version 1 wrote it. */
const past = new URL('past/', import.meta.url);
const kept = readdirSync(past).map((name) => ({
  name,
  version: Number(/^(\d{4})-[a-z-]+\.json$/.exec(name)?.[1]),
  text: readFileSync(new URL(name, past), 'utf8'),
}));

const steps: readonly Migration[] = [
  (document) => ({ ...document, one: 1 }),
  ({ one, ...document }) => ({ ...document, two: Number(one) + 1 }),
  (document) => ({ ...document, three: [document['two']] }),
];

test('a document goes through every step from its own version on, in order', () => {
  assert.deepEqual(migrate({ version: 1, name: 'a' }, 1, steps), { version: 4, name: 'a', two: 2, three: [2] });
  assert.deepEqual(migrate({ version: 2, one: 5 }, 2, steps), { version: 4, two: 6, three: [6] });
  assert.deepEqual(migrate({ version: 3, two: 9 }, 3, steps), { version: 4, two: 9, three: [9] });
});

test('a document of the present version stays the same value, and no step alters what it was given', () => {
  const present = Object.freeze({ version: 4, name: 'a' });
  assert.equal(migrate(present, 4, steps), present);
  const old = Object.freeze({ version: 1, name: 'a' });
  migrate(old, 1, steps);
  assert.deepEqual(old, { version: 1, name: 'a' });
});

test('the version is as many as there are steps, and one', () => {
  assert.equal(VERSION, migrations.length + 1);
});

test('of every version there is a kept document, and each opens in this one', () => {
  const versions = new Set(kept.map(({ version }) => version));
  for (let version = 1; version <= VERSION; version++)
    assert.ok(versions.has(version), `keep a document of version ${version} in test/job/past/`);
  for (const { name, version, text } of kept) {
    const read = readJob(text);
    assert.ok(read.ok, `${name}: ${JSON.stringify(read)}`);
    assert.equal(read.from, version, name);
    assert.equal(read.job.version, VERSION);
    assert.equal(readJob(writeJob(read.job)).ok, true, name);
  }
});

test('a kept document of the present version is written as it was kept', () => {
  for (const { name, version, text } of kept) {
    if (version !== VERSION) continue;
    const read = readJob(text);
    assert.ok(read.ok);
    assert.equal(writeJob(read.job), text, name);
  }
});

test('version 2 keeps the volts of version 1 in the state they were read in, and guesses nothing that was never asked', () => {
  const [text] = kept.filter(({ version }) => version === 1).map((one) => one.text);
  assert.ok(text !== undefined, 'a document of version 1 is kept');
  for (const [works, cranking] of [
    ['energise to stop', undefined],
    ['energise to run', '22 V'],
  ] as const) {
    const old = JSON.parse(text) as { means: { works: string } };
    old.means.works = works;
    const read = readJob(JSON.stringify(old));
    assert.ok(read.ok && read.job.means.kind === 'solenoid', works);
    const { low, charging, fuse, contacts } = read.job.supply;
    assert.deepEqual([low, charging, read.job.supply.cranking], ['22 V', '28.4 V', cranking], works);
    assert.deepEqual([fuse, read.job.means.body.wireDiameter], ['not measured', 'not measured'], works);
    assert.deepEqual([contacts[0]?.kind, contacts[0]?.resistance], ['other', '5 mΩ'], works);
  }
  const unread = JSON.parse(text) as { supply: Record<string, unknown> };
  unread.supply['lowest'] = 'not measured';
  const read = readJob(JSON.stringify(unread));
  assert.ok(read.ok && read.job.supply.low === undefined, 'volts that were not read are left out');
});
