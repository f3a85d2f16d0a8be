/**
 * Numbers as a source prints them, and how closely ours must agree: half a unit of the last printed digit, unless the
 * source worked on with figures that it had already rounded, in which case the check says how far that carries.
 */
import assert from 'node:assert/strict';

/**
 * How the number reached us. `seen`: on a public page or in an open companion that re-works the book's example (which, is
 * said beside it). `derived`: worked out from the source's own formula. `memory`: recalled, with no page to show.
 */
export type Provenance = 'seen' | 'seen, derived' | 'memory' | 'memory, derived' | 'derived';

export interface Source {
  readonly source: string;
  readonly provenance: Provenance;
}

/** Half a unit of the last digit of "9.72", "1.38e3" or "324000" (whole numbers: half of one). */
export function halfLastDigit(printed: string): number {
  const [mantissa = '', power = '0'] = printed.toLowerCase().split('e');
  return 0.5 * 10 ** (Number(power) - (mantissa.split('.')[1]?.length ?? 0));
}

/** Fails unless `actual` rounds to what is printed. */
export function agrees(actual: number, printed: string, { source, provenance }: Source, what = ''): void {
  within(actual, Number(printed), halfLastDigit(printed) * (1 + 1e-9), { source, provenance }, what);
}

/** Fails unless `actual` is within `tolerance` of `expected`; the caller says where the tolerance comes from. */
export function within(actual: number, expected: number, tolerance: number, from: Source, what = ''): void {
  assert.ok(
    Math.abs(actual - expected) <= tolerance,
    `${what} ${actual}, expected ${expected} ± ${tolerance}: ${from.source} (${from.provenance})`,
  );
}
