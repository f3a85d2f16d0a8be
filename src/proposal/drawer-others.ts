/** Solenoids and cables of a drawer, tried one by one: as tasks that threads may share, put together in their order. */
import type { Drawer } from '../job/drawer/schema.ts';
import type { Job } from '../job/schema.ts';
import { metricUnits, type DisplayUnits } from '../units/quantity.ts';
import { cableTried, handCablePath, handCableTried } from './drawer-cables.ts';
import { ranked, type ItemTried } from './drawer-item.ts';
import { solenoidTried } from './drawer-solenoids.ts';

export type ItemKind = 'solenoid' | 'cable' | 'hand cable';

export interface ItemTask {
  readonly kind: ItemKind;
  /** Index in its list of the drawer. */
  readonly item: number;
}

/** What was tried, the best first. */
export type ItemsTried = Readonly<Record<ItemKind, readonly ItemTried[]>>;

/** What of a drawer may serve in such a job: everything but its springs. */
export function itemTasks(job: Job, { solenoids, cables, handCables = [] }: Drawer): ItemTask[] {
  const all = (kind: ItemKind, list: readonly unknown[]) => list.map((_, item) => ({ kind, item }));
  return [
    ...(job.means.kind === 'solenoid' ? [...all('solenoid', solenoids), ...all('cable', cables)] : []),
    ...(handCablePath(job) === null ? [] : all('hand cable', handCables)),
  ];
}

/** What of it is of no use to such a job, in words. */
export function notTriedWords(job: Job, { solenoids, cables, handCables = [] }: Drawer): string[] {
  const { kind } = job.means;
  const one = (count: number, what: string, isOfUse: boolean, why: string) =>
    count === 0 || isOfUse ? [] : [`This job ${why}: the ${count} ${what} of this drawer are of no use to it.`];
  return [
    ...one(solenoids.length, 'solenoids', kind === 'solenoid', `works by ${kind}`),
    ...one(cables.length, 'electric cables', kind === 'solenoid', `works by ${kind}`),
    ...one(handCables.length, 'hand cables', handCablePath(job) !== null, 'has no hand cable'),
  ];
}

export function tryItem(
  job: Job,
  drawer: Drawer,
  { kind, item }: ItemTask,
  units: DisplayUnits = metricUnits,
): ItemTried {
  // prettier-ignore
  switch (kind) {
    case 'solenoid':
      return solenoidTried(job, drawer, item, units);
    case 'cable':
      return cableTried(job, drawer, item, units);
    case 'hand cable':
      return handCableTried(job, drawer, item, units);
  }
}

/** What is missing was not tried. */
export function itemsTried(tasks: readonly ItemTask[], results: readonly (ItemTried | undefined)[]): ItemsTried {
  const of = (kind: ItemKind) => ranked(tasks.flatMap((task, i) => (task.kind === kind ? (results[i] ?? []) : [])));
  return { solenoid: of('solenoid'), cable: of('cable'), 'hand cable': of('hand cable') };
}
