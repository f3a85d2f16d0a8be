/** `stopwright means`: the means held side by side on one survey. */
import { compareMeans } from '../assessment/means/compare.ts';
import { rowNames, rowTitles, type MeansColumn, type MeansComparison } from '../assessment/means/comparison.ts';
import type { TogetherState } from '../assessment/hand-stop/states.ts';
import { jobFrom } from './job-file.ts';
import { UNREADABLE, verdictCode } from './exit-codes.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';
import { verdictWord } from './verdict-word.ts';

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
    paint.strong(recommended.words),
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
  const head = `${paint.strong(plain(name))} ${paint.quiet(`(${origins[origin]})`)}`;
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
