/** The program behind `npm start`: reads the options, starts the server, prints the address, opens the page. */
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { readJob } from '../job/read.ts';
import { readDemos } from './demos.ts';
import { openPage } from './open-page.ts';
import { Refused } from './refusal.ts';
import { startServer } from './serve.ts';

const help = `Keeps jobs on this machine and serves the app to the browser on it.

  --port N     listen on this port, or the next free one; 0 for any    (4780)
  --data DIR   folder that holds the jobs                              (${join('~', '.stopwright')})
  --no-open    do not open the page
  --help       this text

Examples
  npm start
  npm start -- --port 0 --no-open
  npm start -- --data /media/stick/jobs
`;

const wrongUsage = 64;
const cannotStart = 69;

process.exitCode = await main(process.argv.slice(2));

async function main(words: string[]): Promise<number> {
  let options: { port: string; data: string; 'no-open': boolean; help: boolean };
  try {
    ({ values: options } = parseArgs({
      args: words,
      options: {
        port: { type: 'string', default: '4780' },
        data: { type: 'string', default: join(homedir(), '.stopwright') },
        'no-open': { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    }));
  } catch (error) {
    return complain(`${(error as Error).message.split('. ')[0]}.\n\n${help}`, wrongUsage);
  }
  if (options.help) {
    process.stdout.write(help);
    return 0;
  }
  const port = Number(options.port);
  if (!/^\d{1,5}$/.test(options.port) || port > 65_535) {
    return complain(`--port: read "${options.port}"; a whole number from 0 to 65535 would be right.\n`, wrongUsage);
  }

  process.umask(0o077); // what is kept here is for this user's eyes
  try {
    const server = await startServer({
      folder: resolve(options.data),
      webFolder: fileURLToPath(new URL('../../dist/web', import.meta.url)),
      port,
      demos: readDemos(),
      readJob,
      report: (error) => console.error(error),
    });
    if (port !== 0 && server.port !== port) console.error(`Port ${port} is taken; using ${server.port}.`);
    console.log(`Stopwright is at ${server.address}`);
    if (!options['no-open']) openPage(server.address);
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
      process.once(signal, () => void server.close().then(() => process.exit(0)));
    }
    return 0;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    const { what, safe, next } = error.refusal;
    return complain(`${what}\n${safe}\n${next}\n`, cannotStart);
  }
}

function complain(text: string, exitCode: number): number {
  process.stderr.write(text);
  return exitCode;
}
