/**
 * What the page has calculated, away from it: the same reader, assessment, remedies and drawings as on the command line.
 * The reader is loaded when a change is proposed for the first time; what the store gives was read before it was kept.
 */
import { expose } from 'comlink';
import { assess } from '../../assessment/assess.ts';
import { isByHand } from '../../assessment/cable/assess.ts';
import { cableStudy } from '../../assessment/cable/study.ts';
import type { CircuitCondition } from '../../assessment/circuit/picture.ts';
import type { Assessment } from '../../assessment/finding.ts';
import { mechanismPicture } from '../../assessment/mechanism.ts';
import type { MechanismPicture } from '../../assessment/picture.ts';
import type { SupplyStudy } from '../../assessment/supply/study.ts';
import type { Problem } from '../../job/opening.ts';
import type { Job } from '../../job/schema.ts';
import type { CircuitTarget } from '../../sheets/circuit.ts';
import { drawMechanism, type Frame, type Handle } from '../../sheets/mechanism.ts';
import { drawPullAgainstLoad, type ChartDrawing, type ChartOptions } from '../../sheets/pull-against-load.ts';
import { drawEffort } from '../../sheets/route/effort.ts';
import { svgTree, type SvgNode } from '../../sheets/svg.ts';
import { fromSI, toSI, type DisplayUnits } from '../../units/quantity.ts';
import type { Form } from './form.ts';
import { changesOf, type SentSheet } from './sheet-changes.ts';

export interface Reckoned {
  readonly assessment: Assessment | null;
  readonly calculationTrouble: string | null;
}

export type Reading =
  | { readonly ok: true; readonly job: Job; readonly text: string; readonly reckoned: Reckoned }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Sheets as they fit the screen, millimetres. */
export interface SheetSizes {
  readonly mechanism: { readonly width: number; readonly height: number };
  readonly load: { readonly width: number; readonly height: number };
  /** Scale and place of the mechanism, where they must stay as they are. */
  readonly frame: Frame | null;
  /** Everything, and not only what differs from the sheets sent before. */
  readonly isWhole: boolean;
}

export interface Drawn {
  readonly gap_mm: number;
  readonly picture: MechanismPicture;
  readonly mechanism: SentSheet;
  readonly load: SentSheet;
  readonly frame: Frame;
  readonly handles: readonly Handle[];
  readonly gapAxis: ChartDrawing['gapAxis'];
}

export interface CircuitSheet {
  readonly tree: SvgNode;
  /** Of the sheet, mm. */
  readonly width: number;
  readonly height: number;
  readonly targets: readonly CircuitTarget[];
  readonly missing: readonly string[];
}

/** The version of document that the store's own reading vouches for. */
const PRESENT_VERSION = 3;

/** The sheets as the page has them. */
let sent: { readonly mechanism: SvgNode; readonly load: SvgNode } | null = null;

let drawn: { readonly job: Job; readonly assessment: Assessment | null } | null = null;

function reckon(job: Job, units: DisplayUnits): Reckoned {
  try {
    return { assessment: assess(job, units), calculationTrouble: null };
  } catch (error) {
    return { assessment: null, calculationTrouble: error instanceof Error ? error.message : String(error) };
  }
}

async function read(document: Job, units: DisplayUnits): Promise<Reading> {
  const { readDocument, writeJob } = await import('../../job/read.ts');
  const reading = readDocument(document);
  if (!reading.ok) return reading;
  return { ok: true, job: reading.job, text: writeJob(reading.job), reckoned: reckon(reading.job, units) };
}

/** Pull against load; of a hand cable, how its effort builds up along the run. */
function chartBeside(
  { job, assessment }: { readonly job: Job; readonly assessment: Assessment | null },
  { endSwitchGap }: MechanismPicture,
  gap_mm: number,
  options: ChartOptions,
): ChartDrawing {
  if (isByHand(job)) return { ...drawEffort(cableStudy(job, job.means), options), gapAxis: null };
  return drawPullAgainstLoad(
    {
      sweep: assessment?.sweep ?? null,
      travel: assessment?.travel ?? null,
      endSwitchGap_mm: endSwitchGap === null ? null : fromSI(endSwitchGap, 'mm'),
      gap_mm,
      by: assessment?.works === 'by air' ? 'air' : 'a coil',
    },
    options,
  );
}

function drawFromNowOn(reading: Reading): Reading {
  if (reading.ok) drawn = { job: reading.job, assessment: reading.reckoned.assessment };
  return reading;
}

const reckoning = {
  async take(document: Job, units: DisplayUnits): Promise<Reading> {
    if (document.version !== PRESENT_VERSION) return drawFromNowOn(await read(document, units));
    return drawFromNowOn({ ok: true, job: document, text: '', reckoned: reckon(document, units) });
  },
  async warm(): Promise<void> {
    await Promise.all([import('../../job/read.ts'), import('./job-form.ts')]);
  },
  async propose(candidate: Job, units: DisplayUnits): Promise<Reading> {
    return drawFromNowOn(await read(candidate, units));
  },
  look: read,
  async remedies(document: Job, units: DisplayUnits): Promise<Assessment> {
    const { withRemedies } = await import('../../proposal/remedy.ts');
    return withRemedies(document, assess(document, units));
  },
  draw(gap_mm: number, { mechanism, load, frame, isWhole }: SheetSizes, units: DisplayUnits): Drawn | null {
    if (drawn === null) return null;
    const picture = mechanismPicture(drawn.job, toSI(gap_mm, 'mm'));
    const sheet = drawMechanism(picture, { ...mechanism, units, ...(frame !== null && { frame }) });
    const chart = chartBeside(drawn, picture, gap_mm, { ...load, units });
    const before = isWhole ? null : sent;
    sent = {
      mechanism: svgTree(sheet, { idPrefix: 'mechanism-' }),
      load: svgTree(chart, { idPrefix: 'load-' }),
    };
    return {
      gap_mm,
      picture,
      mechanism: changesOf(sent.mechanism, before?.mechanism ?? null),
      load: changesOf(sent.load, before?.load ?? null),
      frame: sheet.frame,
      handles: sheet.handles,
      gapAxis: chart.gapAxis,
    };
  },
  /** @param width of the sheet, mm */
  async circuit(
    document: Job,
    condition: CircuitCondition,
    width: number,
    units: DisplayUnits,
  ): Promise<CircuitSheet | null> {
    const [{ circuitPicture }, { drawCircuit }] = await Promise.all([
      import('../../assessment/circuit/picture.ts'),
      import('../../sheets/circuit.ts'),
    ]);
    const picture = circuitPicture(document, condition);
    if (picture === null) return null;
    const drawing = drawCircuit(picture, { width, units });
    const { height, targets } = drawing;
    return {
      tree: svgTree(drawing, { idPrefix: 'circuit-' }),
      width: drawing.width,
      height,
      targets,
      missing: picture.missing,
    };
  },
  async supply(document: Job, units: DisplayUnits): Promise<SupplyStudy | null> {
    return (await import('../../assessment/supply/study.ts')).supplyStudy(document, units);
  },
  async form(): Promise<Form> {
    return (await import('./job-form.ts')).jobForm();
  },
  async blankText(): Promise<string> {
    const [{ blankJob }, { writeJob }] = await Promise.all([import('./job-form.ts'), import('../../job/read.ts')]);
    return writeJob(blankJob() as Job);
  },
};

export type Reckoning = typeof reckoning;

expose(reckoning);
