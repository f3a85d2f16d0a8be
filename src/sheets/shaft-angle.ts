/** Shaft angle over the gap, with the angles of the survey as level lines. Goes below pull against load, same gap axis. */
import type { ShaftAngles } from '../assessment/picture.ts';
import type { Sweep } from '../assessment/finding.ts';
import { metricUnits } from '../units/display.ts';
import { amount, known } from './amounts.ts';
import { axes, curve, endLabelRoom, endLabels, roundEnds, valueAtGap, xOf, yOf, type Panel } from './chart/panel.ts';
import { inUnit } from './chart/shown.ts';
import { circle, line, part, text, type Element, type Part } from './drawing.ts';
import { notKnownYet } from './not-known.ts';
import { point } from './plane.ts';
import type { ChartDrawing, ChartOptions } from './pull-against-load.ts';

const DEGREE = Math.PI / 180;

export interface ShaftAngleOverGap {
  readonly sweep: Sweep | null;
  /** rad, as surveyed. */
  readonly shaftAngles: ShaftAngles;
  readonly gap_mm: number | null;
}

export function drawShaftAngle(
  { sweep, shaftAngles, gap_mm }: ShaftAngleOverGap,
  options: ChartOptions = {},
): ChartDrawing {
  const { width = 200, height = 60, units = metricUnits } = options;
  const title = 'Shaft angle over the gap';
  const angles = sweep?.shaftAngle_deg.map((angle) => known(angle)) ?? [];
  const lines = (
    [
      ['run stop', shaftAngles.runStop],
      ['run', shaftAngles.run],
      ['no fuel from', shaftAngles.noFuel],
      ['hard stop', shaftAngles.hardStop],
    ] as const
  ).flatMap(([name, angle]) => (known(angle) === null || angle === null ? [] : [{ name, degrees: angle / DEGREE }]));
  const all = [...angles, ...lines.map(({ degrees }) => degrees)].filter((angle) => angle !== null);
  if (sweep === null || sweep.gap_mm.length < 2 || all.length === 0)
    return { ...notKnownYet(title, width, height), gapAxis: null };
  const gaps = sweep.gap_mm.map((gap) => inUnit(gap, 'length', units));
  const last_mm = sweep.gap_mm[sweep.gap_mm.length - 1] ?? 1;
  const [low, high] = roundEnds(Math.min(...all), Math.max(...all), 4);
  const values = width < 150 ? 'below' : 'beside';
  const panel: Panel = {
    name: 'angle',
    left: 16,
    right: width - (values === 'below' ? endLabelRoom.narrow : endLabelRoom.wide),
    bottom: 12,
    top: height - 9,
    from: 0,
    to: gaps[gaps.length - 1] ?? 1,
    low,
    high,
  };
  const parts: Part[] = [...axes(panel, { vertical: 'Shaft angle, °', across: `gap, ${units.length}` })];
  for (const { name, degrees } of lines) {
    const y = yOf(panel, degrees);
    const style = name === 'hard stop' || name === 'run stop' ? 'outline' : 'hidden';
    parts.push(
      part(`level-${name.replaceAll(' ', '-')}`, 'words', [line(style, point(panel.left, y), point(panel.right, y))]),
    );
  }
  parts.push(part('angle-curve', 'now', curve(panel, gaps, angles, 'heavy')));
  const now = known(gap_mm) === null || gap_mm === null ? null : inUnit(gap_mm, 'length', units);
  const value = now === null ? null : valueAtGap(gaps, angles, now);
  if (now !== null && now >= panel.from && now <= panel.to) {
    const elements: Element[] = [
      line('outline', point(xOf(panel, now), panel.bottom), point(xOf(panel, now), panel.top)),
    ];
    if (value !== null) {
      const words = `shaft ${amount(value * DEGREE, 'angle', units)}`;
      elements.push(circle('outline', point(xOf(panel, now), yOf(panel, value)), 1, 'paper'));
      elements.push(text(point(panel.right, panel.top + 2.2), words, { align: 'end', bold: true }));
    }
    parts.push(part('cursor', 'now', elements));
  }
  const labels = lines.map(({ name, degrees }) => ({
    name: `name-${name.replaceAll(' ', '-')}`,
    words: name,
    value: amount(degrees * DEGREE, 'angle', units),
    role: 'words' as const,
    at: point(panel.right, yOf(panel, degrees)),
  }));
  parts.push(...endLabels(panel, labels, { bottom: 2, top: height - 2 }, values));
  const surveyed = lines.map(({ name, degrees }) => `${name} ${amount(degrees * DEGREE, 'angle', units)}`);
  return {
    title,
    width,
    height,
    parts,
    sentences: [
      ...(surveyed.length > 0 ? [`Surveyed: ${surveyed.join(', ')}.`] : []),
      ...(value === null || gap_mm === null
        ? []
        : [
            `At ${amount(gap_mm / 1000, 'length', units)} from home the shaft stands at ${amount(value * DEGREE, 'angle', units)}.`,
          ]),
    ],
    gapAxis: {
      left: panel.left,
      right: panel.right,
      bottom: panel.bottom,
      top: panel.top,
      from_mm: 0,
      to_mm: last_mm,
    },
  };
}
