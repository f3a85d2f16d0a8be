/**
 * Ten ways in which good tools lost people's work, each as a test of what the server and the store do about it. The larger proofs
 * are in failed-saves, kill, migrations, jobs and revisions; here stands, in order, what a person would see.
 */
import assert from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync, renameSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { test } from 'node:test';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { type SavedAnswer, type SessionAnswer, TOKEN_HEADER } from '../../src/job/exchange.ts';
import { openStore } from '../../src/server/store/open.ts';
import { clientOf, runningServer, temporaryFolder } from './running.ts';

test('1. a save that failed is said: what happened, what is safe, one next act', async (t) => {
  const folder = join(temporaryFolder(t), 'store');
  const { create, ask, open } = await runningServer(t, { folder });
  const { job, head } = await create({ from: { text: '{"n":0}' } });
  renameSync(folder, `${folder}-away`);
  const { status, body } = await ask('POST', `/api/jobs/${job.id}/revisions`, { parents: [head.id], text: '{"n":1}' });
  assert.equal(status, 503);
  const { what, safe, next } = body;
  assert.match(what, /NOT kept/);
  assert.match(safe, /still/);
  assert.match(next, /try again/);
  assert.equal((await open(job.id)).head.text, '{"n":0}', 'what was not kept does not look kept');
});

test('2. a browser that forgot everything finds every job and every revision in the store', async (t) => {
  const first = await runningServer(t);
  const { job, head } = await first.create({ from: { text: '{"n":0}' } });
  await first.save(job.id, { parents: [head.id], text: '{"n":1}' });
  const [jobs, history] = [await first.list(), await first.history(job.id)];
  await first.server.close();
  const later = await runningServer(t, { folder: first.folder });
  assert.deepEqual([await later.list(), await later.history(job.id)], [jobs, history]);
});

test('3. a stale tab does not overwrite: both documents are there, and both are shown', async (t) => {
  const { create, save, open } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{"n":0}' } });
  const other = await save(job.id, { parents: [head.id], text: '{"n":"the other tab"}' });
  const stale = await save(job.id, { parents: [head.id], text: '{"n":"the stale tab"}' });
  assert.equal(stale.kept, true);
  assert.notEqual(stale.head, stale.revision.id, 'the stale tab is told that it is not the head');
  const opened = await open(job.id);
  assert.deepEqual([opened.head.id, opened.branches[0]?.id], [other.revision.id, stale.revision.id]);
});

test('4. a save that was sent as the page closed is kept, though nobody waits for the answer', async (t) => {
  const { create, port, token, history } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{}' } });
  const ids = Array.from({ length: 20 }, (_, n) => `sent-on-closing-${n}`);
  for (const id of ids) {
    const body = JSON.stringify({ id, parents: [head.id], text: '{"last":"words"}' });
    const request = `POST /api/jobs/${job.id}/revisions HTTP/1.1\r\nHost: localhost:${port}\r\n${TOKEN_HEADER}: ${token}\r\nContent-Type: application/json\r\nContent-Length: ${body.length}\r\n\r\n${body}`;
    const socket = connect({ port, host: '127.0.0.1' });
    await once(socket, 'connect');
    await new Promise<void>((resolve) => socket.write(request, () => resolve()));
    socket.end();
    socket.destroy();
  }
  const kept = async () => new Set((await history(job.id)).map(({ id }) => id));
  for (let tries = 0; tries < 50 && (await kept()).size < ids.length + 1; tries += 1) await wait(20);
  const now = await kept();
  for (const id of ids) assert.ok(now.has(id), id);
});

test('5. numbers go on after a restart, and no id is ever given twice', async (t) => {
  let { folder, server, create, save } = await runningServer(t);
  const ids = new Set<string>();
  let last = 0;
  for (let restart = 0; restart < 4; restart += 1) {
    const { job, head } = await create({ from: { text: '{}' } });
    const saved = await save(job.id, { parents: [head.id], text: '{"n":1}' });
    for (const { id, order } of [head, saved.revision]) {
      assert.ok(order > last && !ids.has(id));
      last = order;
      ids.add(id);
    }
    await server.close();
    ({ server, create, save } = await runningServer(t, { folder }));
  }
});

test('6. nothing old is deleted before something new is safe: nothing old is ever deleted', async (t) => {
  const { create, save, ask, folder, server, history } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{}' } });
  await save(job.id, { parents: [head.id], text: '{"n":1}' });
  await ask('PATCH', `/api/jobs/${job.id}`, { deleted: true });
  assert.equal((await history(job.id)).length, 2, 'a deleted job keeps its revisions');
  await server.close();
  const store = await openStore(folder);
  t.after(() => store.close());
  for (const table of ['document', 'revision', 'revision_parent'] as const) {
    await assert.rejects(store.write((database) => database.deleteFrom(table).execute()));
  }
});

