/** Revisions: every save is one, none is changed, and whoever saved from an older one gets a second head. */
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  LARGEST_SESSION_BYTES,
  MOST_SESSION_KEYS,
  type RevisionAnswer,
  type RevisionsAnswer,
  type SavedAnswer,
  type SessionAnswer,
} from '../../src/job/exchange.ts';
import { createJob, openJob } from '../../src/server/store/jobs.ts';
import { openStore } from '../../src/server/store/open.ts';
import { getRevision, listRevisions, saveRevision } from '../../src/server/store/revisions.ts';
import { runningServer, temporaryFolder } from './running.ts';

test('a save says what was kept, and all of it can be read again', async (t) => {
  const { create, save, ask, history } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{"n":0}' } });
  const kept = await save(job.id, { parents: [head.id], text: '{"n":1}', author: 'Ida', label: 'after the trial' });
  assert.equal(kept.kept, true);
  assert.deepEqual(
    [kept.head, kept.branches, kept.job.head, kept.job.revisionCount],
    [kept.revision.id, [], kept.revision.id, 2],
  );
  assert.deepEqual(
    [kept.revision.parents, kept.revision.author, kept.revision.label, kept.revision.bytes],
    [[head.id], 'Ida', 'after the trial', 7],
  );
  assert.equal(kept.revision.digest, createHash('sha256').update('{"n":1}').digest('hex'));
  const { body } = await ask<RevisionAnswer>('GET', `/api/jobs/${job.id}/revisions/${kept.revision.id}`);
  assert.deepEqual(body.revision, { ...kept.revision, text: '{"n":1}' });
  assert.deepEqual(
    (await history(job.id)).map(({ id }) => id),
    [kept.revision.id, head.id],
  );
  const last = await ask('GET', `/api/jobs/${job.id}/revisions/${head.id}`);
  assert.equal((last.body as unknown as RevisionAnswer).revision.text, '{"n":0}');
});

test('two heads are kept side by side until one revision merges them', async (t) => {
  const { create, save, open } = await runningServer(t);
  const { job, head: base } = await create({ from: { text: '{"n":0}' } });
  const first = await save(job.id, { parents: [base.id], text: '{"n":"first tab"}' });
  const second = await save(job.id, { parents: [base.id], text: '{"n":"second tab"}' });
  assert.equal(second.head, first.revision.id, 'the second tab did not win');
  assert.deepEqual(
    second.branches.map(({ id }) => id),
    [second.revision.id],
    'and did not lose',
  );
  const further = await save(job.id, { parents: [second.revision.id], text: '{"n":"second tab, on"}' });
  assert.deepEqual([further.head, further.branches.map(({ id }) => id)], [first.revision.id, [further.revision.id]]);
  const opened = await open(job.id);
  assert.deepEqual([opened.head.text, opened.job.branchCount], ['{"n":"first tab"}', 1]);
  const merged = await save(job.id, { parents: [first.revision.id, further.revision.id], text: '{"n":"both"}' });
  assert.deepEqual([merged.head, merged.branches, merged.job.branchCount], [merged.revision.id, [], 0]);
  assert.deepEqual(merged.revision.parents, [first.revision.id, further.revision.id]);
});

test('a repeated save is one revision with one answer; the same id for something else is refused', async (t) => {
  const { create, save, ask, history } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{}' } });
  const request = { id: 'save-of-the-app-1', parents: [head.id], text: '{"n":1}' };
  const once = await save(job.id, request);
  const later = await save(job.id, { parents: [once.revision.id], text: '{"n":2}' });
  const twice = await save(job.id, request);
  assert.deepEqual([twice.revision, twice.head, twice.branches], [once.revision, later.head, []]);
  assert.equal((await history(job.id)).length, 3);
  for (const other of [
    { ...request, text: '{"n":3}' },
    { ...request, parents: [later.revision.id] },
  ]) {
    assert.equal((await ask('POST', `/api/jobs/${job.id}/revisions`, other)).status, 409);
  }
  const elsewhere = await create({ from: { text: '{}' } });
  const foreign = { ...request, parents: [elsewhere.head.id] };
  assert.equal((await ask('POST', `/api/jobs/${elsewhere.job.id}/revisions`, foreign)).status, 409);
});

test('a save from a revision that this job does not have, or that does not read, is refused in words', async (t) => {
  const { create, ask, history } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{}' } });
  const other = await create({ from: { text: '{}' } });
  const send = (body: object) => ask('POST', `/api/jobs/${job.id}/revisions`, body);
  assert.equal((await send({ parents: [other.head.id], text: '{}' })).status, 404);
  assert.equal((await send({ parents: ['nowhere-at-all'], text: '{}' })).status, 404);
  assert.equal((await send({ parents: [], text: '{}' })).status, 400);
  assert.equal((await send({ parents: [head.id, head.id], text: '{}' })).status, 400);
  assert.equal((await send({ parents: [head.id], text: '{"half": ' })).status, 422);
  assert.equal((await ask('POST', `/api/jobs/no-such-job/revisions`, { parents: [head.id], text: '{}' })).status, 404);
  assert.equal((await history(job.id)).length, 1);
});

