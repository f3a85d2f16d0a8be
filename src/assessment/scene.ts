/**
 * Forces over the travel in every corner.
 *
 * A scene is one place of the engine on its mounts. What is needed depends on friction alone and what is available on
 * supply and coil alone, so two curves of one and four of the other make the eight corners.
 */
import { leastBetween } from '../numerics/minimum.ts';
import { holdCurrents, pullInCurrents, type StageCurrents } from '../physics/circuit.ts';
import { heldForce, type ConnectionForce } from '../physics/linkage.ts';
import { frictionMoment, steadyMoment } from '../physics/load.ts';
import {
  forceOut,
  outWith,
  pullAgainst,
  pullNeeded,
  type ForceOut,
  type PlungerLoads,
  type PullNeeded,
} from '../physics/plunger.ts';
import { tableForce, type Caution } from '../physics/solenoid/table.ts';
import { shaftSpringMoment } from '../physics/spring/torsion.ts';
import { leverSpringMoment, springForce } from '../physics/spring/working.ts';
import type { Rig } from './rig.ts';
import { movedLinkage, stationAt, travelOf, STATIONS, STATIONS_MOVED, type Station, type Travel } from './travel.ts';

export type End = 'low' | 'high';
export type Warmth = 'cold' | 'hot';

/** Currents of one stage at one supply and coil temperature. */
export interface ElectricCorner {
  readonly supply: End;
  readonly coil: Warmth;
  readonly pullIn: StageCurrents;
  readonly hold: StageCurrents;
}

export interface Scene {
  /** How the engine has moved; null where it sits as surveyed. */
  readonly moved: string | null;
  readonly travel: Travel;
  readonly needed: Record<End, readonly PullNeeded[]>;
  readonly out: Record<End, readonly ForceOut[]>;
  /** Least pull in pull-in at each station, N, one row for each electric corner. */
  readonly pull: readonly (readonly number[])[];
}

export function electricCorners(rig: Rig): ElectricCorner[] {
  return (['low', 'high'] as const).flatMap((supply) =>
    (['hot', 'cold'] as const).map((coil) => ({
      supply,
      coil,
      pullIn: pullInCurrents(rig.loopAt['pull-in'][supply], rig.coilAt[coil]),
      hold: holdCurrents(rig.loopAt.hold[supply], rig.coilAt[coil]),
    })),
  );
}

/** The place as surveyed, then the engine moved either way along the pull and across it. */
export function scenesOf(rig: Rig, electric: readonly ElectricCorner[]): Scene[] {
  const asSurveyed = sceneOf(rig, electric, null, travelOf(rig, rig.linkage, STATIONS));
  const { engineMoves: move, linkage } = rig;
  if (!(move > 0)) return [asSurveyed];
  const { directionX: ux, directionY: uy } = linkage;
  const ways: readonly (readonly [string, number, number])[] = [
    ['against the pull', ux, uy],
    ['along the pull', -ux, -uy],
    ['across the pull', -uy, ux],
    ['across the pull, the other way', uy, -ux],
  ];
  return [
    asSurveyed,
    ...ways.map(([words, x, y]) =>
      sceneOf(
        rig,
        electric,
        `engine moved ${words}`,
        travelOf(rig, movedLinkage(linkage, x * move, y * move), STATIONS_MOVED),
      ),
    ),
  ];
}

