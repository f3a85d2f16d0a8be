import { DomainError } from '../domain-error.ts';
import { ElementSize } from './element-size.ts';
import { checkCorners, drawOutlines, extent, isInside, type NamedOutline, type Point } from './outline.ts';
import { refine, smooth } from './refinement.ts';
import { after, before, Triangulation } from './triangulation.ts';

/** What surrounds the regions. */
export type Surroundings =
  /** Free space without end. */
  | { readonly kind: 'open' }
  /** Free space that carries a uniform axial field far away, tesla. */
  | { readonly kind: 'uniform field'; readonly fluxDensity: number }
  /** A cylindrical box with walls of infinite permeability, on which the field stands square; metres. */
  | { readonly kind: 'permeable box'; readonly radius: number; readonly bottom: number; readonly top: number };

/** Six-node triangles: corners 0, 1, 2 counter-clockwise, then the middles of edges 01, 12, 20. Metres. */
export interface Mesh {
  readonly nodes: number;
  /** The nodes below this number are corners. */
  readonly corners: number;
  /** Radius and height of node n at 2n and 2n + 1. */
  readonly coordinates: Float64Array;
  /** Six nodes per element. */
  readonly triangles: Int32Array;
  /** Region of each element, -1 for the air between the regions. */
  readonly region: Int32Array;
  /** 1 where the node lies on the axis. */
  readonly onAxis: Uint8Array;
  /** Edges of elements on the far boundary or the box: 3 × element + number of the edge (01, 12, 20). */
  readonly outerEdges: Int32Array;
  /** Centre and radius of the far boundary, metres (0 for a box). */
  readonly farCentre: number;
  readonly farRadius: number;
}

export interface MeshedRegion extends NamedOutline {
  readonly permeable: boolean;
}

/** The far boundary stands at this many half-extents. The field outside is carried exactly as that of a dipole. */
const FAR_BOUNDARY = 5;
const MOST_NODES = 400_000;
const OUTSIDE = -2;
const UNLABELLED = -3;

/**
 * Meshes the half-plane round the axis.
 *
 * @param scale length of the elements relative to the usual; 1 gives forces to about half a per cent
 * @throws DomainError SW-M010 to SW-M013 from the outlines
 * @throws DomainError SW-M014 an extent outside 0.1 mm to 10 m
 * @throws DomainError SW-M015 the outlines could not be meshed (parts nearly touch), or only with too many nodes
 */
export function meshRegions(regions: readonly MeshedRegion[], surroundings: Surroundings, scale = 1): Mesh {
  if (!(scale >= 0.05 && scale <= 4))
    throw new DomainError('SW-M015', `the relative element length must lie between 0.05 and 4, not ${scale}`);
  checkCorners(regions);
  const frame = frameOf(regions, surroundings, scale);
  const drawing = drawOutlines(regions, frame.outline);

  // Work on a drawing whose largest half-extent is 1, centred on the axis.
  const { centre, unit } = frame;
  const points = drawing.points.map(([r, z]): Point => [r / unit, (z - centre) / unit]);
  const reach = 1.5 * Math.max(...points.map(([x, y]) => Math.max(Math.abs(x), Math.abs(y))));
  const triangulation = new Triangulation(reach);
  const vertex = points.map(([x, y]) => triangulation.insert(x, y));
  for (const [a, b] of drawing.segments) {
    if (!triangulation.fixSegment(vertex[a], vertex[b])) {
      const [r, z] = drawing.points[a];
      throw new DomainError(
        'SW-M015',
        `could not mesh the outlines near radius ${r} m, height ${z} m: parts nearly touch`,
      );
    }
  }
  labelRegions(
    triangulation,
    regions.map((region) => region.outline.map(([r, z]): Point => [r / unit, (z - centre) / unit])),
  );

  const permeable = (label: number): boolean => label >= 0 && regions[label].permeable;
  const sides = drawing.segments.map(([a, b]) => {
    const e = triangulation.edgeBetween(vertex[a], vertex[b]);
    const here = triangulation.label[Math.floor(e / 3)];
    const there = triangulation.twin[e] < 0 ? OUTSIDE : triangulation.label[Math.floor(triangulation.twin[e] / 3)];
    return [here, there] as const;
  });
  const isFrame = sides.map(([here, there]) => here === OUTSIDE || there === OUTSIDE);
  const size = new ElementSize(
    {
      points,
      segments: drawing.segments,
      interfaces: sides.map(([here, there]) => permeable(here) !== permeable(there)),
      frame: isFrame,
      openAngle: openAngles(triangulation, vertex, permeable),
    },
    scale,
  );
  const round = surroundings.kind !== 'permeable box';
  drawing.segments.forEach(([a, b], s) => {
    const onAxis = points[a][0] === 0 && points[b][0] === 0;
    if (!(isFrame[s] && round && !onAxis)) divideSegment(triangulation, size, vertex[a], vertex[b]);
  });
  if (!refine(triangulation, size, MOST_NODES / 4))
    throw new DomainError('SW-M015', `the mesh needs more than ${MOST_NODES} nodes`);
  smooth(triangulation);
  return secondOrderMesh(triangulation, centre, unit, round ? FAR_BOUNDARY * unit : 0);
}

