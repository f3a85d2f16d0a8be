/** Where a layout stands at a few gaps, and the margins that no force decides. */
import type { Rig } from '../../assessment/rig.ts';
import type { Station, Travel } from '../../assessment/travel.ts';
import { rock } from '../../physics/guide.ts';
import {
  heldPose,
  linkToArm,
  linkToPull,
  poseAt,
  type LinkLinkage,
  type Linkage,
  type Pose,
} from '../../physics/linkage.ts';
import { toSI } from '../../units/quantity.ts';
import type { Layout } from './layout.ts';

/** Where a layout stands, before any force: kept while springs and conductors change under it. */
export interface Placed {
  readonly layout: Layout;
  readonly linkage: Linkage;
  readonly travel: Travel;
  readonly stations: readonly Station[];
  /** With the plunger home; null where it was not placed so far. */
  readonly home: Station | null;
  /** The least of the margins that no force decides. */
  readonly least: number;
}

/** Gaps that are asked of every layout, as shares of the stroke. */
export const SHARES = [0, 0.2, 0.45, 0.7] as const;
const DEGREE = toSI(1, '°');
const PER_MILLIMETRE = DEGREE / toSI(1, 'mm');
const SMALLEST = toSI(0.1, 'mm');

/** A margin as a share of what is wanted. */
export const share = (margin: number, wanted: number): number => (wanted > 0 ? margin / wanted : margin + 1);

/** Poses, and the margins that no force decides. Null where the parts do not reach. */
export function placedAt(
  rig: Rig,
  layout: Layout,
  linkage: Linkage,
  armMinusShaft: number,
  toBeat: number,
): Placed | null {
  const { stroke, sense, lever, wanted, overTravel } = rig;
  const home = poseOf(rig, linkage, 0);
  if (!home.assembled) return null;
  const shaftHome = home.armAngle - armMinusShaft;
  const short = sense * (rig.homeStop - shaftHome);
  let least = overTravel === null ? share(short, wanted.hardStop) : Infinity;
  if (!(least > toBeat)) return ended(layout, linkage, least);
  const given = poseOf(rig, linkage, rig.bracketGive);
  if (!given.assembled) return null;
  const reached = given.armAngle - armMinusShaft;
  const atHome = overTravel !== null && sense * (reached - rig.homeStop) > 0 ? rig.homeStop : reached;
  const past = sense * (atHome - (rig.toStop ? lever.noFuel : lever.run)) - lostAt(rig, linkage, given);
  least = Math.min(least, share(past, rig.toStop ? wanted.noFuel : wanted.run));
  if (!(least > toBeat)) return ended(layout, linkage, least);
  const out = poseOf(rig, linkage, stroke);
  if (!out.assembled) return null;
  const shaftOut = out.armAngle - armMinusShaft;
  const isStopped = sense * (shaftOut - rig.outStop) < 0;
  const free = rig.toStop || !isStopped ? shaftOut : rig.outStop;
  const cleared = sense * ((rig.toStop ? lever.run : lever.noFuel) - free) - lostAt(rig, linkage, out);
  least = Math.min(least, share(cleared, rig.toStop ? wanted.run : wanted.noFuel));
  if (!(least > toBeat)) return ended(layout, linkage, least);
  const startGap = isStopped ? gapOf(rig, linkage, rig.outStop + armMinusShaft, home, out) : stroke;
  const stations: Station[] = [];
  for (const portion of SHARES) {
    const gap = portion * stroke;
    if (gap < startGap - SMALLEST)
      addStation(stations, rig, armMinusShaft, gap, portion === 0 ? home : poseOf(rig, linkage, gap));
  }
  addStation(stations, rig, armMinusShaft, startGap, startGap === stroke ? out : poseOf(rig, linkage, startGap));
  for (const { pose, gap } of stations) {
    if (!pose.assembled) return null;
    least = Math.min(least, share(pose.rate / PER_MILLIMETRE, 0.2));
    if (linkage.kind === 'link' || linkage.kind === 'chain') least = Math.min(least, clearOfDeadPoints(linkage, pose));
    if (linkage.kind === 'pin')
      least = Math.min(least, (linkage.sideFreedom + rock(rig.guide, gap) - Math.abs(pose.rise)) / SMALLEST);
    if (!(least > toBeat)) return ended(layout, linkage, least);
  }
  return {
    layout,
    linkage,
    travel: { linkage, homeGap: 0, startGap, leverStopGap: null, leverRestGap: null, stations: [] },
    stations,
    home: homeStation(rig, linkage, armMinusShaft, home, out),
    least,
  };
}

