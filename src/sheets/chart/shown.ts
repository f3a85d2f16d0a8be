/** The sweep of an assessment in the units that the reader sees. */
import type { Sweep, Travel } from '../../assessment/finding.ts';
import { fromSI } from '../../units/convert.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { amount, known } from '../amounts.ts';
import type { Values } from './panel.ts';

export interface PullAgainstLoad {
  readonly sweep: Sweep | null;
  readonly travel: Travel | null;
  readonly endSwitchGap_mm: number | null;
  /** Where the travel control stands; null for paper. */
  readonly gap_mm: number | null;
  /** What moves it; left out: a coil. */
  readonly by?: 'a coil' | 'air';
}

export interface Shown {
  readonly gaps: readonly number[];
  readonly least: Values;
  readonly greatest: Values;
  readonly needed: Values;
  readonly neededLow: Values;
  readonly drive: Values;
  readonly left: Values;
}

export const inUnit = (value: number, dimension: 'length' | 'force', units: DisplayUnits): number =>
  fromSI(dimension === 'length' ? value / 1000 : value, units[dimension], dimension);

export const fromUnit = (value: number, units: DisplayUnits): number => value / fromSI(0.001, units.length, 'length');

export function shown(sweep: Sweep, units: DisplayUnits): Shown {
  const force = (values: readonly (number | null)[]): Values =>
    values.map((value) => (value === null || Number.isNaN(value) ? null : inUnit(value, 'force', units)));
  return {
    gaps: sweep.gap_mm.map((gap) => inUnit(gap, 'length', units)),
    least: force(sweep.pullLeast_N),
    greatest: force(sweep.pullGreatest_N),
    needed: force(sweep.pullNeeded_N),
    neededLow: force(sweep.pullNeededLowFriction_N),
    drive: force(sweep.returnDrive_N),
    left: force(sweep.returnForce_N),
  };
}

/** A value that is already in the reader's unit. */
export function inWords(value: number, units: DisplayUnits): string {
  return Number.isFinite(value) ? amount(value / fromSI(1, units.force, 'force'), 'force', units) : 'binds';
}

/** Gaps that matter, as upright lines through both plots. */
export function markedGaps({
  sweep,
  travel,
  endSwitchGap_mm,
}: PullAgainstLoad): { name: string; words: string; gap_mm: number }[] {
  const start = known(travel?.startGap_mm);
  const full = sweep?.gap_mm[sweep.gap_mm.length - 1] ?? Infinity;
  const marks: { name: string; words: string; gap_mm: number | null }[] = [
    { name: 'end-switch', words: 'end switch works', gap_mm: known(endSwitchGap_mm) },
    { name: 'lever-stop', words: 'lever meets its stop', gap_mm: known(travel?.leverStopGap_mm) },
    { name: 'start', words: 'takes the load', gap_mm: start !== null && start < full - 0.05 ? start : null },
  ];
  return marks.flatMap(({ gap_mm, ...rest }) => (gap_mm === null ? [] : [{ ...rest, gap_mm }]));
}
