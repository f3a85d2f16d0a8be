/** A worker thread of a study of spread: makes the same plan as everyone else, then does the pieces that it is given. */
import { parentPort, workerData } from 'node:worker_threads';
import { spreadPlan } from '../assessment/spread/plan.ts';
import type { SpreadRequest } from '../assessment/spread/request.ts';
import { taskWorker, type SpreadTask } from '../assessment/spread/task.ts';
import type { Job } from '../job/schema.ts';

const { job, request } = workerData as { readonly job: Job; readonly request: SpreadRequest };
const planned = spreadPlan(job, request);
if (!planned.ok) throw new Error(planned.problems.map(({ problem }) => problem).join('; '));
const worker = taskWorker(planned.plan);

parentPort?.on('message', ({ piece, task }: { readonly piece: number; readonly task: SpreadTask }) => {
  const done = worker.run(task);
  parentPort?.postMessage({ piece, done }, [done.buffer as ArrayBuffer]);
});
