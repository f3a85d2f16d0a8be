/** What "Means" shows, as one immutable value, and how it follows the desk. */
import { wrap, type Remote } from 'comlink';
import { create } from 'zustand';
import { change } from '../../job/change.ts';
import type { MeansColumn, MeansComparison } from '../../assessment/means/comparison.ts';
import type { Considered, Job } from '../../job/schema.ts';
import { desk, goToField, useDesk } from '../desk/desk.ts';
import { propose } from '../desk/proposals.ts';
import { blank } from '../reckoning/form.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import { displayUnits, useUnits } from '../show/units.ts';
import type { MeansWork } from './worker.ts';
import { workerFor } from '../hands/work.ts';

interface Means {
  /** The document that the comparison belongs to. */
  readonly of: Job | null;
  readonly word: 'working' | 'slow' | 'there' | 'failed';
  readonly trouble: string | null;
  readonly comparison: MeansComparison | null;
}

export const useMeans = create<Means>()(() => ({ of: null, word: 'working', trouble: null, comparison: null }));

const put = useMeans.setState;

/** After so long, progress is shown. */
const SLOW_MS = 400;

let remote: Remote<MeansWork> | null = null;
let isComparing = false;
let units = displayUnits();

async function compare(): Promise<void> {
  if (isComparing) return;
  isComparing = true;
  try {
    for (let { document } = desk(); document !== null && needs(document); { document } = desk()) {
      const asked = document;
      units = displayUnits();
      put({ of: asked, word: 'working' });
      const slow = setTimeout(() => put({ word: 'slow' }), SLOW_MS);
      try {
        remote ??= wrap<MeansWork>(workerFor('means'));
        put({ word: 'there', comparison: await remote.compare(asked, units), trouble: null });
      } catch (error) {
        put({ word: 'failed', comparison: null, trouble: error instanceof Error ? error.message : String(error) });
      } finally {
        clearTimeout(slow);
      }
    }
  } finally {
    isComparing = false;
  }
}

function needs(document: Job): boolean {
  return document !== useMeans.getState().of || units !== displayUnits();
}

/** Compares anew whenever the document or the units change, while the panel is open. */
export function followDesk(): () => void {
  const leave = [useDesk.subscribe(() => void compare()), useUnits.subscribe(() => void compare())];
  void compare();
  return () => leave.forEach((stop) => stop());
}

/** The means of this column becomes the chosen one; the one before stays among the others. */
export function take({ name, take: changes }: MeansColumn): Promise<void> {
  return propose({ name: `Take the ${name.charAt(0).toLowerCase()}${name.slice(1)}`, changes });
}

/** Puts a means of this kind among the others, with nothing measured yet, and leads to its fields. */
export async function describe(kind: MeansColumn['kind'], name: string): Promise<void> {
  const form = await reckoner.form();
  const list = form.kind === 'group' ? form.fields.find(({ key }) => key === 'considered')?.form : undefined;
  const item = list?.kind === 'list' && list.item.kind === 'group' ? list.item : undefined;
  const means = item?.fields.find(({ key }) => key === 'means')?.form;
  const own = means?.kind === 'kinds' ? means.kinds.find((one) => one.name === kind) : undefined;
  if (own === undefined) return;
  const added = { name, means: { kind, ...(blank(own.form) as object) } } as unknown as Considered;
  const at = desk().document?.considered?.length ?? 0;
  await propose({
    name: `Another means: ${name}`,
    changes: (document) => [change(document, 'considered', [...(document.considered ?? []), added])],
  });
  goToField(`considered[${at}].name`);
}
