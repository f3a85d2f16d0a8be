/** Floor and ceiling at one gap: a trial is put in and moved until the margin is exactly the wanted one. */
import { findRoot } from '../../numerics/roots.ts';
import type { ForceOut } from '../../physics/plunger.ts';
import type { Context } from '../check.ts';
import { forceInLine, SHUT_WANTED } from '../checks/connection.ts';
import { holdGiven, holdNeeded } from '../checks/hold.ts';
import type { Rig } from '../rig.ts';
import { leverMoments, type End } from '../lever-moments.ts';
import { neededAt, outAt } from '../forces.ts';
import type { ElectricCorner, Scene } from '../scene.ts';
import type { Station } from '../travel.ts';
import type { Edge, MarginLine, SpringWindow, WindowCheck } from './kinds.ts';

type Acts = SpringWindow['acts'];

const tried = (rig: Rig, acts: Acts, value: number): Rig => ({
  ...rig,
  trial: {
    moment: rig.trial.moment + (acts === 'moment' ? value : 0),
    force: rig.trial.force + (acts === 'force' ? value : 0),
  },
});

const frictions = ['high', 'low'] as const;

export function floorAt(rig: Rig, { travel }: Scene, station: Station, i: number, acts: Acts): Edge {
  const edge = (check: WindowCheck, friction: End, breakaway: number): Edge => {
    const at = (trial: number) => outAt(tried(rig, acts, trial), travel, station, friction, breakaway);
    const value = leastTrial((trial) => returnSpare(at(trial), rig.wanted.return));
    const line = lineThrough(value, 1, rig.wanted.return, (trial) => {
      const { drive, net } = at(trial);
      return [net, drive - net];
    });
    return { value, check, friction, supply: null, coil: null, line };
  };
  const edges = frictions.flatMap((friction) => [
    edge('returns-from-every-gap', friction, 0),
    ...(i === 0 ? [edge('returns-from-home', friction, rig.lever.breakaway)] : []),
  ]);
  if (rig.linkage.kind === 'chain') edges.push(tautEdge(rig, station, acts));
  return edges.reduce((most, one) => (one.value > most.value ? one : most));
}

/** A chain cannot push: the lever must drive it out by itself, so that no spring on the plunger helps. */
function tautEdge(rig: Rig, { shaftAngle }: Station, acts: Acts): Edge {
  const wanted = rig.wanted.return;
  const at = (trial: number) => leverMoments(tried(rig, acts, trial), shaftAngle, 'high', 'out');
  const value = leastTrial((trial) => {
    const { steady, friction } = at(trial);
    return steady - (1 + wanted) * friction;
  });
  const line = lineThrough(value, 1, wanted, (trial) => {
    const { steady, friction } = at(trial);
    return [steady - friction, friction];
  });
  return { value, check: 'chain-stays-taut', friction: 'high', supply: null, coil: null, line };
}

/** Left of the drive after the wanted margin, N: zero or more where the return has it. */
function returnSpare({ drive, net }: ForceOut, wanted: number): number {
  const spare = net - wanted * Math.max(0, drive - net);
  return drive > 0 ? spare : Math.min(spare, drive, -1e-12);
}

export function ceilingAt(context: Context, scene: Scene, station: Station, i: number, acts: Acts): Edge {
  const { rig, electric } = context;
  const weakest = weakestPull(electric, scene, i);
  const edge = (
    decided: Pick<Edge, 'check' | 'friction'>,
    corner: ElectricCorner | null,
    given: number,
    wanted: number,
    needed: (rig: Rig) => number,
  ): Edge => {
    const at = (trial: number) => needed(tried(rig, acts, trial));
    const value = greatestTrial((trial) => given - (1 + wanted) * at(trial));
    const line = lineThrough(value, -1, wanted, (trial) => [given - at(trial), at(trial)]);
    return { ...decided, value, supply: corner?.supply ?? null, coil: corner?.coil ?? null, line };
  };
  const pulls = (check: WindowCheck, friction: End, breakaway: number) =>
    edge(
      { check, friction },
      weakest.corner,
      weakest.pull,
      rig.wanted.pull,
      (at) => neededAt(at, scene.travel, station, friction, breakaway).needed,
    );
  const isStart = i === scene.travel.stations.length - 1;
  const edges = frictions.flatMap((friction) => [
    pulls('pulls-in-everywhere', friction, 0),
    ...(isStart ? [pulls('pulls-in-from-full-stroke', friction, rig.lever.breakaway)] : []),
  ]);
  if (rig.overTravel !== null && station.stretch === null) {
    const shut = { check: 'over-travel-stays-shut' as const, friction: 'high' as const };
    edges.push(
      edge(shut, null, rig.overTravel.preload, SHUT_WANTED, (at) =>
        Math.max(0, forceInLine(at, scene.travel, station)),
      ),
    );
  }
  if (i === 0) {
    const corner = electric.find(({ supply, coil }) => supply === 'low' && coil === 'hot')!;
    const hold = { check: 'holds-at-home' as const, friction: null };
    edges.push(edge(hold, corner, holdGiven(context, scene), rig.wanted.hold, (at) => holdNeeded(at, scene)));
  }
  return edges.reduce((least, one) => (one.value < least.value ? one : least));
}

