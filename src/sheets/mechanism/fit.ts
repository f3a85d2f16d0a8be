/** The frame in which a whole installation, over its whole travel, fits a sheet. */
import type { DrawnPosition, MechanismPicture } from '../../assessment/picture.ts';
import { known } from '../amounts.ts';
import { boxAround, minus, plus, point, polar, times, turned, type Box, type Point } from '../plane.ts';
import { freeScale, standardScale } from '../scale.ts';
import { drawActuator } from './actuator.ts';
import { keepOutCorners } from './keep-out.ts';
import type { LeverShape } from './lever.ts';
import { onAxis, toSheet, type Axis, type Frame } from './view.ts';

/** Where a moving spring end stands at home and at rest, m: it turns with the lever. */
export function endsOfSwing(picture: MechanismPicture, to: Point): Point[] {
  const now = known(picture.now.armAngle);
  const others = [picture.home, picture.rest].map((position) => known(position?.armAngle));
  return others.every((angle) => angle === null) || now === null
    ? [to]
    : others.filter((angle) => angle !== null).map((angle) => turned(to, angle - now));
}

/** Arm angles at which the lever can stand, rad. */
export function leverAngles(picture: MechanismPicture): number[] {
  const offset = known(picture.armMinusShaft) ?? 0;
  const { run, noFuel, hardStop, runStop } = picture.shaftAngles;
  const surveyed = [run, noFuel, hardStop, runStop].map(known).filter((angle) => angle !== null);
  const placed = [picture.home, picture.rest].map((position: DrawnPosition | null) => known(position?.armAngle));
  return [...surveyed.map((angle) => angle + offset), ...placed.filter((angle) => angle !== null)];
}

/** Everything that must be on the sheet, m. */
function extent(picture: MechanismPicture, shape: LeverShape | null, axis: Axis | null): Box {
  const points: Point[] = [point(0, 0)];
  const around = (centre: Point, radius: number): void => {
    points.push(plus(centre, point(radius, radius)), minus(centre, point(radius, radius)));
  };
  if (shape !== null) {
    around(point(0, 0), shape.hubRadius);
    const angles = leverAngles(picture);
    const now = known(picture.now.armAngle);
    for (const angle of angles.length > 0 ? angles : now === null ? [] : [now]) {
      around(polar(shape.reach, angle), shape.endRadius);
    }
  }
  for (const position of [picture.home, picture.rest]) if (position?.pin) around(position.pin, 0.004);
  if (picture.homePin !== null) around(picture.homePin, 0.004);
  const stroke = known(picture.stroke) ?? 0.02;
  if (axis !== null && picture.homePin !== null) {
    const inMillimetres: Frame = { scale: 1, origin: point(0, 0) };
    const flat: Axis = { mouth: times(axis.mouth, 1000), inward: axis.inward };
    const { depth, halfHeight } = drawActuator(
      inMillimetres,
      picture.actuator,
      flat,
      times(picture.homePin, 1000),
      0,
      stroke,
    );
    for (const [into, aside] of [
      [0, 1],
      [0, -1],
      [depth, 1],
      [depth, -1],
    ] as const) {
      points.push(times(onAxis(flat, into, aside * halfHeight), 0.001));
    }
  }
  for (const spring of picture.springs) {
    if (spring.from !== null) around(spring.from, 0.003);
    if (spring.to !== null) points.push(...endsOfSwing(picture, spring.to));
  }
  const box = boxAround(points) ?? { left: 0, bottom: 0, right: 0, top: 0 };
  return withKeepOut(box, picture);
}

/** What stands in the way is seen too, but a bulkhead may not shrink the lever: each side gives way by a third at most. */
function withKeepOut(box: Box, { keepOut }: MechanismPicture): Box {
  const around = boxAround(keepOut.flatMap(keepOutCorners));
  if (around === null) return box;
  const [across, up] = [(box.right - box.left) / 3, (box.top - box.bottom) / 3];
  return {
    left: Math.min(box.left, Math.max(around.left, box.left - across)),
    right: Math.max(box.right, Math.min(around.right, box.right + across)),
    bottom: Math.min(box.bottom, Math.max(around.bottom, box.bottom - up)),
    top: Math.max(box.top, Math.min(around.top, box.top + up)),
  };
}

/**
 * @param room part of the sheet that the mechanism may fill, mm
 * @param axis line of pull in the job's frame, m
 */
export function fitFrame(
  picture: MechanismPicture,
  shape: LeverShape | null,
  axis: Axis | null,
  room: Box,
  scales: 'free' | 'standard',
): Frame {
  const box = extent(picture, shape, axis);
  const width = Math.max(0.01, box.right - box.left) * 1000;
  const height = Math.max(0.01, box.top - box.bottom) * 1000;
  const most = Math.min((room.right - room.left) / width, (room.top - room.bottom) / height);
  const scale = scales === 'free' ? freeScale(most) : standardScale(most);
  const middle = point((box.left + box.right) / 2, (box.bottom + box.top) / 2);
  const centre = point((room.left + room.right) / 2, (room.bottom + room.top) / 2);
  return { scale, origin: toSheet({ scale, origin: centre }, times(middle, -1)) };
}
