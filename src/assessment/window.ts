/**
 * The window of a return spring: at every gap, how much it must give and how much it may give.
 *
 * One spring is taken out of the installation and a trial moment about the shaft (or a trial force on the plunger) put in.
 * The floor is the trial at which the return has just its wanted margin, in both ends of friction, from home also against
 * sticking and the first movement. The ceiling is the trial at which the weakest known pull has just its wanted margin, in
 * both ends of friction, at the start also for the first movement, at home also in hold.
 *
 * Signs: a moment or force that drives the plunger out counts as positive.
 */
import { apply, change } from '../job/change.ts';
import { findRoot } from '../numerics/roots.ts';
import { shaftSpringMoment } from '../physics/spring/torsion.ts';
import type { ForceOut } from '../physics/plunger.ts';
import { leverSpringMoment, springForce } from '../physics/spring/working.ts';
import { metricUnits } from '../units/quantity.ts';
import { checksOf } from './assess.ts';
import { findingOf, type Context } from './check.ts';
import { holdGiven, holdNeeded } from './checks/pull.ts';
import { missingReadings, needsOf } from './needs.ts';
import { rigOf, type Rig, type SolenoidJob } from './rig.ts';
import {
  electricCorners,
  neededAt,
  outAt,
  sceneOf,
  scenesOf,
  type ElectricCorner,
  type End,
  type Scene,
  type Warmth,
} from './scene.ts';
import { travelOf, type Station } from './travel.ts';
import { wordsIn } from './words.ts';

/** Where the spring in question acts: a moment about the shaft, or a force on the plunger. */
export type SpringPlace = 'lever' | 'shaft' | 'plunger';

export interface WindowQuestion {
  readonly on: SpringPlace;
  /** Index in the job's list of the spring that is taken out; null where one more is asked for. */
  readonly index: number | null;
}

export const windowChecks = [
  'pulls-in-from-full-stroke',
  'pulls-in-everywhere',
  'holds-at-home',
  'returns-from-every-gap',
  'returns-from-home',
] as const;
export type WindowCheck = (typeof windowChecks)[number];

/** One edge at one gap, and what decides it. */
export interface Edge {
  /** N m or N. A floor is never below zero; infinite where no spring of this place can do it. */
  readonly value: number;
  readonly check: WindowCheck;
  readonly friction: End | null;
  readonly supply: End | null;
  readonly coil: Warmth | null;
  readonly line: MarginLine;
}

/**
 * The margin near an edge as a function of the trial x, for a screen of very many: (n0 + n1 x)/(d0 + d1 x), from two points
 * on the open side of the edge. Right at the edge; forces are straight lines of x but where friction changes sides.
 */
export interface MarginLine {
  readonly n0: number;
  readonly n1: number;
  readonly d0: number;
  readonly d1: number;
  readonly wanted: number;
}

export interface WindowStation {
  readonly gap: number;
  readonly shaftAngle: number;
  readonly floor: Edge;
  readonly ceiling: Edge;
}

export interface WindowScene {
  readonly moved: string | null;
  readonly stations: readonly WindowStation[];
}

export interface SpringWindow {
  readonly question: WindowQuestion;
  /** N m about the shaft, or N along the plunger. */
  readonly acts: 'moment' | 'force';
  /** As surveyed first, then the engine moved on its mounts. Empty where readings are missing. */
  readonly scenes: readonly WindowScene[];
  /** Where floor and ceiling come nearest; null where it is not known. */
  readonly tightest: Tightest | null;
  /** Whether at every gap a spring force lies between floor and ceiling. */
  readonly isOpen: boolean;
  /** Paths of readings that must be taken first, and why it is not known. */
  readonly missing: readonly string[];
  readonly unknown: string | null;
}

export interface Tightest {
  readonly moved: string | null;
  readonly station: WindowStation;
  /** Ceiling minus floor; negative where it is shut. */
  readonly width: number;
}

/** The spring asked about where nobody names one: the first on lever or shaft, else on the plunger, else a new one on the lever. */
export function usualQuestion(job: SolenoidJob): WindowQuestion {
  const { springs } = job.return;
  const on = (place: SpringPlace): WindowQuestion[] =>
    springs.flatMap((one, index) => (one.on === place ? [{ on: place, index }] : []));
  return [...on('lever'), ...on('shaft'), ...on('plunger')][0] ?? { on: 'lever', index: null };
}

