/**
 * Minutes to the class limit: mean of the winding and outside of the can over time, on a logarithmic time axis from the first
 * seconds to hours, with the limits of the insulation, where each is passed, and what would end the current before.
 *
 * Draws; computes nothing but places on the sheet. The height follows from what there is to show.
 */
import type { Course, HeatCourse, HeatMark, HeatPicture } from '../../assessment/time/picture.ts';
import { metricUnits, type DisplayUnits } from '../../units/display.ts';
import { known } from '../amounts.ts';
import { pieces, roundEnds, valueAtGap, xOf, yOf, type Panel, type Values } from '../chart/panel.ts';
import {
  circle,
  line,
  part,
  polygon,
  polyline,
  type Drawing,
  type Element,
  type LineStyle,
  type Part,
} from '../drawing.ts';
import { point } from '../plane.ts';
import { simplified } from '../solenoid/contours.ts';
import { inDegrees } from './degrees.ts';
import { heatNotes, heatSentences, lineRows } from './heat-words.ts';
import { legend, lookOf, type LegendRow } from './looks.ts';
import { logTimeAxes } from './log-time-axis.ts';
import { placedNotes, withList } from './notes.ts';
import { notKnownFor } from '../not-known.ts';

export interface HeatOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly units?: DisplayUnits;
}

/** Below this width, numbers stand at the marks and their words below the plot. */
const WIDTH_FOR_NOTES = 125;

/** The first and last moments of the axis, s, whatever the courses say. */
const EARLIEST = 0.1;
const LATEST = 1e6;

export function drawHeat(given: HeatPicture, options: HeatOptions = {}): Drawing {
  const { width = 180, units = metricUnits } = options;
  const title = 'Minutes to the class limit';
  const { courses, limits } = given;
  const last = Math.min(LATEST, Math.max(0, ...courses.map(({ time_s }) => time_s[time_s.length - 1] ?? 0)));
  if (courses.length === 0 || last <= EARLIEST) return notKnownFor(title, width, given.missing);
  const from = firstTime(given);
  const [low, high] = ends(given, units);
  const rows: LegendRow[] = [
    ...courses.map(({ name, words, conditions }, i) => ({ ...lookOf(i), name, words, more: conditions })),
    {
      name: 'narrow',
      role: 'words',
      style: 'thin',
      words: 'outside of the can',
      more: 'narrow lines; winding: wide lines',
    },
    ...lineRows(given, units),
  ];
  const key = legend(rows, { left: 4, right: width - 4, top: 0 });
  const upright = Math.min(1.2, Math.max(0.95, width / 170)) * 78;
  const height = 3 + key.height + 7.5 + upright + 13;
  const top = height - 3 - key.height - 7.5;
  const panel: Panel = {
    name: 'heat',
    left: 16,
    right: width - 6,
    bottom: top - upright,
    top,
    from: Math.log10(from),
    to: Math.log10(last),
    low,
    high,
  };

  const parts: Part[] = legend(rows, { left: 4, right: width - 4, top: height - 1.5 }).parts;
  parts.push(...logTimeAxes(panel, `Temperature, ${units.temperature}`));
  parts.push(...given.marks.flatMap((mark) => markPart(panel, mark)));
  for (const { name, class_K, hotSpot_K, isOwn } of limits) {
    const y = yOf(panel, inDegrees(class_K - hotSpot_K, units));
    if (y > panel.bottom && y < panel.top)
      parts.push(
        part(`limit-${name}`, isOwn ? 'fails' : 'quiet', [
          line(isOwn ? 'outline' : 'thin', point(panel.left, y), point(panel.right, y)),
        ]),
      );
  }
  if (given.touch !== null) {
    const y = yOf(panel, inDegrees(given.touch.temperature_K, units));
    parts.push(part('touch', 'side', [line('ghost', point(panel.left, y), point(panel.right, y))]));
  }
  courses.forEach((course, i) => {
    const { role, style, narrow } = lookOf(i);
    parts.push(part(`case-${course.name}`, role, drawnCourse(panel, course, course.case_K, units, narrow)));
    parts.push(part(`winding-${course.name}`, role, drawnCourse(panel, course, course.winding_K, units, style)));
  });
  parts.push(...crossingParts(given, panel, units));
  const notes = placedNotes(heatNotes(given, panel, units), parts, { width, height }, width < WIDTH_FOR_NOTES);
  const sentences = heatSentences(given, units);
  return { title, width, ...withList([...parts, ...notes.parts], height, notes, width), sentences };
}

