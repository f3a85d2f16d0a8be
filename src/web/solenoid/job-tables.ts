/** A solved curve as a force table of the job: told apart by its source from pulls that were read. */
import { change, type Change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { formatQuantity } from '../../units/quantity.ts';
import type { CurveForJob } from './outcome.ts';

export const FIELD_SOLVE = 'field solve';

type Means = Extract<Job['means'], { readonly kind: 'solenoid' }>;
type ForceTable = Means['force'][number];

/** Tables of the job that were solved for this stage, and those that were not. */
export function tablesOf(
  means: Means,
  stage: CurveForJob['stage'],
): { readonly solved: number; readonly read: number } {
  const ofStage = means.force.filter((table) => table.stage === stage);
  const solved = ofStage.filter(({ source }) => source === FIELD_SOLVE).length;
  return { solved, read: ofStage.length - solved };
}

/** The curve as a table, each force with the half-width of its 95 % band where one is known. */
export function tableOf({ stage, voltage, coilTemperature, gaps, force, halfWidth }: CurveForJob): ForceTable {
  const said = (value: number, dimension: 'voltage' | 'temperature', unit: string): string =>
    formatQuantity(value, dimension, unit, { significantDigits: 6 });
  return {
    source: FIELD_SOLVE,
    stage,
    drive: {
      by: 'voltage',
      voltage: said(voltage, 'voltage', 'V'),
      coilTemperature: said(coilTemperature, 'temperature', '°C'),
    },
    rows: gaps.map((gap, i) => ({
      gap: formatQuantity(gap, 'length', 'mm', { significantDigits: 4 }),
      force: forceText(force[i] ?? Number.NaN, halfWidth?.[i] ?? null),
    })),
  };
}

function forceText(newtons: number, halfWidth: number | null): string {
  const middle = formatQuantity(newtons, 'force', 'N', { significantDigits: 4 });
  if (halfWidth === null || !(halfWidth > 0)) return middle;
  return `${middle} ± ${formatQuantity(halfWidth, 'force', 'N', { significantDigits: 2 })}`;
}

/** Puts the tables into the job: those that were solved before for the same stages give way, those that were read stay. */
export function intoJob(job: Job, curves: readonly CurveForJob[]): readonly Change[] {
  if (job.means.kind !== 'solenoid') return [];
  const stages = new Set(curves.map(({ stage }) => stage));
  const others = job.means.force.filter(({ source, stage }) => source !== FIELD_SOLVE || !stages.has(stage));
  return [change(job, 'means.force', [...others, ...curves.map(tableOf)])];
}
