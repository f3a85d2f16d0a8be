/** Dimension lines after ISO 129-1:2018, with the value and its unit beside them. */
import { arrowHead, lettering, line, text, type Element } from '../drawing.ts';
import { along, distance, direction, point, quarter, type Box, type Point } from '../plane.ts';
import { textWidth } from '../text-width.ts';

const ARROW = 2.6;
/** Length of an arrow that points inwards from outside, mm. */
const OUTSIDE = 6;
const ABOVE = 0.9;

/** How far words reach that stand outside their dimension line, mm from its end. */
export const besideDimension = (words: string): number => OUTSIDE + textWidth(words, lettering.small);

export interface DimensionLine {
  readonly elements: Element[];
  /** Where its words stand. */
  readonly box: Box;
}

/**
 * A level dimension line at `y` between x = `from` and x = `to`; extension lines come from the heights `start`.
 *
 * @param outside on which side the words stand where they do not fit between the arrows
 */
export function levelDimension(
  from: number,
  to: number,
  y: number,
  start: readonly [number, number],
  words: string,
  outside: 'left' | 'right',
): DimensionLine {
  const [left, right] = from <= to ? [from, to] : [to, from];
  const elements: Element[] = [from, to].map((x, i) => extension(point(x, start[i] ?? y), point(x, y)));
  const width = textWidth(words, lettering.small);
  const fits = right - left >= width + 2 * ARROW + 1;
  elements.push(...arrows(point(left, y), point(right, y), right - left >= 2.6 * ARROW));
  // Words beside the line have the line drawn on below them.
  const middle = fits
    ? (left + right) / 2
    : outside === 'left'
      ? left - OUTSIDE - width / 2
      : right + OUTSIDE + width / 2;
  if (!fits) {
    const [near, far] = outside === 'left' ? [left, middle - width / 2] : [right, middle + width / 2];
    elements.push(line('thin', point(near, y), point(far, y)));
  }
  elements.push(text(point(middle, y + ABOVE), words, { align: 'middle' }));
  return {
    elements,
    box: {
      left: middle - width / 2,
      right: middle + width / 2,
      bottom: y - 0.5,
      top: y + ABOVE + lettering.small + 0.4,
    },
  };
}

/** An upright dimension line at `x`, its words along it, to be read from the right. */
export function uprightDimension(
  from: number,
  to: number,
  x: number,
  start: readonly [number, number],
  words: string,
): DimensionLine {
  const [low, high] = from <= to ? [from, to] : [to, from];
  const elements: Element[] = [from, to].map((y, i) => extension(point(start[i] ?? x, y), point(x, y)));
  elements.push(...arrows(point(x, low), point(x, high), high - low >= 2.6 * ARROW));
  const width = textWidth(words, lettering.small);
  const middle = (low + high) / 2;
  elements.push(text(point(x - ABOVE, middle), words, { align: 'middle', angle: Math.PI / 2 }));
  return {
    elements,
    box: {
      left: x - ABOVE - lettering.small - 0.4,
      right: x + 0.5,
      bottom: middle - width / 2,
      top: middle + width / 2,
    },
  };
}

/** From just off the body to just past the dimension line. */
function extension(from: Point, to: Point): Element {
  const heading = direction(from, to);
  if (distance(from, to) < 1) return line('thin', from, along(to, heading, 1.5));
  return line('thin', along(from, heading, 0.8), along(to, heading, 1.5));
}

function arrows(a: Point, b: Point, isInside: boolean): Element[] {
  const heading = direction(a, b);
  const back = quarter(quarter(heading));
  if (isInside) return [line('thin', a, b), arrowHead(a, back, ARROW), arrowHead(b, heading, ARROW)];
  return [
    line('thin', along(a, back, OUTSIDE), along(b, heading, OUTSIDE)),
    arrowHead(a, heading, ARROW),
    arrowHead(b, back, ARROW),
  ];
}
