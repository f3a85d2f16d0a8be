/** From what the assessment gives to what the page shows: curves, points, words and facts in the reader's units. */
import { ampereTurnsOf, type BenchDrive, type SolenoidBench } from '../../assessment/solenoid/bench.ts';
import {
  trimmedCurve,
  whyNoMaps,
  type CurveReading,
  type FittedUnknown,
  type TrimmedCurve,
} from '../../assessment/solenoid/curve.ts';
import { coarseCurve } from '../../assessment/solenoid/picture.ts';
import type { TrimMaps } from '../../physics/solenoid/trim-maps.ts';
import { coilCurrent } from '../../physics/winding.ts';
import { valueAtGap } from '../../sheets/chart/panel.ts';
import { display, toSI, type DisplayUnits } from '../../units/quantity.ts';
import { placeLabel } from './labels.ts';
import type { Fact, Outcome, Said } from './outcome.ts';

/** What the coil is driven with where the page knows no volts: the strongest that the maps were made for, and less. */
export function chiefDrive(bench: SolenoidBench, wanted: BenchDrive | null): BenchDrive | null {
  if (wanted !== null && ampereTurnsOf(bench.winding, wanted) !== null) return wanted;
  return bench.mostAmpereTurns === null ? null : { by: 'ampere-turns', ampereTurns: 0.7 * bench.mostAmpereTurns };
}

/** Why this bench can have no curve, in words; null where it can. */
export function whyNoCurve(bench: SolenoidBench, drive: BenchDrive | null): string | null {
  if (bench.problems.length > 0 || bench.missing.length === 0) {
    const why = whyNoMaps(bench);
    return why ?? (drive === null ? 'nothing is known of the ampere-turns' : null);
  }
  if (whyNoMaps(bench) === null && drive !== null) return null;
  const [first, second, ...others] = [...new Set(bench.missing.map(({ path }) => placeLabel(path)))];
  const more = others.length > 0 ? `, and ${others.length} more` : '';
  return `not measured yet: ${first}${second === undefined ? '' : `; ${second}`}${more}`;
}

/** "24 V, coil at 20 °C". */
export function driveWords(drive: BenchDrive, units: DisplayUnits): string {
  if (drive.by === 'voltage')
    return `${display(drive.voltage, 'voltage', units)}, ${display(drive.coilTemperature, 'temperature', units)}`;
  if (drive.by === 'current') return display(drive.current, 'current', units, 3);
  return `${Math.round(drive.ampereTurns)} ampere-turns`;
}

export function coarseOutcome(bench: SolenoidBench, drive: BenchDrive, units: DisplayUnits): Outcome | null {
  const at = ampereTurnsOf(bench.winding, drive);
  if (at === null) return null;
  const { gap_mm, force_N } = coarseCurve(bench, at.ampereTurns);
  if (gap_mm.length === 0) return null;
  return {
    isCoarse: true,
    curves: [
      {
        name: 'chief',
        words: driveWords(drive, units),
        isChief: true,
        gaps: metres(gap_mm),
        force: force_N,
        band: null,
      },
    ],
    readings: [],
    next: null,
    said: [],
    facts: facts(bench, drive, null, units),
    forJob: [],
    turns: bench.winding?.turns ?? null,
  };
}

/** Shares of the chief ampere-turns that are drawn beside it. */
const FURTHER = [0.75, 0.5];

/** @returns the outcome, or why there is none */
export function fineOutcome(
  bench: SolenoidBench,
  maps: TrimMaps,
  drive: BenchDrive,
  units: DisplayUnits,
): Outcome | string {
  const chief = trimmedCurve(bench, maps, drive);
  if (!chief.ok) return chief.words;
  const gaps = metres(chief.gap_mm);
  const further = FURTHER.flatMap((share) => {
    const ampereTurns = share * chief.ampereTurns;
    const curve = trimmedCurve(bench, maps, { by: 'ampere-turns', ampereTurns });
    return curve.ok ? [{ ampereTurns, force: curve.force_N }] : [];
  });
  return {
    isCoarse: false,
    curves: [
      {
        name: 'chief',
        words: driveWords(drive, units),
        isChief: true,
        gaps,
        force: chief.force_N,
        band: { low: chief.low95_N, high: chief.high95_N },
      },
      ...further.map(({ ampereTurns, force }, i) => ({
        name: `further-${i + 1}`,
        words: `${Math.round(ampereTurns)} A turns`,
        isChief: false,
        gaps,
        force,
        band: null,
      })),
    ],
    readings: chief.readings.map((reading, i) => point(reading, bench, chief, i)),
    next:
      chief.next === null ? null : { gap: toSI(chief.next.gap_mm, 'mm', 'length'), words: 'read the next pull here' },
    said: said(bench, chief, units),
    facts: facts(bench, drive, chief, units),
    forJob: drive.by === 'voltage' ? tables(chief, drive, units) : [],
    turns: bench.winding?.turns ?? null,
  };
}

const metres = (gap_mm: readonly number[]): number[] => gap_mm.map((gap) => toSI(gap, 'mm', 'length'));

/** Beyond this many standard deviations a pull is shown as contradicting. */
const CONTRADICTS = 3;