/** Curves are worked out when they are first asked for: a study that asks one question does not pay for the others. */
export function sceneOf(rig: Rig, electric: readonly ElectricCorner[], moved: string | null, travel: Travel): Scene {
  const { stations } = travel;
  const over = <T>(reckon: (station: Station) => T): (() => readonly T[]) => {
    let known: readonly T[] | null = null;
    return () => (known ??= stations.map(reckon));
  };
  const neededLow = over((station) => neededAt(rig, travel, station, 'low'));
  const neededHigh = over((station) => neededAt(rig, travel, station, 'high'));
  const outLow = over((station) => outAt(rig, travel, station, 'low'));
  const outHigh = over((station) => outAt(rig, travel, station, 'high'));
  let pull: readonly (readonly number[])[] | null = null;
  return {
    moved,
    travel,
    needed: {
      get low() {
        return neededLow();
      },
      get high() {
        return neededHigh();
      },
    },
    out: {
      get low() {
        return outLow();
      },
      get high() {
        return outHigh();
      },
    },
    get pull() {
      return (pull ??= electric.map((corner) => stations.map(({ gap }) => pullAt(rig, gap, corner, 'least'))));
    },
  };
}

/** Lever moments at a shaft angle that resist the way home: without friction, and friction alone. */
export interface LeverMoments {
  readonly steady: number;
  readonly friction: number;
}

/** For pull-in the state of the engine that resists most, for the return the one that drives least. */
export function leverMoments(rig: Rig, shaftAngle: number, end: End, way: 'home' | 'out'): LeverMoments {
  const { efforts, readTowards, frictionFactor } = rig.lever;
  if (efforts === null) return { steady: NaN, friction: NaN };
  // The readings resist the way the balance moved the lever; home may be the other way.
  const resists = readTowards * (rig.toStop ? 1 : -1);
  const springs = springMoment(rig, shaftAngle);
  let worst: LeverMoments | null = null;
  for (const curve of efforts) {
    const steady = resists * steadyMoment(curve, shaftAngle);
    const friction = frictionFactor[end] * frictionMoment(curve, shaftAngle);
    const isWorse =
      worst === null
      || (way === 'home'
        ? steady + friction > worst.steady + worst.friction
        : steady - friction < worst.steady - worst.friction);
    if (isWorse) worst = { steady, friction };
  }
  return { steady: worst!.steady + springs, friction: worst!.friction };
}

/** Moment of the springs on the lever that resists the way home, N m. */
export function springMoment(rig: Rig, shaftAngle: number): number {
  let moment = rig.trial.moment;
  for (const { lever } of rig.springs) if (lever !== null) moment -= rig.sense * leverSpringMoment(lever, shaftAngle);
  for (const { onShaft } of rig.shaftSprings) moment -= rig.sense * shaftSpringMoment(onShaft, shaftAngle);
  return moment;
}

/** Springs on the plunger, N, away from home. */
export function plungerSpringForce(rig: Rig, gap: number): number {
  let force = rig.trial.force;
  for (const { lever, working, lengthAtHome } of rig.springs)
    if (lever === null) force += springForce(working, lengthAtHome + gap);
  return force;
}

function loadsAt(rig: Rig, gap: number): PlungerLoads {
  const { endSwitch, stickingGap } = rig;
  return {
    spring: plungerSpringForce(rig, gap),
    weightAlong: rig.weightAlong,
    weightAcross: rig.weightAcross,
    vibration: rig.vibration,
    endSwitch: endSwitch === null ? 0 : gap <= endSwitch.worksAtGap ? endSwitch.operatingForce : 0,
    sticking: rig.sticking * (stickingGap / (stickingGap + gap)) ** 2,
  };
}

/** Force of an over-travel spring that is at work at this station. */
function held(rig: Rig, travel: Travel, station: Station): ConnectionForce | null {
  if (station.stretch === null || rig.overTravel === null) return null;
  const { preload, rate } = rig.overTravel;
  return heldForce(travel.linkage, station.pose, preload + rate * station.stretch);
}

export function neededAt(rig: Rig, travel: Travel, station: Station, end: End, breakaway = 0): PullNeeded {
  const friction = rig.friction[end];
  const loads = loadsAt(rig, station.gap);
  const force = held(rig, travel, station);
  if (force !== null) return pullAgainst(rig.guide, station.gap, force, friction, loads);
  const { steady, friction: rub } = leverMoments(rig, station.shaftAngle, end, 'home');
  return pullNeeded(travel.linkage, rig.guide, station.pose, steady + rub + breakaway, friction, loads);
}

