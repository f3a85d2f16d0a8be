/** What a cable lays on the lever that it is left connected to while something else turns it. */
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import type { HandCable, Job } from '../../job/schema.ts';
import type { CableDrag } from './data.ts';
import { idleCable, idleCore, knownCable, poseOnLever, type IdleCore, type KnownCable } from './force.ts';
import { cableNeeds } from './needs.ts';
import { placesOf } from './places.ts';
import { worst } from './reckon.ts';
import { cableRigOf } from './rig.ts';

/** Readings that `cableDrag` rests on. */
export function cableDragNeeds(job: Job, cable: HandCable): readonly string[] {
  return cableNeeds(job, cable).idle;
}

/**
 * The moment that a cable which is left connected, but not pulled, lays on the lever while something else turns it: against
 * the way it turns. Null where a reading is missing.
 *
 * Within its slack there is none. Beyond it the core goes along: drawn out of its conduit, with handle and drag behind it,
 * or pushed in, until the free core bows out between lever and conduit. A second place of control hangs on it too.
 */
export function cableDrag(
  job: Job,
  cable: HandCable,
  shaftAngle_rad: number,
  towards: 'stop' | 'run',
): CableDrag | null {
  return cableDragOf(job, cable)?.(shaftAngle_rad, towards) ?? null;
}

/** `cableDrag` for many angles: the document is read once. */
export function cableDragOf(
  job: Job,
  cable: HandCable,
): ((shaftAngle_rad: number, towards: 'stop' | 'run') => CableDrag | null) | null {
  const rig = cableRigOf(job, cable);
  const known = knownCable(rig);
  const { friction, slack } = rig;
  if (known === null || friction === null || Number.isNaN(slack + rig.bore)) return null;
  const least = idleFrom(known, friction.low);
  const most = idleFrom(known, worst(rig, friction).friction);
  if (least === null || most === null) return null;
  return (shaftAngle, towards) => {
    if (!Number.isFinite(shaftAngle)) return null;
    const pose = poseOnLever(known, shaftAngle);
    const moved = Math.abs(poseOnLever(known, rig.lever.run).freeLength - pose.freeLength);
    if (slack > 0 && moved <= slack) return { least_Nm: 0, most_Nm: 0, isInSlack: true };
    const moment = (core: IdleCore) => idleCable(known, core, pose, towards) * Math.abs(pose.turning);
    return { least_Nm: moment(least), most_Nm: moment(most), isInSlack: false };
  };
}

/** The core with all that hangs on it: its own handle, and that of a second place of control. */
function idleFrom(known: KnownCable, friction: number): IdleCore | null {
  const { cable } = known.rig;
  if (cable.secondStation === NOT_MEASURED) return null;
  if (cable.secondStation === 'none') return idleCore(known, known.course.pieces, friction);
  return placesOf(known, { friction })?.both ?? null;
}
