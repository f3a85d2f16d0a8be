/** Jobs for tests: the demonstrations, and the same with some places changed. Every one of them is read by the reader. */
import { apply, change } from '../../src/job/change.ts';
import { demoJobs } from '../../src/job/demos.ts';
import { readDocument } from '../../src/job/read.ts';
import type { Job } from '../../src/job/schema.ts';

/** The job of a value that must be a good document. */
export function readable(document: unknown): Job {
  const read = readDocument(document);
  if (!read.ok) throw new Error(`the document does not read: ${JSON.stringify(read.problems, null, 1)}`);
  return read.job;
}

export function demo(name: string): Job {
  const found = demoJobs.find((one) => one.name === name);
  if (found === undefined) throw new Error(`there is no demonstration called ${name}`);
  return readable(found.document);
}

/** `job` with other values at some paths; undefined takes a field away. Unread: for texts that are known to be good. */
export function altered(job: Job, places: Readonly<Record<string, unknown>>): Job {
  return Object.entries(places).reduce((now, [path, to]) => apply(now, [change(now, path, to)]), job);
}

/** `altered`, read again. */
export function changed(job: Job, places: Readonly<Record<string, unknown>>): Job {
  return readable(altered(job, places));
}