/** @param way +1 where the open side lies above the edge, -1 where it lies below */
function lineThrough(
  edge: number,
  way: 1 | -1,
  wanted: number,
  of: (trial: number) => readonly [number, number],
): MarginLine {
  const from = Number.isFinite(edge) ? edge : 0;
  const step = way * Math.max(0.05, 0.2 * Math.abs(from));
  const [n, d] = of(from);
  const [nextN, nextD] = of(from + step);
  const [n1, d1] = [(nextN - n) / step, (nextD - d) / step];
  return { n0: n - n1 * from, n1, d0: d - d1 * from, d1, wanted };
}

/** The corner with the least pull that was read; low supply with a hot coil is always one of them. */
function weakestPull(
  electric: readonly ElectricCorner[],
  { pull }: Scene,
  i: number,
): { pull: number; corner: ElectricCorner } {
  let weakest: { pull: number; corner: ElectricCorner } | null = null;
  for (const [row, corner] of electric.entries()) {
    const here = pull[row][i];
    if (Number.isNaN(here)) continue;
    if (weakest === null || here < weakest.pull) weakest = { pull: here, corner };
  }
  return weakest!;
}

/** Farther than this no spring of a stop lever goes: N m, or N. */
const FARTHEST = 1e4;

/** The least trial, from zero up, at which the spare is not below zero. */
function leastTrial(spare: (trial: number) => number): number {
  if (spare(0) >= 0) return 0;
  let low = 0;
  for (let high = 1; high <= FARTHEST; low = high, high *= 8) {
    if (spare(high) >= 0) return onGoodSide(spare, low, high, 1);
  }
  return Infinity;
}

/** The greatest trial at which the spare is not below zero; may lie below zero. */
function greatestTrial(spare: (trial: number) => number): number {
  const way = spare(0) >= 0 ? 1 : -1;
  let near = 0;
  for (let far = 1; far <= FARTHEST; near = far, far *= 8) {
    const isGood = spare(way * far) >= 0;
    if (way === 1 ? !isGood : isGood)
      return way === 1 ? onGoodSide(spare, near, far, -1) : onGoodSide(spare, -far, -near, -1);
  }
  return way * Infinity;
}

/**
 * Where the spare passes zero between two trials, on the side where it is not below.
 *
 * @param rises +1 where the spare is good at the upper end, -1 where it is at the lower
 */
function onGoodSide(spare: (trial: number) => number, low: number, high: number, rises: 1 | -1): number {
  let [a, b] = [low, high];
  // Where the connection is held fast the spare is minus infinity, and only halving gets past that.
  for (let i = 0; i < 60 && !(Number.isFinite(spare(a)) && Number.isFinite(spare(b))); i++) {
    const middle = (a + b) / 2;
    if (spare(middle) >= 0 === (rises === 1)) b = middle;
    else a = middle;
  }
  const tolerance = 1e-9 * Math.max(1e-3, high - low);
  const { at } = findRoot(spare, a, b, tolerance);
  const steps = [0, tolerance, 10 * tolerance, 1e3 * tolerance];
  return steps.map((step) => at + rises * step).find((trial) => spare(trial) >= 0) ?? (rises === 1 ? b : a);
}
