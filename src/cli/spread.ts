/** `stopwright spread`: how sure the findings are when every reading may be off by its ±. */
import { availableParallelism } from 'node:os';
import { setImmediate } from 'node:timers/promises';
import { CAUTION } from '../assessment/finding.ts';
import { instruments } from '../assessment/spread/instruments.ts';
import type { FindingSpread, SpreadOutcome } from '../assessment/spread/outcome.ts';
import { MOST_DRAWS, spreadPlan } from '../assessment/spread/plan.ts';
import { usualRequest, type SpreadProblem, type SpreadRequest } from '../assessment/spread/request.ts';
import {
  ownHands,
  spreadStudy,
  type Hands,
  type SpreadProgress,
  type SpreadStudy,
} from '../assessment/spread/study.ts';
import { taskWorker, type SpreadTask } from '../assessment/spread/task.ts';
import { chanceErrorWords, chanceWords, tighteningWords } from '../assessment/spread/words.ts';
import type { DisplayUnits } from '../units/quantity.ts';
import { UNREADABLE, WRONG_USAGE } from './exit-codes.ts';
import { jobFrom } from './job-file.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';
import { threads, type Threads } from './threads.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';

export interface SpreadOptions {
  readonly draws?: string;
  readonly seed?: string;
  readonly workers?: string;
  /** "caliper=0.5": what readings of one instrument have in common. */
  readonly share?: readonly string[];
  readonly writtenOnly?: boolean;
  readonly quick?: boolean;
  readonly json?: boolean;
  readonly units: UnitSystem;
}

const WIDTH = 80;
const STOPPED = 130;
const SURE = 0;
const NOT_SURE = 1;
const FAILS = 2;
const NOT_KNOWN = 3;
/** A chance of failing up to this counts as sure. */
const SMALL = 0.01;

export async function spreadCommand(path: string, options: SpreadOptions): Promise<number> {
  const request = requestOf(options);
  if (typeof request === 'string') return refuse(WRONG_USAGE, request);
  const workers = options.workers === undefined ? Math.min(8, availableParallelism()) : Number(options.workers);
  if (!(Number.isInteger(workers) && workers >= 0 && workers <= 64))
    return refuse(WRONG_USAGE, `--workers is a whole number from 0 to 64, not "${plain(options.workers ?? '')}".`);
  const file = jobFrom(path);
  if (!file.ok) return refuse(UNREADABLE, file.reason);
  const planned = spreadPlan(file.job, request);
  if (!planned.ok) return refuse(UNREADABLE, problemWords(path, planned.problems));
  const { plan } = planned;
  if (plan.findings.length === 0)
    return refuse(
      NOT_KNOWN,
      `No finding of ${plain(file.job.name)} is known yet. Take this reading first: ${[...new Set(plan.notKnown.flatMap(({ missing }) => missing))].slice(0, 5).join(', ') || 'see stopwright assess'}.`,
    );

  let isStopped = false;
  let team: Threads<SpreadTask, Float64Array> | null = null;
  const interrupted = (): void => {
    isStopped = true;
    team?.stop();
  };
  process.on('SIGINT', interrupted);
  let study: SpreadStudy | null;
  try {
    let hands: Hands;
    if (workers > 0) hands = team = threads<SpreadTask, Float64Array>('spread', workers, { job: plan.job, request });
    else {
      const worker = taskWorker(plan);
      hands = ownHands(
        (task) => worker.run(task),
        setImmediate,
        () => isStopped,
      );
    }
    study = await spreadStudy(plan, hands, { whole: options.quick !== true, tell: progress });
  } finally {
    process.off('SIGINT', interrupted);
    team?.stop();
    clearProgress();
  }
  if (study === null) return refuse(STOPPED, 'Stopped before anything was known.');
  const text =
    options.json === true
      ? `${JSON.stringify({ format: 'stopwright spread', version: 1, job: plan.job.name, request, ...study }, null, 2)}\n`
      : inWords(
          plan.job.name,
          study,
          unitSystems[options.units],
          paintFor(process.stdout.isTTY, process.env['NO_COLOR']),
        );
  await written(text);
  if (study.stopped) {
    process.stderr.write(`Stopped after ${study.outcome.draws} of ${study.outcome.asked} draws.\n`);
    return STOPPED;
  }
  return codeOf(study.outcome);
}

