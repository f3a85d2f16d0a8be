/**
 * Follows the installation in time, draws what comes of it, and reads measured currents, away from the page. Two of these run:
 * one for what was reckoned, one for a file that is being read, so that either can be stopped without the other.
 */
import { expose } from 'comlink';
import { isSolenoid } from '../../assessment/assess.ts';
import { heatPicture } from '../../assessment/time/heat-study.ts';
import { traceCsv } from '../../assessment/time/csv.ts';
import type {
  HeatPicture,
  HoldTime,
  MeasuredTrace,
  ReleaseRun,
  TimePicture,
  TimeRun,
} from '../../assessment/time/picture.ts';
import { timePicture } from '../../assessment/time/study.ts';
import { coilKnown, predictedEvents } from '../../diagnosis/trace/predicted.ts';
import type { Job } from '../../job/schema.ts';
import { svgTree, type SvgNode } from '../../sheets/svg.ts';
import { drawHeat } from '../../sheets/time/heat.ts';
import { drawTraces, pullInTraces, releaseTraces } from '../../sheets/time/traces.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import type { MeasuredReading, MeasureOptions } from './measured.ts';

/** A run without its courses, which stay in the worker. */
export interface RunSummary extends Pick<TimeRun, 'name' | 'words' | 'conditions' | 'outcome' | 'cautions'> {
  readonly home_s: number | null;
}

export type ReleaseSummary = RunSummary
  & Pick<ReleaseRun, 'isFitted' | 'releaseTime_s' | 'returnTime_s' | 'peakTerminal_V' | 'peakContact_V'>;

export interface Summary {
  readonly isSolenoid: boolean;
  readonly runs: readonly RunSummary[];
  readonly releases: readonly ReleaseSummary[];
  readonly holdTime: HoldTime | null;
  /** Paths of fields, or sentences. */
  readonly missing: readonly string[];
  readonly heat: Pick<HeatPicture, 'cautions' | 'missing'> & { readonly isThere: boolean };
}

export interface SheetRequest {
  /** Name of the one run to show; null for all. */
  readonly only: string | null;
  readonly measured: MeasuredTrace | null;
  /** Of the sheets, mm. */
  readonly width: number;
}

export interface TimeSheets {
  readonly pullIn: SvgNode | null;
  readonly release: SvgNode | null;
  readonly heat: SvgNode | null;
}

interface Studied {
  readonly time: TimePicture;
  readonly heat: HeatPicture;
}

let studied: Studied | null = null;

function summaryOf(run: TimeRun): RunSummary {
  const { name, words, conditions, outcome, cautions } = run;
  const home = run.events.find(({ kind }) => kind === 'comes home');
  return { name, words, conditions, outcome, cautions, home_s: home?.time_s ?? null };
}

const work = {
  study(document: Job): Summary {
    studied = null;
    if (!isSolenoid(document)) {
      const heat = { cautions: [], missing: [], isThere: false };
      return { isSolenoid: false, runs: [], releases: [], holdTime: null, missing: [], heat };
    }
    const [time, heat] = [timePicture(document), heatPicture(document)];
    studied = { time, heat };
    return {
      isSolenoid: true,
      runs: time.runs.map(summaryOf),
      releases: time.releases.map((run) => {
        const { isFitted, releaseTime_s, returnTime_s, peakTerminal_V, peakContact_V } = run;
        return { ...summaryOf(run), isFitted, releaseTime_s, returnTime_s, peakTerminal_V, peakContact_V };
      }),
      holdTime: time.holdTime,
      missing: time.missing,
      heat: { cautions: heat.cautions, missing: heat.missing, isThere: heat.courses.length > 0 },
    };
  },
  sheets({ only, measured, width }: SheetRequest, units: DisplayUnits): TimeSheets {
    const time = studied?.time ?? { runs: [], releases: [], measured: null, holdTime: null, missing: [] };
    const heat = studied?.heat;
    const options = { width, units };
    const isAnyPull = time.runs.length > 0 || measured !== null;
    return {
      pullIn: isAnyPull
        ? svgTree(drawTraces(pullInTraces({ ...time, measured }, only), options), { idPrefix: 'time-pull-in-' })
        : null,
      release:
        time.releases.length > 0
          ? svgTree(drawTraces(releaseTraces(time), options), { idPrefix: 'time-release-' })
          : null,
      heat:
        heat === undefined || heat.courses.length === 0
          ? null
          : svgTree(drawHeat(heat, options), { idPrefix: 'time-heat-' }),
    };
  },
  /** The named run as comma-separated values. */
  csv(name: string): string | null {
    const all: readonly TimeRun[] = [...(studied?.time.runs ?? []), ...(studied?.time.releases ?? [])];
    const run = all.find((one) => one.name === name);
    return run === undefined ? null : traceCsv(run);
  },
  async measure(
    file: File,
    options: MeasureOptions,
    document: Job | null,
    tell: (share: number) => void,
  ): Promise<MeasuredReading> {
    const { readMeasured } = await import('./measured.ts');
    if (document === null) return readMeasured(file, options, null, tell);
    return readMeasured(file, options, coilKnown(document), tell, predictedEvents(document));
  },
};

export type TimeWork = typeof work;

expose(work);
