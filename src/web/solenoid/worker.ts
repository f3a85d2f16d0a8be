/**
 * Reads, draws and solves the solenoid away from the page, so that the page never waits. Two of these run: one for what must
 * be there at once, one for the fine solve, which gives way to messages after each gap and so can be stopped.
 */
import { expose } from 'comlink';
import railcar from './example.json' with { type: 'json' };
import { ampereTurnsOf, solenoidBench, type BenchDrive } from '../../assessment/solenoid/bench.ts';
import { trimKey, trimSteps, whyNoMaps } from '../../assessment/solenoid/curve.ts';
import { mapPlan, mapSteps, type SolvedMap } from '../../assessment/solenoid/map.ts';
import { drawnDimensions, fieldPicture } from '../../assessment/solenoid/picture.ts';
import type { Problem } from '../../job/opening.ts';
import { readSolenoid, readSolenoidDocument, type SolenoidReading } from '../../job/solenoid/read.ts';
import { SOLENOID_FORMAT, SOLENOID_VERSION, solenoidSchema, type SolenoidDocument } from '../../job/solenoid/schema.ts';
import { blank } from '../reckoning/form.ts';
import { describe } from '../reckoning/job-form.ts';
import type { Form } from '../reckoning/form.ts';
import { drawCutaway } from '../../sheets/solenoid/cutaway.ts';
import { drawFlux } from '../../sheets/solenoid/flux.ts';
import { drawForceCurves } from '../../sheets/solenoid/force-curves.ts';
import { inReadersUnits } from '../../sheets/solenoid/section.ts';
import { svgTree, type SvgNode } from '../../sheets/svg.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { cached, remember } from './cache.ts';
import type { Outcome } from './outcome.ts';
import { chiefDrive, coarseOutcome, fineOutcome, whyNoCurve } from './outcomes.ts';

export type Reading =
  | {
      readonly ok: true;
      readonly document: SolenoidDocument;
      /** Metres; null where not measured. */
      readonly stroke: number | null;
    }
  | {
      readonly ok: false;
      readonly problems: readonly Problem[];
      /** Where every number reads, and only together they cannot be: what can still be drawn. */
      readonly drawable: SolenoidDocument | null;
    };

export interface SheetSize {
  readonly width: number;
  readonly height: number;
}

export interface Progress {
  readonly done: number;
  readonly all: number;
}

export type Solved =
  | { readonly ok: true; readonly outcome: Outcome; readonly isFromCache: boolean }
  | { readonly ok: false; readonly why: string };

export type MapSolved = { readonly ok: true; readonly map: SolvedMap } | { readonly ok: false; readonly why: string };

/** What is to be solved, and the volts and temperature that its curve is wanted for. */
export interface SolveRequest {
  readonly document: SolenoidDocument;
  readonly drive: BenchDrive | null;
}

export interface ChartRequest {
  readonly outcome: Outcome;
  readonly gap: number;
}

export interface SolenoidSheets {
  readonly cutaway: SvgNode;
  readonly flux: { readonly sheet: SvgNode | null; readonly trouble: string | null };
  readonly chart: {
    readonly sheet: SvgNode;
    readonly gapAxis: {
      readonly left: number;
      readonly right: number;
      readonly from: number;
      readonly to: number;
    } | null;
  };
}

let newest = 0;
/** Lets messages in, "stop" above all. */
const breathe = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener(
      'message',
      () => {
        port1.close();
        resolve();
      },
      { once: true },
    );
    port1.start();
    port2.postMessage(null);
  });

/** Runs the steps, or takes what they came to before; null where `isWanted` has ended in between. */
async function stepped<T>(
  key: string,
  steps: () => Generator<Progress, T>,
  isWanted: () => boolean,
  tell: (progress: Progress) => void,
): Promise<{ readonly value: T; readonly isFromCache: boolean } | null> {
  const kept = (await cached(key)) as T | undefined;
  if (kept !== undefined) return isWanted() ? { value: kept, isFromCache: true } : null;
  for (const running = steps(); ;) {
    await breathe();
    if (!isWanted()) return null;
    const step = running.next();
    if (step.done === true) {
      await remember(key, step.value);
      return isWanted() ? { value: step.value, isFromCache: false } : null;
    }
    tell(step.value);
  }
}

const wordsOf = (error: unknown, units: DisplayUnits): string =>
  inReadersUnits(error instanceof Error ? error.message : String(error), units);

function answered(reading: SolenoidReading, value: unknown): Reading {
  if (!reading.ok) {
    const parsed = solenoidSchema.safeParse(value);
    return { ...reading, drawable: parsed.success ? parsed.data : null };
  }
  return { ok: true, document: reading.solenoid, stroke: solenoidBench(reading.solenoid).stroke };
}