test('restoring is a new revision, and is undone by restoring what was there before', async (t) => {
  const { create, save, ask, open } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{"n":0}' } });
  const second = await save(job.id, { parents: [head.id], text: '{"n":1}' });
  const restore = (revision: string, parent: string) =>
    ask<SavedAnswer>('POST', `/api/jobs/${job.id}/restore`, { revision, parent, label: 'as surveyed' });
  const back = (await restore(head.id, second.revision.id)).body;
  assert.deepEqual([back.revision.digest, back.revision.parents], [head.digest, [second.revision.id]]);
  assert.deepEqual([back.head, back.revision.label], [back.revision.id, 'as surveyed']);
  assert.equal((await open(job.id)).head.text, '{"n":0}');
  const undone = (await restore(second.revision.id, back.revision.id)).body;
  assert.equal((await open(job.id)).head.text, '{"n":1}');
  assert.equal(undone.job.revisionCount, 4);
  const stale = (await restore(head.id, head.id)).body;
  assert.deepEqual(
    [stale.head, stale.branches.length],
    [undone.revision.id, 1],
    'a stale tab that restores gets a branch too',
  );
});

test('a long history is read in parts, newest first, each once', async (t) => {
  const { create, save, ask } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{}' } });
  let parent = head.id;
  for (let n = 1; n < 25; n += 1) parent = (await save(job.id, { parents: [parent], text: `{"n":${n}}` })).revision.id;
  const seen: string[] = [];
  let before = '';
  for (;;) {
    const { body } = await ask<RevisionsAnswer>('GET', `/api/jobs/${job.id}/revisions?limit=7${before}`);
    seen.push(...body.revisions.map(({ id }) => id));
    if (!body.more) break;
    before = `&before=${body.revisions.at(-1)?.order}`;
  }
  assert.deepEqual([seen.length, new Set(seen).size, seen[0], seen.at(-1)], [25, 25, parent, head.id]);
});

test('session values are kept by key and bounded; a refused one leaves the old one', async (t) => {
  const { create, ask } = await runningServer(t);
  const { job } = await create({ from: { text: '{}' } });
  const path = `/api/jobs/${job.id}/session/undo`;
  const read = async () => (await ask<SessionAnswer>('GET', path)).body.value;
  assert.equal(await read(), null);
  assert.equal((await ask('PUT', path, { value: 'steps \u0000 ✓' })).status, 200);
  assert.equal(await read(), 'steps \u0000 ✓');
  assert.equal((await ask('PUT', path, { value: 'x'.repeat(LARGEST_SESSION_BYTES + 1) })).status, 413);
  assert.equal((await ask('PUT', path, { value: '✓'.repeat(LARGEST_SESSION_BYTES / 3 + 1) })).status, 413);
  assert.equal(await read(), 'steps \u0000 ✓');
  for (let n = 1; n < MOST_SESSION_KEYS; n += 1) {
    assert.equal((await ask('PUT', `/api/jobs/${job.id}/session/key-${n}`, { value: '' })).status, 200);
  }
  assert.equal((await ask('PUT', `/api/jobs/${job.id}/session/one-more`, { value: '' })).body.reason, 'session-full');
  assert.equal((await ask('PUT', path, { value: 'x'.repeat(LARGEST_SESSION_BYTES) })).status, 200);
});

/**
 * Random schedules of up to four tabs, each of which saves from what it last saw, sometimes reads again, merges or restores: every document
 * that was ever acknowledged is there, and the head only moves when its tab had seen it.
 */
test('no interleaving of tabs has a silent loser', async (t) => {
  const store = await openStore(temporaryFolder(t));
  t.after(() => store.close());
  const step = fc.record({
    tab: fc.integer({ min: 0, max: 3 }),
    act: fc.constantFrom('save', 'save', 'save', 'look', 'merge'),
  });
  let count = 0;
  const property = fc.asyncProperty(fc.array(step, { minLength: 2, maxLength: 8 }), async (steps) => {
    const { job, head } = await createJob(store, { name: 'shared', text: '{}', author: '' });
    const seen = [head.id, head.id, head.id, head.id];
    const acknowledged = new Map([[head.id, '{}']]);
    let current = head.id;
    for (const { tab, act } of steps) {
      if (act === 'look') {
        seen[tab] = (await openJob(store, job.id)).head.id;
        continue;
      }
      const { branches } = await openJob(store, job.id);
      const [branch] = branches;
      const parents = act === 'merge' && branch !== undefined ? [current, branch.id] : [seen[tab] ?? head.id];
      const text = JSON.stringify({ tab, n: (count += 1) });
      const saved = await saveRevision(store, job.id, parents, { text, author: `tab ${tab}`, label: null });
      acknowledged.set(saved.revision.id, text);
      if (parents.includes(current)) current = saved.revision.id;
      assert.equal(saved.job.head, current, 'the head moved under somebody');
      seen[tab] = saved.revision.id;
      const shown = [current, ...saved.branches.map(({ id }) => id)];
      assert.ok(shown.includes(saved.revision.id), 'a save that nobody is shown');
    }
    for (const [id, text] of acknowledged) assert.equal((await getRevision(store, job.id, id)).text, text);
    const { revisions } = await listRevisions(store, job.id, 200);
    assert.equal(revisions.length, acknowledged.size);
    const { job: after, branches } = await openJob(store, job.id);
    const parents = new Set(revisions.flatMap((revision) => revision.parents));
    const leaves = revisions.map(({ id }) => id).filter((id) => !parents.has(id));
    assert.deepEqual(new Set([after.head, ...branches.map(({ id }) => id)]), new Set(leaves));
  });
  await fc.assert(property, { numRuns: Number(process.env['STOPWRIGHT_INTERLEAVINGS'] ?? 150), seed: 20_263 });
});
