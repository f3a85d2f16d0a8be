/** Opening jobs and leaving the page, so that nothing that was begun is lost in between. */
import type { Change } from '../../job/change.ts';
import { valueAt } from '../../job/path.ts';
import { api, NotDone } from '../keeping/api.ts';
import { leaveUnfinished, takeBackUnfinished, takeUnfinished } from '../keeping/unfinished.ts';
import { desk, put, type Draft } from './desk.ts';
import { LAST_JOB, openFromServer, sendAndLeave, shownRevision, stepsText } from './open-job.ts';
import { holdDraft, pendingProposals, propose, settled } from './proposals.ts';

/** What a closing page leaves behind. */
interface Unfinished {
  /** The revision that was on the screen. */
  readonly at: string;
  readonly steps: string;
  readonly proposals: readonly { readonly name: string; readonly changes: readonly Change[] }[];
  readonly drafts: Readonly<Record<string, Draft>>;
}

export async function openJob(id: string): Promise<void> {
  await settled();
  const left = (await takeUnfinished(id)).filter(isUnfinished);
  await openFromServer(
    id,
    left.map(({ steps }) => steps),
  );
  if (desk().job?.id !== id) return;
  for (const unfinished of left) await takeUp(unfinished);
}

async function takeUp({ at, proposals, drafts }: Unfinished): Promise<void> {
  const isSame = at === shownRevision();
  for (const { name, changes } of proposals) {
    if (isSame) await propose({ name, changes });
    else for (const { path, to } of changes) holdIfDifferent(path, to);
  }
  for (const [path, { text, problem }] of Object.entries(drafts)) holdDraft(path, text, problem);
}

/** The job went on elsewhere before this could be kept: a person decides whether it still counts. */
function holdIfDifferent(path: string, to: unknown): void {
  if (typeof to !== 'string' || valueAt(desk().document, path) === to) return;
  holdDraft(
    path,
    to,
    'typed just before the page was closed, and the job has been changed since; type it again to keep it',
  );
}

/** The page goes away, perhaps for good. */
export function leavePage(): void {
  const kept = stepsText();
  if (kept === null) return;
  const { drafts } = desk();
  const unfinished: Unfinished = { at: shownRevision(), steps: kept.text, proposals: pendingProposals(), drafts };
  leaveUnfinished(kept.job, unfinished);
  sendAndLeave();
}

/** The page was only put aside. */
export function comeBack(): void {
  const { job } = desk();
  if (job !== null) takeBackUnfinished(job.id);
}

function isUnfinished(value: unknown): value is Unfinished {
  const { at, steps, proposals, drafts } = (value ?? {}) as Partial<Unfinished>;
  return typeof at === 'string' && typeof steps === 'string' && Array.isArray(proposals) && typeof drafts === 'object';
}

/** The job that the address names, else the one seen last, else the railcar, else the oldest. */
export async function openFirst(): Promise<void> {
  const named = /^\/job\/([A-Za-z0-9_-]{8,64})$/.exec(location.pathname)?.[1];
  if (named !== undefined) return openJob(named);
  try {
    const jobs = (await api.jobs()).jobs.filter(({ deletedAt }) => deletedAt === null);
    const last = lastJob();
    const first = jobs.find(({ id }) => id === last) ?? jobs.find(({ demo }) => demo === 'railcar') ?? jobs[0];
    if (first !== undefined) return await openJob(first.id);
    put({ isJobListOpen: true });
  } catch (error) {
    if (!(error instanceof NotDone)) throw error;
    put({ openingTrouble: error.trouble });
  }
}

function lastJob(): string | null {
  try {
    return localStorage.getItem(LAST_JOB);
  } catch {
    return null;
  }
}
