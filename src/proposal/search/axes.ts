/**
 * The choices of a search for one kind of connection, and the layout that each combination of them makes.
 *
 * The place of the bracket is no axis of its own: a grid of places would nearly always leave the lever short of its stop
 * or past it. The choices are where the arm stands at home (a share of the way from no-fuel to the hard stop), which way
 * it pulls, how long arm and link are and how the link leans at home; the place of the home pin follows, and is then
 * rounded to a step that can be set.
 */
import type { Rig, SolenoidJob } from '../../assessment/rig.ts';
import { toSI } from '../../units/quantity.ts';
import type { Setting } from '../knobs/knob.ts';
import { layoutOf, type Layout } from './layout.ts';
import type { ConnectionKind, Range, Space } from './space.ts';

/** What a search may change beside the layout. */
export interface Settings {
  readonly springs: readonly Setting[];
  readonly electrics: readonly Setting[];
}

/**
 * What a search chooses from: hub position, two axes that place the bracket (with its direction between them), arm, link,
 * lean, springs, conductors, in this order.
 */
export interface Axes extends Settings {
  readonly kind: ConnectionKind;
  readonly hubs: readonly number[];
  /** Arm angle minus shaft angle at each hub position, rad. */
  readonly armMinusShaft: readonly number[];
  readonly directions: readonly number[];
  readonly radii: readonly number[];
  readonly lengths: readonly number[];
  readonly radices: readonly number[];
  /** Its place may lie outside the space. */
  layoutAt(choices: readonly number[]): Layout;
  /** What makes two combinations of one kind, of which only the better is kept. */
  kindOf(choices: readonly number[]): string;
  /** Whether the arm stands across the pull at home, so that most of the pull turns the lever. */
  standsAcross(choices: readonly number[], sense: 1 | -1): boolean;
}

/** What is there among the choices, where it is allowed. */
const withPresent = (list: readonly number[], now: number | undefined, { from, to }: Range): readonly number[] =>
  now === undefined || now < from || now > to || list.some((one) => Math.abs(one - now) < 1e-6) ? list : [...list, now];

/** Near to what is there comes first on every axis: of equal layouts the search keeps the first. */
const nearest = (list: readonly number[], now: number): number[] =>
  [...list].sort((a, b) => Math.abs(a - now) - Math.abs(b - now));

/** The axis from which on a combination says nothing more of where the parts stand. */
export const PLACED = 6;

const MM = toSI(1, 'mm');
const DEGREE = toSI(1, '°');

/** Choices of each axis at full fineness; `coarse` divides them for a quick look. */
export function axesOf(
  job: SolenoidJob,
  rig: Rig,
  space: Space,
  kind: ConnectionKind,
  { springs, electrics }: Settings,
  seed = 1,
  coarse = 1,
): Axes {
  const now = layoutOf(job);
  const presentLink = now?.kind === 'pinned link' || now?.kind === 'short chain' ? now.length : undefined;
  const hubs = hubsOf(job);
  const from = rig.toStop ? rig.lever.noFuel : rig.lever.run;
  const shares = rig.overTravel === null ? evenly(0.2, 0.8, 6, coarse) : evenly(0.6, 1.3, 6, coarse);
  // Another seed looks between the places of the first.
  const shift = ((seed - 1) * 0.6180339887498949) % 1;
  const isLinked = kind === 'pinned link' || kind === 'short chain';
  const pieces = Math.min(24, Math.ceil((space.direction.to - space.direction.from) / (3 * DEGREE)));
  const directions = spread(space.direction, pieces + 1, space.directionStep, coarse, shift);
  const homeAngles = shares.map((share) => from + share * (rig.homeStop - from));
  const leans = isLinked ? nearest(evenly(-12 * DEGREE, 12 * DEGREE, 5, coarse), 0) : [0];
  const lists = {
    directions: nearest(withPresent(directions, now?.direction, space.direction), now?.direction ?? 0),
    radii: nearest(
      space.armHoles !== null && kind !== 'slotted lever'
        ? space.armHoles
        : spread(space.armRange, 11, MM, coarse, shift),
      now?.radius ?? 0,
    ),
    lengths: isLinked
      ? nearest(
          space.links ?? withPresent(spread(space.linkRange, 6, MM, coarse, shift), presentLink, space.linkRange),
          now?.length ?? 0,
        )
      : kind === 'plain pin'
        ? nearest(clearances(now), now?.length ?? 0)
        : [0],
  };
  const { directions: turns, radii, lengths } = lists;
  const armMinusShaft = armAnglesOf(job, rig, hubs);
  const armAngle = (choices: readonly number[]) => homeAngles[choices[1]] + armMinusShaft[choices[0]];
  return {
    kind,
    hubs,
    armMinusShaft,
    ...lists,
    springs,
    electrics,
    radices: [hubs, homeAngles, turns, radii, lengths, leans, springs, electrics].map((list) => list.length),
    layoutAt(choices) {
      const angle = armAngle(choices);
      const direction = turns[choices[2]];
      const radius = radii[choices[3]];
      const length = lengths[choices[4]];
      const lean = direction + leans[choices[5]];
      const step = space.placeStep;
      return {
        kind,
        hub: hubs[choices[0]],
        x: settable(radius * Math.cos(angle) + length * Math.cos(lean), step, space.x),
        y: settable(radius * Math.sin(angle) + length * Math.sin(lean), step, space.y),
        direction,
        radius,
        length,
      };
    },
    kindOf: (choices) => `${choices[0]} ${choices[3]} ${choices[6]} ${choices[7]}`,
    // Within 60° of square; beyond, hardly half of the pull turns the lever.
    standsAcross: (choices, sense) => sense * Math.sin(turns[choices[2]] - armAngle(choices)) > 0.5,
  };
}

