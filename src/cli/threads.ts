/** Worker threads that share the pieces of a piece of work. Results go by the number of the piece, so who did it does not show. */
import { Worker } from 'node:worker_threads';

/** What a thread does: the file of that name in `src/worker`. */
export type Work = 'spread' | 'search' | 'drawer';

export interface Threads<Task, Done> {
  /**
   * Does tasks in any order, and hands in each result with the number of its task.
   *
   * @returns false when stopped before the last
   */
  run(tasks: readonly Task[], take: (piece: number, done: Done) => void): Promise<boolean>;
  /** Ends every thread; whatever runs comes to an end as stopped. */
  stop(): void;
}

/** Pieces given to a thread ahead, so that it never waits for the post. */
const AHEAD = 2;

/** @param begin what every thread is told at its beginning */
export function threads<Task, Done>(work: Work, count: number, begin: object): Threads<Task, Done> {
  const first = new URL('../worker/begin.mjs', import.meta.url);
  const workers = Array.from({ length: count }, () => new Worker(first, { workerData: { work, ...begin } }));
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
          worker.on('message', ({ piece, done }: { readonly piece: number; readonly done: Done }) => {
            if (isStopped) return;
            take(piece, done);
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
