import { distance, distanceToSegment, type Point } from './outline.ts';

/** What the size of the elements has to follow, on a drawing whose size is of order one. */
export interface SizedDrawing {
  readonly points: readonly Point[];
  readonly segments: readonly (readonly [number, number])[];
  /** Per segment: does the permeability jump across it? */
  readonly interfaces: readonly boolean[];
  /** Per segment: is it part of the edge of the field (axis or outer edge)? */
  readonly frame: readonly boolean[];
  /** Per vertex: angle taken up by permeable material and by the rest, radians; on the axis counted twice. */
  readonly openAngle: readonly number[];
}

/** How fine to mesh. The lengths of all elements scale with `scale`; the rest fixes their proportions. */
const AT_A_SHARP_CORNER = 0.056;
const AT_ANY_CORNER = 1.2;
const ACROSS = 1;
const ALONG = 1 / 9;
const GROWTH = 0.76;
const LARGEST = 0.4;

/**
 * The wanted length of the element edges at a point.
 *
 * Small where the field is singular: at the corners of permeable parts that stick out into air, in proportion to the
 * distance of the nearest other surface. Of the order of a part's or gap's width elsewhere, except that a long narrow
 * gap or wall, in which the field hardly changes along its length, may have elements longer than it is wide. Growing in
 * proportion to the distance from all these.
 */
export class ElementSize {
  readonly #scale: number;
  readonly #features: Float64Array;

  constructor(drawing: SizedDrawing, scale: number) {
    this.#scale = scale;
    const features: number[] = [];
    const add = (a: Point, b: Point, size: number): void => {
      features.push(a[0], a[1], b[0], b[1], size);
    };
    drawing.points.forEach((p, v) => {
      // The axis is a line of symmetry: what ends there does not end.
      if (p[0] === 0) return;
      const size = cornerSize(drawing, v);
      if (size < LARGEST) add(p, p, size);
    });
    for (const { a, b, size } of facingPairs(drawing)) if (size < LARGEST) add(a, b, size);
    this.#features = Float64Array.from(features);
  }

  at(x: number, y: number): number {
    const f = this.#features;
    let least = LARGEST;
    const radius = Math.hypot(x, y);
    if (radius > 1) least += GROWTH * (radius - 1);
    for (let i = 0; i < f.length; i += 5) {
      const room = (least - f[i + 4]) / GROWTH;
      if (room <= 0) continue;
      const ax = f[i];
      const ay = f[i + 1];
      const dx = f[i + 2] - ax;
      const dy = f[i + 3] - ay;
      let px = x - ax;
      let py = y - ay;
      const squared = dx * dx + dy * dy;
      if (squared > 0) {
        const t = Math.min(1, Math.max(0, (px * dx + py * dy) / squared));
        px -= t * dx;
        py -= t * dy;
      }
      const d2 = px * px + py * py;
      if (d2 < room * room) least = f[i + 4] + GROWTH * Math.sqrt(d2);
    }
    return this.#scale * least;
  }
}

function cornerSize(drawing: SizedDrawing, v: number): number {
  const { points, segments, interfaces, frame, openAngle } = drawing;
  // An angle of 360° is a vertex in the open, such as a coil's corner.
  const sharp = openAngle[v] > (200 / 180) * Math.PI && openAngle[v] < (359 / 180) * Math.PI;
  let room = Infinity;
  segments.forEach(([a, b], s) => {
    if (a === v || b === v || frame[s] || (sharp && !interfaces[s])) return;
    room = Math.min(room, distanceToSegment(points[v], points[a], points[b]));
  });
  // The axis is no surface, but a corner close to it is on a thin part.
  if (sharp) room = Math.min(room, points[v][0] / 2);
  return room * (sharp ? AT_A_SHARP_CORNER : AT_ANY_CORNER);
}

/** Stretches of nearly parallel segments that face each other across one material, and the size wanted there. */
function facingPairs(drawing: SizedDrawing): { a: Point; b: Point; size: number }[] {
  const { points, segments } = drawing;
  const found: { a: Point; b: Point; size: number }[] = [];
  for (let i = 0; i < segments.length; i++) {
    const a = points[segments[i][0]];
    const b = points[segments[i][1]];
    const length = distance(a, b);
    const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    for (let j = 0; j < segments.length; j++) {
      if (i === j || (drawing.frame[i] && drawing.frame[j])) continue;
      if (segments[i].includes(segments[j][0]) || segments[i].includes(segments[j][1])) continue;
      const c = points[segments[j][0]];
      const d = points[segments[j][1]];
      const other = distance(c, d);
      if (Math.abs(ux * (d[1] - c[1]) - uy * (d[0] - c[0])) > 0.17 * other) continue;
      const along = (p: Point): number => (p[0] - a[0]) * ux + (p[1] - a[1]) * uy;
      const from = Math.max(0, Math.min(along(c), along(d)));
      const to = Math.min(length, Math.max(along(c), along(d)));
      const overlap = to - from;
      if (overlap <= 1e-9) continue;
      const middle: Point = [a[0] + (ux * (from + to)) / 2, a[1] + (uy * (from + to)) / 2];
      const width = distanceToSegment(middle, c, d);
      if (width <= 0 || overlap < 0.7 * width || !seen(drawing, i, j, middle, c, d)) continue;
      found.push({
        a: [a[0] + ux * from, a[1] + uy * from],
        b: [a[0] + ux * to, a[1] + uy * to],
        size: Math.max(ACROSS * width, ALONG * overlap),
      });
    }
  }
  return found;
}

/** Is nothing between a point of segment i and the point of segment j (c d) nearest to it? */
function seen(drawing: SizedDrawing, i: number, j: number, p: Point, c: Point, d: Point): boolean {
  const { points, segments } = drawing;
  const squared = (d[0] - c[0]) ** 2 + (d[1] - c[1]) ** 2;
  const t = ((p[0] - c[0]) * (d[0] - c[0]) + (p[1] - c[1]) * (d[1] - c[1])) / squared;
  const q: Point = [c[0] + t * (d[0] - c[0]), c[1] + t * (d[1] - c[1])];
  const turn = (o: Point, m: Point, n: Point): number => (m[0] - o[0]) * (n[1] - o[1]) - (m[1] - o[1]) * (n[0] - o[0]);
  for (let k = 0; k < segments.length; k++) {
    if (k === i || k === j) continue;
    const e = points[segments[k][0]];
    const f = points[segments[k][1]];
    if (turn(p, q, e) * turn(p, q, f) < 0 && turn(e, f, p) * turn(e, f, q) < 0) return false;
  }
  return true;
}
