/**
 * Contours and areas of a field over six-node triangles. Each is cut into four plain triangles, on which a value is taken
 * as straight between its corners; contours come out as long lines, areas as closed rings.
 */
import type { Point } from '../plane.ts';

/** Triangles with a value at each corner. */
export interface Surface {
  /** Two numbers per node. */
  readonly coordinates: ArrayLike<number>;
  /** Three nodes per triangle, counter-clockwise. */
  readonly triangles: ArrayLike<number>;
  /** One per node. */
  readonly values: ArrayLike<number>;
}

/** Four plain triangles for each six-node one (corners 0 1 2, then the middles of 01, 12, 20). */
export function plainTriangles(sixNode: ArrayLike<number>, isWanted: (element: number) => boolean): Int32Array {
  const found: number[] = [];
  for (let e = 0; 6 * e < sixNode.length; e++) {
    if (!isWanted(e)) continue;
    const n = (k: number): number => sixNode[6 * e + k];
    found.push(n(0), n(3), n(5), n(3), n(1), n(4), n(5), n(4), n(2), n(3), n(4), n(5));
  }
  return Int32Array.from(found);
}

/**
 * Sixteen plain triangles for each six-node one, their values those of the second-degree polynomial through the six nodes,
 * so that a contour bends with the field inside an element. Edges of elements are straight.
 */
export function curvedSurface(
  coordinates: ArrayLike<number>,
  sixNode: ArrayLike<number>,
  values: ArrayLike<number>,
): Surface {
  const places = Array.from(coordinates);
  const heights = Array.from(values);
  const nodes = values.length;
  const triangles: number[] = [];
  const made = new Map<number, number>();
  for (let e = 0; 6 * e < sixNode.length; e++) {
    const n = Array.from({ length: 6 }, (_, k) => sixNode[6 * e + k]);
    // A place by its shares of the corners in quarters; nodes of the element keep their numbers.
    const nodeAt = (i: number, j: number, k: number): number => {
      const known = [
        [4, 0, 0],
        [0, 4, 0],
        [0, 0, 4],
        [2, 2, 0],
        [0, 2, 2],
        [2, 0, 2],
      ].findIndex(([a, b, c]) => a === i && b === j && c === k);
      if (known >= 0) return n[known];
      const ends = i === 0 ? [1, 2, 4] : j === 0 ? [0, 2, 5] : k === 0 ? [0, 1, 3] : null;
      // Places on an edge are shared with the element beyond it, those inside are the element's own.
      const [first, second, middle] = ends ?? [0, 0, 0];
      const near = n[[i, j, k][first] === 3 ? first : second];
      const key =
        ends === null ? -1 - (16 * e + 4 * i + j) : Math.min(near, n[middle]) * nodes + Math.max(near, n[middle]);
      const there = made.get(key);
      if (there !== undefined) return there;
      const [a, b, c] = [i / 4, j / 4, k / 4];
      for (const axis of [0, 1])
        places.push(
          a * coordinates[2 * n[0] + axis] + b * coordinates[2 * n[1] + axis] + c * coordinates[2 * n[2] + axis],
        );
      heights.push(
        a * (2 * a - 1) * values[n[0]]
          + b * (2 * b - 1) * values[n[1]]
          + c * (2 * c - 1) * values[n[2]]
          + 4 * (a * b * values[n[3]] + b * c * values[n[4]] + c * a * values[n[5]]),
      );
      made.set(key, heights.length - 1);
      return heights.length - 1;
    };
    for (let j = 0; j < 4; j++)
      for (let k = 0; j + k < 4; k++) {
        const i = 4 - j - k;
        triangles.push(nodeAt(i, j, k), nodeAt(i - 1, j + 1, k), nodeAt(i - 1, j, k + 1));
        if (i > 1) triangles.push(nodeAt(i - 1, j + 1, k), nodeAt(i - 2, j + 1, k + 1), nodeAt(i - 1, j, k + 1));
      }
  }
  return { coordinates: places, triangles, values: heights };
}

/** Lines along which the value is `level`. */
export function contour(surface: Surface, level: number): Point[][] {
  return chains(crossingSteps(surface, level, false));
}

/** The area where the value is `level` or more, as rings, those round it counter-clockwise and its holes clockwise. */
export function areaAbove(surface: Surface, level: number): Point[][] {
  return chains(crossingSteps(surface, level, true));
}

/** A step from one place to the next, places known by a key so that steps of neighbours join exactly. */
interface Step {
  readonly from: number;
  readonly to: number;
  readonly at: Point;
  readonly end: Point;
}

function crossingSteps({ coordinates, triangles, values }: Surface, level: number, withEdges: boolean): Step[] {
  const nodes = values.length;
  const steps: Step[] = [];
  const node = (n: number): Point => ({ x: coordinates[2 * n], y: coordinates[2 * n + 1] });
  const keyOf = (a: number, b: number): number => (a < b ? a * nodes + b : b * nodes + a);
  const cut = (a: number, b: number): Point => {
    // Always from the lower node to the higher, so that both triangles beside an edge find the same place.
    const [low, high] = a < b ? [a, b] : [b, a];
    const share = (level - values[low]) / (values[high] - values[low]);
    const [p, q] = [node(low), node(high)];
    return { x: p.x + share * (q.x - p.x), y: p.y + share * (q.y - p.y) };
  };
  const isAbove = (n: number): boolean => values[n] >= level;
  const edges = withEdges ? outerEdges(triangles, nodes) : null;
  for (let t = 0; t < triangles.length; t += 3) {
    let leaves = -1;
    let enters = -1;
    for (let k = 0; k < 3; k++) {
      const [a, b] = [triangles[t + k], triangles[t + ((k + 1) % 3)]];
      if (isAbove(a) && !isAbove(b)) leaves = k;
      if (!isAbove(a) && isAbove(b)) enters = k;
      if (edges === null || !edges.has(keyOf(a, b))) continue;
      // Along the edge of the whole, where the value is high enough. Nodes have keys of their own, below zero.
      if (isAbove(a) && isAbove(b)) steps.push({ from: -1 - a, to: -1 - b, at: node(a), end: node(b) });
      else if (isAbove(a)) steps.push({ from: -1 - a, to: keyOf(a, b), at: node(a), end: cut(a, b) });
      else if (isAbove(b)) steps.push({ from: keyOf(a, b), to: -1 - b, at: cut(a, b), end: node(b) });
    }
    if (leaves < 0) continue;
    // Higher values lie to the left, so that rings round an area run counter-clockwise.
    const side = (k: number): [number, number] => [triangles[t + k], triangles[t + ((k + 1) % 3)]];
    const [out, into] = [side(leaves), side(enters)];
    steps.push({ from: keyOf(...out), to: keyOf(...into), at: cut(...out), end: cut(...into) });
  }
  return steps;
}