function frameOf(
  regions: readonly NamedOutline[],
  surroundings: Surroundings,
  scale: number,
): { outline: Point[]; centre: number; unit: number } {
  if (surroundings.kind === 'permeable box') {
    const { radius, bottom, top } = surroundings;
    if (!(radius > 0 && top > bottom && Number.isFinite(radius + top - bottom)))
      throw new DomainError('SW-M010', `the box has radius ${radius} m, bottom ${bottom} m and top ${top} m`);
    const outline: Point[] = [
      [0, bottom],
      [radius, bottom],
      [radius, top],
      [0, top],
    ];
    return { outline, centre: (bottom + top) / 2, unit: checkedUnit(Math.max(radius, (top - bottom) / 2)) };
  }
  if (regions.length === 0) throw new DomainError('SW-M010', 'there is no region to mesh');
  const heights = regions.flatMap((region) => region.outline.map((p) => p[1]));
  const centre = (Math.min(...heights) + Math.max(...heights)) / 2;
  const radius = Math.max(...regions.flatMap((region) => region.outline.map((p) => p[0])));
  const unit = checkedUnit(Math.max(radius, extent([heights.map((z): Point => [0, z])]) / 2));
  const chords = Math.max(12, Math.round(16 / scale));
  const far = FAR_BOUNDARY * unit;
  const outline = Array.from({ length: chords + 1 }, (_, i): Point => {
    const angle = (Math.PI * i) / chords;
    return [i === 0 || i === chords ? 0 : far * Math.sin(angle), centre - far * Math.cos(angle)];
  });
  return { outline, centre, unit };
}

function checkedUnit(unit: number): number {
  if (!(unit >= 1e-4 && unit <= 10))
    throw new DomainError('SW-M014', `half-extent of ${unit} m: the solver is meant for 0.1 mm to 10 m`);
  return unit;
}

/** Gives every triangle the region it lies in, flooding between fixed edges. */
function labelRegions(t: Triangulation, outlines: readonly (readonly Point[])[]): void {
  t.label.fill(UNLABELLED);
  const doubleArea = (k: number): number =>
    t.side(t.origin[3 * k], t.origin[3 * k + 1], t.x[t.origin[3 * k + 2]], t.y[t.origin[3 * k + 2]]);
  for (let first = 0; first < t.triangles; first++) {
    if (t.label[first] !== UNLABELLED) continue;
    const members = [first];
    t.label[first] = OUTSIDE;
    let outside = false;
    let largest = first;
    for (let k = 0; k < members.length; k++) {
      const triangle = members[k];
      if (doubleArea(triangle) > doubleArea(largest)) largest = triangle;
      for (let e = 3 * triangle; e < 3 * triangle + 3; e++) {
        if (t.origin[e] < 4) outside = true;
        const neighbour = Math.floor(t.twin[e] / 3);
        if (t.fixed[e] === 1 || t.twin[e] < 0 || t.label[neighbour] !== UNLABELLED) continue;
        t.label[neighbour] = OUTSIDE;
        members.push(neighbour);
      }
    }
    if (outside) continue;
    const corners = [0, 1, 2].map((k) => t.origin[3 * largest + k]);
    const inside: Point = [
      corners.reduce((sum, v) => sum + t.x[v], 0) / 3,
      corners.reduce((sum, v) => sum + t.y[v], 0) / 3,
    ];
    const region = outlines.findIndex((outline) => isInside(inside, outline));
    for (const triangle of members) t.label[triangle] = region;
  }
}

/** Angle round each vertex that is not filled with permeable material; doubled on the axis by symmetry. */
function openAngles(t: Triangulation, vertices: readonly number[], permeable: (label: number) => boolean): number[] {
  const angle = new Float64Array(t.x.length);
  for (let e = 0; e < t.origin.length; e++) {
    const label = t.label[Math.floor(e / 3)];
    if (label === OUTSIDE || permeable(label)) continue;
    const [v, a, b] = [t.origin[e], t.origin[after(e)], t.origin[before(e)]];
    const [ax, ay, bx, by] = [t.x[a] - t.x[v], t.y[a] - t.y[v], t.x[b] - t.x[v], t.y[b] - t.y[v]];
    angle[v] += Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by)) * (t.x[v] === 0 ? 2 : 1);
  }
  return vertices.map((v) => angle[v]);
}

