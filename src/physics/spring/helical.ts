/**
 * What all helical springs of round wire share, whether drawn or pressed: rate, shear stress, mass, natural frequency.
 *
 * [1] EN 13906-1:2013 Cylindrical helical springs made from round wire and bar, compression springs
 */
import { DomainError, requireAboveZero } from '../domain-error.ts';

export interface HelicalSpring {
  readonly wireDiameter: number;
  readonly meanCoilDiameter: number;
  readonly activeTurns: number;
  /** Pa. */
  readonly shearModulus: number;
}

/**
 * Axial rate of a helical spring, N/m.
 *
 *     R = G d⁴ / (8 D³ n)                    [1]
 *
 * Counts wire twist only; direct shear, coil curvature and pitch are left out, together of order (d/D)².
 *
 * @throws DomainError SW-D001 a dimension or the modulus is not finite and above zero
 * @throws DomainError SW-D002 the coil is no larger than its own wire
 */
export function springRate(spring: HelicalSpring): number {
  const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n, shearModulus: G } = spring;
  requireAboveZero('SW-D001', 'shear modulus', G);
  requireCoil(d, D, n);
  return (G * d ** 4) / (8 * D ** 3 * n);
}

/** Throws unless wire, coil and turns are finite and above zero, and the coil larger than its wire. */
export function requireCoil(wireDiameter: number, meanCoilDiameter: number, activeTurns: number): void {
  requireAboveZero('SW-D001', 'wire diameter', wireDiameter);
  requireAboveZero('SW-D001', 'mean coil diameter', meanCoilDiameter);
  requireAboveZero('SW-D001', 'number of active turns', activeTurns);
  if (meanCoilDiameter <= wireDiameter)
    throw new DomainError(
      'SW-D002',
      `a coil of mean diameter ${meanCoilDiameter} m cannot be wound from wire of ${wireDiameter} m`,
    );
}

/**
 * Stress correction factor for curvature, w = D/d from 3 to 20.
 *
 *     k = (w + 0.5) / (w - 0.75)             [1] 9.5, after Bergsträsser
 */
export function stressCorrection(springIndex: number): number {
  return (springIndex + 0.5) / (springIndex - 0.75);
}

/** Shear stress at the inside of the coil, Pa: τk = k 8 D F / (π d³) [1]. */
export function correctedShearStress(spring: HelicalSpring, force: number): number {
  const { wireDiameter: d, meanCoilDiameter: D } = spring;
  return (stressCorrection(D / d) * 8 * D * force) / (Math.PI * d ** 3);
}

/** Shear stress without correction, Pa: τ = 8 D F / (π d³) [1]. */
export function shearStress(spring: HelicalSpring, force: number): number {
  const { wireDiameter: d, meanCoilDiameter: D } = spring;
  return (8 * D * force) / (Math.PI * d ** 3);
}

/**
 * Permissible static shear stress over tensile strength: 0.56 at the solid length of a compression spring [1], 0.45 in the
 * body of an extension spring (EN 13906-2).
 */
export function permissibleShare(kind: 'compression' | 'extension'): number {
  return kind === 'compression' ? 0.56 : 0.45;
}

/** Mass of so many turns, kg: ρ (π d²/4) π D n. Pitch, end coils and hooks are the caller's turns. */
export function coilMass(wireDiameter: number, meanCoilDiameter: number, turns: number, density: number): number {
  return density * ((Math.PI * wireDiameter ** 2) / 4) * Math.PI * meanCoilDiameter * turns;
}

/**
 * Lowest frequency at which the coils surge, Hz.
 *
 *     f = d / (2 π D² n) √(G / (2 ρ))        [1], both ends held; half of it with one end free
 *
 * It is ½ √(R/m) of the active coils. A spring that is worked more often than a tenth of it begins to surge.
 *
 * @param density kg/m³
 * @throws DomainError SW-D001, SW-D002 as for `springRate`, and where the density is not finite and above zero
 */
export function naturalFrequency(spring: HelicalSpring, density: number, ends: 'held' | 'one free' = 'held'): number {
  const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n, shearModulus: G } = spring;
  requireAboveZero('SW-D001', 'shear modulus', G);
  requireAboveZero('SW-D001', 'density', density);
  requireCoil(d, D, n);
  const held = (d / (2 * Math.PI * D * D * n)) * Math.sqrt(G / (2 * density));
  return ends === 'held' ? held : held / 2;
}
