/** `stopwright springs`: the window of the return spring, what fits of a drawer, a spring to order. */
import { setImmediate } from 'node:timers/promises';
import { isSolenoid } from '../assessment/assess.ts';
import type { SolenoidJob } from '../assessment/rig.ts';
import { usualQuestion, windowOf } from '../assessment/window/window.ts';
import type { WindowQuestion } from '../assessment/window/kinds.ts';
import { lineIn } from '../assessment/window/line.ts';
import type { Drawer } from '../job/drawer/schema.ts';
import { fittingSteps, type Fitting } from '../proposal/drawer.ts';
import { openings } from '../proposal/drawer-opens.ts';
import { springToOrder } from '../proposal/drawer-order.ts';
import type { DisplayUnits } from '../units/quantity.ts';
import { drawerFrom } from './drawer-file.ts';
import { UNREADABLE, verdictCode, WRONG_USAGE } from './exit-codes.ts';
import { jobFrom } from './job-file.ts';
import { paintFor, plain } from './print.ts';
import { asData, inWords, type Said } from './springs-words.ts';
import { unitSystems, type UnitSystem } from './unit-systems.ts';

export interface SpringsOptions {
  readonly drawer?: string;
  readonly order?: boolean;
  readonly spring?: string;
  readonly json?: boolean;
  readonly units: UnitSystem;
}

/** 128 + SIGINT, as shells have it. */
const STOPPED = 130;

export async function springsCommand(path: string, options: SpringsOptions): Promise<number> {
  const file = jobFrom(path);
  if (!file.ok) return refuse(file.reason, UNREADABLE);
  const { job } = file;
  if (!isSolenoid(job))
    return refuse(
      `"${plain(job.name)}" works by ${job.means.kind}: no pull is known that a spring could be held against.`,
      UNREADABLE,
    );
  const question = questionIn(job, options.spring);
  if (typeof question === 'string') return refuse(question, WRONG_USAGE);
  if (path === '-' && options.drawer === '-')
    return refuse('Only one of job and drawer can stand on standard input.', WRONG_USAGE);
  const drawer = options.drawer === undefined ? null : drawerFrom(options.drawer);
  if (typeof drawer === 'string') return refuse(drawer, UNREADABLE);
  const units = unitSystems[options.units];
  const window = windowOf(job, question);
  const line = lineIn(job, window);
  const opened = window.tightest !== null && !window.isOpen ? openings(job, question, units) : [];
  const search =
    drawer === null ? null : await searched(job, drawer, options.spring === undefined ? null : question, units);
  const order =
    options.order === true && search?.isStopped !== true ? springToOrder(job, drawer?.places, question, units) : null;
  const said: Said = { job, window, line, opened, drawer, fitting: search?.fitting ?? null, order };
  await write(
    options.json === true
      ? `${JSON.stringify(asData(said), null, 2)}\n`
      : inWords(said, paintFor(process.stdout.isTTY, process.env['NO_COLOR']), units),
  );
  return search?.isStopped === true ? STOPPED : exitCodeOf(said);
}

/** By the present spring: inside 0, outside an open window 1, a window that is shut 2, not known 3. */
function exitCodeOf({ window, line }: Said): number {
  if (window.tightest === null || (line !== null && line.toFloor === null)) return verdictCode['not known'];
  if (!window.isOpen) return verdictCode.fails;
  const isInside = line === null || ((line.toFloor?.distance ?? 0) >= 0 && (line.toCeiling?.distance ?? 0) >= 0);
  return isInside ? verdictCode.holds : verdictCode.thin;
}

function questionIn(job: SolenoidJob, number: string | undefined): WindowQuestion | string {
  if (number === undefined) return usualQuestion(job);
  const index = Number(number) - 1;
  const spring = job.return.springs[index];
  return spring === undefined
    ? `--spring: this job has ${job.return.springs.length} return springs, counted from 1.`
    : { on: spring.on, index };
}

/** Ctrl-C ends the search and keeps the best so far. */
async function searched(
  job: SolenoidJob,
  drawer: Drawer,
  question: WindowQuestion | null,
  units: DisplayUnits,
): Promise<{ readonly fitting: Fitting; readonly isStopped: boolean }> {
  let isStopped = false;
  const interrupted = (): void => {
    isStopped = true;
  };
  process.on('SIGINT', interrupted);
  try {
    const steps = fittingSteps(job, drawer, question, units);
    for (;;) {
      const { done, value } = steps.next();
      if (done === true) return { fitting: value, isStopped: false };
      progress(`${value.stage} ${value.done} of ${value.of}`);
      await setImmediate(); // lets Ctrl-C in
      if (isStopped) return { fitting: value.soFar(), isStopped: true };
    }
  } finally {
    progress('');
    process.off('SIGINT', interrupted);
  }
}

/** On a terminal only: a script wants none of it. */
function progress(words: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${words}`);
}

function write(text: string): Promise<void> {
  return new Promise((resolve, reject) => process.stdout.write(text, (error) => (error ? reject(error) : resolve())));
}

function refuse(reason: string, code: number): number {
  process.stderr.write(`${reason}\n`);
  return code;
}
