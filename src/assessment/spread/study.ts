/** A whole study: draws, then what matters, then what would mend; in pieces that any number of workers may share. */
import { nearestToFailing, sensitivityStudy, type Sensitivity } from './influence.ts';
import { spreadOutcome, type MarginRows, type SpreadOutcome } from './outcome.ts';
import { scrambleSeed, type SpreadPlan } from './plan.ts';
import type { SpreadTask } from './task.ts';
import { tightened, WANTED_CHANCE, type Tightening } from './tighten.ts';

export interface SpreadStudy {
  readonly outcome: SpreadOutcome;
  /** Null where it was not asked for, or the study was stopped before. */
  readonly sensitivity: Sensitivity | null;
  readonly tightening: readonly Tightening[];
  readonly stopped: boolean;
}

export type SpreadStage = 'drawing' | 'weighing what matters' | 'trying what would mend';

export interface SpreadProgress {
  readonly stage: SpreadStage;
  readonly done: number;
  readonly of: number;
}

/** Those who do the work. */
export interface Hands {
  /**
   * Does pieces of work in any order, and hands in each result with the number of its piece.
   *
   * @returns false when stopped before the last
   */
  run(tasks: readonly SpreadTask[], take: (piece: number, margins: Float64Array) => void): Promise<boolean>;
}

export interface StudyOptions {
  /** Weigh what matters and try what would mend. */
  readonly whole: boolean;
  /** Leave out what the draws themselves say of what matters: chances and margins alone, as quickly as can be. */
  readonly quick?: boolean;
  readonly tell?: (progress: SpreadProgress) => void;
  /** Draws so far, whenever a round of all scrambles is complete. */
  readonly soFar?: (known: () => SpreadOutcome) => void;
}

const CHUNK = 128;
const MOST_STUDIED = 3;
const MOST_TIGHTENED = 3;

/** @returns null when it was stopped before anything was known */
export async function spreadStudy(plan: SpreadPlan, hands: Hands, options: StudyOptions): Promise<SpreadStudy | null> {
  const drawn = await drawAll(plan, hands, options);
  if (drawn === null) return null;
  const { rows, draws } = drawn;
  const outcome = spreadOutcome(plan, rows, draws, options.quick !== true);
  const partial: SpreadStudy = { outcome, sensitivity: null, tightening: [], stopped: true };
  if (drawn.stopped) return partial;
  if (!options.whole) return { ...partial, stopped: false };

  const run = async (tasks: readonly SpreadTask[], stage: SpreadStage) => {
    const results: Float64Array[] = [];
    let done = 0;
    const isDone = await hands.run(tasks, (piece, margins) => {
      results[piece] = margins;
      options.tell?.({ stage, done: (done += 1), of: tasks.length });
    });
    return isDone ? results : null;
  };
  const chosen = nearestToFailing(outcome.findings, MOST_STUDIED);
  const study = chosen.length === 0 || draws < 64 ? null : sensitivityStudy(plan, rows, draws, chosen);
  const weighed = study === null ? [] : await run(study.tasks, 'weighing what matters');
  if (weighed === null) return partial;
  const sensitivity = study?.outcome(weighed) ?? null;
  const tightening: Tightening[] = [];
  for (const { id, factors } of sensitivity?.findings ?? []) {
    const finding = outcome.findings.find((one) => one.id === id);
    // What fails as it is written fails the surer, the better it is known.
    if (finding === undefined || finding.nominal < 0 || finding.failing.value < WANTED_CHANCE || factors === null)
      continue;
    const paths = factors.flatMap(({ paths: of }) => of).slice(0, MOST_TIGHTENED);
    const found = await tightened(plan, id, paths, (tasks) => run(tasks, 'trying what would mend'));
    if (found === null) return { ...partial, sensitivity, tightening };
    tightening.push(found);
  }
  return { outcome, sensitivity, tightening, stopped: false };
}

async function drawAll(
  plan: SpreadPlan,
  hands: Hands,
  { tell, soFar }: StudyOptions,
): Promise<{ readonly rows: MarginRows; readonly draws: number; readonly stopped: boolean } | null> {
  const { request, drawsPerScramble, findings } = plan;
  const { scrambles } = request;
  const count = Math.min(CHUNK, drawsPerScramble);
  const rounds = drawsPerScramble / count;
  const tasks = Array.from({ length: rounds * scrambles }, (_, piece): SpreadTask => ({
    kind: 'draws',
    seed: scrambleSeed(request.seed, piece % scrambles, 'draws'),
    first: Math.floor(piece / scrambles) * count,
    count,
  }));
  const rows = Array.from({ length: scrambles }, () => new Float64Array(drawsPerScramble * findings.length));
  const inRound = Array.from({ length: rounds }, () => 0);
  let complete = 0;
  let done = 0;
  const isDone = await hands.run(tasks, (piece, margins) => {
    const round = Math.floor(piece / scrambles);
    rows[piece % scrambles].set(margins, round * count * findings.length);
    inRound[round] += 1;
    done += 1;
    tell?.({ stage: 'drawing', done: done * count, of: tasks.length * count });
    const before = complete;
    while (complete < rounds && inRound[complete] === scrambles) complete += 1;
    if (complete > before) soFar?.(() => spreadOutcome(plan, rows, complete * count));
  });
  return complete === 0 ? null : { rows, draws: complete * count, stopped: !isDone };
}

/** One pair of hands: the work is done here and now, with a pause between pieces for whoever wants to stop it. */
export function ownHands(
  work: (task: SpreadTask) => Float64Array,
  pause: () => Promise<void>,
  isStopped: () => boolean,
): Hands {
  return {
    async run(tasks, take) {
      for (const [piece, task] of tasks.entries()) {
        if (isStopped()) return false;
        take(piece, work(task));
        await pause();
      }
      return true;
    },
  };
}
