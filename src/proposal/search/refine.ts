/** A layout made better step by step, every step a whole assessment at rest, and set to what can be set in the end. */
import { assess } from '../../assessment/assess.ts';
import { refineLeast } from '../../numerics/discrete-search-refine-least.ts';
import { metricUnits } from '../../units/quantity.ts';
import type { Layout } from './layout.ts';
import { inTheWay, jobOf, type Problem, type Rated } from './problem.ts';
import type { Range } from './space.ts';

const MOST_EVALUATIONS = 180;
const MOST_STEPS = 80;

interface Variable {
  readonly name: 'x' | 'y' | 'direction' | 'radius' | 'length';
  readonly range: Range;
  /** Smallest step that can be set. */
  readonly step: number;
}

/** Value of a layout in the space; -Infinity where something is in the way. */
export function valueOf(problem: Problem, rated: Omit<Rated, 'value'>): number {
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
  const rounded = variables.map(({ step, range }, i) => {
    const nearest = Math.round(found.at[i] / step) * step;
    return nearest < range.from - 1e-9 || nearest > range.to + 1e-9 ? at[i] : nearest;
  });
  const best = stepped(problem, { ...start, layout: layoutWith(rounded), value: -Infinity }, variables);
  return best.value > start.value ? best : start;
}

/** Single steps and pairs of steps of what can be set, as long as one betters it. */
function stepped(problem: Problem, start: Rated, variables: readonly Variable[]): Rated {
  const rate = (layout: Layout): Rated => {
    const one = { ...start, layout };
    return { ...one, value: valueOf(problem, one) };
  };
  let best = rate(start.layout);
  let left = MOST_STEPS;
  for (let better = true; better && left > 0;) {
    better = false;
    for (const { name, step, range } of variables) {
      for (const way of [1, -1] as const) {
        const value = best.layout[name] + way * step;
        if (value < range.from - 1e-9 || value > range.to + 1e-9 || left <= 0) continue;
        left--;
        const one = rate({ ...best.layout, [name]: value });
        if (one.value > best.value + 1e-9) {
          best = one;
          better = true;
        }
      }
    }
  }
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
