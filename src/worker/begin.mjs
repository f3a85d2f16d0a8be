// First words of a worker thread: makes the sources readable as they are, then begins the work that it was made for.
import { workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';
import { fileURLToPath } from 'node:url';

register({ tsconfig: fileURLToPath(new URL('../../tsconfig.json', import.meta.url)) });
await import(`./${workerData.work}.ts`);
