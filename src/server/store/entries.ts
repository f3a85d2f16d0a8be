/** Reads jobs and revisions out of the tables, in the form in which the API gives them. */
import { createHash } from 'node:crypto';
import { sql, type Transaction } from 'kysely';
import type { JobEntry, Revision, RevisionEntry } from '../../job/exchange.ts';
import { notFound } from '../refusal.ts';
import type { Tables } from './tables.ts';
import { storeDamaged } from './trouble.ts';

/** Holds for a revision that is a head. */
const nothingMadeFromIt = sql<boolean>`NOT EXISTS (SELECT 1 FROM revision_parent WHERE parent_id = revision.id)`;

export async function findJob(
  database: Transaction<Tables>,
  jobId: string,
): Promise<{ head: string; deletedAt: string | null }> {
  const row = await database
    .selectFrom('job')
    .select(['head', 'deleted_at as deletedAt'])
    .where('id', '=', jobId)
    .executeTakeFirst();
  if (row === undefined) throw notFound('There is no such job in this store.');
  return row;
}

export async function jobEntry(database: Transaction<Tables>, jobId: string): Promise<JobEntry> {
  const row = await jobEntries(database).where('job.id', '=', jobId).executeTakeFirst();
  if (row === undefined) throw notFound('There is no such job in this store.');
  return row;
}

export function jobEntries(database: Transaction<Tables>) {
  return database
    .selectFrom('job')
    .innerJoin('revision as head', 'head.id', 'job.head')
    .select(['job.id', 'job.name', 'job.created_at as createdAt', 'head.at as changedAt'])
    .select(['job.deleted_at as deletedAt', 'job.demo', 'job.head'])
    .select([
      sql<number>`(SELECT count(*) FROM revision WHERE job_id = job.id)`.as('revisionCount'),
      sql<number>`(SELECT count(*) FROM revision WHERE job_id = job.id AND id <> job.head AND ${nothingMadeFromIt})`.as(
        'branchCount',
      ),
    ]);
}

/** The revision with its document, after checking that the document still has its digest. */
export async function readRevision(
  database: Transaction<Tables>,
  folder: string,
  jobId: string,
  revisionId: string,
): Promise<Revision> {
  const entry = await findRevision(database, jobId, revisionId);
  const { content } = await database
    .selectFrom('document')
    .select('content')
    .where('digest', '=', entry.digest)
    .executeTakeFirstOrThrow();
  const bytes = new Uint8Array(content);
  if (digestOf(bytes) !== entry.digest) throw storeDamaged(folder);
  return { ...entry, text: textOf(bytes) };
}

/** The heads other than the job's own, newest first: revisions that nothing was made from yet. */
export async function branchesOf(database: Transaction<Tables>, jobId: string): Promise<RevisionEntry[]> {
  const rows = await revisionRows(database)
    .innerJoin('job', 'job.id', 'revision.job_id')
    .where('job.id', '=', jobId)
    .whereRef('revision.id', '<>', 'job.head')
    .where(nothingMadeFromIt)
    .orderBy('revision.seq', 'desc')
    .execute();
  return Promise.all(rows.map((row) => revisionEntry(database, row)));
}

export async function findRevision(
  database: Transaction<Tables>,
  jobId: string,
  revisionId: string,
): Promise<RevisionEntry> {
  const row = await revisionRows(database)
    .where('revision.job_id', '=', jobId)
    .where('revision.id', '=', revisionId)
    .executeTakeFirst();
  if (row === undefined) {
    throw notFound('This revision is not in this job.', 'Read the list of revisions again, or save this as a new job.');
  }
  return revisionEntry(database, row);
}

export function revisionRows(database: Transaction<Tables>) {
  return database
    .selectFrom('revision')
    .innerJoin('document', 'document.digest', 'revision.digest')
    .select([
      'revision.id',
      'revision.job_id as jobId',
      'revision.seq as order',
      'revision.digest',
      'revision.author',
      'revision.at',
      'revision.label',
    ])
    .select(({ fn }) => fn<number>('length', ['document.content']).as('bytes'));
}

export async function revisionEntry(
  database: Transaction<Tables>,
  row: Omit<RevisionEntry, 'parents'>,
): Promise<RevisionEntry> {
  const parents = await database
    .selectFrom('revision_parent')
    .select('parent_id')
    .where('revision_id', '=', row.id)
    .orderBy('place')
    .execute();
  return { ...row, parents: parents.map(({ parent_id }) => parent_id) };
}

/** SHA-256, lower-case hexadecimal. */
export function digestOf(content: Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}

/** The text whose UTF-8 bytes these are; a byte order mark is part of it. */
export function textOf(bytes: Uint8Array | ArrayBuffer): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
}