export function outAt(rig: Rig, travel: Travel, station: Station, end: End, breakaway = 0): ForceOut {
  const friction = rig.friction[end];
  const loads = loadsAt(rig, station.gap);
  const force = held(rig, travel, station);
  if (force !== null) return outWith(rig.guide, station.gap, force, force.along, friction, loads);
  const { steady, friction: rub } = leverMoments(rig, station.shaftAngle, end, 'out');
  return forceOut(travel.linkage, rig.guide, station.pose, steady, steady - rub - breakaway, friction, loads);
}

/** Pull that the solenoid gives in pull-in, N; NaN where it is not known. */
export function pullAt(rig: Rig, gap: number, corner: ElectricCorner, caution: Caution): number {
  return rig.pullInTable === null ? NaN : tableForce(rig.pullInTable, gap, corner.pullIn.coil, caution);
}

/** Return over what holds it back, minus one: net / (drive - net). */
export function returnMargin({ drive, net }: ForceOut): number {
  if (!(drive > 0)) return Number.isNaN(drive) ? NaN : -1;
  const hindrance = drive - net;
  return hindrance <= 0 ? Infinity : net / hindrance;
}

/** The least of a margin over the stations of a scene, refined between them and on both sides of a step. */
export interface Least {
  readonly margin: number;
  readonly station: Station;
}

/** A margin at a station; the index is null for a place between stations. */
export type MarginAt = (station: Station, index: number | null) => number;

export function leastOver(rig: Rig, scene: Scene, marginOf: MarginAt): Least {
  return refined(rig, scene, marginOf, leastStation(scene, marginOf));
}

/** Index of the station with the least margin, and that margin; a NaN wins. */
export function leastStation({ travel }: Scene, marginOf: MarginAt): { readonly at: number; readonly margin: number } {
  const { stations } = travel;
  let at = 0;
  let least = Infinity;
  for (let i = 0; i < stations.length; i++) {
    const margin = marginOf(stations[i], i);
    if (Number.isNaN(margin)) return { at: i, margin };
    if (margin < least) {
      least = margin;
      at = i;
    }
  }
  return { at, margin: least };
}

/** The dip beside a station, found between its neighbours on the same side of a step. */
export function refined(
  rig: Rig,
  scene: Scene,
  marginOf: MarginAt,
  coarse: { readonly at: number; readonly margin: number },
): Least {
  const { stations } = scene.travel;
  const station = stations[coarse.at];
  const { margin } = coarse;
  if (!Number.isFinite(margin)) return { margin, station };
  const isHeld = station.stretch !== null;
  const neighbour = (other: Station | undefined) =>
    other !== undefined && (other.stretch !== null) === isHeld ? other.gap : station.gap;
  const near = neighbour(stations[coarse.at - 1]);
  const far = neighbour(stations[coarse.at + 1]);
  if (!(far > near)) return { margin, station };
  const dip = leastBetween((gap) => marginOf(stationAt(rig, scene.travel, gap, isHeld), null), near, far, 12);
  return dip.value < margin
    ? { margin: dip.value, station: stationAt(rig, scene.travel, dip.at, isHeld) }
    : { margin, station };
}

/** The scene and station in which a margin is least; a NaN wins. */
export function worstIn(
  rig: Rig,
  scenes: readonly Scene[],
  marginOf: (scene: Scene) => (station: Station, index: number | null) => number,
): Least & { scene: Scene } {
  let worst: (Least & { scene: Scene }) | null = null;
  for (const scene of scenes) {
    const found = leastOver(rig, scene, marginOf(scene));
    if (worst === null || Number.isNaN(found.margin) || found.margin < worst.margin) worst = { ...found, scene };
    if (Number.isNaN(found.margin)) return worst;
  }
  return worst!;
}
