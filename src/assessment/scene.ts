/**
 * Forces over the travel in every corner.
 *
 * A scene is one place of the engine on its mounts. What is needed depends on friction alone and what is available on
 * supply and coil alone, so two curves of one and four of the other make the eight corners.
 */
import { holdCurrents, pullInCurrents, type StageCurrents } from '../physics/circuit.ts';
import { tableForce, tableForces, type Caution } from '../physics/solenoid/table.ts';
import { forcesOver, newForceRows, type ForceRows, type NeededRows, type OutRows } from './forces.ts';
import type { End } from './lever-moments.ts';
import type { MechanicalRig, Rig } from './rig.ts';
import {
  movedLinkage,
  travelOf,
  STATIONS,
  STATIONS_MOVED,
  type Station,
  type StationRoom,
  type Travel,
} from './travel.ts';

export type Warmth = 'cold' | 'hot';

/** Currents of one stage at one supply and coil temperature. */
export interface ElectricCorner {
  readonly supply: End;
  readonly coil: Warmth;
  readonly pullIn: StageCurrents;
  readonly hold: StageCurrents;
}

/** What lever, connection and springs do at one place of the engine, whatever moves them. */
export interface MechanicalScene {
  /** How the engine has moved; null where it sits as surveyed. */
  readonly moved: string | null;
  readonly travel: Travel;
  readonly needed: Record<End, NeededRows>;
  readonly out: Record<End, OutRows>;
}

/** The least pull of one electric corner at each station, N. */
export interface PullRow {
  readonly corner: number;
  readonly pull: ArrayLike<number>;
}

export interface Scene extends MechanicalScene {
  /** Least pull in pull-in at each station, N, one row for each electric corner. */
  readonly pull: readonly ArrayLike<number>[];
  /** Low supply with a hot coil, where no other corner pulls less anywhere; null where one may. */
  readonly weakest: PullRow | null;
}

/** Where the numbers of a scene lie. A study that reckons one scene after another writes each over the one before. */
export interface SceneRoom {
  readonly stations: StationRoom[];
  rows: SceneRows | null;
}

interface SceneRows extends ForceRows {
  readonly length: number;
  readonly gaps: Float64Array;
  readonly pull: Float64Array[];
  readonly weakest: Float64Array;
}

export function newRoom(): SceneRoom {
  return { stations: [], rows: null };
}

function rowsIn(room: SceneRoom, stations: number): SceneRows {
  if (room.rows !== null && room.rows.length >= stations) return room.rows;
  room.rows = {
    length: stations,
    gaps: new Float64Array(stations),
    pull: [],
    weakest: new Float64Array(stations),
    ...newForceRows(stations),
  };
  return room.rows;
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

/**
 * The place as surveyed, then the engine moved either way along the pull and across it.
 *
 * @param rooms of earlier scenes, which are written over
 */
export function scenesOf(rig: Rig, electric: readonly ElectricCorner[], rooms: SceneRoom[] = []): Scene[] {
  return placesOf(rig, rooms, (moved, travel, room) => sceneOf(rig, electric, moved, travel, room));
}

/** The same of a mover without a coil. */
export function mechanicalScenesOf(rig: MechanicalRig): MechanicalScene[] {
  return placesOf(rig, [], (moved, travel, room) => mechanicalSceneOf(rig, moved, travel, room));
}

function placesOf<S>(
  rig: MechanicalRig,
  rooms: SceneRoom[],
  sceneAt: (moved: string | null, travel: Travel, room: SceneRoom) => S,
): S[] {
  const { engineMoves: move, linkage } = rig;
  const first = roomIn(rooms, 0);
  const asSurveyed = sceneAt(null, travelOf(rig, linkage, STATIONS, first.stations), first);
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
    ...ways.map(([words, x, y], i) => {
      const room = roomIn(rooms, i + 1);
      const moved = movedLinkage(linkage, x * move, y * move);
      return sceneAt(`engine moved ${words}`, travelOf(rig, moved, STATIONS_MOVED, room.stations), room);
    }),
  ];
}

function roomIn(rooms: SceneRoom[], i: number): SceneRoom {
  if (i === rooms.length) rooms.push(newRoom());
  return rooms[i];
}

