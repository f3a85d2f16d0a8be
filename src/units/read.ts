import { readAmount, gaugeWritten, type Amount } from './amount.ts';
import { plainCharacters, quoted } from './characters.ts';
import { inSI } from './convert.ts';
import type { Dimension, Quantity, QuantityReading } from './dimension.ts';
import { readNumber } from './number.ts';
import {
  exampleWithPlusMinus,
  gaugeHasNoPlusMinus,
  unitTwice,
  whatWouldBeRight,
  wrongUnitOfPlusMinus,
} from './refusal.ts';
import { unitSpelled, unitWithSymbol } from './unit-table.ts';

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
 * Whether a value may be negative or zero is for the caller. Never throws; time is linear in the text, and texts
 * over 200 characters are refused unread.
 */
export function readQuantity(text: string, dimension: Dimension): QuantityReading {
  if (typeof text !== 'string') return refuse(`this is not text: write ${whatWouldBeRight(dimension)}, between quotes`);
  if (text.length > longestText)
    return refuse(`${quoted(text)} is ${text.length} characters long: write ${whatWouldBeRight(dimension)}`);
  const known = alreadyRead.get(dimension)?.get(text);
  if (known) return known;
  const reading = readAfresh(text, dimension);
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
  if (plain === '') return refuse(`nothing is written here: write ${whatWouldBeRight(dimension)}`);
  const brackets = /^\(([^()]*)\)([^()]*)$/.exec(plain);
  const inside = brackets?.[1] ?? plain;
  const after = brackets?.[2]?.trim() ?? '';
  const sign = plusOrMinus.exec(inside);
  if (!sign && brackets) return refuse(`${quoted(text)} has brackets without ±: write ${whatWouldBeRight(dimension)}`);
  if (!sign) {
    const middle = readAmount(inside, '', dimension, text);
    return typeof middle === 'string' ? refuse(middle) : accept(text, middle, null);
  }
  const middleText = inside.slice(0, sign.index).trim();
  const halfWidthText = inside.slice(sign.index + sign[0].length).trim();
  return readWithHalfWidth(text, middleText, halfWidthText, after, dimension);
}

/** `middleText` ± `halfWidthText`, with the unit `after` the brackets or '' for none. */
function readWithHalfWidth(
  text: string,
  middleText: string,
  halfWidthText: string,
  after: string,
  dimension: Dimension,
): QuantityReading {
  const right = exampleWithPlusMinus(dimension);
  if (plusOrMinus.test(halfWidthText)) return refuse(`${quoted(text)} has more than one ±: write one, as ${right}`);
  if (halfWidthText.startsWith('-'))
    return refuse(`${quoted(text)} has a negative ±: write the half-width without a sign, as ${right}`);
  if (gaugeWritten(middleText) !== undefined || gaugeWritten(halfWidthText) !== undefined || /^awg$/i.test(after))
    return refuse(gaugeHasNoPlusMinus(text));
  const halfWidth = readNumber(halfWidthText);
  if (!halfWidth.ok) return refuse(`${quoted(text)}: ${halfWidth.problem || `no number follows ±: write ${right}`}`);

  const isPercent = unitSpelled(halfWidth.rest, 'ratio')?.symbol === '%';
  if (isPercent && dimension === 'ratio')
    return refuse(`${quoted(text)} could mean points of % or a part of the value: write (25 ± 2) % or 0.25 ± 0.02`);
  if (isPercent && dimension === 'temperature')
    return refuse(`${quoted(text)}: a percentage of a temperature depends on the scale: write ${right}`);
  const halfWidthUnitText = isPercent ? '' : halfWidth.rest;
  if (after !== '' && halfWidthUnitText !== '') return refuse(unitTwice(text));

  const middle = readAmount(middleText, after === '' ? halfWidthUnitText : after, dimension, text);
  if (typeof middle === 'string') return refuse(middle);
  if (after !== '' && middle.ownUnit) return refuse(unitTwice(text));
  if (isPercent) return accept(text, middle, (Math.abs(middle.value) * halfWidth.value) / 100);

  const ofHalfWidth = dimension === 'temperature' ? 'temperatureDifference' : dimension;
  const unit =
    halfWidthUnitText === ''
      ? unitWithSymbol(middle.unit.symbol, ofHalfWidth)
      : unitSpelled(halfWidthUnitText, ofHalfWidth);
  if (!unit) return refuse(wrongUnitOfPlusMinus(halfWidthUnitText, ofHalfWidth, text));
  return accept(text, middle, inSI(halfWidth.value, unit));
}

function accept(text: string, { value, unit }: Amount, plusMinus: number | null): QuantityReading {
  if (plusMinus !== null && !Number.isFinite(plusMinus))
    return refuse(`${quoted(text)}: the ± is too large to be a reading`);
  const quantity: Quantity = Object.freeze({ text, value, plusMinus, unit: unit.symbol });
  return Object.freeze({ ok: true, quantity });
}

function refuse(problem: string): QuantityReading {
  return Object.freeze({ ok: false, problem });
}
