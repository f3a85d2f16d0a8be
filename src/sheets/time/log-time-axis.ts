/** Box and grid of a plot over a logarithmic time axis: each step to the right is a multiple, ticks at times people know. */
import { scaleLinear } from 'd3-scale';
import { formatQuantity } from '../../units/format.ts';
import { xOf, yOf, type Panel } from '../chart/panel.ts';
import { line, part, polygon, text, type Element, type Part } from '../drawing.ts';
import { point } from '../plane.ts';
import { textWidth } from '../text-width.ts';

const ticks: readonly (readonly [number, 's' | 'min' | 'h' | 'd'])[] = [
  [0.1, 's'],
  [0.2, 's'],
  [0.5, 's'],
  [1, 's'],
  [2, 's'],
  [5, 's'],
  [10, 's'],
  [30, 's'],
  [1, 'min'],
  [2, 'min'],
  [5, 'min'],
  [10, 'min'],
  [30, 'min'],
  [1, 'h'],
  [2, 'h'],
  [5, 'h'],
  [12, 'h'],
  [1, 'd'],
  [2, 'd'],
  [5, 'd'],
];
const inSeconds = { s: 1, min: 60, h: 3600, d: 86400 } as const;
/** These are numbered first where there is no room for all. */
const chief: readonly number[] = [1, 10, 60, 600, 3600, 86400];

/** `panel.from` and `panel.to` are decimal logarithms of seconds. */
export function logTimeAxes(panel: Panel, vertical: string): Part[] {
  const { left, right, bottom, top, name } = panel;
  const grid: Element[] = [];
  const frame: Element[] = [
    polygon('thin', [point(left, bottom), point(right, bottom), point(right, top), point(left, top)]),
  ];
  const taken: (readonly [number, number])[] = [];
  const there = ticks
    .map(([value, unit]) => ({ value, unit, seconds: value * inSeconds[unit] }))
    .filter(({ seconds }) => Math.log10(seconds) >= panel.from - 1e-9 && Math.log10(seconds) <= panel.to + 1e-9)
    .sort((a, b) => Number(chief.includes(b.seconds)) - Number(chief.includes(a.seconds)) || a.seconds - b.seconds);
  for (const { value, unit, seconds } of there) {
    const x = xOf(panel, Math.log10(seconds));
    if (x > left + 0.1 && x < right - 0.1) grid.push(line('thin', point(x, bottom), point(x, top)));
    frame.push(line('thin', point(x, bottom), point(x, bottom - 1)));
    const said = formatQuantity(value * inSeconds[unit], 'time', unit);
    const half = textWidth(said, 2.5) / 2 + 1;
    if (taken.some(([from, to]) => x - half < to && x + half > from)) continue;
    taken.push([x - half, x + half]);
    frame.push(text(point(x, bottom - 4.6), said, { align: 'middle' }));
  }
  frame.push(text(point(right, bottom - 9.2), 'time (logarithmic)', { align: 'end' }));
  for (const value of scaleLinear()
    .domain([panel.low, panel.high])
    .ticks(Math.max(2, Math.floor((top - bottom) / 9)))) {
    const y = yOf(panel, value);
    if (y > bottom + 0.1 && y < top - 0.1) grid.push(line('thin', point(left, y), point(right, y)));
    frame.push(line('thin', point(left, y), point(left - 1, y)));
    frame.push(text(point(left - 2, y - 0.9), String(Number(value.toPrecision(6))), { align: 'end' }));
  }
  frame.push(text(point(left, top + 2.2), vertical));
  return [part(`${name}-grid`, 'grid', grid), part(`${name}-axes`, 'words', frame)];
}
