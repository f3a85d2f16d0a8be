/** One cell of a row: a number with or without a unit, a time of day, a mark for a missing reading, or text. */
import { plainCharacters } from '../../units/characters.ts';

export type Cell =
  | { readonly kind: 'number'; readonly value: number; /** '' where none stands beside. */ readonly unit: string }
  | { readonly kind: 'clock'; readonly seconds: number; readonly hasDate: boolean }
  | { readonly kind: 'missing' }
  | { readonly kind: 'text' };

const numberWithPoint = /^([+-]?(?:\d{1,30}(?:\.\d{0,40})?|\.\d{1,40})(?:e[+-]?\d{1,3})?) ?([a-zμ]{0,3})$/i;
const numberWithComma = /^([+-]?(?:\d{1,30}(?:,\d{0,40})?|,\d{1,40})(?:e[+-]?\d{1,3})?) ?([a-zμ]{0,3})$/i;
const unitsBeside = new Set(['s', 'ms', 'μs', 'us', 'A', 'mA', 'V', 'mV', 'min']);
/** Beyond this a number is the mark of a missing or overloaded reading (9.9e37 is common), not a current. */
export const NO_READING = 1e30;
/** What meters write where they have no reading: blank, not a number, overload, dashes, infinity. */
const missing =
  /^(?:|n\/?a|nan|null|none|[+-]?(?:ol|o\.l\.?|overload|over|inf(?:inity)?|∞|1\.#(?:qnan|inf)\d*)|-{1,}|[·?]+)$/i;
const clock =
  /^(?:(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})[ t])?(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,:](\d{1,9}))?)?(?:z| ?utc)?$/i;

export function readCell(raw: string, decimal: '.' | ','): Cell {
  const text = plainCharacters(raw.length > 80 ? raw.slice(0, 80) : raw);
  const found = (decimal === '.' ? numberWithPoint : numberWithComma).exec(text);
  if (found !== null) {
    const [, digits = '', unit = ''] = found;
    if (unit !== '' && !unitsBeside.has(unit)) return { kind: 'text' };
    const value = Number(decimal === '.' ? digits : digits.replace(',', '.'));
    return Math.abs(value) < NO_READING ? { kind: 'number', value, unit } : { kind: 'missing' };
  }
  if (missing.test(text)) return { kind: 'missing' };
  const time = clock.exec(text);
  if (time === null) return { kind: 'text' };
  const [, year, month, day, hours = '', minutes = '', seconds = '0', part = ''] = time;
  const sinceMidnight = (Number(hours) * 60 + Number(minutes)) * 60 + Number(`${seconds}.${part}0`);
  const days = year === undefined ? 0 : Date.UTC(Number(year), Number(month) - 1, Number(day)) / 1000;
  return { kind: 'clock', seconds: days + sinceMidnight, hasDate: year !== undefined };
}

export type Separator = '\t' | ';' | ',' | '|' | ' ';

/** The cells of a row, quotes taken off; a run of spaces is one separator. */
export function splitRow(line: string, separator: Separator): string[] {
  if (separator === ' ') return line.trim() === '' ? [''] : line.trim().split(/ +/);
  if (!line.includes('"')) return line.split(separator);
  const cells: string[] = [];
  let cell = '';
  let isQuoted = false;
  for (let k = 0; k < line.length; k++) {
    const character = line[k];
    if (character === '"') {
      if (isQuoted && line[k + 1] === '"') cell += line[k++];
      else isQuoted = !isQuoted;
    } else if (character === separator && !isQuoted) {
      cells.push(cell);
      cell = '';
    } else cell += character;
  }
  return [...cells, cell];
}

/** A line that says nothing about samples: blank, only separators, or a comment. */
export function isComment(line: string): boolean {
  return /^[\s;,|"]*$|^\s*(?:#|%|\/\/|!)/.test(line);
}
