/** What "Time and heat" shows, as one immutable value, and how it follows the desk. */
import { create } from 'zustand';
import type { MeasuredTrace } from '../../assessment/time/picture.ts';
import type { Job } from '../../job/schema.ts';
import { desk, useDesk } from '../desk/desk.ts';
import { newestOnly } from '../panels/newest.ts';
import { useUnits } from '../show/units.ts';
import type { MeasureOptions } from './measured.ts';
import { timer } from './timer.ts';
import type { Summary, TimeSheets } from './worker.ts';

export type Measuring =
  | { readonly word: 'none' }
  | { readonly word: 'reading'; readonly name: string; readonly share: number }
  | { readonly word: 'there'; readonly trace: MeasuredTrace; readonly readAs: string }
  | {
      readonly word: 'failed';
      readonly name: string;
      readonly problems: readonly string[];
      /** Columns of which one has to be named. */
      readonly channels: readonly string[];
    };

interface Times {
  /** The document that the summary belongs to. */
  readonly of: Job | null;
  readonly word: 'working' | 'slow' | 'there' | 'stopped' | 'failed';
  readonly trouble: string | null;
  readonly summary: Summary | null;
  readonly sheets: TimeSheets | null;
  /** Name of the one run to show; null for both. */
  readonly only: string | null;
  readonly measuring: Measuring;
}

export const useTimes = create<Times>()(() => ({
  of: null,
  word: 'working',
  trouble: null,
  summary: null,
  sheets: null,
  only: null,
  measuring: { word: 'none' },
}));

const times = useTimes.getState;
const put = useTimes.setState;

/** After so long, progress is shown and can be stopped. */
const SLOW_MS = 400;

let isStudying = false;

/** Follows the document on the desk in time; the newest one is what gets studied. */
async function study(): Promise<void> {
  if (isStudying) return;
  isStudying = true;
  try {
    for (let { document } = desk(); document !== null && document !== times().of; { document } = desk()) {
      const asked = document;
      put({ of: asked, word: 'working' });
      const slow = setTimeout(() => put({ word: 'slow' }), SLOW_MS);
      try {
        const summary = await timer.study(asked);
        if (summary === null) put({ word: 'stopped' });
        else put({ word: 'there', summary, trouble: null });
      } catch (error) {
        put({
          word: 'failed',
          summary: null,
          sheets: null,
          trouble: error instanceof Error ? error.message : String(error),
        });
      } finally {
        clearTimeout(slow);
      }
    }
  } finally {
    isStudying = false;
  }
  draw();
}

export function stopStudy(): void {
  timer.stop();
}

export function studyAgain(): void {
  put({ of: null });
  void study();
}

let width = 0;

export function setSheetWidth(next: number): void {
  if (next === width) return;
  width = next;
  draw();
}

const draw = newestOnly(drawSheets, (trouble) => put({ trouble }));

async function drawSheets(): Promise<void> {
  const { summary, word, only, measuring } = times();
  if (width === 0 || summary === null || word === 'failed') return;
  const measured = measuring.word === 'there' ? measuring.trace : null;
  const sheets = await timer.sheets({ only, measured, width });
  if (sheets !== null) put({ sheets, trouble: null });
}

/** From now on what is shown follows the desk; gives the way to end that. */
export function followDesk(): () => void {
  const ends = [
    useDesk.subscribe((now, before) => {
      if (now.document !== before.document) void study();
      if (now.job?.id !== before.job?.id) forgetMeasured();
    }),
    useUnits.subscribe(draw),
  ];
  void study();
  return () => ends.forEach((end) => end());
}

export function show(only: string | null): void {
  put({ only });
  draw();
}

let file: File | null = null;
let asked: MeasureOptions = {};

export async function measure(next: File, options: MeasureOptions = {}): Promise<void> {
  file = next;
  asked = options;
  timer.stopMeasuring();
  put({ measuring: { word: 'reading', name: next.name, share: 0 } });
  const isStill = () => file === next && times().measuring.word === 'reading';
  try {
    const reading = await timer.measure(next, options, desk().document, (share) => {
      if (isStill()) put({ measuring: { word: 'reading', name: next.name, share } });
    });
    if (reading === null || !isStill()) return;
    put({
      measuring: reading.ok
        ? { word: 'there', trace: reading.trace, readAs: reading.readAs }
        : { word: 'failed', name: next.name, problems: reading.problems, channels: reading.channels },
    });
  } catch (error) {
    if (!isStill()) return;
    const problems = [error instanceof Error ? error.message : String(error)];
    put({ measuring: { word: 'failed', name: next.name, problems, channels: [] } });
  }
  draw();
}

/** Reads the same file once more, with what has been said of it before and now. */
export function measureOtherwise(options: MeasureOptions): void {
  if (file !== null) void measure(file, { ...asked, ...options });
}

export function forgetMeasured(): void {
  if (times().measuring.word === 'none') return;
  timer.stopMeasuring();
  file = null;
  put({ measuring: { word: 'none' } });
  draw();
}
