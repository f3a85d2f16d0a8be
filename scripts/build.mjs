// Builds what is out of date: the web app into dist/web, the command line into dist/cli.
// `node scripts/build.mjs` builds what changed; with --all, everything.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { build } from 'vite';
import { commandLine, isFresh, root, sourceHash, webApp } from './sources.mjs';

const all = process.argv.includes('--all');

// The hash is taken before the sources are read and written after the last file, so a stamp never claims too much.
/**
 * @param {import('./sources.mjs').Part} part
 * @param {import('vite').InlineConfig} settings
 */
async function make(part, settings) {
  if (!all && isFresh(part)) return;
  const hash = sourceHash(part);
  const stamp = join(root, part.stamp);
  rmSync(stamp, { force: true });
  await build({ logLevel: 'warn', ...settings });
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, `${JSON.stringify({ hash })}\n`);
}

// A module that looks for a file beside itself finds it from dist/cli too.
const whereItStood = {
  name: 'where-it-stood',
  transform(/** @type {string} */ code, /** @type {string} */ id) {
    if (!id.startsWith(join(root, 'src')) || !code.includes('import.meta.url')) return null;
    const place = JSON.stringify(relative(join(root, 'dist', 'cli'), id).replaceAll('\\', '/'));
    return code.replaceAll('import.meta.url', `new URL(${place}, import.meta.url).href`);
  },
};

await make(webApp, { configFile: join(root, 'vite.config.ts') });
await make(commandLine, {
  configFile: false,
  root,
  plugins: [whereItStood],
  ssr: { target: 'node', noExternal: true },
  build: {
    ssr: 'src/cli/main.ts',
    outDir: 'dist/cli',
    target: 'node20',
    rolldownOptions: { output: { entryFileNames: 'main.mjs', chunkFileNames: '[name]-[hash].mjs' } },
  },
});
