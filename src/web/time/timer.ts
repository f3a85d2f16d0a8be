/** The workers of "Time and heat", seen from the page. Whatever takes long can be stopped: its worker is ended, and begun anew. */
import { proxy, wrap, type Remote } from 'comlink';
import type { Job } from '../../job/schema.ts';
import { displayUnits } from '../show/units.ts';
import type { MeasuredReading, MeasureOptions } from './measured.ts';
import type { SheetRequest, Summary, TimeSheets, TimeWork } from './worker.ts';
import { workerFor } from '../hands/work.ts';

class Bench {
  #worker: Worker | null = null;
  #remote: Remote<TimeWork> | null = null;
  #stops = new Set<() => void>();

  /** What the work gives; null where it was stopped. */
  run<Result>(work: (remote: Remote<TimeWork>) => Promise<Result>): Promise<Result | null> {
    this.#worker ??= workerFor('time');
    this.#remote ??= wrap<TimeWork>(this.#worker);
    const remote = this.#remote;
    return new Promise((resolve, reject) => {
      const stop = () => resolve(null);
      this.#stops.add(stop);
      work(remote)
        .then(resolve, reject)
        .finally(() => this.#stops.delete(stop));
    });
  }

  stop(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.#remote = null;
    for (const stop of this.#stops) stop();
    this.#stops.clear();
  }
}

const reckoned = new Bench();
const recorded = new Bench();

export const timer = {
  study: (document: Job): Promise<Summary | null> => reckoned.run((remote) => remote.study(document)),
  sheets: (request: SheetRequest): Promise<TimeSheets | null> =>
    reckoned.run((remote) => remote.sheets(request, displayUnits())),
  csv: (name: string): Promise<string | null> => reckoned.run((remote) => remote.csv(name)),
  stop: (): void => reckoned.stop(),
  measure: (
    file: File,
    options: MeasureOptions,
    document: Job | null,
    tell: (share: number) => void,
  ): Promise<MeasuredReading | null> =>
    recorded.run<MeasuredReading>(async (remote) => remote.measure(file, options, document, proxy(tell))),
  stopMeasuring: (): void => recorded.stop(),
};
