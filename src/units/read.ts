import { plainCharacters, quoted } from './characters.ts';
import { inSI } from './convert.ts';
import { dimensionWords, type Dimension, type Quantity, type QuantityReading } from './dimension.ts';
import { areaOfGauge, readGauge } from './gauge.ts';
import { readNumber } from './number.ts';
import { dimensionSpelled, unitSpelled, unitWithSymbol, type Unit } from './unit-table.ts';

const longestText = 200;

/**
 * Texts already read. An assessment reads the same hundred texts at every touch of a handle; the answer depends on
 * the text and dimension alone and is frozen, so it can be handed out again. Emptied when full, so that it stays
 * small however long a session lasts and costs no bookkeeping per hit.
 */
const alreadyRead = new Map<Dimension, Map<string, QuantityReading>>();
const mostRemembered = 4096;
let remembered = 0;

/**
 * Reads a quantity as a person types it: "42 mm ± 0.5", "3/8 in", "7 lbf ± 5 %", "12,5 mm", "AWG 18".
 * What could mean two things, or is of another dimension, is refused with one sentence saying what would be right.
 * Never throws; time is linear in the text, and texts over 200 characters are refused unread.
 */
export function readQuantity(text: string, dimension: Dimension): QuantityReading {
  const known = alreadyRead.get(dimension)?.get(text);
  if (known) return known;
  if (typeof text !== 'string') return refuse(`this is not text: write ${example(dimension)} between quotes`);
  if (text.length > longestText) return refuse(`${quoted(text)} is ${text.length} characters long: write ${dimensionWords[dimension].name} such as ${example(dimension)}`);
  const reading = Object.freeze(readAfresh(text, dimension));
  if (remembered >= mostRemembered) {
    alreadyRead.clear();
    remembered = 0;
  }
  let ofDimension = alreadyRead.get(dimension);
  if (!ofDimension) alreadyRead.set(dimension, (ofDimension = new Map()));
  ofDimension.set(text, reading);
  remembered += 1;
  return reading;
}

const plusOrMinus = /±|\+ ?\/? ?-/;

function readAfresh(text: string, dimension: Dimension): QuantityReading {
  const plain = plainCharacters(text);
  if (plain === '') return refuse(`nothing is written here: write ${dimensionWords[dimension].name} such as ${example(dimension)}`);
  const { inside, after } = withoutBrackets(plain);
  const sign = plusOrMinus.exec(inside);
  if (!sign) {
    if (after !== null) return refuse(`${quoted(text)} has brackets without ±: write it as ${example(dimension)}`);
    const middle = readAmount(inside, '', dimension, text);
    return typeof middle === 'string' ? refuse(middle) : accept(text, middle, null);
  }
  const middleText = inside.slice(0, sign.index).trim();
  const halfWidthText = inside.slice(sign.index + sign[0].length).trim();
  if (plusOrMinus.test(halfWidthText)) return refuse(`${quoted(text)} has more than one ±: write one, as ${withPlusMinus(dimension)}`);
  if (/^-/.test(halfWidthText)) return refuse(`${quoted(text)} has a negative ±: write the half-width without a sign, as ${withPlusMinus(dimension)}`);
  return readWithHalfWidth(text, middleText, halfWidthText, after, dimension);
}

/** "(42 ± 0.5) mm" as its inside and the unit after it; `after` null without brackets. */
function withoutBrackets(plain: string): { readonly inside: string; readonly after: string | null } {
  const match = /^\(([^()]*)\)([^()]*)$/.exec(plain);
  return match ? { inside: (match[1] ?? '').trim(), after: (match[2] ?? '').trim() } : { inside: plain, after: null };
}

