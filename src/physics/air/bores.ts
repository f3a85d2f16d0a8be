/**
 * Sizes that are sold: cylinders with their rods and strokes, and pipes, m.
 *
 * [1] ISO 6432:2015, 8 to 25 mm
 * [2] ISO 15552:2018, 32 to 125 mm
 * [3] ISO 4393:2015, basic strokes 25, 40, 50, 80, 100 mm; the others are common practice
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

/** Bores of plastic and copper pipe for air, m. Common practice, no source. */
export const standardPipes: readonly number[] = [2.5, 4, 6, 8, 10].map((bore) => bore / 1000);

/** Strokes that are sold, m: [3]. */
export const standardStrokes: readonly number[] = [10, 15, 20, 25, 30, 40, 50, 80, 100].map((stroke) => stroke / 1000);

export const standardBores: readonly BoreAndRod[] = rows_mm.map(([bore, rod]) => ({
  bore: bore / 1000,
  rod: rod / 1000,
}));