const work = {
  async form(): Promise<Form> {
    return describe(solenoidSchema);
  },
  read(document: unknown): Reading {
    return answered(readSolenoidDocument(document), document);
  },
  readText(text: string): Reading {
    return answered(readSolenoid(text), null);
  },
  /** A solenoid on which nothing has been measured. */
  blank(): SolenoidDocument {
    const parts = blank(describe(solenoidSchema)) as SolenoidDocument;
    return { ...parts, format: SOLENOID_FORMAT, version: SOLENOID_VERSION, name: 'Solenoid' };
  },
  example: (): SolenoidDocument => railcar as SolenoidDocument,
  cutaway(document: SolenoidDocument, gap: number, size: SheetSize, units: DisplayUnits): SvgNode {
    const { stroke } = solenoidBench(document);
    return svgTree(drawCutaway(drawnDimensions(document), { ...size, gap, reach: stroke ?? gap, units }), {
      idPrefix: 'cutaway-',
    });
  },
  flux(request: SolveRequest, gap: number, size: SheetSize, units: DisplayUnits): SolenoidSheets['flux'] {
    const bench = solenoidBench(request.document);
    const drive = chiefDrive(bench, request.drive);
    const why = whyNoCurve(bench, drive);
    if (why !== null || drive === null) return { sheet: null, trouble: why };
    try {
      const picture = fieldPicture(bench, gap, ampereTurnsOf(bench.winding, drive)!.ampereTurns);
      if (picture === null) return { sheet: null, trouble: 'the solver found none at this gap' };
      const sheet = drawFlux(picture, { ...size, units, reach: bench.stroke ?? gap });
      return { sheet: svgTree(sheet, { idPrefix: 'flux-' }), trouble: null };
    } catch (error) {
      return { sheet: null, trouble: wordsOf(error, units) };
    }
  },
  chart({ outcome, gap }: ChartRequest, size: SheetSize, units: DisplayUnits): SolenoidSheets['chart'] {
    const { curves, readings, next, isCoarse } = outcome;
    const sheet = drawForceCurves({ curves, readings, next, isCoarse, gap }, { ...size, units });
    return { sheet: svgTree(sheet, { idPrefix: 'curves-' }), gapAxis: sheet.gapAxis };
  },
  coarse(request: SolveRequest, units: DisplayUnits): Outcome | null {
    const bench = solenoidBench(request.document);
    const drive = chiefDrive(bench, request.drive);
    if (whyNoCurve(bench, drive) !== null || drive === null) return null;
    try {
      return coarseOutcome(bench, drive, units);
    } catch {
      return null; // the fine solve says why
    }
  },
  /** Null: another solve, or "stop", has come in between. */
  async solve(request: SolveRequest, units: DisplayUnits, tell: (progress: Progress) => void): Promise<Solved | null> {
    newest += 1;
    const mine = newest;
    try {
      const bench = solenoidBench(request.document);
      const drive = chiefDrive(bench, request.drive);
      const why = whyNoCurve(bench, drive);
      if (why !== null || drive === null) return { ok: false, why: why ?? '' };
      const maps = await stepped(
        trimKey(bench),
        () => trimSteps(bench),
        () => mine === newest,
        tell,
      );
      if (maps === null) return null;
      const outcome = fineOutcome(bench, maps.value, drive, units);
      return typeof outcome === 'string'
        ? { ok: false, why: outcome }
        : { ok: true, outcome, isFromCache: maps.isFromCache };
    } catch (error) {
      return { ok: false, why: wordsOf(error, units) };
    }
  },
  /** The co-energy map of the fitted solenoid, for the job. Null as with `solve`. */
  async map(
    document: SolenoidDocument,
    units: DisplayUnits,
    tell: (progress: Progress) => void,
  ): Promise<MapSolved | null> {
    newest += 1;
    const mine = newest;
    const isWanted = (): boolean => mine === newest;
    try {
      const bench = solenoidBench(document);
      const why = whyNoMaps(bench);
      if (why !== null) return { ok: false, why };
      const maps =
        bench.readings.length === 0 ? null : await stepped(trimKey(bench), () => trimSteps(bench), isWanted, tell);
      if (!isWanted()) return null;
      const plan = mapPlan(bench, maps?.value ?? null);
      const solved = await stepped(plan.key, () => mapSteps(plan), isWanted, tell);
      return solved === null ? null : { ok: true, map: { ...solved.value, turns: plan.turns } };
    } catch (error) {
      return { ok: false, why: wordsOf(error, units) };
    }
  },
  stop(): void {
    newest += 1;
  },
};

export type SolenoidWork = typeof work;

expose(work);
