/** `stopwright drawer`: which solenoids and cables of a drawer fit a job, each put in and assessed. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { CAUTION } from '../assessment/finding.ts';
import { apply } from '../job/change.ts';
import type { Drawer } from '../job/drawer/schema.ts';
import { writeJob } from '../job/read.ts';
import type { Job } from '../job/schema.ts';
import type { ItemTried } from '../proposal/drawer-item.ts';
import {
  itemsTried,
  itemTasks,
  notTriedWords,
  tryItem,
  type ItemKind,
  type ItemsTried,
  type ItemTask,
} from '../proposal/drawer-others.ts';
import type { DisplayUnits } from '../units/quantity.ts';
import { drawerFrom } from './drawer-file.ts';
import { UNREADABLE, WRONG_USAGE } from './exit-codes.ts';
import { jobFrom } from './job-file.ts';
import { paintFor, plain, wrapped, type Paint } from './print.ts';
import { threads, type Threads } from './threads.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';
import { verdictWord } from './verdict-word.ts';

export interface DrawerOptions {
  readonly out?: string;
  readonly workers?: string;
  readonly json?: boolean;
  readonly units: UnitSystem;
}

const WIDTH = 80;
/** 128 + SIGINT, as shells have it. */
const STOPPED = 130;

export async function drawerCommand(path: string, drawerPath: string, options: DrawerOptions): Promise<number> {
  const workers = options.workers === undefined ? Math.min(8, availableParallelism()) : Number(options.workers);
  if (!(Number.isInteger(workers) && workers >= 0 && workers <= 64))
    return refuse(`--workers is a whole number from 0 to 64, not "${plain(options.workers ?? '')}".`, WRONG_USAGE);
  if (path === '-' && drawerPath === '-')
    return refuse('Only one of job and drawer can stand on standard input.', WRONG_USAGE);
  const file = jobFrom(path);
  if (!file.ok) return refuse(file.reason, UNREADABLE);
  const drawer = drawerFrom(drawerPath);
  if (typeof drawer === 'string') return refuse(drawer, UNREADABLE);
  const units = unitSystems[options.units];
  const { tried, isStopped } = await triedAll(file.job, drawer, units, workers);
  if (options.out !== undefined) {
    const trouble = written(options.out, file.job, tried);
    if (trouble !== null) return refuse(trouble, UNREADABLE);
  }
  const text =
    options.json === true
      ? `${JSON.stringify({ format: 'stopwright drawer tried', version: 1, job: file.job.name, drawer: drawer.name, finished: !isStopped, solenoids: tried.solenoid, cables: tried.cable, handCables: tried['hand cable'], caution: CAUTION }, null, 2)}\n`
      : inWords(file.job, drawer, tried, isStopped, paintFor(process.stdout.isTTY, process.env['NO_COLOR']));
  await new Promise<void>((resolve, reject) =>
    process.stdout.write(text, (error) => (error ? reject(error) : resolve())),
  );
  return isStopped ? STOPPED : codeOf(tried);
}

function codeOf(tried: ItemsTried): number {
  const fits = Object.values(tried)
    .flat()
    .filter((one) => one.fits);
  if (fits.some(({ least, notKnown }) => least >= 1 - 1e-6 && notKnown.length === 0)) return 0;
  return fits.length > 0 ? 1 : 2;
}

