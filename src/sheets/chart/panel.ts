/**
 * One plot over the gap, home at the left, or over time. Turns numbers into places on the sheet, cuts what lies outside,
 * draws axes.
 */
import { scaleLinear } from 'd3-scale';
import { line, part, polygon, polyline, text, type Element, type LineStyle, type Part } from '../drawing.ts';
import { point, type Point } from '../plane.ts';
import { textWidth } from '../text-width.ts';

export interface Panel {
  readonly name: string;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
  /** Values at the ends of the axes, in the unit shown. */
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
}

/** Values in step with `gap`; null where one is missing. Infinite values lie outside the plot. */
export type Values = readonly (number | null)[];

export function xOf(panel: Panel, gap: number): number {
  return panel.left + ((gap - panel.from) / (panel.to - panel.from)) * (panel.right - panel.left);
}

export function yOf(panel: Panel, value: number): number {
  return panel.bottom + ((value - panel.low) / (panel.high - panel.low)) * (panel.top - panel.bottom);
}

/** Axis ends that are round, and at least a hair apart. */
export function roundEnds(low: number, high: number, ticks: number): readonly [number, number] {
  const [from, to] = scaleLinear()
    .domain(high - low > 1e-9 * Math.max(1, Math.abs(high)) ? [low, high] : [low - 1, low + 1])
    .nice(ticks)
    .domain() as [number, number];
  return [from, to];
}

/** Pieces of a curve inside the plot, as points of the sheet; broken where a value is missing. */
export function pieces(panel: Panel, gaps: readonly number[], values: Values): Point[][] {
  const found: Point[][] = [];
  let piece: Point[] = [];
  const end = (): void => {
    if (piece.length > 1) found.push(piece);
    piece = [];
  };
  gaps.forEach((gap, i) => {
    const [value, next] = [values[i], values[i + 1]];
    if (value === null || value === undefined) {
      end();
      return;
    }
    if (inside(panel, value)) piece.push(point(xOf(panel, gap), yOf(panel, value)));
    const nextGap = gaps[i + 1];
    if (next === null || next === undefined || nextGap === undefined) return;
    for (const limit of inside(panel, value) ? [panel.high, panel.low] : [panel.low, panel.high]) {
      if (value > limit === next > limit || value === limit || next === limit) continue;
      // Where a value is infinite the curve goes straight up.
      const share =
        Number.isFinite(value) && Number.isFinite(next)
          ? (limit - value) / (next - value)
          : Number.isFinite(value)
            ? 0
            : 1;
      const crossing = point(xOf(panel, gap + share * (nextGap - gap)), yOf(panel, limit));
      if (inside(panel, value)) {
        piece.push(crossing);
        end();
      } else piece.push(crossing);
    }
    if (!inside(panel, value) && !inside(panel, next)) end();
  });
  end();
  return found;
}

const inside = (panel: Panel, value: number): boolean => value >= panel.low && value <= panel.high;

/**
 * Areas between two curves, cut at the edges of the plot. With `onlyWhere` 'above' only where the first lies above the
 * second.
 */
export function areas(
  panel: Panel,
  gaps: readonly number[],
  upper: Values,
  lower: Values,
  onlyWhere: 'any' | 'above' = 'any',
): Point[][] {
  const found: Point[][] = [];
  let above: Point[] = [];
  let below: Point[] = [];
  const end = (): void => {
    if (above.length > 1) found.push([...above, ...below.reverse()]);
    [above, below] = [[], []];
  };
  const add = (gap: number, high: number, low: number): void => {
    above.push(point(xOf(panel, gap), yOf(panel, cut(panel, high))));
    below.push(point(xOf(panel, gap), yOf(panel, cut(panel, low))));
  };
  gaps.forEach((gap, i) => {
    const [high, low] = [upper[i] ?? null, lower[i] ?? null];
    if (high === null || low === null) {
      end();
      return;
    }
    const [nextGap, nextHigh, nextLow] = [gaps[i + 1], upper[i + 1] ?? null, lower[i + 1] ?? null];
    const wanted = onlyWhere === 'any' || high > low;
    if (wanted) add(gap, high, low);
    if (onlyWhere === 'above' && nextGap !== undefined && nextHigh !== null && nextLow !== null) {
      const [difference, nextDifference] = [high - low, nextHigh - nextLow];
      if (difference > 0 !== nextDifference > 0 && Number.isFinite(difference) && Number.isFinite(nextDifference)) {
        const share = difference / (difference - nextDifference);
        const value = high + share * (nextHigh - high);
        add(gap + share * (nextGap - gap), value, value);
      }
      if (nextDifference <= 0) end();
    }
  });
  end();
  return found.filter((ring) => ring.some(({ y }) => Math.abs(y - (ring[0]?.y ?? y)) > 0.05));
}

const cut = (panel: Panel, value: number): number => Math.max(panel.low, Math.min(panel.high, value));

