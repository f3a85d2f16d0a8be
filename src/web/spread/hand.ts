/** One pair of hands of a study of spread: does the pieces that the leading worker gives it. */
import { spreadPlan } from '../../assessment/spread/plan.ts';
import type { SpreadRequest } from '../../assessment/spread/request.ts';
import { taskWorker, type SpreadTask, type TaskWorker } from '../../assessment/spread/task.ts';
import type { Job } from '../../job/schema.ts';

export type ToHand =
  | { readonly kind: 'begin'; readonly job: Job; readonly request: SpreadRequest }
  | { readonly kind: 'piece'; readonly piece: number; readonly task: SpreadTask };

export interface FromHand {
  readonly piece: number;
  readonly margins: Float64Array;
}

let worker: TaskWorker | null = null;

self.addEventListener('message', ({ data }: MessageEvent<ToHand>) => {
  if (data.kind === 'begin') {
    const planned = spreadPlan(data.job, data.request);
    worker = planned.ok ? taskWorker(planned.plan) : null;
    return;
  }
  if (worker === null) throw new Error('this study cannot be done');
  const margins = worker.run(data.task);
  const answer: FromHand = { piece: data.piece, margins };
  self.postMessage(answer, { transfer: [margins.buffer as ArrayBuffer] });
});
