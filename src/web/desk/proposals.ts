/**
 * Changes to the document, one after the other: each is read by the same reader as a file, and only what reads becomes
 * the document, an undo step and a revision. What does not read stays on the screen as a draft, with the reason.
 */
import { apply, type Change } from '../../job/change.ts';
import { valueAt } from '../../job/path.ts';
import type { Problem } from '../../job/opening.ts';
import type { Job } from '../../job/schema.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import { desk, put, type Desk } from './desk.ts';
import { isAllKept, keepDocument, keepSteps } from './open-job.ts';
import { addStep, endGesture, redo as redoStep, undo as undoStep, type Steps } from './steps.ts';

export interface Proposal {
  readonly name: string;
  /** Proposals of one gesture become one step, and a newer one that still waits takes the place of the older. */
  readonly gesture?: string;
  readonly changes: readonly Change[] | ((document: Job) => readonly Change[]);
  /** Where the text came from, so that it can be shown there when it is refused. */
  readonly draft?: { readonly path: string; readonly text: string };
  readonly mergedWith?: string;
}

interface Waiting {
  readonly gesture: string | null;
  readonly run: () => Promise<void>;
  /** What it proposes; null for undoing and the like, which the person can simply do again. */
  readonly proposal: Proposal | null;
}

const waiting: Waiting[] = [];
let current: Waiting | null = null;
let running: Promise<void> | null = null;

/** Resolves when everything proposed so far has been decided. */
export function settled(): Promise<void> {
  return running ?? Promise.resolve();
}

/** What has been proposed and is not decided yet, for a page that closes. */
export function pendingProposals(): { name: string; changes: readonly Change[] }[] {
  let { document } = desk();
  const found: { name: string; changes: readonly Change[] }[] = [];
  for (const { proposal } of current === null ? waiting : [current, ...waiting]) {
    if (document === null || proposal === null || proposal.mergedWith !== undefined) continue;
    const changes = typeof proposal.changes === 'function' ? proposal.changes(document) : proposal.changes;
    document = apply(document, changes);
    found.push({ name: proposal.name, changes });
  }
  return found;
}

function enqueue(next: Waiting, changesNothing = false): Promise<void> {
  // From the first moment the word says the truth: what is being read is not kept yet.
  if (!changesNothing && desk().keeping.word === 'kept') put({ keeping: { word: 'keeping' } });
  const last = waiting.at(-1);
  if (last !== undefined && next.gesture !== null && last.gesture === next.gesture) waiting.pop();
  waiting.push(next);
  running ??= (async () => {
    try {
      for (let one = waiting.shift(); one !== undefined; one = waiting.shift()) {
        current = one;
        await one.run();
      }
    } finally {
      current = null;
      running = null;
      if (isAllKept() && desk().keeping.word === 'keeping') put({ keeping: { word: 'kept' } });
    }
  })();
  return running;
}

/** Resolves once it has been decided; the document, or a draft, then holds it. */
export function propose(proposal: Proposal): Promise<void> {
  const { job } = desk();
  const gesture = proposal.gesture ?? null;
  return enqueue({
    gesture,
    proposal,
    async run() {
      const { document, job: now } = desk();
      if (document === null || job === null || now?.id !== job.id) return;
      const changes = typeof proposal.changes === 'function' ? proposal.changes(document) : proposal.changes;
      const made = changes.filter(({ path, to }) => !isSame(valueAt(document, path), to));
      if (made.length === 0 && proposal.mergedWith === undefined) return;
      const refused = await adopt(apply(document, changes), proposal.name, proposal.mergedWith ?? null, (steps) =>
        addStep(steps, { name: proposal.name, changes, gesture }),
      );
      if (refused !== null) refuse(proposal, refused);
      // What is being typed has its own draft, which may be newer than this proposal.
      else if (proposal.draft === undefined) changes.forEach(({ path }) => dropDraft(path));
    },
  });
}

export function undo(): Promise<void> {
  return move(undoStep, 'Undone');
}

export function redo(): Promise<void> {
  return move(redoStep, 'Done again');
}

function move(by: typeof undoStep, word: string): Promise<void> {
  return enqueue({
    gesture: null,
    proposal: null,
    async run() {
      const { document, steps } = desk();
      const moved = document === null ? null : by(document, steps);
      if (moved === null) return;
      const refused = await adopt(moved.document, `${word}: ${moved.step.name}`, null, () => moved.steps);
      if (refused !== null) {
        put({ notice: { words: `“${moved.step.name}” cannot be taken back here: ${refused[0]?.problem ?? ''}` } });
        return;
      }
      moved.step.changes.forEach(({ path }) => dropDraft(path));
      put({ notice: { words: `${word}: ${moved.step.name}` } });
    },
  });
}

/** Takes a gesture back as if it had never been: its step is gone, and cannot be done again. */
export function cancelGesture(gesture: string): Promise<void> {
  return enqueue({
    gesture: null,
    proposal: null,
    async run() {
      const { document, steps } = desk();
      if (document === null || steps.list[steps.done - 1]?.gesture !== gesture) return;
      const moved = undoStep(document, steps);
      if (moved === null) return;
      const { done } = moved.steps;
      await adopt(moved.document, `Left as it was: ${moved.step.name}`, null, () => ({
        list: steps.list.slice(0, done),
        done,
      }));
    },
  });
}

/** The gesture is over: what comes next is a step of its own. */
export function endOfGesture(): Promise<void> {
  const end: Waiting = {
    gesture: null,
    proposal: null,
    async run() {
      const steps = endGesture(desk().steps);
      if (steps !== desk().steps) put({ steps });
    },
  };
  return enqueue(end, true);
}

/** Keeps what was typed on the screen with the reason why it is not in the document. */
export function holdDraft(path: string, text: string, problem: string): void {
  put({ drafts: { ...desk().drafts, [path]: { text, problem } } });
}

export function dropDraft(path: string): void {
  const left = Object.entries(desk().drafts).filter(
    ([at]) => at !== path && !at.startsWith(`${path}.`) && !at.startsWith(`${path}[`),
  );
  if (left.length !== Object.keys(desk().drafts).length) put({ drafts: Object.fromEntries(left) });
}

/** Makes a candidate the document when it reads, else gives its problems. */
async function adopt(
  candidate: Job,
  name: string,
  mergedWith: string | null,
  next: (steps: Steps) => Steps,
): Promise<readonly Problem[] | null> {
  const { job } = desk();
  const reading = await reckoner.propose(candidate);
  if (desk().job?.id !== job?.id) return null;
  if (!reading.ok) return reading.problems;
  put({
    document: reading.job,
    ...reading.reckoned,
    remedies: 'waiting',
    steps: next(desk().steps),
    newer: mergedWith === null ? desk().newer : null,
  } satisfies Partial<Desk>);
  keepDocument(reading.text, name, mergedWith);
  keepSteps();
  return null;
}

function refuse({ draft, name }: Proposal, problems: readonly Problem[]): void {
  const here = problems.find(({ path }) => path === draft?.path) ?? problems[0];
  const words = here === undefined ? 'this does not fit the rest of the document' : here.problem;
  if (draft !== undefined) {
    if (desk().drafts[draft.path] === undefined) holdDraft(draft.path, draft.text, words);
  } else put({ notice: { words: `Not done: ${name}. ${words}` } });
}

function isSame(a: unknown, b: unknown): boolean {
  return Object.is(a, b) || (typeof a === 'object' && typeof b === 'object' && JSON.stringify(a) === JSON.stringify(b));
}
