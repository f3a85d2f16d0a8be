import type { Dimension } from './dimension.ts';
import { areaOfGauge, gaugeOfArea } from './gauge.ts';
import { unitWithSymbol, type Unit } from './unit-table.ts';

/**
 * `value` in the unit with this symbol, to base SI.
 *
 * Without a dimension, "°C" and "°F" are points on the scale; for a difference name 'temperatureDifference'.
 *
 * @throws RangeError the symbol is not one of `unitsOf`: a mistake of the caller, never of the person who typed
 */
export function toSI(value: number, unit: string, dimension?: Dimension): number {
  return inSI(value, mustKnow(unit, dimension));
}

/** A base SI value in the unit with this symbol; gauges come unrounded. See `toSI`. */
export function fromSI(value: number, unit: string, dimension?: Dimension): number {
  return inUnit(value, mustKnow(unit, dimension));
}

/** `fromSI` for one unit and many values: the unit is looked up once. */
export function converterFromSI(unit: string, dimension?: Dimension): (value: number) => number {
  const known = mustKnow(unit, dimension);
  return (value) => inUnit(value, known);
}

export function inSI(value: number, { symbol, multiply, divide, offset }: Unit): number {
  if (symbol === 'AWG') return areaOfGauge(value);
  return ((value + offset) * multiply) / divide;
}

export function inUnit(value: number, { symbol, multiply, divide, offset }: Unit): number {
  if (symbol === 'AWG') return gaugeOfArea(value);
  return (value * divide) / multiply - offset;
}

function mustKnow(symbol: string, dimension?: Dimension): Unit {
  const unit = unitWithSymbol(symbol, dimension);
  if (!unit) throw new RangeError(`"${symbol}" is not the symbol of a unit${dimension ? ` of ${dimension}` : ''}`);
  return unit;
}
