/**
 * What stands in the way, and whether a layout enters it.
 *
 * An approximation on the safe side of a drawing, not of a model in space: every part is a straight bar as thick as it is
 * drawn (the body of the solenoid 2.3 times as wide as its plunger and as long as its guide and a third of the plunger
 * more, the arm 2.2 times as wide as its pin, link and spring as thick as their pins and coils), held against the shapes
 * at five places of the travel. What passes above or below a shape, out of the plane of the lever, is taken to hit it.
 */
export type Shape =
  | { readonly shape: 'circle'; readonly name: string; readonly x: number; readonly y: number; readonly radius: number }
  | {
      readonly shape: 'rectangle';
      readonly name: string;
      readonly left: number;
      readonly right: number;
      readonly bottom: number;
      readonly top: number;
    };

/** A straight bar, m. */
export interface Bar {
  readonly part: string;
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** Half its thickness. */
  readonly half: number;
}

/** How far a bar stays clear of a shape, m; at or below zero it enters it. */
export function clearOf(bar: Bar, shape: Shape): number {
  const distance =
    shape.shape === 'circle'
      ? distanceToPoint(bar, shape.x, shape.y) - shape.radius
      : distanceToRectangle(bar, shape.left, shape.right, shape.bottom, shape.top);
  return distance - bar.half;
}

/** The first shape that a bar enters; null where all stay clear. */
export function entered(
  bars: readonly Bar[],
  shapes: readonly Shape[],
): { readonly bar: Bar; readonly shape: Shape } | null {
  for (const shape of shapes) for (const bar of bars) if (clearOf(bar, shape) <= 0) return { bar, shape };
  return null;
}

function distanceToPoint({ ax, ay, bx, by }: Bar, x: number, y: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
  return Math.hypot(ax + along * dx - x, ay + along * dy - y);
}

/** Zero where the middle line of the bar touches the rectangle. */
function distanceToRectangle(bar: Bar, left: number, right: number, bottom: number, top: number): number {
  if (crosses(bar, left, right, bottom, top)) return 0;
  const toCorner = Math.min(
    distanceToPoint(bar, left, bottom),
    distanceToPoint(bar, left, top),
    distanceToPoint(bar, right, bottom),
    distanceToPoint(bar, right, top),
  );
  const fromEnd = (x: number, y: number) =>
    Math.hypot(Math.max(left - x, 0, x - right), Math.max(bottom - y, 0, y - top));
  return Math.min(toCorner, fromEnd(bar.ax, bar.ay), fromEnd(bar.bx, bar.by));
}

/** Cuts the bar's middle line by the four sides in turn; something is left where it passes through. */
function crosses({ ax, ay, bx, by }: Bar, left: number, right: number, bottom: number, top: number): boolean {
  let from = 0;
  let to = 1;
  const cut = (start: number, way: number, low: number, high: number): void => {
    if (way === 0) {
      if (start < low || start > high) to = -1;
      return;
    }
    const one = (low - start) / way;
    const other = (high - start) / way;
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
  };
  cut(ax, bx - ax, left, right);
  cut(ay, by - ay, bottom, top);
  return from <= to;
}
