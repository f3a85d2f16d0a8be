/**
 * What lies on the solenoid's page, as one immutable value, and the acts that change it. Like the desk of the job: a change
 * is read by the same reader as a file, and only what reads becomes the document and an undo step; what does not read stays
 * on the screen as a draft with the reason.
 */
import { create } from 'zustand';
import { apply, type Change } from '../../job/change.ts';
import { valueAt } from '../../job/path.ts';
import type { Problem } from '../../job/opening.ts';
import type { SolenoidDocument } from '../../job/solenoid/schema.ts';
import type { Draft } from '../desk/desk.ts';
import { addStep, endGesture, noSteps, redo as redoStep, undo as undoStep, type Steps } from '../desk/steps.ts';
import type { SvgNode } from '../../sheets/svg.ts';
import type { Outcome } from './outcome.ts';
import { solver } from './solver.ts';

export type Solving =
  | { readonly word: 'waiting' }
  | { readonly word: 'solving'; readonly done: number; readonly all: number }
  | { readonly word: 'solved'; readonly isFromCache: boolean; readonly seconds: number }
  | { readonly word: 'stopped' }
  | { readonly word: 'failed'; readonly why: string };

export type Kept =
  | { readonly word: 'kept' }
  | { readonly word: 'keeping' }
  | { readonly word: 'NOT kept'; readonly why: string; readonly isElsewhere: boolean };

export interface Bench {
  /** The job that this solenoid belongs to. */
  readonly job: string | null;
  readonly document: SolenoidDocument | null;
  /** Volts at the coil and its temperature that the curve is wanted for, as typed. */
  readonly drive: { readonly voltage: string; readonly coilTemperature: string };
  /** What was typed last and cannot be built: it is drawn, and not kept. */
  readonly tried: SolenoidDocument | null;
  readonly steps: Steps;
  readonly drafts: Readonly<Record<string, Draft>>;
  readonly kept: Kept;
  readonly gap_mm: number;
  /** How far the travel control reaches. */
  readonly stroke_mm: number;
  readonly cutaway: SvgNode | null;
  readonly flux: SvgNode | null;
  /** Why there is no picture of the field. */
  readonly fluxTrouble: string | null;
  readonly chart: SvgNode | null;
  readonly gapAxis: {
    readonly left: number;
    readonly right: number;
    readonly from: number;
    readonly to: number;
  } | null;
  readonly outcome: Outcome | null;
  readonly solving: Solving;
  readonly notice: string | null;
}

const empty: Bench = {
  job: null,
  document: null,
  drive: { voltage: '', coilTemperature: '20 °C' },
  tried: null,
  steps: noSteps,
  drafts: {},
  kept: { word: 'kept' },
  gap_mm: 2,
  stroke_mm: 10,
  cutaway: null,
  flux: null,
  fluxTrouble: null,
  chart: null,
  gapAxis: null,
  outcome: null,
  solving: { word: 'waiting' },
  notice: null,
};

export const useBench = create<Bench>()(() => empty);
export const bench = useBench.getState;
export const putOnBench = useBench.setState;

export function clearBench(job: string): void {
  putOnBench({ ...empty, job });
}

export interface BenchProposal {
  readonly name: string;
  readonly gesture?: string;
  readonly changes: (document: SolenoidDocument) => readonly Change[];
  readonly draft?: { readonly path: string; readonly text: string };
}

let last: Promise<void> = Promise.resolve();

/** One after the other: each is decided on the document that those before it have left. */
function inTurn(work: () => Promise<void>): Promise<void> {
  last = last.then(work, work);
  return last;
}

export function proposeOnBench({ name, gesture, changes, draft }: BenchProposal): Promise<void> {
  return inTurn(async () => {
    const { document } = bench();
    if (document === null) return;
    const made = changes(document);
    if (made.every(({ path, to }) => JSON.stringify(valueAt(document, path)) === JSON.stringify(to))) return;
    const problems = await adopt(apply(document, made), (steps) =>
      addStep(steps, { name, changes: made, gesture: gesture ?? null }),
    );
    if (draft !== undefined) refused.delete(draft.path);
    if (problems === null) {
      if (draft === undefined) made.forEach(({ path }) => dropFromBench(path));
      // A newer text in the same field has its own say.
      if (draft !== undefined && bench().drafts[draft.path]?.text === draft.text) dropFromBench(draft.path);
      return tryRefusedAgain();
    }
    if (draft !== undefined && bench().tried !== null) refused.set(draft.path, { name, changes, draft });
    const here = problems.find(({ path }) => path === draft?.path) ?? problems[0];
    if (draft !== undefined) holdOnBench(draft.path, draft.text, here?.problem ?? 'this does not read');
    else putOnBench({ notice: `Not done: ${name}. ${here?.problem ?? ''}` });
  });
}

/** What reads by itself and did not fit the rest: it is tried again when the rest has changed. */
const refused = new Map<string, BenchProposal>();

function tryRefusedAgain(): void {
  for (const [path, proposal] of refused) {
    const held = bench().drafts[path];
    refused.delete(path);
    if (held === undefined || held.text !== proposal.draft?.text) continue;
    void proposeOnBench(proposal);
  }
}

export const undoOnBench = (): Promise<void> => move(undoStep, 'Undone');
export const redoOnBench = (): Promise<void> => move(redoStep, 'Done again');

function move(by: typeof undoStep, word: string): Promise<void> {
  return inTurn(async () => {
    const { document, steps } = bench();
    const moved = document === null ? null : by(document, steps);
    if (moved === null) return;
    const problems = await adopt(moved.document, () => moved.steps);
    if (problems !== null) return;
    moved.step.changes.forEach(({ path }) => dropFromBench(path));
    putOnBench({ notice: `${word}: ${moved.step.name}` });
  });
}

export function endOfBenchGesture(): void {
  void inTurn(async () => putOnBench({ steps: endGesture(bench().steps) }));
}

/** How far the travel control reaches with this document; as before where the stroke is not known. */
export function strokeOf({ stroke }: { readonly stroke: number | null }): Partial<Bench> {
  if (stroke === null) return {};
  const stroke_mm = stroke * 1000;
  return { stroke_mm, gap_mm: Math.min(bench().gap_mm, stroke_mm) };
}

/** Makes a candidate the document where it reads, else gives its problems. */
async function adopt(candidate: SolenoidDocument, next: (steps: Steps) => Steps): Promise<readonly Problem[] | null> {
  const reading = await solver.read(candidate);
  if (!reading.ok) {
    putOnBench({ tried: reading.drawable });
    return reading.problems;
  }
  putOnBench({
    document: reading.document,
    tried: null,
    steps: next(bench().steps),
    notice: null,
    ...strokeOf(reading),
  });
  return null;
}

export function holdOnBench(path: string, text: string, problem: string): void {
  putOnBench({ drafts: { ...bench().drafts, [path]: { text, problem } } });
}

export function dropFromBench(path: string): void {
  if (bench().tried !== null) putOnBench({ tried: null });
  const { drafts } = bench();
  if (!Object.keys(drafts).some((at) => at === path || at.startsWith(`${path}.`) || at.startsWith(`${path}[`))) return;
  putOnBench({
    drafts: Object.fromEntries(
      Object.entries(drafts).filter(([at]) => at !== path && !at.startsWith(`${path}.`) && !at.startsWith(`${path}[`)),
    ),
  });
}
