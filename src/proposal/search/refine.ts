/** A layout made better step by step, every step a whole assessment at rest, and set to what can be set in the end. */
import { assess } from '../../assessment/assess.ts';
import { refineLeast } from '../../numerics/discrete-search-refine-least.ts';
import { metricUnits } from '../../units/quantity.ts';
import type { Layout } from './layout.ts';
import { inTheWay, jobOf, type Chosen, type Problem, type Rated } from './problem.ts';
import type { Range } from './space.ts';

const MOST_EVALUATIONS = 180;
const MOST_STEPS = 400;
/** Steps of the bracket, either way, among which every combination is tried in the end. */
const around = [-4, -3, -2, -1, 0, 1, 2, 3, 4];

interface Variable {
  readonly name: 'x' | 'y' | 'direction' | 'radius' | 'length';
  readonly range: Range;
  /** Smallest step that can be set. */
  readonly step: number;
}

/** Value of a layout in the space; -Infinity where something is in the way. */
export function valueOf(problem: Problem, rated: Chosen): number {
  const job = jobOf(problem, rated);
  if (inTheWay(job, problem.space.keepOut) !== null) return -Infinity;
  return problem.judge.valueOf(assess(job, metricUnits, 'at rest').findings);
}

export function refine(problem: Problem, start: Rated): Rated {
  const variables = variablesOf(problem, start.layout);
  const within = (value: number, { from, to }: Range) => Math.min(to, Math.max(from, value));
  const layoutWith = (x: readonly number[]): Layout => ({
    ...start.layout,
    ...Object.fromEntries(variables.map(({ name }, i) => [name, x[i]])),
  });
  const margins = (x: readonly number[]): number[] => {
    const job = jobOf(problem, { ...start, layout: layoutWith(x) });
    if (inTheWay(job, problem.space.keepOut) !== null) return names.map(() => -Infinity);
    const found = new Map(
      assess(job, metricUnits, 'at rest').findings.map((one) => [one.id, problem.judge.marginOf(one)]),
    );
    return names.map((name) => found.get(name) ?? 99);
  };
  const names = assess(jobOf(problem, start), metricUnits, 'at rest')
    .findings.filter((one) => problem.judge.marginOf(one) !== null)
    .map(({ id }) => id)
    .sort();
  if (variables.length === 0 || names.length === 0) return start;
  const at = variables.map(({ name, range }) => within(start.layout[name], range));
  const bounds = variables.map(({ range: { from, to } }) => [from, to] as const);
  const found = refineLeast(margins, at, bounds, { most: MOST_EVALUATIONS, step: 0.05, tolerance: 1e-4 });
  // Each value to either side of it that can be set: the best of all these corners is a rounding that keeps the margins.
  const sides = variables.map(({ step, range }, i) => {
    const low = Math.floor(found.at[i] / step + 1e-9) * step;
    const both = [low, low + step].filter((value) => value >= range.from - 1e-9 && value <= range.to + 1e-9);
    return both.length === 0 ? [at[i]] : both;
  });
  const corners = sides.reduce<number[][]>(
    (list, values) => list.flatMap((one) => values.map((v) => [...one, v])),
    [[]],
  );
  const rounded = corners
    .map((corner) => rate(problem, { ...start, layout: layoutWith(corner) }))
    .reduce((best, one) => (one.value > best.value ? one : best));
  return stepped(problem, rounded.value > start.value ? rounded : start, variables);
}

function rate(problem: Problem, one: Chosen): Rated {
  return { ...one, value: valueOf(problem, one) };
}

/** Steps of what can be set, one or two at a time, small and then larger, as long as one betters it. */
function stepped(problem: Problem, start: Rated, variables: readonly Variable[]): Rated {
  const singles = variables.flatMap((variable) => [1, -1].map((way) => [{ variable, way }]));
  const pairs = singles.flatMap((one, i) =>
    singles.slice(i + 1).flatMap((other) => (one[0].variable === other[0].variable ? [] : [[...one, ...other]])),
  );
  let best = start;
  let left = MOST_STEPS;
  /** Places of the bracket near by, all of them: where lever and stop meet hangs on both coordinates at once. */
  const [x, y] = (['x', 'y'] as const).map((name) => variables.find((one) => one.name === name));
  const about =
    x === undefined || y === undefined
      ? []
      : around.flatMap((right) =>
          around.flatMap((up) =>
            right === 0 || up === 0 || Math.abs(right) === Math.abs(up)
              ? []
              : [
                  [
                    { variable: x, way: right },
                    { variable: y, way: up },
                  ],
                ],
          ),
        );
  const tryStep = (moves: readonly { readonly variable: Variable; readonly way: number }[], size: number): boolean => {
    const layout = { ...best.layout };
    for (const { variable, way } of moves) {
      const value = best.layout[variable.name] + way * size * variable.step;
      if (value < variable.range.from - 1e-9 || value > variable.range.to + 1e-9) return false;
      Object.assign(layout, { [variable.name]: value });
    }
    if (left-- <= 0) return false;
    const one = rate(problem, { ...best, layout });
    if (!(one.value > best.value + 1e-9)) return false;
    best = one;
    return true;
  };
  const oneBetters = (): boolean =>
    [1, 2, 4].some((size) => singles.some((moves) => tryStep(moves, size)))
    || [1, 2].some((size) => pairs.some((moves) => tryStep(moves, size)))
    || about.some((moves) => tryStep(moves, 1));
  while (oneBetters());
  return best;
}

function variablesOf({ space }: Problem, { kind }: Layout): Variable[] {
  const { x, y, direction, armHoles, armRange, links, linkRange, placeStep, directionStep } = space;
  const isLinked = kind === 'pinned link' || kind === 'short chain';
  const all: Variable[] = [
    { name: 'x', range: x, step: placeStep },
    { name: 'y', range: y, step: placeStep },
    { name: 'direction', range: direction, step: directionStep },
    ...(kind !== 'slotted lever' && armHoles === null
      ? [{ name: 'radius', range: armRange, step: placeStep } as const]
      : []),
    ...(isLinked && links === null ? [{ name: 'length', range: linkRange, step: placeStep } as const] : []),
  ];
  return all.filter(({ range }) => range.to > range.from);
}
