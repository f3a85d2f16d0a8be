/** The worker of "Springs", seen from the page. Stopping ends it, and the next question begins a new one. */
import { proxy, wrap, type Remote } from 'comlink';
import type { Job } from '../../job/schema.ts';
import { displayUnits } from '../show/units.ts';
import type { ItemsSummary } from './items-summary.ts';
import type { DrawerSummary, FittingWord, SpringsWork, WindowSummary } from './worker.ts';
import { workerFor } from '../hands/work.ts';

let worker: Worker | null = null;
let remote: Remote<SpringsWork> | null = null;
const stops = new Set<() => void>();

/** What the work gives; null where it was stopped. */
function run<Result>(ask: (of: Remote<SpringsWork>) => Promise<Result>): Promise<Result | null> {
  worker ??= workerFor('springs');
  remote ??= wrap<SpringsWork>(worker);
  const of = remote;
  return new Promise((resolve, reject) => {
    const stop = () => resolve(null);
    stops.add(stop);
    ask(of)
      .then(resolve, reject)
      .finally(() => stops.delete(stop));
  });
}

export const bench = {
  window: (job: Job): Promise<WindowSummary | null> => run((of) => of.window(job, displayUnits())),
  openings: (job: Job) => run((of) => of.openings(job, displayUnits())),
  sheet: (width: number) => run((of) => of.sheet(width, displayUnits())),
  read: (text: string) => run((of) => of.read(text)),
  fit: (job: Job, text: string, tell: (word: FittingWord) => void): Promise<DrawerSummary | null> =>
    run<DrawerSummary | null>(async (of) =>
      of.fit(
        job,
        text,
        displayUnits(),
        proxy(async (word: FittingWord) => tell(word)),
      ),
    ),
  items: (job: Job, text: string, tell: (soFar: ItemsSummary) => void): Promise<ItemsSummary | null> =>
    run<ItemsSummary | null>(async (of) =>
      of.items(
        job,
        text,
        displayUnits(),
        proxy(async (soFar: ItemsSummary) => tell(soFar)),
      ),
    ),
  order: (job: Job, text: string | null) => run((of) => of.order(job, text, displayUnits())),
  stop(): void {
    worker?.terminate();
    worker = null;
    remote = null;
    for (const stop of stops) stop();
    stops.clear();
  },
};