/** A power of ten, somewhat before the first thing that happens. */
function firstTime({ marks, crossings }: HeatPicture): number {
  const first = Math.min(10, ...marks.map(({ from_s }) => from_s), ...crossings.map(({ time_s }) => time_s));
  return Math.max(EARLIEST, 10 ** Math.floor(Math.log10(Math.max(EARLIEST, first)) - 0.15));
}

/** From the coldest to somewhat above the highest limit; beyond that every winding is lost, and the curve leaves at the top. */
function ends({ courses, limits, touch }: HeatPicture, units: DisplayUnits): readonly [number, number] {
  const all = courses.flatMap(({ winding_K, case_K }) =>
    [...winding_K, ...case_K].filter((value) => known(value) !== null),
  ) as number[];
  const [least, most] = all.reduce(
    ([low, high], value) => [Math.min(low, value), Math.max(high, value)],
    [Infinity, 0],
  );
  const marked = [
    ...limits.map(({ class_K, hotSpot_K }) => class_K - hotSpot_K),
    ...(touch === null ? [] : [touch.temperature_K]),
  ];
  const highest = Math.max(0, ...marked);
  const top = highest > 0 ? Math.max(highest + 12, Math.min(most, highest + 40)) : most;
  return roundEnds(inDegrees(Math.min(least, ...marked) - 5, units), inDegrees(top, units), 6);
}

/** Log time, with the value at the start of the axis put in on the straight line between its neighbours. */
function onLogAxis({ time_s }: HeatCourse, values: Course, panel: Panel): { times: number[]; values: Values } {
  const start = 10 ** panel.from;
  const after = time_s.findIndex((at) => at > start);
  const first = valueAtGap(
    time_s,
    values.map((value) => known(value)),
    start,
  );
  const rest = after < 0 ? [] : time_s.slice(after);
  const inside = rest.filter((at) => at <= 10 ** panel.to * (1 + 1e-9));
  return {
    times: [panel.from, ...inside.map((at) => Math.log10(at))],
    values: [first, ...inside.map((_, i) => known(values[after + i]))],
  };
}

function drawnCourse(
  panel: Panel,
  course: HeatCourse,
  course_K: Course,
  units: DisplayUnits,
  style: LineStyle,
): Element[] {
  const { times, values } = onLogAxis(course, course_K, panel);
  const degrees = values.map((value) => (value === null ? null : inDegrees(value, units)));
  return pieces(panel, times, degrees).map((points) => polyline(style, simplified(points, 0.03)));
}

/** One time as an upright line, a band as a tinted strip between two; a band without end reaches the edge. */
function markPart(panel: Panel, { name, from_s, to_s }: HeatMark): Part[] {
  const [from, to] = [from_s, to_s ?? Infinity].map((at) => Math.log10(Math.max(at, 10 ** panel.from)));
  if (from > panel.to) return [];
  const [left, right] = [xOf(panel, from), xOf(panel, Math.min(to, panel.to))];
  const upright = (x: number): Element => line('centre', point(x, panel.bottom), point(x, panel.top));
  if (to_s === from_s) return [part(`mark-${name}`, 'now', [upright(left)])];
  const elements: Element[] = [
    polygon(
      'none',
      [point(left, panel.bottom), point(right, panel.bottom), point(right, panel.top), point(left, panel.top)],
      'tint',
    ),
    upright(left),
  ];
  if (to <= panel.to) elements.push(upright(right));
  return [part(`mark-${name}`, 'now', elements)];
}

/** A ring where a winding passes a limit, and a plumb line to the time axis. */
function crossingParts({ courses, limits, crossings }: HeatPicture, panel: Panel, units: DisplayUnits): Part[] {
  return crossings.flatMap(({ course, limit, time_s }) => {
    const of = limits.find(({ name }) => name === limit);
    const index = courses.findIndex(({ name }) => name === course);
    const time = Math.log10(time_s);
    if (of === undefined || index < 0 || time < panel.from || time > panel.to) return [];
    const at = point(xOf(panel, time), yOf(panel, inDegrees(of.class_K - of.hotSpot_K, units)));
    const elements: Element[] = [circle('outline', at, 1.1, 'paper')];
    if (of.isOwn) elements.unshift(line('thin', at, point(at.x, panel.bottom)));
    return [part(`crossing-${course}-${limit}`, lookOf(index).role, elements)];
  });
}
