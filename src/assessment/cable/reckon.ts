/** One cable over the whole swing of its lever: the hardest place to pull, the worst to come back, and the friction at which it fails. */
import { leastBetween } from '../../numerics/minimum.ts';
import { findRoot } from '../../numerics/roots.ts';
import { giveOf, playInBends } from '../../physics/cable/travel.ts';
import { turnedBy } from '../../physics/cable/route.ts';
import {
  effortAt,
  idleCable,
  knownCable,
  poseOnLever,
  returningAt,
  type Effort,
  type KnownCable,
  type PoseOnLever,
  type Returning,
} from './force.ts';
import { SWING_PLACES, type CableRig, type Course, type Friction } from './rig.ts';

/** Condition of cable and lever. */
export interface Condition {
  /** Core in conduit. */
  readonly friction: number;
  /** Lever friction over friction as read. */
  readonly leverFriction: number;
}

/** Worn cable and cold oil. */
export function worst({ lever, ageing }: CableRig, friction: Friction): Condition {
  return { friction: friction.high * ageing, leverFriction: lever.frictionFactor.high };
}

/** As it is now, oil as it was when the lever was read. */
export function asItIs({ lever }: CableRig, friction: Friction): Condition {
  return { friction: friction.value, leverFriction: lever.frictionFactor.low };
}

/** Shaft angles from run to the hard stop. */
export function swingAngles({ lever: { run, hardStop } }: CableRig, places = SWING_PLACES): number[] {
  return Array.from({ length: places }, (_, i) => run + ((hardStop - run) * i) / (places - 1));
}

/** What an idle cable adds at the lever at a pose, N; nothing where there is none. */
export type Idle = (pose: PoseOnLever) => number;
const nothing: Idle = () => 0;

/** Pull through the whole swing: the effort at each angle, the first with the breakaway of a lever that has stood. */
export function pullAt(known: KnownCable, angle: number, condition: Condition, idle: Idle = nothing): Effort {
  const fromRest = angle === known.rig.lever.run;
  return effortAt(known, angle, { ...condition, fromRest, carriedAlong: idle(poseOnLever(known, angle)) });
}

/** The angle at which the handle is hardest to move; refined between the places that are looked at. */
export function hardestPull(
  known: KnownCable,
  condition: Condition,
  idle: Idle = nothing,
  places = SWING_PLACES,
): Effort {
  const angles = swingAngles(known.rig, places);
  const efforts = angles.map((angle) => pullAt(known, angle, condition, idle));
  // A NaN wins: what is not known is not passed over.
  let at = 0;
  efforts.forEach(({ atHandle }, i) => {
    if (Number.isNaN(atHandle) || atHandle > efforts[at].atHandle) at = i;
  });
  const found = efforts[at];
  if (!Number.isFinite(found.atHandle) || at === 0 || places < SWING_PLACES) return found;
  const refined = leastBetween(
    (angle) => -pullAt(known, angle, condition, idle).atHandle,
    angles[at - 1],
    angles[Math.min(at + 1, angles.length - 1)],
    10,
  );
  return -refined.value > found.atHandle ? pullAt(known, refined.at, condition, idle) : found;
}

/** Of what drives the lever back, over what holds it, minus one. */
export function returnMargin({ drive, held }: Returning): number {
  if (Number.isNaN(drive + held)) return NaN;
  return held > 0 ? drive / held - 1 : drive > 0 ? Infinity : -1;
}

export function returnAt(known: KnownCable, angle: number, condition: Condition): Returning {
  return returningAt(known, angle, { ...condition, carriedAlong: 0 });
}

export function worstReturn(known: KnownCable, condition: Condition, places = SWING_PLACES): Returning {
  return swingAngles(known.rig, places)
    .map((angle) => returnAt(known, angle, condition))
    .reduce((least, next) => {
      const margin = returnMargin(next);
      return Number.isNaN(margin) || margin < returnMargin(least) ? next : least;
    });
}

/** Travel from rest until fuel is off and the lash of the lever is taken up, m. */
export interface TravelUsed {
  readonly core: number;
  readonly slack: number;
  readonly stretch: number;
  readonly shortening: number;
  readonly play: number;
  /** All of it, at the handle. */
  readonly handle: number;
}

export function travelTo(known: KnownCable, shaftAngle: number, condition: Condition): TravelUsed {
  const { rig, core, isPulled } = known;
  const start = poseOnLever(known, rig.lever.run);
  const { pose, atLever, walk } = effortAt(known, shaftAngle, { ...condition, fromRest: false, carriedAlong: 0 });
  const drawn = (isPulled ? 1 : -1) * (start.freeLength - pose.freeLength);
  // Between conduit and lever the core stretches too.
  const outside = atLever * pose.freeLength;
  const { stretch, shortening } =
    walk === null
      ? { stretch: Infinity, shortening: Infinity }
      : giveOf(Math.abs(walk.integral), core.axialStiffness, rig.conduitStiffness);
  // A core that a lever spring keeps taut lies on the inside from the start; one that hangs loose does not.
  const play = rig.slack === 0 ? 0 : rig.slack > 0 ? playOf(known) : NaN;
  const stretched = stretch + outside / core.axialStiffness;
  return {
    core: drawn,
    slack: rig.slack,
    stretch: stretched,
    shortening,
    play,
    handle: rig.ratio * (drawn + rig.slack + stretched + shortening + play),
  };
}

/** NaN where the bore was not read; a core that does not go into its conduit has no play, and a finding of its own. */
function playOf({ rig, core, course }: KnownCable): number {
  if (Number.isNaN(rig.bore)) return NaN;
  return playInBends(turnedBy(course.pieces), Math.max(rig.bore, core.diameter), core.diameter);
}

/** Where fuel is surely off: past no-fuel by the lash. */
export function noFuelTaken({ lever: { noFuel, toStop, lash } }: CableRig): number {
  return noFuel + toStop * lash;
}

/** Friction beyond any that is met. */
const MOST_FRICTION = 3;
const COARSE = 9;

/**
 * Friction of the core at which the hand is asked more than may be, or the lever no longer comes back; cold oil.
 * Infinity where neither comes about, 0 where it fails without any friction.
 */
export function frictionThatFails(known: KnownCable, limit: number): { readonly pull: number; readonly back: number } {
  const { rig } = known;
  const leverFriction = rig.lever.frictionFactor.high;
  const pull = (friction: number) =>
    limit / (hardestPull(known, { friction, leverFriction }, nothing, COARSE).atHandle / rig.ratio) - 1;
  const back = (friction: number) => returnMargin(worstReturn(known, { friction, leverFriction }, COARSE));
  return { pull: edge(pull), back: edge(back) };
}

/** Where a margin that falls with friction goes through nought. */
function edge(margin: (friction: number) => number): number {
  if (Number.isNaN(margin(0))) return NaN;
  if (!(margin(0) > 0)) return 0;
  if (margin(MOST_FRICTION) > 0) return Infinity;
  return findRoot((friction) => Math.min(1, margin(friction)), 0, MOST_FRICTION, 1e-5).at;
}

/** What the idle cable of the other place of control adds while this one is pulled. */
export function withOther(known: KnownCable, other: Course, condition: Condition): Idle {
  return (pose) => idleCable(known, other, condition.friction, pose, 'stop');
}

/** The other place of control: the same handle and core on its own route. */
export function fromOther(known: KnownCable, other: Course): KnownCable {
  return { ...known, course: other, rig: { ...known.rig, course: other } };
}

export { knownCable };
