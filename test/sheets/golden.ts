/**
 * Drawings that must come out as they were, byte for byte. Where one differs, what came out is left beside what was
 * expected as `NAME.actual.svg`, for the eye; if the change is wanted, that file takes the place of the other.
 */
import assert from 'node:assert/strict';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';

export function assertDrawn(name: string, actual: string): void {
  const expectedFile = new URL(`./expected/${name}.svg`, import.meta.url);
  const actualFile = new URL(`./expected/${name}.actual.svg`, import.meta.url);
  const expected = existsSync(expectedFile) ? readFileSync(expectedFile, 'utf8') : null;
  if (expected === actual) {
    rmSync(actualFile, { force: true });
    return;
  }
  writeFileSync(actualFile, actual);
  assert.fail(
    `the drawing ${name} came out differently: compare expected/${name}.svg with expected/${name}.actual.svg`,
  );
}
