/** What stands in the way: outline and hatching in thin lines (ISO 128-2), its name beside it, and the places that move it. */
import type { DrawnKeepOut } from '../../assessment/picture.ts';
import { hatch, part, polygon, type Part } from '../drawing.ts';
import type { WantedLabel } from '../placing.ts';
import { point, polar, plus, type Box, type Point } from '../plane.ts';
import type { Handle } from './handles.ts';
import { lengthOnSheet, toSheet, type Frame } from './view.ts';

/** Lines of the hatching stand apart by this, mm: wider than those of a cut, since an area and no material is meant. */
const APART = 3;

const ROUND = 72;

export function drawKeepOut(frame: Frame, shapes: readonly DrawnKeepOut[], sheet: Box): Part[] {
  return shapes.flatMap((shape) => {
    const ring = onSheet(ringOf(frame, shape), sheet);
    return ring.length < 3
      ? []
      : [part(`keep-out-${shape.index + 1}`, 'quiet', [hatch([ring], APART), polygon('thin', ring)])];
  });
}

export function keepOutLabels(frame: Frame, shapes: readonly DrawnKeepOut[], sheet: Box): WantedLabel[] {
  const names = keepOutNames(shapes);
  return shapes.flatMap((shape, i): WantedLabel[] => {
    const ring = onSheet(ringOf(frame, shape), sheet);
    if (ring.length < 3) return [];
    const anchor = point(middle(ring.map(({ x }) => x)), middle(ring.map(({ y }) => y)));
    return [{ name: `label-keep-out-${shape.index + 1}`, role: 'quiet', words: names[i], anchor, leaderBeyond: 4 }];
  });
}

/** A place that lies off the sheet cannot be taken hold of; its numbers can still be typed. */
export function keepOutHandles(frame: Frame, shapes: readonly DrawnKeepOut[], sheet: Box): Handle[] {
  const names = keepOutNames(shapes);
  return shapes
    .flatMap((shape, i): Handle[] => {
      const path = `space.keepOut[${shape.index}]`;
      const place = (what: string, moves: string, at: Point): Handle => ({
        name: `${what} of ${names[i]}`,
        moves: `${path}.${moves}`,
        kind: 'place',
        ...toSheet(frame, at),
        about: toSheet(frame, at),
        line: null,
        add: 0,
      });
      if (shape.shape === 'rectangle')
        return [place('one corner', 'from', shape.from), place('far corner', 'to', shape.to)];
      const centre = toSheet(frame, shape.centre);
      const line = point(1, 0);
      return [
        place('centre', 'centre', shape.centre),
        {
          name: `edge of ${names[i]}`,
          moves: `${path}.radius`,
          kind: 'distance',
          x: centre.x + lengthOnSheet(frame, shape.radius),
          y: centre.y,
          about: centre,
          line,
          add: 0,
        },
      ];
    })
    .filter(({ x, y }) => x >= sheet.left && x <= sheet.right && y >= sheet.bottom && y <= sheet.top);
}

/** Each shape by a name that no other one has. */
export function keepOutNames(shapes: readonly DrawnKeepOut[]): string[] {
  const bare = shapes.map(({ name, index }) => (name.trim() === '' ? `keep-out ${index + 1}` : name.trim()));
  return bare.map((name, i) =>
    bare.indexOf(name) === bare.lastIndexOf(name) ? name : `${name} (${shapes[i].index + 1})`,
  );
}

/** Corners of its outline, m. */
export function keepOutCorners(shape: DrawnKeepOut): Point[] {
  if (shape.shape === 'circle')
    return Array.from({ length: ROUND }, (_, i) => plus(shape.centre, polar(shape.radius, (2 * Math.PI * i) / ROUND)));
  const { from, to } = shape;
  return [from, point(to.x, from.y), to, point(from.x, to.y)];
}

const ringOf = (frame: Frame, shape: DrawnKeepOut): Point[] => keepOutCorners(shape).map((p) => toSheet(frame, p));

const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;

/** The part of a convex outline that lies on the sheet, edge by edge (polygon clipping of Sutherland and Hodgman). */
function onSheet(ring: readonly Point[], { left, right, bottom, top }: Box): Point[] {
  const edges: readonly ((p: Point) => number)[] = [
    ({ x }) => x - left,
    ({ x }) => right - x,
    ({ y }) => y - bottom,
    ({ y }) => top - y,
  ];
  return edges.reduce<Point[]>(
    (kept, inside) =>
      kept.flatMap((p, i) => {
        const before = kept[(i + kept.length - 1) % kept.length];
        const [a, b] = [inside(before), inside(p)];
        const share = a / (a - b);
        const cut = point(before.x + (p.x - before.x) * share, before.y + (p.y - before.y) * share);
        if (a >= 0 !== b >= 0) return b >= 0 ? [cut, p] : [cut];
        return b >= 0 ? [p] : [];
      }),
    [...ring],
  );
}