/** The job with the spring in question taken out. */
export function without(job: SolenoidJob, { index }: WindowQuestion): SolenoidJob {
  return index === null ? job : apply(job, [change(job, `return.springs[${index}]`, undefined)]);
}

/** @param coarse only so many stations, as surveyed: for a search over many jobs */
export function windowOf(job: SolenoidJob, question: WindowQuestion, coarse: number | null = null): SpringWindow {
  const bare = without(job, question);
  const rig = rigOf(bare);
  const electric = electricCorners(rig);
  const scenes =
    coarse === null ? scenesOf(rig, electric) : [sceneOf(rig, electric, null, travelOf(rig, rig.linkage, coarse))];
  const context: Context = { rig, scenes, electric, needs: needsOf(bare), say: wordsIn(metricUnits) };
  const acts = question.on === 'plunger' ? 'force' : 'moment';
  const unknown = notKnown(context, bare);
  if (unknown !== null)
    return {
      question,
      acts,
      scenes: [],
      tightest: null,
      isOpen: false,
      missing: unknown.missing,
      unknown: unknown.because,
    };
  const found = scenes.map((scene) => windowIn(context, scene, acts));
  const tightest = tightestOf(found);
  return { question, acts, scenes: found, tightest, isOpen: tightest.width >= 0, missing: [], unknown: null };
}

function notKnown(context: Context, job: SolenoidJob): { missing: readonly string[]; because: string } | null {
  const missing = missingReadings(job);
  const asked: ReadonlySet<string> = new Set(windowChecks);
  const findings = checksOf(context)
    .filter(({ id }) => asked.has(id))
    .map((check) => findingOf(check, missing))
    .filter(({ verdict }) => verdict === 'not known');
  if (findings.length === 0) return null;
  return { missing: [...new Set(findings.flatMap((one) => one.missing))], because: findings[0].because };
}

export function tightestOf(scenes: readonly WindowScene[]): Tightest {
  let tightest: Tightest | null = null;
  for (const { moved, stations } of scenes)
    for (const station of stations) {
      const width = widthOf(station);
      if (tightest === null || width < tightest.width) tightest = { moved, station, width };
    }
  return tightest!;
}

/** Shut for good counts as minus infinity, also where the ceiling is infinite. */
function widthOf({ floor, ceiling }: WindowStation): number {
  return floor.value === Infinity || ceiling.value === -Infinity ? -Infinity : ceiling.value - floor.value;
}

type Acts = SpringWindow['acts'];

const tried = (rig: Rig, acts: Acts, value: number): Rig => ({
  ...rig,
  trial: {
    moment: rig.trial.moment + (acts === 'moment' ? value : 0),
    force: rig.trial.force + (acts === 'force' ? value : 0),
  },
});

function windowIn(context: Context, scene: Scene, acts: Acts): WindowScene {
  const { stations } = scene.travel;
  return {
    moved: scene.moved,
    stations: stations.map((station, i) => ({
      gap: station.gap,
      shaftAngle: station.shaftAngle,
      floor: floorAt(context.rig, scene, station, i, acts),
      ceiling: ceilingAt(context, scene, station, i, acts),
    })),
  };
}

const frictions = ['high', 'low'] as const;

function floorAt(rig: Rig, { travel }: Scene, station: Station, i: number, acts: Acts): Edge {
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
  return edges.reduce((most, one) => (one.value > most.value ? one : most));
}

/** Left of the drive after the wanted margin, N: zero or more where the return has it. */
function returnSpare({ drive, net }: ForceOut, wanted: number): number {
  const spare = net - wanted * Math.max(0, drive - net);
  return drive > 0 ? spare : Math.min(spare, drive, -1e-12);
}

function ceilingAt(context: Context, scene: Scene, station: Station, i: number, acts: Acts): Edge {
  const { rig, electric } = context;
  const weakest = weakestPull(electric, scene, i);
  const edge = (
    decided: Pick<Edge, 'check' | 'friction'>,
    { supply, coil }: ElectricCorner,
    given: number,
    wanted: number,
    needed: (rig: Rig) => number,
  ): Edge => {
    const at = (trial: number) => needed(tried(rig, acts, trial));
    const value = greatestTrial((trial) => given - (1 + wanted) * at(trial));
    const line = lineThrough(value, -1, wanted, (trial) => [given - at(trial), at(trial)]);
    return { ...decided, value, supply, coil, line };
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
