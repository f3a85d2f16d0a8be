/**
 * First words of every worker of the page: brings in the work that it is named after. All share this one beginning, so that
 * the model they have in common is built, fetched and compiled once.
 */
import type { Work } from './work.ts';

const works: Record<Work, () => Promise<unknown>> = {
  reckoning: () => import('../reckoning/worker.ts'),
  solenoid: () => import('../solenoid/worker.ts'),
  time: () => import('../time/worker.ts'),
  means: () => import('../means/worker.ts'),
  route: () => import('../route/worker.ts'),
  springs: () => import('../springs/worker.ts'),
  spread: () => import('../spread/worker.ts'),
  'spread hand': () => import('../spread/hand.ts'),
  proposals: () => import('../proposals/worker.ts'),
  'search hand': () => import('../proposals/hand.ts'),
};

/** What is said before the work is there waits for it. */
const early: MessageEvent[] = [];
const keep = (message: MessageEvent) => void early.push(message);

self.addEventListener('message', keep);
await works[self.name as Work]();
self.removeEventListener('message', keep);
for (const { data, ports } of early) self.dispatchEvent(new MessageEvent('message', { data, ports: [...ports] }));
