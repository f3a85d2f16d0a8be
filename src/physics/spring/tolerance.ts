/**
 * What a spring-maker may be off by, for cold coiled compression springs in three grades: 1 fine, 2 medium, 3 coarse.
 *
 * [1] EN 15800:2008 Cylindrical helical springs made of round wire, quality specifications for cold coiled compression
 *     springs (before it DIN 2095); the formulas from memory, the table of diameters seen
 * [2] DIN 2097, the same for extension springs, whose table of diameters is that of [1]
 */
import { springRate, type HelicalSpring } from './helical.ts';

export type Grade = 1 | 2 | 3;

const gradeFactor = { 1: 0.63, 2: 1, 3: 1.6 } as const;

/** [1] table 2: up to this mean diameter, mm; then ± mm of each grade for w up to 8, 14 and 20. */
const diameterRows: readonly (readonly [
  upTo_mm: number,
  fine: readonly [number, number, number],
  medium: readonly [number, number, number],
  coarse: readonly [number, number, number],
])[] = [
  [1, [0.05, 0.07, 0.1], [0.07, 0.1, 0.15], [0.1, 0.15, 0.2]],
  [1.6, [0.05, 0.07, 0.1], [0.08, 0.1, 0.15], [0.15, 0.2, 0.3]],
  [2.5, [0.07, 0.1, 0.15], [0.1, 0.15, 0.2], [0.2, 0.3, 0.4]],
  [4, [0.1, 0.1, 0.15], [0.15, 0.2, 0.25], [0.3, 0.4, 0.5]],
  [6.3, [0.1, 0.15, 0.2], [0.2, 0.25, 0.3], [0.4, 0.5, 0.6]],
  [10, [0.15, 0.15, 0.2], [0.25, 0.3, 0.35], [0.5, 0.6, 0.7]],
  [16, [0.15, 0.2, 0.25], [0.3, 0.35, 0.4], [0.6, 0.7, 0.8]],
  [25, [0.2, 0.25, 0.3], [0.35, 0.45, 0.5], [0.7, 0.9, 1]],
  [31.5, [0.25, 0.3, 0.35], [0.4, 0.5, 0.6], [0.8, 1, 1.2]],
  [40, [0.25, 0.3, 0.35], [0.5, 0.6, 0.7], [1, 1.2, 1.5]],
  [50, [0.3, 0.4, 0.5], [0.6, 0.8, 0.9], [1.2, 1.5, 1.8]],
  [63, [0.4, 0.5, 0.6], [0.8, 1, 1.1], [1.5, 2, 2.3]],
];

/** ± of the coil's diameter, m; NaN outside the table (mean diameter 0.63 to 63 mm, w 4 to 20). */
export function coilDiameterTolerance(meanCoilDiameter: number, springIndex: number, grade: Grade): number {
  const mm = meanCoilDiameter * 1000;
  if (!(mm >= 0.63 && springIndex >= 4 * (1 - 1e-9) && springIndex <= 20)) return NaN;
  const row = diameterRows.find(([upTo]) => mm <= upTo);
  return row === undefined ? NaN : row[grade][springIndex <= 8 ? 0 : springIndex <= 14 ? 1 : 2] / 1000;
}

/** The part of a load's ± that does not grow with the load, N in grade 2: a_F k_F [1]. */
function fixedPart(spring: HelicalSpring): number {
  const d = spring.wireDiameter * 1000;
  const D = spring.meanCoilDiameter * 1000;
  const n = spring.activeTurns;
  const x = D / d / 10;
  const a = ((65.92 * d ** 3.3) / D ** 1.6) * (-0.84 * x ** 3 + 3.781 * x ** 2 - 4.244 * x + 2.274);
  const k = -1 / (3 * n * n) + 8 / (5 * n) + 0.803;
  return a * k;
}

/**
 * ± of the force at a stated length, N.
 *
 *     A_F = ± (a_F k_F + 1.5 F/100) Q,   Q = 0.63, 1, 1.6                                                   [1]
 *     a_F = 65.92 d^3.3/D^1.6 (-0.84 (w/10)³ + 3.781 (w/10)² - 4.244 (w/10) + 2.274),  N, mm
 *     k_F = -1/(3 n²) + 8/(5 n) + 0.803
 *
 * From 0.07 to 16 mm of wire, w 4 to 20, two turns and more. For extension springs the same is taken as common practice, the
 * diagrams of [2] not being at hand.
 */
export function loadTolerance(spring: HelicalSpring, force: number, grade: Grade): number {
  return gradeFactor[grade] * (fixedPart(spring) + 0.015 * Math.abs(force));
}

/** ± of the free length, m, where no load is toleranced: a_F k_F Q / R [1]. Where two loads are, the free length is free. */
export function freeLengthTolerance(spring: HelicalSpring, grade: Grade): number {
  return (gradeFactor[grade] * fixedPart(spring)) / springRate(spring);
}

/**
 * ± of the rate as a share: that of the coil three times and that of the wire four times over, in quadrature.
 *
 * Common practice, no source: [1] holds loads and leaves the rate open. Wire ± 0.015 √d mm, from memory.
 */
export function rateTolerance(spring: HelicalSpring, grade: Grade): number {
  const { wireDiameter: d, meanCoilDiameter: D } = spring;
  const wire = (0.015 * Math.sqrt(d * 1000)) / (d * 1000);
  return Math.hypot((3 * coilDiameterTolerance(D, D / d, grade)) / D, 4 * wire);
}
