import { DomainError } from '../domain-error.ts';

/** A point of the half-plane: radius and height, metres. */
export type Point = readonly [radius: number, height: number];

/** The outlines of all regions cut at each other's corners, so that segments meet at their ends only. */
export interface Drawing {
  /** Vertices, metres. */
  readonly points: Point[];
  /** Segments between vertices, each once. */
  readonly segments: (readonly [number, number])[];
}

export interface NamedOutline {
  readonly name: string;
  readonly outline: readonly Point[];
}

/** Lengths below this share of the drawing's size count as zero. */
export const SMALLEST_SHARE = 1e-6;

/**
 * Checks the outlines and cuts them, and the frame round them, into segments that meet at their ends only. The frame is
 * the edge of the whole field region; the outlines must lie inside it and may touch it.
 *
 * @throws DomainError SW-M011 no area, or a wall too thin to be told from none
 * @throws DomainError SW-M012 an outline that crosses itself
 * @throws DomainError SW-M013 two regions overlap
 */
export function drawOutlines(regions: readonly NamedOutline[], frame: readonly Point[]): Drawing {
  const size = extent(regions.map((r) => r.outline));
  const tiny = SMALLEST_SHARE * size;
  for (const { name, outline } of regions) checkOne(name, outline, size);

  const points: Point[] = [];
  const pointAt = (p: Point): number => {
    const known = points.findIndex((q) => distance(p, q) < tiny);
    if (known >= 0) return known;
    points.push(p[0] < tiny ? [0, p[1]] : p);
    return points.length - 1;
  };
  const edges: { a: number; b: number; region: number }[] = [];
  [...regions, { outline: frame }].forEach(({ outline }, region) => {
    const corners = outline.map(pointAt);
    corners.forEach((a, i) => {
      const b = corners[(i + 1) % corners.length];
      if (a !== b) edges.push({ a, b, region });
    });
  });
  checkCrossings([...regions, { name: 'edge of the field', outline: frame }], points, edges, tiny);

  const seen = new Set<string>();
  const segments: [number, number][] = [];
  for (const { a, b } of edges) {
    const on = points
      .map((_, i) => i)
      .filter((i) => i === a || i === b || liesOn(points[i], points[a], points[b], tiny));
    on.sort((i, j) => distance(points[a], points[i]) - distance(points[a], points[j]));
    for (let k = 0; k + 1 < on.length; k++) {
      const key = on[k] < on[k + 1] ? `${on[k]} ${on[k + 1]}` : `${on[k + 1]} ${on[k]}`;
      if (seen.has(key)) continue;
      seen.add(key);
      segments.push([on[k], on[k + 1]]);
    }
  }
  checkOverlaps(regions, points, segments);
  return { points, segments };
}

/** @throws DomainError SW-M010 fewer than three corners, a corner that is no finite number, or one left of the axis */
export function checkCorners(regions: readonly NamedOutline[]): void {
  for (const { name, outline } of regions) {
    if (outline.length < 3)
      throw new DomainError('SW-M010', `region "${name}" needs three corners or more, not ${outline.length}`);
    for (const [r, z] of outline) {
      if (!Number.isFinite(r) || !Number.isFinite(z))
        throw new DomainError('SW-M010', `region "${name}" has a corner at (${r}, ${z}) m`);
      if (r < 0) throw new DomainError('SW-M010', `region "${name}" reaches left of the axis, to a radius of ${r} m`);
    }
  }
}

/** Largest distance spanned by the outlines, from the axis or along it. */
export function extent(outlines: readonly (readonly Point[])[]): number {
  let radius = 0;
  let low = Infinity;
  let high = -Infinity;
  for (const outline of outlines)
    for (const [r, z] of outline) {
      radius = Math.max(radius, r);
      low = Math.min(low, z);
      high = Math.max(high, z);
    }
  return Math.max(radius, high - low);
}

export function distance(p: Point, q: Point): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1]);
}

/** Distance of p from the segment a b. */
export function distanceToSegment(p: Point, a: Point, b: Point): number {
  const [dr, dz] = [b[0] - a[0], b[1] - a[1]];
  const squared = dr * dr + dz * dz;
  const along = squared > 0 ? ((p[0] - a[0]) * dr + (p[1] - a[1]) * dz) / squared : 0;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(p[0] - a[0] - t * dr, p[1] - a[1] - t * dz);
}

/** Is p inside the outline? Points on the outline itself may come out either way. */
export function isInside(p: Point, outline: readonly Point[]): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [r1, z1] = outline[i];
    const [r2, z2] = outline[j];
    if (z1 > p[1] !== z2 > p[1] && p[0] < ((r2 - r1) * (p[1] - z1)) / (z2 - z1) + r1) inside = !inside;
  }
  return inside;
}

