/** The door of this room: layouts that work, searched. */
export { problemOf, type Problem, type ProblemOptions } from './problem.ts';
export { beginRun, type Phase, type Run } from './run-state.ts';
export { runOn, takenIn, tasksOf, toLookAt } from './run.ts';
export { doTask, type Done, type Task } from './tasks.ts';
export { ownHands, searchWith, type Searched, type SearchHands, type SearchProgress } from './hands.ts';
export { proposalsOf, type Margin, type Offer, type Proposals, type SingleChange } from './offer.ts';
export { springChoices, type SpringChoices, type SpringStock } from './spring-choices.ts';
