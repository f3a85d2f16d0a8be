/**
 * The walls of the house: who may import whom, what files are called and how long they are. The same function judges
 * the real sources and a row of small forbidden ones, so that each wall is seen to stand.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { tmpdir } from 'node:os';
import { join, posix, sep } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Rooms by floor, lowest first. A room imports itself and the floors below: never up, never sideways. */
const floors = [
  ['units', 'numerics'],
  ['physics', 'job'],
  ['assessment'],
  ['proposal', 'diagnosis'],
  ['sheets'],
  ['cli', 'server', 'web', 'worker'],
];
const floorOf = (room: string) => floors.findIndex((rooms) => rooms.includes(room));
const TOP = floors.length - 1;
const nodeRooms = ['cli', 'server', 'worker'];
const browserPackages = ['react', 'react-dom', 'react-aria-components', 'zustand', 'idb', 'comlink'];
const nodePackages = ['@hono/node-server', 'libsql', 'kysely', 'commander', 'vite', 'tsx'];
const namesThatSayNothing = [
  'utils',
  'util',
  'common',
  'helpers',
  'helper',
  'types',
  'services',
  'core',
  'lib',
  'misc',
];
const REASON_FOR_LENGTH = /Longer than 300 lines: \S/;

interface Module {
  readonly imports: readonly { readonly name: string; readonly onlyType: boolean }[];
  readonly writesToConsole: boolean;
}

/** The parts of a syntax tree's node that are looked at here. */
interface Node {
  readonly type: string;
  readonly importKind?: string;
  readonly exportKind?: string;
  readonly source?: Node;
  readonly callee?: Node;
  readonly object?: Node;
  readonly arguments?: readonly Node[];
  readonly name?: string;
  readonly value?: unknown;
}

/** Everything that a module names as another: import, export from, import(), import type, new URL(…, import.meta.url). */
function readModule(path: string, text: string): Module {
  const { program, errors } = parseSync(path, text);
  assert.deepEqual(errors, [], `${path} does not parse`);
  const imports: { name: string; onlyType: boolean }[] = [];
  let writesToConsole = false;
  const add = (literal: Node | null | undefined, onlyType: boolean) => {
    if (typeof literal?.value === 'string') imports.push({ name: literal.value, onlyType });
  };
  const visit = (node: Node): void => {
    const { type, importKind, exportKind, source, callee, object } = node;
    if (/^(Import|ExportNamed|ExportAll)Declaration$|^ImportExpression$|^TSImportType$/.test(type)) {
      add(source, type === 'TSImportType' || importKind === 'type' || exportKind === 'type');
    }
    if (type === 'NewExpression' && callee?.name === 'URL') {
      const [address, base] = node.arguments ?? [];
      if (base?.type === 'MemberExpression' && /\.tsx?$/.test(String(address?.value))) add(address, false);
    }
    if (type === 'MemberExpression' && object?.name === 'console') writesToConsole = true;
    for (const child of Object.values(node).flat() as unknown[]) {
      if (typeof child === 'object' && child !== null) visit(child as Node);
    }
  };
  visit(program);
  return { imports, writesToConsole };
}