function point(
  reading: CurveReading,
  bench: SolenoidBench,
  chief: TrimmedCurve,
  i: number,
): Outcome['readings'][number] {
  const { gap_mm, pull_N, pullAtDrive_N, score } = reading;
  return {
    name: String(i + 1),
    words: pullName(reading.path),
    gap: toSI(gap_mm, 'mm', 'length'),
    force: pullAtDrive_N,
    plusMinus: (2 * (bench.readings[i]?.pullSpread ?? 0) * pullAtDrive_N) / pull_N,
    expected: valueAtGap(chief.gap_mm, chief.force_N, gap_mm),
    contradicts: Math.abs(score) > CONTRADICTS,
  };
}

const pullName = (path: string): string => path.replace(/pulls\[(\d+)\]/g, (_, i: string) => `Pull ${Number(i) + 1}`);
const percent = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;

function said(bench: SolenoidBench, chief: TrimmedCurve, units: DisplayUnits): Said[] {
  const found: Said[] = chief.contradictions.map((words) => ({
    kind: 'contradiction',
    words: `${capital(pullName(words))}.`,
  }));
  const { next } = chief;
  if (next !== null)
    found.push({
      kind: 'next',
      words: `Read the pull at a gap of ${display(toSI(next.gap_mm, 'mm', 'length'), 'length', units, 3)} with ${driveWords(next.drive, units)}; about ${display(next.expected_N, 'force', units, 2)} is to be expected. The band would narrow from ±${percent(next.bandNow)} to ±${percent(next.bandAfter)} in the mean.`,
    });
  const cautions = [
    ...bench.findings.map(({ words }) => words),
    ...bench.missing.map(({ path, words }) => `${placeLabel(path)} is not measured: ${words}`),
    ...bench.assumed.map(({ text, source }) => `taken because nothing was read: ${text} (${source})`),
    ...(chief.converged ? [] : ['the fit to the pulls did not settle: do not rely on this curve']),
    ...(bench.readings.length > 0
    && chief.readings.some(({ pull_N, pullAtDrive_N }) => Math.abs(pullAtDrive_N / pull_N - 1) > 0.01)
      ? ['pulls read at another drive stand on the chart as carried over to this one']
      : []),
  ];
  return [...found, ...cautions.map((words): Said => ({ kind: 'caution', words: `${capital(words)}.` }))];
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const HOT = 373.15;
const COLD = 293.15;
const origins = {
  counted: 'as counted',
  'ohms and wire': 'from ohms and wire',
  'ohms and a usual fill': 'from ohms and a usual fill',
} as const;
const unknowns: Readonly<Record<FittedUnknown['name'], string>> = {
  turns: 'Turns over those reckoned',
  'residual gap': 'Gap left at home',
  'radial clearance': 'Clearance over that read',
  saturation: 'Saturation over the table',
  'field strength': 'Field strength over the table',
  'seat face height': 'Seat off its height',
};

function facts(bench: SolenoidBench, drive: BenchDrive, chief: TrimmedCurve | null, units: DisplayUnits): Fact[] {
  const found: Fact[] = [];
  const { winding } = bench;
  if (winding !== null) {
    found.push({
      name: 'Turns',
      value: String(Math.round(winding.turns)),
      note: `${origins[winding.from]}, ±${percent(2 * winding.spread)}`,
    });
    if (winding.fill !== null)
      found.push({ name: 'Window filled', value: percent(winding.fill.roundShare), note: winding.fill.room });
    const { resistance, readAt } = winding;
    if (drive.by === 'voltage' && resistance !== null && readAt !== null)
      for (const at of new Set([COLD, drive.coilTemperature, HOT]))
        found.push({
          name: `Current at ${display(drive.voltage, 'voltage', units)}`,
          value: display(coilCurrent(drive.voltage, resistance, readAt, at), 'current', units, 3),
          note: `coil at ${display(at, 'temperature', units)}`,
        });
  }
  const at = ampereTurnsOf(winding, drive);
  if (at !== null)
    found.push({ name: 'Ampere-turns', value: String(Math.round(at.ampereTurns)), note: driveWords(drive, units) });
  found.push({ name: 'Steel', value: bench.steel.name, note: bench.steel.source });
  for (const { name, unit, before, after } of chief?.unknowns ?? []) {
    const value = (number: number): string =>
      unit === 'm' ? display(number, 'length', units, 2) : String(Number(number.toPrecision(3)));
    found.push({
      name: unknowns[name],
      value: value(after[1]),
      note: `95 %: ${value(after[0])} to ${value(after[2])}; before the pulls ${value(before[0])} to ${value(before[2])}`,
    });
  }
  return found;
}

/** About every fourth gap of the curve, its ends among them. */
function tables(
  chief: TrimmedCurve,
  drive: BenchDrive & { readonly by: 'voltage' },
  units: DisplayUnits,
): Outcome['forJob'] {
  const rows = chief.gap_mm.flatMap((_, i) => (i % 4 === 0 || i === chief.gap_mm.length - 1 ? [i] : []));
  return (['pull-in', 'hold'] as const).map((stage) => ({
    words: `${capital(stage)} at ${driveWords(drive, units)}`,
    stage,
    voltage: drive.voltage,
    coilTemperature: drive.coilTemperature,
    gaps: metres(rows.map((i) => chief.gap_mm[i] ?? 0)),
    force: rows.map((i) => chief.force_N[i] ?? 0),
    halfWidth: rows.map((i) => ((chief.high95_N[i] ?? 0) - (chief.low95_N[i] ?? 0)) / 2),
  }));
}
