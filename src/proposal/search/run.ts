/**
 * The search itself, stage by stage: a quick look at every combination, the best assessed at rest, the best of those given
 * other springs, refined, in a small space held against every step that can be set, and the nearest answer to what is
 * there. A run is plain data between stages, and a stage is a list of tasks that any number of hands may share: the same
 * job and seed give the same result, whoever did them. A stage that is broken off keeps what was handed in: the best so far.
 */
import { combinations } from '../../numerics/discrete-search.ts';
import { limitCount } from './closing.ts';
import { AT_ONCE, counted, exactKinds, inPieces, keptIn, lookTasks, numbers, pieceCount, stepTasks, withLooks } from './looks.ts'; // prettier-ignore
import { cheapest, isMending, knobCount, toPair } from './nearest.ts';
import { KEPT_OF_A_KIND, KEPT_OF_EVERY_STEP, type Problem } from './problem.ts';
import { bestOf, byValue, type Phase, type Run } from './run-state.ts';
import { asNow, isStocked, layoutsIn, startsIn } from './starts.ts';
import { doTask, type Done, type Task } from './tasks.ts';

/** Layouts, and knobs, of one task. */
const ASSESSED_AT_ONCE = 30;
/** Points of work: two changes are hardly ever less. */
const SMALL_COST = 3;
const KNOBS_AT_ONCE = 4;

/** What is to be done next, all of it at once if there are hands enough. Empty when the run is done. */
export function tasksOf(problem: Problem, run: Run): readonly Task[] {
  switch (run.phase) {
    case 'looking':
      return lookTasks(problem, run, 'choices');
    case 'assessing':
      return inPieces(keptIn(problem, run.kept), ASSESSED_AT_ONCE).map((chosen) => ({ kind: 'assess', chosen }));
    case 'other springs':
      return isStocked(problem)
        ? layoutsIn(problem, run.pool).map((chosen) => ({ kind: 'other springs', chosen }))
        : [];
    case 'refining':
      return run.waiting.map((start) => ({ kind: 'refine', start }));
    case 'looking at every step':
      return lookTasks(problem, run, 'every step');
    case 'assessing steps':
      return stepTasks(problem, run);
    case 'nearest':
      return isMending(problem)
        ? inPieces(numbers(knobCount(problem)), KNOBS_AT_ONCE).map((part) => ({
            kind: 'single changes',
            from: part[0],
            until: part[part.length - 1] + 1,
          }))
        : [];
    case 'second changes':
      return run.nearest === null || run.nearest.cost > SMALL_COST
        ? toPair(run.singles).map((first) => ({ kind: 'second changes', first }))
        : [];
    case 'closing':
      return (bestOf(run)?.value ?? -1) >= 0
        ? []
        : numbers(limitCount(problem)).map((limit) => ({ kind: 'closing', limit }));
    case 'done':
      return [];
  }
}

/**
 * The run with what was done of its tasks, in their order; what is missing was not done. With all of them done the run goes
 * on to its next stage.
 */
export function takenIn(problem: Problem, run: Run, tasks: readonly Task[], done: readonly (Done | undefined)[]): Run {
  const isWhole = tasks.every((_, i) => done[i] !== undefined);
  const results = tasks.flatMap((_, i) => done[i] ?? []);
  const rated = results.flatMap((one) => (one.kind === 'rated' ? one.rated : []));
  const looked = results.filter((one) => one.kind === 'look');
  const next = (phase: Phase): Pick<Run, 'phase' | 'piece'> =>
    isWhole ? { phase, piece: 0 } : { phase: run.phase, piece: run.piece };
  switch (run.phase) {
    case 'looking': {
      const to = withLooks(run, tasks, done, 'kept', KEPT_OF_A_KIND);
      const isLast = to.piece >= pieceCount(problem, 'choices');
      return { ...to, ...counted(run, looked), ...(isLast && isWhole ? next('assessing') : {}) };
    }
    case 'assessing': {
      const pool = [...run.pool, ...rated].sort(byValue);
      const assessed = tasks.reduce((sum, task, i) => sum + (task.kind === 'assess' && done[i] !== undefined ? task.chosen.length : 0), run.assessed); // prettier-ignore
      return { ...run, pool, assessed, ...next('other springs') };
    }
    case 'other springs': {
      const pool = [...run.pool, ...rated].sort(byValue);
      const nearest = cheapest([run.nearest, ...rated.flatMap((one) => asNow(problem, one))]);
      return { ...run, pool, nearest, waiting: isWhole ? startsIn(problem, pool) : [], ...next('refining') };
    }
    case 'refining':
      return { ...run, waiting: [], refined: [...run.refined, ...rated], ...next('looking at every step') };
    case 'looking at every step': {
      const to = withLooks(run, tasks, done, 'steps', KEPT_OF_EVERY_STEP);
      const isLast = to.piece >= pieceCount(problem, 'every step');
      return { ...to, ...(isLast && isWhole ? next('assessing steps') : {}) };
    }
    case 'assessing steps': {
      const to = { ...run, refined: [...run.refined, ...rated], piece: run.piece + 1 };
      if (isWhole && tasks.length > 0) return to;
      return { ...to, ...next('nearest'), exact: isWhole ? exactKinds(problem, run) : run.exact };
    }
    case 'nearest':
    case 'second changes': {
      const tried = results.flatMap((one) => (one.kind === 'changes' ? one.tried : []));
      const nearest = cheapest([run.nearest, ...tried]);
      return run.phase === 'nearest'
        ? { ...run, singles: tried, nearest, ...next('second changes') }
        : { ...run, nearest, ...next('closing') };
    }
    case 'closing': {
      const limits = results.flatMap((one) => (one.kind === 'closing' ? one.closing : []));
      return { ...run, limits, ...next('done') };
    }
    case 'done':
      return run;
  }
}

/** One stage by one pair of hands. */
export function runOn(problem: Problem, run: Run): Run {
  const tasks = tasksOf(problem, run);
  return takenIn(problem, run, tasks, tasks.map((task) => doTask(problem, task))); // prettier-ignore
}

/** How far it has come, 0 to 1, each phase by its usual share of the time. @param part of the stage that is under way */
export function shareDone(problem: Problem, run: Run, part = 0): number {
  switch (run.phase) {
    case 'looking':
      return (0.45 * (run.piece + part * AT_ONCE)) / pieceCount(problem, 'choices');
    case 'assessing':
      return 0.45 + 0.15 * part;
    case 'other springs':
      return 0.6 + 0.06 * part;
    case 'refining':
      return 0.66 + 0.14 * part;
    case 'looking at every step':
      return 0.8 + (0.03 * (run.piece + part * AT_ONCE)) / Math.max(1, pieceCount(problem, 'every step'));
    case 'assessing steps':
      return 0.83 + 0.02 * part;
    case 'nearest':
      return 0.85 + 0.04 * part;
    case 'second changes':
      return 0.89 + 0.06 * part;
    case 'closing':
      return 0.95 + 0.05 * part;
    case 'done':
      return 1;
  }
}

export function toLookAt({ screens }: Problem): number {
  return screens.reduce((sum, { radices }) => sum + combinations(radices), 0);
}
