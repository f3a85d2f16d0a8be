// What each built part is made from, and whether the part in dist/ was made from the sources as they are now.
// Only node: modules, and quick: bin/stopwright.mjs asks on every start.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** @typedef {{ stamp: string, sources: readonly string[], without: readonly string[] }} Part */

/** The app in the browser: everything in src but the rooms that run elsewhere. @type {Part} */
export const webApp = {
  stamp: 'dist/web/build.json',
  sources: ['src', 'package-lock.json', 'vite.config.ts', 'scripts/build.mjs'],
  without: ['src/cli', 'src/server', 'src/worker'],
};

/** The command line in one file, which starts three times as fast as its sources. @type {Part} */
export const commandLine = {
  stamp: 'dist/cli/build.json',
  sources: ['src', 'package-lock.json', 'scripts/build.mjs'],
  without: ['src/web', 'src/server', 'src/worker'],
};

/**
 * One hash over the names and contents of a part's sources, 16 hexadecimal digits.
 * @param {Part} part
 */
export function sourceHash(part) {
  const hash = createHash('sha256');
  /** @param {string} path */
  const add = (path) => {
    if (part.without.includes(path)) return;
    const place = join(root, path);
    if (statSync(place).isDirectory()) for (const name of readdirSync(place).sort()) add(`${path}/${name}`);
    else hash.update(`${path}\0`).update(readFileSync(place)).update('\0');
  };
  for (const path of part.sources) if (existsSync(join(root, path))) add(path);
  return hash.digest('hex').slice(0, 16);
}

/**
 * True when the part in dist/ was built from the sources as they are now.
 * @param {Part} part
 */
export function isFresh(part) {
  const stamp = join(root, part.stamp);
  return existsSync(stamp) && JSON.parse(readFileSync(stamp, 'utf8')).hash === sourceHash(part);
}
