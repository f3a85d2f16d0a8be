/** A worker thread of a search: makes the same problem as everyone else, then does the tasks that it is given. */
import { parentPort, workerData } from 'node:worker_threads';
import { doTask, problemOf, type ProblemOptions, type Task } from '../proposal/search/search.ts';
import type { SolenoidJob } from '../assessment/rig.ts';

const { job, options } = workerData as { readonly job: SolenoidJob; readonly options: ProblemOptions };
const problem = problemOf(job, options);
if (problem === null) throw new Error('this job cannot be searched');

parentPort?.on('message', ({ piece, task }: { readonly piece: number; readonly task: Task }) => {
  parentPort?.postMessage({ piece, done: doTask(problem, task) });
});
