/** The store's migrations with one more that reads and rewrites much, so that a kill has something to hit. */
import { sql } from 'kysely';
import { type Migration, storeMigrations } from '../../src/server/store/migrations/all.ts';

const next = (storeMigrations.at(-1)?.version ?? 0) + 1;

export const widening: Migration = {
  version: next,
  async up(transaction) {
    await sql`ALTER TABLE job ADD COLUMN note TEXT NOT NULL DEFAULT ''`.execute(transaction);
    await sql`CREATE TABLE digest_count (digest TEXT PRIMARY KEY, uses INTEGER NOT NULL, copy BLOB) STRICT`.execute(
      transaction,
    );
    await sql`INSERT INTO digest_count
              SELECT digest, (SELECT count(*) FROM revision WHERE revision.digest = document.digest), content
              FROM document`.execute(transaction);
  },
};

export const migrationsForKilling: readonly Migration[] = [...storeMigrations, widening];
