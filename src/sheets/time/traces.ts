/**
 * Current, gap and volts over time, one plot below the other on one time axis: what the solenoid does after switch-on, or
 * after switch-off. Events stand as ticks on their curves with their words; a measured current lies over the reckoned ones.
 *
 * Draws; computes nothing but places on the sheet. The height follows from what there is to show.
 */
import type { Course, MeasuredTrace, TimePicture, TimeRun } from '../../assessment/time/picture.ts';
import { fromSI } from '../../units/convert.ts';
import { metricUnits, type DisplayUnits } from '../../units/display.ts';
import { known } from '../amounts.ts';
import { axes, pieces, roundEnds, valueAtGap, xOf, yOf, type Panel, type Values } from '../chart/panel.ts';
import { line, part, polyline, type LineStyle, type Drawing, type Element, type Part, type Role } from '../drawing.ts';
import { point } from '../plane.ts';
import { simplified } from '../solenoid/contours.ts';
import { legend, lookOf, type LegendRow } from './looks.ts';
import { placedNotes, withList } from './notes.ts';
import { notKnownFor } from '../not-known.ts';
import { marksOf, measuredMarks, sentences, traceNotes, type EventMark } from './traces-words.ts';

export interface Traces {
  /** From which moment time counts. */
  readonly from: 'switch-on' | 'switch-off';
  readonly runs: readonly TimeRun[];
  readonly measured: MeasuredTrace | null;
  /** Why there are no runs. */
  readonly missing: readonly string[];
}

/** What happens after switch-on, in both corners or one. */
export function pullInTraces({ runs, measured, missing }: TimePicture, only: string | null = null): Traces {
  return {
    from: 'switch-on',
    runs: only === null ? runs : runs.filter(({ name }) => name === only),
    measured,
    missing,
  };
}

/** What happens after switch-off with each kind of suppression; the fitted one is named so. */
export function releaseTraces({ releases, missing }: TimePicture): Traces {
  const runs = releases.map((run) => (run.isFitted ? { ...run, words: `${run.words}, fitted` } : run));
  return { from: 'switch-off', runs, measured: null, missing };
}

export interface TracesOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly units?: DisplayUnits;
}

/** Below this width, numbers stand at the events and their words below the plots. */
const WIDTH_FOR_NOTES = 125;

/** Names of the three plots. */
export type Plot = 'current' | 'gap' | 'volts';

/** One course in the units shown, up to the end of the time axis. */
export interface ShownCourse {
  readonly name: string;
  readonly role: Role;
  readonly words: string;
  readonly time: readonly number[];
  readonly values: Readonly<Record<Plot, Values>>;
  readonly marks: readonly EventMark[];
}

export interface TimeUnit {
  readonly unit: 'ms' | 's' | 'min';
  readonly of: (seconds: number) => number;
}

export function drawTraces(given: Traces, options: TracesOptions = {}): Drawing {
  const { width = 180, units = metricUnits } = options;
  const title = `After ${given.from}`;
  const { runs, measured } = given;
  if (runs.length === 0 && measured === null) return notKnownFor(title, width, given.missing);
  const to_s = lastTime(runs, measured);
  const time = timeUnit(to_s);
  const shown = runs.map((run, i) => shownRun(run, lookOf(i).role, to_s, time, units));
  const over = measured === null ? null : shownMeasured(measured, to_s, time, units);
  const courses = over === null ? shown : [...shown, over];

  const span = { left: 16, right: width - 6, from: 0, to: time.of(to_s) };
  // Conditions that all runs share are said once.
  const shared = runs.length > 1 && runs.every(({ conditions }) => conditions === runs[0]?.conditions);
  const rows: LegendRow[] = runs.map(({ name, words, conditions }, i) => ({
    ...lookOf(i),
    name,
    words,
    more: shared ? '' : conditions,
  }));
  if (shared)
    rows.unshift({ name: 'shared', role: 'words', style: 'none', words: '', more: runs[0]?.conditions ?? '' });
  if (over !== null)
    rows.push({ name: 'measured', role: 'now', style: 'thin', words: 'measured', more: measured?.words ?? '' });
  const key = legend(rows, { left: 4, right: width - 4, top: 0 });
  const tall = Math.min(1.25, Math.max(0.9, width / 160));
  const plots = plotsOf(courses, units).map((plot) => ({ ...plot, tall: plot.tall * tall }));
  const height = 3 + key.height + plots.reduce((sum, plot) => sum + 9 + plot.tall, 0) + 9;

  const parts: Part[] = legend(rows, { left: 4, right: width - 4, top: height - 1.5 }).parts;
  let y = height - 3 - key.height;
  const panels: Partial<Record<Plot, Panel>> = {};
  plots.forEach(({ name, words, low, high, tall: upright }, i) => {
    const panel: Panel = { ...span, name, top: y - 7.5, bottom: y - 7.5 - upright, low, high };
    panels[name] = panel;
    y = panel.bottom - 1.5;
    parts.push(...axes(panel, { vertical: words, across: i === plots.length - 1 ? `time, ${time.unit}` : null }));
    if (low < 0)
      parts.push(
        part(`${name}-zero`, 'words', [
          line('thin', point(panel.left, yOf(panel, 0)), point(panel.right, yOf(panel, 0))),
        ]),
      );
    shown.forEach((course, k) => parts.push(drawnCourse(panel, course, name, lookOf(k).style)));
    if (over !== null && name === 'current') parts.push(drawnCourse(panel, over, name, 'thin'));
  });
  parts.push(...courses.map((course) => ticks(course, panels)));
  const notes = placedNotes(traceNotes(courses, panels), parts, { width, height }, width < WIDTH_FOR_NOTES);
  return {
    title,
    width,
    ...withList([...parts, ...notes.parts], height, notes, width),
    sentences: sentences(given, units),
  };
}

