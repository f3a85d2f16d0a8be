import { inUnit } from './convert.ts';
import type { Dimension, Quantity } from './dimension.ts';
import { formatGauge } from './gauge.ts';
import { unitWithSymbol } from './unit-table.ts';

export interface FormatOptions {
  /** Digits kept, trailing zeros dropped; 1 to 17, 4 if neither is given. */
  readonly significantDigits?: number;
  /** Places after the point, trailing zeros kept; 0 to 20. Wins over `significantDigits`. */
  readonly decimals?: number;
}

/**
 * A base SI value in `unit`, for reading: "12.5 mm", "35°", "25 %", "18 AWG". What is not a number is "not known",
 * so that no NaN reaches a person.
 *
 * @throws RangeError the unit is not one of `unitsOf(dimension)`
 */
export function formatQuantity(
  value_SI: number,
  dimension: Dimension,
  unit: string,
  options: FormatOptions = {},
): string {
  const known = unitWithSymbol(unit, dimension);
  if (!known) throw new RangeError(`"${unit}" is not the symbol of a unit of ${dimension}`);
  if (!Number.isFinite(value_SI)) return 'not known';
  if (unit === 'AWG') return formatGauge(value_SI);
  const value = inUnit(value_SI, known);
  return Number.isFinite(value) ? withUnit(formatNumber(value, options), unit) : 'not known';
}

/** How a text was understood: "12.5 mm ± 0.1 mm", "1.2 kgf" for a force written as 1.2 kg. Reading it again gives the same. */
export function echo(quantity: Quantity, dimension: Dimension): string {
  const { value, plusMinus, unit } = quantity;
  const middle = formatQuantity(value, dimension, unit, { significantDigits: 12 });
  if (plusMinus === null) return middle;
  const halfWidthDimension = dimension === 'temperature' ? 'temperatureDifference' : dimension;
  const halfWidth = formatQuantity(plusMinus, halfWidthDimension, unit, { significantDigits: 12 });
  // "25 % ± 5 %" could be a twentieth of 25 %; a shared unit cannot.
  if (unit === '%' || unit === '‰')
    return `(${middle.replace(` ${unit}`, '')} ± ${halfWidth.replace(` ${unit}`, '')}) ${unit}`;
  return `${middle} ± ${halfWidth}`;
}

function formatNumber(value: number, { significantDigits = 4, decimals }: FormatOptions): string {
  const text =
    decimals === undefined
      ? String(Number(value.toPrecision(Math.min(17, Math.max(1, Math.round(significantDigits))))))
      : value.toFixed(Math.min(20, Math.max(0, Math.round(decimals))));
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}

/** A space before the symbol, except for degrees, minutes and seconds of arc (SI Brochure, 9th edition, 5.4.3). */
function withUnit(number: string, unit: string): string {
  if (unit === '') return number;
  return unit === '°' || unit === '′' || unit === '″' ? `${number}${unit}` : `${number} ${unit}`;
}
