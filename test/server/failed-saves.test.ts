/**
 * A save that fails is said, what was kept before is safe, and the app goes on. libsql is native code, so its file
 * calls are made to fail from outside, each test by what this machine allows:
 *
 * - a full disk: a small memory file system of its own (needs root on Linux) that is filled to the brim;
 * - a file that may not grow: a process limit (`ulimit -f`), so that a write comes back short, then with EFBIG;
 * - every pwrite, fsync and ftruncate of a save in turn, once and from then on, with EIO or ENOSPC: system call
 *   tampering by strace (where it is installed and may trace);
 * - no right to write: file modes, or as root a read-only mount;
 * - the folder taken away while the server runs: real renames and removals.
 *
 * Not covered: a disk that says "done" and lies, and loss of power itself.
 */
import assert from 'node:assert/strict';
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { test, type TestContext } from 'node:test';
import { fileURLToPath } from 'node:url';
import Database from 'libsql';
import type { SavedAnswer } from '../../src/job/exchange.ts';
import { Refused } from '../../src/server/refusal.ts';
import { getRevision } from '../../src/server/store/revisions.ts';
import { openStore } from '../../src/server/store/open.ts';
import { type Client, clientOf, runningServer, temporaryFolder } from './running.ts';

const serverProcess = fileURLToPath(new URL('server-process.ts', import.meta.url));
const isRoot = process.getuid?.() === 0;

/** One job under test: its document as last acknowledged, and everything acknowledged before. */
interface Kept {
  readonly job: string;
  head: string;
  readonly texts: Map<string, string>;
}

async function firstJob(client: Client): Promise<Kept> {
  const { job, head } = await client.create({ from: { text: '{}' } });
  return { job: job.id, head: head.id, texts: new Map([[head.id, '{}']]) };
}

let count = 0;

function nextSave(kept: Kept, size: number): { id: string; parents: string[]; text: string } {
  count += 1;
  return {
    id: `save-number-${count}`,
    parents: [kept.head],
    text: JSON.stringify({ count, filler: 'x'.repeat(size) }),
  };
}

/** Saves; on success notes what was acknowledged, on failure checks the words and that the app can still be used. */
async function trySave(client: Client, kept: Kept, save: ReturnType<typeof nextSave>): Promise<string> {
  const answer = await client.ask<SavedAnswer>('POST', `/api/jobs/${kept.job}/revisions`, save);
  if (answer.status === 201) {
    kept.texts.set(save.id, save.text);
    kept.head = save.id;
    assert.equal(answer.body.head, save.id);
    return 'kept';
  }
  const { reason, what, safe, next } = (answer as unknown as { body: Refused['refusal'] }).body;
  assert.ok(answer.status >= 500, answer.text);
  assert.match(what, /NOT kept/);
  for (const sentence of [what, safe, next]) assert.match(sentence, /^[A-Z][^]*[.]$/);
  assert.doesNotMatch(answer.text, /SQLITE|errno|EIO|\bat /);
  assert.equal((await client.ask('GET', '/api/health')).status, 200);
  return reason;
}

/** Opens the store afresh: sound, and every acknowledged document there byte for byte. */
async function checkStore(folder: string, kept: Kept): Promise<void> {
  const store = await openStore(folder);
  for (const [id, text] of kept.texts) assert.equal((await getRevision(store, kept.job, id)).text, text);
  await store.close();
  const raw = new Database(join(folder, 'jobs.db'));
  assert.deepEqual(raw.prepare('PRAGMA integrity_check').all(), [{ integrity_check: 'ok' }]);
  assert.deepEqual(raw.prepare('PRAGMA foreign_key_check').all(), []);
  raw.close();
}

function memoryFileSystem(t: TestContext, options: string): string | undefined {
  if (process.platform !== 'linux' || !isRoot) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'stopwright-small-'));
  const { status } = spawnSync('mount', ['-t', 'tmpfs', '-o', options, 'stopwright-test', folder]);
  t.after(() => {
    spawnSync('umount', ['-l', folder]);
    rmSync(folder, { recursive: true, force: true });
  });
  return status === 0 ? folder : undefined;
}