/** Positions of the arm on its hub, those nearest to the present one first. */
export function hubsOf(job: SolenoidJob): number[] {
  const { hubPositions } = job.survey.lever;
  const away = (k: number) =>
    Math.min(Math.abs(k - job.layout.hubPosition), hubPositions - Math.abs(k - job.layout.hubPosition));
  return Array.from({ length: hubPositions }, (_, k) => k).sort((a, b) => away(a) - away(b));
}

export function armAnglesOf(job: SolenoidJob, rig: Rig, hubs: readonly number[]): number[] {
  const { hubPositions } = job.survey.lever;
  const own = rig.lever.armMinusShaft - (2 * Math.PI * job.layout.hubPosition) / hubPositions;
  return hubs.map((k) => own + (2 * Math.PI * k) / hubPositions);
}

/** Radial clearances of a plain pin in its hole, m. */
export function clearances(now: Layout | null): number[] {
  return [...(now?.kind === 'plain pin' ? [now.length] : []), 0.25 * MM, 0.5 * MM, MM, 2 * MM, 4 * MM];
}

/** The nearest place that can be set; one that is hardly outside stands on the limit. */
function settable(value: number, step: number, { from, to }: Range): number {
  const place = Math.round(value / step) * step;
  return place < from && place > from - step ? from : place > to && place < to + step ? to : place;
}

/** Whether a bracket may stand there. */
export function isInside({ x, y, direction }: Layout, space: Space): boolean {
  return within(x, space.x) && within(y, space.y) && within(direction, space.direction);
}

const within = (value: number, { from, to }: Range): boolean => value >= from - 1e-9 && value <= to + 1e-9;

function evenly(from: number, to: number, count: number, coarse: number): number[] {
  const pieces = Math.max(1, Math.round((count - 1) / coarse));
  return Array.from({ length: pieces + 1 }, (_, i) => from + ((to - from) * i) / pieces);
}

/** Evenly over a range, both ends among them, on steps that can be set; one value where the range is a point. */
function spread({ from, to }: Range, count: number, step: number, coarse: number, shift: number): number[] {
  const least = Math.ceil(from / step - 1e-6);
  const most = Math.floor(to / step + 1e-6);
  if (!(most > least)) return [most === least ? least * step : from];
  const pieces = Math.min(most - least, Math.max(1, Math.round((count - 1) / coarse)));
  const inner = shift === 0 ? 0 : shift / pieces;
  const steps = Array.from({ length: pieces + 1 }, (_, i) =>
    Math.round(least + (most - least) * Math.min(1, i / pieces + (i === 0 ? 0 : inner))),
  );
  return [...new Set(steps)].map((number) => number * step);
}