function readWithHalfWidth(text: string, middleText: string, halfWidthText: string, after: string | null, dimension: Dimension): QuantityReading {
  const written = readNumber(halfWidthText);
  if (!written.ok) return refuse(`${quoted(text)}: ${written.problem || `what follows ± is no number: write ${withPlusMinus(dimension)}`}`);
  if (/^awg\b/i.test(middleText) || /awg/i.test(written.rest)) return refuse(gaugeHasNoPlusMinus(text));
  const isPercent = written.rest === '%' && after === null;
  if (isPercent && dimension === 'ratio') {
    return refuse(`${quoted(text)} could be so many points of % or so much of the value: write (25 ± 2) % or 0.25 ± 0.02`);
  }
  const unitBehind = after !== null && after !== '' ? after : isPercent ? '' : written.rest;
  if (after !== null && after !== '' && written.rest !== '') return refuse(`${quoted(text)} has a unit inside and outside the brackets: write (42 ± 0.5) mm`);

  const middle = readAmount(middleText, unitBehind, dimension, text);
  if (typeof middle === 'string') return refuse(middle);
  if (middle.unit.symbol === 'AWG') return refuse(gaugeHasNoPlusMinus(text));
  if (after !== null && after !== '' && middle.ownUnit) return refuse(`${quoted(text)} has a unit inside and outside the brackets: write (42 ± 0.5) mm`);
  if (isPercent) {
    if (dimension === 'temperature') return refuse(`${quoted(text)}: a percentage of a temperature depends on the scale: write 85 °C ± 4 °C`);
    return accept(text, middle, (Math.abs(middle.value) * written.value) / 100);
  }
  const halfWidthDimension = dimension === 'temperature' ? 'temperatureDifference' : dimension;
  const halfWidthUnit = unitBehind === '' ? unitWithSymbol(middle.unit.symbol, halfWidthDimension) : unitSpelled(unitBehind, halfWidthDimension);
  if (!halfWidthUnit) return refuse(wrongUnit(unitBehind, halfWidthDimension, text));
  const halfWidth = inSI(written.value, halfWidthUnit);
  if (!Number.isFinite(halfWidth)) return refuse(`${quoted(text)}: the ± is too large to be a reading`);
  return accept(text, middle, halfWidth);
}

interface Amount {
  readonly value: number;
  readonly unit: Unit;
  /** Whether the unit stood beside the number, and was not lent by the ±. */
  readonly ownUnit: boolean;
}

/** A number and its unit, or two such in descending units (5' 3", 3 lb 4 oz, 35° 30'); or the problem. */
function readAmount(amountText: string, lentUnit: string, dimension: Dimension, text: string): Amount | string {
  const gaugeText = /^awg ?#?(.*)$/i.exec(amountText)?.[1] ?? /^#?(.*?) ?(?:awg)$/i.exec(amountText)?.[1];
  if (gaugeText !== undefined) return readGaugeAmount(gaugeText.trim(), dimension, text);
  const number = readNumber(amountText);
  if (!number.ok) return `${quoted(text)}${number.problem ? `: ${number.problem}` : ` has no number to begin with: write ${dimensionWords[dimension].name} such as ${example(dimension)}`}`;
  const ownUnit = number.rest !== '';
  const unitText = ownUnit ? number.rest : lentUnit;
  const unit = unitSpelled(unitText, dimension);
  if (!unit) {
    const compound = readCompound(number.value, number.written, number.rest, dimension);
    if (compound) return finishAmount({ ...compound, ownUnit }, dimension, text);
    return unitText === '' ? `${quoted(text)} has no unit: write ${dimensionWords[dimension].name} such as ${example(dimension)}` : wrongUnit(unitText, dimension, text);
  }
  if (unit.symbol === 'AWG') return gaugeHasNoPlusMinus(text);
  const value = inSI(number.value, unit);
  if (value === 0 && number.value !== 0) return `${quoted(text)} is too small to be a reading`;
  return finishAmount({ value, unit, ownUnit }, dimension, text);
}

