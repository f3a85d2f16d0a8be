/**
 * Field maps by content (the key says everything that they depend on): what was solved once is never solved again. In memory for this visit, in the browser's own store for
 * the next. Losing the store loses time and nothing else, so its failures are let pass.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

interface Tables extends DBSchema {
  results: { key: string; value: { readonly at: number; readonly result: unknown }; indexes: { at: number } };
}

/** Raised whenever the numerics change what they give. */
const EDITION = 1;
const MOST_RESULTS = 200;

let opened: Promise<IDBPDatabase<Tables>> | null = null;
const here = new Map<string, unknown>();

function database(): Promise<IDBPDatabase<Tables>> {
  opened ??= openDB<Tables>('stopwright solenoids', EDITION, {
    upgrade(made) {
      for (const name of made.objectStoreNames) made.deleteObjectStore(name);
      made.createObjectStore('results').createIndex('at', 'at');
    },
  });
  return opened;
}

export async function cached(key: string): Promise<unknown> {
  if (here.has(key)) return here.get(key);
  try {
    const row = await (await database()).get('results', key);
    if (row !== undefined) here.set(key, row.result);
    return row?.result;
  } catch {
    return undefined;
  }
}

export async function remember(key: string, result: unknown): Promise<void> {
  here.set(key, result);
  try {
    const { store, done } = (await database()).transaction('results', 'readwrite');
    await store.put({ at: Date.now(), result }, key);
    let over = (await store.count()) - MOST_RESULTS;
    for (let cursor = await store.index('at').openCursor(); cursor !== null && over > 0; over--) {
      await cursor.delete();
      cursor = await cursor.continue();
    }
    await done;
  } catch {
    // It is still remembered for this visit.
  }
}
