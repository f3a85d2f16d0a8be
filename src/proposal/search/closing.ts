/**
 * When nothing in the space works: which limit closes it. Each limit is taken away in turn and the rest looked at again,
 * in coarser steps; a limit without which something works is named, else the finding that no layout lifts.
 */
import { assess } from '../../assessment/assess.ts';
import { beginSearch, searchOn } from '../../numerics/discrete-search.ts';
import { metricUnits, toSI } from '../../units/quantity.ts';
import { chosenAt, inTheWay, jobOf, problemOf, type Problem } from './problem.ts';
import { spaceOf, type Space } from './space.ts';

export interface Closing {
  /** "the places where the bracket may be put". */
  readonly limit: string;
  /** Best smallest margin without it, as a share of what is wanted; null where nothing goes together at all. */
  readonly value: number | null;
  readonly opens: boolean;
}

const MM = toSI(1, 'mm');
const wider = ({ from, to }: { readonly from: number; readonly to: number }, by: number) => ({
  from: from - by,
  to: to + by,
});

function relaxed(space: Space): { readonly limit: string; readonly space: Space }[] {
  const all = spaceKinds;
  return [
    ...(space.keepOut.length > 0 ? [{ limit: 'what stands in the way', space: { ...space, keepOut: [] } }] : []),
    {
      limit: 'the places where the bracket may be put',
      space: { ...space, x: wider(space.x, 100 * MM), y: wider(space.y, 100 * MM) },
    },
    {
      limit: 'the directions in which it may pull',
      space: { ...space, direction: wider(space.direction, Math.PI / 3) },
    },
    ...(space.connections.length < all.length
      ? [{ limit: 'the connections that can be made', space: { ...space, connections: all } }]
      : []),
    {
      limit: space.armHoles === null ? 'the reach of the arm' : 'the holes that the arm has',
      space: { ...space, armHoles: null, armRange: { from: 0.5 * space.armRange.from, to: 1.7 * space.armRange.to } },
    },
    ...(space.links === null
      ? []
      : [{ limit: 'the links at hand', space: { ...space, links: null, linkRange: wider(space.linkRange, 40 * MM) } }]),
  ].map((one) => ({
    ...one,
    space: {
      ...one.space,
      linkRange: { from: Math.max(10 * MM, one.space.linkRange.from), to: one.space.linkRange.to },
    },
  }));
}

const spaceKinds = ['slotted lever', 'pinned link', 'short chain', 'plain pin'] as const;

export function limitCount({ job }: Problem): number {
  const space = spaceOf(job);
  return space === null ? 0 : relaxed(space).length;
}

/** What is best without one of the limits. */
export function closingOf({ job, seed }: Problem, limit: number): Closing {
  const one = relaxed(spaceOf(job)!)[limit];
  const value = bestWithin(problemOf(job, { seed, space: one.space, coarse: 2, keep: 12 }));
  return { limit: one.limit, value, opens: value !== null && value >= 0 };
}

function bestWithin(problem: Problem | null): number | null {
  if (problem === null) return null;
  let best: number | null = null;
  for (const screen of problem.screens) {
    for (const { choices } of searchOn(screen, beginSearch(screen), Infinity).kept) {
      const changed = jobOf(problem, chosenAt(screen, choices));
      if (inTheWay(changed, problem.space.keepOut) !== null) continue;
      const value = problem.judge.valueOf(assess(changed, metricUnits, 'at rest').findings);
      if (Number.isFinite(value)) best = Math.max(best ?? -Infinity, value);
    }
  }
  return best;
}
