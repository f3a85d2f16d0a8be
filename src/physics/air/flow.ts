/**
 * Flow of air through valves, pipes and silencers, by sonic conductance and critical pressure ratio.
 *
 *     ṁ = C ρ0 p1 √(T0/T1)                                   for p2/p1 ≤ b     (choked)
 *     ṁ = C ρ0 p1 √(T0/T1) √(1 - ((p2/p1 - b)/(1 - b))²)     for p2/p1 > b     (subsonic, a quarter of an ellipse)  [1]
 *
 * C sonic conductance, m³/(s Pa); b critical pressure ratio; ρ0, T0 density and temperature at the reference state; p1, T1
 * stagnation pressure and temperature before, p2 pressure behind.
 *
 * Close to equal pressures, p2/p1 above 0.998, the flow is taken in proportion to the difference: there it is laminar, and
 * the ellipse is vertical, which no numerical integration bears. Left out: the exponent other than one half and the cracking
 * pressure that [1] allows since 2013, heat that the air takes up between two restrictions (none changes T1).
 *
 * Several in a row: the same mass flows through each, so from the flow the pressures follow one after another; the greatest
 * flow is the one at which the first of them chokes. [2]
 *
 * Pipe: C = 0.029 d² / √(L/d^1.25 + 510),  b = 474 C / d²   (m, m³/(s Pa))  [3]
 * A fit to measured plastic and copper tube, 2 to 20 mm bore and up to some tens of metres. Bends and fittings are not in it.
 *
 * [1] ISO 6358-1:2013
 * [2] ISO 6358-3:2014
 * [3] P. Beater, Pneumatic Drives (2007), after K. Eckersten
 */
import { pchip, pchipAt } from '../../numerics/pchip.ts';
import { findRoot } from '../../numerics/roots.ts';
import { DomainError, requireAboveZero } from '../domain-error.ts';
import { REFERENCE_DENSITY, REFERENCE_TEMPERATURE } from './gas.ts';

export interface Restriction {
  /** Sonic conductance C, m³/(s Pa). */
  readonly conductance: number;
  /** Critical pressure ratio b. */
  readonly criticalRatio: number;
}

/** How much flows at each ratio of pressures: one restriction, or several in a row. */
export interface FlowCurve extends Restriction {
  /** Conductance at a ratio of the absolute pressure behind to that before, 0 to 1, m³/(s Pa): C where choked, 0 at 1. */
  at(ratio: number): number;
}

/** Ratio above which the flow is taken in proportion to the difference of pressures. */
const LAMINAR_FROM = 0.998;

/** @throws DomainError SW-D080 a conductance not finite and above zero, or a critical pressure ratio outside 0 to below 1 */
export function flowCurve(restriction: Restriction): FlowCurve {
  check(restriction);
  const { conductance: C, criticalRatio: b } = restriction;
  return {
    ...restriction,
    at(ratio) {
      if (ratio <= b) return C;
      if (ratio >= 1) return 0;
      if (ratio > LAMINAR_FROM) return (ellipse(C, b, LAMINAR_FROM) * (1 - ratio)) / (1 - LAMINAR_FROM);
      return ellipse(C, b, ratio);
    },
  };
}

function ellipse(C: number, b: number, ratio: number): number {
  const x = (ratio - b) / (1 - b);
  return C * Math.sqrt(1 - x * x);
}

/**
 * Restriction of a pipe.
 *
 * @param bore   m
 * @param length m
 * @throws DomainError SW-D081 a bore not finite and above zero, or a length not finite or below zero
 */
export function pipe(bore: number, length: number): Restriction {
  requireAboveZero('SW-D081', 'bore of a pipe', bore);
  if (!(length >= 0 && length < Infinity))
    throw new DomainError('SW-D081', `the length of a pipe must be finite and not below zero, not ${length} m`);
  const [d, L] = [bore, length];
  const C = (0.029 * d * d) / Math.sqrt(L / d ** 1.25 + 510);
  return { conductance: C, criticalRatio: (474 * C) / (d * d) };
}

