/**
 * What the server and the app say to each other: the bodies of requests and answers of the JSON API, as plain data.
 * The server reads requests with the schemas; the app imports the types. The addresses are listed in
 * src/server/app.ts. A job document travels as the exact text that was written, never as parsed JSON, so that what
 * comes back is byte for byte what went in.
 */
import { z } from 'zod';
import type { Problem } from './opening.ts';

export type { Problem } from './opening.ts';

/** The largest request body, bytes. */
export const LARGEST_BODY_BYTES = 12 * 1024 * 1024;
/** The largest session value, bytes of UTF-8. */
export const LARGEST_SESSION_BYTES = 1024 * 1024;
/** How many session values a job may have. */
export const MOST_SESSION_KEYS = 8;
/** The name of the request header that carries the token of this start of the server. */
export const TOKEN_HEADER = 'x-stopwright-token';

/** Printable text of one line: no control characters, no halves of a surrogate pair. */
const line = (longest: number) =>
  z
    .string()
    .max(longest, `at most ${longest} characters`)
    .regex(/^[^\p{Cc}\p{Cs}\u2028\u2029]*$/u, 'one line of text without control characters');

const jobName = line(200).refine((name) => name.trim() !== '', 'a name with at least one visible character');
const author = line(200).default('');
/** Any id: made by the server (a UUID), or by the app so that a request can be repeated without doing its work twice. */
const id = z.string().regex(/^[A-Za-z0-9_-]{8,64}$/, '8 to 64 letters, digits, - or _');
const documentText = z.string().regex(/^\P{Cs}*$/u, 'text without halves of a surrogate pair');

/** POST /api/jobs */
export const createRequest = z.strictObject({
  /** Give the same id again to repeat the request safely. */
  id: id.optional(),
  /** Without one: the document's own name, or the copied job's name with "(copy)". */
  name: jobName.optional(),
  from: z.union(
    [
      z.strictObject({ text: documentText }),
      z.strictObject({ copyOf: id, revision: id.optional() }),
      z.strictObject({ demo: z.string().max(100) }),
    ],
    'one of {text}, {copyOf, revision?} and {demo}',
  ),
  author,
});
/** POST /api/jobs/:job/revisions */
export const saveRequest = z.strictObject({
  id: id.optional(),
  /** The revision this document was made from; two when it merges two heads. */
  parents: z
    .array(id)
    .min(1)
    .max(2)
    .refine(([first, second]) => first !== second, 'two different revisions'),
  text: documentText,
  author,
  label: line(200).nullable().default(null),
});
/** POST /api/jobs/:job/restore */
export const restoreRequest = z.strictObject({
  id: id.optional(),
  /** The revision whose document comes back. */
  revision: id,
  /** The revision that was on the screen: it stays in the history as the restore point. */
  parent: id,
  author,
  label: line(200).nullable().default(null),
});
/** PATCH /api/jobs/:job */
export const changeRequest = z
  .strictObject({ name: jobName.optional(), deleted: z.boolean().optional() })
  .refine((change) => change.name !== undefined || change.deleted !== undefined, 'a name, a deleted mark, or both');
/** PUT /api/jobs/:job/session/:key */
export const sessionRequest = z.strictObject({ value: documentText });

export type CreateRequest = z.input<typeof createRequest>;
export type SaveRequest = z.input<typeof saveRequest>;
export type RestoreRequest = z.input<typeof restoreRequest>;
export type ChangeRequest = z.input<typeof changeRequest>;
export type SessionRequest = z.input<typeof sessionRequest>;

/** A job as the list shows it. Times are ISO 8601 in UTC. */
export interface JobEntry {
  readonly id: string;
  readonly name: string;
  readonly createdAt: string;
  /** When the head was saved. */
  readonly changedAt: string;
  /** When it was deleted; null while it is not. */
  readonly deletedAt: string | null;
  /** Name of the demo it was made from, else null. */
  readonly demo: string | null;
  /** Id of the revision that opens. */
  readonly head: string;
  /** How many other heads wait for a person to merge them. */
  readonly branchCount: number;
  readonly revisionCount: number;
}

/** One revision without its document. Nothing in it ever changes. */
export interface RevisionEntry {
  readonly id: string;
  readonly jobId: string;
  /** Grows with every revision in the store: the order of saving, and the mark for reading further back. */
  readonly order: number;
  /** None for the first revision of a job, two for a merge. */
  readonly parents: readonly string[];
  /** SHA-256 of the document's UTF-8 bytes, lower-case hexadecimal. */
  readonly digest: string;
  /** Length of the document, bytes of UTF-8. */
  readonly bytes: number;
  readonly author: string;
  readonly at: string;
  readonly label: string | null;
}

export interface Revision extends RevisionEntry {
  /** The document, exactly as it was saved. */
  readonly text: string;
}

export interface JobsAnswer {
  /** Oldest first, deleted ones included with their mark. */
  readonly jobs: readonly JobEntry[];
}
/** Answer to opening, creating and importing a job. */
export interface JobAnswer {
  readonly job: JobEntry;
  readonly head: Revision;
  /** The other heads, newest first. */
  readonly branches: readonly RevisionEntry[];
}
export interface JobEntryAnswer {
  readonly job: JobEntry;
}
/**
 * Answer to a save or a restore: the revision is on the disk. When `head` is not `revision.id`, somebody else had
 * saved first: theirs is still the head, and this one is among `branches`.
 */
export interface SavedAnswer {
  readonly kept: true;
  readonly job: JobEntry;
  readonly revision: RevisionEntry;
  readonly head: string;
  readonly branches: readonly RevisionEntry[];
}
export interface RevisionsAnswer {
  /** Newest first. */
  readonly revisions: readonly RevisionEntry[];
  /** Whether older ones exist; ask again with ?before= the last `order`. */
  readonly more: boolean;
}
export interface RevisionAnswer {
  readonly revision: Revision;
}
export interface SessionAnswer {
  readonly value: string | null;
}
export interface SessionKeptAnswer {
  readonly kept: true;
}
export interface DemosAnswer {
  readonly demos: readonly { readonly name: string; readonly title: string }[];
}
export interface HealthAnswer {
  readonly program: 'stopwright';
  /** Hash of the app's files as they are served. Another value means: reload the page. */
  readonly build: string;
  /** Made anew at every start. Another value means: ask for a new token. */
  readonly start: string;
}
export interface TokenAnswer extends HealthAnswer {
  /** Goes into the header TOKEN_HEADER of every request that changes something. */
  readonly token: string;
}
export interface StoreAnswer {
  readonly folder: string;
  readonly version: number;
  /** File names, in that folder, of the copies kept before the store was brought to a newer version. */
  readonly oldCopies: readonly string[];
}

/** Why a request was refused, for the program; people read the sentences of `Refusal`. */
export type RefusalReason =
  | 'host'
  | 'origin'
  | 'token'
  | 'content-type'
  | 'body-too-large'
  | 'body-unreadable'
  | 'document-unreadable'
  | 'not-found'
  | 'id-in-use'
  | 'session-full'
  | 'disk-full'
  | 'store-locked'
  | 'store-read-only'
  | 'store-gone'
  | 'store-damaged'
  | 'store-newer'
  | 'store-failed'
  | 'unexpected';

/** Every answer that is not a success has this body. */
export interface Refusal {
  readonly reason: RefusalReason;
  /** What happened. */
  readonly what: string;
  /** What is safe. */
  readonly safe: string;
  /** The one next act. */
  readonly next: string;
  /** What is wrong with the document or the body, all of it, each at its path. */
  readonly problems?: readonly Problem[];
}