/** Area of an outline, counter-clockwise positive. */
export function signedArea(outline: readonly Point[]): number {
  let sum = 0;
  outline.forEach(([r, z], i) => {
    const [r2, z2] = outline[(i + 1) % outline.length];
    sum += r * z2 - r2 * z;
  });
  return sum / 2;
}

function liesOn(p: Point, a: Point, b: Point, tiny: number): boolean {
  return distance(p, a) >= tiny && distance(p, b) >= tiny && distanceToSegment(p, a, b) < tiny;
}

function checkOne(name: string, outline: readonly Point[], size: number): void {
  const area = Math.abs(signedArea(outline));
  let length = 0;
  outline.forEach((p, i) => (length += distance(p, outline[(i + 1) % outline.length])));
  if (!(area > SMALLEST_SHARE * length * size))
    throw new DomainError('SW-M011', `region "${name}" has no thickness: area ${area} m² on an outline of ${length} m`);
  for (let i = 0; i < outline.length; i++)
    for (let j = i + 2; j < outline.length; j++) {
      if (i === 0 && j === outline.length - 1) continue;
      if (cross(outline[i], outline[i + 1], outline[j], outline[(j + 1) % outline.length]))
        throw new DomainError(
          'SW-M012',
          `the outline of region "${name}" crosses itself near (${outline[j][0]}, ${outline[j][1]}) m`,
        );
    }
}

function checkCrossings(
  regions: readonly NamedOutline[],
  points: readonly Point[],
  edges: readonly { a: number; b: number; region: number }[],
  tiny: number,
): void {
  for (let i = 0; i < edges.length; i++)
    for (let j = i + 1; j < edges.length; j++) {
      const [e, f] = [edges[i], edges[j]];
      if (e.region === f.region) continue;
      const [p, q, r, s] = [points[e.a], points[e.b], points[f.a], points[f.b]];
      if (!cross(p, q, r, s)) continue;
      if (distanceToSegment(p, r, s) < tiny || distanceToSegment(q, r, s) < tiny) continue;
      if (distanceToSegment(r, p, q) < tiny || distanceToSegment(s, p, q) < tiny) continue;
      throw overlap(regions[e.region].name, regions[f.region].name, [(r[0] + s[0]) / 2, (r[1] + s[1]) / 2]);
    }
}

/** After cutting, a segment of one region whose middle is clearly inside another means that the two overlap. */
function checkOverlaps(
  regions: readonly NamedOutline[],
  points: readonly Point[],
  segments: readonly (readonly [number, number])[],
): void {
  const clearlyInside = (p: Point, outline: readonly Point[], margin: number): boolean =>
    isInside(p, outline)
    && outline.every((a, i) => distanceToSegment(p, a, outline[(i + 1) % outline.length]) > margin);
  const tiny = SMALLEST_SHARE * extent(regions.map((r) => r.outline));
  const middles = segments.map(([a, b]): Point => [
    (points[a][0] + points[b][0]) / 2,
    (points[a][1] + points[b][1]) / 2,
  ]);
  regions.forEach((one, i) => {
    const own = middles.filter((m) =>
      one.outline.some((a, k) => distanceToSegment(m, a, one.outline[(k + 1) % one.outline.length]) < tiny),
    );
    own.push(pointInside(one.outline));
    regions.forEach((other, j) => {
      if (i === j) return;
      for (const m of own) if (clearlyInside(m, other.outline, 2 * tiny)) throw overlap(one.name, other.name, m);
    });
  });
}

/** Some point well inside an outline: halfway across it at the height of the middle of one of its edges. */
function pointInside(outline: readonly Point[]): Point {
  let best: Point = outline[0];
  let bestDistance = -1;
  const heights = outline.map((p, i) => (p[1] + outline[(i + 1) % outline.length][1]) / 2);
  for (const z of heights) {
    const crossings: number[] = [];
    outline.forEach(([r1, z1], i) => {
      const [r2, z2] = outline[(i + 1) % outline.length];
      if (z1 > z !== z2 > z) crossings.push(r1 + ((z - z1) / (z2 - z1)) * (r2 - r1));
    });
    crossings.sort((a, b) => a - b);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const p: Point = [(crossings[k] + crossings[k + 1]) / 2, z];
      const d = Math.min(...outline.map((a, i) => distanceToSegment(p, a, outline[(i + 1) % outline.length])));
      if (d > bestDistance) {
        bestDistance = d;
        best = p;
      }
    }
  }
  return best;
}

function cross(p: Point, q: Point, r: Point, s: Point): boolean {
  const turn = (a: Point, b: Point, c: Point): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  return turn(p, q, r) * turn(p, q, s) < 0 && turn(r, s, p) * turn(r, s, q) < 0;
}

function overlap(one: string, other: string, at: Point): DomainError {
  return new DomainError(
    'SW-M013',
    `regions "${one}" and "${other}" overlap near radius ${at[0]} m, height ${at[1]} m`,
  );
}
