/**
 * The forces on lever and plunger by statics, for one station or for all of a travel, at low and at high friction.
 *
 * A study asks for them at millions of places, so numbers are written over what is there (`…Into`) and the moments of all
 * corners follow from one look at the readings.
 */
import { connectionForceInto, heldForceInto, newForce, type Writable } from '../physics/linkage.ts';
import { frictionMoment, steadyMoment } from '../physics/load.ts';
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
import { shaftSpringMoment } from '../physics/spring/torsion.ts';
import { leverSpringMoment, springForce } from '../physics/spring/working.ts';
import type { MechanicalRig, OverTravel } from './rig.ts';
import type { Station, Travel } from './travel.ts';

/** Of a pair: low or high friction, weak or strong supply. */
export type End = 'low' | 'high';

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
  const out = (): OutRows => ({ drive: row(), net: row(), side: row(), along: row(), guideFriction: row() });
  return { needed: { low: needed(), high: needed() }, out: { low: out(), high: out() } };
}

/** Everything that is asked and left over the whole travel, into rows that are as long at least. */
export function forcesOver(rig: MechanicalRig, travel: Travel, { needed, out }: ForceRows): void {
  const { stations } = travel;
  for (let i = 0; i < stations.length; i++) {
    const station = stations[i];
    loadsInto(rig, station.gap, loads);
    if (heldBy(rig, station) === null) momentsInto(rig, station.shaftAngle, moments);
    else moments.fill(NaN);
    neededRow(rig, travel, station, rig.friction.low, moments[0] + moments[1], needed.low, i);
    neededRow(rig, travel, station, rig.friction.high, moments[2] + moments[3], needed.high, i);
    outRow(rig, travel, station, rig.friction.low, moments[4], moments[4] - moments[5], out.low, i);
    outRow(rig, travel, station, rig.friction.high, moments[6], moments[6] - moments[7], out.high, i);
  }
}

function neededRow(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  friction: Friction,
  moment: number,
  row: NeededRows,
  i: number,
): void {
  askedInto(rig, travel, station, friction, moment, asked);
  row.needed[i] = asked.needed;
  row.side[i] = asked.side;
  row.along[i] = asked.along;
  row.guideFriction[i] = asked.guideFriction;
  row.moment[i] = moment;
}

function outRow(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  friction: Friction,
  steady: number,
  moment: number,
  row: OutRows,
  i: number,
): void {
  drivenInto(rig, travel, station, friction, steady, moment, driven);
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
/** Steady moment and friction of four corners: home low, home high, out low, out high. */
const moments = new Float64Array(8);
const force = newForce();
const asked = newNeeded();
const driven = newForceOut();

/** Lever moments at a shaft angle that resist the way home: without friction, and friction alone. */
export interface LeverMoments {
  readonly steady: number;
  readonly friction: number;
}

/** For pull-in the state of the engine that resists most, for the return the one that drives least. */
export function leverMoments(rig: MechanicalRig, shaftAngle: number, end: End, way: 'home' | 'out'): LeverMoments {
  momentsInto(rig, shaftAngle, moments);
  const at = momentAt(end, way);
  return { steady: moments[at], friction: moments[at + 1] };
}

/** Where the steady moment of a corner stands among the eight; its friction follows it. */
function momentAt(end: End, way: 'home' | 'out'): number {
  return (way === 'home' ? 0 : 4) + (end === 'low' ? 0 : 2);
}

/** The moments of all four corners: what was read is looked up once for them all. */
function momentsInto(rig: MechanicalRig, shaftAngle: number, into: Float64Array): void {
  const { efforts, readTowards, frictionFactor } = rig.lever;
  if (efforts === null) {
    into.fill(NaN);
    return;
  }
  // The readings resist the way the balance moved the lever; home may be the other way.
  const resists = readTowards * (rig.toStop ? 1 : -1);
  const springs = springMoment(rig, shaftAngle);
  for (let k = 0; k < efforts.length; k++) {
    const steady = resists * steadyMoment(efforts[k], shaftAngle);
    const read = frictionMoment(efforts[k], shaftAngle);
    const low = frictionFactor.low * read;
    const high = frictionFactor.high * read;
    if (k === 0 || steady + low > into[0] + into[1]) {
      into[0] = steady;
      into[1] = low;
    }
    if (k === 0 || steady + high > into[2] + into[3]) {
      into[2] = steady;
      into[3] = high;
    }
    if (k === 0 || steady - low < into[4] - into[5]) {
      into[4] = steady;
      into[5] = low;
    }
    if (k === 0 || steady - high < into[6] - into[7]) {
      into[6] = steady;
      into[7] = high;
    }
  }
  for (let at = 0; at < 8; at += 2) into[at] += springs;
}

/** Moment of the springs on the lever that resists the way home, N m. */
export function springMoment(rig: MechanicalRig, shaftAngle: number): number {
  let moment = rig.trial.moment;
  for (const { lever } of rig.springs) if (lever !== null) moment -= rig.sense * leverSpringMoment(lever, shaftAngle);
  for (const { onShaft } of rig.shaftSprings) moment -= rig.sense * shaftSpringMoment(onShaft, shaftAngle);
  return moment;
}

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
  if (heldBy(rig, station) === null) momentsInto(rig, station.shaftAngle, moments);
  const at = momentAt(end, 'home');
  askedInto(rig, travel, station, rig.friction[end], moments[at] + moments[at + 1] + breakaway, into);
}

/** With `loads` as they are at this station. */
function askedInto(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  friction: Friction,
  moment: number,
  into: Writable<PullNeeded>,
): void {
  const spring = heldBy(rig, station);
  if (spring !== null)
    heldForceInto(travel.linkage, station.pose, spring.preload + spring.rate * station.stretch!, force);
  else connectionForceInto(travel.linkage, station.pose, moment, 1, friction, force);
  pullAgainstInto(rig.guide, station.gap, force, friction, loads, into);
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
  if (heldBy(rig, station) === null) momentsInto(rig, station.shaftAngle, moments);
  const at = momentAt(end, 'out');
  drivenInto(rig, travel, station, rig.friction[end], moments[at], moments[at] - moments[at + 1] - breakaway, into);
}

/** With `loads` as they are at this station. */
function drivenInto(
  rig: MechanicalRig,
  travel: Travel,
  station: Station,
  friction: Friction,
  steady: number,
  moment: number,
  into: Writable<ForceOut>,
): void {
  const spring = heldBy(rig, station);
  let drive = steady * station.pose.rate;
  if (spring === null) connectionForceInto(travel.linkage, station.pose, moment, -1, friction, force);
  else {
    heldForceInto(travel.linkage, station.pose, spring.preload + spring.rate * station.stretch!, force);
    drive = force.along;
  }
  outWithInto(rig.guide, station.gap, force, drive, friction, loads, into);
}

/** Return over what holds it back, minus one: net / (drive - net). */
export function returnMargin({ drive, net }: Pick<ForceOut, 'drive' | 'net'>): number {
  return shareLeft(drive, net);
}

/** `returnMargin` of numbers that stand in rows. */
export function shareLeft(drive: number, net: number): number {
  if (!(drive > 0)) return Number.isNaN(drive) ? NaN : -1;
  const hindrance = drive - net;
  return hindrance <= 0 ? Infinity : net / hindrance;
}
