/**
 * The plunger as a free body: what a pull must overcome on the way home, and what is left to bring it out again.
 *
 * Forces along the axis: the connection, friction in the guide, the plunger's own springs, its weight by attitude, the
 * push of the end switch, sticking at home, and an allowance for vibration in the worse direction. Quasi-static: inertia
 * belongs to motion.
 */
import {
  connectionForce,
  connectionForceInto,
  newForce,
  type ConnectionForce,
  type ConnectionFriction,
  type Linkage,
  type Pose,
  type Writable,
} from './linkage.ts';
import { guideFriction, type Guide } from './guide.ts';

export interface PlungerLoads {
  /** Springs on the plunger, N, away from home. */
  readonly spring: number;
  /** Weight along the pull, N: above zero it helps home. */
  readonly weightAlong: number;
  /** Weight across the bore, N. */
  readonly weightAcross: number;
  /** Mass times the acceleration of vibration, N. */
  readonly vibration: number;
  /** Push that works the end switch at this gap, N. */
  readonly endSwitch: number;
  /** Residual magnetic pull without current at this gap, N. */
  readonly sticking: number;
}

export interface Friction extends ConnectionFriction {
  readonly guide: number;
}

/** What is asked of the pull, moving home. */
export interface PullNeeded {
  /** N. Infinite where friction holds the connection fast. */
  readonly needed: number;
  /** Side force on the pin, N, signed along v. */
  readonly side: number;
  /** The connection's share along the axis, and the guide friction it causes, N. */
  readonly along: number;
  readonly guideFriction: number;
}

export function newNeeded(): Writable<PullNeeded> {
  return { needed: NaN, side: NaN, along: NaN, guideFriction: NaN };
}

/** @param moment lever moment that resists, friction included, N m */
export function pullNeeded(
  linkage: Linkage,
  guide: Guide,
  pose: Pose,
  moment: number,
  friction: Friction,
  loads: PlungerLoads,
): PullNeeded {
  return pullAgainst(guide, pose.gap, connectionForce(linkage, pose, moment, 1, friction), friction, loads);
}

/** The same from a connection force that is already known (an over-travel spring at work). */
export function pullAgainst(
  guide: Guide,
  gap: number,
  force: ConnectionForce,
  friction: Friction,
  loads: PlungerLoads,
): PullNeeded {
  const needed = newNeeded();
  pullAgainstInto(guide, { gap }, force, friction, loads, needed);
  return needed;
}

/** `pullAgainst`, written over what is there. */
export function pullAgainstInto(
  guide: Guide,
  pose: Pick<Pose, 'gap'>,
  force: ConnectionForce,
  friction: Friction,
  loads: PlungerLoads,
  into: Writable<PullNeeded>,
): void {
  const { along, across } = force;
  const rub = along === Infinity ? Infinity : rubInGuide(guide, pose, force, 1, friction);
  into.needed =
    along
    + rub
    + friction.guide * loads.weightAcross
    + loads.spring
    - loads.weightAlong
    + loads.vibration
    + loads.endSwitch;
  into.side = across;
  into.along = along;
  into.guideFriction = rub;
}

/** What brings the plunger out without current, moving away from home. */
export interface ForceOut {
  /** What drives it, friction and every hindrance left out, N. */
  readonly drive: number;
  /** What is left of the drive, N: at or below zero the plunger stays. */
  readonly net: number;
  readonly side: number;
  readonly along: number;
  readonly guideFriction: number;
}

export function newForceOut(): Writable<ForceOut> {
  return { drive: NaN, net: NaN, side: NaN, along: NaN, guideFriction: NaN };
}

/**
 * @param drivingMoment lever moment towards rest without friction, N m (springs and Me)
 * @param moment        the same less lever friction, N m: what is left at the connection
 */
export function forceOut(
  linkage: Linkage,
  guide: Guide,
  pose: Pose,
  drivingMoment: number,
  moment: number,
  friction: Friction,
  loads: PlungerLoads,
): ForceOut {
  const force = connectionForce(linkage, pose, moment, -1, friction);
  return outWith(guide, pose.gap, force, drivingMoment * pose.rate, friction, loads);
}

/** The same from a connection force that is already known; `drive` is its share without friction, N. */
export function outWith(
  guide: Guide,
  gap: number,
  force: ConnectionForce,
  drive: number,
  friction: Friction,
  loads: PlungerLoads,
): ForceOut {
  const out = newForceOut();
  out.drive = drive;
  outWithInto(guide, { gap }, force, friction, loads, out);
  return out;
}

/** `outWith`, written over what is there: the share of the connection stands in `into.drive` beforehand. */
export function outWithInto(
  guide: Guide,
  pose: Pick<Pose, 'gap'>,
  force: ConnectionForce,
  friction: Friction,
  loads: PlungerLoads,
  into: Writable<ForceOut>,
): void {
  const { along, across } = force;
  if (along === Infinity) {
    into.drive = 0;
    into.net = -Infinity;
    into.side = NaN;
    into.along = -Infinity;
    into.guideFriction = Infinity;
    return;
  }
  const { spring, weightAlong, weightAcross, sticking, vibration } = loads;
  const rub = rubInGuide(guide, pose, force, -1, friction);
  const helped = spring + (weightAlong < 0 ? -weightAlong : 0);
  const adverseWeight = weightAlong > 0 ? weightAlong : 0;
  into.drive += helped;
  into.net = along + helped - (rub + friction.guide * weightAcross + adverseWeight + sticking + vibration);
  into.side = across;
  into.along = along;
  into.guideFriction = rub;
}

/** `guideFriction` of a connection force, with no numbers handed on: it is asked for more often than anything else. */
function rubInGuide(
  guide: Guide,
  { gap }: Pick<Pose, 'gap'>,
  { along, across, couple }: ConnectionForce,
  direction: 1 | -1,
  friction: Friction,
): number {
  return guideFriction(guide, gap, along, across, couple, direction, friction.guide);
}

/**
 * Lock ratio on the way out: axial force that a lever moment gives without friction, over what friction takes of it.
 * At or below 1 no lever spring, however strong, brings the plunger out.
 */
export function lockRatio(
  linkage: Linkage,
  guide: Guide,
  pose: Pose,
  friction: Friction,
  scratch: Writable<ConnectionForce> = newForce(),
): number {
  connectionForceInto(linkage, pose, 1, -1, friction, scratch);
  const { along } = scratch;
  if (along === Infinity) return 0;
  const taken = pose.rate - along + rubInGuide(guide, pose, scratch, -1, friction);
  return taken > 0 ? pose.rate / taken : Infinity;
}
