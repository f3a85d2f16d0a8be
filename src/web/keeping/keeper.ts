/**
 * Keeps one open job: every change becomes a revision on the server. A change is first written into the outbox, then,
 * after a short wait in which further changes may take its place, sent; sending goes on until the server has
 * acknowledged it. Only then is it `kept`.
 */
import type { RevisionEntry, SavedAnswer } from '../../job/exchange.ts';
import { NotDone, type Api, type Trouble } from './api.ts';
import type { Entry, Outbox } from './outbox.ts';

export type Keeping =
  | { readonly word: 'kept' }
  | { readonly word: 'keeping' }
  | { readonly word: 'NOT kept'; readonly trouble: Trouble };

export interface KeeperParts {
  readonly job: string;
  readonly tab: string;
  /** The revision that the document on the screen came from. */
  readonly tip: string;
  readonly api: Pick<Api, 'save'>;
  readonly outbox: Pick<Outbox, 'put' | 'drop'>;
  readonly newId: () => string;
  readonly told: (keeping: Keeping) => void;
  /** The server has acknowledged; the answer tells whether somebody else had saved first. */
  readonly acknowledged: (answer: SavedAnswer) => void;
  /** Milliseconds in which further changes may join. */
  readonly patience?: number;
}

interface Waiting {
  readonly entry: Entry;
  /** It has been sent and not been refused: the server may have it. */
  mayBeKept: boolean;
  /** It was sent once and no answer came back: whatever is answered later, the server may have it. */
  wasUnanswered: boolean;
}

const PATIENCE_MS = 400;
const RETRIES_MS = [1_000, 2_000, 5_000, 10_000];

export class Keeper {
  readonly #parts: KeeperParts;
  #tip: string;
  #waiting: Waiting[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  #sending = false;
  #failures = 0;
  #lastTime = 0;

  constructor(parts: KeeperParts) {
    this.#parts = parts;
    this.#tip = parts.tip;
  }

  /** The revision that the document on the screen is, or will be once it is kept. */
  get revision(): string {
    return this.#waiting.at(-1)?.entry.id ?? this.#tip;
  }

  /** The last revision that the server has acknowledged. */
  get tip(): string {
    return this.#tip;
  }

  get isIdle(): boolean {
    return this.#waiting.length === 0;
  }

  /** Takes a document. `mergedWith` is the other head where it joins two. */
  change(text: string, label: string | null, mergedWith: string | null = null): void {
    const { job, tab, newId, outbox, told } = this.#parts;
    const last = this.#waiting.at(-1);
    const replaced =
      last !== undefined && !last.mayBeKept && last.entry.parents.length === 1 && mergedWith === null
        ? last.entry
        : null;
    const parents = replaced?.parents ?? [this.revision, ...(mergedWith === null ? [] : [mergedWith])];
    this.#lastTime = Math.max(Date.now(), this.#lastTime + 1);
    const entry: Entry = { id: newId(), tab, job, parents, text, label: oneLine(label), at: this.#lastTime };
    if (replaced !== null) this.#waiting.pop();
    this.#waiting.push({ entry, mayBeKept: false, wasUnanswered: false });
    // Without the outbox the change still goes to the server; the word on the screen says when it is there.
    outbox.put(entry, replaced?.id ?? null).catch(() => undefined);
    if (this.#failures === 0) {
      told({ word: 'keeping' });
      this.#sendIn(this.#parts.patience ?? PATIENCE_MS);
    }
  }

  /** Sends what waits, now. */
  flush(): Promise<void> {
    clearTimeout(this.#timer);
    return this.#send();
  }

  /** The page is closing: sends everything at once, in requests that outlive it. */
  leave(): void {
    clearTimeout(this.#timer);
    const unsent = this.#sending ? this.#waiting.slice(1) : this.#waiting;
    for (const waiting of unsent) {
      waiting.mayBeKept = true;
      waiting.wasUnanswered = true; // the page may come back
      this.#post(waiting.entry).catch(() => undefined);
    }
  }

  close(): void {
    clearTimeout(this.#timer);
  }

  #sendIn(milliseconds: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#send(), milliseconds);
  }

  async #send(): Promise<void> {
    if (this.#sending) return;
    this.#sending = true;
    const { outbox, told, acknowledged } = this.#parts;
    try {
      for (let first = this.#waiting[0]; first !== undefined; first = this.#waiting[0]) {
        first.mayBeKept = true;
        try {
          const answer = await this.#post(first.entry);
          this.#failures = 0;
          this.#tip = first.entry.id;
          this.#waiting.shift();
          await outbox.drop(first.entry.id).catch(() => undefined);
          acknowledged(answer);
        } catch (error) {
          if (!(error instanceof NotDone)) throw error;
          // A refusal is certain, unless an earlier attempt got no answer: this revision is not there, and a later
          // change may take its place.
          if (error.isOpen) first.wasUnanswered = true;
          else if (!first.wasUnanswered) this.#joinWaiting(first);
          told({ word: 'NOT kept', trouble: error.trouble });
          this.#sendIn(RETRIES_MS[Math.min(this.#failures, RETRIES_MS.length - 1)] ?? 0);
          this.#failures += 1;
          return;
        }
      }
      told({ word: 'kept' });
    } finally {
      this.#sending = false;
    }
  }

  /** After a certain refusal of the first: what waits becomes one entry, so that a mended document is not held up by a bad one. */
  #joinWaiting(first: Waiting): void {
    first.mayBeKept = false;
    const last = this.#waiting.at(-1);
    if (last === undefined || last === first || last.entry.parents.length > 1) return;
    const { outbox, newId } = this.#parts;
    const joined: Entry = { ...last.entry, id: newId(), parents: first.entry.parents };
    const dropped = this.#waiting.map(({ entry }) => entry.id);
    this.#waiting = [{ entry: joined, mayBeKept: false, wasUnanswered: false }];
    outbox
      .put(joined, null)
      .then(() => Promise.all(dropped.map((id) => outbox.drop(id))))
      .catch(() => undefined);
  }

  #post({ job, id, parents, text, label }: Entry): Promise<SavedAnswer> {
    return this.#parts.api.save(job, { id, parents: [...parents], text, label });
  }
}

/** A label as the server takes it: one line, not too long. */
function oneLine(label: string | null): string | null {
  if (label === null) return null;
  const line = label.replaceAll(/[\p{Cc}\p{Cs}\u2028\u2029]+/gu, ' ').trim();
  return line.length <= 200 ? line : `${line.slice(0, 198).replace(/\p{Cs}$/u, '')}…`;
}

/** Sends what an earlier visit left in the outbox. An entry that the server refuses for good stays, and is told. */
export async function sendLeftovers(
  entries: readonly Entry[],
  parts: { readonly api: Pick<Api, 'save'>; readonly outbox: Pick<Outbox, 'drop'> },
): Promise<{ readonly sent: readonly RevisionEntry[]; readonly trouble: Trouble | null }> {
  const sent: RevisionEntry[] = [];
  for (const { job, id, parents, text, label } of entries) {
    try {
      const { revision } = await parts.api.save(job, { id, parents: [...parents], text, label });
      sent.push(revision);
      await parts.outbox.drop(id).catch(() => undefined);
    } catch (error) {
      if (!(error instanceof NotDone)) throw error;
      return { sent, trouble: error.trouble };
    }
  }
  return { sent, trouble: null };
}
