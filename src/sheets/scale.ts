/** Scales of drawings after ISO 5455:1979, and the bar that states them. */
import { fromSI, toSI } from '../units/convert.ts';
import type { DisplayUnits } from '../units/display.ts';
import { line, polygon, text, type Element } from './drawing.ts';
import { plus, point, type Point } from './plane.ts';

/** ISO 5455 table 1, as sheet over object. */
const standardScales = [50, 20, 10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100, 1 / 200];

/** The largest scale of ISO 5455 that is no larger than `most`; the smallest of the table where none is. */
export function standardScale(most: number): number {
  return standardScales.find((scale) => scale <= most * (1 + 1e-9)) ?? 1 / 200;
}

/** Rounded down to two figures: any scale at all, for the screen, where only the bar can be measured. */
export function freeScale(most: number): number {
  const size = 10 ** (Math.floor(Math.log10(most)) - 1);
  return Math.floor(most / size + 1e-9) * size;
}

/** "1:2", "5:1"; null for a scale that is not of the standard. */
export function scaleWords(scale: number): string | null {
  if (!standardScales.some((standard) => Math.abs(standard - scale) < 1e-9 * standard)) return null;
  return scale >= 1 ? `${Math.round(scale)}:1` : `1:${Math.round(1 / scale)}`;
}

/** 1, 2 or 5 times a power of ten, no larger than `most`. */
export function roundStep(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most) + 1e-9);
  const lead = most / power;
  return (lead >= 5 - 1e-9 ? 5 : lead >= 2 - 1e-9 ? 2 : 1) * power;
}

/**
 * A bar that shows a round length in the reader's unit.
 *
 * @param at    left end of the bar on the sheet
 * @param scale mm on the sheet per mm of the object
 * @param most  longest bar, mm on the sheet
 */
export function scaleBar(
  at: Point,
  scale: number,
  most: number,
  units: DisplayUnits,
): { elements: Element[]; words: string; length: number } {
  const unit = units.length;
  const length = roundStep(fromSI(most / scale / 1000, unit, 'length'));
  const onSheet = toSI(length, unit, 'length') * 1000 * scale;
  const half = onSheet / 2;
  const box = (from: number, to: number, fill: 'solid' | 'paper') =>
    polygon(
      'thin',
      [plus(at, point(from, 0)), plus(at, point(to, 0)), plus(at, point(to, 1.2)), plus(at, point(from, 1.2))],
      fill,
    );
  const number = String(Number(length.toPrecision(6)));
  return {
    elements: [
      box(0, half, 'solid'),
      box(half, onSheet, 'paper'),
      line('thin', at, plus(at, point(0, 2))),
      line('thin', plus(at, point(onSheet, 0)), plus(at, point(onSheet, 2))),
      text(plus(at, point(0, 3)), '0', { align: 'middle' }),
      text(plus(at, point(onSheet, 3)), `${number} ${unit}`, { align: 'middle' }),
    ],
    words: `${number} ${unit}`,
    length: onSheet,
  };
}
