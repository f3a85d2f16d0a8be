/**
 * Bores of cylinders that are sold, with the rod that goes with each, m.
 *
 * [1] ISO 6432:2015, 8 to 25 mm
 * [2] ISO 15552:2018, 32 to 125 mm
 */
export interface BoreAndRod {
  readonly bore: number;
  readonly rod: number;
}

const rows_mm: readonly (readonly [number, number])[] = [
  [8, 4],
  [10, 4],
  [12, 6],
  [16, 6],
  [20, 8],
  [25, 10],
  [32, 12],
  [40, 16],
  [50, 20],
  [63, 20],
  [80, 25],
  [100, 25],
  [125, 32],
];

export const standardBores: readonly BoreAndRod[] = rows_mm.map(([bore, rod]) => ({
  bore: bore / 1000,
  rod: rod / 1000,
}));