/** Value at a gap, straight between the points of the sweep; null where either is missing. */
export function valueAtGap(gaps: readonly number[], values: Values, gap: number): number | null {
  const after = gaps.findIndex((at) => at >= gap);
  if (after < 0) return null;
  const [g1, v1] = [gaps[after] ?? 0, values[after] ?? null];
  if (after === 0 || g1 === gap) return g1 === gap ? v1 : null;
  const [g0, v0] = [gaps[after - 1] ?? 0, values[after - 1] ?? null];
  return v0 === null || v1 === null ? null : v0 + ((gap - g0) / (g1 - g0)) * (v1 - v0);
}

export function curve(panel: Panel, gaps: readonly number[], values: Values, style: LineStyle): Element[] {
  return pieces(panel, gaps, values).map((points) => polyline(style, points));
}

/** Box, ticks, grid lines and numbers. `across` null leaves the numbers along the gap or time to the panel below. */
export function axes(panel: Panel, words: { vertical: string; across: string | null }): Part[] {
  const { left, right, bottom, top, name } = panel;
  const grid: Element[] = [];
  const frame: Element[] = [
    polygon('thin', [point(left, bottom), point(right, bottom), point(right, top), point(left, top)]),
  ];
  const across = scaleLinear()
    .domain([panel.from, panel.to])
    .ticks(Math.max(2, Math.floor((right - left) / 16)));
  const up = scaleLinear()
    .domain([panel.low, panel.high])
    .ticks(Math.max(2, Math.floor((top - bottom) / 9)));
  const plain = (value: number): string => String(Number(value.toPrecision(6)));
  // The words stand at the end of the row of numbers, or in a row of their own where they would hide all but one of them.
  const room = words.across === null ? 0 : textWidth(words.across, 2.5) + 3;
  const isBeside = across.filter((gap) => xOf(panel, gap) < right - room).length > 1;
  const end = isBeside ? right - room : right + 3;
  let free = -Infinity;
  for (const gap of across) {
    const x = xOf(panel, gap);
    const half = textWidth(plain(gap), 2.5) / 2;
    if (x > left + 0.1 && x < right - 0.1) grid.push(line('thin', point(x, bottom), point(x, top)));
    frame.push(line('thin', point(x, bottom), point(x, bottom - 1)));
    if (words.across === null || x >= end || x - half < free) continue;
    frame.push(text(point(x, bottom - 4.6), plain(gap), { align: 'middle' }));
    free = x + half + 1;
  }
  if (words.across !== null) {
    const y = bottom - (isBeside ? 4.6 : 8.8);
    frame.push(text(point(right, y), words.across, { align: 'end' }));
  }
  for (const value of up) {
    const y = yOf(panel, value);
    if (y > bottom + 0.1 && y < top - 0.1) grid.push(line('thin', point(left, y), point(right, y)));
    frame.push(line('thin', point(left, y), point(left - 1, y)));
    frame.push(text(point(left - 2, y - 0.9), plain(value), { align: 'end' }));
  }
  frame.push(text(point(left, top + 2.2), words.vertical));
  return [part(`${name}-grid`, 'grid', grid), part(`${name}-axes`, 'words', frame)];
}

export interface EndLabel {
  readonly name: string;
  readonly words: string;
  /** Value of the cursor, beside the words. */
  readonly value: string | null;
  readonly role: Part['role'];
  /** Where the curve ends on the sheet. */
  readonly at: Point;
}

/** Room that end labels need at the right of the plot, mm. On narrow sheets the value stands below its name. */
export const endLabelRoom = { wide: 54, narrow: 34 } as const;

/** Names at the right of the curves, pushed apart up and down, with a short leader each. */
export function endLabels(
  panel: Panel,
  labels: readonly EndLabel[],
  room: { bottom: number; top: number },
  values: 'beside' | 'below',
): Part[] {
  const step = values === 'below' && labels.some(({ value }) => value !== null) ? 8.4 : 4.6;
  const drop = step > 5 ? 3.9 : 0;
  const sorted = [...labels].sort((a, b) => b.at.y - a.at.y);
  const heights = sorted.map(({ at }) => at.y);
  // Downwards with the least distance kept, then back up where the lowest fell out of the room.
  let ceiling = room.top - 1.5;
  heights.forEach((y, i) => {
    heights[i] = Math.min(y, ceiling);
    ceiling = (heights[i] ?? y) - step;
  });
  let floor = room.bottom + 1.5 + drop;
  for (let i = heights.length - 1; i >= 0; i--) {
    heights[i] = Math.max(heights[i] ?? 0, floor);
    floor = (heights[i] ?? 0) + step;
  }
  const column = Math.max(0, ...sorted.map(({ words }) => textWidth(words, 2.5)));
  return sorted.map(({ name, words, value, role, at: end }, i) => {
    const y = heights[i] ?? end.y;
    const start = point(panel.right + 5, y);
    const elements: Element[] = [
      line('thin', end, point(panel.right + 1, end.y)),
      line('thin', point(panel.right + 1, end.y), point(panel.right + 4.4, y)),
      text(point(start.x, y - 0.9), words),
    ];
    if (value !== null) {
      const at = values === 'below' ? point(start.x, y - 0.9 - drop) : point(start.x + column + 1, y - 0.9);
      elements.push(text(at, value, { bold: true }));
    }
    return part(name, role, elements);
  });
}
