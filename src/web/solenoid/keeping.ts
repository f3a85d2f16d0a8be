/**
 * Where the solenoid is kept: with its job, in the store behind the app, and in this browser until that has answered. Each
 * kept text carries a mark; where the mark in the store is not the one that this page read or wrote last, another window has
 * kept a solenoid since, and a person decides which one counts.
 */
import { NOT_MEASURED } from '../../job/quantity-text.ts';
import type { SolenoidDocument } from '../../job/solenoid/schema.ts';
import { api, NotDone } from '../keeping/api.ts';
import { newId } from '../keeping/tab.ts';
import { noSteps, type Steps } from '../desk/steps.ts';
import { bench, clearBench, putOnBench, strokeOf, useBench, type Bench } from './bench.ts';
import { solver } from './solver.ts';

interface KeptSolenoid {
  readonly mark: string;
  /** The mark of what the store held when this was made. */
  readonly from: string | null;
  readonly document: unknown;
  readonly steps: Steps;
  readonly drive?: Bench['drive'];
}

const PATIENCE_MS = 400;
const MOST_STEPS_KEPT = 300;
const place = (job: string): string => `stopwright solenoid ${job}`;

/** The mark of what the store holds as far as this page knows. */
let mark: string | null = null;
let timer: ReturnType<typeof setTimeout> | undefined;
let sending: Promise<void> | null = null;

function parsed(text: string | null): KeptSolenoid | null {
  if (text === null) return null;
  try {
    const value = JSON.parse(text) as Partial<KeptSolenoid>;
    if (typeof value.mark !== 'string' || value.document === undefined) return null;
    const { mark: known, from = null, document, steps = noSteps, drive } = value;
    return { mark: known, from, document, steps, ...(drive !== undefined && { drive }) };
  } catch {
    return null;
  }
}

function leftHere(job: string): string | null {
  try {
    return localStorage.getItem(place(job));
  } catch {
    return null;
  }
}

function leaveHere(job: string, text: string | null): void {
  try {
    if (text === null) localStorage.removeItem(place(job));
    else localStorage.setItem(place(job), text);
  } catch {
    // The store behind the app still gets it.
  }
}

/**
 * Takes the solenoid of a job to the bench: what this browser has not sent yet, else what the store has, else a first one:
 * that of the demo for a demo, and one on which nothing was measured for any other job.
 */
export async function openSolenoid(job: string, isDemo: boolean): Promise<void> {
  if (bench().job === job && bench().document !== null) return;
  clearBench(job);
  try {
    const there = parsed((await api.solenoid(job)).value);
    const here = parsed(leftHere(job));
    // What waits here was made from an older one where the store has another by now: then a person is asked.
    mark = here === null || here.mark === there?.mark ? (there?.mark ?? null) : here.from;
    const kept = here ?? there;
    const first = async () => (isDemo ? solver.example() : solver.blank());
    const reading = await solver.read(kept === null ? await first() : kept.document);
    if (bench().job !== job) return;
    if (!reading.ok) {
      const [problem] = reading.problems;
      putOnBench({
        kept: {
          word: 'NOT kept',
          why: `The solenoid kept with this job does not read: ${problem?.path ?? ''} ${problem?.problem ?? ''}. It stays as it is until you change something here.`,
          isElsewhere: false,
        },
        document: await solver.blank(),
      });
      return;
    }
    const voltage = reading.document.coil.ratedVoltage === NOT_MEASURED ? '' : reading.document.coil.ratedVoltage;
    putOnBench({
      document: reading.document,
      steps: kept?.steps ?? noSteps,
      drive: kept?.drive ?? { voltage, coilTemperature: '20 °C' },
      ...strokeOf(reading),
    });
    if (here !== null) void keep();
  } catch (error) {
    if (!(error instanceof NotDone)) throw error;
    putOnBench({ notice: `${error.trouble.what} ${error.trouble.safe} ${error.trouble.next}` });
  }
}

/** Keeps every change from now on; gives the way to end that. */
export function keepChanges(): () => void {
  const leave = () => {
    if (bench().kept.word !== 'kept') writeHere();
  };
  window.addEventListener('pagehide', leave);
  const end = useBench.subscribe((now, before) => {
    if (now.job !== before.job || now.document === null || before.document === null) return;
    if (now.document === before.document && now.drive === before.drive) return;
    putOnBench({ kept: { word: 'keeping' } });
    writeHere();
    clearTimeout(timer);
    timer = setTimeout(() => void keep(), PATIENCE_MS);
  });
  return () => {
    end();
    window.removeEventListener('pagehide', leave);
  };
}

function textNow(): { readonly job: string; readonly text: string; readonly mark: string } | null {
  const { job, document, steps, drive } = bench();
  if (job === null || document === null) return null;
  const list = steps.list.slice(Math.max(0, steps.done - MOST_STEPS_KEPT));
  const done = steps.done - (steps.list.length - list.length);
  const next = newId();
  return {
    job,
    mark: next,
    text: JSON.stringify({ mark: next, from: mark, document, steps: { list, done }, drive } satisfies KeptSolenoid),
  };
}

function writeHere(): void {
  const now = textNow();
  if (now !== null) leaveHere(now.job, now.text);
}

/** @param over whatever another window has kept since */
export async function keep(over = false): Promise<void> {
  clearTimeout(timer);
  if (sending !== null) await sending;
  sending = send(over).finally(() => {
    sending = null;
  });
  await sending;
}

async function send(over: boolean): Promise<void> {
  const now = textNow();
  if (now === null) return;
  const { document } = bench();
  try {
    const there = parsed((await api.solenoid(now.job)).value);
    if (!over && there !== null && there.mark !== mark) {
      putOnBench({
        kept: {
          word: 'NOT kept',
          why: 'Another window has kept a different solenoid for this job.',
          isElsewhere: true,
        },
      });
      return;
    }
    leaveHere(now.job, now.text);
    await api.keepSolenoid(now.job, now.text);
    mark = now.mark;
    // What was typed in the meantime is kept by the next round.
    if (bench().job !== now.job || bench().document !== document) return;
    leaveHere(now.job, null);
    putOnBench({ kept: { word: 'kept' } });
  } catch (error) {
    if (!(error instanceof NotDone)) throw error;
    putOnBench({
      kept: {
        word: 'NOT kept',
        why: `${error.trouble.what} What you entered waits in this browser. ${error.trouble.next}`,
        isElsewhere: false,
      },
    });
  }
}

/** Gives up what is here for what another window has kept. */
export async function takeTheirs(): Promise<void> {
  const { job } = bench();
  if (job === null) return;
  leaveHere(job, null);
  clearBench('');
  await openSolenoid(job, false);
}

export function saveAsFile(document: SolenoidDocument): void {
  const address = URL.createObjectURL(
    new Blob([`${JSON.stringify(document, null, 2)}\n`], { type: 'application/json' }),
  );
  const link = window.document.createElement('a');
  link.href = address;
  link.download = 'solenoid.json';
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
