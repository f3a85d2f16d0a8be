/**
 * What the database said, in words. SQLite's result codes are listed at https://www.sqlite.org/rescode.html.
 */
import { Refused } from '../refusal.ts';

/** The result code of an error that came out of the database, "" for any other. */
export function databaseCode(error: unknown): string {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return '';
  return error.code.startsWith('SQLITE_') ? error.code : '';
}

const keptBefore = 'Everything kept before is still in the store.';

/** A failed opening, reading or writing of the store in `folder`, in words; null when the error is not the database's. */
export function storeTrouble(error: unknown, folder: string, act: 'open' | 'read' | 'write'): Refused | null {
  const code = databaseCode(error);
  const is = (...families: string[]) => families.some((family) => code === family || code.startsWith(`${family}_`));
  if (code === '') return null;
  if (is('SQLITE_CORRUPT', 'SQLITE_NOTADB')) return storeDamaged(folder);
  if (act === 'open') return cannotOpen(folder, is('SQLITE_BUSY', 'SQLITE_LOCKED'));
  if (act === 'read') {
    return new Refused(
      'store-failed',
      'The job store could not be read.',
      'Stopwright has not changed it.',
      `Check the disk that holds ${folder}, then try again.`,
    );
  }
  if (is('SQLITE_FULL')) {
    return new Refused(
      'disk-full',
      'There is no room left on the disk, so this was NOT kept.',
      keptBefore,
      `Free some space on the disk that holds ${folder}, then try again.`,
    );
  }
  if (is('SQLITE_BUSY', 'SQLITE_LOCKED')) {
    return new Refused(
      'store-locked',
      'Another program is using the job store, so this was NOT kept.',
      keptBefore,
      `Close the other program that uses ${folder}, then try again.`,
    );
  }
  if (is('SQLITE_READONLY', 'SQLITE_CANTOPEN', 'SQLITE_PERM', 'SQLITE_AUTH')) {
    return new Refused(
      'store-read-only',
      'The job store may be read but not written, so this was NOT kept.',
      keptBefore,
      `Allow this user to write in ${folder}, then try again.`,
    );
  }
  return new Refused(
    'store-failed',
    'The disk did not take this, so it was NOT kept.',
    keptBefore,
    `Check the disk that holds ${folder}, then try again.`,
  );
}

function cannotOpen(folder: string, inUse: boolean): Refused {
  return inUse
    ? new Refused(
        'store-locked',
        `The jobs in ${folder} are already open in another Stopwright.`,
        'Nothing was changed.',
        'Use the one that is running, or start this one with another --data folder.',
      )
    : new Refused(
        'store-read-only',
        `The job store in ${folder} cannot be opened for writing.`,
        'Nothing was changed.',
        'Allow this user to write there, or start Stopwright with another --data folder.',
      );
}

export function storeDamaged(folder: string): Refused {
  return new Refused(
    'store-damaged',
    'The job store is damaged or is not a Stopwright store.',
    'Stopwright has not changed it.',
    `Copy the folder ${folder} to a safe place, then start Stopwright with another --data folder.`,
  );
}

export function storeGone(folder: string): Refused {
  return new Refused(
    'store-gone',
    'The job store was moved or deleted while Stopwright was running, so this was NOT kept.',
    'What is on the screen is still there; do not close the page.',
    `Put ${folder} back where it was, then try again; if it cannot be put back, export the job to a file.`,
  );
}