test('7. saving and loading change no byte', async (t) => {
  const { create, ask, save } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{}' } });
  const texts = [
    '{"a": 1.0, "b":1e3,"a":2 }',
    '\uFEFF{ }',
    '{"\u0000": 1}'.replace('\u0000', '\\u0000'),
    '{"é":"e\u0301 \u2028 🚂"}\r\n',
    `{"long":"${'✓'.repeat(100_000)}"}`,
    '{"number": 12345678901234567890.12345678901234567890}',
    '{\t\n\r }   ',
  ];
  let parent = head.id;
  for (const text of texts) {
    const { revision } = await save(job.id, { parents: [parent], text });
    assert.equal((await ask('GET', `/api/jobs/${job.id}/export?revision=${revision.id}`)).text, text);
    parent = revision.id;
  }
});

test('8. going back leaves a restore point: it can itself be taken back', async (t) => {
  const { create, save, ask, open } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{"n":"days ago"}' } });
  const worked = await save(job.id, { parents: [head.id], text: '{"n":"hours of work"}' });
  const restore = { revision: head.id, parent: worked.revision.id };
  const back = await ask<SavedAnswer>('POST', `/api/jobs/${job.id}/restore`, restore);
  assert.deepEqual(back.body.revision.parents, [worked.revision.id]);
  await ask('POST', `/api/jobs/${job.id}/restore`, { revision: worked.revision.id, parent: back.body.revision.id });
  assert.equal((await open(job.id)).head.text, '{"n":"hours of work"}');
});

test('9. undo steps are there after a restart, and undoing in one tab takes nothing from the other', async (t) => {
  const first = await runningServer(t);
  const { job, head } = await first.create({ from: { text: '{"n":0}' } });
  const mine = await first.save(job.id, { parents: [head.id], text: '{"n":"mine"}' });
  await first.ask('PUT', `/api/jobs/${job.id}/session/undo`, { value: '["step"]' });
  await first.server.close();
  const later = await runningServer(t, { folder: first.folder });
  assert.equal((await later.ask<SessionAnswer>('GET', `/api/jobs/${job.id}/session/undo`)).body.value, '["step"]');
  const theirs = await later.save(job.id, { parents: [mine.revision.id], text: '{"n":"theirs"}' });
  const undo = await later.save(job.id, { parents: [mine.revision.id], text: '{"n":0}', label: 'undo' });
  assert.equal(undo.head, theirs.revision.id, 'the work of the other tab is still the head');
});

test('10. "kept" is said after the disk has it, and only about what was kept', async (t) => {
  const { create, save, open, ask } = await runningServer(t);
  const { job, head } = await create({ from: { text: '{}' } });
  const times: number[] = [];
  let parent = head.id;
  for (let n = 0; n < 200; n += 1) {
    const started = performance.now();
    parent = (await save(job.id, { parents: [parent], text: `{"n":${n},"filler":"${'x'.repeat(6_000)}"}` })).revision
      .id;
    times.push(performance.now() - started);
  }
  times.sort((a, b) => a - b);
  t.diagnostic(`a save of 6 kB: median ${times[100]?.toFixed(1)} ms, p99 ${times[198]?.toFixed(1)} ms`);
  const refused = await ask('POST', `/api/jobs/${job.id}/revisions`, { parents: [parent], text: '{"half' });
  assert.equal(refused.status, 422);
  assert.ok(!('kept' in refused.body));
  assert.equal((await open(job.id)).head.id, parent);
});

test('10, as the system sees it: the answer to a save leaves after the last wait for the disk', async (t) => {
  const canTrace = process.platform === 'linux' && spawnSync('strace', ['-o', '/dev/null', 'true']).status === 0;
  if (!canTrace) return t.skip('needs strace, and the right to trace');
  const log = join(temporaryFolder(t), 'strace.log');
  const program = fileURLToPath(new URL('server-process.ts', import.meta.url));
  const child = spawn(process.execPath, ['--import', 'tsx', program, temporaryFolder(t)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  t.after(() => child.kill('SIGKILL'));
  const [line] = (await once(createInterface({ input: child.stdout }), 'line')) as [string];
  const client = await clientOf((JSON.parse(line) as { port: number }).port);
  const { job, head } = await client.create({ from: { text: '{}' } });
  const traced = [
    '-p',
    String(child.pid),
    '-o',
    log,
    '-s',
    '24',
    '-e',
    'trace=pwrite64,fsync,fdatasync,ftruncate,write,writev',
  ];
  const strace = spawn('strace', traced, { stdio: ['ignore', 'ignore', 'pipe'] });
  await once(strace.stderr, 'data');
  await client.save(job.id, { parents: [head.id], text: '{"n":1}' });
  strace.kill('SIGINT');
  await once(strace, 'exit');
  const calls = readFileSync(log, 'utf8').split('\n');
  const answered = calls.findIndex((call) => call.includes('HTTP/1.1 201'));
  const before = calls.slice(0, answered).filter((call) => /^(pwrite64|fsync|fdatasync|ftruncate)\(/.test(call));
  assert.ok(answered > 0, calls.join('\n'));
  assert.ok(before.filter((call) => call.startsWith('fsync')).length >= 3, 'journal, store and the end of the journal');
  assert.match(before.at(-1) ?? '', /^f(data)?sync/, 'the last thing before the answer');
  assert.ok(
    !calls.slice(answered).some((call) => /^(pwrite64|ftruncate)\(/.test(call)),
    'nothing is written afterwards',
  );
});
