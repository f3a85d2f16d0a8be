/** How a file of samples is laid out: separator, decimal mark, where the samples begin, which columns are wanted. */
import { shortened } from '../../units/characters.ts';
import { isComment, readCell, splitRow, type Separator } from './cell.ts';
import { columnOf, isUnitLine, readPreamble, type Column } from './columns.ts';
import type { TraceOptions, TraceProblem, TraceReadAs } from './trace.ts';

export interface Layout {
  readonly separator: Separator;
  readonly decimal: '.' | ',';
  /** Lines before the first sample. */
  readonly headerLines: number;
  /** From 0; -1 where the times come from the interval. */
  readonly timeCell: number;
  readonly timeFactor: number;
  readonly currentCell: number;
  readonly currentFactor: number;
  readonly cells: number;
  readonly interval_s: number | null;
  readonly readAs: TraceReadAs;
  readonly cautions: readonly string[];
}

export type LayoutReading =
  | { readonly ok: true; readonly layout: Layout }
  | { readonly ok: false; readonly problems: readonly TraceProblem[]; readonly channels: readonly string[] };

interface Shape {
  readonly separator: Separator;
  readonly decimal: '.' | ',';
  readonly first: number;
  readonly cells: number;
  readonly run: number;
  readonly headed: boolean;
}

const separators: readonly Separator[] = ['\t', ';', ',', '|', ' '];
const separatorWords = { '\t': 'tab', ';': 'semicolon', ',': 'comma', '|': 'bar', ' ': 'spaces' } as const;

export function readLayout(lines: readonly string[], options: TraceOptions): LayoutReading {
  const shape = shapeOf(lines);
  if (shape === null) return noTable(lines);
  const { separator, decimal, first, cells } = shape;
  const heading = headingOf(lines, shape);
  const columns = Array.from({ length: cells }, (_, k) =>
    columnOf(heading.names[k] ?? '', heading.units[k] ?? '', k + 1),
  );
  const samples = sampleRows(lines, first).map((line) => splitRow(line, separator));
  const preamble = readPreamble(lines.slice(0, first));
  const cautions: string[] = [];

  const kinds = columns.map((_, k) => {
    const read = samples.map((row) => readCell(row[k] ?? '', decimal)).filter(({ kind }) => kind !== 'missing');
    if (read.length > 0 && read.every(({ kind }) => kind === 'clock')) return 'clock';
    return read.filter(({ kind }) => kind === 'number').length > read.length / 2 ? 'number' : 'text';
  });
  const unitBeside = columns.map((_, k) => {
    const cell = samples.map((row) => readCell(row[k] ?? '', decimal)).find(({ kind }) => kind === 'number');
    return cell?.kind === 'number' ? cell.unit : '';
  });
  const known = columns.map((column, k) =>
    unitBeside[k] === '' ? column : { ...columnOf(column.name, unitBeside[k], k + 1), name: column.name },
  );
  const time = timeColumn(known, kinds, samples, decimal);
  const interval_s = options.interval_s ?? (time === null ? preamble.interval_s : null);
  if (time === null && interval_s === null)
    return refuse(
      'There is no column of times and no sample interval in the lines before the samples: say the interval.',
      heading.shown,
    );
  const chosen = currentColumn(known, kinds, time, options.channel);
  if (typeof chosen === 'string') return refuse(chosen, heading.shown);
  if (Array.isArray(chosen))
    return {
      ok: false,
      problems: [
        {
          row: null,
          read: shortened(heading.shown, 60),
          problem: `There are ${chosen.length} columns that may be the current: ${chosen.slice(0, 20).join(', ')}. Say which.`,
        },
      ],
      channels: chosen,
    };
  const current = chosen;
  const clamp = options.ampsPerVolt ?? preamble.ampsPerVolt;
  if (current.measures === 'voltage' && clamp === null)
    return refuse(
      `${called(current)} is in ${current.unit}: say how many amperes one volt of the clamp means.`,
      heading.shown,
    );
  const scaled =
    current.measures === 'voltage' || (current.measures !== 'current' && options.ampsPerVolt !== undefined);
  if (current.measures === 'current' && options.ampsPerVolt !== undefined)
    cautions.push(`${called(current)} is already in ${current.unit}: the clamp's amperes per volt were not used.`);
  if (current.measures !== 'current' && !scaled)
    cautions.push(`No unit stands with ${called(current)}: taken as amperes.`);
  if (time !== null && interval_s === null && time.measures !== 'time' && kinds[time.number - 1] !== 'clock')
    cautions.push(`No unit stands with ${called(time)}: taken as seconds.`);
  const usesTime = time !== null && interval_s === null;
  return {
    ok: true,
    layout: {
      separator,
      decimal,
      headerLines: first,
      cells,
      timeCell: usesTime ? time.number - 1 : -1,
      // A unit beside each number is applied cell by cell.
      timeFactor: usesTime && unitBeside[time.number - 1] === '' ? time.factor : 1,
      currentCell: current.number - 1,
      currentFactor: (unitBeside[current.number - 1] === '' ? current.factor : 1) * (scaled ? (clamp ?? 1) : 1),
      interval_s,
      cautions,
      readAs: {
        separator: cells === 1 ? 'none' : separatorWords[separator],
        decimal: decimal === '.' ? 'point' : 'comma',
        headerLines: first,
        timeColumn: usesTime ? shortened(time.name, 40) : null,
        timeUnit: usesTime ? (kinds[time.number - 1] === 'clock' ? 'time of day' : time.unit || 's') : 's',
        currentColumn: shortened(current.name, 40),
        currentUnit: current.unit || (scaled ? 'V' : 'A'),
        ampsPerVolt: scaled ? clamp : null,
      },
    },
  };
}

