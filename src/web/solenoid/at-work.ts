/**
 * What happens on its own when something on the bench changes: the cutaway follows within the frame, a coarse curve within
 * a moment, the fine one when nothing more is typed; the picture of the field follows the travel control.
 */
import { readQuantity } from '../../units/quantity.ts';
import { newestOnly } from '../panels/newest.ts';
import { useUnits } from '../show/units.ts';
import { bench, putOnBench, useBench } from './bench.ts';
import { solver } from './solver.ts';
import type { SheetSize, SolveRequest } from './worker.ts';

/** Nothing typed for so long: the fine solve begins. */
const QUIET_MS = 600;
const PICTURE_QUIET_MS = 60;

export type Sheet = 'cutaway' | 'flux' | 'chart';
const sizes: Partial<Record<Sheet, SheetSize>> = {};

export function setSheetSize(sheet: Sheet, size: SheetSize): void {
  if (JSON.stringify(sizes[sheet]) === JSON.stringify(size)) return;
  sizes[sheet] = size;
  draw[sheet]();
}

function fail(trouble: string): void {
  putOnBench({ notice: `The drawing could not be made: ${trouble}` });
}

const gapNow = (): number => bench().gap_mm / 1000;

/** What is to be solved; the drive is null where what was typed there does not read. */
function requestNow(): SolveRequest | null {
  const { document, drive } = bench();
  if (document === null) return null;
  const [volts, warm] = [readQuantity(drive.voltage, 'voltage'), readQuantity(drive.coilTemperature, 'temperature')];
  const reads = volts.ok && warm.ok && volts.quantity.value > 0 && warm.quantity.value > 173;
  return {
    document,
    drive: reads ? { by: 'voltage', voltage: volts.quantity.value, coilTemperature: warm.quantity.value } : null,
  };
}

const draw: Readonly<Record<Sheet, () => void>> = {
  cutaway: newestOnly(async () => {
    const { document, tried } = bench();
    const size = sizes.cutaway;
    if (document === null || size === undefined) return;
    putOnBench({ cutaway: await solver.cutaway(tried ?? document, gapNow(), size) });
  }, fail),
  flux: newestOnly(async () => {
    const request = requestNow();
    const size = sizes.flux;
    if (request === null || size === undefined) return;
    const { sheet, trouble } = await solver.flux(request, gapNow(), size);
    if (bench().document === request.document) putOnBench({ flux: sheet, fluxTrouble: trouble });
  }, fail),
  chart: newestOnly(async () => {
    const { outcome } = bench();
    const size = sizes.chart;
    if (outcome === null || size === undefined) return putOnBench({ chart: null, gapAxis: null });
    const { sheet, gapAxis } = await solver.chart({ outcome, gap: gapNow() }, size);
    putOnBench({ chart: sheet, gapAxis });
  }, fail),
};

const coarse = newestOnly(async () => {
  const request = requestNow();
  if (request === null) return;
  const { document } = request;
  const outcome = await solver.coarse(request);
  const now = bench();
  // A fine result of the same document, out of the cache, may have been quicker.
  if (now.document !== document || (now.solving.word === 'solved' && now.outcome?.isCoarse === false)) return;
  // Where there is none, the curve of another solenoid must not stand for it.
  putOnBench({ outcome });
}, fail);

let quiet: ReturnType<typeof setTimeout> | undefined;
let pictureQuiet: ReturnType<typeof setTimeout> | undefined;

/** Solves what lies on the bench; a solve that is under way is given up for it. */
export async function solve(): Promise<void> {
  clearTimeout(quiet);
  const request = requestNow();
  if (request === null) return;
  const { document } = request;
  const began = performance.now();
  putOnBench({ solving: { word: 'solving', done: 0, all: 0 } });
  try {
    const solved = await solver.solve(request, ({ done, all }) => {
      if (bench().document === document && bench().solving.word === 'solving')
        putOnBench({ solving: { word: 'solving', done, all } });
    });
    if (solved === null || bench().document !== document) return;
    if (!solved.ok) {
      putOnBench({ solving: { word: 'failed', why: solved.why } });
      return;
    }
    const seconds = (performance.now() - began) / 1000;
    putOnBench({ outcome: solved.outcome, solving: { word: 'solved', isFromCache: solved.isFromCache, seconds } });
  } catch (error) {
    putOnBench({ solving: { word: 'failed', why: error instanceof Error ? error.message : String(error) } });
  }
}

export function stop(): void {
  clearTimeout(quiet);
  putOnBench({ solving: { word: 'stopped' } });
  void solver.stop();
}

function changed(): void {
  putOnBench({ solving: { word: 'waiting' } });
  void solver.stop();
  draw.cutaway();
  coarse();
  clearTimeout(quiet);
  quiet = setTimeout(() => void solve(), QUIET_MS);
  pictureSoon();
}

function pictureSoon(): void {
  clearTimeout(pictureQuiet);
  pictureQuiet = setTimeout(draw.flux, PICTURE_QUIET_MS);
}

/** From now on the pictures and curves follow the bench; gives the way to end that. */
export function followBench(): () => void {
  const ends = [
    useBench.subscribe((now, before) => {
      if (now.document !== null && (now.document !== before.document || now.drive !== before.drive)) changed();
      else if (now.tried !== before.tried) draw.cutaway();
      if (now.gap_mm !== before.gap_mm) {
        draw.cutaway();
        draw.chart();
        pictureSoon();
      }
      if (now.outcome !== before.outcome) draw.chart();
    }),
    useUnits.subscribe(() => {
      draw.cutaway();
      draw.flux();
      coarse();
      void solve();
    }),
  ];
  if (bench().document !== null) changed();
  return () => {
    ends.forEach((end) => end());
    clearTimeout(quiet);
    clearTimeout(pictureQuiet);
    void solver.stop();
  };
}
