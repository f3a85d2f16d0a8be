/** A search from its beginning to its end, by any number of hands; stopped at any moment, it has the best so far. */
import { beginRun, type Run } from './run-state.ts';
import { shareDone, takenIn, tasksOf } from './run.ts';
import type { Problem } from './problem.ts';
import { doTask, type Done, type Task } from './tasks.ts';

/** Those who do the work. */
export interface SearchHands {
  /**
   * Does tasks in any order, and hands in each result with the number of its task.
   *
   * @returns false when stopped before the last
   */
  run(tasks: readonly Task[], take: (piece: number, done: Done) => void): Promise<boolean>;
}

export interface SearchProgress {
  readonly phase: Run['phase'];
  readonly lookedAt: number;
  /** 0 to 1. */
  readonly share: number;
}

export interface Searched {
  readonly run: Run;
  readonly isStopped: boolean;
}

export async function searchWith(
  problem: Problem,
  hands: SearchHands,
  tell: (progress: SearchProgress) => void = () => {},
): Promise<Searched> {
  let run = beginRun(problem);
  while (run.phase !== 'done') {
    const stage = run;
    const tasks = tasksOf(problem, stage);
    const done: (Done | undefined)[] = tasks.map(() => undefined);
    let count = 0;
    let { lookedAt } = stage;
    // oxlint-disable-next-line no-await-in-loop -- a stage begins with what the one before it found
    const isWhole = await hands.run(tasks, (piece, result) => {
      done[piece] = result;
      count += 1;
      const task = tasks[piece];
      if (task.kind === 'look' && task.steps === 'choices') lookedAt += task.until - task.from;
      tell({ phase: stage.phase, lookedAt, share: shareDone(problem, stage, count / tasks.length) });
    });
    run = takenIn(problem, stage, tasks, done);
    if (!isWhole) return { run, isStopped: true };
  }
  return { run, isStopped: false };
}

/** One pair of hands. @param pause lets others have their turn @param isStopped asked between tasks */
export function ownHands(problem: Problem, pause: () => Promise<unknown>, isStopped: () => boolean): SearchHands {
  return {
    async run(tasks, take) {
      for (const [piece, task] of tasks.entries()) {
        take(piece, doTask(problem, task));
        // oxlint-disable-next-line no-await-in-loop -- one pair of hands does one thing after the other
        await pause();
        if (isStopped()) return false;
      }
      return true;
    },
  };
}