function requestOf(options: SpreadOptions): SpreadRequest | string {
  const whole = (text: string | undefined, usual: number) =>
    text === undefined ? usual : /^\d+$/.test(text) ? Number(text) : NaN;
  const draws = whole(options.draws, usualRequest.draws);
  const seed = whole(options.seed, usualRequest.seed);
  if (!(draws >= 1 && draws <= MOST_DRAWS))
    return `--draws is a whole number from 1 to ${MOST_DRAWS}, not "${plain(options.draws ?? '')}".`;
  if (!(seed < 2 ** 31)) return `--seed is a whole number below ${2 ** 31}, not "${plain(options.seed ?? '')}".`;
  const shared: SpreadRequest['shared'][number][] = [];
  for (const text of options.share ?? []) {
    const [name = '', part = '1'] = text.split('=');
    const instrument = instruments.find((one) => one.name === name.trim())?.name;
    const correlation = Number(part);
    if (instrument === undefined)
      return `--share names one of: ${instruments.map((one) => one.name).join(', ')}; not "${plain(name)}".`;
    if (!(correlation > 0 && correlation <= 1))
      return `--share ${instrument}: the part in common is above 0 and at most 1, not "${plain(part)}".`;
    shared.push({ name: instrument, instrument, correlation });
  }
  return { ...usualRequest, draws, seed, shared, unwritten: options.writtenOnly === true ? 'exact' : 'instrument' };
}

function codeOf({ findings, notKnown }: SpreadOutcome): number {
  const most = Math.max(0, ...findings.map(({ failing }) => failing.value));
  if (most > 0.5) return FAILS;
  if (most > SMALL) return NOT_SURE;
  return notKnown.length > 0 ? NOT_KNOWN : SURE;
}

function problemWords(path: string, problems: readonly SpreadProblem[]): string {
  const name = path === '-' ? 'The job on standard input' : plain(path);
  return [
    `${name} has no spread that can be reckoned:`,
    ...problems
      .slice(0, 50)
      .map((one) =>
        wrapped(`${one.path === '' ? '' : `${plain(one.path)}: `}${plain(one.problem)}.`, WIDTH, '  ', '      '),
      ),
  ].join('\n');
}

