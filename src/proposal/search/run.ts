/**
 * The search itself, in blocks: a quick look at every combination, the best assessed at rest, the best of those refined,
 * and the nearest answer to what is there. Plain data between blocks, so that it can be put down, sent to a worker,
 * stopped with the best so far, and gone on with. The same job and seed give the same result, whatever the blocks.
 */
import { assess } from '../../assessment/assess.ts';
import { beginSearch, combinations, searchOn, type SearchState } from '../../numerics/discrete-search.ts';
import { metricUnits } from '../../units/quantity.ts';
import { layoutOf } from './layout.ts';
import { inTheWay, isAllowed, jobOf, type Problem, type Rated } from './problem.ts';
import { beginNearest, nearestOn, type NearestState } from './nearest.ts';
import { refine } from './refine.ts';
import { beginClosing, closingOn, type ClosingState } from './closing.ts';

export type Phase = 'looking' | 'assessing' | 'refining' | 'nearest' | 'closing' | 'done';

export interface Run {
  readonly phase: Phase;
  /** One search for each kind of connection. */
  readonly searches: readonly SearchState[];
  /** Layouts placed and asked for forces by the quick look. */
  readonly placed: number;
  readonly forced: number;
  /** Assessed at rest, best first. */
  readonly pool: readonly Rated[];
  readonly assessed: number;
  /** What is still to be refined, and what has been. */
  readonly waiting: readonly Rated[];
  readonly refined: readonly Rated[];
  readonly nearest: NearestState;
  readonly closing: ClosingState;
}

const LOOKED_AT_ONCE = 8_000;
const ASSESSED_AT_ONCE = 60;
/** Starts that are refined of each kind of connection, from arms that differ. */
const REFINED_OF_A_KIND = 5;
/** Arm holes that are no further apart than this are one, m. */
export const SAME_HOLE = 4e-3;

export function beginRun(problem: Problem): Run {
  return {
    phase: 'looking',
    searches: problem.screens.map((screen) => beginSearch(screen)),
    placed: 0,
    forced: 0,
    pool: [],
    assessed: 0,
    waiting: [],
    refined: [],
    nearest: beginNearest(),
    closing: beginClosing(),
  };
}

/** One block: some tens of milliseconds. */
export function runOn(problem: Problem, run: Run): Run {
  switch (run.phase) {
    case 'looking':
      return lookOn(problem, run);
    case 'assessing':
      return assessOn(problem, run);
    case 'refining':
      return refineOn(problem, run);
    case 'nearest': {
      const nearest = nearestOn(problem, run.nearest);
      return { ...run, nearest, phase: nearest.isDone ? 'closing' : 'nearest' };
    }
    case 'closing': {
      const best = bestOf(run);
      const closing =
        best !== null && best.value >= 0 ? { ...run.closing, isDone: true } : closingOn(problem, run.closing);
      return { ...run, closing, phase: closing.isDone ? 'done' : 'closing' };
    }
    case 'done':
      return run;
  }
}

/** How far it has come, 0 to 1, each phase by its usual share of the time. */
export function shareDone(problem: Problem, run: Run): number {
  const looked =
    run.searches.reduce((sum, { next, until }) => sum + next / until, 0) / Math.max(1, run.searches.length);
  switch (run.phase) {
    case 'looking':
      return 0.45 * looked;
    case 'assessing':
      return 0.45 + 0.15 * (run.assessed / Math.max(1, keptOf(run)));
    case 'refining':
      return 0.6 + 0.25 * (run.refined.length / Math.max(1, run.refined.length + run.waiting.length));
    case 'nearest':
      return 0.85 + 0.1 * run.nearest.share;
    case 'closing':
      return 0.95 + 0.05 * run.closing.share;
    case 'done':
      return 1;
  }
}

export function lookedAt({ searches }: Run): number {
  return searches.reduce((sum, { next, from }) => sum + next - from, 0);
}

export function toLookAt({ screens }: Problem): number {
  return screens.reduce((sum, { radices }) => sum + combinations(radices), 0);
}

