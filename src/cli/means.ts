/** `stopwright means`: the means held side by side on one survey. */
import { compareMeans } from '../assessment/means/compare.ts';
import { rowNames, rowTitles, type MeansColumn, type MeansComparison } from '../assessment/means/comparison.ts';
import type { TogetherState } from '../assessment/hand-stop/states.ts';
import { jobFrom } from './job-file.ts';
import { UNREADABLE, verdictCode } from './exit-codes.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';
import { VERDICT_WIDTH, verdictWord } from './verdict-word.ts';

export interface MeansOptions {
  readonly json?: boolean;
  readonly units: UnitSystem;
}

const WIDTH = 80;

/** The exit code is that of the chosen means. */
export function meansCommand(path: string, options: MeansOptions): number {
  const file = jobFrom(path);
  if (!file.ok) {
    process.stderr.write(`${file.reason}\n`);
    return UNREADABLE;
  }
  const comparison = compareMeans(file.job, unitSystems[options.units]);
  process.stdout.write(
    options.json === true
      ? `${JSON.stringify({ format: 'stopwright means', ...comparison }, null, 2)}\n`
      : inWords(comparison, paintFor(process.stdout.isTTY, process.env['NO_COLOR'])),
  );
  return verdictCode[comparison.columns[0].verdict ?? 'not known'];
}

function inWords({ job, asked, columns, together, recommended, caution }: MeansComparison, paint: Paint): string {
  const lines = [
    paint.strong(plain(job)),
    wrapped(asked, WIDTH, '', ''),
    '',
    ...tableLines(columns, recommended.column, paint),
    '',
    paint.strong(wrapped(plain(recommended.words), WIDTH, '', '')),
    ...recommended.reasons.map((reason) => wrapped(plain(reason), WIDTH, '  - ', '    ')),
    wrapped('The choice is yours: take another where there is a reason that no number shows.', WIDTH, '  ', '  '),
    ...columns.flatMap((column) => ['', ...columnLines(column, paint)]),
    ...(together === null
      ? []
      : ['', paint.strong('Both on one lever'), ...together.flatMap((state) => stateLines(state, paint))]),
    '',
    paint.quiet(wrapped(caution, WIDTH, '', '')),
  ];
  return `${lines.join('\n')}\n`;
}

const TITLE_WIDTH = 24;
const GAP = 2;

/** Rows × means with the verdict word alone; "-" where there is nothing to judge. Rows that judge no means are left out. */
function tableLines(columns: readonly MeansColumn[], recommended: number | null, paint: Paint): string[] {
  const room = Math.floor((WIDTH - TITLE_WIDTH) / columns.length) - GAP;
  // Too many means for one table stand in as many as they need, one below the other.
  const together = Math.max(1, Math.floor((WIDTH - TITLE_WIDTH) / (VERDICT_WIDTH + GAP)));
  if (room < VERDICT_WIDTH) {
    const [some, rest] = [columns.slice(0, together), columns.slice(together)];
    const left = recommended === null || recommended < together ? null : recommended - together;
    return [...tableLines(some, recommended, paint), '', ...tableLines(rest, left, paint)];
  }
  const heads = columns.map((column, i) => [
    ...inColumn(plain(column.name), room, MOST_NAME_LINES),
    ...standing(column, i === recommended).flatMap((word) => inColumn(word, room, 1)),
  ]);
  const tall = Math.max(...heads.map((lines) => lines.length));
  const line = (title: string, cells: readonly string[]) =>
    `${title.padEnd(TITLE_WIDTH)}${cells.join(' '.repeat(GAP))}`.trimEnd();
  const word = (verdict: MeansColumn['verdict']) =>
    verdict === null ? '-'.padEnd(room) : `${verdictWord(verdict, paint)}${' '.repeat(room - VERDICT_WIDTH)}`;
  return [
    ...Array.from({ length: tall }, (_, i) =>
      line(
        '',
        heads.map((lines) => (lines[i] ?? '').padEnd(room)),
      ),
    ),
    line(
      'In all',
      columns.map(({ verdict }) => word(verdict)),
    ),
    ...rowNames
      .filter((row) => columns.some(({ cells }) => cells[row].verdict !== null))
      .map((row) =>
        line(
          rowTitles[row],
          columns.map(({ cells }) => word(cells[row].verdict)),
        ),
      ),
  ];
}

const MOST_NAME_LINES = 3;

function standing({ origin }: MeansColumn, isRecommended: boolean): string[] {
  const word = { chosen: '(chosen)', considered: '', 'starting values': '(assumed)', 'not described': '(no data)' };
  return [word[origin], isRecommended ? '(advised)' : ''].filter((one) => one !== '');
}

/** A name in a narrow column: wrapped, words that are too long cut into pieces, and what does not fit left out. */
function inColumn(text: string, room: number, most: number): string[] {
  const pieces = text.split(' ').flatMap((word) => {
    const letters = Array.from(word);
    return Array.from({ length: Math.ceil(letters.length / room) }, (_, i) =>
      letters.slice(i * room, (i + 1) * room).join(''),
    );
  });
  const lines = wrapped(pieces.join(' '), room, '', '').split('\n');
  return lines.length <= most ? lines : [...lines.slice(0, most - 1), `${lines[most - 1].slice(0, room - 1)}…`];
}

function stateLines({ words, verdict, because }: TogetherState, paint: Paint): string[] {
  return [`  ${verdictWord(verdict, paint)} ${words}`, wrapped(plain(because), WIDTH, '      ', '      ')];
}

const origins: Record<MeansColumn['origin'], string> = {
  chosen: 'the chosen means',
  considered: 'among the other means of the job',
  'starting values': 'not described: starting values of this program',
  'not described': 'not described',
};

function columnLines(column: MeansColumn, paint: Paint): string[] {
  const { name, origin, notPossible, verdict, cells, assumed } = column;
  const standing = `(${origins[origin]})`;
  const called = wrapped(plain(name), WIDTH - standing.length - 1, '', '');
  const head = `${paint.strong(called)} ${paint.quiet(standing)}`;
  const cannot = notPossible === null ? [] : [wrapped(notPossible, WIDTH, '  ', '  ')];
  if (verdict === null) return [head, ...cannot];
  return [
    head,
    ...cannot,
    ...rowNames.flatMap((row) => {
      const { verdict: word, lines } = cells[row];
      const title = `  ${rowTitles[row].padEnd(24)}${word === null ? '' : verdictWord(word, paint)}`.trimEnd();
      return [title, ...lines.map((line) => wrapped(plain(line), WIDTH, '      ', '      '))];
    }),
    ...(origin === 'starting values'
      ? assumed.map(({ path, text }) => paint.quiet(wrapped(`${path} = ${text}`, WIDTH, '  ', '    ')))
      : []),
  ];
}
