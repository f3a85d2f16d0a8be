/**
 * The process that kill.test.ts kills. It waits, loaded, for one line {folder, seed, migrations}, opens the store and then
 * works on it without a pause: makes jobs, saves, saves from old revisions, merges, restores, takes in large documents, renames,
 * deletes. After each piece of work that the store has acknowledged it writes one line about it. What it wrote into the
 * pipe before it died is still read by the parent.
 */
import { createHash } from 'node:crypto';
import { writeSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { changeJob, createJob, listJobs, openJob } from '../../src/server/store/jobs.ts';
import { openStore, type Store } from '../../src/server/store/open.ts';
import { restoreRevision, saveRevision } from '../../src/server/store/revisions.ts';
import { putSession } from '../../src/server/store/sessions.ts';
import { migrationsForKilling } from './kill-migrations.ts';

export interface Order {
  readonly folder: string;
  readonly seed: number;
  readonly migrations: 1 | 2;
}

/** One acknowledged piece of work. */
export interface Acknowledged {
  readonly job: string;
  readonly revision?: { readonly id: string; readonly digest: string; readonly parents: readonly string[] };
  readonly head?: string;
  readonly name?: number;
  readonly opened?: true;
}

let state = 1;
function below(limit: number): number {
  state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0; // a linear congruential generator: enough to vary the work
  return Math.floor((state / 2 ** 32) * limit);
}

function say(acknowledged: Acknowledged): void {
  writeSync(1, `${JSON.stringify(acknowledged)}\n`);
}

function document(parents: readonly string[], size: number): string {
  return JSON.stringify({ parents, filler: String.fromCodePoint(97 + below(26)).repeat(size), n: below(1e9) });
}

function revisionOf(id: string, text: string, parents: readonly string[]): NonNullable<Acknowledged['revision']> {
  return { id, digest: createHash('sha256').update(text, 'utf8').digest('hex'), parents };
}

async function work(store: Store, numbered: () => number): Promise<void> {
  const jobs = await listJobs(store);
  const job = jobs[below(jobs.length)];
  if (job === undefined || below(10) === 0) {
    const text = document([], below(3) === 0 ? 200_000 : 2_000); // one in three is as large as an import gets
    const made = await createJob(store, { name: 'job 0', text, author: '' });
    return say({ job: made.job.id, revision: revisionOf(made.head.id, text, []), head: made.job.head });
  }
  const { head, branches } = await openJob(store, job.id);
  const branch = branches[0];
  const details = { author: 'writer', label: null };
  const kind = below(10);
  if (kind < 2) {
    const name = numbered();
    await changeJob(store, job.id, { name: `job ${name}`, deleted: below(2) === 0 });
    return say({ job: job.id, name });
  }
  if (kind === 2) return putSession(store, job.id, 'undo', document([], 5_000));
  if (kind === 3 && head.parents[0] !== undefined) {
    const saved = await restoreRevision(store, job.id, head.parents[0], head.id, details);
    return say({ job: job.id, head: saved.job.head });
  }
  const stale = head.parents[0];
  const merged = kind === 4 && branch !== undefined ? [head.id, branch.id] : undefined;
  const parents = merged ?? [kind === 5 && stale !== undefined ? stale : head.id];
  const text = document(parents, below(8_000));
  const saved = await saveRevision(store, job.id, parents, { ...details, text });
  say({ job: job.id, revision: revisionOf(saved.revision.id, text, parents), head: saved.job.head });
}

async function obey({ folder, seed, migrations }: Order): Promise<never> {
  state = seed;
  const store = await openStore(folder, migrationsForKilling.slice(0, migrations));
  say({ job: '', opened: true });
  let name = seed * 1_000;
  for (;;) await work(store, () => (name += 1));
}

createInterface({ input: process.stdin }).once('line', (line) => {
  obey(JSON.parse(line) as Order).catch((error: unknown) => {
    console.error(error);
    process.exit(1);
  });
});
writeSync(1, '{"loaded":true}\n');
