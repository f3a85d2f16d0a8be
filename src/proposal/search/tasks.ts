/**
 * Pieces of a search, plain data both ways, so that any number of threads may share them. What a piece finds hangs on the
 * problem and the piece alone, and results are put together in the order of the pieces: who did them does not show.
 */
import { assess } from '../../assessment/assess.ts';
import { beginSearch, searchOn, type SearchState } from '../../numerics/discrete-search.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';
import { change } from '../../job/change.ts';
import { metricUnits } from '../../units/quantity.ts';
import { closingOf, type Closing } from './closing.ts';
import { pairsOf, singlesOf, type Tried } from './nearest.ts';
import { inTheWay, jobOf, type Chosen, type Problem, type Rated } from './problem.ts';
import { refine } from './refine.ts';
import type { Barrier } from './screen.ts';
import { springsFor, type SpringSetting } from './spring-choices.ts';

export type Task =
  | {
      readonly kind: 'look';
      /** On the settable steps one by one, or on the choices of the first look. */
      readonly steps: 'choices' | 'every step';
      readonly screen: number;
      readonly from: number;
      readonly until: number;
      readonly floor: number;
    }
  | { readonly kind: 'assess'; readonly chosen: readonly Chosen[] }
  | { readonly kind: 'other springs'; readonly chosen: Chosen }
  | { readonly kind: 'refine'; readonly start: Rated }
  | { readonly kind: 'single changes'; readonly from: number; readonly until: number }
  | { readonly kind: 'second changes'; readonly first: Tried }
  | { readonly kind: 'closing'; readonly limit: number };

export interface Looked {
  readonly kind: 'look';
  readonly search: SearchState;
  readonly placed: number;
  readonly forced: number;
  readonly turnedAway: readonly (readonly [Barrier, number])[];
}

export type Done =
  | Looked
  | { readonly kind: 'rated'; readonly rated: readonly Rated[] }
  | { readonly kind: 'changes'; readonly tried: readonly Tried[] }
  | { readonly kind: 'closing'; readonly closing: Closing };

export function doTask(problem: Problem, task: Task): Done {
  switch (task.kind) {
    case 'look':
      return look(problem, task);
    case 'assess':
      return { kind: 'rated', rated: task.chosen.flatMap((one) => assessed(problem, one)) };
    case 'other springs':
      return { kind: 'rated', rated: withOtherSprings(problem, task.chosen) };
    case 'refine':
      return { kind: 'rated', rated: [refine(problem, task.start)] };
    case 'single changes':
      return { kind: 'changes', tried: singlesOf(problem, task.from, task.until) };
    case 'second changes':
      return { kind: 'changes', tried: pairsOf(problem, task.first) };
    case 'closing':
      return { kind: 'closing', closing: closingOf(problem, task.limit) };
  }
}

function look(problem: Problem, { steps, screen: i, from, until, floor }: Extract<Task, { kind: 'look' }>): Looked {
  const screen = steps === 'choices' ? problem.screens[i] : problem.everyStep(i);
  screen.counts.placed = 0;
  screen.counts.forced = 0;
  screen.turnedAway.clear();
  const search = searchOn(screen, beginSearch(screen, from, until, floor), Infinity);
  return { kind: 'look', search, ...screen.counts, turnedAway: [...screen.turnedAway] };
}

/** Nothing where something is in the way, or nothing can be said of it. */
function assessed(problem: Problem, chosen: Chosen): Rated[] {
  const job = jobOf(problem, chosen);
  if (inTheWay(job, problem.space.keepOut) !== null) return [];
  const value = problem.judge.valueOf(assess(job, metricUnits, 'at rest').findings);
  return Number.isFinite(value) ? [{ ...chosen, value }] : [];
}

/** A layout with every spring that may be fitted and lies best in its window. */
function withOtherSprings(problem: Problem, { layout, electric }: Chosen): Rated[] {
  const asNow = { layout, electric, spring: 0 };
  return springsFor(jobOf(problem, asNow), problem.stock).flatMap((fitted) =>
    assessed(problem, { ...asNow, fitted: onto(problem.job, fitted) }),
  );
}

/** The same setting, told as a change of the job as it is. */
function onto(job: SolenoidJob, setting: SpringSetting): SpringSetting {
  return { ...setting, changes: setting.changes.map(({ path, to }) => change(job, path, to)) };
}