/** Cuts a fixed segment into pieces as long as the size function wants. */
function divideSegment(t: Triangulation, size: ElementSize, a: number, b: number): void {
  const [ax, ay, dx, dy] = [t.x[a], t.y[a], t.x[b] - t.x[a], t.y[b] - t.y[a]];
  const length = Math.hypot(dx, dy);
  // March along in steps of a fraction of the wanted size, counting how many pieces have been passed.
  const places = [0];
  const passed = [0];
  for (let s = 0; s < 1 && places.length < 20_000;) {
    const h = size.at(ax + s * dx, ay + s * dy) / length;
    const end = Math.min(1, s + h / 4);
    const middle = size.at(ax + ((s + end) / 2) * dx, ay + ((s + end) / 2) * dy) / length;
    passed.push(passed[passed.length - 1] + (end - s) / middle);
    places.push(end);
    s = end;
  }
  const total = passed[passed.length - 1];
  const pieces = Math.max(1, Math.round(total));
  let edge = t.edgeBetween(a, b);
  for (let piece = 1, k = 0; piece < pieces; piece++) {
    const wanted = (total * piece) / pieces;
    while (passed[k + 1] < wanted) k++;
    const s = places[k] + ((wanted - passed[k]) / (passed[k + 1] - passed[k])) * (places[k + 1] - places[k]);
    const x = ax + s * dx;
    t.splitEdge(edge, ax === 0 && dx === 0 ? 0 : x, ay + s * dy);
    edge = edgeAfterSplit(t, b, edge);
  }
}

/** After an edge that ran towards (or from) b was split, the piece that ends at b. */
function edgeAfterSplit(t: Triangulation, b: number, split: number): number {
  const p = t.x.length - 1;
  void split;
  // The new triangles are the last ones made, so the scan from the back is short.
  for (let e = t.origin.length - 1; e >= 0; e--) {
    if (t.origin[e] === p && t.origin[after(e)] === b) return e;
    if (t.origin[e] === b && t.origin[after(e)] === p) return e;
  }
  throw new Error('the split edge has vanished');
}

function secondOrderMesh(t: Triangulation, centre: number, unit: number, farRadius: number): Mesh {
  const inside: number[] = [];
  for (let k = 0; k < t.triangles; k++) if (t.label[k] !== OUTSIDE) inside.push(k);
  const number = new Int32Array(t.x.length).fill(-1);
  const coordinates: number[] = [];
  const onAxis: number[] = [];
  const add = (x: number, y: number): number => {
    coordinates.push(x * unit, centre + y * unit);
    onAxis.push(x === 0 ? 1 : 0);
    return onAxis.length - 1;
  };
  const triangles = new Int32Array(6 * inside.length);
  inside.forEach((k, i) => {
    for (let c = 0; c < 3; c++) {
      const v = t.origin[3 * k + c];
      if (number[v] < 0) number[v] = add(t.x[v], t.y[v]);
      triangles[6 * i + c] = number[v];
    }
  });
  const corners = onAxis.length;
  const middle = new Int32Array(t.origin.length).fill(-1);
  const outerEdges: number[] = [];
  inside.forEach((k, i) => {
    for (let c = 0; c < 3; c++) {
      const e = 3 * k + c;
      const a = t.origin[e];
      const b = t.origin[after(e)];
      const f = t.twin[e];
      if (middle[e] < 0) {
        middle[e] = add((t.x[a] + t.x[b]) / 2, (t.y[a] + t.y[b]) / 2);
        if (f >= 0) middle[f] = middle[e];
      }
      triangles[6 * i + 3 + c] = middle[e];
      if ((f < 0 || t.label[Math.floor(f / 3)] === OUTSIDE) && !(t.x[a] === 0 && t.x[b] === 0))
        outerEdges.push(3 * i + c);
    }
  });
  return {
    nodes: onAxis.length,
    corners,
    coordinates: Float64Array.from(coordinates),
    triangles,
    region: Int32Array.from(inside, (k) => t.label[k]),
    onAxis: Uint8Array.from(onAxis),
    outerEdges: Int32Array.from(outerEdges),
    farCentre: centre,
    farRadius,
  };
}
