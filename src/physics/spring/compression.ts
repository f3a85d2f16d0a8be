/**
 * Compression springs: solid length, room between coils, growth of the coil, buckling, and what of it all is used.
 *
 * [1] EN 13906-1:2013 Cylindrical helical springs made from round wire and bar, compression springs
 */
import { correctedShearStress, permissibleShare, shearStress, springRate, type HelicalSpring } from './helical.ts';
import { elasticModulus, shearModulus, wireStrength, type SpringWire } from './wire.ts';

export type CompressionEnds = 'closed and ground' | 'closed';
export type Duty = 'static' | 'moving';

/** Total turns of cold coiled springs [1]: one closed turn at each end, n_t = n + 2. */
export function totalTurns(activeTurns: number): number {
  return activeTurns + 2;
}

/** Most solid length, m [1]: n_t d for closed and ground ends, (n_t + 1.5) d for closed ends, n_t = n + 2. */
export function solidLength(activeTurns: number, wireDiameter: number, ends: CompressionEnds): number {
  const total = totalTurns(activeTurns);
  return (ends === 'closed and ground' ? total : total + 1.5) * wireDiameter;
}

/**
 * Least sum of gaps between active coils at the shortest working length, m [1]: n (0.0015 D²/d + 0.1 d), and half as much
 * again where the spring moves often.
 */
export function leastCoilGaps(spring: HelicalSpring, duty: Duty = 'static'): number {
  const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n } = spring;
  return (duty === 'moving' ? 1.5 : 1) * n * ((0.0015 * D * D) / d + 0.1 * d);
}

/** Shortest length to work at, m [1]: Ln = Lc + Sa. What is left of the free length above it is the usable travel. */
export function shortestWorkingLength(spring: HelicalSpring, ends: CompressionEnds, duty: Duty = 'static'): number {
  return solidLength(spring.activeTurns, spring.wireDiameter, ends) + leastCoilGaps(spring, duty);
}

/**
 * How much the outside diameter grows when a spring is pressed solid, m.
 *
 *     ΔDe = 0.1 (S² - 0.8 S d - 0.2 d²) / D      [1], from memory; S pitch of the active coils, never below zero
 */
export function growthWhenSolid(spring: HelicalSpring, freeLength: number, ends: CompressionEnds): number {
  const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n } = spring;
  const pitch = d + (freeLength - solidLength(n, d, ends)) / n;
  return Math.max(0, (0.1 * (pitch * pitch - 0.8 * pitch * d - 0.2 * d * d)) / D);
}

/** Seating of the ends [1] figure 7, from memory: the share of the length that counts as a strut. */
export const seatingCoefficient = {
  'both ends held parallel': 0.5,
  'one end held, one pivoted': 0.7,
  'both ends pivoted': 1,
  'one end held, one free': 2,
} as const;
export type Seating = keyof typeof seatingCoefficient;

/**
 * Deflection at which a compression spring buckles, m; Infinity where it cannot [1].
 *
 * @param seating 0.5 both ends held parallel, 0.7, 1 both pivoted, 2 one end free
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

export interface CompressionSpring {
  readonly kind: 'compression';
  readonly wire: SpringWire;
  readonly wireDiameter: number;
  readonly meanCoilDiameter: number;
  readonly activeTurns: number;
  readonly freeLength: number;
  readonly ends: CompressionEnds;
}

/** Wire twist at 20 °C is what gives; the modulus comes from the wire. */
export function helicalOfWire(spring: {
  readonly wire: SpringWire;
  readonly wireDiameter: number;
  readonly meanCoilDiameter: number;
  readonly activeTurns: number;
}): HelicalSpring {
  const { wire, wireDiameter, meanCoilDiameter, activeTurns } = spring;
  return { wireDiameter, meanCoilDiameter, activeTurns, shearModulus: shearModulus(wire) };
}

export interface CompressionUse {
  readonly force: number;
  /** Pa, without and with correction for curvature. */
  readonly stress: number;
  readonly correctedStress: number;
  /** Stress over what is allowed at this length, and with the coils on each other; NaN where the strength is not known. */
  readonly stressUsed: number;
  readonly solidStressUsed: number;
  /** Deflection over the usable travel. */
  readonly travelUsed: number;
  /** Deflection over that at which it buckles; 0 where it cannot. */
  readonly bucklingUsed: number;
}

/**
 * What a compression spring has used at a length. Static duty: stress without correction against 0.56 of the tensile
 * strength [1]. At or above its free length nothing is used.
 */
export function compressionUse(
  spring: CompressionSpring,
  length: number,
  seating: number,
  duty: Duty = 'static',
): CompressionUse {
  const helical = helicalOfWire(spring);
  const { wire, wireDiameter, meanCoilDiameter, freeLength, ends } = spring;
  const deflection = Math.max(0, freeLength - length);
  const rate = springRate(helical);
  const allowed = permissibleShare('compression') * wireStrength(wire, wireDiameter);
  const solid = rate * Math.max(0, freeLength - solidLength(helical.activeTurns, wireDiameter, ends));
  const travel = freeLength - shortestWorkingLength(helical, ends, duty);
  const modulusRatio = shearModulus(wire) / elasticModulus(wire);
  return {
    force: rate * deflection,
    stress: shearStress(helical, rate * deflection),
    correctedStress: correctedShearStress(helical, rate * deflection),
    stressUsed: shearStress(helical, rate * deflection) / allowed,
    solidStressUsed: shearStress(helical, solid) / allowed,
    travelUsed: deflection === 0 ? 0 : travel > 0 ? deflection / travel : Infinity,
    bucklingUsed: deflection / bucklingDeflection(freeLength, meanCoilDiameter, modulusRatio, seating),
  };
}
