/** The store's own versions: brought forward with a copy kept, all or nothing, and never touched when newer or not ours. */
import assert from 'node:assert/strict';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test, type TestContext } from 'node:test';
import Database from 'libsql';
import type { Refused } from '../../src/server/refusal.ts';
import { createJob, listJobs, openJob } from '../../src/server/store/jobs.ts';
import { oldCopies } from '../../src/server/store/migrate.ts';
import { type Migration, storeMigrations } from '../../src/server/store/migrations/all.ts';
import { openStore } from '../../src/server/store/open.ts';
import { saveRevision } from '../../src/server/store/revisions.ts';
import { migrationsForKilling, widening } from './kill-migrations.ts';
import { temporaryFolder } from './running.ts';

async function storeOfVersionOne(t: TestContext): Promise<{ folder: string; job: string }> {
  const folder = temporaryFolder(t);
  const store = await openStore(folder);
  const { job } = await createJob(store, { name: 'Ferry', text: '{"a":1}', author: '' });
  await store.close();
  return { folder, job: job.id };
}

const refusedAs = (reason: string) => (error: Refused) => {
  assert.equal(error.refusal.reason, reason, error.message);
  return true;
};

test('the migrations are numbered 1, 2, 3 … without gaps', () => {
  assert.deepEqual(
    storeMigrations.map(({ version }) => version),
    storeMigrations.map((_, index) => index + 1),
  );
});

test('a copy of the old store is kept, whole, before the first change; the jobs go on', async (t) => {
  const { folder, job } = await storeOfVersionOne(t);
  const store = await openStore(folder, migrationsForKilling);
  t.after(() => store.close());
  assert.equal(store.version, 2);
  assert.equal((await openJob(store, job)).head.text, '{"a":1}');
  assert.deepEqual(oldCopies(folder), ['jobs-version-1.db']);
  await assert.rejects(
    openStore(folder, migrationsForKilling),
    refusedAs('store-locked'),
    'the lock was lost on the way',
  );

  const again = temporaryFolder(t);
  writeFileSync(join(again, 'jobs.db'), readFileSync(join(folder, 'jobs-version-1.db')));
  const old = await openStore(again);
  t.after(() => old.close());
  assert.equal(old.version, 1);
  assert.equal((await openJob(old, job)).head.text, '{"a":1}');
});

test('a migration that fails leaves the old version in use, and every copy ever made', async (t) => {
  const { folder, job } = await storeOfVersionOne(t);
  const failing: Migration = {
    version: 2,
    async up(transaction) {
      await widening.up(transaction);
      throw new Error('it went wrong half way');
    },
  };
  for (let attempt = 0; attempt < 3; attempt += 1) {
    await assert.rejects(openStore(folder, [...storeMigrations, failing]), /half way/);
  }
  assert.deepEqual(oldCopies(folder), ['jobs-version-1-2.db', 'jobs-version-1-3.db', 'jobs-version-1.db']);
  const store = await openStore(folder);
  t.after(() => store.close());
  assert.equal((await openJob(store, job)).head.text, '{"a":1}');
});

test('a store of a newer program is refused in words and left byte for byte', async (t) => {
  const { folder } = await storeOfVersionOne(t);
  await (await openStore(folder, migrationsForKilling)).close();
  const before = readFileSync(join(folder, 'jobs.db'));
  await assert.rejects(openStore(folder), (error: Refused) => {
    assert.match(error.refusal.what, /newer Stopwright.*version 2.*knows 1/);
    return refusedAs('store-newer')(error);
  });
  assert.deepEqual(readFileSync(join(folder, 'jobs.db')), before);
});

test('a file that is no store, or a damaged one, is refused in words and left byte for byte', async (t) => {
  const { folder: good, job } = await storeOfVersionOne(t);
  const store = await openStore(good);
  let parent = job;
  for (let n = 0; n < 20; n += 1) {
    const text = `{"n":"${String(n).repeat(3_000)}"}`;
    parent = (await saveRevision(store, job, [parent], { text, author: '', label: null })).revision.id;
  }
  await store.close();
  const whole = readFileSync(join(good, 'jobs.db'));
  const foreign = join(temporaryFolder(t), 'other.db');
  const other = new Database(foreign);
  other.exec('CREATE TABLE somebody (elses)');
  other.close();
  const files: Record<string, Buffer> = {
    'a text': Buffer.from('these are not the jobs you look for '.repeat(100)),
    'another program’s database': readFileSync(foreign),
    'cut in half': whole.subarray(0, Math.floor(whole.length / 2)),
    'overwritten in the middle': Buffer.concat([
      whole.subarray(0, 8_192),
      Buffer.alloc(8_192, 0xa5),
      whole.subarray(16_384),
    ]),
  };
  for (const [what, content] of Object.entries(files)) {
    const folder = temporaryFolder(t);
    writeFileSync(join(folder, 'jobs.db'), content);
    await assert.rejects(openStore(folder), refusedAs('store-damaged'), what);
    assert.deepEqual(readFileSync(join(folder, 'jobs.db')), content, what);
    assert.ok(readdirSync(folder).length <= 2, 'nothing is left beside it');
  }
});

test('a document that was changed on the disk behind our back is noticed when it is read', async (t) => {
  const { folder, job } = await storeOfVersionOne(t);
  const raw = new Database(join(folder, 'jobs.db'));
  assert.throws(() => raw.exec(`UPDATE document SET content = x'7b7d'`), /never changes/);
  assert.throws(() => raw.exec(`DELETE FROM revision`), /never changes/);
  raw.exec('DROP TRIGGER document_refuses_update');
  raw.exec(`UPDATE document SET content = x'7b7d'`);
  raw.close();
  const store = await openStore(folder);
  t.after(() => store.close());
  await assert.rejects(openJob(store, job), refusedAs('store-damaged'));
  assert.equal((await listJobs(store)).length, 1, 'the other jobs stay usable');
});
