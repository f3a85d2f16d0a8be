/** Solenoids and cables of a drawer, tried one by one: as tasks that threads may share, put together in their order. */
import type { Drawer } from '../job/drawer/schema.ts';
import type { Job } from '../job/schema.ts';
import { metricUnits, type DisplayUnits } from '../units/quantity.ts';
import { cableTried, handCableTried } from './drawer-cables.ts';
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

export const noneTried: ItemsTried = { solenoid: [], cable: [], 'hand cable': [] };

/** What of a drawer may serve in such a job: everything but its springs. */
export function itemTasks({ means }: Job, { solenoids, cables, handCables = [] }: Drawer): ItemTask[] {
  const all = (kind: ItemKind, list: readonly unknown[]) => list.map((_, item) => ({ kind, item }));
  if (means.kind === 'solenoid') return [...all('solenoid', solenoids), ...all('cable', cables)];
  return means.kind === 'hand cable' ? all('hand cable', handCables) : [];
}

/** What of it is of no use to such a job, in words. */
export function notTriedWords({ means }: Job, { solenoids, cables, handCables = [] }: Drawer): string[] {
  const one = (count: number, what: string, isOfUse: boolean) =>
    count === 0 || isOfUse
      ? []
      : [`This job works by ${means.kind}: the ${count} ${what} of this drawer are of no use to it.`];
  const isElectric = means.kind === 'solenoid';
  return [
    ...one(solenoids.length, 'solenoids', isElectric),
    ...one(cables.length, 'electric cables', isElectric),
    ...one(handCables.length, 'hand cables', means.kind === 'hand cable'),
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
