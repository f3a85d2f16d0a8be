/** Points of a plane, y up, angles counter-clockwise in radians. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

export const point = (x: number, y: number): Point => ({ x, y });
export const plus = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });
export const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });
export const times = (a: Point, factor: number): Point => ({ x: a.x * factor, y: a.y * factor });
export const along = (from: Point, direction: Point, distance: number): Point => ({
  x: from.x + direction.x * distance,
  y: from.y + direction.y * distance,
});
export const between = (a: Point, b: Point, share: number): Point => ({
  x: a.x + (b.x - a.x) * share,
  y: a.y + (b.y - a.y) * share,
});
export const polar = (radius: number, angle: number): Point => ({
  x: radius * Math.cos(angle),
  y: radius * Math.sin(angle),
});
/** Turned a quarter counter-clockwise. */
export const quarter = (a: Point): Point => ({ x: -a.y, y: a.x });
export const turned = (a: Point, angle: number): Point => ({
  x: a.x * Math.cos(angle) - a.y * Math.sin(angle),
  y: a.x * Math.sin(angle) + a.y * Math.cos(angle),
});
export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);
export const angleOf = (a: Point): number => Math.atan2(a.y, a.x);

/** From a to b, of length one; to the right where both are the same point. */
export function direction(a: Point, b: Point): Point {
  const length = distance(a, b);
  return length > 0 ? times(minus(b, a), 1 / length) : point(1, 0);
}

export function boxAround(points: readonly Point[]): Box | null {
  if (points.length === 0) return null;
  return {
    left: Math.min(...points.map(({ x }) => x)),
    bottom: Math.min(...points.map(({ y }) => y)),
    right: Math.max(...points.map(({ x }) => x)),
    top: Math.max(...points.map(({ y }) => y)),
  };
}

export function boxesOverlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

export function grown(box: Box, by: number): Box {
  return { left: box.left - by, bottom: box.bottom - by, right: box.right + by, top: box.top + by };
}

/** Whether the straight line from a to b passes through the box. */
export function crosses(a: Point, b: Point, box: Box): boolean {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  if (dx === 0 && (a.x <= box.left || a.x >= box.right)) return false;
  if (dy === 0 && (a.y <= box.bottom || a.y >= box.top)) return false;
  // Shares of the way at which it enters and leaves the strip between left and right, then that between bottom and top.
  const [left, right] = dx === 0 ? ALL_THE_WAY : ordered((box.left - a.x) / dx, (box.right - a.x) / dx);
  const [bottom, top] = dy === 0 ? ALL_THE_WAY : ordered((box.bottom - a.y) / dy, (box.top - a.y) / dy);
  return Math.max(0, left, bottom) < Math.min(1, right, top);
}

const ALL_THE_WAY = [0, 1] as const;
const ordered = (a: number, b: number): readonly [number, number] => (a < b ? [a, b] : [b, a]);

/** Where the closed outline crosses the level y, from left to right. */
export function crossings(outline: readonly Point[], y: number): number[] {
  const found: number[] = [];
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length] ?? a;
    if (a.y <= y !== b.y <= y) found.push(a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x));
  });
  return found.sort((a, b) => a - b);
}
