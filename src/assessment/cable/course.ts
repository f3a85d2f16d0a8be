/** The course of a conduit out of a job document. */
import type { HandCable, Job } from '../../job/schema.ts';
import {
  layRoute,
  levelRun,
  reversed,
  type Corner,
  type Misfit,
  type Piece,
  type PlacedPiece,
} from '../../physics/cable/route.ts';
import { valueOf } from '../readings.ts';

/** The course of a conduit, from the handle to the lever. */
export interface Course {
  readonly isDrawn: boolean;
  readonly pieces: readonly (Piece | PlacedPiece)[];
  /** The same from the lever to the handle. */
  readonly fromLever: readonly Piece[];
  /** Bends for which there is no room; the pieces then have the radii that fit. */
  readonly misfits: readonly Misfit[];
  /** Corners in the order of the document; radius as written. */
  readonly corners: readonly (Corner & { readonly name: string | null })[];
}

/** The route as drawn, or length and bends of the survey; null where neither is known. */
export function courseOf(route: HandCable['route'], { survey }: Job, leastRadius: number): Course | null {
  if (route.length > 0) return routeOf(route);
  const { distance, bends, bendTotal } = survey.run;
  const length = valueOf(distance, 'length');
  const turned = bends === 0 ? 0 : bendTotal === undefined ? NaN : valueOf(bendTotal, 'angle');
  if (!(length > 0) || Number.isNaN(turned)) return null;
  const pieces = levelRun(length, bends, turned, leastRadius);
  return { isDrawn: false, pieces, fromLever: reversed(pieces), misfits: [], corners: [] };
}

/** Null where a corner was not measured, where there are not two of them, or where no radius makes the route fit. */
export function routeOf(route: HandCable['route']): Course | null {
  if (route.length < 2) return null;
  const corners = route.map(({ name, x, y, z, radius }, i) => ({
    name: name === undefined || name.trim() === '' ? null : name,
    x: valueOf(x, 'length'),
    y: valueOf(y, 'length'),
    z: valueOf(z, 'length'),
    // The radius at an end is of no use.
    radius: i === 0 || i === route.length - 1 || radius === undefined ? NaN : valueOf(radius, 'length'),
  }));
  const isWhole = corners.every(
    ({ x, y, z, radius }, i) => !Number.isNaN(x + y + z) && (i === 0 || i === corners.length - 1 || radius > 0),
  );
  if (!isWhole) return null;
  const outcome = layRoute(corners);
  const misfits = outcome.fits ? [] : outcome.misfits;
  const fitting = misfits.every(({ radiusThatFits }) => radiusThatFits > 0)
    ? outcome.fits
      ? outcome
      : layRoute(
          corners.map((corner, i) => {
            const misfit = misfits.find((one) => one.corner === i);
            // A hair less, so that rounding does not make it a misfit again.
            return misfit === undefined ? corner : { ...corner, radius: misfit.radiusThatFits * (1 - 1e-9) };
          }),
        )
    : null;
  const pieces = fitting !== null && fitting.fits ? fitting.route.pieces : [];
  return { isDrawn: true, pieces, fromLever: reversed(pieces), misfits, corners };
}
