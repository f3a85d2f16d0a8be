/** Which of the layouts that were assessed are refined: those that differ. */
import { layoutOf } from './layout.ts';
import { isAllowed, type Problem, type Rated } from './problem.ts';

/** Starts that are refined of each kind of connection, from arms that differ. */
const REFINED_OF_A_KIND = 5;
/** Arm holes that are no further apart than this are one, m. */
export const SAME_HOLE = 4e-3;

/** What is there, where it is allowed, and the best of each kind of connection from places that differ. */
export function startsIn(problem: Problem, pool: readonly Rated[]): Rated[] {
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
