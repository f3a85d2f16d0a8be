/** What no file of the repository may hold: a folder of somebody's machine, or the name of a package registry's host. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const notOurs = new Set(['.git', 'node_modules', 'dist', 'actual', '.stopwright']);

// The words are put together here, so that this file does not hold them itself.
const folders = ['work', 'home', 'Users', 'root'];
const machinePath = new RegExp(`(?<![\\w.)\\]}/-])/{1,3}(?:${folders.join('|')})/`, 'g');
const hosts = [
  ['npm', 'js.org'],
  ['npm', 'js.com'],
  ['npm', 'mirror.com'],
  ['yarn', 'pkg.com'],
  ['deb.', 'debian.org'],
  ['py', 'pi.org'],
  ['crates', '.io'],
  ['npm.', 'jsr.io'],
  ['npm.pkg.', 'github.com'],
].map((parts) => parts.join(''));
const registryHost = new RegExp(hosts.map((host) => host.replaceAll('.', '\\.')).join('|'), 'gi');

function traces(text: string): string[] {
  return [...(text.match(machinePath) ?? []), ...(text.match(registryHost) ?? [])];
}

function* filesIn(folder: string): Generator<string> {
  for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
    const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
    if (notOurs.has(entry.name)) continue;
    if (entry.isDirectory()) yield* filesIn(path);
    else if (entry.isFile() && !entry.name.endsWith('.log')) yield path;
  }
}

test('no file names a folder of a machine or a registry', () => {
  const found: string[] = [];
  let read = 0;
  for (const path of filesIn('')) {
    read++;
    const text = readFileSync(join(root, path), 'latin1');
    for (const trace of new Set([...traces(path), ...traces(text)])) found.push(`${path} holds ${trace}`);
  }
  assert.ok(read > 20, `only ${read} files were read`);
  assert.deepEqual(found, []);
});

test('the search finds what it looks for and leaves the rest', () => {
  const [workplace = '', dwelling = ''] = folders;
  for (const text of [
    `at /${workplace}/main/a.ts`,
    `"/${dwelling}/ann/x"`,
    `file:///${dwelling}/ann`,
    `https://registry.${hosts[0]}/zod`,
  ]) {
    assert.equal(traces(text).length, 1, text);
  }
  for (const text of [
    `src/${workplace}/a.ts`,
    `./${dwelling}/index.html`,
    `${dwelling}/index.html`,
    'https://example.org/x',
  ]) {
    assert.deepEqual(traces(text), [], text);
  }
});

test('the lock file pins by content and names no place to fetch from', () => {
  const lock: { packages: Record<string, { resolved?: string; integrity?: string; version?: string }> } = JSON.parse(
    readFileSync(join(root, 'package-lock.json'), 'utf8'),
  );
  const packages = Object.entries(lock.packages).filter(([name]) => name !== '');
  assert.ok(packages.length > 20);
  for (const [name, entry] of packages) {
    assert.equal(entry.resolved, undefined, `${name} names where it came from`);
    assert.match(entry.integrity ?? '', /^sha512-/, `${name} is pinned by no digest`);
  }
});

test('every dependency is pinned to one version', () => {
  const { dependencies, devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies })) {
    assert.match(String(version), /^\d+\.\d+\.\d+(-[\w.]+)?$/, name);
  }
});
