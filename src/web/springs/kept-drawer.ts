/** The drawer that was opened beside a job, kept in this browser alone. Losing it loses the choosing of a file and no more. */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

export interface KeptDrawer {
  readonly file: string;
  readonly text: string;
}

interface Tables extends DBSchema {
  drawers: { key: string; value: KeptDrawer };
}

let opened: Promise<IDBPDatabase<Tables>> | null = null;

function database(): Promise<IDBPDatabase<Tables>> {
  opened ??= openDB<Tables>('stopwright drawers', 1, {
    upgrade(made) {
      made.createObjectStore('drawers');
    },
  });
  return opened;
}

export async function keptDrawer(job: string): Promise<KeptDrawer | null> {
  try {
    return (await (await database()).get('drawers', job)) ?? null;
  } catch {
    return null;
  }
}

/** @returns false where the browser would not keep it: it then holds for this visit */
export async function keepDrawer(job: string, drawer: KeptDrawer | null): Promise<boolean> {
  try {
    if (drawer === null) await (await database()).delete('drawers', job);
    else await (await database()).put('drawers', drawer, job);
    return true;
  } catch {
    return false;
  }
}
