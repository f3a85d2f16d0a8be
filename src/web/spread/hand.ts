/** One pair of hands of a study of spread: does the pieces that the leading worker gives it. */
import { spreadPlan } from '../../assessment/spread/plan.ts';
import type { SpreadRequest } from '../../assessment/spread/request.ts';
import { taskWorker, type SpreadTask, type TaskWorker } from '../../assessment/spread/task.ts';
import type { Job } from '../../job/schema.ts';
import type { FromHand, ToHand } from '../hands/many-hands.ts';

export interface SpreadBegin {
  readonly job: Job;
  readonly request: SpreadRequest;
}

let worker: TaskWorker | null = null;

self.addEventListener('message', ({ data }: MessageEvent<ToHand<SpreadBegin, SpreadTask>>) => {
  if (data.kind === 'begin') {
    const planned = spreadPlan(data.begin.job, data.begin.request);
    worker = planned.ok ? taskWorker(planned.plan) : null;
    return;
  }
  if (worker === null) throw new Error('this study cannot be done');
  const done = worker.run(data.task);
  const answer: FromHand<Float64Array> = { piece: data.piece, done };
  self.postMessage(answer, { transfer: [done.buffer as ArrayBuffer] });
});
