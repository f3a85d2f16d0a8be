/**
 * Every layout of a small space: each place of the bracket, direction, arm and link on the steps that a fitter can set, and
 * what is there. Where there are few enough, all of them are looked at, so that nothing can be better than what is found.
 */
import type { Rig, SolenoidJob } from '../../assessment/rig.ts';
import { armAnglesOf, clearances, hubsOf, type Axes, type Settings } from './axes.ts';
import { layoutOf, type Layout } from './layout.ts';
import type { ConnectionKind, Range, Space } from './space.ts';

/** Layouts of one kind of connection, springs and conductors not counted. */
export const MOST_STEPS = 1_200_000;

interface Lists {
  readonly hubs: readonly number[];
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly directions: readonly number[];
  readonly radii: readonly number[];
  readonly lengths: readonly number[];
}

function listsOf(job: SolenoidJob, space: Space, kind: ConnectionKind): Lists {
  const now = layoutOf(job);
  const own = now?.kind === kind ? now : null;
  const isLinked = kind === 'pinned link' || kind === 'short chain';
  return {
    hubs: hubsOf(job),
    x: stepsIn(space.x, space.placeStep, now?.x),
    y: stepsIn(space.y, space.placeStep, now?.y),
    directions: stepsIn(space.direction, space.directionStep, now?.direction),
    // A slot holds its pin wherever it stands.
    radii:
      kind === 'slotted lever'
        ? [space.armRange.from]
        : (space.armHoles ?? stepsIn(space.armRange, space.placeStep, own?.radius)),
    lengths: isLinked
      ? (space.links ?? stepsIn(space.linkRange, space.placeStep, own?.length))
      : kind === 'plain pin'
        ? clearances(now)
        : [0],
  };
}

/** Number of layouts on settable steps. */
export function stepCount(job: SolenoidJob, space: Space, kind: ConnectionKind): number {
  return Object.values(listsOf(job, space, kind)).reduce((product: number, list: readonly number[]) => product * list.length, 1); // prettier-ignore
}

export function everyStepOf(
  job: SolenoidJob,
  rig: Rig,
  space: Space,
  kind: ConnectionKind,
  { springs, electrics }: Settings,
): Axes {
  const { hubs, x, y, directions, radii, lengths } = listsOf(job, space, kind);
  const armMinusShaft = armAnglesOf(job, rig, hubs);
  return {
    kind,
    hubs,
    armMinusShaft,
    directions,
    radii,
    lengths,
    springs,
    electrics,
    radices: [hubs, x, directions, y, radii, lengths, springs, electrics].map((list) => list.length),
    layoutAt(choices): Layout {
      const [px, py] = [x[choices[1]], y[choices[3]]];
      return {
        kind,
        hub: hubs[choices[0]],
        x: px,
        y: py,
        direction: directions[choices[2]],
        radius: kind === 'slotted lever' ? Math.hypot(px, py) : radii[choices[4]],
        length: lengths[choices[5]],
      };
    },
    kindOf: (choices) => choices.join(' '),
    standsAcross: () => true,
  };
}

/** Multiples of the step inside a range, and what is there. */
function stepsIn({ from, to }: Range, step: number, now: number | undefined): number[] {
  const least = Math.ceil(from / step - 1e-9);
  const most = Math.floor(to / step + 1e-9);
  const list = Array.from({ length: Math.max(0, most - least + 1) }, (_, i) => (least + i) * step);
  const isNew = now !== undefined && now >= from && now <= to && !list.some((one) => Math.abs(one - now) < 1e-9);
  const all = isNew ? [...list, now] : list;
  return all.length === 0 ? [from] : all;
}