async function triedAll(
  job: Job,
  drawer: Drawer,
  units: DisplayUnits,
  workers: number,
): Promise<{ readonly tried: ItemsTried; readonly isStopped: boolean }> {
  const tasks = itemTasks(job, drawer);
  const results: (ItemTried | undefined)[] = tasks.map(() => undefined);
  let isStopped = false;
  let team: Threads<ItemTask, ItemTried> | null = null;
  const stop = (): void => {
    isStopped = true;
    team?.stop();
  };
  process.once('SIGINT', stop);
  let count = 0;
  const take = (piece: number, done: ItemTried): void => {
    results[piece] = done;
    count += 1;
    if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${count} of ${tasks.length} tried`);
  };
  try {
    // A thread costs a moment to begin: it is worth it where several solenoids must be laid out.
    const isWorthIt = workers > 0 && tasks.filter(({ kind }) => kind === 'solenoid').length > 2;
    if (isWorthIt) {
      team = threads('drawer', Math.min(workers, drawer.solenoids.length), { job, drawer, units });
      await team.run(tasks, take);
    } else
      for (const [piece, task] of tasks.entries()) {
        take(piece, tryItem(job, drawer, task, units));
        // oxlint-disable-next-line no-await-in-loop -- lets Ctrl-C in
        await setImmediate();
        if (isStopped) break;
      }
  } finally {
    process.removeListener('SIGINT', stop);
    team?.stop();
    if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
  }
  return { tried: itemsTried(tasks, results), isStopped };
}

const headings: Record<ItemKind, string> = { solenoid: 'Solenoids', cable: 'Electric cables', 'hand cable': 'Hand cables' }; // prettier-ignore

function inWords(job: Job, drawer: Drawer, tried: ItemsTried, isStopped: boolean, paint: Paint): string {
  const lines = [paint.strong(plain(`${job.name}: ${drawer.name}`).slice(0, WIDTH))];
  if (isStopped) lines.push('Stopped: not all of it was tried.');
  const kinds = Object.keys(headings) as ItemKind[];
  const shown = kinds.filter((kind) => tried[kind].length > 0);
  const notTried = notTriedWords(job, drawer);
  if (shown.length + notTried.length === 0) lines.push('', 'There is no solenoid and no cable in this drawer.');
  for (const kind of shown) lines.push('', paint.strong(headings[kind]), ...itemLines(tried[kind], paint));
  if (notTried.length > 0) lines.push('', ...notTried.map((words) => wrapped(plain(words), WIDTH, '', '')));
  lines.push('', wrapped(CAUTION, WIDTH, '', ''), '');
  return lines.map((line) => line.trimEnd()).join('\n');
}

function itemLines(list: readonly ItemTried[], paint: Paint): string[] {
  const say = (text: string, indent = '      ', then = '      ') => wrapped(plain(text), WIDTH, indent, then);
  const outs = list.filter((one) => !one.fits);
  return [
    ...(outs.length === list.length ? ['  None fits.'] : []),
    ...list.flatMap((one) =>
      one.fits
        ? [
            `  ${verdictWord(one.verdict, paint)} ${plain(one.name).slice(0, 50)}${one.place === '' ? '' : paint.quiet(` (${plain(one.place)})`)}`,
            ...one.words.map((words) => say(`${words}.`, '      - ', '        ')),
            say(
              `Least margin ${one.least.toFixed(2)} times what is wanted${one.notKnown.length > 0 ? ', of what is known' : ''}: ${one.decidedBy.title}.`,
            ),
            ...notKnownLines(one.notKnown, say),
          ]
        : [],
    ),
    ...(outs.length > 0 ? ['  Kept out, the nearest first:'] : []),
    ...outs.map((one) => say(`${one.name}: ${one.fits ? '' : one.because}${/[.!?]$/.test(one.fits ? '' : one.because) ? '' : '.'}`, '    ')), // prettier-ignore
  ];
}

const MOST_READINGS = 6;

function notKnownLines(
  notKnown: readonly { readonly missing: readonly string[] }[],
  say: (text: string) => string,
): string[] {
  if (notKnown.length === 0) return [];
  const readings = [...new Set(notKnown.flatMap(({ missing }) => missing))];
  const more = readings.length > MOST_READINGS ? ` and ${readings.length - MOST_READINGS} more` : '';
  return [
    say(
      `${notKnown.length === 1 ? 'One finding is' : `${notKnown.length} findings are`} not known with it. Take these readings of it first: ${readings.slice(0, MOST_READINGS).join(', ')}${more}.`,
    ),
  ];
}

/** The job with each that fits, to be assessed. Null when all are written. */
function written(folder: string, job: Job, tried: ItemsTried): string | null {
  try {
    mkdirSync(folder, { recursive: true });
    for (const [kind, list] of Object.entries(tried))
      list
        .filter((one) => one.fits)
        .forEach(({ changes }, i) =>
          writeFileSync(join(folder, `${kind.replaceAll(' ', '-')}-${i + 1}.json`), writeJob(apply(job, changes))),
        );
    return null;
  } catch (error) {
    return `Cannot write to ${plain(folder)}: ${(error as NodeJS.ErrnoException).code ?? 'for an unknown reason'}.`;
  }
}

function refuse(reason: string, code: number): number {
  process.stderr.write(`${reason}\n`);
  return code;
}
