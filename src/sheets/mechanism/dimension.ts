/** The gap as a dimension after ISO 129-1:2018, beside the body on the side away from the shaft. */
import { arrowHead, line, type Element } from '../drawing.ts';
import { direction, type Point } from '../plane.ts';
import type { Staged } from './stage.ts';
import { intoBody, lengthOnSheet, onAxis, toSheet } from './view.ts';

/** Distance of the dimension line from the axis, mm, signed to the left of inward. */
export function dimensionAside({ body, farSide }: Staged): number {
  return body === null ? 0 : farSide * (body.halfHeight + 5);
}

/** Where the two faces stand along the axis, mm from the mouth: of the plunger, or of the pin where none is drawn. */
export function gapFaces({ body, axis, picture, frame }: Staged): { moving: number; fixed: number } | null {
  if (body === null || axis === null || picture.now.gap === null) return null;
  if (body.gap !== null) return body.gap;
  if (picture.now.pin === null || picture.homePin === null) return null;
  return {
    moving: intoBody(axis, toSheet(frame, picture.now.pin)),
    fixed: intoBody(axis, toSheet(frame, picture.homePin)),
  };
}

/** Middle of the faces at half stroke: where the gap's label belongs at every gap. */
export function gapLabelAnchor(staged: Staged): Point | null {
  const { axis, picture, frame } = staged;
  const faces = gapFaces(staged);
  if (axis === null || faces === null) return null;
  const outward = outwardFrom(staged, faces);
  const half = lengthOnSheet(frame, picture.stroke ?? 0) / 2;
  return onAxis(axis, faces.fixed + outward * half, dimensionAside(staged));
}

/** Where the dimension line of the gap can lie over the whole stroke. */
export function gapReach(staged: Staged): readonly [Point, Point] | null {
  const { axis, picture, frame } = staged;
  const faces = gapFaces(staged);
  if (axis === null || faces === null) return null;
  const outward = outwardFrom(staged, faces);
  const stroke = lengthOnSheet(frame, picture.stroke ?? 0);
  const aside = dimensionAside(staged);
  return [
    onAxis(axis, faces.fixed - outward * OUTSIDE, aside),
    onAxis(axis, faces.fixed + outward * (stroke + OUTSIDE), aside),
  ];
}

/** +1 where the moving face lies deeper in the body than the fixed one. */
function outwardFrom({ picture, body }: Staged, faces: { moving: number; fixed: number }): 1 | -1 {
  const { kind, action } = picture.actuator;
  if (body?.gap === null) return faces.moving > faces.fixed ? 1 : -1;
  return kind !== 'hand cable' && action === 'push' ? 1 : -1;
}

/** Length of an arrow that points inwards from outside, mm. */
const OUTSIDE = 7;

export function drawGapDimension(staged: Staged): Element[] {
  const { axis, body, farSide, frame, picture } = staged;
  const faces = gapFaces(staged);
  if (axis === null || body === null || faces === null) return [];
  const aside = dimensionAside(staged);
  const from = farSide * (body.gap === null ? 2 : lengthOnSheet(frame, picture.actuator.plungerDiameter ?? 0.014) / 2);
  const [moving, fixed] = [onAxis(axis, faces.moving, aside), onAxis(axis, faces.fixed, aside)];
  const extension = (into: number): Element =>
    line('thin', onAxis(axis, into, from), onAxis(axis, into, aside + farSide * 1.5));
  const size = Math.abs(faces.fixed - faces.moving);
  const heading = direction(moving, fixed);
  const back = { x: -heading.x, y: -heading.y };
  const elements: Element[] = [extension(faces.fixed)];
  if (size > 0.05) elements.push(extension(faces.moving));
  if (size >= 8) {
    elements.push(line('thin', moving, fixed), arrowHead(moving, back, 3), arrowHead(fixed, heading, 3));
  } else {
    // Too narrow for arrows inside: they point inwards from outside.
    const reach = (from_: Point, way: Point): Point => ({ x: from_.x + way.x * OUTSIDE, y: from_.y + way.y * OUTSIDE });
    elements.push(line('thin', reach(moving, back), reach(fixed, heading)));
    elements.push(arrowHead(moving, heading, 3), arrowHead(fixed, back, 3));
  }
  return elements;
}
