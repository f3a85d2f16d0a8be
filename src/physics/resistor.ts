/**
 * Series resistors: preferred values, heat, and what a power resistor may take at its ambient.
 *
 * [1] IEC 60063:2015 Preferred number series for resistors and capacitors
 */
import { DomainError, requireAboveZero } from './domain-error.ts';

/**
 * One decade of each series as printed [1]. The older figures (2.7, 3.3, 4.7 and others) are not the rounded powers of
 * ten that the rule would give, so the list is the rule.
 */
export const preferredSeries = {
  E6: [1.0, 1.5, 2.2, 3.3, 4.7, 6.8],
  E12: [1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2],
  E24: [
    1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2,
    9.1,
  ],
} as const;

export type PreferredSeries = keyof typeof preferredSeries;

export interface PreferredValues {
  /** The greatest not above, the least not below, and the nearest by ratio; the value itself where it is preferred. */
  readonly below: number;
  readonly nearest: number;
  readonly above: number;
}

/**
 * Preferred resistances around a value, ohm. Nearest is by ratio, as tolerances are: in E6, 1.24 lies nearer to 1.5 than to 1.0.
 *
 * @throws DomainError SW-D064 the resistance is not finite and above zero
 */
export function preferredValues(resistance: number, series: PreferredSeries = 'E24'): PreferredValues {
  requireAboveZero('SW-D064', 'resistance', resistance);
  const decade = Math.floor(Math.log10(resistance));
  // Read back from text: 4.7e-1 is the number 0.47, where 4.7 * 0.1 is not.
  const around = [decade - 1, decade, decade + 1].flatMap((power) =>
    preferredSeries[series].map((mantissa) => Number(`${mantissa}e${power}`)),
  );
  const at = (1 + 1e-9) * resistance;
  const below = around.findLast((value) => value <= at);
  const above = around.find((value) => value >= (1 - 1e-9) * resistance);
  if (below === undefined || above === undefined)
    throw new DomainError('SW-D064', `no preferred value around ${resistance} ohm`);
  return { below, nearest: resistance / below <= above / resistance ? below : above, above };
}

/** Straight derating of a power resistor over the ambient: whole up to `fullUpTo`, nothing left at `nothingAt`, K. */
export interface Derating {
  readonly fullUpTo: number;
  readonly nothingAt: number;
}

/**
 * Starting values for a wire-wound power resistor: 25 °C and 275 °C. Common practice, no source; makers give up to 70 °C
 * and 350 °C, and a metal-clad one has its rating only on the plate that its data sheet asks for.
 */
export const wireWound: Derating = { fullUpTo: 298.15, nothingAt: 548.15 };

/**
 * Lasting power of a resistor at an ambient temperature, W.
 *
 * @throws DomainError SW-D065 a rating not finite and above zero, an ambient that is no number, or a line that does not fall
 */
export function deratedPower(rating: number, ambient: number, { fullUpTo, nothingAt }: Derating = wireWound): number {
  requireAboveZero('SW-D065', 'power rating', rating);
  if (!Number.isFinite(ambient) || !(fullUpTo < nothingAt))
    throw new DomainError('SW-D065', `no derating at ${ambient} K between ${fullUpTo} K and ${nothingAt} K`);
  return rating * Math.min(1, Math.max(0, (nothingAt - ambient) / (nothingAt - fullUpTo)));
}

/**
 * Heat of a resistor against what it may take: power I² R, W, and margin (allowed over heat, less one; -1 where nothing
 * is allowed).
 *
 * @throws DomainError SW-D065, SW-D064
 */
export function resistorHeat(
  resistor: { readonly resistance: number; readonly rating: number; readonly derating?: Derating },
  current: number,
  ambient: number,
): { readonly power: number; readonly allowed: number; readonly margin: number } {
  requireAboveZero('SW-D064', 'resistance', resistor.resistance);
  requireAboveZero('SW-D065', 'current', current);
  const power = current * current * resistor.resistance;
  const allowed = deratedPower(resistor.rating, ambient, resistor.derating);
  return { power, allowed, margin: allowed / power - 1 };
}
