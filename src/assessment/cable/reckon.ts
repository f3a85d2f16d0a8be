/** One cable over the whole swing of its lever: the hardest place to pull, the worst to come back, and the friction at which it fails. */
import { leastBetween } from '../../numerics/minimum.ts';
import { findRoot } from '../../numerics/roots.ts';
import { giveOf, playInBends } from '../../physics/cable/travel.ts';
import { turnedBy } from '../../physics/cable/route.ts';
import {
  askedAt,
  effortAt,
  idleCore,
  poseOnLever,
  returningAt,
  returningWith,
  travelPast,
  walked,
  type Asked,
  type Effort,
  type IdleCore,
  type KnownCable,
  type PoseOnLever,
  type Returning,
} from './force.ts';
import { leverLoad } from './lever-load.ts';
import type { CableRig, Friction } from './rig.ts';
import { SWING_PLACES } from './swing.ts';

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
export function swingAngles({ lever }: CableRig): number[] {
  return Array.from({ length: SWING_PLACES }, (_, i) => swingAngle(lever, i));
}

function swingAngle({ run, hardStop }: CableRig['lever'], i: number): number {
  return run + ((hardStop - run) * i) / (SWING_PLACES - 1);
}

/** What an idle cable adds at the lever at a pose, N; nothing where there is none. */
export type Idle = (pose: PoseOnLever) => number;
const nothing: Idle = () => 0;

/** The lever asks, at one angle of a pull through the whole swing; at run with the breakaway of a lever that has stood. */
function askedOnTheWay(known: KnownCable, angle: number, condition: Condition, idle: Idle): Asked {
  const fromRest = angle === known.rig.lever.run;
  const carriedAlong = idle === nothing ? 0 : idle(poseOnLever(known, angle));
  return askedAt(known, angle, { ...condition, fromRest, carriedAlong });
}

export function pullAt(known: KnownCable, angle: number, condition: Condition, idle: Idle = nothing): Effort {
  return walked(known, askedOnTheWay(known, angle, condition, idle), condition.friction);
}

/**
 * The pull where the handle is hardest to move; refined between the places that are looked at. What the handle asks grows
 * with what the mouth of the conduit bears, so that only the hardest is walked along the conduit.
 */
export function hardestPull(
  known: KnownCable,
  condition: Condition,
  idle: Idle = nothing,
  told?: 'ends alone',
): Effort {
  const { lever } = known.rig;
  const ask = (angle: number) => askedOnTheWay(known, angle, condition, idle);
  let hardest = ask(lever.run);
  let at = 0;
  for (let i = 1; i < SWING_PLACES; i++) {
    const next = ask(swingAngle(lever, i));
    // A NaN wins: what is not known is not passed over.
    if (!(next.atLever * next.mouth <= hardest.atLever * hardest.mouth)) [hardest, at] = [next, i];
  }
  if (Number.isFinite(hardest.atLever) && at > 0) {
    const refined = leastBetween(
      (angle) => {
        const { atLever, mouth } = ask(angle);
        return -atLever * mouth;
      },
      swingAngle(lever, at - 1),
      swingAngle(lever, Math.min(at + 1, SWING_PLACES - 1)),
      12,
      { at: swingAngle(lever, at), value: -hardest.atLever * hardest.mouth },
    );
    if (-refined.value > hardest.atLever * hardest.mouth) hardest = ask(refined.at);
  }
  return walked(known, hardest, condition.friction, told);
}

/** Of what drives the lever back, over what holds it, minus one. */
export function returnMargin({ drive, held }: Returning): number {
  if (Number.isNaN(drive + held)) return NaN;
  return held > 0 ? drive / held - 1 : drive > 0 ? Infinity : -1;
}

/** The way back at each angle: what carries the core is walked once for all of them. */
export function returning(
  known: KnownCable,
  condition: Condition,
  carried: IdleCore = idleCore(known, known.course.pieces, condition.friction),
): (angle: number) => Returning {
  return (angle) => returningAt(known, angle, condition, carried);
}

/** @param carried what goes along; left out: the core of this cable */
export function worstReturn(known: KnownCable, condition: Condition, carried?: IdleCore): Returning {
  const back = returning(known, condition, carried);
  return swingAngles(known.rig)
    .map(back)
    .reduce((least, next) => {
      const margin = returnMargin(next);
      return Number.isNaN(margin) || margin < returnMargin(least) ? next : least;
    });
}

