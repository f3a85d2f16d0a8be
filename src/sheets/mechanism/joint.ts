/** What joins plunger and lever: pin in slot, link, chain, or plain pin in a hole. */
import type { DrawnConnection, DrawnPosition } from '../../assessment/picture.ts';
import { known } from '../amounts.ts';
import { centreCross, circle, roundBar, type Element } from '../drawing.ts';
import { along, direction, distance, plus, polar, type Point } from '../plane.ts';
import { drawChain, drawSpring } from './springs.ts';
import { lengthOnSheet, toSheet, type Frame } from './view.ts';

/** Where the lever is held: hole of the arm, or the pin that stands in its slot. On the sheet. */
export function leverPoint(
  frame: Frame,
  connection: DrawnConnection,
  position: DrawnPosition,
  pull: Point | null,
): Point | null {
  if (connection.kind === 'slotted lever') {
    if (position.pin === null) return null;
    const pin = toSheet(frame, position.pin);
    return pull === null ? pin : along(pin, pull, -lengthOnSheet(frame, position.overTravel));
  }
  const radius = known(connection.armRadius);
  const angle = known(position.armAngle);
  return radius === null || angle === null ? null : plus(frame.origin, polar(lengthOnSheet(frame, radius), angle));
}

export function drawJoint(
  frame: Frame,
  connection: DrawnConnection,
  position: DrawnPosition,
  pull: Point | null,
  down: Point,
): Element[] {
  const mm = (length: number): number => lengthOnSheet(frame, length);
  const held = leverPoint(frame, connection, position, pull);
  const pin = position.pin === null ? null : toSheet(frame, position.pin);
  const turn = pull === null ? 0 : Math.atan2(pull.y, pull.x);
  const drawPin = (at: Point, radius: number): Element[] => [
    circle('outline', at, radius, 'paper'),
    ...centreCross(at, radius + 1.8, turn),
  ];
  switch (connection.kind) {
    case 'slotted lever':
    case 'plain pin': {
      const at = connection.kind === 'slotted lever' ? held : pin;
      const radius = mm(known(connection.pinDiameter) ?? 0.006) / 2;
      return at === null ? [] : drawPin(at, radius);
    }
    case 'pinned link': {
      if (held === null || pin === null) return [];
      const radius = mm(known(connection.pinDiameter) ?? 0.006) / 2;
      return [
        roundBar('outline', held, pin, radius * 1.75, 'paper'),
        ...overTravelMark(held, pin, radius, position.overTravel),
        ...drawPin(held, radius),
        ...drawPin(pin, radius),
      ];
    }
    case 'short chain': {
      if (held === null || pin === null) return [];
      const length = mm((known(connection.length) ?? 0) + position.overTravel);
      return [
        ...drawChain(held, pin, length, position.slack, down),
        circle('outline', held, 1.2, 'paper'),
        circle('outline', pin, 1.2, 'paper'),
      ];
    }
  }
}

/** A short spring in the link where its over-travel spring has given. */
function overTravelMark(a: Point, b: Point, radius: number, given: number): Element[] {
  if (given <= 0) return [];
  const heading = direction(a, b);
  const middle = distance(a, b) / 2;
  const half = Math.min(radius * 1.6, middle * 0.5);
  const [from, to] = [along(a, heading, middle - half), along(a, heading, middle + half)];
  return [roundBar('none', from, to, radius, 'paper'), ...drawSpring('compression', from, to, radius * 1.3, 4, false)];
}
