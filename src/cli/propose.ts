/**
 * `stopwright propose`: layouts that work, searched. Progress goes to standard error; Ctrl-C ends the search and prints
 * the best so far, a second one ends the program.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { isSolenoid } from '../assessment/assess.ts';
import { apply } from '../job/change.ts';
import { writeJob } from '../job/read.ts';
import type { Job } from '../job/schema.ts';
import {
  ownHands,
  problemOf,
  proposalsOf,
  searchWith,
  springChoices,
  toLookAt,
  type Done,
  type Margin,
  type Offer,
  type Phase,
  type Problem,
  type ProblemOptions,
  type Proposals,
  type Searched,
  type SearchHands,
  type SearchProgress,
  type Task,
} from '../proposal/search/search.ts';
import { marginWords } from './assess.ts';
import { drawerFrom } from './drawer-file.ts';
import { UNREADABLE, WRONG_USAGE } from './exit-codes.ts';
import { jobFrom } from './job-file.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';
import { threads, type Threads } from './threads.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';
import { verdictWord } from './verdict-word.ts';

export interface ProposeOptions {
  readonly json?: boolean;
  readonly seed: string;
  readonly most: string;
  readonly out?: string;
  readonly workers?: string;
  /** Drawer file. */
  readonly drawer?: string;
  /** False: no spring is to be ordered. */
  readonly order?: boolean;
  readonly units: UnitSystem;
}

const WIDTH = 80;
const STOPPED = 130;
/** Findings that lose margin and still hold are named up to so many, those with least margin first. */
const MOST_NAMED = 4;
/** What is told on standard error comes no more often than this, ms. */
const TELL_EVERY = 500;

export async function proposeCommand(path: string, options: ProposeOptions): Promise<number> {
  const seed = wholeNumber(options.seed, 1, 1_000_000);
  const most = wholeNumber(options.most, 1, 20);
  if (seed === null || most === null) {
    process.stderr.write('--seed is a whole number from 1 to 1000000, --most one from 1 to 20.\n');
    return WRONG_USAGE;
  }
  const workers =
    options.workers === undefined ? Math.min(8, availableParallelism()) : wholeNumber(options.workers, 0, 64);
  if (workers === null) {
    process.stderr.write(`--workers is a whole number from 0 to 64, not "${plain(options.workers ?? '')}".\n`);
    return WRONG_USAGE;
  }
  const file = jobFrom(path);
  if (!file.ok) return refuse(file.reason);
  const { job } = file;
  if (!isSolenoid(job))
    return refuse(`"${plain(job.name)}" works by ${job.means.kind}: only the layout of a solenoid is searched.`);
  if (path === '-' && options.drawer === '-') {
    process.stderr.write('Only one of job and drawer can stand on standard input.\n');
    return WRONG_USAGE;
  }
  const drawer = options.drawer === undefined ? null : drawerFrom(options.drawer);
  if (typeof drawer === 'string') return refuse(drawer);
  const stock = { drawer, isToOrder: options.order !== false };
  const settings: ProblemOptions = { seed, others: springChoices(job, stock) };
  const problem = problemOf(job, settings);
  if (problem === null)
    return refuse(
      `"${plain(job.name)}": place and direction of the bracket, the stroke, the angles and the lash of the lever must be read first.`,
    );
  const { run, isStopped } = await searched(problem, settings, workers);
  const units = unitSystems[options.units];
  const found = proposalsOf(problem, run, most, units);
  if (options.out !== undefined) {
    const trouble = written(options.out, job, found);
    if (trouble !== null) return refuse(trouble);
  }
  const paint = paintFor(process.stdout.isTTY, process.env['NO_COLOR']);
  const text = options.json === true ? `${JSON.stringify(found, null, 2)}\n` : inWords(found, paint);
  await new Promise<void>((resolve, reject) =>
    process.stdout.write(text, (error) => (error ? reject(error) : resolve())),
  );
  return isStopped ? STOPPED : codeOf(found);
}

/** 0 an offer holds throughout, 1 the best is thin or not known somewhere, 2 nothing works. */
function codeOf({ offers }: Proposals): number {
  if (offers.some(({ verdict }) => verdict === 'holds')) return 0;
  return offers.some(({ value }) => value !== null && value >= 0) ? 1 : 2;
}

function wholeNumber(text: string, least: number, greatest: number): number | null {
  const value = Number(text);
  return /^\d+$/.test(text) && value >= least && value <= greatest ? value : null;
}

function refuse(reason: string): number {
  process.stderr.write(`${reason}\n`);
  return UNREADABLE;
}

/** @param workers threads; none: in this one */
async function searched(problem: Problem, settings: ProblemOptions, workers: number): Promise<Searched> {
  let isStopped = false;
  let team: Threads<Task, Done> | null = null;
  const stop = (): void => {
    isStopped = true;
    team?.stop();
  };
  process.once('SIGINT', stop);
  try {
    // A signal is heard only between tasks.
    let hands: SearchHands = ownHands(problem, setImmediate, () => isStopped);
    if (workers > 0) hands = team = threads<Task, Done>('search', workers, { job: problem.job, options: settings });
    const found = await searchWith(problem, hands, teller(problem));
    if (found.isStopped) process.stderr.write('Stopped. The best so far:\n');
    return found;
  } finally {
    process.removeListener('SIGINT', stop);
    team?.stop();
  }
}

const phaseWords: Record<Phase, string> = {
  looking: 'looking at every combination',
  assessing: 'assessing the best',
  'other springs': 'trying other springs on the best',
  refining: 'refining the best',
  'looking at every step': 'looking at every step that can be set',
  'assessing steps': 'assessing the best of every step',
  nearest: 'looking for the nearest answer',
  'second changes': 'looking for the nearest answer by two changes',
  closing: 'looking for what closes the space',
  done: 'done',
};

