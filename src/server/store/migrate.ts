/**
 * Brings an opened store to the newest version. Before the first change a copy of the old store is written beside it,
 * made durable and never overwritten; each migration is one transaction. A store of a newer program is not touched.
 */
import { closeSync, existsSync, fsyncSync, openSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { type Kysely, sql } from 'kysely';
import { Refused } from '../refusal.ts';
import type { Migration } from './migrations/all.ts';

/** Marks the database file as ours: "Stop" in ASCII. */
const applicationId = 0x53746f70;

const copyName = /^jobs-version-\d+(-\d+)?\.db$/;

/** File names of the copies in `folder`, oldest version first. */
export function oldCopies(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => copyName.test(name))
    .sort();
}

/** @throws Refused when the store was written by a newer program */
export async function refuseNewer(
  database: Kysely<unknown>,
  folder: string,
  migrations: readonly Migration[],
): Promise<void> {
  const version = await pragma(database, 'user_version');
  if (version <= newestOf(migrations)) return;
  throw new Refused(
    'store-newer',
    `The job store in ${folder} was written by a newer Stopwright (store version ${version}; this one knows ${newestOf(migrations)}).`,
    'It has not been touched.',
    'Start the newer Stopwright, or start this one with another --data folder.',
  );
}

/** Brings the store to the newest version and gives that version. */
export async function migrate(
  database: Kysely<unknown>,
  folder: string,
  migrations: readonly Migration[],
): Promise<number> {
  const version = await pragma(database, 'user_version');
  const newest = newestOf(migrations);
  if (version === newest) return version;
  if (version > 0) await keepCopy(database, folder, version);
  for (const migration of migrations.filter((each) => each.version > version)) {
    await database.transaction().execute(async (transaction) => {
      await migration.up(transaction);
      await sql.raw(`PRAGMA user_version = ${migration.version}`).execute(transaction);
      await sql.raw(`PRAGMA application_id = ${applicationId}`).execute(transaction);
    });
  }
  return newest;
}

/** Whether the file is ours, or still empty. */
export async function isOurs(database: Kysely<unknown>): Promise<boolean> {
  if ((await pragma(database, 'application_id')) === applicationId) return true;
  const { rows } = await sql`SELECT 1 FROM sqlite_schema LIMIT 1`.execute(database);
  return rows.length === 0;
}

function newestOf(migrations: readonly Migration[]): number {
  return migrations.at(-1)?.version ?? 0;
}

async function pragma(database: Kysely<unknown>, name: string): Promise<number> {
  const { rows } = await sql.raw<Record<string, number>>(`PRAGMA ${name}`).execute(database);
  return rows[0]?.[name] ?? 0;
}

// VACUUM INTO reads through our own connection: opening the file a second time to copy it would, on closing, drop
// this process's lock on it (POSIX record locks belong to the process, not to the opening).
async function keepCopy(database: Kysely<unknown>, folder: string, version: number): Promise<void> {
  let path = join(folder, `jobs-version-${version}.db`);
  for (let n = 2; existsSync(path); n += 1) path = join(folder, `jobs-version-${version}-${n}.db`);
  await sql`VACUUM INTO ${path}`.execute(database);
  makeDurable(path);
  makeDurable(folder);
}

/** Waits until the file, or the folder's list of files, is on the disk. */
export function makeDurable(path: string): void {
  const isFolder = process.platform === 'win32' && !path.endsWith('.db');
  if (isFolder) return; // Windows opens no folder as a file, and needs no such wait
  const file = openSync(path, 'r');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
