/**
 * The one place that opens the embedded database: SQLite (through libsql) with `journal_mode=TRUNCATE` and
 * `synchronous=EXTRA`, so that a committed save survives kill -9 and loss of power, and `locking_mode=EXCLUSIVE`, so that a
 * second server on the same folder cannot open it. That lock is the operating system's: it ends with the process,
 * however that ends, so no stale lock can be left behind. Never WAL: SQLite 3.45.1, which libsql 0.5.29 carries, has a fault in it.
 */
import { mkdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Kysely, type SqliteDatabase, SqliteDialect, type Transaction } from 'kysely';
import Database from 'libsql';
import { Refused } from '../refusal.ts';
import { isOurs, makeDurable, migrate, refuseNewer } from './migrate.ts';
import { type Migration, storeMigrations } from './migrations/all.ts';
import type { Tables } from './tables.ts';
import { storeDamaged, storeGone, storeTrouble } from './trouble.ts';

export interface Store {
  readonly folder: string;
  readonly version: number;
  /** Runs `work` against a consistent state. */
  read<T>(work: (database: Transaction<Tables>) => Promise<T>): Promise<T>;
  /** Runs `work` in a transaction; when the promise is fulfilled, what it wrote is on the disk. */
  write<T>(work: (database: Transaction<Tables>) => Promise<T>): Promise<T>;
  close(): Promise<void>;
}

export const databaseFileName = 'jobs.db';

/**
 * Opens the store in `folder`, making both when they do not exist, and brings it to the newest version.
 *
 * @throws Refused the store is in use, damaged, not ours, newer than this program, or cannot be read or written
 */
export async function openStore(folder: string, migrations: readonly Migration[] = storeMigrations): Promise<Store> {
  const path = join(folder, databaseFileName);
  makeFolder(folder);
  let connection: Database.Database | undefined;
  try {
    connection = new Database(path);
    connection.exec('PRAGMA locking_mode = EXCLUSIVE');
    connection.exec('BEGIN EXCLUSIVE');
    connection.exec('COMMIT');
    const database = new Kysely<unknown>({ dialect: new SqliteDialect({ database: forKysely(connection) }) });
    // Looked at before anything is written: what is not ours, or is a newer program's, is left as it is.
    if (!(await isOurs(database)) || !isSound(connection)) throw storeDamaged(folder);
    await refuseNewer(database, folder, migrations);
    connection.exec('PRAGMA journal_mode = TRUNCATE');
    connection.exec('PRAGMA synchronous = EXTRA');
    connection.exec('PRAGMA foreign_keys = ON');
    const version = await migrate(database, folder, migrations);
    // A store that may only be read opens without complaint; writing what is there finds that out now, not at a save.
    connection.exec(`PRAGMA user_version = ${version}`);
    return storeOn(database.withTables<Tables>(), folder, version, statSync(path));
  } catch (error) {
    if (connection !== undefined) release(connection);
    throw inWords(error, folder, 'open');
  }
}

function storeOn(database: Kysely<Tables>, folder: string, version: number, opened: FileMark): Store {
  const path = join(folder, databaseFileName);
  const run = async <T>(act: 'read' | 'write', work: (database: Transaction<Tables>) => Promise<T>): Promise<T> => {
    try {
      return await database.transaction().execute(work);
    } catch (error) {
      throw inWords(error, folder, act);
    }
  };
  return {
    folder,
    version,
    read: (work) => run('read', work),
    async write(work) {
      // A deleted file can still be written by whoever has it open, and would take the save with it.
      if (!isSameFile(path, opened)) throw storeGone(folder);
      const result = await run('write', work);
      if (!isSameFile(path, opened)) throw storeGone(folder);
      return result;
    },
    close: () => database.destroy(),
  };
}

function makeFolder(folder: string): void {
  try {
    const made = mkdirSync(folder, { recursive: true, mode: 0o700 });
    if (made !== undefined) makeDurable(dirname(made));
  } catch {
    throw new Refused(
      'store-read-only',
      `The folder ${folder} for the jobs could not be made.`,
      'Nothing was changed.',
      'Start Stopwright with --data and a folder that this user may write.',
    );
  }
}

function isSound(connection: Database.Database): boolean {
  const [row] = connection.prepare('PRAGMA quick_check(1)').all() as { quick_check: string }[];
  return row?.quick_check === 'ok';
}

interface FileMark {
  readonly dev: number;
  readonly ino: number;
}

function isSameFile(path: string, opened: FileMark): boolean {
  const now = statSync(path, { throwIfNoEntry: false });
  return now !== undefined && now.dev === opened.dev && now.ino === opened.ino;
}

/**
 * SQLite ends a transaction by itself when the disk is full or fails. Kysely then rolls back once more, and that
 * second error ("no transaction is active") would hide the first; so a rollback without a transaction does nothing.
 */
function forKysely(connection: Database.Database): SqliteDatabase {
  return {
    close: () => release(connection),
    prepare(text) {
      return connection.prepare(text === 'rollback' && !connection.inTransaction ? 'SELECT 1' : text);
    },
  };
}

/**
 * Closes, and gives the lock back at once: libsql really closes a connection only when the last statement made on it has been
 * collected as garbage, which may be much later.
 */
function release(connection: Database.Database): void {
  try {
    if (connection.inTransaction) connection.exec('ROLLBACK');
    connection.exec('PRAGMA locking_mode = NORMAL');
    connection.prepare('SELECT count(*) FROM sqlite_schema').all(); // the lock goes when the next reading ends
  } catch {
    // A store that cannot even be read any more has nothing to give back.
  }
  connection.close();
}

function inWords(error: unknown, folder: string, act: 'open' | 'read' | 'write'): unknown {
  return error instanceof Refused ? error : (storeTrouble(error, folder, act) ?? error);
}
