/** A server in a process of its own, for tests that limit, trace or kill it: prints its port, or why it did not start. */
import { Refused } from '../../src/server/refusal.ts';
import { startServer } from '../../src/server/serve.ts';
import { readAnyObject } from './running.ts';

const [folder = ''] = process.argv.slice(2);

startServer({
  folder,
  webFolder: '',
  port: 0,
  demos: [],
  readJob: readAnyObject,
  report: (error) => console.error(error),
})
  .then(({ port }) => console.log(JSON.stringify({ port })))
  .catch((error: unknown) => {
    console.log(JSON.stringify(error instanceof Refused ? error.refusal : { reason: String(error) }));
    process.exitCode = 1;
  });
