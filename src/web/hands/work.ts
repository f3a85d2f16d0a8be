/** What a worker can be told to do, by the name that it is given. */
export type Work =
  | 'reckoning'
  | 'solenoid'
  | 'time'
  | 'means'
  | 'route'
  | 'springs'
  | 'spread'
  | 'spread hand'
  | 'proposals'
  | 'search hand';

/** A worker of the page that does this work. */
export function workerFor(name: Work): Worker {
  return new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name });
}
