#!/usr/bin/env node
// The command line. The built file starts in a third of the time, but is used only while it matches the sources;
// otherwise the sources run as they are.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { commandLine, isFresh, root } from '../scripts/sources.mjs';

let main = join(root, 'dist', 'cli', 'main.mjs');
if (!isFresh(commandLine)) {
  if (!existsSync(join(root, 'node_modules', 'tsx'))) {
    console.error(`The packages of Stopwright are not installed. Run this first:  cd "${root}" && npm ci`);
    process.exit(69);
  }
  const { register } = await import('tsx/esm/api');
  register({ tsconfig: join(root, 'tsconfig.json') });
  main = join(root, 'src', 'cli', 'main.ts');
}
await import(pathToFileURL(main).href);
