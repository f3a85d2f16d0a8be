/** A drawer file, read from a path or from standard input. */
import { readFileSync } from 'node:fs';
import { MOST_DRAWER_CHARACTERS, readDrawer } from '../job/drawer/read.ts';
import type { Drawer } from '../job/drawer/schema.ts';
import { problemsInWords, readTrouble } from './job-file.ts';

/** The drawer, or why it cannot be read. */
export function drawerFrom(path: string): Drawer | string {
  let text: string;
  try {
    text = readFileSync(path === '-' ? 0 : path, 'utf8');
  } catch (error) {
    return readTrouble(path, error);
  }
  const read = readDrawer(text.length > MOST_DRAWER_CHARACTERS ? text.slice(0, MOST_DRAWER_CHARACTERS + 1) : text);
  return read.ok ? read.drawer : problemsInWords(path === '-' ? 'The drawer on standard input' : path, read.problems);
}
