/** Worker threads that share the pieces of a study. Results go by the number of the piece, so who did it does not show. */
import { Worker } from 'node:worker_threads';
import type { SpreadRequest } from '../assessment/spread/request.ts';
import type { Hands } from '../assessment/spread/study.ts';
import type { Job } from '../job/schema.ts';

export interface Threads extends Hands {
  /** Ends every thread; whatever runs comes to an end as stopped. */
  stop(): void;
}

interface Done {
  readonly piece: number;
  readonly margins: Float64Array;
}

/** Pieces given to a thread ahead, so that it never waits for the post. */
const AHEAD = 2;

export function threads(count: number, job: Job, request: SpreadRequest): Threads {
  const begin = new URL('../worker/begin.mjs', import.meta.url);
  const workers = Array.from({ length: count }, () => new Worker(begin, { workerData: { job, request } }));
  let isStopped = false;
  let wake: () => void = () => {};
  const stop = () => {
    isStopped = true;
    for (const worker of workers) void worker.terminate();
    wake();
  };
  return {
    stop,
    run(tasks, take) {
      if (isStopped) return Promise.resolve(false);
      if (tasks.length === 0) return Promise.resolve(true);
      return new Promise((resolve, reject) => {
        let next = 0;
        let left = tasks.length;
        const finish = (end: () => void) => {
          for (const worker of workers) worker.removeAllListeners('message').removeAllListeners('error');
          end();
        };
        wake = () => finish(() => resolve(false));
        const give = (worker: Worker) => {
          if (next < tasks.length) worker.postMessage({ piece: next, task: tasks[next] });
          next += 1;
        };
        for (const worker of workers) {
          worker.on('message', ({ piece, margins }: Done) => {
            if (isStopped) return;
            take(piece, margins);
            left -= 1;
            if (left === 0) finish(() => resolve(true));
            else give(worker);
          });
          worker.on('error', (error) => finish(() => reject(error)));
        }
        for (let ahead = 0; ahead < AHEAD; ahead++) for (const worker of workers) give(worker);
      });
    },
  };
}