function finishAmount(amount: Amount, dimension: Dimension, text: string): Amount | string {
  if (!Number.isFinite(amount.value)) return `${quoted(text)} is too large to be a reading`;
  if (dimension === 'temperature' && amount.value < 0) return `${quoted(text)} is below absolute zero (−273.15 °C): write a temperature such as ${example(dimension)}`;
  return amount;
}

function readGaugeAmount(gaugeText: string, dimension: Dimension, text: string): Amount | string {
  const unit = unitWithSymbol('AWG', dimension);
  if (!unit) return wrongUnit('AWG', dimension, text);
  const gauge = readGauge(gaugeText);
  if (gauge === null) return `${quoted(text)} is no wire gauge: write 4/0 AWG to 1/0 AWG, or a whole number up to 56 such as 18 AWG`;
  return { value: areaOfGauge(gauge), unit, ownUnit: true };
}

/** The smaller unit that may follow a larger one, how many make it up, and the unit in which the sum is echoed. */
const compounds: Readonly<Record<string, { readonly next: string; readonly makeUp: number; readonly echoed: string }>> = {
  ft: { next: 'in', makeUp: 12, echoed: 'in' },
  lbf: { next: 'ozf', makeUp: 16, echoed: 'lbf' },
  lb: { next: 'oz', makeUp: 16, echoed: 'lb' },
  '°': { next: '′', makeUp: 60, echoed: '°' },
  '′': { next: '″', makeUp: 60, echoed: '°' },
};

function readCompound(first: number, written: string, rest: string, dimension: Dimension): { readonly value: number; readonly unit: Unit } | null {
  const secondAt = rest.search(/\d/);
  if (secondAt < 1 || !/^\d+$/.test(written)) return null;
  const unit = unitSpelled(rest.slice(0, secondAt).replace(/ ?-? ?$/, ''), dimension);
  const compound = unit && compounds[unit.symbol];
  if (!unit || !compound) return null;
  const second = readNumber(rest.slice(secondAt));
  if (!second.ok || second.value >= compound.makeUp) return null;
  const sign = first < 0 || Object.is(first, -0) ? -1 : 1;
  const nextUnit = unitSpelled(second.rest, dimension);
  const smaller = nextUnit ? { value: inSI(second.value, nextUnit), unit: nextUnit } : readCompound(second.value, second.written, second.rest, dimension);
  const echoed = unitWithSymbol(compound.echoed, dimension);
  if (!smaller || !echoed || (nextUnit && nextUnit.symbol !== compound.next)) return null;
  return { value: inSI(first, unit) + sign * smaller.value, unit: echoed };
}

function accept(text: string, { value, unit }: Amount, plusMinus: number | null): QuantityReading {
  const quantity: Quantity = Object.freeze({ text, value, plusMinus, unit: unit.symbol });
  return { ok: true, quantity };
}

function refuse(problem: string): QuantityReading {
  return { ok: false, problem };
}

function wrongUnit(unitText: string, dimension: Dimension, text: string): string {
  const { name } = dimensionWords[dimension];
  if (/^mils?$/i.test(unitText) && dimension === 'length') return `${quoted(text)}: mil is a thousandth of an inch to some and a millimetre to others: write thou or mm`;
  const other = dimensionSpelled(unitText);
  if (other) return `${quoted(text)} is ${dimensionWords[other].name}: write ${name} such as ${example(dimension)}`;
  return `${quoted(text)}: ${quoted(unitText)} is not a unit of ${name.replace(/^an? /, '')}: write ${name} such as ${example(dimension)}`;
}

function gaugeHasNoPlusMinus(text: string): string {
  return `${quoted(text)}: a wire gauge takes no ±: write 18 AWG, or an area such as 0.82 mm² ± 2 %`;
}

function example(dimension: Dimension): string {
  return dimensionWords[dimension].example;
}

function withPlusMinus(dimension: Dimension): string {
  const first = example(dimension).split(/,| or /)[0] ?? '';
  return `${first} ± …`;
}