/** Travel from rest until fuel is off and the lash of the lever is taken up, m: all as the core at the handle feels it. */
export interface TravelUsed {
  readonly core: number;
  readonly slack: number;
  readonly stretch: number;
  readonly shortening: number;
  readonly play: number;
  /** All of it, at the handle. */
  readonly handle: number;
  /** In the core at the handle, N. */
  readonly force: number;
}

export function travelTo(
  known: KnownCable,
  shaftAngle: number,
  condition: Condition,
  idle: Idle = nothing,
): TravelUsed {
  const { rig, core, isPulled, junction } = known;
  const geared = junction === null ? 1 : travelPast(junction.crank);
  const start = poseOnLever(known, rig.lever.run);
  const { pose, atLever, atHandle, walk } = effortAt(known, shaftAngle, {
    ...condition,
    fromRest: false,
    carriedAlong: idle(poseOnLever(known, shaftAngle)),
  });
  const drawn = geared * (isPulled ? 1 : -1) * (start.freeLength - pose.freeLength);
  // Between conduit and lever the core stretches too.
  const outside = geared * atLever * pose.freeLength;
  const { stretch, shortening } =
    walk === null
      ? { stretch: Infinity, shortening: Infinity }
      : giveOf(Math.abs(walk.integral), core.axialStiffness, rig.conduitStiffness);
  // A core that a lever spring keeps taut lies on the inside from the start; one that hangs loose does not.
  const play = rig.slack === 0 ? 0 : rig.slack > 0 ? playOf(known) : NaN;
  const slack = geared * rig.slack;
  const stretched = stretch + outside / core.axialStiffness;
  return {
    core: drawn,
    slack,
    stretch: stretched,
    shortening,
    play,
    force: atHandle,
    handle: rig.ratio * (drawn + slack + stretched + shortening + play),
  };
}

/** NaN where the bore was not read; a core that does not go into its conduit has no play, and a finding of its own. */
function playOf({ rig, core, course, junction }: KnownCable): number {
  if (Number.isNaN(rig.bore)) return NaN;
  const turned =
    junction === null
      ? turnedBy(course.pieces)
      : travelPast(junction.crank) * turnedBy(course.pieces) + turnedBy(junction.onwards);
  return playInBends(turned, Math.max(rig.bore, core.diameter), core.diameter);
}

/** Where fuel is surely off: past no-fuel by the lash. */
export function noFuelTaken({ lever: { noFuel, toStop, lash } }: CableRig): number {
  return noFuel + toStop * lash;
}

/** Friction beyond any that is met. */
const MOST_FRICTION = 3;

/**
 * Friction of the core at which the hand is asked more than may be, or the lever no longer comes back; cold oil.
 * Infinity where neither comes about, 0 where it fails without any friction.
 */
export function frictionThatFails(known: KnownCable, limit: number): { readonly pull: number; readonly back: number } {
  const { rig } = known;
  const leverFriction = rig.lever.frictionFactor.high;
  // What the lever asks and has left does not depend on the friction of the core: only the mouth and the walk do.
  const angles = swingAngles(rig);
  const asked = angles.map((angle) => askedOnTheWay(known, angle, { friction: 0, leverFriction }, nothing));
  const atRest = angles.map((angle) => leverLoad(rig.lever, rig.springs, angle, leverFriction));
  const pull = (friction: number) => {
    const over = (one: Asked) => one.atLever * Math.exp(friction * one.pose.offAxis);
    const hardest = asked.reduce((most, next) => (over(next) <= over(most) ? most : next));
    const mouth = Math.exp(friction * hardest.pose.offAxis);
    return limit / (walked(known, { ...hardest, mouth }, friction, 'ends alone').atHandle / rig.ratio) - 1;
  };
  const back = (friction: number) => {
    const carried = idleCore(known, known.course.pieces, friction);
    return Math.min(...asked.map(({ pose }, i) => returnMargin(returningWith(known, pose, atRest[i], carried))));
  };
  return { pull: edge(pull), back: edge(back) };
}

/** Friction of the core at which a margin that falls with it goes through nought. */
export function edge(margin: (friction: number) => number): number {
  const without = margin(0);
  if (Number.isNaN(without)) return NaN;
  if (!(without > 0)) return 0;
  if (margin(MOST_FRICTION) > 0) return Infinity;
  return findRoot((friction) => Math.min(1, margin(friction)), 0, MOST_FRICTION, 1e-4).at;
}
