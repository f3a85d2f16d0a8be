/**
 * The course of a conduit in space: corners with radii become straights and arcs.
 *
 * A bend of radius r that turns by φ leaves and meets its straights r tan(φ/2) from the corner and is r φ long. Two bends on
 * one straight fit where their two lengths are together no longer than it. Left out: sag of the conduit between its clips,
 * and that a bend which is held at its ends only is no true arc.
 */
import { DomainError } from '../domain-error.ts';

/** m; x and y in plan, z up. */
export interface Point3 {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Radius of the bend, m; of no use at both ends of the run. */
export interface Corner extends Point3 {
  readonly radius: number;
}

/**
 * One straight or one bend, as far as the core that slides in it feels it. Along a bend the direction of the run is
 * t cos φ + n sin φ, with t its direction where it begins and n from there to the centre.
 */
export interface Piece {
  readonly kind: 'straight' | 'bend';
  /** m */
  readonly length: number;
  /** Angle turned, rad; 0 for a straight. */
  readonly angle: number;
  /** m; Infinity for a straight. */
  readonly radius: number;
  /** Upward parts of t and n, both of length one; n of a straight is 0. */
  readonly tangentZ: number;
  readonly normalZ: number;
  /** Index of its corner; -1 for a straight. */
  readonly corner: number;
}

/** A piece with its place in space. */
export interface PlacedPiece extends Piece {
  readonly from: Point3;
  readonly to: Point3;
  readonly tangent: Point3;
  readonly normal: Point3;
}

/** A bend for which there is no room. */
export interface Misfit {
  readonly corner: number;
  /** 'no room': the straight beside it is too short. 'turns back': it turns by half a circle at one point. 'same place': two corners are one. */
  readonly why: 'no room' | 'turns back' | 'same place';
  readonly radius: number;
  /** With this radius, and every other bend that is named with its own, all fit; 0 where no radius helps. */
  readonly radiusThatFits: number;
}

export interface Route {
  readonly pieces: readonly PlacedPiece[];
  /** m */
  readonly length: number;
  /** Sum of the angles turned, rad. */
  readonly turned: number;
  /** From the first corner to the last, m. */
  readonly rise: number;
}

export type RouteOutcome =
  | { readonly fits: true; readonly route: Route }
  | { readonly fits: false; readonly misfits: readonly Misfit[] };

const minus = (a: Point3, b: Point3): Point3 => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z });
const dot = (a: Point3, b: Point3): number => a.x * b.x + a.y * b.y + a.z * b.z;
const size = (a: Point3): number => Math.hypot(a.x, a.y, a.z);
const scaled = (a: Point3, by: number): Point3 => ({ x: a.x * by, y: a.y * by, z: a.z * by });
const moved = (from: Point3, along: Point3, by: number): Point3 => ({
  x: from.x + along.x * by,
  y: from.y + along.y * by,
  z: from.z + along.z * by,
});

/** Turned by less than this a corner is none; within this of half a circle it turns back. */
const HAIR = 1e-9;
const TURNS_BACK = 1e-6;

/**
 * @throws DomainError SW-D090 fewer than two corners, a place that is no finite number, or a radius between the ends that is
 *         not finite and above zero
 */
export function layRoute(corners: readonly Corner[]): RouteOutcome {
  if (corners.length < 2) throw new DomainError('SW-D090', `a route needs two ends, not ${corners.length} corners`);
  corners.forEach(({ x, y, z, radius }, i) => {
    if (!Number.isFinite(x + y + z)) throw new DomainError('SW-D090', `corner ${i} stands at ${x}, ${y}, ${z}`);
    if (i > 0 && i < corners.length - 1 && !(radius > 0 && radius < Infinity))
      throw new DomainError('SW-D090', `the radius at corner ${i} must be finite and above zero, not ${radius}`);
  });
  const spans = corners.slice(1).map((corner, i) => minus(corner, corners[i]));
  const lengths = spans.map(size);
  const same = lengths.flatMap((length, i) => (length > 0 ? [] : [i + 1]));
  if (same.length > 0) {
    return { fits: false, misfits: same.map((corner) => misfit(corners, corner, 'same place', 0)) };
  }
  const along = spans.map((span, i) => scaled(span, 1 / lengths[i]));
  // Angle at each corner by both products: exact for small angles and near half a circle alike.
  const angles = corners.map((_, i) => (i === 0 || i === along.length ? 0 : angleBetween(along[i - 1], along[i])));
  const back = angles.flatMap((angle, i) => (angle > Math.PI - TURNS_BACK ? [i] : []));
  if (back.length > 0) return { fits: false, misfits: back.map((corner) => misfit(corners, corner, 'turns back', 0)) };
  const reach = corners.map(({ radius }, i) => (angles[i] > HAIR ? radius * Math.tan(angles[i] / 2) : 0));
  // How far each bend would have to shrink for the fuller of its two straights.
  const shrink = corners.map(() => 1);
  lengths.forEach((length, i) => {
    const asked = reach[i] + reach[i + 1];
    if (asked <= length * (1 + 1e-12)) return;
    for (const corner of [i, i + 1]) shrink[corner] = Math.min(shrink[corner], length / asked);
  });
  const tight = shrink.flatMap((share, i) => (share < 1 && reach[i] > 0 ? [i] : []));
  if (tight.length > 0) {
    const fitting = (i: number) => corners[i].radius * shrink[i];
    return { fits: false, misfits: tight.map((i) => misfit(corners, i, 'no room', fitting(i))) };
  }
  return { fits: true, route: piecesOf(corners, along, lengths, angles, reach) };
}

