/** Opening a job, and keeping what is done to it. */
import type { JobAnswer, SavedAnswer } from '../../job/exchange.ts';
import type { Job } from '../../job/schema.ts';
import { api, isOutdated, NotDone, type Trouble } from '../keeping/api.ts';
import { Keeper, sendLeftovers, type Keeping } from '../keeping/keeper.ts';
import { outbox, type Entry } from '../keeping/outbox.ts';
import { ifGone, newId, tellOtherTabs, thisTab } from '../keeping/tab.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import { desk, put, say, type Notice } from './desk.ts';
import { noSteps, readSteps, writeSteps, type KeptSteps } from './steps.ts';

/** The server takes 1 MiB of UTF-8; undo steps are mostly plain letters, and a ± has two bytes. */
const MOST_STEP_CHARACTERS = 500_000;
const STEPS_PATIENCE_MS = 150;
export const LAST_JOB = 'stopwright last job';

let keeper: Keeper | null = null;
let stepsTimer: ReturnType<typeof setTimeout> | undefined;

export function keepDocument(text: string, label: string, mergedWith: string | null): void {
  keeper?.change(text, label, mergedWith);
}

/** Writes the undo steps into the browser soon, and to the server with the next acknowledged save. */
export function keepSteps(): void {
  clearTimeout(stepsTimer);
  stepsTimer = setTimeout(writeStepsHere, STEPS_PATIENCE_MS);
}

/** The undo steps as text, with the revision at which they stand. */
export function stepsText(): { job: string; text: string } | null {
  const { job, steps } = desk();
  if (job === null || keeper === null) return null;
  return { job: job.id, text: writeSteps({ ...steps, at: keeper.revision }, MOST_STEP_CHARACTERS) };
}

function writeStepsHere(): void {
  clearTimeout(stepsTimer);
  const kept = stepsText();
  if (kept !== null) outbox.putSteps(kept.job, kept.text).catch(() => undefined);
}

/** Sends what waits; gives whether all of it is kept. */
export async function flush(): Promise<boolean> {
  await keeper?.flush();
  return keeper?.isIdle ?? true;
}

/** Whether everything that became the document has been acknowledged. */
export function isAllKept(): boolean {
  return keeper?.isIdle ?? true;
}

/** The revision on the screen: the one that the next save is made from. */
export function shownRevision(): string {
  return keeper?.revision ?? '';
}

/** The page goes away: sends what waits, in requests that outlive it. */
export function sendAndLeave(): void {
  writeStepsHere();
  keeper?.leave();
}

/**
 * Opens a job with the undo steps that belong to its head, wherever they were written: here, by the server, or in
 * `leftSteps` by a page that closed.
 */
export async function openFromServer(id: string, leftSteps: readonly string[]): Promise<void> {
  await flush();
  keeper?.close();
  keeper = null;
  put({ openingTrouble: null });
  try {
    const leftover = await replay(id);
    const [answer, here, there] = await Promise.all([
      api.open(id),
      outbox.steps(id).catch(() => null),
      api.session(id).then(
        ({ value }) => value,
        () => null,
      ),
    ]);
    const kept = [...leftSteps, here, there].map(readSteps).find((steps) => steps?.at === answer.head.id) ?? null;
    await show(answer, kept);
    if (leftover !== null) put({ keeping: { word: 'NOT kept', trouble: leftover } });
    remember(id);
  } catch (error) {
    if (!(error instanceof NotDone)) throw error;
    put({ openingTrouble: error.trouble });
  }
}

/** Shows a job as the server gave it. */
async function show({ job, head, branches }: JobAnswer, kept: KeptSteps | null): Promise<void> {
  const document = JSON.parse(head.text) as Job;
  const reading = await reckoner.take(document);
  if (!reading.ok) {
    const first = reading.problems[0];
    put({
      openingTrouble: {
        reason: 'document-unreadable',
        what: `The version kept last cannot be read: ${first?.path ?? ''} ${first?.problem ?? ''}`,
        safe: 'It stays as it is in the store.',
        next: 'Export it from the list of jobs, or open another job.',
      },
    });
    return;
  }
  keeper = new Keeper({ job: job.id, tab: thisTab, tip: head.id, api, outbox, newId, told, acknowledged });
  const isSameJob = desk().job?.id === job.id;
  put({
    job,
    document: reading.job,
    ...reading.reckoned,
    remedies: 'waiting',
    steps: kept === null ? noSteps : { list: kept.list, done: kept.done },
    drafts: {},
    keeping: { word: 'kept' },
    branches,
    newer: null,
    merging: null,
    ...(isSameJob ? {} : { gap_mm: reading.reckoned.assessment?.travel?.startGap_mm ?? 0, wantedField: null }),
  });
}

/** Sends what tabs that are gone have left behind for this job. */
async function replay(job: string): Promise<Trouble | null> {
  const entries = (await outbox.all().catch(() => [])).filter((entry) => entry.job === job);
  const tabs = [...new Set(entries.map(({ tab }) => tab))];
  let trouble: Trouble | null = null;
  for (const tab of tabs) {
    const ofTab = (entry: Entry) => entry.tab === tab;
    await ifGone(tab, async () => {
      trouble = (await sendLeftovers(entries.filter(ofTab), { api, outbox })).trouble ?? trouble;
    });
  }
  return trouble;
}

function told(keeping: Keeping): void {
  put({ keeping });
  if (keeping.word === 'kept' && isOutdated()) say(renewed);
}

const renewed: Notice = {
  words: 'Stopwright was renewed while this page was open. Load the page again to use the new one; everything is kept.',
  act: { words: 'Load again', run: () => location.reload() },
};

function acknowledged({ job, revision, head, branches }: SavedAnswer): void {
  if (desk().job?.id !== job.id) return;
  put({ job, branches: branches.filter(({ id }) => id !== revision.id) });
  if (head === revision.id) tellOtherTabs(job.id, head);
  else void lookAtHeads(); // somebody else had saved first: theirs is the head, what is on this screen is the branch
  const kept = stepsText();
  if (kept !== null && keeper?.isIdle === true) api.keepSession(kept.job, kept.text).catch(() => undefined);
  followName(job.id, job.name);
}

/** The list of jobs shows a job under the name that its document has. */
function followName(id: string, listed: string): void {
  const name = desk().document?.name.trim();
  if (name === undefined || name === '' || name === listed) return;
  api.change(id, { name }).then(
    ({ job }) => desk().job?.id === id && put({ job }),
    () => undefined,
  );
}

/** Looks whether another window has kept something since. */
export async function lookAtHeads(): Promise<void> {
  const { job } = desk();
  if (job === null || keeper === null) return;
  const answer = await api.open(job.id).catch(() => null);
  if (answer === null || desk().job?.id !== job.id || keeper === null) return;
  const { tip } = keeper;
  const heads = [answer.head, ...answer.branches];
  const others = heads.filter(({ id }) => id !== tip);
  const isHead = others.length < heads.length;
  // Neither head nor branch: somebody has gone on from what is on this screen.
  put(isHead ? { branches: others, newer: null } : { branches: answer.branches, newer: answer.head.id });
}

function remember(id: string): void {
  history.replaceState(null, '', `/job/${id}`);
  try {
    localStorage.setItem(LAST_JOB, id);
  } catch {
    // The next visit then begins with the demo; nothing else depends on it.
  }
}
