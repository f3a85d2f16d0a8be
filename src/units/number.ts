import { shortened } from './characters.ts';

/** A number at the start of a text, and what follows it; or why it cannot be read ('' where none begins there). */
export type NumberReading =
  | {
      readonly ok: true;
      readonly value: number;
      /** Whether a minus stood before it: of "-0° 30'" the value alone no longer tells. */
      readonly isNegative: boolean;
      /** Without its sign. */
      readonly written: string;
      readonly rest: string;
    }
  | { readonly ok: false; readonly problem: string };

const mixedFraction = /^(\d{1,6})(?: | ?- ?)(\d{1,6}) ?\/ ?(\d{1,6})(?![\d.,/])/;
const fraction = /^(\d{1,6}) ?\/ ?(\d{1,6})(?![\d.,/])/;
const groupedBySpaces = /^[1-9]\d{0,2}(?: \d{3})+(?:[.,]\d+)?(?![\d.,/]| \d)/;
const digitsAndSeparators = /^[\d.,]*\d[\d.,]*/;
const exponent = /^[eE][+-]?\d+(?![\d.,])/;
/** More of a number, except the 1 of the unit 1/min. */
const moreNumber = /^(?!1\/[a-z])[\d.,]|^\/ ?\d/;

/**
 * Reads 42, 12.5, 12,5, .5, 1e-3, 3/8, 1 1/4, 1-1/4, 1 234,5 and a sign before any of them, from plain characters.
 * A comma followed by exactly three digits could group thousands and is refused unless it cannot (0,125; 1234,567).
 */
export function readNumber(text: string): NumberReading {
  const isNegative = text.startsWith('-');
  const body = text.replace(/^[+-] ?/, '');
  const found = magnitudeOf(body);
  if (typeof found === 'string') return { ok: false, problem: found };
  const { magnitude, written } = found;
  const rest = body.slice(written.length).trim();
  if (moreNumber.test(rest)) {
    const both = shortened(`${written} ${rest}`, 24);
    return { ok: false, problem: `${both} is not one number: write it as 1234.5, or a fraction as 1 5/8` };
  }
  return { ok: true, value: isNegative && magnitude !== 0 ? -magnitude : magnitude, isNegative, written, rest };
}

interface Magnitude {
  readonly magnitude: number;
  readonly written: string;
}

function magnitudeOf(body: string): Magnitude | string {
  const mixed = mixedFraction.exec(body);
  if (mixed) {
    const [written, whole, top, bottom] = mixed;
    if (Number(top) < Number(bottom)) return { magnitude: Number(whole) + Number(top) / Number(bottom), written };
    return `${written} is not a whole number and a fraction below one: write it as 1 5/8 or as a decimal`;
  }
  const simple = fraction.exec(body);
  if (simple) {
    const [written, top, bottom] = simple;
    if (Number(bottom) !== 0) return { magnitude: Number(top) / Number(bottom), written };
    return `${written} divides by zero: write a fraction such as 3/8, or a decimal`;
  }
  const grouped = groupedBySpaces.exec(body)?.[0];
  if (grouped) return { magnitude: Number(grouped.replaceAll(' ', '').replace(',', '.')), written: grouped };
  return decimalOf(body);
}

function decimalOf(body: string): Magnitude | string {
  const mantissa = digitsAndSeparators.exec(body)?.[0];
  if (mantissa === undefined) return '';
  const problem = separatorProblem(mantissa);
  if (problem !== null) return problem;
  const written = mantissa + (exponent.exec(body.slice(mantissa.length))?.[0] ?? '');
  const magnitude = Number(written.replace(',', '.'));
  if (!Number.isFinite(magnitude)) return `${shortened(written, 24)} is too large to be a reading`;
  if (magnitude === 0 && /[1-9]/.test(mantissa)) return `${shortened(written, 24)} is too small to be a reading`;
  return { magnitude, written };
}

function separatorProblem(mantissa: string): string | null {
  const separators = mantissa.replace(/\d/g, '');
  const shown = shortened(mantissa, 24);
  if (separators.length > 1)
    return `${shown} has more than one point or comma: write it with one decimal point and nothing between the thousands, as 1234.5`;
  if (separators !== ',') return null;
  const [before = '', after = ''] = mantissa.split(',');
  if (after === '') return `${shown} ends with a comma: write it as ${shortened(before, 24)}, or with its decimals`;
  const couldGroup = after.length === 3 && /^[1-9]\d{0,2}$/.test(before);
  return couldGroup
    ? `${mantissa} could be ${before}${after} or ${before}.${after}: write the one that is meant, with a decimal point or no comma`
    : null;
}
