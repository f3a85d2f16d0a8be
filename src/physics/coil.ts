/**
 * Copper windings: resistance over temperature.
 *
 * [1] IEC 60028:1925 International standard of resistance for copper (temperature coefficient 0.00393 /K at 20 °C, which
 *     makes resistance vanish at -234.5 °C by the straight line)
 */
import { DomainError } from './domain-error.ts';

/** Temperature at which the straight line of copper's resistance meets zero, K [1]. */
const COPPER_ZERO = 273.15 - 234.5;

/** Resistance of a copper winding at temperature `to` from the one read at `from` (K): R (to + 234.5)/(from + 234.5) in °C. */
export function copperResistance(resistance: number, from: number, to: number): number {
  if (from <= COPPER_ZERO)
    throw new DomainError('SW-D030', `copper has no resistance by the straight line at ${from} K`);
  return (resistance * (to - COPPER_ZERO)) / (from - COPPER_ZERO);
}
