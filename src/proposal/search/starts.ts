/** Which of the layouts that were assessed are given other springs and refined: those that differ. */
import { costOf } from './cost.ts';
import { layoutOf } from './layout.ts';
import type { Near } from './nearest.ts';
import { changesOf, isAllowed, type Chosen, type Problem, type Rated } from './problem.ts';

/** Layouts of each kind of connection that are given other springs. */
const GIVEN_SPRINGS = 6;

export function isStocked({ stock: { drawer, isToOrder } }: Problem): boolean {
  return isToOrder || (drawer?.springs.length ?? 0) > 0;
}

/** What is there, and the best of each kind of connection with arms or hub positions that differ. */
export function layoutsIn(problem: Problem, pool: readonly Rated[]): Chosen[] {
  return [
    ...present(problem),
    ...problem.screens.flatMap(({ axes }) => {
      const own: Rated[] = [];
      for (const one of pool) {
        if (own.length >= GIVEN_SPRINGS) break;
        const { kind, hub, radius } = one.layout;
        const isNew = (taken: Rated) =>
          hub !== taken.layout.hub
          || Math.abs(radius - taken.layout.radius) >= SAME_HOLE
          || one.electric !== taken.electric;
        if (kind === axes.kind && own.every(isNew)) own.push(one);
      }
      return own;
    }),
  ];
}

function present(problem: Problem): Rated[] {
  const layout = layoutOf(problem.job);
  const value = problem.judge.valueOf(problem.judge.before);
  return layout === null || !Number.isFinite(value) || !isAllowed(problem, problem.job)
    ? []
    : [{ layout, spring: 0, electric: 0, value }];
}

/** An answer that moves nothing but the spring. */
export function asNow(problem: Problem, one: Rated): Near[] {
  const changes = changesOf(problem, one);
  if (one.fitted === undefined || changes.length !== one.fitted.changes.length) return [];
  const { words, order } = one.fitted;
  return [
    {
      words: [words],
      changes,
      value: one.value,
      cost: costOf(changes, order !== undefined),
      ...(order === undefined ? {} : { order }),
    },
  ];
}

/** Starts that are refined of each kind of connection, from arms that differ. */
const REFINED_OF_A_KIND = 5;
/** Arm holes that are no further apart than this are one, m. */
export const SAME_HOLE = 4e-3;

/** What is there, where it is allowed, and the best of each kind of connection from places that differ. */
export function startsIn(problem: Problem, pool: readonly Rated[]): Rated[] {
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
      ({ layout, spring, electric, fitted }, taken) =>
        layout.hub !== taken.layout.hub
        || spring !== taken.spring
        || electric !== taken.electric
        || fitted?.words !== taken.fitted?.words,
    );
    // One of everything: then from other places of the bracket.
    fill(({ layout: { x, y } }, taken) => Math.hypot(x - taken.layout.x, y - taken.layout.y) >= SAME_HOLE);
    return starts;
  });
  return [...present(problem), ...found];
}
