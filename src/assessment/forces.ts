/**
 * The forces on lever and plunger by statics, for one station or for all of a travel, at low and at high friction.
 *
 * A study asks for them at millions of places, so numbers are written over what is there (`…Into`) and the moments of all
 * corners follow from one look at the readings.
 */
import { connectionForceInto, heldForceInto, newForce, type Writable } from '../physics/linkage.ts';
import {
  newForceOut,
  newNeeded,
  outWithInto,
  pullAgainstInto,
  type ForceOut,
  type Friction,
  type PlungerLoads,
  type PullNeeded,
} from '../physics/plunger.ts';
import { springForce } from '../physics/spring/working.ts';
import {
  forgetMoments,
  HOME_HIGH,
  HOME_LOW,
  momentAt,
  moments,
  OUT_HIGH,
  OUT_LOW,
  reckonMoments,
  type End,
} from './lever-moments.ts';
import type { MechanicalRig, OverTravel } from './rig.ts';
import type { Station, Travel } from './travel.ts';

/** Rows in step with the stations; where a scene is reckoned in the room of another, they may be longer. */
type Rows<Name extends string> = Readonly<Record<Name, Float64Array>>;

/** `PullNeeded` at each station, and the lever moment behind it, friction included, N m. */
export type NeededRows = Rows<keyof PullNeeded | 'moment'>;
/** `ForceOut` at each station. */
export type OutRows = Rows<keyof ForceOut>;

export interface ForceRows {
  readonly needed: Record<End, NeededRows>;
  readonly out: Record<End, OutRows>;
}

export function newForceRows(stations: number): ForceRows {
  const row = () => new Float64Array(stations);
  const needed = (): NeededRows => ({ needed: row(), side: row(), along: row(), guideFriction: row(), moment: row() });
  // In another order than a ForceOut has them: objects of one shape would share their kind of field, and numbers beside rows
  // are stored four times slower.
  const out = (): OutRows => ({ guideFriction: row(), along: row(), side: row(), net: row(), drive: row() });
  return { needed: { low: needed(), high: needed() }, out: { low: out(), high: out() } };
}

/** Everything that is asked and left over the whole travel, into rows that are as long at least. */
export function forcesOver(rig: MechanicalRig, travel: Travel, { needed, out }: ForceRows): void {
  const { stations } = travel;
  for (let i = 0; i < stations.length; i++) {
    const station = stations[i];
    loadsInto(rig, station.gap, loads);
    if (heldBy(rig, station) === null) reckonMoments(rig, station.shaftAngle);
    else forgetMoments();
    neededRow(rig, travel, station, rig.friction.low, HOME_LOW, needed.low, i);
    neededRow(rig, travel, station, rig.friction.high, HOME_HIGH, needed.high, i);
    outRow(rig, travel, station, rig.friction.low, OUT_LOW, out.low, i);
    outRow(rig, travel, station, rig.friction.high, OUT_HIGH, out.high, i);
  }
}

function neededRow(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  friction: Friction,
  place: number,
  row: NeededRows,
  i: number,
): void {
  askedInto(rig, travel, station, friction, place, 0, asked);
  row.needed[i] = asked.needed;
  row.side[i] = asked.side;
  row.along[i] = asked.along;
  row.guideFriction[i] = asked.guideFriction;
  row.moment[i] = moments[place] + moments[place + 1];
}

function outRow(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  friction: Friction,
  place: number,
  row: OutRows,
  i: number,
): void {
  drivenInto(rig, travel, station, friction, place, 0, driven);
  row.drive[i] = driven.drive;
  row.net[i] = driven.net;
  row.side[i] = driven.side;
  row.along[i] = driven.along;
  row.guideFriction[i] = driven.guideFriction;
}

// Written over by whoever reckons next: nothing of it leaves this file.
const loads: Writable<PlungerLoads> = {
  spring: NaN,
  weightAlong: NaN,
  weightAcross: NaN,
  vibration: NaN,
  endSwitch: NaN,
  sticking: NaN,
};
const force = newForce();
const asked = newNeeded();
const driven = newForceOut();