/** Every breach in a set of files, each a sentence that begins with the path. Paths are as in the repository. */
function breaches(files: ReadonlyMap<string, string>): string[] {
  const found: string[] = [];
  const graph = new Map<string, string[]>();
  for (const [path, text] of files) {
    const say = (sentence: string) => found.push(`${path} ${sentence}`);
    for (const part of path.split('/')) {
      const word = part.split('.')[0];
      if (namesThatSayNothing.includes(word)) say(`is called "${word}", which promises nothing`);
    }
    const lines = text.split('\n');
    if (lines.length > 301 && !REASON_FOR_LENGTH.test(lines.slice(0, 40).join('\n'))) {
      say(`has ${lines.length - 1} lines and does not say near its top "Longer than 300 lines: why"`);
    }
    if (!path.startsWith('src/') || !/\.tsx?$/.test(path)) continue;
    const room = path.split('/')[1];
    if (floorOf(room) === -1) {
      say('is in no room of the house');
      continue;
    }
    const { imports, writesToConsole } = readModule(path, text);
    if (writesToConsole && floorOf(room) < TOP) say('writes to the console');
    const links: string[] = [];
    graph.set(path, links);
    for (const { name, onlyType } of imports) {
      if (name.startsWith('.')) {
        const target = posix.join(posix.dirname(path), name);
        if (!onlyType) links.push(target);
        const [top, other = ''] = target.split('/');
        if (top !== 'src') say(`imports ${target}, outside src`);
        else if (floorOf(other) === -1) say(`imports ${target}, which is in no room`);
        else if (other !== room && floorOf(other) >= floorOf(room)) say(`imports ${target}, which is not below it`);
        continue;
      }
      const packageName = name.split('/', name.startsWith('@') ? 2 : 1).join('/');
      const needsNode = isBuiltin(name) || nodePackages.includes(packageName);
      if (needsNode && !nodeRooms.includes(room)) say(`imports ${name}, which only Node has`);
      if (browserPackages.includes(packageName) && room !== 'web') say(`imports ${name}, which is for the browser`);
      if (name.startsWith('/')) say(`imports ${name} by an absolute path`);
    }
  }
  return [...found, ...rings(graph).map((ring) => `${ring[0]} is in a ring of imports: ${ring.join(' > ')}`)];
}

/** One ring for each place where following the imports leads back to a file on the way. Imports of types alone vanish. */
function rings(graph: ReadonlyMap<string, readonly string[]>): string[][] {
  const found: string[][] = [];
  const done = new Set<string>();
  const follow = (path: string, way: string[]): void => {
    const at = way.indexOf(path);
    if (at >= 0) found.push([...way.slice(at), path]);
    if (at >= 0 || done.has(path)) return;
    for (const next of graph.get(path) ?? []) follow(next, [...way, path]);
    done.add(path);
  };
  for (const path of graph.keys()) follow(path, []);
  return found;
}

function readTree(folders: readonly string[]): Map<string, string> {
  const files = new Map<string, string>();
  for (const folder of folders) {
    for (const name of readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })) {
      const path = `${folder}/${name.split(sep).join('/')}`;
      if (/\.(tsx?|mjs|css)$/.test(path)) files.set(path, readFileSync(join(root, path), 'utf8'));
    }
  }
  return files;
}

test('the sources keep the walls', () => {
  const files = readTree(['src', 'test', 'scripts', 'bin']);
  assert.ok(
    [...files.keys()].some((path) => path.startsWith('src/physics/')),
    'the sources were read',
  );
  assert.deepEqual(breaches(files), []);
});

