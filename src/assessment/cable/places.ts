/**
 * Two places of control on one lever: by which way each pulls, and what of the other it carries along.
 *
 * A second cable hangs on the lever itself. A tee parts the main run in two: the core between it and the lever is common,
 * and whoever pulls carries along the idle branch that hangs on there. A bell-crank is a tee with two arms between the core
 * of the main run and that of the second route.
 *
 * An idle branch is pushed in, until the free core at the junction bows out, where the other is pulled, and drawn out with
 * its handle where the other is pushed. That free core is taken as short as the one at the lever ever is, the worst. Handle,
 * core and conduit of the second route are those of the main run, and each handle has all of the drag.
 */
import { crankedForce, otherWay, type BellCrank } from '../../physics/cable/bell-crank.ts';
import { cutAt, lengthOf, reversed, type Piece } from '../../physics/cable/route.ts';
import type { Course } from './course.ts';
import { idleCable, idleCore, poseOnLever, type IdleCore, type KnownCable } from './force.ts';
import { edge, hardestPull, returnMargin, swingAngles, worstReturn, type Condition, type Idle } from './reckon.ts';

export interface Place {
  readonly known: KnownCable;
  /** What hangs on the lever beside it. */
  readonly idle: Idle;
}

export interface Places {
  readonly first: Place;
  readonly second: Place;
  /** What the lever carries along on its way back, both handles let go. */
  readonly both: IdleCore;
}

/** Null where it is not known how the other place joins, or it is told to join where no run is. */
export function placesOf(known: KnownCable, { friction }: Pick<Condition, 'friction'>): Places | null {
  const { second } = known.rig;
  if (second === null || second.course === null || second.course.pieces.length === 0) return null;
  if (second.by === 'second cable') return toTheLever(known, second.course, friction);
  const { joins, crank } = second;
  if (!(joins <= lengthOf(known.course.pieces))) return null;
  if (second.by === 'tee') return atJunction(known, second.course, joins, null, friction);
  if (crank === null || Number.isNaN(crank.mainArm + crank.secondArm)) return null;
  const { mainArm: drivenArm, secondArm: drivingArm, frictionCircle } = crank;
  return atJunction(known, second.course, joins, { drivenArm, drivingArm, frictionCircle }, friction);
}

/** `frictionThatFails` of whichever of both places fails first; null as `placesOf`. */
export function frictionThatFailsBoth(
  known: KnownCable,
  limit: number,
): { readonly pull: number; readonly back: number } | null {
  const { ratio, lever } = known.rig;
  const at = (friction: number) => ({ friction, leverFriction: lever.frictionFactor.high });
  if (placesOf(known, at(0)) === null) return null;
  const pull = (friction: number) => {
    const { first, second } = placesOf(known, at(friction))!;
    const efforts = [first, second].map(
      (place) => hardestPull(place.known, at(friction), place.idle, 'ends alone').atHandle / ratio,
    );
    return limit / Math.max(...efforts) - 1;
  };
  const back = (friction: number) =>
    returnMargin(worstReturn(known, at(friction), placesOf(known, at(friction))!.both));
  return { pull: edge(pull), back: edge(back) };
}

function toTheLever(known: KnownCable, course: Course, friction: number): Places {
  const [first, second] = [known.course, course].map(({ pieces }) => idleCore(known, pieces, friction));
  return {
    first: { known, idle: (pose) => idleCable(known, second, pose, 'stop') },
    second: { known: { ...known, course }, idle: (pose) => idleCable(known, first, pose, 'stop') },
    both: {
      friction,
      drawnOut: first.drawnOut + second.drawnOut,
      pushedIn: first.pushedIn + second.pushedIn,
    },
  };
}

/** @param crank by which the second core drives the main one; null: they are one core */
function atJunction(
  known: KnownCable,
  course: Course,
  joins: number,
  crank: BellCrank | null,
  friction: number,
): Places {
  const [handleSide, leverSide] = cutAt(known.course.pieces, joins);
  const first = idleCore(known, handleSide, friction);
  const second = idleCore(known, course.pieces, friction);
  const onMain = (force: number) => (crank === null ? force : crankedForce(otherWay(crank), force));
  const shortest = swingAngles(known.rig)
    .map((angle) => poseOnLever(known, angle))
    .reduce((least, next) => (next.freeLength < least.freeLength ? next : least));
  // A junction has no mouth over which the core stands askew.
  const idle = (core: IdleCore) => idleCable(known, core, { ...shortest, offAxis: 0 }, 'stop');
  const common = { ...known, course: { ...known.course, pieces: leverSide, fromLever: reversed(leverSide) } };
  const worked = (onwards: readonly Piece[], added: number, by: BellCrank | null): Place => ({
    known: { ...common, junction: { onwards, idle: added, crank: by } },
    idle: () => 0,
  });
  return {
    first: worked(reversed(handleSide), onMain(idle(second)), null),
    second: worked(course.fromLever, idle(first), crank),
    both: idleCore(known, leverSide, friction, {
      drawnOut: first.drawnOut + onMain(second.drawnOut),
      pushedIn: first.pushedIn + onMain(second.pushedIn),
    }),
  };
}
