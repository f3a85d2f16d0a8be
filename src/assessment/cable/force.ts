/** Forces of one cable at one shaft angle: towards stop by hand, and back by the lever. Both are above zero where they resist. */
import { bowsOutAt, leverPose, turnBetween, type LeverPose } from '../../physics/cable/lever-end.ts';
import { crankedForce, crankedTravel, type BellCrank } from '../../physics/cable/bell-crank.ts';
import { lengthOf, type Piece } from '../../physics/cable/route.ts';
import { walkTension, type Sliding, type Walk } from '../../physics/cable/tension.ts';
import { leverLoad, type LeverLoad } from './lever-load.ts';
import type { Course } from './course.ts';
import type { CableRig } from './rig.ts';

/** A cable of which everything is known that its forces rest on. */
export interface KnownCable {
  readonly rig: CableRig;
  readonly course: Course;
  readonly isPulled: boolean;
  readonly core: NonNullable<CableRig['core']>;
  readonly end: NonNullable<CableRig['end']>;
  /** Where its course ends before the handle, because another branch joins; null where it goes all the way. */
  readonly junction: Junction | null;
}

/** Where another branch joins the core on its way to the handle that is worked. */
export interface Junction {
  /** From there to that handle. */
  readonly onwards: readonly Piece[];
  /** Which the idle branch adds to the core that comes from the lever, N. */
  readonly idle: number;
  /** By which the core that goes on drives the one that comes from the lever; null where they are one core. */
  readonly crank: BellCrank | null;
}

export interface State {
  /** Core in conduit. */
  readonly friction: number;
  /** Lever friction over friction as read. */
  readonly leverFriction: number;
  /** Whether the lever has stood before, and breaks away. */
  readonly fromRest: boolean;
  /** Force that an idle cable on the same lever adds, N. */
  readonly carriedAlong: number;
}

/** Null where something is missing, or the route has no shape. */
export function knownCable(rig: CableRig): KnownCable | null {
  const { course, core, end, isPulled, lever } = rig;
  if (course === null || course.pieces.length === 0 || core === null || end === null || isPulled === null) return null;
  if (!rig.isClear) return null;
  if (Number.isNaN(lever.run + lever.noFuel + lever.hardStop + rig.axis + rig.drag)) return null;
  return { rig, course, core, end, isPulled, junction: null };
}

export interface PoseOnLever extends LeverPose {
  /** Arm on which the core turns the lever towards stop, m; a core that is pushed turns it the other way round. */
  readonly turning: number;
  /** Core off the axis of the conduit end, rad, either way. */
  readonly offAxis: number;
}

export function poseOnLever({ rig, end, isPulled }: KnownCable, shaftAngle: number): PoseOnLever {
  const pose = leverPose(end, shaftAngle);
  return {
    ...pose,
    turning: (isPulled ? 1 : -1) * rig.lever.toStop * pose.arm,
    offAxis: Math.abs(turnBetween(rig.axis, pose.direction)),
  };
}

/** A core that is pulled does not lie down as a helix; one that is pushed may, where its conduit has room. */
function slidingOf({ rig, core }: KnownCable, friction: number, isPushed: boolean): Sliding {
  const clearance = isPushed ? (rig.bore - core.diameter) / 2 : 0;
  return {
    friction,
    weight: core.weight,
    bendingStiffness: core.bendingStiffness,
    radialClearance: clearance > 0 ? clearance : 0,
  };
}

/** One pull, or push, towards stop. */
export interface Effort {
  readonly pose: PoseOnLever;
  /** In the core at the lever, and at the handle, N; infinite where it cannot be. */
  readonly atLever: number;
  readonly atHandle: number;
  /** From the lever to the handle; null where the lever asks what no force can give. */
  readonly walk: Walk | null;
  /** What the mouth of the conduit makes of the force: the core rubs over it as over a bend. */
  readonly mouth: number;
}

/** What the lever asks of the core, before it is walked along the conduit. */
export type Asked = Pick<Effort, 'pose' | 'atLever' | 'mouth'>;

export function askedAt(known: KnownCable, shaftAngle: number, state: State): Asked {
  const { rig } = known;
  const pose = poseOnLever(known, shaftAngle);
  const { lever, springs } = rig;
  const load =
    leverLoad(lever, springs, shaftAngle, state.leverFriction).towardsStop + (state.fromRest ? lever.breakaway : 0);
  // Where the lever runs ahead by itself nothing is asked of the cable but to be drawn along.
  const asked = load > 0 ? (pose.turning > 0 ? load / pose.turning : Infinity) : Number.isNaN(load) ? NaN : 0;
  return { pose, atLever: asked + state.carriedAlong, mouth: Math.exp(state.friction * pose.offAxis) };
}

/** The same, walked from the lever to the handle. */
export function walked(known: KnownCable, asked: Asked, friction: number, told?: 'ends alone'): Effort {
  const { rig, isPulled, course, junction } = known;
  const { atLever, mouth } = asked;
  if (!Number.isFinite(atLever)) return { ...asked, atHandle: atLever, walk: null };
  const sign = isPulled ? 1 : -1;
  const sliding = slidingOf(known, friction, !isPulled);
  const motion = isPulled ? 'with the walk' : 'against the walk';
  const along = (pieces: readonly Piece[], force: number) =>
    walkTension(pieces, sliding, motion, sign * force, [], told);
  const common = along(course.fromLever, atLever * mouth);
  const walk = junction === null ? common : pastJunction(common, junction, sign, course.fromLever, along);
  // A core that slides down by its own weight asks nothing; it does not push the hand.
  return { ...asked, atHandle: Math.max(0, sign * walk.tension) + rig.drag, walk };
}

