/** A job from a file or from standard input, or every reason why it cannot be read. */
import { readFileSync } from 'node:fs';
import { readJob } from '../job/read.ts';
import { MOST_CHARACTERS, type Problem } from '../job/opening.ts';
import type { Job } from '../job/schema.ts';
import { plain } from './print.ts';

export type JobFile = { readonly ok: true; readonly job: Job } | { readonly ok: false; readonly reason: string };

export function jobFrom(path: string): JobFile {
  let text: string;
  try {
    text = readFileSync(path === '-' ? 0 : path, 'utf8');
  } catch (error) {
    return { ok: false, reason: readTrouble(path, error) };
  }
  const read = readJob(text.length > MOST_CHARACTERS ? text.slice(0, MOST_CHARACTERS + 1) : text);
  return read.ok
    ? read
    : { ok: false, reason: problemsInWords(path === '-' ? 'The job on standard input' : path, read.problems) };
}

/** Why a file could not be read. */
export function readTrouble(path: string, error: unknown): string {
  const { code } = error as NodeJS.ErrnoException;
  const why =
    code === 'ENOENT'
      ? 'there is no such file'
      : code === 'EISDIR'
        ? 'that is a folder'
        : code === 'EACCES'
          ? 'this user may not read it'
          : String(code);
  return `Cannot read ${plain(path)}: ${why}.`;
}

const MOST_SHOWN = 50;

export function problemsInWords(file: string, problems: readonly Problem[]): string {
  const name = plain(file);
  const rows = problems
    .slice(0, MOST_SHOWN)
    .map((one) => `  ${plain(one.path || 'document')}: read ${plain(one.read)}\n      ${plain(one.problem)}`);
  const more = problems.length > MOST_SHOWN ? [`  and ${problems.length - MOST_SHOWN} more`] : [];
  return [
    `${name} cannot be read: ${problems.length === 1 ? 'one problem' : `${problems.length} problems`}.`,
    ...rows,
    ...more,
  ].join('\n');
}
