/** Jobs: the only things in the store that change in place are a job's name, its deleted mark and which revision is its head. */
import { randomUUID } from 'node:crypto';
import type { Transaction } from 'kysely';
import type { JobEntry, Revision, RevisionEntry } from '../../job/exchange.ts';
import { idInUse } from '../refusal.ts';
import { branchesOf, findJob, jobEntries, jobEntry, readRevision } from './entries.ts';
import type { Store } from './open.ts';
import { addRevision } from './revisions.ts';
import type { Tables } from './tables.ts';

export interface NewJob {
  readonly id?: string | undefined;
  readonly name: string;
  readonly text: string;
  readonly author: string;
  readonly demo?: string | undefined;
}

export interface OpenedJob {
  readonly job: JobEntry;
  readonly head: Revision;
  readonly branches: readonly RevisionEntry[];
}

/** All jobs, oldest first, those marked deleted included. */
export function listJobs(store: Store): Promise<JobEntry[]> {
  return store.read((database) => jobEntries(database).orderBy('job.seq').execute());
}

export function openJob(store: Store, jobId: string): Promise<OpenedJob> {
  return store.read((database) => opened(database, store, jobId));
}

/** Makes a job with its first revision. Asking again with the same id and document gives the job that is there. */
export function createJob(store: Store, newJob: NewJob): Promise<OpenedJob> {
  return store.write(async (database) => opened(database, store, await addJob(database, newJob)));
}

/** Changes the name, the deleted mark, or both. Deleting only marks: everything stays and can be undeleted. */
export function changeJob(
  store: Store,
  jobId: string,
  { name, deleted }: { name?: string | undefined; deleted?: boolean | undefined },
): Promise<JobEntry> {
  return store.write(async (database) => {
    const { deletedAt } = await findJob(database, jobId);
    if (name !== undefined) await database.updateTable('job').set({ name }).where('id', '=', jobId).execute();
    if (deleted !== undefined) {
      const mark = deleted ? (deletedAt ?? new Date().toISOString()) : null;
      await database.updateTable('job').set({ deleted_at: mark }).where('id', '=', jobId).execute();
    }
    return jobEntry(database, jobId);
  });
}

/** Puts the demo jobs into a store that never had them. Deleted or changed later, they are not put there again. */
export function placeDemos(
  store: Store,
  demos: readonly { readonly name: string; readonly title: string; readonly text: string }[],
): Promise<void> {
  return store.write(async (database) => {
    const placed = await database.selectFrom('setting').select('key').where('key', '=', 'demos-placed').execute();
    if (placed.length > 0 || demos.length === 0) return;
    for (const { name, title, text } of demos) {
      await addJob(database, { name: title, text, author: '', demo: name });
    }
    await database.insertInto('setting').values({ key: 'demos-placed', value: 'yes' }).execute();
  });
}

async function addJob(
  database: Transaction<Tables>,
  { id = randomUUID(), name, text, author, demo }: NewJob,
): Promise<string> {
  // The first revision takes the job's id, so that a repeated request is recognised by it.
  const revision = { id, text, author, label: null };
  const there = await database.selectFrom('job').select('id').where('id', '=', id).executeTakeFirst();
  if (there !== undefined) {
    await addRevision(database, id, [], revision);
    return id;
  }
  const taken = await database.selectFrom('revision').select('id').where('id', '=', id).executeTakeFirst();
  if (taken !== undefined) throw idInUse();
  const created_at = new Date().toISOString();
  await database
    .insertInto('job')
    .values({ id, name, created_at, deleted_at: null, demo: demo ?? null, head: id })
    .execute();
  await addRevision(database, id, [], revision);
  return id;
}

async function opened(database: Transaction<Tables>, store: Store, jobId: string): Promise<OpenedJob> {
  const job = await jobEntry(database, jobId);
  return {
    job,
    head: await readRevision(database, store.folder, jobId, job.head),
    branches: await branchesOf(database, jobId),
  };
}
