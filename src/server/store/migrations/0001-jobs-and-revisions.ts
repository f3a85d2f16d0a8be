/**
 * Jobs, their immutable revisions, and the documents of these by digest.
 *
 * - `document` holds the exact bytes, once per digest: copies and restores cost no room.
 * - `revision` and `revision_parent` are only ever added to; triggers refuse every change, whoever asks.
 * - `job` has the only things that may change: name, deleted mark, head.
 * - `seq` only grows and is never given twice (AUTOINCREMENT), also after a restart.
 */
import { sql } from 'kysely';
import type { Migration } from './all.ts';

const statements = [
  `CREATE TABLE document (
     digest TEXT NOT NULL PRIMARY KEY,
     content BLOB NOT NULL
   ) STRICT`,
  `CREATE TABLE job (
     seq INTEGER PRIMARY KEY AUTOINCREMENT,
     id TEXT NOT NULL UNIQUE,
     name TEXT NOT NULL,
     created_at TEXT NOT NULL,
     deleted_at TEXT,
     demo TEXT,
     head TEXT NOT NULL REFERENCES revision (id) DEFERRABLE INITIALLY DEFERRED
   ) STRICT`,
  `CREATE TABLE revision (
     seq INTEGER PRIMARY KEY AUTOINCREMENT,
     id TEXT NOT NULL UNIQUE,
     job_id TEXT NOT NULL REFERENCES job (id),
     digest TEXT NOT NULL REFERENCES document (digest),
     author TEXT NOT NULL,
     at TEXT NOT NULL,
     label TEXT
   ) STRICT`,
  `CREATE INDEX revision_of_job ON revision (job_id, seq)`,
  `CREATE TABLE revision_parent (
     revision_id TEXT NOT NULL REFERENCES revision (id),
     place INTEGER NOT NULL,
     parent_id TEXT NOT NULL REFERENCES revision (id),
     PRIMARY KEY (revision_id, place)
   ) STRICT`,
  `CREATE INDEX child_of_revision ON revision_parent (parent_id)`,
  `CREATE TABLE session_value (
     job_id TEXT NOT NULL REFERENCES job (id),
     key TEXT NOT NULL,
     content BLOB NOT NULL,
     PRIMARY KEY (job_id, key)
   ) STRICT`,
  `CREATE TABLE setting (
     key TEXT NOT NULL PRIMARY KEY,
     value TEXT NOT NULL
   ) STRICT`,
  ...['document', 'revision', 'revision_parent'].flatMap((table) =>
    ['UPDATE', 'DELETE'].map(
      (act) => `CREATE TRIGGER ${table}_refuses_${act.toLowerCase()} BEFORE ${act} ON ${table}
                BEGIN SELECT RAISE (ABORT, 'a ${table} row never changes'); END`,
    ),
  ),
];

export const jobsAndRevisions: Migration = {
  version: 1,
  async up(transaction) {
    for (const statement of statements) await sql.raw(statement).execute(transaction);
  },
};
