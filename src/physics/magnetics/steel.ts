import { MAGNETIC_CONSTANT, type MagnetisationTable } from './magnetisation-curve.ts';

/** A published magnetisation table with where it comes from. */
export interface SteelTable extends MagnetisationTable {
  readonly name: string;
  readonly source: string;
}

// TEAM problems 10 and 13 continue the table by formula: below 2.22 T B = mu0 H - 2.381e-10 H² + 2.327e-5 H + 1.590,
// above it B = mu0 H + 2.16. The two differ by 0.002 T where they meet, so the formula is used up to 40 kA/m only.
const APPROACH_H = [12_000, 15_000, 20_000, 25_000, 30_000, 35_000, 40_000];
const SATURATED_B = [2.22, 2.3, 2.6, 3];

/** Initial magnetisation curve of a low-carbon steel plate. */
export const lowCarbonPlate: SteelTable = {
  name: 'low-carbon steel plate',
  source:
    'TEAM workshop problems 10 and 13 (T. Nakata, N. Takahashi, K. Fujiwara; summary in COMPEL 14, 1995), initial curve',
  fluxDensity: [
    0,
    0.0025,
    0.005,
    0.0125,
    0.025,
    0.05,
    0.1,
    0.2,
    0.3,
    0.4,
    0.5,
    0.6,
    0.7,
    0.8,
    0.9,
    1,
    1.1,
    1.2,
    1.3,
    1.4,
    1.5,
    1.55,
    1.6,
    1.65,
    1.7,
    1.75,
    1.8,
    ...APPROACH_H.map((h) => MAGNETIC_CONSTANT * h - 2.381e-10 * h * h + 2.327e-5 * h + 1.59),
    ...SATURATED_B,
  ],
  fieldStrength: [
    0,
    16,
    30,
    54,
    93,
    143,
    191,
    210,
    222,
    233,
    247,
    258,
    272,
    289,
    313,
    342,
    377,
    433,
    509,
    648,
    933,
    1228,
    1934,
    2913,
    4993,
    7189,
    9423,
    ...APPROACH_H,
    ...SATURATED_B.map((b) => (b - 2.16) / MAGNETIC_CONSTANT),
  ],
};