// Functions of their own, not made anew for every layout: a million are placed.

function poseOf(rig: Rig, linkage: Linkage, gap: number): Pose {
  return linkage.kind === 'pin' ? poseAt(linkage, gap, rock(rig.guide, gap)) : poseAt(linkage, gap);
}

function ended(layout: Layout, linkage: Linkage, least: number): Placed {
  return { layout, linkage, travel: nowhere, stations: [], home: null, least };
}

function lostAt({ lever, slotClearance }: Rig, { kind }: Linkage, { radius }: Pose): number {
  return lever.lash + (kind === 'slot' ? slotClearance / radius : 0);
}

/** Past its stop an over-travel spring gives; the assessment asks what that needs. */
function addStation(
  stations: Station[],
  { overTravel, sense, homeStop }: Rig,
  armMinusShaft: number,
  gap: number,
  pose: Pose,
): void {
  const shaftAngle = pose.armAngle - armMinusShaft;
  if (overTravel === null || sense * (homeStop - shaftAngle) >= 0)
    stations.push({ gap, pose, shaftAngle, stretch: null });
}

/** Home as the assessment has it: with an over-travel spring the lever may be on its stop, and the spring stretched. */
function homeStation(rig: Rig, linkage: Linkage, armMinusShaft: number, home: Pose, out: Pose): Station {
  const { overTravel, sense, homeStop } = rig;
  const shaftAngle = home.armAngle - armMinusShaft;
  const stop = homeStop + armMinusShaft;
  if (overTravel === null || sense * (homeStop - shaftAngle) >= 0)
    return { gap: 0, pose: home, shaftAngle, stretch: null };
  if (linkage.kind === 'link' || linkage.kind === 'chain') {
    const { pose, stretch } = heldPose(linkage, stop, 0);
    return { gap: 0, pose, shaftAngle: homeStop, stretch };
  }
  const stopGap = gapOf(rig, linkage, stop, home, out);
  return { gap: 0, pose: { ...poseOf(rig, linkage, stopGap), gap: 0 }, shaftAngle: homeStop, stretch: stopGap };
}

const nowhere: Travel = {
  linkage: { kind: 'slot', homeX: 0, homeY: 0, directionX: 1, directionY: 0, sense: 1, armAngleExpected: 0 },
  homeGap: 0,
  startGap: 0,
  leverStopGap: null,
  leverRestGap: null,
  stations: [],
};

function clearOfDeadPoints(linkage: LinkLinkage, pose: Pose): number {
  return (Math.min(linkToArm(linkage, pose), Math.PI / 2 - linkToPull(linkage, pose)) / DEGREE - 40) / 5;
}

/** Gap at which the arm stands at an angle between home and out: false position, with the Illinois rule. */
function gapOf(rig: Rig, linkage: Linkage, angle: number, home: Pose, out: Pose): number {
  const { sense, stroke } = rig;
  let [low, high] = [0, stroke];
  let [above, below] = [sense * (home.armAngle - angle), sense * (out.armAngle - angle)];
  if (!(above > 0)) return stroke;
  let gap = stroke;
  let side = 0;
  for (let i = 0; i < 8; i++) {
    gap = low + ((high - low) * above) / (above - below);
    const here = sense * (poseOf(rig, linkage, gap).armAngle - angle);
    if (Number.isNaN(here)) return stroke;
    if (Math.abs(here) < NEAR_ENOUGH) break;
    if (here > 0) {
      [low, above] = [gap, here];
      if (side === 1) below /= 2;
      side = 1;
    } else {
      [high, below] = [gap, here];
      if (side === -1) above /= 2;
      side = -1;
    }
  }
  return gap;
}

/** rad. */
const NEAR_ENOUGH = 1e-6;
