/**
 * kill -9 at random moments. One cycle is one process of its own that opens the store, works on it, is ended by SIGKILL
 * after a random time, and whose store is then opened by this process and checked: the database is sound, every
 * acknowledged revision is there byte for byte (by a digest that the writer made itself), no revision is half there, every
 * head is one. Writers load ahead of their turn, so that a cycle costs little more than its own time; none is ever killed
 * twice or counted without a kill.
 *
 * STOPWRIGHT_KILL_CYCLES sets the count (1,000 for the full suite, 20,000 before a release). Not covered: loss of power.
 */
import assert from 'node:assert/strict';
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface, type Interface } from 'node:readline';
import { after, before, test, type TestContext } from 'node:test';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import Database from 'libsql';
import { build } from 'vite';
import { oldCopies } from '../../src/server/store/migrate.ts';
import { createJob, listJobs, openJob } from '../../src/server/store/jobs.ts';
import { databaseFileName, openStore, type Store } from '../../src/server/store/open.ts';
import { getRevision, listRevisions, saveRevision } from '../../src/server/store/revisions.ts';
import { migrationsForKilling } from './kill-migrations.ts';
import type { Acknowledged, Order } from './kill-writer.ts';
import { temporaryFolder } from './running.ts';

const cycles = Number(process.env['STOPWRIGHT_KILL_CYCLES'] ?? 120);
const lanes = 2;
const longestLife = 80; // milliseconds
const cyclesPerFolder = 25;

// Bundled once, inside the repository so that the native package is found: starting is then three times as quick.
const bundle = fileURLToPath(new URL(`../../dist/test-kill-${process.pid}/`, import.meta.url));

before(async () => {
  await build({
    configFile: false,
    publicDir: false,
    logLevel: 'error',
    ssr: { noExternal: true, external: ['libsql'] },
    build: { ssr: fileURLToPath(new URL('kill-writer.ts', import.meta.url)), outDir: bundle, target: 'node20' },
  });
});
after(() => rmSync(bundle, { recursive: true, force: true }));

interface Writer {
  readonly child: ChildProcess;
  readonly lines: Interface;
  readonly said: Acknowledged[];
  readonly loaded: Promise<unknown>;
}

/** Starts a writer; with a rule, strace ends it by SIGKILL as it enters that very system call. */
function startWriter(rule?: string): Writer {
  const command = [process.execPath, join(bundle, 'kill-writer.js')];
  if (rule !== undefined)
    command.unshift('strace', '-o', '/dev/null', '-e', `trace=${rule.split(':')[0]}`, '-e', `inject=${rule}`);
  const [program, ...words] = command;
  const child = spawn(program ?? '', words, { stdio: ['pipe', 'pipe', 'inherit'] });
  const lines = createInterface({ input: child.stdout });
  const said: Acknowledged[] = [];
  const loaded = once(lines, 'line').then(() =>
    lines.on('line', (line) => said.push(JSON.parse(line) as Acknowledged)),
  );
  return { child, lines, said, loaded };
}

/** When a writer is killed: some milliseconds after the order, or after it had opened the store, or by strace. */
type Moment = { readonly from: 'order' | 'opened'; readonly life: number } | 'at its call';

/** Gives the order, sees the writer killed, and gives back what had been acknowledged. */
async function killedWhileAt(writer: Writer, order: Order, moment: Moment): Promise<Acknowledged[]> {
  const { child, lines, said, loaded } = writer;
  await loaded;
  const [exited, closed] = [once(child, 'exit'), once(lines, 'close')];
  const opened = moment !== 'at its call' && moment.from === 'opened' ? once(lines, 'line') : undefined;
  child.stdin?.write(`${JSON.stringify(order)}\n`);
  if (moment !== 'at its call') {
    await Promise.race([opened, exited]); // a writer that ended by itself is found out below
    await wait(moment.life);
    child.kill('SIGKILL');
  }
  assert.deepEqual(await exited, [null, 'SIGKILL'], 'it was killed, and had not ended by itself');
  await closed; // everything in the pipe has been read
  return said;
}

