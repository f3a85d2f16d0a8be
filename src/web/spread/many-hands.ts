/** Hands in workers of their own, which end with the worker that leads them. */
import type { SpreadRequest } from '../../assessment/spread/request.ts';
import type { Hands } from '../../assessment/spread/study.ts';
import type { Job } from '../../job/schema.ts';
import type { FromHand, ToHand } from './hand.ts';

export interface ManyHands extends Hands {
  end(): void;
}

/** Pieces given ahead, so that no hand waits for the post. */
const AHEAD = 2;

export function manyHands(count: number, job: Job, request: SpreadRequest): ManyHands {
  const workers = Array.from(
    { length: count },
    () => new Worker(new URL('./hand.ts', import.meta.url), { type: 'module', name: 'spread hand' }),
  );
  const tell = (worker: Worker, words: ToHand) => worker.postMessage(words);
  let take: (done: FromHand, by: Worker) => void = () => {};
  let fail: (error: Error) => void = () => {};
  for (const worker of workers) {
    worker.addEventListener('message', ({ data }: MessageEvent<FromHand>) => take(data, worker));
    worker.addEventListener('error', ({ message }) => fail(new Error(message)));
    tell(worker, { kind: 'begin', job, request });
  }
  return {
    end() {
      for (const worker of workers) worker.terminate();
    },
    run(tasks, takeMargins) {
      if (tasks.length === 0) return Promise.resolve(true);
      return new Promise((resolve, reject) => {
        let next = 0;
        let left = tasks.length;
        const give = (worker: Worker) => {
          const task = tasks[next];
          if (task !== undefined) tell(worker, { kind: 'piece', piece: next, task });
          next += 1;
        };
        fail = reject;
        take = ({ piece, margins }, worker) => {
          takeMargins(piece, margins);
          left -= 1;
          if (left === 0) resolve(true);
          else give(worker);
        };
        for (let ahead = 0; ahead < AHEAD; ahead++) for (const worker of workers) give(worker);
      });
    },
  };
}
