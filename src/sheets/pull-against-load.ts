/**
 * Pull against load: force over the gap, home at the left.
 *
 * Above, the band of pull from the weakest to the strongest corner and the band of pull needed; hatched where the need
 * lies above the weakest pull. Below, what drives the plunger out again and what is left of it; hatched where it stays.
 * Nothing is computed here but places on the sheet; values between two gaps of the sweep lie on a straight line.
 */
import { metricUnits, type DisplayUnits } from '../units/display.ts';
import { known } from './amounts.ts';
import { backBands, bands, cursor, forceCeiling, markers } from './chart/curves.ts';
import { axes, endLabelRoom, roundEnds, type Panel } from './chart/panel.ts';
import { fromUnit, inUnit, shown, type PullAgainstLoad } from './chart/shown.ts';
import { names, sentences, words } from './chart/words.ts';
import type { Drawing, Part } from './drawing.ts';
import { notKnownYet } from './not-known.ts';

export type { PullAgainstLoad } from './chart/shown.ts';

export interface ChartOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
}

export interface ChartDrawing extends Drawing {
  /** Ends of the gap axis on the sheet, mm, and the gaps there, mm: for a cursor that is dragged. */
  readonly gapAxis: {
    readonly left: number;
    readonly right: number;
    readonly bottom: number;
    readonly top: number;
    readonly from_mm: number;
    readonly to_mm: number;
  } | null;
}

export function drawPullAgainstLoad(given: PullAgainstLoad, options: ChartOptions = {}): ChartDrawing {
  const { width = 200, height = 130, units = metricUnits } = options;
  const title = 'Pull against load';
  const { sweep } = given;
  if (sweep === null || sweep.gap_mm.length < 2) return { ...notKnownYet(title, width, height), gapAxis: null };
  const data = shown(sweep, units);
  const { gaps } = data;
  const last = gaps[gaps.length - 1] ?? 1;
  const returnKnown = [...data.drive, ...data.left].some((value) => value !== null);
  const values = width < 150 ? 'below' : 'beside';
  const right = width - (values === 'below' ? endLabelRoom.narrow : endLabelRoom.wide);
  const span = { left: 16, right, from: Math.min(0, gaps[0] ?? 0), to: last };
  const foot = 12;
  const split = returnKnown ? foot + (height - foot - 12) * 0.3 : foot;
  const top = forceCeiling(data);
  const upper: Panel = {
    ...span,
    name: 'pull',
    bottom: returnKnown ? split + 13 : foot,
    top: height - 12,
    low: 0,
    high: top,
  };
  const backValues = [...data.drive, ...data.left].filter((value) => known(value) !== null) as number[];
  const [backLow, backHigh] = roundEnds(Math.min(0, ...backValues), Math.max(0, ...backValues), 3);
  const lower: Panel = { ...span, name: 'return', bottom: foot, top: split, low: backLow, high: backHigh };
  const now = given.gap_mm === null ? null : inUnit(given.gap_mm, 'length', units);
  const parts: Part[] = [];
  parts.push(
    ...axes(upper, { vertical: `Towards home, ${units.force}`, across: returnKnown ? null : `gap, ${units.length}` }),
  );
  if (returnKnown)
    parts.push(
      ...axes(lower, {
        vertical: `${given.by === 'air' ? 'Back out' : 'Back out without current'}, ${units.force}`,
        across: `gap, ${units.length}`,
      }),
    );
  parts.push(...bands(upper, data));
  if (returnKnown) parts.push(...backBands(lower, data));
  const bottom = returnKnown ? lower.bottom : upper.bottom;
  parts.push(...markers(given, units, upper, returnKnown ? lower : null));
  parts.push(...cursor(given, units, data, upper, returnKnown ? lower : null));
  parts.push(...names(data, now, units, upper, returnKnown ? lower : null, { height, values }));
  parts.push(...words(given, units, data, upper, returnKnown ? lower : null, parts, { width, height }));
  return {
    title,
    width,
    height,
    parts,
    sentences: sentences(given, data, units),
    gapAxis: {
      left: upper.left,
      right: upper.right,
      bottom,
      top: upper.top,
      from_mm: fromUnit(span.from, units),
      to_mm: fromUnit(span.to, units),
    },
  };
}
