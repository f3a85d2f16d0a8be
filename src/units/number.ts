/** A number at the start of a text, and what follows it; or why it cannot be read. */
export type NumberReading =
  | { readonly ok: true; readonly value: number; readonly written: string; readonly rest: string }
  | { readonly ok: false; readonly problem: string };

const mixedFraction = /^(\d{1,6})(?: | ?- ?)(\d{1,6}) ?\/ ?(\d{1,6})(?![\d.,/])/;
const fraction = /^(\d{1,6}) ?\/ ?(\d{1,6})(?![\d.,/])/;
const groupedByspaces = /^[1-9]\d{0,2}(?: \d{3})+(?:[.,]\d+)?(?![\d.,/]| \d)/;
const digitsAndSeparators = /^[\d.,]*\d[\d.,]*/;
const exponent = /^[eE][+-]?\d+(?![\d.,])/;

/**
 * Reads 42, 12.5, 12,5, .5, 1e-3, 3/8, 1 1/4, 1-1/4, 1 234,5 and a sign before any of them, from plain characters.
 * A comma followed by exactly three digits could group thousands and is refused unless it cannot (0,125; 1234,567).
 */
export function readNumber(text: string): NumberReading {
  const signs = /^([+-]?) ?/.exec(text);
  const sign = signs?.[1] === '-' ? -1 : 1;
  const body = text.slice(signs?.[0].length ?? 0);

  const mixed = mixedFraction.exec(body);
  if (mixed) {
    const [written, whole, top, bottom] = mixed;
    if (Number(top) >= Number(bottom)) return no(`${written} is not a whole number and a fraction below one: write it as 1 5/8 or as a decimal`);
    return finish(sign * (Number(whole) + Number(top) / Number(bottom)), written, body, false);
  }
  const simple = fraction.exec(body);
  if (simple) {
    const [written, top, bottom] = simple;
    if (Number(bottom) === 0) return no(`${written} divides by zero: write a fraction such as 3/8 or a decimal`);
    return finish(sign * (Number(top) / Number(bottom)), written, body, false);
  }
  const grouped = groupedByspaces.exec(body);
  if (grouped) {
    const written = grouped[0];
    return finish(sign * Number(written.replaceAll(' ', '').replace(',', '.')), written, body, false);
  }
  const match = digitsAndSeparators.exec(body);
  if (!match) return no('');
  const mantissa = match[0];
  const problem = separatorProblem(mantissa);
  if (problem !== null) return no(problem);
  const power = exponent.exec(body.slice(mantissa.length))?.[0] ?? '';
  const value = Number(mantissa.replace(',', '.') + power);
  return finish(sign * value, mantissa + power, body, /[1-9]/.test(mantissa));
}

function finish(value: number, written: string, body: string, hasNonZeroDigit: boolean): NumberReading {
  if (!Number.isFinite(value)) return no(`${shown(written)} is too large to be a reading`);
  if (value === 0 && hasNonZeroDigit) return no(`${shown(written)} is too small to be a reading`);
  const rest = body.slice(written.length).trim();
  if (/^[\d.,/]/.test(rest)) return no(`${shown(`${written} ${rest}`)} cannot be read as one number: write it as 1234.5, or a fraction as 1 5/8`);
  return { ok: true, value: value === 0 ? 0 : value, written, rest };
}

function separatorProblem(mantissa: string): string | null {
  const separators = mantissa.replace(/\d/g, '');
  if (separators.length > 1) return `${shown(mantissa)} has more than one point or comma: write it with one decimal point and nothing between the thousands, as 1234.5`;
  if (separators !== ',') return null;
  const [before = '', after = ''] = mantissa.split(',');
  const couldGroup = after.length === 3 && /^[1-9]\d{0,2}$/.test(before);
  return couldGroup ? `${mantissa} could be ${before}${after} or ${before}.${after}: write the one that is meant, with a decimal point or no comma` : null;
}

function shown(written: string): string {
  return written.length > 24 ? `${written.slice(0, 24)}…` : written;
}

function no(problem: string): NumberReading {
  return { ok: false, problem };
}
