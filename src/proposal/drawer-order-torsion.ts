/**
 * A torsion spring to order, round the shaft: the rate that keeps its moment furthest from both edges of the window, with
 * its legs set to rest at one shaft angle, and coils of stocked wire wound to it (EN 13906-3). Every coil has an index from
 * 4 to 16 and quarter turns, is told to a tenth of a millimetre outside, keeps a tenth of the wire's strength back, goes
 * over the shaft when it is wound and into the room where these are told. The line of each lies inside the window at every
 * gap. Left out: what the legs bend (it is told how to count them), friction on the mandrel, tolerances.
 */
import { coilMass } from '../physics/spring/helical.ts';
import { bendingStress, largestMandrel, permissibleBendingShare, torsionRate } from '../physics/spring/torsion.ts';
import {
  elasticModulus,
  stockedDiameters,
  wireDensity,
  wireStrength,
  type SpringWire,
} from '../physics/spring/wire.ts';
import { greatest } from './drawer-greatest.ts';
import type { Target } from './drawer-mount.ts';

/** The moment wanted at two windings, rad, between least and most, N m. */
export interface TorsionAsked {
  readonly kind: 'torsion';
  readonly first: WoundWindow;
  readonly second: WoundWindow;
}

export interface WoundWindow {
  readonly wound: number;
  readonly least: number;
  readonly most: number;
}

/** All that a spring-maker has to be told; base SI, angles in rad. */
export interface TorsionSpecification {
  readonly kind: 'torsion';
  readonly wire: SpringWire;
  readonly wireDiameter: number;
  readonly strength: number;
  readonly outsideDiameter: number;
  readonly meanCoilDiameter: number;
  readonly activeTurns: number;
  /** N m/rad. */
  readonly rate: number;
  readonly loads: readonly {
    readonly name: 'M1' | 'M2';
    readonly wound: number;
    readonly moment: number;
    /** Bending stress without correction, Pa. */
    readonly stress: number;
  }[];
  /** Largest shaft that leaves it free when it is wound furthest, m. */
  readonly mandrelMost: number;
  /** Of the closed coil when it is wound furthest, m. */
  readonly bodyLength: number;
  readonly mass: number;
}

export interface TorsionOffer {
  readonly specification: TorsionSpecification;
  /** Bending stress over what is allowed. */
  readonly used: { readonly 'static stress': number };
}

const INDEX_LEAST = 4;
const INDEX_MOST = 16;
const TURNS_LEAST = 2;
const TURNS_MOST = 60;
/** A share of what is allowed is kept back, as the findings want it: allowed over actual 1.1. */
const RESERVE = 1.1;
const MOST_OFFERS = 6;
/** Where no ceiling is known this stands for it, N m. */
const MOMENT_MOST = 1e3;
const MOST_LEGS = 12;

interface Line {
  /** N m/rad. */
  readonly rate: number;
  /** How far from either edge, N m, at the least. */
  readonly spare: number;
}

/** The rate whose line keeps furthest from both edges; null where none lies between them. */
function middleRate(target: Target, m: number): Line | null {
  const rows = rowsOf(target, m);
  const most = Math.max(...rows.map(({ wound }) => wound));
  if (!(most > 0) || rows.some(({ wound, low }) => wound <= 0 && low > 0)) return null;
  const spare = (rate: number) =>
    rows.reduce((least, { wound, low, high }) => Math.min(least, rate * wound - low, high - rate * wound), Infinity);
  const best = greatest(spare, 0, Math.max(...rows.map(({ high, wound }) => (wound > 0 ? high / wound : 0))));
  return best.value > 0 ? { rate: best.at, spare: best.value } : null;
}

const rowsOf = ({ window, lengths }: Target, m: number) =>
  window.scenes
    .flatMap(({ stations }) => stations)
    .map(({ floor, ceiling }, j) => ({
      wound: lengths[m][j],
      low: Math.max(0, floor.value),
      high: Math.min(MOMENT_MOST, ceiling.value),
    }));

/** Settings of the legs, those that leave most room for the spring-maker first; of much the same room the least wound. */
export function legsByRoom(target: Target): number[] {
  const known = target.mounts.flatMap((_, m) => {
    const line = middleRate(target, m);
    return line === null ? [] : [{ m, spare: line.spare }];
  });
  const most = Math.max(...known.map(({ spare }) => spare));
  const room = ({ spare }: { readonly spare: number }) => Math.floor((10 * spare) / most);
  return known
    .sort((a, b) => room(b) - room(a) || a.m - b.m)
    .slice(0, MOST_LEGS)
    .map(({ m }) => m);
}