async function checkAcknowledged(store: Store, said: readonly Acknowledged[]): Promise<void> {
  const heads = new Map<string, string>();
  const names = new Map<string, number>();
  for (const { job, revision, head, name } of said) {
    if (revision !== undefined) {
      const { text, parents } = await getRevision(store, job, revision.id);
      assert.equal(createHash('sha256').update(text, 'utf8').digest('hex'), revision.digest);
      assert.deepEqual(parents, revision.parents);
    }
    if (head !== undefined) heads.set(job, head);
    if (name !== undefined) names.set(job, name);
  }
  const jobs = new Map((await listJobs(store)).map((job) => [job.id, job]));
  for (const [id, head] of heads) {
    const [now, then] = [await openJob(store, id), await getRevision(store, id, head)];
    assert.ok(now.head.order >= then.order, 'a head went back');
  }
  for (const [id, name] of names) {
    assert.ok(Number(jobs.get(id)?.name.slice('job '.length)) >= name, 'a name went back');
  }
}

/** Reads everything in the store: nothing is half there. */
async function checkEverything(store: Store): Promise<number> {
  let count = 0;
  for (const job of await listJobs(store)) {
    const opened = await openJob(store, job.id);
    const ids = new Set<string>();
    const parentsOfAny = new Set<string>();
    let before: number | undefined;
    for (;;) {
      const { revisions, more } = await listRevisions(store, job.id, 200, before);
      for (const entry of revisions) {
        const { text } = await getRevision(store, job.id, entry.id); // checks the digest
        ids.add(entry.id);
        for (const parent of entry.parents) parentsOfAny.add(parent);
        assert.equal(entry.parents.length === 0, entry.id === job.id, 'only the first revision has no parents');
        assert.equal(typeof JSON.parse(text), 'object', 'a document is cut short');
        count += 1;
      }
      if (!more) break;
      before = revisions.at(-1)?.order;
    }
    for (const parent of parentsOfAny) assert.ok(ids.has(parent), 'a parent is missing');
    const leaves = [...ids].filter((id) => !parentsOfAny.has(id));
    assert.deepEqual(new Set([opened.job.head, ...opened.branches.map(({ id }) => id)]), new Set(leaves));
  }
  return count;
}

function checkSound(folder: string, file = databaseFileName): void {
  const raw = new Database(join(folder, file));
  assert.deepEqual(raw.prepare('PRAGMA integrity_check').all(), [{ integrity_check: 'ok' }]);
  assert.deepEqual(raw.prepare('PRAGMA foreign_key_check').all(), []);
  raw.close();
}

/** Runs cycles in two lanes, each with a store of its own that is killed again and again. */
async function killAgainAndAgain(
  t: TestContext,
  count: number,
  ruleFor: () => string | undefined,
  momentFor: (cycle: number) => Moment,
): Promise<void> {
  const around = temporaryFolder(t);
  let acknowledged = 0;
  let killedAtWork = 0;
  let revisions = 0;
  let next = 0;
  const lane = async (laneNumber: number): Promise<void> => {
    let ready = startWriter(ruleFor());
    t.after(() => ready.child.kill('SIGKILL'));
    let all: Acknowledged[] = [];
    for (let inFolder = 0; next < count; inFolder += 1) {
      next += 1;
      const seed = next;
      const folder = join(around, `${laneNumber}-${Math.floor(inFolder / cyclesPerFolder)}`);
      const writer = ready;
      ready = startWriter(ruleFor());
      const said = await killedWhileAt(writer, { folder, seed, migrations: 1 }, momentFor(seed));
      const work = said.filter(({ opened }) => opened === undefined);
      acknowledged += work.length;
      if (work.length > 0) killedAtWork += 1;
      if (inFolder % cyclesPerFolder === 0) all = [];
      all.push(...work);
      if (existsSync(folder)) checkSound(folder);
      const store = await openStore(folder);
      await checkAcknowledged(store, work);
      if ((inFolder + 1) % cyclesPerFolder === 0 || next >= count) {
        await checkAcknowledged(store, all);
        revisions += await checkEverything(store);
      }
      await store.close();
    }
  };
  const started = performance.now();
  await Promise.all(Array.from({ length: lanes }, (_, n) => lane(n)));
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  t.diagnostic(
    `${next} kills in ${seconds} s, ${killedAtWork} of them after acknowledged work; ${acknowledged} pieces of work acknowledged`,
  );
  assert.ok(next >= count);
  assert.ok(killedAtWork > count / 4, `only ${killedAtWork} of ${next} writers were killed after some work`);
  assert.ok(revisions > 0);
}

