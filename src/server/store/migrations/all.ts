/** The store's migrations in order. One that has been released is never edited; a change is a new file. */
import type { Kysely } from 'kysely';
import { jobsAndRevisions } from './0001-jobs-and-revisions.ts';

export interface Migration {
  /** The version the store has afterwards: 1, 2, 3 … without gaps. */
  readonly version: number;
  /** Runs in a transaction with the version mark: both happen or neither. The tables are those of its own time. */
  readonly up: (transaction: Kysely<unknown>) => Promise<void>;
}

export const storeMigrations: readonly Migration[] = [jobsAndRevisions];
