/** Where a margin over the travel is least: at every station, refined between them, over scenes and ends of friction. */
import { leastBetween } from '../numerics/minimum.ts';
import type { MechanicalRig } from './rig.ts';
import type { MechanicalScene } from './scene.ts';
import { newStation, stationAt, stationInto, type Station } from './travel.ts';

/** The least of a margin over the stations of a scene, refined between them and on both sides of a step. */
export interface Least {
  readonly margin: number;
  readonly station: Station;
}

/** A margin over the travel. */
export interface MarginCurve<S extends MechanicalScene = MechanicalScene> {
  /** At every station of a scene, in their order. */
  over(scene: S, into: Float64Array): void;
  /** At a place between two stations; at a station, what `over` says. */
  at(scene: S, station: Station): number;
}

/** A curve that hangs on the place alone. */
export function curveOf<S extends MechanicalScene = MechanicalScene>(at: MarginCurve<S>['at']): MarginCurve<S> {
  return {
    at,
    over(scene, into) {
      const { stations } = scene.travel;
      for (let i = 0; i < stations.length; i++) into[i] = at(scene, stations[i]);
    },
  };
}

/** The least of a curve at the stations. */
export interface LeastStation {
  /** Index of the station, and the margin there; a NaN wins. */
  readonly at: number;
  readonly margin: number;
  /** How far the margin rises beside it: no dip between two stations is deeper than that. */
  readonly rise: number;
  /** Whether the margin rises away from an end of the travel, so nearly straight that it cannot dip beside it. */
  readonly isAtEnd: boolean;
}

// Written over by whoever asks next: nothing of it leaves this file.
let row = new Float64Array(0);
const between = newStation();

export function leastStation<S extends MechanicalScene>(scene: S, curve: MarginCurve<S>): LeastStation {
  const { stations } = scene.travel;
  const n = stations.length;
  if (row.length < n) row = new Float64Array(n);
  curve.over(scene, row);
  let at = 0;
  let least = Infinity;
  for (let i = 0; i < n; i++) {
    const margin = row[i];
    if (Number.isNaN(margin)) return { at: i, margin, rise: NaN, isAtEnd: false };
    if (margin < least) {
      least = margin;
      at = i;
    }
  }
  return { at, margin: least, rise: riseBeside(n, at), isAtEnd: isStraightFromEnd(stations, at) };
}

/**
 * Of three stations on a parabola the lowest lies above its dip by at most a quarter of its rise to the higher of the others;
 * of an end station, by at most an eighth of its rise to the next but one. So the rise itself leaves room for other curves.
 */
function riseBeside(n: number, at: number): number {
  const near = at > 0 ? at - 1 : Math.min(2, n - 1);
  const far = at < n - 1 ? at + 1 : Math.max(0, n - 3);
  return Math.max(row[near], row[far]) - row[at];
}

/**
 * A parabola through an end station and the next two dips beside the end only where its second rise is more than three times
 * its first. A bend of the curve within the first step shows in the two rises too: where they differ by a sixteenth at most, a
 * dip would be hidden in the last few hundredths of that step.
 */
function isStraightFromEnd(stations: readonly Station[], at: number): boolean {
  if (at > 0 && at < stations.length - 1) return false;
  const way = at === 0 ? 1 : -1;
  const far = stations[at + 2 * way] as Station | undefined;
  if (far === undefined || (far.stretch === null) !== (stations[at].stretch === null)) return false;
  const rise = row[at + way] - row[at];
  const next = row[at + 2 * way] - row[at + way];
  return rise > 0 && Math.abs(next - rise) <= rise / 16;
}

export function leastOver<S extends MechanicalScene>(rig: MechanicalRig, scene: S, curve: MarginCurve<S>): Least {
  return refined(rig, scene, curve, leastStation(scene, curve));
}

/** The dip beside a station, found between its neighbours on the same side of a step. */
export function refined<S extends MechanicalScene>(
  rig: MechanicalRig,
  scene: S,
  curve: MarginCurve<S>,
  coarse: Pick<LeastStation, 'at' | 'margin' | 'isAtEnd'>,
): Least {
  const { stations } = scene.travel;
  const station = stations[coarse.at];
  const { margin } = coarse;
  if (!Number.isFinite(margin) || coarse.isAtEnd) return { margin, station };
  const isHeld = station.stretch !== null;
  const near = gapOnSameSide(stations, coarse.at - 1, station);
  const far = gapOnSameSide(stations, coarse.at + 1, station);
  if (!(far > near)) return { margin, station };
  const dip = leastBetween(
    (gap) => {
      stationInto(rig, scene.travel, gap, isHeld, between);
      return curve.at(scene, between);
    },
    near,
    far,
    12,
    { at: station.gap, value: margin },
  );
  return dip.value < margin
    ? { margin: dip.value, station: stationAt(rig, scene.travel, dip.at, isHeld) }
    : { margin, station };
}

/** Gap of a neighbour, or of the station itself where there is none on its side of a step. */
function gapOnSameSide(stations: readonly Station[], at: number, station: Station): number {
  const other = stations[at] as Station | undefined;
  return other !== undefined && (other.stretch === null) === (station.stretch === null) ? other.gap : station.gap;
}

/** The curve and scene in which a margin is least, and where; a NaN wins. Only a curve that may be the one is refined. */
export function worstOf<S extends MechanicalScene, Curve extends MarginCurve<S>>(
  rig: MechanicalRig,
  scenes: readonly S[],
  curves: readonly Curve[],
): Least & { readonly scene: S; readonly curve: Curve } {
  let worst: (Least & { scene: S; curve: Curve }) | null = null;
  for (const scene of scenes) {
    for (const curve of curves) {
      const coarse = leastStation(scene, curve);
      if (worst !== null && coarse.margin - coarse.rise > worst.margin) continue;
      const { margin, station } = refined(rig, scene, curve, coarse);
      if (worst === null || Number.isNaN(margin) || margin < worst.margin) worst = { margin, station, scene, curve };
      if (Number.isNaN(margin)) return worst;
    }
  }
  return worst!;
}

/** The scene and station in which a margin is least; a NaN wins. */
export function worstIn<S extends MechanicalScene>(
  rig: MechanicalRig,
  scenes: readonly S[],
  curve: MarginCurve<S>,
): Least & { readonly scene: S } {
  return worstOf(rig, scenes, [curve]);
}
