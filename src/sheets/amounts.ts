/** Numbers on a sheet: fixed places for each unit, so that texts keep their width while values run. */
import type { Dimension } from '../units/dimension.ts';
import type { DisplayUnits } from '../units/display.ts';
import { formatQuantity } from '../units/format.ts';

const places: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 2,
  in: 3,
  N: 1,
  kgf: 2,
  lbf: 2,
  '°': 1,
  'N/mm': 2,
};

/** A base SI value for the sheet, "4.2 mm"; three figures where the unit has no fixed number of places. */
export function amount(value_SI: number, dimension: Dimension, units: DisplayUnits): string {
  const unit = units[dimension];
  const decimals = places[unit];
  return formatQuantity(value_SI, dimension, unit, decimals === undefined ? { significantDigits: 3 } : { decimals });
}

/** Two values with one unit, "52.0 to 71.3 N"; one where they print alike. */
export function range(low_SI: number, high_SI: number, dimension: Dimension, units: DisplayUnits): string {
  const low = amount(low_SI, dimension, units);
  const high = amount(high_SI, dimension, units);
  if (low === high) return low;
  const unit = units[dimension];
  return low.endsWith(unit) ? `${low.slice(0, -unit.length).trimEnd()} to ${high}` : `${low} to ${high}`;
}

/** The number, or null where it is missing or not finite. */
export function known(value: number | null | undefined): number | null {
  return value !== null && value !== undefined && Number.isFinite(value) ? value : null;
}
