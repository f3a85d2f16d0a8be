// npm start: installs, builds what changed, and becomes the server, in this very process: there is no child to leave
// behind. Options go to the server: npm start -- --port 8080 --data DIR --no-open
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { run } from './child.mjs';
import { install } from './install.mjs';
import { commandLine, isFresh, root, webApp } from './sources.mjs';

const TIME_TO_CLOSE = 5000; // ms

await install();
if (!isFresh(webApp) || !isFresh(commandLine)) {
  console.log('Building the app …');
  const { code } = await run(process.execPath, ['scripts/build.mjs']);
  if (code !== 0) {
    console.error('The app could not be built (see above). Nothing was started.');
    process.exit(code);
  }
}

closeInTime();
endWithNpm();
const words = process.argv.slice(2);
if ((process.env.STOPWRIGHT_NO_OPEN || process.env.CI) && !words.includes('--no-open')) words.push('--no-open');
const main = join(root, 'src', 'server', 'main.ts');
process.argv = [process.execPath, main, ...words];
const { register } = await import('tsx/esm/api');
register({ tsconfig: join(root, 'tsconfig.json') });
await import(pathToFileURL(main).href);

/**
 * Ctrl-C reaches us twice, from the terminal and from npm: the second must not cut off the server's orderly close.
 * A server that does not close in time is ended all the same.
 */
function closeInTime() {
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.on(signal, () => setTimeout(() => process.exit(1), TIME_TO_CLOSE).unref());
  }
}

/** An npm that is killed outright tells us nothing: when our parent is gone, stop. */
function endWithNpm() {
  if (process.env.npm_lifecycle_event === undefined || process.platform === 'win32') return;
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    process.kill(process.pid, 'SIGTERM');
  }, 250);
  watch.unref();
}
