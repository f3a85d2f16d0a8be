/** The course of a conduit as two views of one scale: the elevation above, the plan below, both from the places of its pieces. */
import type { CablePlace, CableRun } from '../../assessment/cable/data.ts';
import { boxAround, point, type Box, type Point } from '../plane.ts';

export interface View {
  readonly name: 'plan' | 'elevation';
  readonly title: string;
  /** mm of the installation to mm of the sheet. */
  readonly at: (place: CablePlace) => Point;
  readonly box: Box;
}

type Flat = (place: CablePlace) => Point;

const fromAbove: Flat = ({ x_mm, y_mm }) => point(x_mm, y_mm);
const alongY: Flat = ({ x_mm, z_mm }) => point(x_mm, z_mm);
const alongX: Flat = ({ y_mm, z_mm }) => point(y_mm, z_mm);

export interface Projection {
  readonly name: View['name'];
  readonly title: string;
  readonly flat: Flat;
  /** Size of what is drawn, mm of the installation. */
  readonly box: Box;
}

/** The elevation is seen from the side on which the run is longest. */
export function projections(run: CableRun): readonly [Projection, Projection] | null {
  const places = [...run.pieces.flatMap(({ points }) => points), ...run.corners];
  const plan = boxAround(places.map(fromAbove));
  if (plan === null) return null;
  const isAlongY = plan.right - plan.left >= plan.top - plan.bottom;
  const flat = isAlongY ? alongY : alongX;
  const side = boxAround(places.map(flat));
  if (side === null) return null;
  return [
    { name: 'elevation', title: isAlongY ? 'Elevation, x across' : 'Elevation, y across', flat, box: side },
    { name: 'plan', title: 'Plan', flat: fromAbove, box: plan },
  ];
}

/** Puts a projection on the sheet, its lower left corner at `corner`. */
export function placed({ name, title, flat, box }: Projection, corner: Point, scale: number): View {
  const at = (place: CablePlace): Point => {
    const { x, y } = flat(place);
    return point(corner.x + (x - box.left) * scale, corner.y + (y - box.bottom) * scale);
  };
  const right = corner.x + (box.right - box.left) * scale;
  const top = corner.y + (box.top - box.bottom) * scale;
  return { name, title, at, box: { left: corner.x, bottom: corner.y, right, top } };
}
