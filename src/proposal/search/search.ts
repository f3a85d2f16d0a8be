/** The door of this room: layouts that work, searched. */
export { problemOf, type Problem } from './problem.ts';
export { beginRun, lookedAt, runOn, shareDone, toLookAt, type Phase, type Run } from './run.ts';
export { proposalsOf, type Margin, type Offer, type Proposals, type SingleChange } from './offer.ts';