interface PlotWords {
  readonly name: Plot;
  readonly words: string;
  readonly tall: number;
  readonly low: number;
  readonly high: number;
}

/** The plots for which anything is known, with the ends of their axes. */
function plotsOf(courses: readonly ShownCourse[], units: DisplayUnits): PlotWords[] {
  const wanted: readonly { name: Plot; words: string; tall: number }[] = [
    { name: 'current', words: `Supply current, ${units.current}`, tall: 44 },
    { name: 'gap', words: `Gap from home, ${units.length}`, tall: 40 },
    { name: 'volts', words: `At the coil's terminals, ${units.voltage}`, tall: 24 },
  ];
  return wanted.flatMap((plot) => {
    const values = courses.flatMap(({ values }) =>
      values[plot.name].filter((value) => known(value) !== null),
    ) as number[];
    if (values.length === 0) return [];
    const [least, most] = values.reduce(([low, high], value) => [Math.min(low, value), Math.max(high, value)], [0, 0]);
    // Room above the curves for the words; what noise leaves below zero is no reason for an axis below it.
    const [low, high] = roundEnds(least < -0.06 * most ? least : 0, most + 0.12 * (most - least), 4);
    return [{ ...plot, low, high }];
  });
}

/** The last moment worth showing: somewhat past the last event, no later than what is known. */
function lastTime(runs: readonly TimeRun[], measured: MeasuredTrace | null): number {
  const ends = [...runs, ...(measured === null ? [] : [measured])].map(({ time_s }) => time_s[time_s.length - 1] ?? 0);
  const events = [...runs, ...(measured === null ? [] : [measured])].flatMap((one) =>
    one.events.map(({ time_s }) => time_s),
  );
  const end = Math.max(...ends);
  // A current that rises on after a stall is looked at until it has nearly come to rest.
  const isStalled = runs.some(({ outcome }) => outcome === 'stalls');
  const last = Math.max(0, ...events) * (isStalled ? 2.5 : 1.3);
  return Math.max(1e-6, last > 0 ? Math.min(last, end) : end);
}

function timeUnit(to_s: number): TimeUnit {
  const unit = to_s < 2 ? 'ms' : to_s < 300 ? 's' : 'min';
  return { unit, of: (seconds) => fromSI(seconds, unit) };
}

/** Times up to the end of the axis, with one more, on the straight line between its neighbours, at the end itself. */
function cutAt(to_s: number, times: readonly number[], course: Course): { times: number[]; values: (number | null)[] } {
  const count = times.findIndex((at) => at > to_s);
  if (count < 0) return { times: [...times], values: times.map((_, i) => known(course[i])) };
  const values = times.slice(0, count).map((_, i) => known(course[i]));
  const end = valueAtGap(
    times,
    course.map((value) => known(value)),
    to_s,
  );
  return { times: [...times.slice(0, count), to_s], values: [...values, end] };
}

function shownRun(run: TimeRun, role: Role, to_s: number, time: TimeUnit, units: DisplayUnits): ShownCourse {
  const course = (values: Course, unit: string): Values =>
    cutAt(to_s, run.time_s, values).values.map((value) => (value === null ? null : fromSI(value, unit)));
  return {
    name: run.name,
    role,
    words: run.words,
    time: cutAt(to_s, run.time_s, run.gap_m).times.map(time.of),
    values: {
      current: course(run.supplyCurrent_A, units.current),
      gap: course(run.gap_m, units.length),
      volts: course(run.terminal_V, units.voltage),
    },
    marks: marksOf(run, to_s, time, units),
  };
}

function shownMeasured(trace: MeasuredTrace, to_s: number, time: TimeUnit, units: DisplayUnits): ShownCourse {
  const { times, values } = cutAt(to_s, trace.time_s, trace.supplyCurrent_A);
  return {
    name: 'measured',
    role: 'now',
    words: 'measured',
    time: times.map(time.of),
    values: {
      current: values.map((value) => (value === null ? null : fromSI(value, units.current))),
      gap: [],
      volts: [],
    },
    marks: measuredMarks(trace, to_s, time),
  };
}

/** Finer than any eye, and a tenth of the points. */
const FINENESS = 0.03;

function drawnCourse(panel: Panel, { name, role, time, values }: ShownCourse, plot: Plot, style: LineStyle): Part {
  const elements = pieces(panel, time, values[plot]).map((points) => polyline(style, simplified(points, FINENESS)));
  return part(`${plot}-${name}`, role, elements);
}

/** Upright ticks through the curves at the moments of the events. */
function ticks({ name, role, time, values, marks }: ShownCourse, panels: Readonly<Partial<Record<Plot, Panel>>>): Part {
  const reach = 1.8;
  const elements = marks.flatMap(({ at }) =>
    (['current', 'gap'] as const).flatMap((plot): Element[] => {
      const panel = panels[plot];
      const value = valueAtGap(time, values[plot], at);
      if (panel === undefined || value === null) return [];
      const [x, y] = [xOf(panel, at), yOf(panel, value)];
      return [line('outline', point(x, Math.max(panel.bottom, y - reach)), point(x, Math.min(panel.top, y + reach)))];
    }),
  );
  return part(`ticks-${name}`, role, elements);
}
