/**
 * How far the parts go: where the plunger ends up at home and at rest, where the lever meets its stops, and the stations
 * over the gap at which everything else is reckoned.
 */
import { findRoot } from '../numerics/roots.ts';
import { rock } from '../physics/guide.ts';
import { heldPoseInto, newPose, poseInto, type Linkage, type Pose, type Writable } from '../physics/linkage.ts';
import type { MechanicalRig } from './rig.ts';

/** One gap, with everything that depends on the gap alone. */
export interface Station {
  readonly gap: number;
  readonly pose: Pose;
  /** Shaft angle, rad. */
  readonly shaftAngle: number;
  /** How far the over-travel spring has given, m; null where the connection is rigid. */
  readonly stretch: number | null;
}

/** A station that may be written over. */
export type StationRoom = Writable<Omit<Station, 'pose'>> & { readonly pose: Writable<Pose> };

export function newStation(): StationRoom {
  return { pose: newPose(), gap: NaN, shaftAngle: NaN, stretch: null };
}

export interface Travel {
  readonly linkage: Linkage;
  /** Gap at which the plunger ends up with current on, m. */
  readonly homeGap: number;
  /** Gap from which the lever is moved, m. */
  readonly startGap: number;
  /** Gap at which the lever meets its stop on the home side, m; null where it does not inside the stroke. */
  readonly leverStopGap: number | null;
  /** Gap at which the lever meets its stop on the rest side, m; null where it does not inside the stroke. */
  readonly leverRestGap: number | null;
  readonly stations: readonly Station[];
}

/** How many stations a whole assessment uses, and how many an engine that has moved on its mounts gets. */
export const STATIONS = 65;
export const STATIONS_MOVED = 17;
const COARSE = 32;

/** The rig's linkage with the home pin moved, m. */
export function movedLinkage(linkage: Linkage, dx: number, dy: number): Linkage {
  return { ...linkage, homeX: linkage.homeX + dx, homeY: linkage.homeY + dy };
}

/** Pose at a gap with the connection rigid. */
export function rigidPose(rig: MechanicalRig, linkage: Linkage, gap: number): Pose {
  const pose = newPose();
  rigidPoseInto(rig, linkage, gap, pose);
  return pose;
}

function rigidPoseInto(rig: MechanicalRig, linkage: Linkage, gap: number, into: Writable<Pose>): void {
  poseInto(linkage, gap, linkage.kind === 'pin' ? rock(rig.guide, gap) : 0, into);
}

/** @param room stations of an earlier travel, which are written over */
export function travelOf(rig: MechanicalRig, linkage: Linkage, stations: number, room: StationRoom[] = []): Travel {
  const { stroke, sense } = rig;
  const leverStopGap =
    sense * (shaftAt(rig, linkage, 0) - rig.homeStop) > 0 ? meetingGap(rig, linkage, rig.homeStop) : null;
  const leverRestGap =
    sense * (shaftAt(rig, linkage, stroke) - rig.outStop) < 0 ? meetingGap(rig, linkage, rig.outStop) : null;
  const homeGap = leverStopGap === null || rig.overTravel !== null ? 0 : leverStopGap;
  const startGap = Math.max(homeGap, leverRestGap ?? stroke);
  const travel = { linkage, homeGap, startGap, leverStopGap, leverRestGap, stations: room };
  fillStations(rig, travel, stations, room);
  return travel;
}

// Written over at every gap: read at once or not at all.
const rigid = newPose();

/** Shaft angle at a gap with the connection rigid, rad. */
function shaftAt(rig: MechanicalRig, linkage: Linkage, gap: number): number {
  rigidPoseInto(rig, linkage, gap, rigid);
  return rigid.armAngle - rig.lever.armMinusShaft;
}