function misfit(corners: readonly Corner[], corner: number, why: Misfit['why'], radiusThatFits: number): Misfit {
  return { corner, why, radius: corners[corner].radius, radiusThatFits };
}

function angleBetween(a: Point3, b: Point3): number {
  return 2 * Math.atan2(size(minus(b, a)), size(minus(b, scaled(a, -1))));
}

function piecesOf(
  corners: readonly Corner[],
  along: readonly Point3[],
  lengths: readonly number[],
  angles: readonly number[],
  reach: readonly number[],
): Route {
  const pieces: PlacedPiece[] = [];
  along.forEach((tangent, i) => {
    const length = Math.max(0, lengths[i] - reach[i] - reach[i + 1]);
    const from = moved(corners[i], tangent, reach[i]);
    const to = moved(corners[i + 1], tangent, -reach[i + 1]);
    // What two bends leave of a straight by rounding alone is nothing.
    if (length > 1e-12 * lengths[i]) pieces.push(straight(from, to, tangent, length));
    const angle = angles[i + 1];
    if (!(angle > HAIR)) return;
    const next = along[i + 1];
    // From the start of the bend to its centre: square to the run, on the side of the next straight.
    const across = minus(next, scaled(tangent, dot(next, tangent)));
    const normal = scaled(across, 1 / size(across));
    const { radius } = corners[i + 1];
    pieces.push({
      kind: 'bend',
      length: radius * angle,
      angle,
      radius,
      tangentZ: tangent.z,
      normalZ: normal.z,
      corner: i + 1,
      from: to,
      to: moved(corners[i + 1], next, reach[i + 1]),
      tangent,
      normal,
    });
  });
  return {
    pieces,
    length: lengthOf(pieces),
    turned: turnedBy(pieces),
    rise: corners[corners.length - 1].z - corners[0].z,
  };
}

function straight(from: Point3, to: Point3, tangent: Point3, length: number): PlacedPiece {
  return {
    kind: 'straight',
    length,
    angle: 0,
    radius: Infinity,
    tangentZ: tangent.z,
    normalZ: 0,
    corner: -1,
    from,
    to,
    tangent,
    normal: { x: 0, y: 0, z: 0 },
  };
}

/** A place along a bend or straight, `share` of the way from its start. */
export function placeAlong({ kind, from, to, tangent, normal, radius, angle }: PlacedPiece, share: number): Point3 {
  if (kind === 'straight') return moved(from, minus(to, from), share);
  const phi = share * angle;
  return moved(moved(from, tangent, radius * Math.sin(phi)), normal, radius * (1 - Math.cos(phi)));
}

/** Σ|φ|, rad. */
export function turnedBy(pieces: readonly Piece[]): number {
  return pieces.reduce((sum, { angle }) => sum + angle, 0);
}

/**
 * The pieces up to a place along the run, and those beyond it. The piece that holds the place is parted; a bend goes on in
 * the direction that it has there.
 *
 * @param at from the start, m
 * @throws DomainError SW-D097 a place that is not on the run
 */
export function cutAt(pieces: readonly Piece[], at: number): readonly [readonly Piece[], readonly Piece[]] {
  const before: Piece[] = [];
  const beyond: Piece[] = [];
  let left = at;
  for (const piece of pieces) {
    if (left >= piece.length) before.push(piece);
    else if (!(left > 0)) beyond.push(piece);
    else {
      const share = left / piece.length;
      before.push({ ...piece, length: left, angle: share * piece.angle });
      beyond.push(restOf(piece, share));
    }
    left -= piece.length;
  }
  if (!(at >= 0 && left <= 1e-9 * at)) throw new DomainError('SW-D097', `a run is not to be parted at ${at} m`);
  return [before, beyond];
}

function restOf(piece: Piece, share: number): Piece {
  const { length, angle, tangentZ: t, normalZ: n } = piece;
  const [c, s] = [Math.cos(share * angle), Math.sin(share * angle)];
  return {
    ...piece,
    length: (1 - share) * length,
    angle: (1 - share) * angle,
    tangentZ: t * c + n * s,
    normalZ: n * c - t * s,
  };
}

/** Length of a run, m. */
export function lengthOf(pieces: readonly Piece[]): number {
  return pieces.reduce((sum, { length }) => sum + length, 0);
}

/** The same run walked from its other end. */
export function reversed(pieces: readonly Piece[]): Piece[] {
  return pieces
    .map((piece): Piece => {
      const { angle, tangentZ: t, normalZ: n } = piece;
      return {
        ...piece,
        tangentZ: -(t * Math.cos(angle) + n * Math.sin(angle)),
        normalZ: n * Math.cos(angle) - t * Math.sin(angle),
      };
    })
    .reverse();
}

/**
 * A level run of which only the length, the number of bends and the sum of their angles are known, bends spread evenly.
 *
 * @param radius taken for every bend, m; made smaller where the run is too short for it
 */
export function levelRun(length: number, bends: number, turned: number, radius: number): Piece[] {
  const angle = bends > 0 ? turned / bends : 0;
  const bent = bends > 0 && angle > 0;
  const used = bent ? Math.min(radius, (0.9 * length) / turned) : 0;
  const between = (length - used * turned * (bent ? 1 : 0)) / (bent ? bends + 1 : 1);
  const level = { tangentZ: 0, normalZ: 0 };
  const gap: Piece = { kind: 'straight', length: between, angle: 0, radius: Infinity, corner: -1, ...level };
  if (!bent) return [gap];
  const bend: Piece = { kind: 'bend', length: used * angle, angle, radius: used, corner: -1, ...level };
  return [gap, ...Array.from({ length: bends }, (_, i) => [{ ...bend, corner: i + 1 }, gap]).flat()];
}