function called({ name }: Column): string {
  return `"${shortened(name, 40)}"`;
}

function refuse(problem: string, read: string): LayoutReading {
  return { ok: false, problems: [{ row: null, read: shortened(read, 60), problem }], channels: [] };
}

function noTable(lines: readonly string[]): LayoutReading {
  const filled = lines.filter((line) => line.trim() !== '');
  if (filled.length === 0) return refuse('The file is empty: there is not one sample in it.', '');
  const last = filled.at(-1) ?? '';
  return refuse('No rows of numbers were found: a trace has a row for each sample, with time and current.', last);
}

/** Whether the line is a row of samples: it begins with a number or a time of day, and half its cells are such. */
function isSampleRow(cells: readonly string[], decimal: '.' | ','): boolean {
  const kinds = cells.map((cell) => readCell(cell, decimal).kind);
  const first = kinds.findIndex((_, k) => cells[k].trim() !== '');
  if (first < 0 || (kinds[first] !== 'number' && kinds[first] !== 'clock' && kinds[first] !== 'missing')) return false;
  const good = kinds.filter((kind) => kind === 'number' || kind === 'clock').length;
  return good > 0 && 2 * good >= kinds.filter((_, k) => cells[k].trim() !== '').length;
}

/** The separator and decimal mark that make the most rows of samples, all with one number of cells. */
function shapeOf(lines: readonly string[]): Shape | null {
  let best: Shape | null = null;
  for (const separator of separators) {
    for (const decimal of ['.', ','] as const) {
      if (decimal === separator && !lines.some((line) => line.includes('"'))) continue;
      const found = runOf(lines, separator, decimal);
      if (found !== null && (best === null || isBetter(found, best))) best = found;
    }
  }
  return best;
}

function isBetter(a: Shape, b: Shape): boolean {
  if (a.run !== b.run) return a.run > b.run;
  if (a.headed !== b.headed) return a.headed;
  return a.cells > b.cells;
}

function runOf(lines: readonly string[], separator: Separator, decimal: '.' | ','): Shape | null {
  const counts = lines.map((line) => {
    if (isComment(line)) return -1;
    const cells = withoutTail(splitRow(line, separator));
    return isSampleRow(cells, decimal) ? cells.length : 0;
  });
  const byCount = new Map<number, number>();
  for (const count of counts) if (count > 0) byCount.set(count, (byCount.get(count) ?? 0) + 1);
  const [cells, run] = [...byCount].sort((a, b) => b[1] - a[1])[0] ?? [0, 0];
  if (run === 0) return null;
  const first = counts.indexOf(cells);
  const above = lastHeading(lines, first);
  const headed = above >= 0 && cells > 1 && withoutTail(splitRow(lines[above], separator)).length === cells;
  return { separator, decimal, first, cells, run, headed };
}

/** A separator at the end of the line makes no further column. */
function withoutTail(cells: string[]): string[] {
  return cells.length > 1 && cells.at(-1)?.trim() === '' ? cells.slice(0, -1) : cells;
}