/** Gap at which the lever meets a stop, m; null where it does not inside the stroke. */
function meetingGap(rig: MechanicalRig, linkage: Linkage, stop: number): number | null {
  const { stroke, sense } = rig;
  let near = sense * (shaftAt(rig, linkage, 0) - stop);
  for (let i = 0; i < COARSE; i++) {
    const far = sense * (shaftAt(rig, linkage, (stroke * (i + 1)) / COARSE) - stop);
    if (near > 0 && far <= 0)
      return findRoot(
        (gap) => sense * (shaftAt(rig, linkage, gap) - stop),
        (stroke * i) / COARSE,
        (stroke * (i + 1)) / COARSE,
        1e-10,
      ).at;
    near = far;
  }
  return near > 0 ? stroke : null;
}

/** The pose in which the connection last moves the lever on the way home: at home, or where an over-travel spring begins to give. */
export function poseAtHome(rig: MechanicalRig, { travel }: { readonly travel: Travel }): Pose {
  return rigidPose(rig, travel.linkage, Math.max(travel.homeGap, travel.leverStopGap ?? 0));
}

/**
 * Evenly over the travel from home outwards, and at the steps: where an over-travel spring begins to give, twice (held and
 * rigid), and where the end switch is first touched, which asks more pull from there on.
 */
function fillStations(rig: MechanicalRig, travel: Omit<Travel, 'stations'>, count: number, room: StationRoom[]): void {
  const { homeGap, startGap, leverStopGap } = travel;
  let touched = insideOr(rig.endSwitch?.worksAtGap ?? NaN, homeGap, startGap);
  let step = rig.overTravel === null ? Infinity : insideOr(leverStopGap ?? NaN, homeGap, startGap);
  let n = 0;
  for (let i = 0; i < count; i++) {
    const gap = homeGap + ((startGap - homeGap) * i) / (count - 1);
    while (gap > touched || gap > step) {
      if (touched <= step) {
        stationInto(rig, travel, touched, undefined, stationIn(room, n++));
        touched = Infinity;
      } else {
        stationInto(rig, travel, step, true, stationIn(room, n++));
        stationInto(rig, travel, step, false, stationIn(room, n++));
        step = Infinity;
      }
    }
    stationInto(rig, travel, gap, undefined, stationIn(room, n++));
  }
  room.length = n;
}

/** A gap strictly inside the travel; any other lies beyond every station. */
function insideOr(gap: number, homeGap: number, startGap: number): number {
  return gap > homeGap && gap < startGap ? gap : Infinity;
}

function stationIn(room: StationRoom[], i: number): StationRoom {
  if (i === room.length) room.push(newStation());
  return room[i];
}

/** @param held at the very gap of the step: whether the over-travel spring is already at work */
export function stationAt(rig: MechanicalRig, travel: Omit<Travel, 'stations'>, gap: number, held?: boolean): Station {
  const station = newStation();
  stationInto(rig, travel, gap, held, station);
  return station;
}

/** `stationAt`, written over a station that is there. */
export function stationInto(
  rig: MechanicalRig,
  { linkage, leverStopGap }: Omit<Travel, 'stations'>,
  gap: number,
  held: boolean | undefined,
  into: StationRoom,
): void {
  into.gap = gap;
  const isHeld = rig.overTravel !== null && leverStopGap !== null && (held ?? gap < leverStopGap);
  if (!isHeld || leverStopGap === null) {
    rigidPoseInto(rig, linkage, gap, into.pose);
    into.shaftAngle = into.pose.armAngle - rig.lever.armMinusShaft;
    into.stretch = null;
    return;
  }
  into.shaftAngle = rig.homeStop;
  if (linkage.kind === 'link' || linkage.kind === 'chain') {
    into.stretch = heldPoseInto(linkage, rig.homeStop + rig.lever.armMinusShaft, gap, into.pose);
    return;
  }
  rigidPoseInto(rig, linkage, leverStopGap, into.pose);
  into.pose.gap = gap;
  into.stretch = leverStopGap - gap;
}
