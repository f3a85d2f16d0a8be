// Runs test files (node --import tsx scripts/run-tests.mjs FILE…) in one report with one summary: files two at a time,
// then those in test/browser one at a time, since each drives a browser of its own.
import { setMaxListeners } from 'node:events';
import { run } from 'node:test';
import { spec } from 'node:test/reporters';
import { Readable } from 'node:stream';

const files = process.argv.slice(2);
const inBrowser = (/** @type {string} */ file) => file.startsWith('test/browser/');
const parts = [
  { files: files.filter((file) => !inBrowser(file)), concurrency: 2 },
  { files: files.filter(inBrowser), concurrency: 1 },
];
// The files run in processes of their own: told to stop, take them along.
const told = new AbortController();
setMaxListeners(0, told.signal); // one for each file
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => told.abort());

const MOST_TIME_FOR_A_FILE = 600_000; // ms

/** Everything both parts report, with the closing counts of each added up and told once, at the end. */
async function* events() {
  /** @type {Map<string, number>} */
  const counts = new Map();
  const summaries = [];
  for (const part of parts.filter(({ files }) => files.length > 0)) {
    for await (const event of run({ ...part, timeout: MOST_TIME_FOR_A_FILE, signal: told.signal })) {
      const count = event.type === 'test:diagnostic' && event.data.nesting === 0 && closing(event.data);
      if (count) counts.set(count.name, (counts.get(count.name) ?? 0) + count.number);
      else if (event.type === 'test:summary' && event.data.file === undefined) summaries.push(event);
      else yield event;
    }
  }
  for (const [name, number] of counts) {
    yield { type: 'test:diagnostic', data: { nesting: 0, message: `${name} ${number}` } };
  }
  yield* summaries.slice(-1); // newer Nodes list the failures of all files at this event
  if ((counts.get('fail') ?? 1) > 0 || (counts.get('cancelled') ?? 1) > 0) process.exitCode = 1;
}

/** @param {{ message: string, file?: string }} diagnostic */
function closing({ message, file }) {
  const found = /^(tests|suites|pass|fail|cancelled|skipped|todo|duration_ms) ([\d.]+)$/.exec(message);
  return found && file === undefined ? { name: found[1], number: Number(found[2]) } : null;
}

Readable.from(events())
  .compose(new spec())
  .on('end', () => process.stdout.write('\n'))
  .pipe(process.stdout);
