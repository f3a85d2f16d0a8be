/**
 * Torsion springs: a coil round a shaft or mandrel, twisted by its legs, whose wire bends.
 *
 * [1] EN 13906-3:2014 Cylindrical helical springs made from round wire and bar, torsion springs
 * [2] J. E. Shigley, C. R. Mischke, R. G. Budynas, Mechanical Engineering Design, 8th to 10th ed., 10-12
 */
import { requireAboveZero } from '../domain-error.ts';
import { requireCoil } from './helical.ts';

export interface TorsionSpring {
  readonly wireDiameter: number;
  readonly meanCoilDiameter: number;
  readonly activeTurns: number;
  /** Pa. */
  readonly elasticModulus: number;
}

/**
 * Rate of a torsion spring, N m/rad.
 *
 *     M/α = E d⁴ / (64 D n)                  [1], α in radians
 *
 * Counts bending of the coils; friction between coils and on the mandrel is left out ([2] allows for it with 10.8 in place
 * of 10.2 in the rate for one turn). Legs that bend count as turns: see `turnsOfLegs`.
 *
 * @throws DomainError SW-D001 a dimension or the modulus is not finite and above zero
 * @throws DomainError SW-D002 the coil is no larger than its own wire
 */
export function torsionRate(spring: TorsionSpring): number {
  const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n, elasticModulus: E } = spring;
  requireAboveZero('SW-D001', 'modulus of elasticity', E);
  requireCoil(d, D, n);
  return (E * d ** 4) / (64 * D * n);
}

/** What two straight legs loaded at their ends bend, as turns of the coil: (l1 + l2) / (3 π D) [2] eq. 10-45. */
export function turnsOfLegs(meanCoilDiameter: number, first: number, second: number): number {
  return (first + second) / (3 * Math.PI * meanCoilDiameter);
}

/** Bending stress without correction, Pa: σ = 32 M / (π d³) [1]. */
export function bendingStress(wireDiameter: number, moment: number): number {
  return (32 * moment) / (Math.PI * wireDiameter ** 3);
}

/** Correction of the bending stress for curvature, w = D/d from 4 to 20: q = (w + 0.07) / (w - 0.75) [1]. */
export function bendingCorrection(springIndex: number): number {
  return (springIndex + 0.07) / (springIndex - 0.75);
}

/** Permissible static bending stress over tensile strength [1]: 0.7, stress without correction, wound the closing way. */
export const permissibleBendingShare = 0.7;

/** Mean diameter of the coil when it is wound up by an angle, m [1]: D n / (n + α/2π); below zero it opens. */
export function woundDiameter(spring: TorsionSpring, angle: number): number {
  const { meanCoilDiameter: D, activeTurns: n } = spring;
  return (D * n) / (n + angle / (2 * Math.PI));
}

/** Largest mandrel that leaves the coil free when wound, m: inside diameter then, less a twentieth (common practice, no source). */
export function largestMandrel(spring: TorsionSpring, angle: number): number {
  return 0.95 * (woundDiameter(spring, angle) - spring.wireDiameter);
}

/** A torsion spring as it behaves on a shaft: it drives one way only, and is free at one shaft angle. */
export interface ShaftSpring {
  /** +1: it drives the shaft counter-clockwise, -1: clockwise. */
  readonly drives: 1 | -1;
  /** N m/rad. */
  readonly rate: number;
  /** Shaft angle at which it is free, rad. Wound further against its drive it has a moment, beyond it none. */
  readonly freeAngle: number;
}

/** How far a shaft spring is wound at a shaft angle, rad; zero where it hangs free. */
export function woundBy({ drives, freeAngle }: ShaftSpring, shaftAngle: number): number {
  const angle = drives * (freeAngle - shaftAngle);
  return angle > 0 || Number.isNaN(angle) ? angle : 0;
}

/** Counter-clockwise moment of a shaft spring, N m. */
export function shaftSpringMoment(spring: ShaftSpring, shaftAngle: number): number {
  return spring.drives * spring.rate * woundBy(spring, shaftAngle);
}
