/**
 * How far the parts go: where the plunger ends up at home and at rest, where the lever meets its stops, and the stations
 * over the gap at which everything else is reckoned.
 */
import { findRoot } from '../numerics/roots.ts';
import { rock } from '../physics/guide.ts';
import { heldPose, poseAt, type Linkage, type Pose } from '../physics/linkage.ts';
import type { Rig } from './rig.ts';

/** One gap, with everything that depends on the gap alone. */
export interface Station {
  readonly gap: number;
  readonly pose: Pose;
  /** Shaft angle, rad. */
  readonly shaftAngle: number;
  /** How far the over-travel spring has given, m; null where the connection is rigid. */
  readonly stretch: number | null;
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
export function rigidPose(rig: Rig, linkage: Linkage, gap: number): Pose {
  return poseAt(linkage, gap, linkage.kind === 'pin' ? rock(rig.guide, gap) : 0);
}

export function travelOf(rig: Rig, linkage: Linkage, stations: number): Travel {
  const { stroke, sense, lever } = rig;
  const shaftAt = (gap: number) => rigidPose(rig, linkage, gap).armAngle - lever.armMinusShaft;
  const coarse = Array.from({ length: COARSE + 1 }, (_, i) => shaftAt((stroke * i) / COARSE));
  const meets = (stop: number): number | null => {
    const past = (gap: number) => sense * (shaftAt(gap) - stop);
    for (let i = 0; i < COARSE; i++) {
      const near = sense * (coarse[i] - stop);
      const far = sense * (coarse[i + 1] - stop);
      if (near > 0 && far <= 0) return findRoot(past, (stroke * i) / COARSE, (stroke * (i + 1)) / COARSE, 1e-10).at;
    }
    return sense * (coarse[COARSE] - stop) > 0 ? stroke : null;
  };
  const leverStopGap = sense * (coarse[0] - rig.homeStop) > 0 ? meets(rig.homeStop) : null;
  const leverRestGap = sense * (coarse[COARSE] - rig.outStop) < 0 ? meets(rig.outStop) : null;
  const homeGap = leverStopGap === null || rig.overTravel !== null ? 0 : leverStopGap;
  const startGap = Math.max(homeGap, leverRestGap ?? stroke);
  const travel = {
    linkage,
    homeGap,
    startGap,
    leverStopGap,
    leverRestGap,
  };
  return { ...travel, stations: stationsOf(rig, travel, stations) };
}

/** The pose in which the connection last moves the lever on the way home: at home, or where an over-travel spring begins to give. */
export function poseAtHome(rig: Rig, { travel }: { readonly travel: Travel }): Pose {
  return rigidPose(rig, travel.linkage, Math.max(travel.homeGap, travel.leverStopGap ?? 0));
}

/**
 * Evenly over the travel from home outwards, and at the steps: where an over-travel spring begins to give, twice (held and
 * rigid), and where the end switch is first touched, which asks more pull from there on.
 */
function stationsOf(rig: Rig, travel: Omit<Travel, 'stations'>, count: number): Station[] {
  const { homeGap, startGap, leverStopGap } = travel;
  const inside = (gap: number) => gap > homeGap && gap < startGap;
  const gaps = Array.from({ length: count }, (_, i) => homeGap + ((startGap - homeGap) * i) / (count - 1));
  const switchGap = rig.endSwitch?.worksAtGap ?? NaN;
  if (inside(switchGap))
    gaps.splice(
      gaps.findIndex((gap) => gap > switchGap),
      0,
      switchGap,
    );
  const list = gaps.map((gap) => stationAt(rig, travel, gap));
  if (rig.overTravel !== null && leverStopGap !== null && inside(leverStopGap)) {
    const both = [stationAt(rig, travel, leverStopGap, true), stationAt(rig, travel, leverStopGap, false)];
    list.splice(
      list.findIndex(({ gap }) => gap > leverStopGap),
      0,
      ...both,
    );
  }
  return list;
}

/** @param held at the very gap of the step: whether the over-travel spring is already at work */
export function stationAt(rig: Rig, travel: Omit<Travel, 'stations'>, gap: number, held?: boolean): Station {
  const { linkage, leverStopGap } = travel;
  const isHeld = rig.overTravel !== null && leverStopGap !== null && (held ?? gap < leverStopGap);
  if (!isHeld || leverStopGap === null) {
    const pose = rigidPose(rig, linkage, gap);
    return { gap, pose, shaftAngle: pose.armAngle - rig.lever.armMinusShaft, stretch: null };
  }
  if (linkage.kind === 'link' || linkage.kind === 'chain') {
    const { pose, stretch } = heldPose(linkage, rig.homeStop + rig.lever.armMinusShaft, gap);
    return { gap, pose, shaftAngle: rig.homeStop, stretch };
  }
  const pose = rigidPose(rig, linkage, leverStopGap);
  return { gap, pose: { ...pose, gap }, shaftAngle: rig.homeStop, stretch: leverStopGap - gap };
}