export function sceneOf(
  rig: Rig,
  electric: readonly ElectricCorner[],
  moved: string | null,
  travel: Travel,
  room: SceneRoom = newRoom(),
): Scene {
  return new SolenoidScene(rig, electric, moved, travel, room);
}

export function mechanicalSceneOf(
  rig: MechanicalRig,
  moved: string | null,
  travel: Travel,
  room: SceneRoom = newRoom(),
): MechanicalScene {
  return new ReckonedScene(rig, moved, travel, room);
}

/** Rows are worked out when they are first asked for: a study that asks one question does not pay for the others. */
class ReckonedScene implements MechanicalScene {
  readonly moved: string | null;
  readonly travel: Travel;
  readonly #rig: MechanicalRig;
  readonly #rows: SceneRows;
  #isReckoned = false;

  constructor(rig: MechanicalRig, moved: string | null, travel: Travel, room: SceneRoom) {
    this.moved = moved;
    this.travel = travel;
    this.#rig = rig;
    this.#rows = rowsIn(room, travel.stations.length);
  }

  get needed(): MechanicalScene['needed'] {
    return this.#forces().needed;
  }

  get out(): MechanicalScene['out'] {
    return this.#forces().out;
  }

  #forces(): ForceRows {
    if (!this.#isReckoned) forcesOver(this.#rig, this.travel, this.#rows);
    this.#isReckoned = true;
    return this.#rows;
  }
}

class SolenoidScene extends ReckonedScene implements Scene {
  readonly #rig: Rig;
  readonly #electric: readonly ElectricCorner[];
  readonly #room: SceneRoom;
  #pull: readonly Float64Array[] | null = null;
  #weakest: PullRow | null | undefined;

  constructor(rig: Rig, electric: readonly ElectricCorner[], moved: string | null, travel: Travel, room: SceneRoom) {
    super(rig, moved, travel, room);
    this.#rig = rig;
    this.#electric = electric;
    this.#room = room;
  }

  get pull(): Scene['pull'] {
    return (this.#pull ??= pullsOver(this.#rig, this.#electric, this.travel, this.#room));
  }

  get weakest(): Scene['weakest'] {
    if (this.#weakest === undefined) this.#weakest = weakestOver(this.#rig, this.#electric, this.travel, this.#room);
    return this.#weakest;
  }
}

function pullsOver(
  rig: Rig,
  electric: readonly ElectricCorner[],
  { stations }: Travel,
  room: SceneRoom,
): readonly Float64Array[] {
  const { gaps, pull, length } = rowsIn(room, stations.length);
  while (pull.length < electric.length) pull.push(new Float64Array(length));
  pull.length = electric.length;
  if (rig.pullInTable === null) for (const row of pull) row.fill(NaN);
  else {
    gapsInto(stations, gaps);
    const currents = electric.map(({ pullIn }) => pullIn.coil);
    tableForces(rig.pullInTable, gaps, stations.length, currents, 'least', pull);
  }
  return pull;
}

/** A study that draws asks for nothing else, so this row is worked out by itself. */
function weakestOver(
  { pullInTable }: Rig,
  electric: readonly ElectricCorner[],
  { stations }: Travel,
  room: SceneRoom,
): PullRow | null {
  const corner = electric.findIndex(({ supply, coil }) => supply === 'low' && coil === 'hot');
  if (pullInTable === null || corner < 0) return null;
  const current = electric[corner].pullIn.coil;
  if (!electric.every(({ pullIn }) => pullIn.coil >= current)) return null;
  const { gaps, weakest } = rowsIn(room, stations.length);
  gapsInto(stations, gaps);
  return tableForces(pullInTable, gaps, stations.length, [current], 'least', [weakest])
    ? { corner, pull: weakest }
    : null;
}

function gapsInto(stations: readonly Station[], gaps: Float64Array): void {
  for (let i = 0; i < stations.length; i++) gaps[i] = stations[i].gap;
}

/** Pull that the solenoid gives in pull-in, N; NaN where it is not known. */
export function pullAt(rig: Rig, gap: number, corner: ElectricCorner, caution: Caution): number {
  return rig.pullInTable === null ? NaN : tableForce(rig.pullInTable, gap, corner.pullIn.coil, caution);
}
