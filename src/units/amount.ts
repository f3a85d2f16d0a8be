import { quoted } from './characters.ts';
import { inSI } from './convert.ts';
import type { Dimension } from './dimension.ts';
import { areaOfGauge, readGauge } from './gauge.ts';
import { readNumber } from './number.ts';
import { gaugeHasNoPlusMinus, noNumber, noUnit, whatWouldBeRight, wrongUnit } from './refusal.ts';
import { unitSpelled, unitWithSymbol, type Unit } from './unit-table.ts';

/** A number with its unit, before any ±. */
export interface Amount {
  /** Base SI. */
  readonly value: number;
  readonly unit: Unit;
  /** Whether the unit stood beside the number, and was not lent by what follows ±. */
  readonly ownUnit: boolean;
}

/**
 * Reads a number and its unit, or two or three in descending units (5' 3", 3 lb 4 oz, 35° 30'), or a wire gauge.
 * `lentUnit` serves a number that has none. Returns the problem as a sentence about `text`, the whole that was typed.
 */
export function readAmount(amountText: string, lentUnit: string, dimension: Dimension, text: string): Amount | string {
  const gauge = gaugeWritten(amountText);
  if (gauge !== undefined) return readGaugeAmount(gauge, dimension, text);
  const number = readNumber(amountText);
  if (!number.ok) return number.problem === '' ? noNumber(text, dimension) : `${quoted(text)}: ${number.problem}`;
  const ownUnit = number.rest !== '';
  const unitText = ownUnit ? number.rest : lentUnit;
  const unit = unitSpelled(unitText, dimension);
  if (unit?.symbol === 'AWG') return gaugeHasNoPlusMinus(text); // only lent: "(18 ± 1) AWG"
  if (unit) return checked({ value: inSI(number.value, unit), unit, ownUnit }, number.value, dimension, text);
  const compound = readCompound(number.written, number.rest, dimension);
  if (compound) {
    const value = number.isNegative ? -compound.value : compound.value;
    return checked({ value, unit: compound.unit, ownUnit }, value, dimension, text);
  }
  return unitText === '' ? noUnit(text, dimension) : wrongUnit(unitText, dimension, text);
}

function checked(amount: Amount, asWritten: number, dimension: Dimension, text: string): Amount | string {
  if (!Number.isFinite(amount.value)) return `${quoted(text)} is too large to be a reading`;
  if (dimension === 'temperature' && amount.value < 0)
    return `${quoted(text)} is below absolute zero (-273.15 °C): write ${whatWouldBeRight(dimension)}`;
  if (dimension !== 'temperature' && amount.value === 0 && asWritten !== 0)
    return `${quoted(text)} is too small to be a reading`;
  return amount;
}

/** The gauge in "18 AWG", "#18 AWG" or "AWG 18". */
export function gaugeWritten(amountText: string): string | undefined {
  const word = 'awg';
  const lower = amountText.toLowerCase();
  if (lower.startsWith(word)) return amountText.slice(word.length).replace(/^ ?#?/, '').trim();
  if (lower.endsWith(word)) return amountText.slice(0, -word.length).replace(/^#/, '').trim();
  return undefined;
}

function readGaugeAmount(gaugeText: string, dimension: Dimension, text: string): Amount | string {
  const unit = unitWithSymbol('AWG', dimension);
  if (!unit) return wrongUnit('AWG', dimension, text);
  const gauge = readGauge(gaugeText);
  if (gauge !== null) return { value: areaOfGauge(gauge), unit, ownUnit: true };
  return `${quoted(text)} is no wire gauge: write 4/0 AWG to 1/0 AWG, or a whole number up to 56 such as 18 AWG`;
}

/** The smaller unit that may follow a larger one, how many make it up, and the unit in which the sum is echoed. */
const compounds = new Map([
  ['ft', { next: 'in', makeUp: 12, echoed: 'in' }],
  ['lbf', { next: 'ozf', makeUp: 16, echoed: 'lbf' }],
  ['lb', { next: 'oz', makeUp: 16, echoed: 'lb' }],
  ['°', { next: '′', makeUp: 60, echoed: '°' }],
  ['′', { next: '″', makeUp: 60, echoed: '°' }],
]);

/** Magnitude of whole `written` in the unit that begins `rest`, plus the smaller number and unit that follow. */
function readCompound(
  written: string,
  rest: string,
  dimension: Dimension,
): { readonly value: number; readonly unit: Unit } | null {
  const secondAt = rest.search(/\d/);
  if (secondAt < 1 || !/^\d+$/.test(written)) return null;
  const unit = unitSpelled(rest.slice(0, secondAt).replace(/[ -]$/, ''), dimension);
  const compound = unit && compounds.get(unit.symbol);
  const second = readNumber(rest.slice(secondAt));
  if (!compound || !second.ok || second.value >= compound.makeUp) return null;
  const nextUnit = unitSpelled(second.rest, dimension);
  if (nextUnit && nextUnit.symbol !== compound.next) return null;
  const smaller = nextUnit
    ? { value: inSI(second.value, nextUnit), unit: nextUnit }
    : readCompound(second.written, second.rest, dimension);
  const echoed = unitWithSymbol(compound.echoed, dimension);
  return smaller && echoed ? { value: inSI(Number(written), unit) + smaller.value, unit: echoed } : null;
}