/** The nearest line above the samples that says something; -1 where there is none. A commented heading counts. */
function lastHeading(lines: readonly string[], first: number): number {
  for (let k = first - 1; k >= 0; k--) if (/[\p{L}]/u.test(lines[k])) return k;
  return -1;
}

interface Heading {
  readonly names: readonly string[];
  readonly units: readonly string[];
  readonly shown: string;
}

function headingOf(lines: readonly string[], { separator, first, cells }: Shape): Heading {
  const cellsOf = (k: number): string[] =>
    splitRow(lines[k].replace(/^\s*(?:#|%|\/\/|!)\s*/, ''), separator).map((cell) => cell.trim());
  const fits = (row: readonly string[]): boolean => row.length >= cells && withoutTail([...row]).length <= cells + 1;
  let at = lastHeading(lines, first);
  const none = { names: [], units: [], shown: at < 0 ? lines[first] : lines[at] };
  if (at < 0 || !fits(cellsOf(at))) return none;
  let units: readonly string[] = [];
  const below = cellsOf(at);
  // A single column has no line of names that could be told from the preamble.
  if (cells > 1 && isUnitLine(below)) {
    const above = lastHeading(lines, at);
    if (above < 0 || !fits(cellsOf(above))) return { names: below, units: [], shown: lines[at] };
    units = below;
    at = above;
  }
  return { names: cellsOf(at), units, shown: lines[at] };
}

/** The first rows of samples, to judge columns by. */
function sampleRows(lines: readonly string[], first: number): string[] {
  return lines.slice(first, first + 200).filter((line) => !isComment(line));
}

type Kind = 'number' | 'clock' | 'text';

function timeColumn(
  columns: readonly Column[],
  kinds: readonly Kind[],
  samples: readonly string[][],
  decimal: '.' | ',',
): Column | null {
  const usable = columns.filter((_, k) => kinds[k] !== 'text');
  const byUnit = usable.find(({ measures, namedIndex }) => measures === 'time' && !namedIndex);
  const byClock = columns.find((_, k) => kinds[k] === 'clock');
  const byName = usable.find(({ namedTime, measures }) => namedTime && measures === 'nothing known');
  const found = byUnit ?? byClock ?? byName;
  if (found !== undefined) return found;
  // No names at all: a first column that never falls and rises somewhere beside another one is time.
  if (usable.length < 2 || columns.some(({ name, number }) => name !== `column ${number}`)) return null;
  const [first] = columns;
  const values = samples
    .map((row) => readCell(row[0] ?? '', decimal))
    .flatMap((cell) => (cell.kind === 'number' ? [cell.value] : []));
  const rises =
    values.every((value, k) => k === 0 || value >= values[k - 1]) && (values.at(-1) ?? 0) > (values[0] ?? 0);
  return rises ? first : null;
}

/** The column, or why there is none, or the names among which the person has to choose. */
function currentColumn(
  columns: readonly Column[],
  kinds: readonly Kind[],
  time: Column | null,
  wanted: string | undefined,
): Column | string | string[] {
  const usable = columns.filter(
    (column, k) =>
      kinds[k] === 'number'
      && column !== time
      && column.measures !== 'time'
      && !(column.namedIndex && column.measures === 'nothing known'),
  );
  const names = usable.map(({ name, number }) => {
    const isTwice = usable.filter((other) => other.name === name).length > 1;
    return isTwice ? `${shortened(name, 30)} (column ${number})` : shortened(name, 30);
  });
  if (wanted !== undefined) {
    const plain = wanted.trim().toLowerCase();
    const named = usable.filter(({ name }) => name.toLowerCase() === plain);
    const found =
      named.length > 0 ? named : columns.filter(({ number }, k) => String(number) === plain && kinds[k] === 'number');
    if (found.length === 1) return found[0];
    const there =
      names.length === 0 ? 'There is no column of numbers beside the times.' : `There are: ${names.join(', ')}.`;
    return found.length === 0
      ? `No column is called "${shortened(wanted, 30)}". ${there}`
      : `Several columns are called "${shortened(wanted, 30)}": give the number of the column.`;
  }
  if (usable.length === 0) return 'There is no column of numbers that could be the current.';
  const inAmperes = usable.filter(({ measures }) => measures === 'current');
  const named = usable.filter(({ namedCurrent }) => namedCurrent);
  const candidates = inAmperes.length > 0 ? inAmperes : named.length > 0 ? named : usable;
  return candidates.length === 1 ? candidates[0] : candidates.map((column) => names[usable.indexOf(column)]);
}
