// npm test: does its own set-up, then proves everything.
//   npm test                     all of it
//   npm test -- units linkage    only the test files whose path contains one of the words
//   npm test -- --no-browser     all but the tests that need Chromium
import { readdirSync } from 'node:fs';
import { join, sep } from 'node:path';
import { chromium } from './chromium.mjs';
import { run } from './child.mjs';
import { install } from './install.mjs';
import { root } from './sources.mjs';

const args = process.argv.slice(2);
const words = args.filter((word) => !word.startsWith('--'));
const unknown = args.filter((word) => word.startsWith('--') && word !== '--no-browser');
if (unknown.length > 0)
  end(64, `npm test knows no option ${unknown.join(', ')}; it knows --no-browser and words to look for.`);

const inBrowser = (/** @type {string} */ file) => file.startsWith('test/browser/');
const files = readdirSync(join(root, 'test'), { recursive: true, encoding: 'utf8' })
  .map((name) => `test/${name.split(sep).join('/')}`)
  .filter((file) => /\.test\.tsx?$/.test(file))
  .filter((file) => words.length === 0 || words.some((word) => file.includes(word)))
  .filter((file) => !inBrowser(file) || !args.includes('--no-browser'))
  .sort((a, b) => Number(inBrowser(a)) - Number(inBrowser(b)) || (a < b ? -1 : 1));
if (files.length === 0) end(1, `No test file has ${words.join(' or ')} in its path.`);

await install();
/** @type {Record<string, string>} */
const env = files.some(inBrowser) ? { CHROMIUM: await chromium() } : {};

/** @type {string[]} */
const failed = [];
const needBuild = files.some((file) => /^test\/(browser|cli|scripts|server)\//.test(file));
if (needBuild) await stage('build', process.execPath, ['scripts/build.mjs']);
if (words.length === 0) {
  const script = (/** @type {string} */ name) => stage(name, 'npm', ['run', '--silent', name]);
  await Promise.all([script('typecheck'), script('lint')]);
}
console.log(`\n== tests (${files.length} files)`);
const tests = await run(process.execPath, ['--import', 'tsx', 'scripts/run-tests.mjs', ...files], { env });
if (tests.code !== 0) failed.push('tests');
if (failed.length > 0) end(1, `npm test: FAILED in ${failed.join(', ')}`);
console.log('\nnpm test: everything holds');

/**
 * Runs one stage and shows what it said when it failed.
 * @param {string} name
 * @param {string} program
 * @param {readonly string[]} args
 */
async function stage(name, program, args) {
  const began = performance.now();
  const { code, text } = await run(program, args, { quiet: true });
  const seconds = ((performance.now() - began) / 1000).toFixed(1);
  if (code === 0) return console.log(`== ${name}: holds (${seconds} s)`);
  failed.push(name);
  console.log(`== ${name}: FAILED (${seconds} s)\n${text.trimEnd()}\n== end of ${name}`);
}

/**
 * @param {number} code
 * @param {string} sentence
 * @returns {never}
 */
function end(code, sentence) {
  console.error(`\n${sentence}`);
  process.exit(code);
}