test('a full disk is said; after making room the very same save is kept', async (t) => {
  const disk = memoryFileSystem(t, 'size=1m');
  if (disk === undefined) return t.skip('needs root on Linux, and the right to mount');
  const folder = join(disk, 'store');
  const client = await runningServer(t, { folder });
  const kept = await firstJob(client);
  writeFileSync(join(disk, 'filler'), new Uint8Array(300_000));
  let save = nextSave(kept, 50_000);
  while ((await trySave(client, kept, save)) === 'kept') save = nextSave(kept, 50_000);
  for (let again = 0; again < 3; again += 1) assert.equal(await trySave(client, kept, save), 'disk-full');
  assert.equal(
    (await client.ask('PUT', `/api/jobs/${kept.job}/session/undo`, { value: 'x'.repeat(400_000) })).body.reason,
    'disk-full',
  );
  const opened = await client.open(kept.job);
  assert.deepEqual([opened.head.id, opened.head.text], [kept.head, kept.texts.get(kept.head)]);
  rmSync(join(disk, 'filler'));
  assert.equal(await trySave(client, kept, save), 'kept');
  await client.server.close();
  await checkStore(folder, kept);
});

/** Starts a server on `folder`, in a shell that may set a limit first. */
async function serverIn(t: TestContext, folder: string, limit = ':'): Promise<{ child: ChildProcess; client: Client }> {
  const words = ['-c', `${limit} && exec "$@"`, 'sh', process.execPath, '--import', 'tsx', serverProcess, folder];
  const child = spawn('sh', words, { stdio: ['ignore', 'pipe', 'inherit'] });
  t.after(() => child.kill('SIGKILL'));
  for await (const line of createInterface({ input: child.stdout })) {
    return { child, client: await clientOf((JSON.parse(line) as { port: number }).port) };
  }
  throw new Error('the server did not start');
}

test('a store file that may not grow any further is said; what was kept before stays', async (t) => {
  if (process.platform === 'win32') return t.skip('needs a process limit');
  const folder = temporaryFolder(t);
  const { child, client } = await serverIn(t, folder, 'ulimit -f 400');
  const kept = await firstJob(client);
  let save = nextSave(kept, 20_000);
  while ((await trySave(client, kept, save)) === 'kept') save = nextSave(kept, 20_000);
  assert.ok(kept.texts.size > 5, 'the limit was not reached by saving');
  assert.notEqual(await trySave(client, kept, save), 'kept');
  const opened = await client.open(kept.job);
  assert.deepEqual([opened.head.id, opened.head.text], [kept.head, kept.texts.get(kept.head)]);
  child.kill('SIGKILL');
  await once(child, 'exit');
  await checkStore(folder, kept);
});

/** Lets strace tamper with one kind of call of the process until the given function is through; says whether it did. */
async function whileFailing(
  child: ChildProcess,
  log: string,
  rule: string,
  work: () => Promise<void>,
): Promise<boolean> {
  const call = rule.slice(0, rule.indexOf(':'));
  const words = ['-p', String(child.pid), '-o', log, '-e', `trace=${call}`, '-e', `inject=${rule}`];
  const strace = spawn('strace', words, { stdio: ['ignore', 'ignore', 'pipe'] });
  const exited = once(strace, 'exit');
  for await (const line of createInterface({ input: strace.stderr })) {
    if (line.includes('attached')) break;
  }
  try {
    await work();
  } finally {
    strace.kill('SIGINT');
    await exited;
  }
  return readFileSync(log, 'utf8').includes('(INJECTED)');
}

function canTrace(): boolean {
  return (
    process.platform === 'linux'
    && spawnSync('strace', ['-o', '/dev/null', '-e', 'inject=fsync:error=EIO', 'true']).status === 0
  );
}

