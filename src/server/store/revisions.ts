/**
 * Revisions of jobs. A save adds a revision to those it was made from; it never replaces one. When the head has
 * moved on in the meantime, the revision is kept all the same, as a second head, and a person merges the two with a
 * revision that has both as parents.
 */
import { randomUUID } from 'node:crypto';
import type { Transaction } from 'kysely';
import type { JobEntry, Revision, RevisionEntry } from '../../job/exchange.ts';
import { idInUse } from '../refusal.ts';
import {
  branchesOf,
  digestOf,
  findJob,
  findRevision,
  jobEntry,
  readRevision,
  revisionEntry,
  revisionRows,
} from './entries.ts';
import type { Store } from './open.ts';
import type { Tables } from './tables.ts';

export interface NewRevision {
  readonly id?: string | undefined;
  readonly text: string;
  readonly author: string;
  readonly label: string | null;
}

export interface Saved {
  readonly job: JobEntry;
  readonly revision: RevisionEntry;
  readonly branches: readonly RevisionEntry[];
}

/**
 * Keeps a document that was made from `parents`. The head follows when it is one of them. Asking again with the same
 * id and content changes nothing and gives the same answer.
 *
 * @throws Refused the job or a parent is not in the store; the id belongs to something else
 */
export function saveRevision(
  store: Store,
  jobId: string,
  parents: readonly string[],
  revision: NewRevision,
): Promise<Saved> {
  return store.write(async (database) => {
    const { head } = await findJob(database, jobId);
    for (const parent of parents) await findRevision(database, jobId, parent);
    const made = await addRevision(database, jobId, parents, revision);
    if (!made.repeated && parents.includes(head)) {
      await database.updateTable('job').set({ head: made.id }).where('id', '=', jobId).execute();
    }
    return saved(database, jobId, made.id);
  });
}

/**
 * Brings back the document of `revisionId` as a new revision made from `parent`, which stays in the history: going back is undone
 * by restoring `parent`.
 */
export async function restoreRevision(
  store: Store,
  jobId: string,
  revisionId: string,
  parent: string,
  details: Omit<NewRevision, 'text'>,
): Promise<Saved> {
  const { text } = await getRevision(store, jobId, revisionId);
  return saveRevision(store, jobId, [parent], { ...details, text });
}

/** Revisions of a job, newest first: at most `limit`, those saved before the one with order `before`. */
export function listRevisions(
  store: Store,
  jobId: string,
  limit: number,
  before?: number,
): Promise<{ revisions: RevisionEntry[]; more: boolean }> {
  return store.read(async (database) => {
    await findJob(database, jobId);
    let query = revisionRows(database).where('revision.job_id', '=', jobId);
    if (before !== undefined) query = query.where('revision.seq', '<', before);
    const rows = await query
      .orderBy('revision.seq', 'desc')
      .limit(limit + 1)
      .execute();
    const revisions = await Promise.all(rows.slice(0, limit).map((row) => revisionEntry(database, row)));
    return { revisions, more: rows.length > limit };
  });
}

export function getRevision(store: Store, jobId: string, revisionId: string): Promise<Revision> {
  return store.read((database) => readRevision(database, store.folder, jobId, revisionId));
}

/** Adds the document and the revision, or recognises that this very revision is there already. */
export async function addRevision(
  database: Transaction<Tables>,
  jobId: string,
  parents: readonly string[],
  { id = randomUUID(), text, author, label }: NewRevision,
): Promise<{ id: string; repeated: boolean }> {
  const content = Buffer.from(text, 'utf8');
  const digest = digestOf(content);
  const there = await revisionRows(database).where('revision.id', '=', id).executeTakeFirst();
  if (there !== undefined) {
    const { jobId: itsJob, digest: itsDigest, parents: itsParents } = await revisionEntry(database, there);
    const isSame = itsJob === jobId && itsDigest === digest && itsParents.join() === parents.join();
    if (!isSame) throw idInUse();
    return { id, repeated: true };
  }
  await database
    .insertInto('document')
    .values({ digest, content })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
  const at = new Date().toISOString();
  await database.insertInto('revision').values({ id, job_id: jobId, digest, author, at, label }).execute();
  for (const [place, parent] of parents.entries()) {
    await database.insertInto('revision_parent').values({ revision_id: id, place, parent_id: parent }).execute();
  }
  return { id, repeated: false };
}

async function saved(database: Transaction<Tables>, jobId: string, revisionId: string): Promise<Saved> {
  return {
    job: await jobEntry(database, jobId),
    revision: await findRevision(database, jobId, revisionId),
    branches: await branchesOf(database, jobId),
  };
}
