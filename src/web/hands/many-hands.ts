/** Hands in workers of their own, which end with the worker that leads them. Results go by the number of the task. */
import type { Work } from './work.ts';

/** What a hand is told: how it begins, then tasks. */
export type ToHand<Begin, Task> =
  | { readonly kind: 'begin'; readonly begin: Begin }
  | { readonly kind: 'task'; readonly piece: number; readonly task: Task };

export interface FromHand<Done> {
  readonly piece: number;
  readonly done: Done;
}

export interface ManyHands<Task, Done> {
  /**
   * Does tasks in any order, and hands in each result with the number of its task.
   *
   * @returns false when stopped before the last
   */
  run(tasks: readonly Task[], take: (piece: number, done: Done) => void): Promise<boolean>;
  /** Ends every hand; whatever runs comes to an end as stopped. */
  end(): void;
}

/** Tasks given ahead, so that no hand waits for the post. */
const AHEAD = 2;

/** A hand: a worker of a worker, out of the very file that this one began with. */
export function newHand(name: Extract<Work, `${string} hand`>): Worker {
  return new Worker(self.location.href, { type: 'module', name });
}

/** As many hands as the machine has, up to eight. */
export const handCount = (): number => Math.max(1, Math.min(8, navigator.hardwareConcurrency));

export function manyHands<Task, Done>(count: number, newWorker: () => Worker, begin: object): ManyHands<Task, Done> {
  const workers = Array.from({ length: count }, newWorker);
  const tell = (worker: Worker, words: ToHand<object, Task>) => worker.postMessage(words);
  let take: (done: FromHand<Done>, by: Worker) => void = () => {};
  let fail: (error: Error) => void = () => {};
  let wake: () => void = () => {};
  let isEnded = false;
  for (const worker of workers) {
    worker.addEventListener('message', ({ data }: MessageEvent<FromHand<Done>>) => take(data, worker));
    worker.addEventListener('error', ({ message }) => fail(new Error(message)));
    tell(worker, { kind: 'begin', begin });
  }
  return {
    end() {
      isEnded = true;
      for (const worker of workers) worker.terminate();
      wake();
    },
    run(tasks, takeDone) {
      if (isEnded) return Promise.resolve(false);
      if (tasks.length === 0) return Promise.resolve(true);
      return new Promise((resolve, reject) => {
        let next = 0;
        let left = tasks.length;
        const give = (worker: Worker) => {
          const task = tasks[next];
          if (task !== undefined) tell(worker, { kind: 'task', piece: next, task });
          next += 1;
        };
        wake = () => resolve(false);
        fail = reject;
        take = ({ piece, done }, worker) => {
          if (isEnded) return;
          takeDone(piece, done);
          left -= 1;
          if (left === 0) resolve(true);
          else give(worker);
        };
        for (let ahead = 0; ahead < AHEAD; ahead++) for (const worker of workers) give(worker);
      });
    },
  };
}
