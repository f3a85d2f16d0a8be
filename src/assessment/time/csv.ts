/**
 * A run as a file of comma-separated values (RFC 4180): one row for each moment, units in the heading, decimal points. A cell
 * stays empty where nothing is known.
 */
import { fromSI } from '../../units/convert.ts';
import type { Course, TimeRun } from './picture.ts';

const columns: readonly { readonly heading: string; readonly of: (run: TimeRun) => Course; readonly unit: string }[] = [
  { heading: 'time (s)', of: (run) => run.time_s, unit: 's' },
  { heading: 'supply current (A)', of: (run) => run.supplyCurrent_A, unit: 'A' },
  { heading: 'gap (mm)', of: (run) => run.gap_m, unit: 'mm' },
  { heading: 'terminal volts (V)', of: (run) => run.terminal_V, unit: 'V' },
  { heading: 'coil temperature (°C)', of: (run) => run.coilTemperature_K, unit: '°C' },
];

export function traceCsv(run: TimeRun): string {
  const courses = columns.map(({ of, unit }) => ({ values: of(run), unit }));
  const rows = run.time_s.map((_, row) => courses.map(({ values, unit }) => cell(values[row], unit)).join(','));
  return [columns.map(({ heading }) => heading).join(','), ...rows, ''].join('\r\n');
}

/** Seven figures: finer than any reading, and short of the solver's noise. */
function cell(value: number | null | undefined, unit: string): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return '';
  return String(Number(fromSI(value, unit).toPrecision(7)));
}
