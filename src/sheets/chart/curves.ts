/** Bands, curves, marked gaps and cursor of pull against load. */
import type { DisplayUnits } from '../../units/display.ts';
import { amount, known } from '../amounts.ts';
import { circle, hatch, line, part, polygon, text, type Element, type Part, type Role } from '../drawing.ts';
import { point } from '../plane.ts';
import { textWidth } from '../text-width.ts';
import { areas, curve, roundEnds, valueAtGap, xOf, yOf, type Panel, type Values } from './panel.ts';
import { inUnit, markedGaps, type PullAgainstLoad, type Shown } from './shown.ts';

/** Most that the load may take of the upright axis before the pull is cut at the top. */
const PULL_OVER_NEED = 3;

/** Top of the force axis: the whole need is seen, and the pull as far as it matters. */
export function forceCeiling({ least, greatest, needed }: Shown): number {
  const most = (values: Values): number =>
    Math.max(0, ...(values.filter((value) => known(value) !== null) as number[]));
  const need = most(needed);
  const pull = most(greatest);
  const atRest = (values: Values): number => known(values[values.length - 1]) ?? 0;
  const enough = Math.max(need * PULL_OVER_NEED, atRest(greatest) * 1.3, atRest(least) * 1.3);
  const wanted = enough > 0 ? Math.max(need * 1.15, Math.min(pull * 1.05, enough)) : pull > 0 ? pull * 1.05 : 1;
  return roundEnds(0, wanted, 5)[1];
}

export function bands(panel: Panel, { gaps, least, greatest, needed, neededLow }: Shown): Part[] {
  const fill = (name: string, role: Role, high: Values, low: Values): Part =>
    part(
      name,
      role,
      areas(panel, gaps, high, low).map((ring) => polygon('none', ring, 'tint')),
    );
  const short = areas(panel, gaps, needed, least, 'above');
  return [
    fill('pull-band', 'pull', greatest, least),
    fill('need-band', 'need', needed, neededLow),
    part(
      'short',
      'fails',
      short.flatMap((ring) => [hatch([ring], 1.4), polygon('thin', ring)]),
    ),
    part('pull-greatest', 'pull', curve(panel, gaps, greatest, 'thin')),
    part('pull-least', 'pull', curve(panel, gaps, least, 'heavy')),
    part('need-low', 'need', curve(panel, gaps, neededLow, 'hidden')),
    part('need-high', 'need', curve(panel, gaps, needed, 'heavy')),
  ];
}

export function backBands(panel: Panel, { gaps, drive, left }: Shown): Part[] {
  const zero = gaps.map(() => 0);
  const stays = areas(panel, gaps, zero, left, 'above');
  const level = yOf(panel, 0);
  return [
    part('return-zero', 'words', [line('outline', point(panel.left, level), point(panel.right, level))]),
    part(
      'stays',
      'fails',
      stays.flatMap((ring) => [hatch([ring], 1.4), polygon('thin', ring)]),
    ),
    part('return-drive', 'return', curve(panel, gaps, drive, 'hidden')),
    part('return-left', 'return', curve(panel, gaps, left, 'heavy')),
  ];
}

export function markers(given: PullAgainstLoad, units: DisplayUnits, upper: Panel, lower: Panel | null): Part[] {
  return markedGaps(given).flatMap(({ name, gap_mm }) => {
    const x = xOf(upper, inUnit(gap_mm, 'length', units));
    if (x < upper.left - 1e-6 || x > upper.right + 1e-6) return [];
    const inUpper = line('centre', point(x, upper.bottom), point(x, upper.top));
    const inLower = lower === null ? [] : [line('centre', point(x, lower.bottom), point(x, lower.top))];
    return [part(`mark-${name}`, 'words', [inUpper, ...inLower])];
  });
}

export function cursor(
  given: PullAgainstLoad,
  units: DisplayUnits,
  data: Shown,
  upper: Panel,
  lower: Panel | null,
): Part[] {
  const gap_mm = known(given.gap_mm);
  if (gap_mm === null) return [];
  const gap = inUnit(gap_mm, 'length', units);
  if (gap < upper.from - 1e-9 || gap > upper.to + 1e-9) return [];
  const x = xOf(upper, gap);
  const elements: Element[] = [line('outline', point(x, upper.bottom), point(x, upper.top + 1.5))];
  if (lower !== null) elements.push(line('outline', point(x, lower.bottom), point(x, lower.top)));
  const dot = (panel: Panel, values: Values): void => {
    const value = valueAtGap(data.gaps, values, gap);
    if (value !== null && value >= panel.low && value <= panel.high) {
      elements.push(circle('outline', point(x, yOf(panel, value)), 1, 'paper'));
    }
  };
  for (const values of [data.least, data.greatest, data.needed]) dot(upper, values);
  if (lower !== null) dot(lower, data.left);
  const words = `gap ${amount(gap_mm / 1000, 'length', units)}`;
  const half = textWidth(words, 2.5, true) / 2;
  const middle = Math.max(upper.left + half, Math.min(upper.right - half, x));
  // Clear of the words of the axis, which stand at the left on the same line.
  const clear = upper.left + textWidth(`Towards home, ${units.force}`, 2.5) + half + 3;
  elements.push(text(point(Math.max(clear, middle), upper.top + 2.2), words, { align: 'middle', bold: true }));
  return [part('cursor', 'now', elements)];
}
