/** `stopwright supply`: which conductor the stop circuit needs, in every state of the source. */
import type { Verdict } from '../assessment/finding.ts';
import { demands, stateWords, type Demand } from '../assessment/supply/smallest.ts';
import { supplyStudy, type SectionRow, type SupplyStudy } from '../assessment/supply/study.ts';
import { display, type DisplayUnits } from '../units/quantity.ts';
import { UNREADABLE, verdictCode } from './exit-codes.ts';
import { jobFrom } from './job-file.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';
import { verdictWord } from './verdict-word.ts';

export interface SupplyOptions {
  readonly json?: boolean;
  readonly units: UnitSystem;
}

const WIDTH = 80;

export async function supplyCommand(path: string, options: SupplyOptions): Promise<number> {
  const file = jobFrom(path);
  if (!file.ok) return refuse(file.reason);
  const { job } = file;
  if (job.means.kind !== 'solenoid')
    return refuse(`"${plain(job.name)}" works by ${job.means.kind}: there is no circuit.`);
  const units = unitSystems[options.units];
  const paint = paintFor(process.stdout.isTTY, process.env['NO_COLOR']);
  // The first word comes at once, the table when it has been reckoned.
  if (options.json !== true)
    await write(
      `${paint.strong(plain(job.name).slice(0, WIDTH))}\n${paint.quiet(`${job.means.works}, ${job.supply.nominal} V`)}\n\n`,
    );
  const study = supplyStudy(job, units)!;
  await write(
    options.json === true
      ? `${JSON.stringify({ format: 'stopwright supply', ...study }, null, 2)}\n`
      : inWords(study, paint, units),
  );
  return verdictCode[study.verdict];
}

function write(text: string): Promise<void> {
  return new Promise((resolve, reject) => process.stdout.write(text, (error) => (error ? reject(error) : resolve())));
}

function refuse(reason: string): number {
  process.stderr.write(`${reason}\n`);
  return UNREADABLE;
}

function inWords(study: SupplyStudy, paint: Paint, units: DisplayUnits): string {
  const system = units.area === 'AWG' ? 'gauge' : 'metric';
  const rows = study.rows.filter((row) => row.system === system);
  const lines = [
    ...asLaidLines(study, paint),
    '',
    paint.strong('Smallest conductor that works'),
    ...study.smallest
      .filter((one) => one.system === system)
      .reverse()
      .flatMap(({ verdict, words }) => [
        wrapped(`${verdictWord(verdict, paint)} ${words}`, WIDTH, '  ', ' '.repeat(14)),
      ]),
    ...study.states.flatMap(({ state, volts_V, isAsked }, s) => [
      '',
      paint.strong(`${capital(stateWords[state])}, ${volts(volts_V, units)} at the source`)
        + (isAsked ? '' : ', for knowing only'),
      ...stateTable([study.asLaid, ...rows], s, paint),
    ]),
    '',
    paint.strong('What does not hang on the state of the source'),
    ...guardTable([study.asLaid, ...rows], paint),
  ];
  if (study.remarks.length > 0)
    lines.push('', paint.strong('Remarks'), ...study.remarks.map((one) => wrapped(plain(one), WIDTH, '  ', '  ')));
  if (study.assumed.length > 0)
    lines.push(
      '',
      paint.strong('Taken as default, not read'),
      ...study.assumed.map(({ path, text, source }) =>
        wrapped(plain(`${path} = ${text} (${source})`), WIDTH, '  ', '      '),
      ),
    );
  lines.push('', wrapped(study.caution, WIDTH, '', ''), '');
  return lines.map((line) => line.trimEnd()).join('\n');
}

/** The conductor as it lies, and the reason of everything that does not hold. */
function asLaidLines({ asLaid, missing, states }: SupplyStudy, paint: Paint): string[] {
  const lines = [
    `As laid: ${plain(asLaid.label)}`.padEnd(44).slice(0, WIDTH - 12) + verdictWord(asLaid.verdict, paint),
  ];
  const say = (demand: Demand, where: string, judged: { verdict: Verdict; because: string }): void => {
    if (judged.verdict !== 'holds')
      lines.push(
        wrapped(
          plain(`${capital(demands[demand])}${where}: ${judged.verdict}. ${judged.because}`),
          WIDTH,
          '    ',
          '      ',
        ),
      );
  };
  asLaid.states.forEach(({ state, demands: own }, i) => {
    if (states[i].isAsked)
      for (const demand of ['pull', 'hold', 'drop'] as const) say(demand, ` ${stateWords[state]}`, own[demand]);
  });
  for (const demand of ['carries', 'overload', 'short'] as const) say(demand, '', asLaid.demands[demand]);
  if (missing.length > 0) lines.push(wrapped(`Take this reading: ${missing.join(', ')}`, WIDTH, '    ', '      '));
  return lines;
}

const columns = [9, 7, 7, 6, 6, 7, 7, 6, 7, 6] as const;

const tableLine = (cells: readonly string[]): string =>
  cells.map((cell, i) => (i === 0 ? cell.slice(0, columns[0]).padEnd(columns[0]) : cell.padStart(columns[i]))).join('');

function stateTable(rows: readonly SectionRow[], s: number, paint: Paint): string[] {
  return [
    tableLine(['', 'pull-in', '', '', '', 'hold', '', '', 'spare', 'spare']),
    tableLine(['section', 'V', 'drop V', '%', 'A', 'V', 'drop V', '%', 'pull', 'hold']),
    ...rows.map((row) => {
      const { pullIn, hold, demands: own, verdict } = row.states[s];
      const cells = [
        rowName(row),
        number(pullIn.terminalVolts_V, 2),
        number(pullIn.drop_V, 2),
        number(percent(pullIn.dropShare), 1),
        number(pullIn.amps_A, 1),
        number(hold.terminalVolts_V, 2),
        number(hold.drop_V, 2),
        number(percent(hold.dropShare), 1),
        share(own.pull.margin),
        share(own.hold.margin),
      ];
      return `${tableLine(cells)} ${shortVerdict(verdict, paint)}`;
    }),
  ];
}

function guardTable(rows: readonly SectionRow[], paint: Paint): string[] {
  const line = (cells: readonly string[]): string =>
    cells[0].slice(0, 10).padEnd(12)
    + cells
      .slice(1)
      .map((cell) => cell.padEnd(20))
      .join('');
  return [
    line(['section', 'current for good', 'fuse, overload', 'fuse, short circuit']),
    ...rows.map((row) =>
      line([
        rowName(row),
        ...(['carries', 'overload', 'short'] as const).map((demand) => {
          const { verdict, margin } = row.demands[demand];
          return `${shortVerdict(verdict, paint)} ${share(margin)}`;
        }),
      ]),
    ),
  ];
}

function rowName({ system, label }: SectionRow): string {
  return system === 'as laid' ? 'as laid' : label;
}

function shortVerdict(verdict: Verdict, paint: Paint): string {
  return verdictWord(verdict, paint).trimEnd();
}

function volts(value: number | null, units: DisplayUnits): string {
  return value === null ? 'volts not known' : display(value, 'voltage', units);
}

function number(value: number | null, decimals: number): string {
  return value === null ? '?' : value.toFixed(decimals);
}

function percent(value: number | null): number | null {
  return value === null ? null : value * 100;
}

/** Spare over what is needed; beyond a hundredfold a number says no more. */
function share(margin: number | null): string {
  if (margin === null) return '?';
  return margin >= 10 ? 'ample' : `${Math.round(margin * 100)} %`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
