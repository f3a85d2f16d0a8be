/** From the job's frame (m, shaft centre at the origin) to the sheet (mm). */
import { minus, plus, point, times, type Point } from '../plane.ts';

export interface Frame {
  /** Millimetres of the sheet per millimetre of the object. */
  readonly scale: number;
  /** Where the shaft centre stands on the sheet. */
  readonly origin: Point;
}

/** A place of the job, m, on the sheet. */
export function toSheet(frame: Frame, p: Point): Point {
  return plus(frame.origin, times(p, frame.scale * 1000));
}

/** A place on the sheet in the job's frame, m: for handles. */
export function fromSheet(frame: Frame, p: Point): Point {
  return times(minus(p, frame.origin), 1 / (frame.scale * 1000));
}

/** A length of the object, m, in mm of the sheet. */
export function lengthOnSheet(frame: Frame, length: number): number {
  return length * 1000 * frame.scale;
}

/** The line of pull on the sheet: a place `inward` mm from the mouth into the body and `aside` mm to its left. */
export interface Axis {
  readonly mouth: Point;
  readonly inward: Point;
}

export function onAxis({ mouth, inward }: Axis, into: number, aside: number): Point {
  return point(mouth.x + inward.x * into - inward.y * aside, mouth.y + inward.y * into + inward.x * aside);
}

/** How far a place on the axis lies inside the mouth, mm; below zero outside. */
export function intoBody({ mouth, inward }: Axis, p: Point): number {
  return (p.x - mouth.x) * inward.x + (p.y - mouth.y) * inward.y;
}
