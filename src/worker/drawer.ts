/** A worker thread that tries solenoids and cables of a drawer in a job. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Drawer } from '../job/drawer/schema.ts';
import type { Job } from '../job/schema.ts';
import { tryItem, type ItemTask } from '../proposal/drawer-others.ts';
import type { DisplayUnits } from '../units/quantity.ts';

const { job, drawer, units } = workerData as {
  readonly job: Job;
  readonly drawer: Drawer;
  readonly units: DisplayUnits;
};

parentPort?.on('message', ({ piece, task }: { readonly piece: number; readonly task: ItemTask }) => {
  parentPort?.postMessage({ piece, done: tryItem(job, drawer, task, units) });
});