test(
  'killed at random moments of any work: nothing acknowledged is lost, nothing is half there',
  { timeout: 3_600_000 },
  (t) =>
    killAgainAndAgain(
      t,
      cycles,
      () => undefined,
      (cycle) => ({ from: cycle % 4 === 0 ? 'order' : 'opened', life: Math.random() * longestLife }),
    ),
);

// A random moment seldom falls between two writes of one save, which are microseconds apart; these kills always do.
test('killed at a single write, wait or cut of the files: the same', { timeout: 3_600_000 }, (t) => {
  const canTrace = process.platform === 'linux' && spawnSync('strace', ['-o', '/dev/null', 'true']).status === 0;
  if (!canTrace) return t.skip('needs strace, and the right to trace');
  const rule = () => {
    const kind = Math.random();
    if (kind < 0.1) return `ftruncate:signal=KILL:when=${1 + Math.floor(Math.random() * 8)}`;
    if (kind < 0.3) return `fsync:signal=KILL:when=${1 + Math.floor(Math.random() * 30)}`;
    return `pwrite64:signal=KILL:when=${1 + Math.floor(Math.random() * 300)}`;
  };
  return killAgainAndAgain(t, Math.ceil(cycles / 2), rule, () => 'at its call');
});

test('killed while the store is brought to a newer version: the old one or the new one, and the copy is whole', async (t) => {
  const around = temporaryFolder(t);
  const count = Math.max(10, Math.round(cycles / 8));
  let begun = 0;
  let ready = startWriter();
  for (let cycle = 0; cycle < count; cycle += 1) {
    const folder = join(around, String(cycle));
    mkdirSync(folder);
    const old = await openStore(folder);
    const { job } = await createJob(old, {
      name: 'job 0',
      text: `{"parents":[],"filler":"${'x'.repeat(400_000)}"}`,
      author: '',
    });
    const saved = await saveRevision(old, job.id, [job.head], { text: '{"parents":["one"]}', author: '', label: null });
    await old.close();
    const writer = ready;
    ready = startWriter();
    const said = await killedWhileAt(
      writer,
      { folder, seed: cycle + 1, migrations: 2 },
      { from: 'order', life: Math.random() * 40 },
    );
    checkSound(folder);
    const copies = oldCopies(folder);
    if (copies.length > 0) begun += 1;
    const store = await openStore(folder, migrationsForKilling);
    assert.equal(store.version, 2);
    assert.equal((await getRevision(store, job.id, saved.revision.id)).text, '{"parents":["one"]}');
    await checkAcknowledged(
      store,
      said.filter(({ opened }) => opened === undefined),
    );
    await checkEverything(store);
    await store.close();
    const whole = oldCopies(folder).at(-1);
    assert.ok(whole !== undefined, 'no copy of the old store');
    checkSound(folder, whole);
    rmSync(folder, { recursive: true });
  }
  ready.child.kill('SIGKILL');
  t.diagnostic(`${count} kills, ${begun} of them after the copying had begun`);
  assert.ok(begun > 0);
});