test('every write, wait and cut of a save failing in turn, once and from then on: said, and nothing acknowledged is lost', async (t) => {
  if (!canTrace()) return t.skip('needs strace, and the right to trace');
  const folder = temporaryFolder(t);
  const log = join(temporaryFolder(t), 'strace.log');
  const { child, client } = await serverIn(t, folder);
  const kept = await firstJob(client);
  const everyOne = process.env['STOPWRIGHT_EVERY_CALL'] !== undefined;
  let failures = 0;
  for (const call of ['pwrite64', 'fsync', 'ftruncate']) {
    for (const error of ['EIO', 'ENOSPC']) {
      for (const span of ['', '+']) {
        let step = 1;
        for (let nth = 1; ; nth += step) {
          const save = nextSave(kept, 5_000);
          let outcome = '';
          const didFail = await whileFailing(child, log, `${call}:error=${error}:when=${nth}${span}`, async () => {
            outcome = await trySave(client, kept, save);
          });
          if (!didFail) break;
          failures += 1;
          if (outcome !== 'kept')
            assert.equal(await trySave(client, kept, save), 'kept', `afterwards, ${call} ${error} ${nth}${span}`);
          assert.equal((await client.open(kept.job)).head.text, save.text);
          const { branches } = await client.open(kept.job);
          assert.deepEqual(branches, [], 'a save that was tried twice is there once');
          if (!everyOne && nth > 2) step += 2;
        }
      }
    }
  }
  t.diagnostic(`${failures} failed calls`);
  assert.ok(failures >= 30, `only ${failures} calls were made to fail`);
  child.kill('SIGKILL');
  await once(child, 'exit');
  await checkStore(folder, kept);
});

test('killed while a save is failing, the store opens with everything acknowledged', async (t) => {
  if (!canTrace()) return t.skip('needs strace, and the right to trace');
  const folder = temporaryFolder(t);
  const log = join(temporaryFolder(t), 'strace.log');
  let kept: Kept | undefined;
  for (const rule of [
    'fsync:error=EIO:when=3+',
    'pwrite64:error=EIO:when=20+',
    'ftruncate:error=EIO:when=1+',
    'fsync:error=EIO:when=4+',
  ]) {
    const { child, client } = await serverIn(t, folder);
    kept ??= await firstJob(client);
    const now = kept;
    await whileFailing(child, log, rule, async () => {
      await trySave(client, now, nextSave(now, 5_000));
      child.kill('SIGKILL');
      await once(child, 'exit');
    });
    await checkStore(folder, now);
    const { child: next, client: nextClient } = await serverIn(t, folder);
    now.head = (await nextClient.open(now.job)).head.id;
    assert.equal(await trySave(nextClient, now, nextSave(now, 5_000)), 'kept');
    next.kill('SIGKILL');
    await once(next, 'exit');
  }
});

test('a folder that may not be written is refused at the start in words, and left as it is', async (t) => {
  const folder = temporaryFolder(t);
  await (await openStore(folder)).close();
  const before = readFileSync(join(folder, 'jobs.db'));
  if (isRoot) {
    const { status } = spawnSync('mount', ['--bind', '-o', 'ro', folder, folder]);
    if (status !== 0) return t.skip('root may write everywhere, and may not mount here');
  } else {
    chmodSync(join(folder, 'jobs.db'), 0o400);
    chmodSync(folder, 0o500);
  }
  try {
    for (const place of [folder, join(folder, 'further', 'down')]) {
      await assert.rejects(openStore(place), (error: Refused) => {
        assert.equal(error.refusal.reason, 'store-read-only');
        assert.match(error.refusal.next, /--data/);
        return true;
      });
    }
  } finally {
    if (isRoot) spawnSync('umount', ['-l', folder]);
    else chmodSync(folder, 0o700);
  }
  assert.deepEqual(readFileSync(join(folder, 'jobs.db')), before);
});

test('a folder moved away under the server is noticed before a save is acknowledged; put back, saving goes on', async (t) => {
  const around = temporaryFolder(t);
  const folder = join(around, 'store');
  const client = await runningServer(t, { folder });
  const kept = await firstJob(client);
  const save = nextSave(kept, 100);
  renameSync(folder, join(around, 'elsewhere'));
  assert.equal(await trySave(client, kept, save), 'store-gone');
  mkdirSync(folder);
  assert.equal(await trySave(client, kept, save), 'store-gone', 'an empty folder in its place does not count');
  rmSync(folder, { recursive: true });
  renameSync(join(around, 'elsewhere'), folder);
  assert.equal(await trySave(client, kept, save), 'kept');
  assert.equal((await client.history(kept.job)).length, 2, 'tried three times, there once');
  rmSync(folder, { recursive: true });
  assert.equal(await trySave(client, kept, nextSave(kept, 100)), 'store-gone');
  assert.equal((await client.open(kept.job)).head.text, save.text, 'it can still be exported');
});