const forbidden: [what: string, files: Record<string, string>, breach: RegExp][] = [
  [
    'up',
    { 'src/units/a.ts': `import { b } from '../physics/b.ts';` },
    /a\.ts imports src\/physics\/b\.ts, which is not below/,
  ],
  ['sideways', { 'src/job/a.ts': `export * from '../physics/b.ts';` }, /not below/],
  ['sideways on the ground', { 'src/numerics/a.ts': `import '../units/b.ts';` }, /not below/],
  ['sideways on top', { 'src/web/a.tsx': `import type { B } from '../server/b.ts';` }, /not below/],
  ['up from a deep folder', { 'src/physics/solenoid/a.ts': `import { b } from '../../assessment/b.ts';` }, /not below/],
  ['up on demand', { 'src/sheets/a.ts': `export const b = () => import('../cli/b.ts');` }, /not below/],
  ['up by type', { 'src/sheets/a.ts': `export type B = import('../web/b.ts').B;` }, /not below/],
  ['up by worker', { 'src/sheets/a.ts': `export const b = new URL('../worker/b.ts', import.meta.url);` }, /not below/],
  ['out of the house', { 'src/job/a.ts': `export { b } from '../../test/b.ts';` }, /outside src/],
  ['into no room', { 'src/job/a.ts': `import { b } from '../attic/b.ts';` }, /in no room/],
  ['from no room', { 'src/attic/a.ts': `export const a = 1;` }, /in no room/],
  ['node: in physics', { 'src/physics/a.ts': `import { join } from 'node:path';` }, /only Node has/],
  ['Node without its prefix', { 'src/web/a.ts': `import { join } from 'path';` }, /only Node has/],
  ['a store in the browser', { 'src/web/a.ts': `import { Kysely } from 'kysely';` }, /only Node has/],
  [
    'React in the sheets',
    { 'src/sheets/a.tsx': `import { renderToString } from 'react-dom/server';` },
    /for the browser/,
  ],
  ['React in the server', { 'src/server/a.ts': `import { useState } from 'react';` }, /for the browser/],
  ['the console', { 'src/assessment/a.ts': `export const a = () => console.warn('no');` }, /writes to the console/],
  ['an empty name', { 'src/physics/utils.ts': '' }, /promises nothing/],
  ['an empty folder name', { 'src/web/common/a.ts': '' }, /promises nothing/],
  ['length', { 'src/web/a.ts': '\n'.repeat(301) }, /has 301 lines/],
  ['length without a reason', { 'test/a.test.ts': `// Longer than 300 lines:${'\n'.repeat(301)}` }, /has 301 lines/],
  [
    'a ring',
    { 'src/job/a.ts': `import './b.ts';`, 'src/job/b.ts': `import './c.ts';`, 'src/job/c.ts': `import './b.ts';` },
    /b\.ts is in a ring of imports: src\/job\/b\.ts > src\/job\/c\.ts > src\/job\/b\.ts/,
  ],
];
for (const [what, files, breach] of forbidden) {
  test(`a wall stands against ${what}`, () => {
    const found = breaches(new Map(Object.entries(files)));
    assert.equal(found.length, 1, found.join('\n'));
    assert.match(found[0], breach);
  });
}

test('what is allowed passes', () => {
  const allowed = {
    'src/assessment/a.ts': `import { b } from '../physics/solenoid/b.ts';\nimport { c } from './checks/c.ts'; // not '../cli/d.ts'`,
    'src/physics/solenoid/b.ts': `export const text = "import '../web/x.ts'; console.log(1)";`,
    'src/cli/a.ts': `import { join } from 'node:path';\nimport { Command } from 'commander';\nconsole.log(join, Command);`,
    'src/web/a.tsx': `import { useState } from 'react';\nimport './a.css';\nexport const a = <p>{String(useState)}</p>;`,
    'src/job/a.ts': `import type { B } from './b.ts';`,
    'src/job/b.ts': `import { a } from './a.ts';`,
    'src/web/long.ts': `// Longer than 300 lines: a table that is read as one.${'\n'.repeat(400)}`,
  };
  assert.deepEqual(breaches(new Map(Object.entries(allowed))), []);
});

test('the compiler gives the lower floors neither the page nor Node', () => {
  const settings = JSON.parse(readFileSync(join(root, 'tsconfig.pure.json'), 'utf8'));
  const lower = floors.slice(0, TOP).flat();
  assert.deepEqual(settings.include.toSorted(), lower.map((room) => `src/${room}`).toSorted());

  const folder = mkdtempSync(join(tmpdir(), 'stopwright-walls-'));
  try {
    const lines = [
      'export const a = document.title;',
      'export const b = process.argv;',
      'console.log(window);',
      `import 'node:fs';`,
    ];
    writeFileSync(join(folder, 'fixture.ts'), lines.join('\n'));
    const project = { extends: join(root, 'tsconfig.pure.json'), include: [], files: ['fixture.ts'] };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(project));
    const compiler = join(root, 'node_modules', 'typescript', 'bin', 'tsc');
    const { stdout } = spawnSync(process.execPath, [compiler, '-p', folder], { encoding: 'utf8' });
    for (const name of ['document', 'process', 'console', 'window', 'node:fs']) {
      assert.match(stdout, new RegExp(`Cannot find (name|module) '${name}'|side-effect import of '${name}'`), stdout);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
});
