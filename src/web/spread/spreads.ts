/** What the panel "Spread" shows, as one immutable value, and how it follows the desk. */
import { proxy, wrap, type Remote } from 'comlink';
import { create } from 'zustand';
import type { SpreadProgress } from '../../assessment/spread/study.ts';
import type { Job } from '../../job/schema.ts';
import { desk, useDesk } from '../desk/desk.ts';
import { displayUnits, useUnits } from '../show/units.ts';
import type { SpreadView } from './view.ts';
import type { SpreadWork } from './worker.ts';
import { workerFor } from '../hands/work.ts';

interface Spreads {
  readonly view: SpreadView | null;
  /** The document that the view belongs to. */
  readonly of: Job | null;
  /** following: chances are those of the newest document, what matters is still to come. */
  readonly word: 'working' | 'following' | 'live' | 'whole' | 'studying' | 'stopped' | 'failed';
  readonly progress: SpreadProgress | null;
  readonly trouble: string | null;
}

export const useSpreads = create<Spreads>()(() => ({
  view: null,
  of: null,
  word: 'working',
  progress: null,
  trouble: null,
}));

const spreads = useSpreads.getState;
const put = useSpreads.setState;

let worker: Worker | null = null;
let remote: Remote<SpreadWork> | null = null;
/** Counts the studies that were begun, so that what comes late from an ended one is let go. */
let study = 0;
let width = 0;

function lead(): Remote<SpreadWork> {
  worker ??= workerFor('spread');
  remote ??= wrap<SpreadWork>(worker);
  return remote;
}

function endWorker(): void {
  worker?.terminate();
  worker = null;
  remote = null;
}

let isDrawing = false;

/**
 * The figure of the newest document. Chances come first, what matters once nothing newer waits: so the chances follow a drag.
 * While one is reckoned, later changes wait and the last of them counts.
 */
async function follow(): Promise<void> {
  if (isDrawing || width === 0) return;
  isDrawing = true;
  try {
    for (let { document } = desk(); document !== null && document !== spreads().of; { document } = desk()) {
      const asked = document;
      const mine = (study += 1);
      if (spreads().word === 'studying') endWorker();
      put({ of: asked, word: spreads().view === null ? 'working' : 'following', progress: null });
      const shown = { width, units: displayUnits() };
      try {
        const quick = await lead().live(asked, shown, true);
        if (mine !== study) continue;
        put({ view: quick, word: 'following', trouble: null });
        if (desk().document !== asked) continue;
        const view = await lead().live(asked, shown, false);
        if (mine === study) put({ view, word: 'live' });
      } catch (error) {
        if (mine === study) fail(error);
      }
    }
  } finally {
    isDrawing = false;
  }
}

function fail(error: unknown): void {
  put({ word: 'failed', view: null, progress: null, trouble: error instanceof Error ? error.message : String(error) });
}

/** A whole study of what lies on the desk, until it is done or stopped. */
export async function studyWhole(draws: number): Promise<void> {
  const { document } = desk();
  if (document === null) return;
  const mine = (study += 1);
  const isMine = () => mine === study;
  put({ of: document, word: 'studying', progress: null, trouble: null });
  try {
    const view = await lead().whole(
      document,
      draws,
      { width, units: displayUnits() },
      proxy((progress: SpreadProgress) => {
        if (isMine()) put({ progress });
      }),
      proxy((soFar: SpreadView) => {
        if (isMine()) put({ view: soFar });
      }),
    );
    if (isMine()) put({ view, word: 'whole', progress: null });
  } catch (error) {
    if (isMine()) fail(error);
  }
}

/** What is known so far stays. */
export function stopStudy(): void {
  study += 1;
  endWorker();
  put({ word: 'stopped', progress: null });
}

export function setSheetWidth(next: number): void {
  if (next === width) return;
  width = next;
  again();
}

function again(): void {
  if (spreads().word === 'studying') return;
  put({ of: null });
  void follow();
}

/** @returns the end of following */
export function followDesk(): () => void {
  const ends = [
    useDesk.subscribe(({ document }, before) => {
      if (document !== before.document) void follow();
    }),
    useUnits.subscribe(again),
  ];
  void follow();
  return () => {
    for (const end of ends) end();
    if (spreads().word === 'studying') stopStudy();
  };
}