/** Everything that was assessed, best first. */
export function ratedOf({ pool, refined }: Run): Rated[] {
  return [...refined, ...pool].sort((a, b) => b.value - a.value);
}

export function bestOf(run: Run): Rated | null {
  return ratedOf(run)[0] ?? null;
}

const keptOf = ({ searches }: Run): number => searches.reduce((sum, { kept }) => sum + kept.length, 0);

function lookOn(problem: Problem, run: Run): Run {
  const i = run.searches.findIndex(({ next, until }) => next < until);
  if (i < 0) return { ...run, phase: 'assessing' };
  const screen = problem.screens[i];
  const before = { ...screen.counts };
  const search = searchOn(screen, run.searches[i], LOOKED_AT_ONCE);
  return {
    ...run,
    searches: run.searches.map((one, k) => (k === i ? search : one)),
    placed: run.placed + screen.counts.placed - before.placed,
    forced: run.forced + screen.counts.forced - before.forced,
  };
}

/** What the quick look kept, the promising first. */
function keptIn({ screens }: Problem, { searches }: Run): Rated[] {
  return searches
    .flatMap(({ kept }, i) =>
      kept.map(({ choices, value }) => ({
        layout: screens[i].layoutOf(choices),
        spring: choices[6],
        electric: choices[7],
        value,
      })),
    )
    .sort((a, b) => b.value - a.value);
}

function assessOn(problem: Problem, run: Run): Run {
  const kept = keptIn(problem, run);
  const next = kept.slice(run.assessed, run.assessed + ASSESSED_AT_ONCE).flatMap((one) => {
    const job = jobOf(problem, one);
    if (inTheWay(job, problem.space.keepOut) !== null) return [];
    const value = problem.judge.valueOf(assess(job, metricUnits, 'at rest').findings);
    return Number.isFinite(value) ? [{ ...one, value }] : [];
  });
  const assessed = Math.min(kept.length, run.assessed + ASSESSED_AT_ONCE);
  const pool = [...run.pool, ...next].sort((a, b) => b.value - a.value);
  if (assessed < kept.length) return { ...run, pool, assessed };
  return { ...run, pool, assessed, phase: 'refining', waiting: startsIn(problem, pool) };
}

/** What is there, where it is allowed, and the best of each kind of connection from places that differ. */
function startsIn(problem: Problem, pool: readonly Rated[]): Rated[] {
  const now = layoutOf(problem.job);
  const asItIs = { spring: 0, electric: 0, value: problem.judge.valueOf(problem.judge.before) };
  const present =
    now === null || !Number.isFinite(asItIs.value) || !isAllowed(problem, problem.job)
      ? []
      : [{ ...asItIs, layout: now }];
  const found = problem.screens.flatMap(({ axes }) => {
    const own = pool.filter(({ layout }) => layout.kind === axes.kind);
    const starts: Rated[] = [];
    const fill = (isNew: (one: Rated, taken: Rated) => boolean): void => {
      for (const one of own)
        if (starts.length < REFINED_OF_A_KIND && starts.every((taken) => isNew(one, taken))) starts.push(one);
    };
    fill(({ layout }, taken) => Math.abs(layout.radius - taken.layout.radius) >= SAME_HOLE);
    // One arm hole alone: then from other hub positions, springs and directions.
    fill(
      ({ layout, spring, electric }, taken) =>
        layout.hub !== taken.layout.hub || spring !== taken.spring || electric !== taken.electric,
    );
    // One of everything: then from other places of the bracket.
    fill(({ layout: { x, y } }, taken) => Math.hypot(x - taken.layout.x, y - taken.layout.y) >= SAME_HOLE);
    return starts;
  });
  return [...present, ...found];
}

function refineOn(problem: Problem, run: Run): Run {
  const [first, ...waiting] = run.waiting;
  if (first === undefined) return { ...run, phase: 'nearest' };
  return { ...run, waiting, refined: [...run.refined, refine(problem, first)] };
}
