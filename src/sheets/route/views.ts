/** The course of a conduit as two views of one scale: the elevation above, the plan below, both from the places of its pieces. */
import type { CablePlace, CableRun } from '../../assessment/cable/data.ts';
import { boxAround, point, type Box, type Point } from '../plane.ts';

type Axis = keyof CablePlace;

/** Where a view lies on the sheet, as plain data. */
export interface ViewFrame {
  readonly name: 'plan' | 'elevation';
  readonly title: string;
  /** What of the installation runs to the right on the sheet, and what runs up. */
  readonly across: Axis;
  readonly up: Axis;
  /** On the sheet, mm: where the zero of the installation would lie, and what the view takes. */
  readonly origin: Point;
  readonly box: Box;
}

/** Scale and place of both views: held while something is dragged, so that nothing else moves. */
export interface RouteFrame {
  readonly scale: number;
  readonly views: readonly [ViewFrame, ViewFrame];
}

export interface View extends ViewFrame {
  /** mm of the installation to mm of the sheet. */
  readonly at: (place: CablePlace) => Point;
}

type Sides = Pick<ViewFrame, 'name' | 'title' | 'across' | 'up'>;

export interface Projection extends Sides {
  /** Size of what is drawn, mm of the installation. */
  readonly box: Box;
}

const plan: Sides = { name: 'plan', title: 'Plan', across: 'x_mm', up: 'y_mm' };
const alongX: Sides = { name: 'elevation', title: 'Elevation, x across', across: 'x_mm', up: 'z_mm' };
const alongY: Sides = { name: 'elevation', title: 'Elevation, y across', across: 'y_mm', up: 'z_mm' };

/** The elevation is seen from the side on which the run is longest. */
export function projections(run: CableRun): readonly [Projection, Projection] | null {
  const places = [...run.pieces.flatMap(({ points }) => points), ...run.corners];
  const boxOf = ({ across, up }: Sides) => boxAround(places.map((place) => point(place[across], place[up])));
  const above = boxOf(plan);
  if (above === null) return null;
  const elevation = above.right - above.left >= above.top - above.bottom ? alongX : alongY;
  const side = boxOf(elevation);
  if (side === null) return null;
  return [
    { ...elevation, box: side },
    { ...plan, box: above },
  ];
}

/** Puts a projection on the sheet, its lower left corner at `corner`. */
export function placed({ box, ...sides }: Projection, corner: Point, scale: number): ViewFrame {
  const right = corner.x + (box.right - box.left) * scale;
  const top = corner.y + (box.top - box.bottom) * scale;
  return {
    ...sides,
    origin: point(corner.x - box.left * scale, corner.y - box.bottom * scale),
    box: { left: corner.x, bottom: corner.y, right, top },
  };
}

export function viewOf(frame: ViewFrame, scale: number): View {
  const { across, up, origin } = frame;
  return { ...frame, at: (place) => point(origin.x + place[across] * scale, origin.y + place[up] * scale) };
}
