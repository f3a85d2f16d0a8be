// Installs the packages of the lock file, unless that was done already.
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { run } from './child.mjs';
import { root } from './sources.mjs';

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Stopwright needs Node 20.19 or newer; this is ${process.version}.`);
  process.exit(1);
}

// Inside node_modules, so that whatever removes the packages removes the stamp.
const stampFile = join(root, 'node_modules', '.installed-for');

function wanted() {
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
  return `${lock} ${process.platform} ${process.arch} ABI ${process.versions.modules}\n`;
}

/** Resolves when the packages are there; ends the process with a sentence when they cannot be had. */
export async function install() {
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === wanted()) return;
  console.log('Installing packages …');
  const { code } = await run('npm', ['ci', '--include=dev', '--include=optional']);
  if (code !== 0) {
    console.error('The packages could not be installed (see above). Nothing was started.');
    process.exit(code);
  }
  writeFileSync(stampFile, wanted());
}
