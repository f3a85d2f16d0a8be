/**
 * A quick look at a layout, on numbers: never harder on it than the assessment at rest.
 *
 * It asks the margins that hang on the layout at a few gaps instead of sixty-five, in the corner that nearly always
 * decides (high friction, low supply, hot coil), with the engine where it was surveyed. The least of fewer margins at
 * fewer places is never below the least of all, so what it rejects the assessment would reject too: a margin of it at a
 * gap is the margin of the assessment there. Where it is too kind, the assessment, which everything that is offered has
 * gone through, says so.
 *
 * The cheap and the tight ones come first, and it ends at the first margin that cannot beat what is there already.
 */
import type { SolenoidJob } from '../../assessment/rig.ts';
import { apply } from '../../job/change.ts';
import type { SearchProblem } from '../../numerics/discrete-search.ts';
import { isInside, PLACED, type Axes } from './axes.ts';
import { barsOf, bodyOf } from './bars.ts';
import { forcesAllow, variantOf, type Asked, type Variant } from './forces.ts';
import type { Judge } from './judge.ts';
import { entered } from './keep-out.ts';
import { layoutChanges, linkageFor, type Layout, type PinSizes } from './layout.ts';
import { placedAt, type Placed } from './placed.ts';
import type { Space } from './space.ts';

/** Why layouts were turned away before any force was asked. */
export type Barrier =
  | 'angle between arm and pull'
  | 'place of the bracket'
  | 'things in the way'
  | 'ends of the travel'
  | 'reach of the parts';

export interface Screened extends SearchProblem {
  readonly axes: Axes;
  /** Layouts that were placed, and those whose forces were asked; counted since the screen was made. */
  readonly counts: { placed: number; forced: number };
  readonly turnedAway: Map<Barrier, number>;
  layoutOf(choices: readonly number[]): Layout;
}

/** The quick look may stand this much below the assessment, as a share of the larger of it and one. */
const ERROR = 2e-3;

/**
 * @param keep how many kinds to keep, one combination of each
 * @param isBound values are raised by what the quick look may be wrong by: none is then below that of the assessment
 */
export function screenOf(
  job: SolenoidJob,
  space: Space,
  pins: PinSizes,
  axes: Axes,
  judge: Judge,
  keep: number,
  isBound = false,
): Screened {
  const error = (value: number) => (isBound && Number.isFinite(value) ? ERROR * Math.max(1, Math.abs(value)) : 0);
  const raised = (value: number) => value + error(value);
  const lowered = (value: number) => value - error(value);
  const variants: (Variant | undefined)[] = [];
  const ceilings: (number | undefined)[] = [];
  /** Weight along the pull goes by its direction. */
  const variantAt = (direction: number, spring: number, electric: number): Variant => {
    const setting = spring * axes.electrics.length + electric;
    const at = setting * axes.directions.length + direction;
    return (variants[at] ??= made(direction, spring, electric, setting));
  };
  const made = (direction: number, spring: number, electric: number, setting: number): Variant => {
    const changed = withConnection(job, axes, pins, direction, spring, electric);
    return variantOf(changed, (ceilings[setting] ??= judge.ceilingOf(changed)));
  };
  const base = variantAt(0, 0, 0).rig;
  const counts = { placed: 0, forced: 0 };
  const turnedAway = new Map<Barrier, number>();
  const away = (barrier: Barrier): number => {
    turnedAway.set(barrier, (turnedAway.get(barrier) ?? 0) + 1);
    return -Infinity;
  };
  const expected = base.toStop ? base.lever.noFuel : base.lever.run;
  let placed: Placed | null = null;
  /** What the springs of `askedOf` ask at the stations of `placed`: the same whatever the conductors. */
  let asked: (Asked | undefined)[] = [];
  let askedOf = -1;
  const place = (choices: readonly number[], toBeat: number): number => {
    counts.placed++;
    placed = null;
    askedOf = -1;
    const layout = axes.layoutAt(choices);
    if (!isInside(layout, space)) return away('place of the bracket');
    const shaft = axes.armMinusShaft[choices[0]];
    const linkage = linkageFor(layout, pins, base.sense, expected + shaft);
    if (space.keepOut.length > 0 && entered(bodyOf(base, linkage), space.keepOut) !== null)
      return away('things in the way');
    const found = placedAt(base, layout, linkage, shaft, toBeat);
    if (found === null) return away('reach of the parts');
    if (found.least < 0) away('ends of the travel');
    if (found.least > toBeat) placed = found;
    if (placed !== null && space.keepOut.length > 0) {
      for (const { shaftAngle, pose } of found.stations)
        if (entered(barsOf(base, linkage, shaftAngle, shaftAngle + shaft, pose), space.keepOut) !== null) {
          placed = null;
          return away('things in the way');
        }
    }
    return found.least;
  };
  return {
    axes,
    counts,
    turnedAway,
    radices: axes.radices,
    keep,
    layoutOf: (choices) => axes.layoutAt(choices),
    bound(choices, fixed, toBeat) {
      if (fixed === 3) return axes.standsAcross(choices, base.sense) ? Infinity : away('angle between arm and pull');
      return fixed === PLACED ? raised(place(choices, lowered(toBeat))) : Infinity;
    },
    value(choices, toBeat) {
      if (placed === null) return -Infinity;
      counts.forced++;
      if (askedOf !== choices[6]) [asked, askedOf] = [[], choices[6]];
      const variant = variantAt(choices[2], choices[6], choices[7]);
      if (!(variant.ceiling > toBeat)) return variant.ceiling;
      return Math.min(variant.ceiling, raised(forcesAllow(variant, placed, asked, lowered(toBeat))));
    },
    kind: (choices) => axes.kindOf(choices),
  };
}

/** A job with the connection and the direction of these axes, whatever its sizes: its friction and weight are asked. */
function withConnection(
  job: SolenoidJob,
  axes: Axes,
  pins: PinSizes,
  direction: number,
  spring: number,
  electric: number,
): SolenoidJob {
  const changed = apply(job, [...axes.springs[spring].changes, ...axes.electrics[electric].changes]);
  const any: Layout = {
    kind: axes.kind,
    hub: job.layout.hubPosition,
    x: 0,
    y: axes.radii[0],
    direction: axes.directions[direction],
    radius: axes.radii[0],
    length: axes.lengths[0],
  };
  return apply(
    changed,
    layoutChanges(changed, any, pins, null).filter(
      ({ path }) => path.startsWith('layout.connection') || path === 'layout.pullDirection',
    ),
  );
}
