/** The little that the server asks of a job document. What a document means is the business of src/job. */
import type { Problem } from '../job/exchange.ts';
import { documentUnreadable } from './refusal.ts';

/** Reads a document and lists every problem; `readJob` of src/job/read.ts is one. */
export type ReadJob = (
  text: string,
) => { readonly ok: true } | { readonly ok: false; readonly problems: readonly Problem[] };

/** @throws Refused the text does not read as a job, with every problem in it */
export function requireReadable(readJob: ReadJob, text: string): void {
  const result = readJob(text);
  if (!result.ok) throw documentUnreadable(result.problems);
}

/** The name that the document gives itself, if it has one. */
export function documentName(text: string): string | undefined {
  try {
    const { name } = JSON.parse(text.replace(/^\uFEFF/, '')) as { name?: unknown };
    return typeof name === 'string' && name.trim() !== '' ? name.replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ') : undefined;
  } catch {
    return undefined;
  }
}