function teller(problem: Problem): (progress: SearchProgress) => void {
  let last = performance.now();
  let told: Phase | null = null;
  return ({ phase, share, lookedAt }) => {
    const now = performance.now();
    if (now - last < TELL_EVERY && (phase === told || told === null)) return;
    last = now;
    told = phase;
    const millions = (count: number) => (count / 1e6).toFixed(1);
    const looked = phase === 'looking' ? `, ${millions(lookedAt)} of ${millions(toLookAt(problem))} million` : '';
    process.stderr.write(`${Math.round(100 * share)} % ${phaseWords[phase]}${looked}\n`);
  };
}

/** Each answer as a job of its own, to be assessed. Null when all are written. */
function written(folder: string, job: Job, { offers, nearest }: Proposals): string | null {
  const files = [
    ...offers.map((offer, i) => [`proposal-${i + 1}.json`, offer] as const),
    ...(nearest === null ? [] : [['nearest.json', nearest] as const]),
  ];
  try {
    mkdirSync(folder, { recursive: true });
    for (const [name, { changes }] of files) writeFileSync(join(folder, name), writeJob(apply(job, changes)));
    return null;
  } catch (error) {
    return `Cannot write to ${plain(folder)}: ${(error as NodeJS.ErrnoException).code ?? 'for an unknown reason'}.`;
  }
}

function inWords(found: Proposals, paint: Paint): string {
  const { before, offers, nearest, noNearest, singles, untouched, closed, counts, assumed } = found;
  const say = (text: string, indent = '    ', then = indent) => wrapped(plain(text), WIDTH, indent, then);
  const lines = [
    paint.strong(plain(found.job).slice(0, WIDTH)),
    say(
      `${counts.lookedAt.toLocaleString('en')} of ${counts.combinations.toLocaleString('en')} combinations looked at, ${counts.placed.toLocaleString('en')} of them placed, ${counts.assessed} assessed; seed ${found.seed}${found.finished ? '' : '; stopped before the end'}`,
      '',
    ),
    '',
    `As it is      ${verdictWord(before.verdict, paint)}`,
    ...decidedBy(before.deciding, before.value, say),
  ];
  if (closed !== null) lines.push('', say(closed.words, ''));
  offers.forEach((offer, i) =>
    lines.push('', paint.strong(`Proposal ${i + 1}: ${plain(offer.name)}`), ...offerLines(offer, paint, say)),
  );
  lines.push('', paint.strong('Nearest to what is there'));
  if (nearest === null) lines.push(say(noNearest ?? ''));
  else lines.push(...offerLines(nearest, paint, say));
  if (singles.length > 0) {
    lines.push('', paint.strong('Smallest single change for each finding that does not hold'));
    for (const { title, words, verdict, worsens } of singles) {
      const harm = worsens
        .filter(({ to }) => to.verdict !== 'holds')
        .map((one) => `"${one.title}" then ${one.to.verdict}`);
      lines.push(
        `${verdictWord(verdict, paint)} ${plain(title).slice(0, WIDTH - 12)}`,
        say(
          words === null
            ? 'None of the changes that are known mends it alone.'
            : `${words}.${harm.length > 0 ? ` But ${harm.join(', ')}.` : ''}`,
        ),
      );
    }
  }
  if (untouched.length > 0) {
    lines.push('', paint.strong('No layout changes these'));
    for (const one of untouched)
      lines.push(`${verdictWord(one.verdict, paint)} ${plain(one.title).slice(0, WIDTH - 12)}`);
  }
  if (assumed.length > 0) {
    lines.push('', paint.strong('Taken where the job states no limit'));
    for (const one of assumed) lines.push(say(`${one}.`, '  ', '    '));
  }
  lines.push('', wrapped(found.caution, WIDTH, '', ''), '');
  return lines.map((line) => line.trimEnd()).join('\n');
}

type Say = (text: string, indent?: string, then?: string) => string;

function decidedBy(deciding: Margin | null, value: number | null, say: Say): string[] {
  if (deciding === null || value === null) return [];
  return [say(`Smallest margin ${value.toFixed(2)} times what is wanted: ${deciding.title}, ${marginWords(deciding)}`)];
}

function offerLines(offer: Offer, paint: Paint, say: Say): string[] {
  const worse = offer.givesUp.filter(({ to }) => to.verdict !== 'holds');
  const less = offer.givesUp.filter(({ to }) => to.verdict === 'holds').map(({ title }) => `"${title}"`);
  const more = less.length > MOST_NAMED ? ` and ${less.length - MOST_NAMED} more` : '';
  return [
    `${verdictWord(offer.verdict, paint)} cost ${offer.cost} points`,
    ...decidedBy(offer.deciding, offer.value, say),
    ...offer.words.map((words) => say(`${words}.`, '    - ', '      ')),
    ...(offer.order ?? []).map(([name, words]) =>
      wrapped(plain(words), WIDTH, `        ${name.padEnd(17)} `, ' '.repeat(26)),
    ),
    ...worse.map(({ title, from, to }) =>
      say(`Gives up: "${title}" goes from ${from.verdict} to ${to.verdict}.`, '    ', '      '),
    ),
    ...(less.length === 0
      ? []
      : [
          say(
            `Less margin than now, and still enough: ${less.slice(0, MOST_NAMED).join(', ')}${more}.`,
            '    ',
            '      ',
          ),
        ]),
  ];
}
