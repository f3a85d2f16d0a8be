/** The pieces of the quick look, of the choices and of every step that can be set, and what comes of them. */
import { combinations, joinSearches } from '../../numerics/discrete-search.ts';
import { MOST_STEPS } from './every-step.ts';
import { chosenAt, KEPT_OF_A_KIND, KEPT_OF_EVERY_STEP, type Chosen, type Problem, type Rated } from './problem.ts';
import { byValue, ratedOf, type Run } from './run-state.ts';
import type { Done, Looked, Task } from './tasks.ts';

/** Pieces of the quick look for each kind of connection, and how many of each kind are in one stage. */
const MOST_PIECES = 192;
const LEAST_OF_A_PIECE = 4_000;
export const AT_ONCE = 8;
/** Layouts of each kind assessed before those that are left are held against the best of them. */
const STEPS_AT_ONCE = 32;

/** Better by less is not better. */
const BETTER = 1e-9;

export const numbers = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

export function inPieces<T>(list: readonly T[], size: number): T[][] {
  return numbers(Math.ceil(list.length / size)).map((i) => list.slice(i * size, (i + 1) * size));
}

type Steps = Extract<Task, { kind: 'look' }>['steps'];

/** How many layouts and settings a screen has; none of every step where there are too many of them. */
function sizeOf({ screens, stepCounts, springs, electrics }: Problem, screen: number, steps: Steps): number {
  if (steps === 'choices') return combinations(screens[screen].radices);
  return stepCounts[screen] > MOST_STEPS ? 0 : stepCounts[screen] * springs.length * electrics.length;
}

const piecesIn = (size: number): number => Math.min(MOST_PIECES, Math.ceil(size / LEAST_OF_A_PIECE));

export function pieceCount(problem: Problem, steps: Steps): number {
  return Math.max(0, ...problem.screens.map((_, i) => piecesIn(sizeOf(problem, i, steps))));
}

/** The next few pieces of every kind. Each is told what it has to beat: the last that earlier stages keep. */
export function lookTasks(problem: Problem, run: Run, steps: Steps): Task[] {
  const best = ratedOf(run);
  return problem.screens.flatMap((_, screen) => {
    const size = sizeOf(problem, screen, steps);
    const count = piecesIn(size);
    const kept = steps === 'choices' ? run.kept[screen] : run.steps[screen];
    const isFull = kept.length >= (steps === 'choices' ? KEPT_OF_A_KIND : KEPT_OF_EVERY_STEP);
    const own = steps === 'choices' ? -Infinity : toBeatIn(problem, best, screen);
    const floor = Math.max(own, isFull ? kept[kept.length - 1].value : -Infinity);
    return numbers(AT_ONCE)
      .map((i) => run.piece + i)
      .filter((piece) => piece < count)
      .map((piece) => ({
        kind: 'look' as const,
        steps,
        screen,
        from: Math.floor((piece * size) / count),
        until: Math.floor(((piece + 1) * size) / count),
        floor,
      }));
  });
}

/** Of every step only what is better than the best of its kind is asked for, and nothing of what fails. */
function toBeatIn({ screens }: Problem, rated: readonly Rated[], screen: number): number {
  const best = rated.find(({ layout }) => layout.kind === screens[screen].axes.kind);
  return Math.max(0, best?.value ?? 0) + BETTER;
}

export function withLooks(
  run: Run,
  tasks: readonly Task[],
  done: readonly (Done | undefined)[],
  into: 'kept' | 'steps',
  keep: number,
): Run {
  const lists = run[into].map((kept, screen) => {
    const own = tasks.flatMap((task, i) => {
      const result = done[i];
      return task.kind === 'look' && task.screen === screen && result?.kind === 'look' ? [result.search] : [];
    });
    if (own.length === 0) return kept;
    return joinSearches([{ from: 0, next: 0, until: 0, kept, cutOff: 0, valued: 0 }, ...own], keep).kept;
  });
  return { ...run, [into]: lists, piece: run.piece + AT_ONCE };
}

export function counted(
  run: Run,
  looked: readonly Looked[],
): Pick<Run, 'placed' | 'forced' | 'lookedAt' | 'turnedAway'> {
  const sums = new Map(run.turnedAway);
  for (const { turnedAway } of looked)
    for (const [barrier, count] of turnedAway) sums.set(barrier, (sums.get(barrier) ?? 0) + count);
  return {
    placed: looked.reduce((sum, { placed }) => sum + placed, run.placed),
    forced: looked.reduce((sum, { forced }) => sum + forced, run.forced),
    lookedAt: looked.reduce((sum, { search }) => sum + search.next - search.from, run.lookedAt),
    turnedAway: [...sums],
  };
}

/** What the quick look kept, the promising first. */
export function keptIn({ screens }: Problem, kept: Run['kept']): Chosen[] {
  return kept
    .flatMap((list, i) => list.map(({ choices, value }) => ({ ...chosenAt(screens[i], choices), value })))
    .sort(byValue);
}

/** The next of each kind that may still be better than the best of its kind. */
export function stepTasks(problem: Problem, run: Run): Task[] {
  const best = ratedOf(run);
  const chosen = run.steps.flatMap((list, screen) => {
    const toBeat = toBeatIn(problem, best, screen);
    return list
      .slice(run.piece * STEPS_AT_ONCE, (run.piece + 1) * STEPS_AT_ONCE)
      .filter(({ value }) => value > toBeat)
      .map(({ choices }) => chosenAt(problem.everyStep(screen), choices));
  });
  return inPieces(chosen, STEPS_AT_ONCE / 4).map((part) => ({ kind: 'assess', chosen: part }));
}

/** Small enough to be looked at step by step, and nothing that may be better left unassessed. */
export function exactKinds(problem: Problem, run: Run): boolean[] {
  const best = ratedOf(run);
  return run.steps.map((list, screen) => {
    if (sizeOf(problem, screen, 'every step') === 0) return false;
    const isFull = list.length >= KEPT_OF_EVERY_STEP;
    return !isFull || list[list.length - 1].value <= toBeatIn(problem, best, screen);
  });
}