function inWords(name: string, study: SpreadStudy, units: DisplayUnits, paint: Paint): string {
  const { outcome, sensitivity, tightening } = study;
  const block = (text: string, indent = '  ') => wrapped(plain(text), WIDTH, indent, `${indent}  `);
  const byRisk = [...outcome.findings].sort((a, b) => b.failing.value - a.failing.value || b.thin.value - a.thin.value);
  const written = outcome.inputs.filter(({ from }) => from === 'written').length;
  const lines = [
    paint.strong(plain(name).slice(0, WIDTH)),
    block(
      `${outcome.draws} draws of ${outcome.inputs.length} quantities (${written} with a ± as written, ${outcome.inputs.length - written} by their instrument), ${outcome.exact} taken as exact; seed ${outcome.seed}.`,
      '',
    ),
    '',
    paint.strong('Chance that it'),
    ...outcome.chances
      .filter((one) => one.name === 'full home' || one.name === 'return' || one.name === 'within class')
      .map((one) =>
        block(`${one.words}: ${chanceWords(one.chance)}${chanceErrorWords(one.chance)}${undecided(one.undecided)}`),
      ),
    '',
    paint.strong('Chance of failing, of being thin; margin as written and in 95 % of draws'),
    ...byRisk.filter((one) => !alwaysHeld(one)).map((one) => findingLine(one, paint)),
  ];
  const held = byRisk.filter(alwaysHeld);
  if (held.length > 0)
    lines.push(
      '',
      paint.strong(`Held in every draw (so ${held[0] === undefined ? '' : chanceWords(held[0].failing)} fail)`),
    );
  lines.push(...held.map((one) => block(`${one.title}${undecided(one.undecided)}: margin ${marginWords(one)}`)));
  for (const one of outcome.notKnown)
    lines.push(
      block(`Not known: ${one.title}${one.missing.length > 0 ? `. Take this reading: ${one.missing.join(', ')}` : ''}`),
    );
  const weighed = (sensitivity?.findings ?? []).filter(({ factors }) => factors !== null && factors.length > 0);
  if (weighed.length > 0)
    lines.push('', paint.strong('What matters: share of the spread, alone and with all that it acts through'));
  for (const { id, factors } of weighed) {
    lines.push(block(outcome.findings.find((one) => one.id === id)?.title ?? id));
    for (const { paths, first, total } of (factors ?? []).filter((one) => one.total.value >= 0.03).slice(0, 5))
      lines.push(`    ${share(first.value)} ${share(total.value)}  ${plain(paths.join(', ')).slice(0, WIDTH - 18)}`);
  }
  if (tightening.length > 0) lines.push('', paint.strong('What would bring the chance of failing below 1 %'));
  for (const { finding, options } of tightening) {
    lines.push(block(outcome.findings.find((one) => one.id === finding)?.title ?? finding));
    for (const option of options)
      lines.push(
        block(
          tighteningWords(option, outcome.inputs, (path) => path, units),
          '    ',
        ),
      );
  }
  const never = outcome.findings.filter(({ nominal }) => nominal < 0);
  if (never.length > 0)
    lines.push(
      '',
      block(
        'What fails as it is written is not mended by measuring: see stopwright assess for what would mend it.',
        '',
      ),
    );
  lines.push('', ...outcome.remarks.map((one) => block(one, '')), '', wrapped(CAUTION, WIDTH, '', ''), '');
  return lines.map((line) => line.trimEnd()).join('\n');
}

const share = (value: number): string =>
  `${Math.max(0, 100 * value)
    .toFixed(0)
    .padStart(3)} %`;
const undecided = (count: number): string => (count === 0 ? '' : ` (${count} draws could not be decided)`);

const alwaysHeld = ({ failing, thin }: FindingSpread): boolean => failing.value === 0 && thin.value === 0;

function marginWords(one: FindingSpread): string {
  const number = (value: number) =>
    one.marginUnit === 'share' ? `${(100 * value).toFixed(0)} %` : Number(value.toPrecision(3)).toString();
  const unit = one.marginUnit === 'share' || one.marginUnit === 'ratio' ? '' : ` ${one.marginUnit}`;
  const isOne = one.interval === null || number(one.interval.from) === number(one.interval.to);
  const range = isOne || one.interval === null ? '' : ` (${number(one.interval.from)} to ${number(one.interval.to)})`;
  return `${number(one.nominal)}${range}${unit}`;
}

function findingLine(one: FindingSpread, paint: Paint): string {
  const words = wrapped(
    plain(
      `${one.title}: fails ${chanceWords(one.failing)}, thin ${chanceWords(one.thin)}; margin ${marginWords(one)}${undecided(one.undecided)}`,
    ),
    WIDTH,
    '  ',
    '    ',
  );
  return one.failing.value > 0.5 ? paint.bad(words) : one.failing.value > SMALL ? paint.warn(words) : words;
}

let lastShown = '';
function progress({ stage, done, of }: SpreadProgress): void {
  if (!process.stderr.isTTY) return;
  const words = `${stage}: ${Math.floor((100 * done) / of)} %`;
  if (words === lastShown) return;
  lastShown = words;
  process.stderr.write(`\r\u001b[K${words}`);
}

function clearProgress(): void {
  if (process.stderr.isTTY && lastShown !== '') process.stderr.write('\r\u001b[K');
}

function refuse(code: number, words: string): number {
  process.stderr.write(`${words}\n`);
  return code;
}

function written(text: string): Promise<void> {
  return new Promise((resolve, reject) => process.stdout.write(text, (error) => (error ? reject(error) : resolve())));
}
