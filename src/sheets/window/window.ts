/**
 * The window of a return spring over the gap, home at the left: what lies below the floor is too weak, what lies above the
 * ceiling too strong. The present spring is a heavy line, springs of the drawer thin ones; hatched where floor and ceiling
 * have crossed. Nothing is computed here but places on the sheet.
 */
import type { WindowData } from '../../assessment/window/data.ts';
import { fromSI } from '../../units/convert.ts';
import { metricUnits, type DisplayUnits } from '../../units/display.ts';
import { amount } from '../amounts.ts';
import {
  areas,
  axes,
  curve,
  endLabelRoom,
  endLabels,
  pieces,
  roundEnds,
  type EndLabel,
  type Panel,
  type Values,
} from '../chart/panel.ts';
import { hatch, part, polygon, type Drawing, type Part, type Role } from '../drawing.ts';
import { notKnownYet } from '../not-known.ts';

export interface WindowPicture {
  readonly window: WindowData;
  /** Springs of the drawer in their best mounts, over the gaps of the first scene. */
  readonly others: readonly { readonly name: string; readonly values: readonly (number | null)[] }[];
}

export interface WindowOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
}

const TITLE = 'The window of the return spring';

export function drawWindow({ window, others }: WindowPicture, options: WindowOptions = {}): Drawing {
  const { width = 160, height = 90, units = metricUnits } = options;
  const [first, ...moved] = window.scenes;
  if (first === undefined || first.gap_mm.length < 2) return notKnownYet(TITLE, width, height);
  const shown = inUnits(window, units);
  const gaps = first.gap_mm.map(shown.gap);
  // An edge without end is drawn to the end of the sheet.
  const floor = first.floor.map((value) => (value === null ? Infinity : shown.act(value)));
  const ceiling = first.ceiling.map((value, i) =>
    value === null ? (first.isShut[i] ? -Infinity : Infinity) : shown.act(value),
  );
  const line = window.line?.map((value) => (value === null ? null : shown.act(value))) ?? null;
  const thin = others.map(({ name, values }) => ({
    name,
    values: values.map((one) => (one === null ? null : shown.act(one))),
  }));
  const values = width < 150 ? 'below' : 'beside';
  const last = gaps[gaps.length - 1];
  const panel: Panel = {
    name: 'window',
    left: 18,
    right: width - (values === 'below' ? endLabelRoom.narrow : endLabelRoom.wide),
    bottom: 12,
    top: height - 12,
    from: Math.min(0, gaps[0]),
    to: last,
    low: 0,
    high: topOf(floor, ceiling, line),
  };
  const vertical = window.unit === 'N m' ? `About the shaft, ${units.torque}` : `On the plunger, ${units.force}`;
  const tint = (name: string, role: Role, high: Values, low: Values): Part =>
    part(
      name,
      role,
      areas(panel, gaps, high, low).map((ring) => polygon('none', ring, 'tint')),
    );
  const top = gaps.map(() => panel.high);
  const bottom = gaps.map(() => panel.low);
  const shut = areas(panel, gaps, floor, ceiling, 'above');
  const parts: Part[] = [
    ...axes(panel, { vertical, across: `gap, ${units.length}` }),
    tint('too-weak', 'return', floor, bottom),
    tint('too-strong', 'pull', top, ceiling),
    part(
      'shut',
      'fails',
      shut.flatMap((ring) => [hatch([ring], 1.4), polygon('thin', ring)]),
    ),
    ...moved.map((scene, i) =>
      part(`moved-${i}`, 'quiet', [
        ...curve(
          panel,
          scene.gap_mm.map(shown.gap),
          scene.floor.map((one) => (one === null ? null : shown.act(one))),
          'hidden',
        ),
        ...curve(
          panel,
          scene.gap_mm.map(shown.gap),
          scene.ceiling.map((one) => (one === null ? null : shown.act(one))),
          'hidden',
        ),
      ]),
    ),
    ...thin.map((one, i) => part(`other-${i}`, 'quiet', curve(panel, gaps, one.values, 'thin'))),
    part('floor', 'return', curve(panel, gaps, floor, 'outline')),
    part('ceiling', 'pull', curve(panel, gaps, ceiling, 'outline')),
  ];
  if (line !== null) parts.push(part('present', 'now', curve(panel, gaps, line, 'heavy')));
  parts.push(
    ...endLabels(
      panel,
      [
        label(panel, gaps, ceiling, 'ceiling', 'ceiling: the pull', 'pull'),
        line === null ? null : label(panel, gaps, line, 'present', 'present spring', 'now'),
        label(panel, gaps, floor, 'floor', 'floor: the return', 'return'),
      ].filter((one) => one !== null),
      { bottom: 3, top: height - 6 },
      values,
    ),
  );
  return { title: TITLE, width, height, parts, sentences: sentencesOf(window, others.length, units) };
}

function inUnits({ unit }: WindowData, units: DisplayUnits) {
  return {
    gap: (mm: number) => fromSI(mm / 1000, units.length, 'length'),
    act: (value: number) =>
      unit === 'N m' ? fromSI(value, units.torque, 'torque') : fromSI(value, units.force, 'force'),
  };
}

/** The floor and the spring are seen whole, the ceiling as far as it matters. */
function topOf(floor: readonly number[], ceiling: readonly number[], line: Values | null): number {
  const finite = (values: Values) =>
    values.filter((one): one is number => one !== null && Number.isFinite(one) && one > 0);
  const asked = Math.max(0, ...finite(floor), ...finite(line ?? []));
  const lowest = Math.min(Infinity, ...finite(ceiling));
  const wanted = Math.max(asked * 1.25, Number.isFinite(lowest) ? lowest * 1.6 : 0);
  return roundEnds(0, wanted > 0 ? wanted : 1, 5)[1];
}

function label(
  panel: Panel,
  gaps: readonly number[],
  values: Values,
  name: string,
  words: string,
  role: Role,
): EndLabel | null {
  const drawn = pieces(panel, gaps, values);
  const last = drawn[drawn.length - 1];
  const at = last?.[last.length - 1];
  return at === undefined || panel.right - at.x > 2 ? null : { name: `name-${name}`, words, value: null, role, at };
}

function sentencesOf(window: WindowData, others: number, units: DisplayUnits): string[] {
  const [first] = window.scenes;
  const at = (values: readonly (number | null)[], i: number) => {
    const value = values[i] ?? null;
    return value === null ? 'without end' : amount(value, window.unit === 'N m' ? 'torque' : 'force', units);
  };
  const end = first.gap_mm.length - 1;
  const isShutAtAnEnd = first.isShut[0] || first.isShut[end];
  return [
    `The window is ${window.isOpen ? 'open at every gap' : 'shut'}.`,
    isShutAtAnEnd
      ? 'At an end of the travel no spring serves.'
      : `At home the floor is ${at(first.floor, 0)} and the ceiling ${at(first.ceiling, 0)}; at ${amount(first.gap_mm[end] / 1000, 'length', units)} from home ${at(first.floor, end)} and ${at(first.ceiling, end)}.`,
    ...(window.line === null
      ? []
      : [`The present spring gives ${at(window.line, 0)} at home and ${at(window.line, end)} there.`]),
    ...(others > 0 ? [`Thin lines: ${others} of the springs that fit.`] : []),
    ...(window.scenes.length > 1 ? ['Dashed: the edges with the engine moved on its mounts.'] : []),
  ];
}
