/** What the head of a column says: its name, its unit, and whether it is time, current or something else. */
import { plainCharacters } from '../../units/characters.ts';
import { readQuantity, type Dimension } from '../../units/quantity.ts';

export type Measures = 'time' | 'current' | 'voltage' | 'nothing known';

export interface Column {
  /** Counted from 1. */
  readonly number: number;
  readonly name: string;
  /** As written; '' where none is. */
  readonly unit: string;
  readonly measures: Measures;
  /** Base SI of one unit; 1 where no unit is known. */
  readonly factor: number;
  /** By its name: the unit may be missing. */
  readonly namedTime: boolean;
  readonly namedCurrent: boolean;
  readonly namedIndex: boolean;
}

const timeName =
  /^(?:x|t|time|times|timestamp|elapsed|elapsed time|date|clock|zeit|temps|tid|tijd|tiempo|tempo|czas|čas|idő|tempos|seconds?|sec)\b/iu;
const currentName =
  /(?:curr|strom|coura|stroom|corriente|corrente|ström|strøm|prąd|proud|\bamps?\b|amper|clamp)|^i(?:$|[\W_\d])/iu;
const channelWord = /^(?:ch|chan|channel|kanal|canal|input|probe|trace|voie)\.?$/i;
const indexName = /^(?:#|no\.?|nr\.?|n|k|index|samples?|points?|rows?|record|sequence|count)$/i;

const dimensions: readonly (readonly [Dimension, Measures])[] = [
  ['time', 'time'],
  ['current', 'current'],
  ['voltage', 'voltage'],
];

/** The unit that `text` is, or null: "ms", "mA", "Seconds", "(A)". */
export function unitMeant(text: string): { readonly measures: Measures; readonly factor: number } | null {
  const bare = plainCharacters(text)
    .replace(/^[([{]\s*(.*?)\s*[)\]}]$/, '$1')
    .trim();
  if (!/^[a-zμ]{1,12}$/i.test(bare) || /^[mhd]$|^a$/.test(bare)) return null;
  for (const [dimension, measures] of dimensions) {
    const read = readQuantity(`1 ${bare}`, dimension);
    if (read.ok) return { measures, factor: read.quantity.value };
  }
  return null;
}

/** Name and unit of a heading: "Time (ms)", "Current [A]", "I/A", "t_ms", "Clamp in mV", "current, A" or a bare unit. */
export function columnOf(heading: string, unitBelow: string, number: number): Column {
  const text = plainCharacters(heading);
  const split =
    /^(.*?)\s*[([{]\s*([^)\]}]*?)\s*[)\]}]\s*$/u.exec(text)
    ?? /^(.*?)(?:\s*[/,:]\s*|_|\s+in\s+|\s+)([a-zμ]{1,12})$/iu.exec(text);
  // "Channel A" is a name; "Channel (A)" has a unit.
  const isLetter = split !== null && !/[)\]}]\s*$/.test(text) && channelWord.test(split[1]);
  const inside = split === null || isLetter ? null : unitMeant(split[2]);
  const whole = split === null ? unitMeant(text) : null;
  const below = unitMeant(unitBelow);
  const unit = below ?? inside ?? whole;
  const unitText =
    below !== null ? unbracketed(unitBelow) : inside !== null ? (split?.[2] ?? '') : whole !== null ? text : '';
  const name = inside !== null && below === null ? (split?.[1] ?? '').trim() || text : text;
  return {
    number,
    name: name === '' ? `column ${number}` : name,
    unit: unitText,
    measures: unit?.measures ?? 'nothing known',
    factor: unit?.factor ?? 1,
    namedTime: timeName.test(name),
    namedCurrent: currentName.test(name),
    namedIndex: indexName.test(name),
  };
}

function unbracketed(text: string): string {
  return plainCharacters(text).replace(/^[([{]\s*(.*?)\s*[)\]}]$/, '$1');
}

/** Whether every cell of a line is a unit or blank: the second line of a heading. */
export function isUnitLine(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell.trim() !== '');
  return filled.length > 0 && filled.every((cell) => unitMeant(cell) !== null);
}

const number = String.raw`([+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?)`;
const intervalLine = new RegExp(
  String.raw`(?:interval|increment|sampling period|sample period|time step|spacing|\bdt\b)[^\d+-]{0,20}?${number}\s*([a-zμ]*)`,
  'iu',
);
const rateLine = new RegExp(
  String.raw`(?:sampl\w*\s*(?:rate|frequency)|\brate\b)[^\d+-]{0,20}?${number}\s*([a-zμ/]*)`,
  'iu',
);
const perAmpLine = new RegExp(String.raw`${number}\s*(mv|v)\s*/\s*a\b`, 'iu');
const perVoltLine = new RegExp(String.raw`${number}\s*a\s*/\s*v\b`, 'iu');

export interface Preamble {
  readonly interval_s: number | null;
  readonly ampsPerVolt: number | null;
}

/** What the lines before the samples say of the sample interval and of the clamp. */
export function readPreamble(lines: readonly string[]): Preamble {
  let interval_s: number | null = null;
  let ampsPerVolt: number | null = null;
  for (const line of lines) {
    const text = plainCharacters(line.slice(0, 400)).replaceAll('"', '');
    interval_s ??= intervalIn(text);
    ampsPerVolt ??= ampsPerVoltIn(text);
  }
  return { interval_s, ampsPerVolt };
}

function intervalIn(text: string): number | null {
  const interval = intervalLine.exec(text);
  if (interval !== null) {
    // A unit may stand in the words before the number: "interval (ms): 0.1".
    const unit = interval[2] || /[([]\s*([a-zμ]+)\s*[)\]]/iu.exec(text)?.[1] || 's';
    const factor = unitMeant(unit);
    const value = Number(interval[1].replace(',', '.')) * (factor?.factor ?? NaN);
    return factor?.measures === 'time' && value > 0 ? value : null;
  }
  const rate = rateLine.exec(text);
  if (rate === null) return null;
  const unit = (rate[2] === '' ? (/[([]\s*([a-zμ/]+)\s*[)\]]/iu.exec(text)?.[1] ?? 'Hz') : rate[2]).replace(
    /(?:S|Sa|samples?)\/s(?:ec)?$/i,
    'Hz',
  );
  const mega = unit.startsWith('M');
  const read = readQuantity(`${rate[1].replace(',', '.')} ${mega ? unit.replace(/^M/, 'k') : unit}`, 'frequency');
  if (!read.ok || !(read.quantity.value > 0)) return null;
  return 1 / (read.quantity.value * (mega ? 1000 : 1));
}

function ampsPerVoltIn(text: string): number | null {
  const perAmp = perAmpLine.exec(text);
  if (perAmp !== null) {
    const volts = readQuantity(`${perAmp[1].replace(',', '.')} ${/^m/i.test(perAmp[2]) ? 'mV' : 'V'}`, 'voltage');
    return volts.ok && volts.quantity.value > 0 ? 1 / volts.quantity.value : null;
  }
  const perVolt = perVoltLine.exec(text);
  const value = perVolt === null ? 0 : Number(perVolt[1].replace(',', '.'));
  return value > 0 && Number.isFinite(value) ? value : null;
}