/** Keys of the edges that belong to one triangle alone. */
function outerEdges(triangles: ArrayLike<number>, nodes: number): Set<number> {
  const found = new Set<number>();
  for (let t = 0; t < triangles.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [triangles[t + k], triangles[t + ((k + 1) % 3)]];
      const key = a < b ? a * nodes + b : b * nodes + a;
      if (!found.delete(key)) found.add(key);
    }
  return found;
}

/** Steps put end to end. Where several leave one place, each is taken once. */
function chains(steps: readonly Step[]): Point[][] {
  const leaving = new Map<number, Step[]>();
  const arriving = new Set<number>();
  for (const step of steps) {
    const there = leaving.get(step.from);
    if (there) there.push(step);
    else leaving.set(step.from, [step]);
    arriving.add(step.to);
  }
  const found: Point[][] = [];
  const follow = (first: Step): void => {
    const line = [first.at];
    let step: Step | undefined = first;
    while (step) {
      line.push(step.end);
      step = leaving.get(step.to)?.pop();
    }
    found.push(line);
  };
  // Open lines first, from where nothing arrives; what is left are rings.
  for (const [from, there] of leaving) if (!arriving.has(from)) for (let s = there.pop(); s; s = there.pop()) follow(s);
  for (const there of leaving.values()) for (let s = there.pop(); s; s = there.pop()) follow(s);
  return found;
}

/** The same line with fewer points: none lies further than `tolerance` from it (Douglas and Peucker, 1973). */
export function simplified(points: readonly Point[], tolerance: number): Point[] {
  const keep = new Uint8Array(points.length);
  keep[0] = keep[points.length - 1] = 1;
  const open: [number, number][] = [[0, points.length - 1]];
  for (let span = open.pop(); span; span = open.pop()) {
    const [first, last] = span;
    const [a, b] = [points[first], points[last]];
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const length = Math.hypot(dx, dy);
    let furthest = 0;
    let at = -1;
    for (let i = first + 1; i < last; i++) {
      const { x, y } = points[i];
      const away = length < 1e-9 ? Math.hypot(x - a.x, y - a.y) : Math.abs((x - a.x) * dy - (y - a.y) * dx) / length;
      if (away > furthest) [furthest, at] = [away, i];
    }
    if (at < 0 || furthest <= tolerance) continue;
    keep[at] = 1;
    open.push([first, at], [at, last]);
  }
  return points.filter((_, i) => keep[i] === 1);
}

interface Window {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

/** The pieces of an open line inside a window. */
export function clippedLine(points: readonly Point[], window: Window): Point[][] {
  const found: Point[][] = [];
  let piece: Point[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const part = clippedStep(points[i], points[i + 1], window);
    if (part === null) {
      if (piece.length > 1) found.push(piece);
      piece = [];
      continue;
    }
    const [from, to] = part;
    const last = piece[piece.length - 1];
    if (last === undefined || Math.hypot(last.x - from.x, last.y - from.y) > 1e-9) {
      if (piece.length > 1) found.push(piece);
      piece = [from];
    }
    piece.push(to);
  }
  if (piece.length > 1) found.push(piece);
  return found;
}

/** Liang and Barsky, 1984. */
function clippedStep(a: Point, b: Point, { left, bottom, right, top }: Window): [Point, Point] | null {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  let [from, to] = [0, 1];
  for (const [p, q] of [
    [-dx, a.x - left],
    [dx, right - a.x],
    [-dy, a.y - bottom],
    [dy, top - a.y],
  ]) {
    if (p === 0) {
      if (q < 0) return null;
    } else if (p < 0) from = Math.max(from, q / p);
    else to = Math.min(to, q / p);
  }
  if (from >= to) return null;
  const at = (share: number): Point => ({ x: a.x + share * dx, y: a.y + share * dy });
  return [at(from), at(to)];
}

/** A ring cut to a window (Sutherland and Hodgman, 1974); empty where nothing is left. */
export function clippedRing(ring: readonly Point[], { left, bottom, right, top }: Window): Point[] {
  const sides: readonly ((p: Point) => number)[] = [
    (p) => p.x - left,
    (p) => right - p.x,
    (p) => p.y - bottom,
    (p) => top - p.y,
  ];
  let points = [...ring];
  for (const side of sides) {
    const next: Point[] = [];
    points.forEach((a, i) => {
      const b = points[(i + 1) % points.length];
      const [inA, inB] = [side(a), side(b)];
      if (inA >= 0) next.push(a);
      if (inA >= 0 !== inB >= 0) {
        const share = inA / (inA - inB);
        next.push({ x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) });
      }
    });
    points = next;
  }
  return points;
}
