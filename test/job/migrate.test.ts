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
