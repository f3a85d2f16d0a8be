/** The present spring in its window, and what moves either edge along the travel. */
import { shaftSpringMoment } from '../../physics/spring/torsion.ts';
import { leverSpringMoment, springForce } from '../../physics/spring/working.ts';
import { rigOf, type Rig, type SolenoidJob } from '../rig.ts';
import type { Edge, SpringWindow, WindowQuestion, WindowStation } from './kinds.ts';

/** What the spring in question gives at a station, in the window's unit; NaN where there is none. */
export function lineAt(
  rig: Rig,
  { index }: WindowQuestion,
  station: Pick<WindowStation, 'gap' | 'shaftAngle'>,
): number {
  const linear = rig.springs.find((one) => one.index === index);
  if (linear !== undefined)
    return linear.lever === null
      ? springForce(linear.working, linear.lengthAtHome + station.gap)
      : -rig.sense * leverSpringMoment(linear.lever, station.shaftAngle);
  const wound = rig.shaftSprings.find((one) => one.index === index);
  return wound === undefined ? NaN : -rig.sense * shaftSpringMoment(wound.onShaft, station.shaftAngle);
}

/** The spring in question against its window. */
export interface LineInWindow {
  /** In step with the stations of the first scene; null where a reading of the spring is missing. */
  readonly values: readonly (number | null)[];
  /** Least distance to either edge over all scenes; below zero it lies outside. Null where it is not known. */
  readonly toFloor: Nearest | null;
  readonly toCeiling: Nearest | null;
}

export interface Nearest {
  readonly distance: number;
  readonly value: number;
  readonly moved: string | null;
  readonly station: WindowStation;
}

export function lineIn(job: SolenoidJob, window: SpringWindow): LineInWindow | null {
  if (window.question.index === null || window.scenes.length === 0) return null;
  const rig = rigOf(job);
  const nearest = (distanceOf: (value: number, station: WindowStation) => number): Nearest | null => {
    let least: Nearest | null = null;
    for (const { moved, stations } of window.scenes)
      for (const station of stations) {
        const value = lineAt(rig, window.question, station);
        const distance = distanceOf(value, station);
        if (Number.isNaN(distance)) return null;
        if (least === null || distance < least.distance) least = { distance, value, moved, station };
      }
    return least;
  };
  return {
    values: window.scenes[0].stations.map((station) => {
      const value = lineAt(rig, window.question, station);
      return Number.isFinite(value) ? value : null;
    }),
    toFloor: nearest((value, { floor }) => value - floor.value),
    toCeiling: nearest((value, { ceiling }) => ceiling.value - value),
  };
}

/** What decides an edge along the travel as surveyed: one row for each stretch between two gaps. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly edge: Edge;
}

export function stretches({ scenes }: SpringWindow, which: 'floor' | 'ceiling'): Stretch[] {
  const rows: Stretch[] = [];
  for (const station of scenes[0]?.stations ?? []) {
    const edge = station[which];
    const last = rows[rows.length - 1];
    const isSame =
      last !== undefined
      && last.edge.check === edge.check
      && last.edge.friction === edge.friction
      && last.edge.supply === edge.supply
      && last.edge.coil === edge.coil
      && (last.edge.value === 0) === (edge.value === 0);
    if (isSame) rows[rows.length - 1] = { ...last, to: station.gap };
    else rows.push({ from: station.gap, to: station.gap, edge });
  }
  return rows;
}
