/**
 * Helical springs of round wire: rate, force, stress, solid length, buckling; and a spring that acts on a lever.
 *
 * [1] EN 13906-1:2013 Cylindrical helical springs made from round wire and bar, compression springs
 * [2] EN 13906-2:2013 …, extension springs
 * [3] EN 10270-1:2011 Steel wire for mechanical springs, patented cold drawn unalloyed; EN 10270-3:2011 stainless
 */
import { DomainError, requireAboveZero } from './domain-error.ts';

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
  requireAboveZero('SW-D001', 'wire diameter', d);
  requireAboveZero('SW-D001', 'mean coil diameter', D);
  requireAboveZero('SW-D001', 'number of active turns', n);
  requireAboveZero('SW-D001', 'shear modulus', G);
  if (D <= d) throw new DomainError('SW-D002', `a coil of mean diameter ${D} m cannot be wound from wire of ${d} m`);
  return (G * d ** 4) / (8 * D ** 3 * n);
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

export type SpringWire = 'EN 10270-1 SL' | 'EN 10270-1 SM' | 'EN 10270-1 SH' | 'EN 10270-3 1.4310';

/** Shear modulus at 20 °C, Pa [1] table 2: 81.5 GPa for EN 10270-1, 73 GPa for 1.4310 after tempering. */
export function shearModulus(wire: SpringWire): number {
  return wire === 'EN 10270-3 1.4310' ? 73e9 : 81.5e9;
}

/** Lines through the tables of EN 10270-1, MPa and mm, within 1 % of the printed rows from 0.3 to 10 mm. */
const strengthLine = {
  'EN 10270-1 SL': [1720, 660],
  'EN 10270-1 SM': [1980, 740],
  'EN 10270-1 SH': [2220, 820],
} as const;

/** EN 10270-3 1.4310 normal strength: [largest diameter of the band, mm; least tensile strength, MPa]. */
const stainlessBands: readonly (readonly [number, number])[] = [
  [0.2, 2200],
  [0.3, 2150],
  [0.4, 2100],
  [0.5, 2050],
  [0.65, 2000],
  [0.8, 1950],
  [1, 1900],
  [1.25, 1850],
  [1.5, 1800],
  [1.75, 1750],
  [2, 1700],
  [2.5, 1650],
  [3, 1600],
  [3.5, 1550],
  [4.25, 1500],
  [5, 1450],
  [6, 1400],
];

/**
 * Least tensile strength of spring wire, Pa.
 *
 * Valid 0.3 to 10 mm (EN 10270-1) or up to 6 mm (1.4310); NaN outside, so that a check says "not known".
 */
export function wireStrength(wire: SpringWire, wireDiameter: number): number {
  const mm = wireDiameter * 1000;
  if (wire === 'EN 10270-3 1.4310') return 1e6 * (stainlessBands.find(([largest]) => mm <= largest)?.[1] ?? NaN);
  if (!(mm >= 0.3 && mm <= 10)) return NaN;
  const [atOne, slope] = strengthLine[wire];
  return 1e6 * (atOne - slope * Math.log10(mm));
}

/** Permissible static shear stress over tensile strength: 0.56 at the solid length of a compression spring [1], 0.45 extension [2]. */
export function permissibleShare(kind: 'compression' | 'extension'): number {
  return kind === 'compression' ? 0.56 : 0.45;
}

/** Most solid length, m [1]: n_t d for closed and ground ends, (n_t + 1.5) d for closed ends, n_t = n + 2. */
export function solidLength(activeTurns: number, wireDiameter: number, ends: 'closed and ground' | 'closed'): number {
  const total = activeTurns + 2;
  return (ends === 'closed and ground' ? total : total + 1.5) * wireDiameter;
}

/** Least sum of gaps between active coils at the shortest working length, m [1]: n (0.0015 D²/d + 0.1 d), static duty. */
export function leastCoilGaps(spring: HelicalSpring): number {
  const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n } = spring;
  return n * ((0.0015 * D * D) / d + 0.1 * d);
}

/**
 * Deflection at which a compression spring buckles, m; Infinity where it cannot [1].
 *
 * @param seating 0.5 both ends guided parallel, 0.7, 1 both pivoted, 2 one end free
 */
export function bucklingDeflection(
  freeLength: number,
  meanCoilDiameter: number,
  modulusRatio_G_over_E: number,
  seating: number,
): number {
  const q = modulusRatio_G_over_E;
  const slender = (Math.PI * meanCoilDiameter) / (seating * freeLength);
  const radicand = 1 - ((1 - q) / (0.5 + q)) * slender * slender;
  return radicand < 0 ? Infinity : ((freeLength * 0.5) / (1 - q)) * (1 - Math.sqrt(radicand));
}

/** A spring as it behaves: force over length. */
export interface WorkingSpring {
  readonly kind: 'extension' | 'compression';
  /** N/m. */
  readonly rate: number;
  readonly freeLength: number;
  /** Extension: force at which the coils part, N. */
  readonly initialTension: number;
}

/** Force at a length, N, never below zero: an extension spring draws its ends together, a compression spring pushes them apart. */
export function springForce(spring: WorkingSpring, length: number): number {
  const { kind, rate, freeLength, initialTension } = spring;
  const deflection = kind === 'extension' ? length - freeLength : freeLength - length;
  if (!(deflection > 0)) return Number.isNaN(deflection) ? NaN : 0;
  return initialTension + rate * deflection;
}

/** Where a spring is hooked between a fixed anchor and the lever. */
export interface LeverSpring {
  readonly spring: WorkingSpring;
  readonly anchorX: number;
  readonly anchorY: number;
  /** Shaft centre to the point on the lever, m. */
  readonly radius: number;
  /** Direction of that point minus shaft angle, rad. */
  readonly angle: number;
}

/** Length of a lever spring at a shaft angle, m. */
export function leverSpringLength(lever: LeverSpring, shaftAngle: number): number {
  const x = lever.radius * Math.cos(shaftAngle + lever.angle);
  const y = lever.radius * Math.sin(shaftAngle + lever.angle);
  return Math.hypot(x - lever.anchorX, y - lever.anchorY);
}

/** Counter-clockwise moment of a lever spring about the shaft, N m, by the true geometry of its ends. */
export function leverSpringMoment(lever: LeverSpring, shaftAngle: number): number {
  const x = lever.radius * Math.cos(shaftAngle + lever.angle);
  const y = lever.radius * Math.sin(shaftAngle + lever.angle);
  const toAnchorX = lever.anchorX - x;
  const toAnchorY = lever.anchorY - y;
  const length = Math.sqrt(toAnchorX * toAnchorX + toAnchorY * toAnchorY);
  if (length === 0) return 0;
  const draw = springForce(lever.spring, length) * (lever.spring.kind === 'extension' ? 1 : -1);
  return (draw * (x * toAnchorY - y * toAnchorX)) / length;
}
