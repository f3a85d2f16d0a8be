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

/** Rolled structural steel, as for machined yokes and poles. */
export const structuralSteel: SteelTable = {
  name: 'structural steel',
  source:
    'TEAM workshop problem 20, 3-D static force (T. Nakata, N. Takahashi, H. Morishige), table 1, as read in one public finite-element input; the problem sheet itself was not opened',
  fluxDensity: [
    0, 0.01, 0.025, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.3, 1.35, 1.4, 1.45, 1.5,
    1.55, 1.6, 1.65, 1.7, 1.75, 1.8, 1.85, 1.9, 1.95, 2, 2.05, 2.1, 2.15, 2.2, 2.25, 2.3,
  ],
  fieldStrength: [
    0, 27, 58, 100, 153, 185, 205, 233, 255, 285, 320, 355, 405, 470, 555, 673, 836, 1065, 1220, 1420, 1720, 2130, 2670,
    3480, 4500, 5950, 7650, 10_100, 13_000, 15_900, 21_100, 26_300, 32_900, 42_700, 61_700, 84_300, 110_000, 135_000,
  ],
};

// The sheet's first reading above zero is 4000 A/m. Below it the same public input continues with a curve of Fröhlich's
// form, H/B a straight line in H, which these two numbers reproduce to the printed digit. The sheet's last three readings
// (2.361 T and above) rise less than air would and are left out.
const frohlich = (h: number): number => h / (704.6 + 0.53155 * h);
const LOW_H = [250, 571.43, 1142.86, 1714.29, 2285.71, 2857.14, 3428.57];

/** Solid bar of medium carbon content: the least permeable of the three. */
export const mediumCarbonBar: SteelTable = {
  name: 'medium-carbon steel bar',
  source:
    "TEAM workshop problem 24, nonlinear time-transient rotational test rig, table 1, as read in one public finite-element input; below 4000 A/m continued by Fröhlich's curve; the problem sheet itself was not opened",
  fluxDensity: [
    0,
    ...LOW_H.map(frohlich),
    1.413,
    1.594,
    1.751,
    1.839,
    1.896,
    1.936,
    1.967,
    2.008,
    2.042,
    2.073,
    2.101,
    2.127,
    2.151,
    2.197,
    2.24,
    2.281,
    2.321,
  ],
  fieldStrength: [
    0,
    ...LOW_H,
    4000,
    8010,
    16_010,
    24_020,
    32_030,
    40_030,
    48_040,
    64_050,
    80_070,
    96_080,
    112_100,
    128_110,
    144_120,
    176_150,
    208_180,
    240_200,
    272_230,
  ],
};

/** Every table built in. */
export const steelTables: readonly SteelTable[] = [lowCarbonPlate, structuralSteel, mediumCarbonBar];
