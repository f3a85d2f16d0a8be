/** One pair of hands of a search: does the tasks that the leading worker gives it. */
import type { SolenoidJob } from '../../assessment/rig.ts';
import { doTask, problemOf, type Done, type Problem, type ProblemOptions, type Task } from '../../proposal/search/search.ts'; // prettier-ignore
import type { FromHand, ToHand } from '../hands/many-hands.ts';

export interface SearchBegin {
  readonly job: SolenoidJob;
  readonly options: ProblemOptions;
}

let problem: Problem | null = null;

self.addEventListener('message', ({ data }: MessageEvent<ToHand<SearchBegin, Task>>) => {
  if (data.kind === 'begin') {
    problem = problemOf(data.begin.job, data.begin.options);
    return;
  }
  if (problem === null) throw new Error('this job cannot be searched');
  const answer: FromHand<Done> = { piece: data.piece, done: doTask(problem, data.task) };
  self.postMessage(answer);
});
