/** bin/stopwright.mjs runs the built command line while it matches the sources, and never a stale one. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
let house: string;
let hash: string;

/** Writes a file of a small house that has a command line and nothing else. */
function write(path: string, text: string): void {
  mkdirSync(join(house, path, '..'), { recursive: true });
  writeFileSync(join(house, path), text);
}

function start() {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(house, 'bin', 'stopwright.mjs'), 'word'], {
    cwd: tmpdir(),
    encoding: 'utf8',
  });
  return { status, stdout: stdout.trim(), stderr };
}

before(() => {
  house = mkdtempSync(join(tmpdir(), 'stopwright-house-'));
  for (const part of ['bin', 'scripts', 'package.json', 'tsconfig.json', 'tsconfig.base.json']) {
    cpSync(join(root, part), join(house, part), { recursive: true });
  }
  symlinkSync(join(root, 'node_modules'), join(house, 'node_modules'));
  write('src/physics/spring.ts', `export const said: string = 'sources';`);
  write('src/cli/main.ts', `import { said } from '../physics/spring.ts';\nconsole.log(said, process.argv[2]);`);
  const ask = `const { commandLine, sourceHash } = await import('./scripts/sources.mjs'); console.log(sourceHash(commandLine));`;
  hash = spawnSync(process.execPath, ['--input-type=module', '-e', ask], {
    cwd: house,
    encoding: 'utf8',
  }).stdout.trim();
  assert.match(hash, /^[0-9a-f]{16}$/);
});
after(() => rmSync(house, { recursive: true }));

test('without a built file the sources run', () => {
  assert.deepEqual(start(), { status: 0, stdout: 'sources word', stderr: '' });
});

test('a built file that matches the sources runs instead', () => {
  write('dist/cli/main.mjs', `console.log('built', process.argv[2]);`);
  write('dist/cli/build.json', JSON.stringify({ hash }));
  assert.equal(start().stdout, 'built word');
});

test('a changed, a new and a renamed source each set the built file aside', () => {
  write('src/physics/spring.ts', `export const said: string = 'changed';`);
  assert.equal(start().stdout, 'changed word');
  write('src/physics/spring.ts', `export const said: string = 'sources';`);
  assert.equal(start().stdout, 'built word');

  write('src/units/new.ts', '');
  assert.equal(start().stdout, 'sources word');
  rmSync(join(house, 'src', 'units'), { recursive: true });

  renameSync(join(house, 'src', 'physics', 'spring.ts'), join(house, 'src', 'physics', 'coil.ts'));
  write('src/cli/main.ts', `import { said } from '../physics/coil.ts';\nconsole.log(said, process.argv[2]);`);
  assert.equal(start().stdout, 'sources word');
});

test('a house without packages says what to do', () => {
  rmSync(join(house, 'node_modules'));
  const { status, stderr } = start();
  assert.equal(status, 69);
  assert.match(stderr, /not installed.*npm ci/);
});
