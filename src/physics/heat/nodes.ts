/**
 * The two balances of heat, winding and can, and one step of their integration.
 *
 *     Cw dTw/dt = P(Tw) - G (Tw - Tc)
 *     Cc dTc/dt = G (Tw - Tc) - Q(Tc) - Gb (Tc - Tb(t))
 *
 * Q is convection and radiation. A winding that sits tight in its can answers in seconds, the can in half an hour: the step
 * is implicit, so that its length follows what happens and not the quicker of the two.
 *
 * [1] A. Sandu, J. G. Verwer, J. G. Blom, E. J. Spee, G. R. Carmichael, F. A. Potra, Benchmarking stiff ODE solvers for
 *     atmospheric chemistry problems II: Rosenbrock solvers, Atmos. Environ. 31 (1997) 3459 (method RODAS3: four stages, order
 *     three with one of order two inside, L-stable)
 */
import { canArea, convectedHeat, radiatedHeat } from '../convection.ts';
import type { CoilBody } from './coil-body.ts';
import { coilHeat, coilHeatSlope, type CoilPower } from './coil-power.ts';

/** What stands around the can; temperatures in K. */
export interface Surroundings {
  readonly air: number;
  /** Walls that the can radiates to; the air's temperature if not given. A hot engine close by belongs here. */
  readonly walls?: number;
  /** Where the bracket is bolted. Plays no part if the can has no conductance to it. */
  readonly bracket: number;
}

/** K. */
export interface Temperatures {
  readonly winding: number;
  readonly can: number;
}

/** Everything that the balances need while nothing is switched. The bracket warms by `bracketSlope` K/s. */
export interface Scene {
  readonly body: CoilBody;
  readonly power: CoilPower;
  readonly surroundings: Surroundings;
  readonly bracketSlope: number;
}

/** Convection and radiation of the can, W. */
export function heatToAirAndWalls(body: CoilBody, { air, walls = air }: Surroundings, can: number): number {
  return convectedHeat(body.can, can, air) + radiatedHeat(canArea(body.can), body.emissivity, can, walls);
}

/** All that leaves the can, W. */
export function heatLost(body: CoilBody, surroundings: Surroundings, can: number): number {
  return heatToAirAndWalls(body, surroundings, can) + body.canToBracket * (can - surroundings.bracket);
}

/** Where the integration stands: time since the scene began, temperatures, their slopes, heat to air and walls. */
export interface State extends Temperatures {
  readonly time: number;
  readonly windingSlope: number;
  readonly canSlope: number;
  readonly lost: number;
}

export function stateAt(scene: Scene, time: number, winding: number, can: number): State {
  const { body, power, surroundings, bracketSlope } = scene;
  const { windingHeatCapacity: Cw, canHeatCapacity: Cc, windingToCan: G, canToBracket: Gb } = body;
  const lost = heatToAirAndWalls(body, surroundings, can);
  const across = G * (winding - can);
  return {
    time,
    winding,
    can,
    windingSlope: (coilHeat(power, winding) - across) / Cw,
    canSlope: (across - lost - Gb * (can - surroundings.bracket - bracketSlope * time)) / Cc,
    lost,
  };
}

/** One step of length `h` s [1], and the larger of the two errors that it is estimated to have made, K. */
export function step(scene: Scene, from: State, h: number): { readonly to: State; readonly error: number } {
  const { body, power, surroundings, bracketSlope } = scene;
  const { windingHeatCapacity: Cw, canHeatCapacity: Cc, windingToCan: G, canToBracket: Gb } = body;
  const { time, winding: w, can: c, windingSlope: fw, canSlope: fc } = from;
  const nudge = 0.01;
  const lostSlope = (heatToAirAndWalls(body, surroundings, c + nudge) - from.lost) / nudge;

  // (1/(γ h) - J) with γ = 1/2, inverted by Cramer's rule.
  const a = 2 / h - (coilHeatSlope(power, w) - G) / Cw;
  const b = -G / Cw;
  const d = -G / Cc;
  const e = 2 / h + (G + lostSlope + Gb) / Cc;
  const determinant = a * e - b * d;
  const forWinding = (rw: number, rc: number): number => (rw * e - b * rc) / determinant;
  const forCan = (rw: number, rc: number): number => (a * rc - d * rw) / determinant;
  const warming = (h * Gb * bracketSlope) / Cc;

  // Letters and numbers of the paper: k1 to k4 by c21 = 4, c31 = 1, c32 = -1, c41 = 1, c42 = -1, c43 = -8/3; γ1 = 1/2, γ2 = 3/2.
  const k1w = forWinding(fw, fc + warming / 2);
  const k1c = forCan(fw, fc + warming / 2);
  const r2w = fw + (4 * k1w) / h;
  const r2c = fc + (4 * k1c) / h + 1.5 * warming;
  const k2w = forWinding(r2w, r2c);
  const k2c = forCan(r2w, r2c);
  const third = stateAt(scene, time + h, w + 2 * k1w, c + 2 * k1c);
  const r3w = third.windingSlope + (k1w - k2w) / h;
  const r3c = third.canSlope + (k1c - k2c) / h;
  const k3w = forWinding(r3w, r3c);
  const k3c = forCan(r3w, r3c);
  const fourth = stateAt(scene, time + h, third.winding + k3w, third.can + k3c);
  const r4w = fourth.windingSlope + (k1w - k2w - (8 / 3) * k3w) / h;
  const r4c = fourth.canSlope + (k1c - k2c - (8 / 3) * k3c) / h;
  const k4w = forWinding(r4w, r4c);
  const k4c = forCan(r4w, r4c);
  return {
    to: stateAt(scene, time + h, fourth.winding + k4w, fourth.can + k4c),
    error: Math.max(Math.abs(k4w), Math.abs(k4c)),
  };
}

/** A temperature between two states by the cubic that has their values and slopes; `x` from 0 to 1. */
export function between(from: State, to: State, node: keyof Temperatures, x: number): number {
  const h = to.time - from.time;
  const [m, n] =
    node === 'winding' ? [from.windingSlope * h, to.windingSlope * h] : [from.canSlope * h, to.canSlope * h];
  const [p, q] = [from[node], to[node]];
  return p + x * (m + x * (3 * (q - p) - 2 * m - n + x * (m + n - 2 * (q - p))));
}