export function torsionDesigns(
  target: Target,
  m: number,
  wires: readonly SpringWire[],
): { readonly wanted: TorsionAsked | null; readonly offers: readonly TorsionOffer[] } {
  const line = middleRate(target, m);
  if (line === null) return { wanted: null, offers: [] };
  const rows = rowsOf(target, m);
  const rest = Math.max(0, target.lengths[m][target.surveyed - 1]);
  const most = Math.max(...target.lengths[m].subarray(0, target.surveyed));
  const around = (wound: number): WoundWindow => ({
    wound,
    least: Math.max(0, line.rate * wound - line.spare),
    most: line.rate * wound + line.spare,
  });
  const liesIn = (rate: number) => rows.every(({ wound, low, high }) => rate * Math.max(0, wound) >= low && rate * wound <= high); // prettier-ignore
  const offers = wires
    .flatMap((wire) => stockedDiameters(wire).flatMap((d) => coilsOf(wire, d, line.rate)))
    .filter(({ rate }) => liesIn(rate))
    .map((coil) => offerOf(coil, rest, most))
    .filter(({ used }) => used['static stress'] <= 1)
    .filter(
      ({ specification: { mandrelMost, outsideDiameter } }) =>
        (target.insideLeast === null || mandrelMost >= target.insideLeast)
        && (target.outsideMost === null || outsideDiameter <= target.outsideMost),
    )
    .sort(byRank);
  return { wanted: { kind: 'torsion', first: around(rest), second: around(most) }, offers: unlike(offers) };
}

interface Coil {
  readonly wire: SpringWire;
  readonly wireDiameter: number;
  readonly outsideDiameter: number;
  readonly meanCoilDiameter: number;
  readonly activeTurns: number;
  readonly rate: number;
}

/** n = E d⁴ / (64 D c), taken to quarter turns, and the coil wound to the rate again. */
function coilsOf(wire: SpringWire, d: number, rate: number): Coil[] {
  const E = elasticModulus(wire);
  const coils = new Map<string, Coil>();
  for (let w = INDEX_LEAST; w <= INDEX_MOST; w += 0.5) {
    const exact = (E * d ** 4) / (64 * w * d * rate);
    const turns = Math.round(4 * exact) / 4;
    if (turns < TURNS_LEAST || turns > TURNS_MOST) continue;
    const outside = Math.round(((E * d ** 4) / (64 * turns * rate) + d) * 1e4) / 1e4;
    const meanCoilDiameter = Math.round((outside - d) * 1e8) / 1e8;
    if (meanCoilDiameter < INDEX_LEAST * d - 1e-9 || meanCoilDiameter > INDEX_MOST * d + 1e-9) continue;
    const coil = { wire, wireDiameter: d, outsideDiameter: outside, meanCoilDiameter, activeTurns: turns };
    coils.set(`${turns}`, { ...coil, rate: torsionRate({ ...coil, elasticModulus: E }) });
  }
  return [...coils.values()];
}

function offerOf(coil: Coil, rest: number, most: number): TorsionOffer {
  const { wire, wireDiameter: d, meanCoilDiameter, activeTurns, rate } = coil;
  const strength = wireStrength(wire, d);
  const load = (name: 'M1' | 'M2', wound: number) => {
    const moment = rate * wound;
    return { name, wound, moment, stress: bendingStress(d, moment) };
  };
  const loads = [load('M1', rest), load('M2', most)];
  return {
    specification: {
      ...coil,
      kind: 'torsion',
      strength,
      loads,
      mandrelMost: largestMandrel({ ...coil, elasticModulus: elasticModulus(wire) }, most),
      bodyLength: (activeTurns + 1 + most / (2 * Math.PI)) * d,
      mass: coilMass(d, meanCoilDiameter, activeTurns, wireDensity(wire)),
    },
    used: { 'static stress': (RESERVE * bendingStress(d, rate * most)) / (permissibleBendingShare * strength) },
  };
}

/** Static stress in tenths of what is allowed, below a half all alike; then mass. */
function byRank(a: TorsionOffer, b: TorsionOffer): number {
  const stress = ({ used }: TorsionOffer) => Math.max(5, Math.ceil(10 * used['static stress']));
  return stress(a) - stress(b) || a.specification.mass - b.specification.mass;
}

/** The best of each wire diameter. */
function unlike(offers: readonly TorsionOffer[]): TorsionOffer[] {
  const seen = new Set<number>();
  return offers
    .filter(({ specification: { wireDiameter } }) => {
      const isNew = !seen.has(wireDiameter);
      seen.add(wireDiameter);
      return isNew;
    })
    .slice(0, MOST_OFFERS);
}
