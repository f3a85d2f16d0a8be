/**
 * What has been changed here and is not known to be kept by the server yet. Each change is written down in the browser,
 * durably, the moment it is made, and crossed out when the server has acknowledged it; whatever a closed or crashed tab
 * leaves behind is sent by the next one.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

export interface Entry {
  /** Id of the revision that this becomes, made here so that sending it twice does no harm. */
  readonly id: string;
  /** Which tab wrote it. While that tab lives, nobody else sends it. */
  readonly tab: string;
  readonly job: string;
  readonly parents: readonly string[];
  readonly text: string;
  readonly label: string | null;
  /** Milliseconds, and the order of sending. */
  readonly at: number;
}

export interface Outbox {
  /** Writes down `entry` and crosses out the one it replaces, in one go. */
  put(entry: Entry, instead: string | null): Promise<void>;
  drop(id: string): Promise<void>;
  /** In the order of sending. */
  all(): Promise<Entry[]>;
  putSteps(job: string, text: string): Promise<void>;
  steps(job: string): Promise<string | null>;
}

interface Tables extends DBSchema {
  outbox: { key: string; value: Entry };
  steps: { key: string; value: string };
}

const strict = { durability: 'strict' } as const;
let opened: Promise<IDBPDatabase<Tables>> | null = null;

function database(): Promise<IDBPDatabase<Tables>> {
  opened ??= openDB<Tables>('stopwright', 1, {
    upgrade(made) {
      made.createObjectStore('outbox', { keyPath: 'id' });
      made.createObjectStore('steps');
    },
  });
  return opened;
}

export const outbox: Outbox = {
  async put(entry, instead) {
    const transaction = (await database()).transaction('outbox', 'readwrite', strict);
    if (instead !== null) void transaction.store.delete(instead);
    void transaction.store.put(entry);
    await transaction.done;
  },
  async drop(id) {
    const transaction = (await database()).transaction('outbox', 'readwrite', strict);
    void transaction.store.delete(id);
    await transaction.done;
  },
  async all() {
    return (await (await database()).getAll('outbox')).sort((a, b) => a.at - b.at);
  },
  async putSteps(job, text) {
    await (await database()).put('steps', text, job);
  },
  async steps(job) {
    return (await (await database()).get('steps', job)) ?? null;
  },
};