/** Springs on the plunger, N, away from home. */
export function plungerSpringForce(rig: MechanicalRig, gap: number): number {
  let force = rig.trial.force;
  for (const { lever, working, lengthAtHome } of rig.springs)
    if (lever === null) force += springForce(working, lengthAtHome + gap);
  if (rig.inside !== null) force += rig.inside.preload + rig.inside.rate * (rig.stroke - gap);
  return force;
}

function loadsInto(rig: MechanicalRig, gap: number, into: Writable<PlungerLoads>): void {
  const { endSwitch, stickingGap } = rig;
  const share = stickingGap / (stickingGap + gap);
  into.spring = plungerSpringForce(rig, gap);
  into.weightAlong = rig.weightAlong;
  into.weightAcross = rig.weightAcross;
  into.vibration = rig.vibration;
  into.endSwitch = endSwitch === null ? 0 : gap <= endSwitch.worksAtGap ? endSwitch.operatingForce : 0;
  into.sticking = rig.sticking * share * share;
}

/** The over-travel spring where it is at work at this station. */
function heldBy(rig: MechanicalRig, station: Station): OverTravel | null {
  return station.stretch === null ? null : rig.overTravel;
}

export function neededAt(rig: MechanicalRig, travel: Travel, station: Station, end: End, breakaway = 0): PullNeeded {
  const found = newNeeded();
  neededInto(rig, travel, station, end, breakaway, found);
  return found;
}

/** `neededAt`, written over what is there. */
export function neededInto(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  end: End,
  breakaway: number,
  into: Writable<PullNeeded>,
): void {
  loadsInto(rig, station.gap, loads);
  if (heldBy(rig, station) === null) reckonMoments(rig, station.shaftAngle);
  askedInto(rig, travel, station, rig.friction[end], momentAt(end, 'home'), breakaway, into);
}

/** With `loads` and `moments` as they are at this station. */
function askedInto(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  friction: Friction,
  place: number,
  breakaway: number,
  into: Writable<PullNeeded>,
): void {
  const spring = heldBy(rig, station);
  if (spring !== null)
    heldForceInto(travel.linkage, station.pose, spring.preload + spring.rate * station.stretch!, force);
  else {
    const moment = moments[place] + moments[place + 1] + breakaway;
    connectionForceInto(travel.linkage, station.pose, moment, 1, friction, force);
  }
  pullAgainstInto(rig.guide, station.pose, force, friction, loads, into);
}

export function outAt(rig: MechanicalRig, travel: Travel, station: Station, end: End, breakaway = 0): ForceOut {
  const found = newForceOut();
  outInto(rig, travel, station, end, breakaway, found);
  return found;
}

/** `outAt`, written over what is there. */
export function outInto(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  end: End,
  breakaway: number,
  into: Writable<ForceOut>,
): void {
  loadsInto(rig, station.gap, loads);
  if (heldBy(rig, station) === null) reckonMoments(rig, station.shaftAngle);
  drivenInto(rig, travel, station, rig.friction[end], momentAt(end, 'out'), breakaway, into);
}

/** With `loads` and `moments` as they are at this station. */
function drivenInto(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  friction: Friction,
  place: number,
  breakaway: number,
  into: Writable<ForceOut>,
): void {
  const spring = heldBy(rig, station);
  into.drive = moments[place] * station.pose.rate;
  if (spring === null) {
    const moment = moments[place] - moments[place + 1] - breakaway;
    connectionForceInto(travel.linkage, station.pose, moment, -1, friction, force);
  } else {
    heldForceInto(travel.linkage, station.pose, spring.preload + spring.rate * station.stretch!, force);
    into.drive = force.along;
  }
  outWithInto(rig.guide, station.pose, force, friction, loads, into);
}

/** Return over what holds it back, minus one: net / (drive - net). */
export function returnMargin(drive: number, net: number): number {
  if (!(drive > 0)) return Number.isNaN(drive) ? NaN : -1;
  const hindrance = drive - net;
  if (hindrance <= 0) return Infinity;
  // Jammed: nothing at all is left.
  return hindrance === Infinity ? -1 : net / hindrance;
}