/** The walk to a junction and on to the handle, as one; its integral is what the handle feels of both stretches. */
function pastJunction(
  common: Walk,
  { onwards, idle, crank }: Junction,
  sign: 1 | -1,
  before: readonly Piece[],
  along: (pieces: readonly Piece[], force: number) => Walk,
): Walk {
  const carried = sign * common.tension + idle;
  const force = crank === null ? carried : crankedForce(crank, carried);
  if (!Number.isFinite(force)) {
    const stuckAt = common.stuckAt ?? lengthOf(before);
    return { ...common, tension: sign * Infinity, integral: sign * Infinity, stuckAt };
  }
  const walk = along(onwards, force);
  const start = lengthOf(before);
  return {
    tension: walk.tension,
    integral: travelPast(crank) * common.integral + walk.integral,
    profile: [
      ...common.profile,
      ...walk.profile.map(({ distance, tension, piece }) => ({
        distance: start + distance,
        tension,
        piece: before.length + piece,
      })),
    ],
    stuckAt: walk.stuckAt === null ? null : start + walk.stuckAt,
  };
}

/** Travel of the core past a junction for each metre before it. */
export function travelPast(crank: BellCrank | null): number {
  return crank === null ? 1 : crankedTravel(crank);
}

export function effortAt(known: KnownCable, shaftAngle: number, state: State): Effort {
  return walked(known, askedAt(known, shaftAngle, state), state.friction);
}

/** The lever coming back, and the cable with it. */
export interface Returning {
  readonly pose: PoseOnLever;
  /** What drives the lever back, and what holds it: its own friction, and the core carried along, N m. */
  readonly drive: number;
  readonly held: number;
  /** In the core at the lever: what the lever has left for it, and what it takes to be carried along, N. */
  readonly left: number;
  readonly needed: number;
}

/** @param carried what moves the idle core along its conduit on the way back, N */
export function returningAt(
  known: KnownCable,
  shaftAngle: number,
  state: Pick<State, 'leverFriction'>,
  carried: IdleCore,
): Returning {
  const { lever, springs } = known.rig;
  const load = leverLoad(lever, springs, shaftAngle, state.leverFriction);
  return returningWith(known, poseOnLever(known, shaftAngle), load, carried);
}

export function returningWith(
  known: KnownCable,
  pose: PoseOnLever,
  { drive, friction }: LeverLoad,
  carried: IdleCore,
): Returning {
  const needed = (known.isPulled ? carried.drawnOut : carried.pushedIn) * Math.exp(carried.friction * pose.offAxis);
  const arm = Math.abs(pose.turning);
  return { pose, drive, held: friction + needed * arm, left: arm > 0 ? (drive - friction) / arm : 0, needed };
}

/**
 * Force at the mouth of the conduit that moves an idle core by the lever end, N: with it go the handle and all of the drag,
 * which is taken to stand there, the worst place. It is the same at every angle of the lever.
 */
export interface IdleCore {
  readonly friction: number;
  readonly drawnOut: number;
  readonly pushedIn: number;
}

/**
 * @param pieces from the handle on
 * @param start  what moves the core where they begin, N; left out: the drag of its handle
 */
export function idleCore(
  known: KnownCable,
  pieces: readonly Piece[],
  friction: number,
  start: Omit<IdleCore, 'friction'> = { drawnOut: known.rig.drag, pushedIn: known.rig.drag },
): IdleCore {
  // Drawn out, the core moves with the walk; pushed in, against it. What cannot be moved stays so.
  const moved = (force: number, sign: 1 | -1) => {
    if (force === Infinity) return Infinity;
    const motion = sign === 1 ? 'with the walk' : 'against the walk';
    const sliding = slidingOf(known, friction, sign === -1);
    return Math.max(0, sign * walkTension(pieces, sliding, motion, sign * force, [], 'ends alone').tension);
  };
  return { friction, drawnOut: moved(start.drawnOut, 1), pushedIn: moved(start.pushedIn, -1) };
}

/**
 * Force at the lever that an idle cable lays on it, N, once its slack is used up: the core is drawn out or pushed in, and a
 * core that is pushed bows out between lever and conduit at the latest under Euler's load.
 */
export function idleCable(known: KnownCable, core: IdleCore, pose: PoseOnLever, towards: 'stop' | 'run'): number {
  const mouth = Math.exp(core.friction * pose.offAxis);
  // Towards stop the end of the core goes the way that it takes when it works: a pulled one is let into its conduit.
  return known.isPulled === (towards === 'run')
    ? core.drawnOut * mouth
    : Math.min(core.pushedIn * mouth, bearsPush(known, pose));
}

/** Push that the free core bears before it bows out, N. */
export function bearsPush(known: KnownCable, pose: LeverPose): number {
  return bowsOutAt(known.core.bendingStiffness, pose.freeLength);
}
