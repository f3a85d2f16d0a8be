/**
 * What calipers and an ohmmeter leave open about a solenoid, each with what is believed before any pull was read.
 *
 * Every unknown is held as a standard score z: 0 is the best guess, ±1 one standard deviation. Those that cannot be
 * negative are lognormal: value = guess × exp(spread × z).
 */
import { MAGNETIC_CONSTANT, type MagnetisationTable } from '../magnetics/magnetisation-curve.ts';

/** In the order in which the scores stand. */
export const TRIM_UNKNOWNS = [
  'turns',
  'residual gap',
  'radial clearance',
  'saturation',
  'field strength',
  'seat face height',
] as const;
export type TrimUnknown = (typeof TRIM_UNKNOWNS)[number];

export interface TrimPriors {
  /** Standard deviation of ln(turns): what the turns reckoned from ohms may be wrong by. */
  readonly turns: number;
  /**
   * Magnetic distance between the faces at a read gap of 0: shim, plating, roughness, and the zero of whatever the gap
   * was read with. Most likely value (m) and standard deviation of its logarithm.
   */
  readonly residualGap: { readonly median: number; readonly spread: number };
  /** Standard deviation of ln(radial clearance): the reading's, and a plunger that does not stand in the middle. */
  readonly radialClearance: number;
  /** Standard deviation of ln s: polarisation of this steel over that of its table at the same place of the curve. */
  readonly saturation: number;
  /** Standard deviation of ln h: field strength that this steel needs over that of its table (hardness, cold work). */
  readonly fieldStrength: number;
  /** Standard deviation of the height of the seat's face, m. */
  readonly seatFaceHeight: number;
}

/** The unknowns as values: factors on what the dimensions say, or metres. */
export interface TrimValues {
  readonly turnsFactor: number;
  readonly residualGap: number;
  readonly clearanceFactor: number;
  readonly saturation: number;
  readonly fieldStrength: number;
  readonly faceOffset: number;
}

export function trimValues(priors: TrimPriors, z: ArrayLike<number>): TrimValues {
  return {
    turnsFactor: Math.exp(priors.turns * z[0]),
    residualGap: priors.residualGap.median * Math.exp(priors.residualGap.spread * z[1]),
    clearanceFactor: Math.exp(priors.radialClearance * z[2]),
    saturation: Math.exp(priors.saturation * z[3]),
    fieldStrength: Math.exp(priors.fieldStrength * z[4]),
    faceOffset: priors.seatFaceHeight * z[5],
  };
}

/**
 * A magnetisation table with its polarisation J = B - μ0 H multiplied by `saturation` and the field strengths that it
 * takes by `fieldStrength`:
 *
 *     H' = h H,      B' = μ0 h H + s J(H)
 *
 * so that far in saturation the slope stays that of air.
 */
export function scaledTable(table: MagnetisationTable, saturation: number, fieldStrength: number): MagnetisationTable {
  return {
    fieldStrength: table.fieldStrength.map((h) => fieldStrength * h),
    fluxDensity: table.fluxDensity.map(
      (b, i) =>
        saturation * (b - MAGNETIC_CONSTANT * table.fieldStrength[i])
        + MAGNETIC_CONSTANT * fieldStrength * table.fieldStrength[i],
    ),
  };
}
