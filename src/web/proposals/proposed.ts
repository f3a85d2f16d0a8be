/** What "Proposals" shows, as one immutable value, and how a proposal is tried on the document. */
import { proxy, wrap, type Remote } from 'comlink';
import { create } from 'zustand';
import { apply, inverse, type Change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import type { Offer } from '../../proposal/search/search.ts';
import { desk } from '../desk/desk.ts';
import { propose } from '../desk/proposals.ts';
import { displayUnits } from '../show/units.ts';
import { keptDrawer } from '../springs/kept-drawer.ts';
import type { Found, Progress, ProposalWork } from './worker.ts';
import { workerFor } from '../hands/work.ts';

interface Proposed {
  readonly word: 'none' | 'searching' | 'stopping' | 'there' | 'failed';
  readonly progress: Progress | null;
  /** The document that was searched. */
  readonly of: Job | null;
  readonly found: Found | null;
  readonly trouble: string | null;
  /** What was tried last of what was found. */
  readonly tried: Offer | null;
}

export const useProposed = create<Proposed>(() => ({
  word: 'none',
  progress: null,
  of: null,
  found: null,
  trouble: null,
  tried: null,
}));

const proposed = useProposed.getState;
const put = useProposed.setState;

let remote: Remote<ProposalWork> | null = null;

function worker(): Remote<ProposalWork> {
  remote ??= wrap<ProposalWork>(workerFor('proposals'));
  return remote;
}

export async function searchNow(): Promise<void> {
  const { document, job } = desk();
  const { word } = proposed();
  if (document === null || word === 'searching' || word === 'stopping') return;
  put({ word: 'searching', progress: null, of: document, found: null, trouble: null, tried: null });
  try {
    const drawer = job === null ? null : await keptDrawer(job.id);
    const found = await worker().search(
      document,
      drawer?.text ?? null,
      1,
      displayUnits(),
      proxy((progress: Progress) => {
        if (proposed().word === 'searching') put({ progress });
      }),
    );
    put({ word: 'there', found });
  } catch (error) {
    put({ word: 'failed', trouble: error instanceof Error ? error.message : String(error) });
  }
}

export function stopSearch(): void {
  if (proposed().word !== 'searching') return;
  put({ word: 'stopping' });
  void worker().stop();
}

/** The same values, whatever the order of their fields: the reader puts them in that of the schema. */
function isSame(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return Object.is(a, b);
  const [one, other] = [Object.entries(a), new Map(Object.entries(b))];
  return one.length === other.size && one.every(([key, value]) => other.has(key) && isSame(value, other.get(key)));
}

/** Whether the document is the one that was searched, or that with the proposal that was tried last. */
export function standing(document: Job | null): 'searched' | 'tried' | 'changed' {
  const { of, tried } = proposed();
  if (document === null || of === null) return 'changed';
  if (document === of || isSame(document, of)) return 'searched';
  return tried !== null && isSame(document, apply(of, tried.changes)) ? 'tried' : 'changed';
}

/** Puts a proposal on the document, in the place of the one that was tried before: one step, that can be undone. */
export async function tryOut(offer: Offer): Promise<void> {
  const before = proposed().tried;
  const changes = (document: Job): readonly Change[] => {
    const where = standing(document);
    if (where === 'changed') return [];
    return [...(where === 'tried' && before !== null ? inverse(before.changes) : []), ...offer.changes];
  };
  await propose({ name: `Proposal: ${offer.name}`, changes });
  const { document } = desk();
  const { of } = proposed();
  if (of !== null && isSame(document, apply(of, offer.changes))) put({ tried: offer });
}