/**
 * Share of a pipe's volume that counts with a chamber at its end, where both are filled through a valve before the pipe or
 * emptied through a way out behind it: what lies near the valve does not have to come through the whole of the pipe.
 *
 *     (Rv + ⅔ Rp) / (Rv + Rp),   R = 1/C²
 *
 * One number in the place of a pipe in pieces. Against pipes in twenty cells, bores 2.5 to 8 mm and up to 30 m, filling takes
 * 0.97 to 1.06 of the time, emptying 0.98 to 1.24: seldom too short, and never by much. Our own; no source.
 */
export function shareOfPipe(beside: Restriction, line: Restriction): number {
  const [Rv, Rp] = [beside.conductance ** -2, line.conductance ** -2];
  return (Rv + (2 / 3) * Rp) / (Rv + Rp);
}

/** Rows of the table from which the flow through several restrictions is read. */
const ROWS = 65;

/**
 * Restrictions one behind the other as one.
 *
 * @throws DomainError SW-D080 no restriction at all, or one without meaning
 */
export function inSeries(restrictions: readonly Restriction[]): FlowCurve {
  if (restrictions.length === 0) throw new DomainError('SW-D080', 'a flow needs one restriction at least');
  restrictions.forEach(check);
  if (restrictions.length === 1) return flowCurve(restrictions[0]);
  const conductance = chokedTogether(restrictions);
  const criticalRatio = ratioBehind(restrictions, conductance);
  // Over √(1 - ratio) the flow is a smooth curve, straight where the ratio nears one.
  const widest = Math.sqrt(1 - criticalRatio);
  const roots = Array.from({ length: ROWS }, (_, i) => (widest * i) / (ROWS - 1));
  const flows = roots.map((root, i) => {
    if (i === 0) return 0;
    if (i === ROWS - 1) return conductance;
    const behind = 1 - root * root;
    return findRoot((flow) => ratioBehind(restrictions, flow) - behind, 0, conductance, 1e-9 * conductance).at;
  });
  const table = pchip(roots, flows);
  const edge = pchipAt(table, Math.sqrt(1 - LAMINAR_FROM));
  return {
    conductance,
    criticalRatio,
    at(ratio) {
      if (ratio >= 1) return 0;
      if (ratio <= criticalRatio) return conductance;
      if (ratio > LAMINAR_FROM) return (edge * (1 - ratio)) / (1 - LAMINAR_FROM);
      return pchipAt(table, Math.sqrt(1 - ratio));
    },
  };
}

/** Pressure behind the last over pressure before the first at a flow, as conductance seen from before the first; 0 if it cannot be. */
function ratioBehind(restrictions: readonly Restriction[], flow: number): number {
  let ratio = 1;
  for (const { conductance: C, criticalRatio: b } of restrictions) {
    const share = flow / (ratio * C);
    if (share > 1 + 1e-12) return 0;
    ratio *= b + (1 - b) * Math.sqrt(Math.max(0, 1 - share * share));
  }
  return ratio;
}

/** The greatest flow that each of them lets through. */
function chokedTogether(restrictions: readonly Restriction[]): number {
  let low = 0;
  let high = Math.min(...restrictions.map(({ conductance }) => conductance));
  if (ratioBehind(restrictions, high) > 0) return high;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (ratioBehind(restrictions, middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}

/** Air as it stands before or behind a restriction: absolute pressure, Pa, and temperature, K. */
export interface AirState {
  readonly pressure: number;
  readonly temperature: number;
}

/** Mass flow from one place to the other, kg/s; below zero where it flows back. */
export function massFlow(curve: FlowCurve, from: AirState, to: AirState): number {
  return from.pressure >= to.pressure ? oneWay(curve, from, to.pressure) : -oneWay(curve, to, from.pressure);
}

function oneWay(curve: FlowCurve, { pressure: p1, temperature: T1 }: AirState, p2: number): number {
  return curve.at(p2 / p1) * REFERENCE_DENSITY * p1 * Math.sqrt(REFERENCE_TEMPERATURE / T1);
}

function check({ conductance: C, criticalRatio: b }: Restriction): void {
  requireAboveZero('SW-D080', 'sonic conductance', C);
  if (!(b >= 0 && b < 1))
    throw new DomainError('SW-D080', `a critical pressure ratio lies between 0 and 1, not at ${b}`);
}
