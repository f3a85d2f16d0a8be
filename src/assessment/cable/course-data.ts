/** The course of a conduit as plain data: pieces, bends, corners, and bends for which there is no room. */
import { lengthOf, placeAlong, type Piece, type PlacedPiece, type Point3 } from '../../physics/cable/route.ts';
import { inDegrees, inMillimetres } from '../check.ts';
import type { CableBend, CableJunction, CableMisfit, CablePiece, CablePlace, CableRun } from './data.ts';
import type { Course } from './course.ts';

/** Between two points of a bend that is drawn, rad. */
const APART = (5 * Math.PI) / 180;

export function courseData({ isDrawn, pieces, misfits, corners }: Course, second: JunctionTold | null): CableRun {
  const bends: CableBend[] = [];
  let reached = 0;
  const list = pieces.map((piece): CablePiece => {
    const from = reached;
    reached += piece.length;
    if (piece.kind === 'bend') {
      bends.push({
        number: bends.length + 1,
        corner: isDrawn ? piece.corner : null,
        name: isDrawn ? (corners[piece.corner]?.name ?? null) : null,
        angle_deg: inDegrees(piece.angle),
        radius_mm: isDrawn ? inMillimetres(piece.radius) : null,
      });
    }
    const places = isPlaced(piece) ? placesOf(piece) : [];
    return {
      kind: piece.kind,
      from: places[0] ?? null,
      to: places[places.length - 1] ?? null,
      points: places,
      from_mm: inMillimetres(from),
      to_mm: inMillimetres(reached),
      bend: piece.kind === 'bend' ? bends.length - 1 : null,
    };
  });
  const [first, last] = [corners[0], corners[corners.length - 1]];
  return {
    isDrawn,
    length_mm: inMillimetres(reached),
    turned_deg: bends.reduce((sum, { angle_deg }) => sum + angle_deg, 0),
    rise_mm: first === undefined ? 0 : inMillimetres(last.z - first.z),
    pieces: list,
    bends,
    corners: corners.map((corner) => ({ ...placeData(corner), name: corner.name })),
    misfits: misfits.map(({ corner, why, radius, radiusThatFits }): CableMisfit => ({
      corner,
      name: corners[corner]?.name ?? null,
      why,
      radius_mm: inMillimetres(Number.isNaN(radius) ? 0 : radius),
      radiusThatFits_mm: radiusThatFits > 0 ? inMillimetres(radiusThatFits) : null,
    })),
    junction: second === null ? null : junctionOf(pieces, second),
  };
}

/** Who joins the run, by what and how far from the handle, m. */
interface JunctionTold {
  readonly by: 'tee' | 'bell-crank' | 'second cable';
  readonly name: string;
  readonly joins: number;
}

function junctionOf(pieces: readonly (Piece | PlacedPiece)[], { by, name, joins }: JunctionTold): CableJunction | null {
  if (by === 'second cable' || !(joins <= lengthOf(pieces))) return null;
  let from = 0;
  const holding = pieces.find(({ length }, i) => {
    const holds = joins <= from + length || i === pieces.length - 1;
    if (!holds) from += length;
    return holds;
  });
  const isOnSheet = holding !== undefined && isPlaced(holding);
  const at = isOnSheet ? placeData(placeAlong(holding, Math.min(1, (joins - from) / holding.length))) : null;
  return { by, name, from_mm: inMillimetres(joins), at };
}

const isPlaced = (piece: Piece | PlacedPiece): piece is PlacedPiece => 'from' in piece;

function placesOf(piece: PlacedPiece): CablePlace[] {
  const steps = piece.kind === 'bend' ? Math.max(1, Math.ceil(piece.angle / APART)) : 1;
  return Array.from({ length: steps + 1 }, (_, i) => placeData(placeAlong(piece, i / steps)));
}

function placeData({ x, y, z }: Point3): CablePlace {
  return { x_mm: inMillimetres(x), y_mm: inMillimetres(y), z_mm: inMillimetres(z) };
}
