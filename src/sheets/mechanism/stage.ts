/** The picture made ready: its missing numbers weeded out, its places found on the sheet. */
import type { MechanismPicture } from '../../assessment/picture.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { along, polar, type Point } from '../plane.ts';
import { drawActuator, inwardOf, type ActuatorDrawing } from './actuator.ts';
import { fitFrame } from './fit.ts';
import { leverShape, type AngleMarks, type LeverShape } from './lever.ts';
import { lengthOnSheet, toSheet, type Axis, type Frame } from './view.ts';

/** What the drawing routines share. */
export interface Staged {
  readonly picture: MechanismPicture;
  readonly frame: Frame;
  readonly units: DisplayUnits;
  readonly shape: LeverShape | null;
  readonly marks: AngleMarks;
  /** Unit vector towards home. */
  readonly pull: Point | null;
  readonly axis: Axis | null;
  readonly body: ActuatorDrawing | null;
  /** Side of the line of pull, +1 to the left of inward, that looks away from the shaft. */
  readonly farSide: 1 | -1;
  /** The same side seen along the pull direction. */
  readonly farSideOfPull: 1 | -1;
}

export function stage(
  given: MechanismPicture,
  sheet: { width: number; height: number; units: DisplayUnits; scales: 'free' | 'standard'; frame: Frame | undefined },
): Staged {
  const picture = finite(given);
  const reachOfPin = picture.homePin === null ? null : Math.hypot(picture.homePin.x, picture.homePin.y);
  const shape = leverShape(picture.connection, reachOfPin);
  const pull = picture.pullDirection === null ? null : polar(1, picture.pullDirection);
  const jobAxis = axisOf(picture, pull);
  const side = Math.min(24, sheet.width * 0.13);
  const room = { left: side, right: sheet.width - side, bottom: 20, top: sheet.height - 16 };
  const frame = sheet.frame ?? fitFrame(picture, shape, jobAxis, room, sheet.scales);
  const axis = jobAxis === null ? null : { mouth: toSheet(frame, jobAxis.mouth), inward: jobAxis.inward };
  const pin = picture.now.pin ?? picture.homePin;
  const offset = picture.armMinusShaft ?? 0;
  const arm = (shaft: number | null): number | null => (shaft === null ? null : shaft + offset);
  const { run, noFuel, hardStop, runStop } = picture.shaftAngles;
  const farSide = axis !== null && shaftAside(frame, axis) > 0 ? -1 : 1;
  const reach = shape === null ? 0 : lengthOnSheet(frame, shape.reach + shape.endRadius);
  return {
    picture,
    frame,
    units: sheet.units,
    shape,
    marks: { radius: reach + 3.5, run: arm(run), noFuel: arm(noFuel), hardStop: arm(hardStop), runStop: arm(runStop) },
    pull,
    axis,
    body:
      axis === null || pin === null
        ? null
        : drawActuator(
            frame,
            picture.actuator,
            axis,
            toSheet(frame, pin),
            picture.now.gap ?? 0,
            picture.stroke ?? 0.02,
          ),
    farSide,
    farSideOfPull: picture.actuator.action === 'pull' ? farSide : farSide === 1 ? -1 : 1,
  };
}

/** The line of pull in the job's frame; without a known mouth it stands half a stroke from the home pin. */
function axisOf({ homePin, actuator, stroke }: MechanismPicture, pull: Point | null): Axis | null {
  if (homePin === null || pull === null) return null;
  const inward = inwardOf(pull, actuator.action);
  const travel = stroke ?? 0.02;
  return {
    inward,
    mouth: actuator.mouth ?? along(homePin, inward, actuator.action === 'pull' ? travel / 2 : travel * 1.5),
  };
}

function shaftAside(frame: Frame, { mouth, inward }: Axis): number {
  return (frame.origin.x - mouth.x) * -inward.y + (frame.origin.y - mouth.y) * inward.x;
}

/** The same data with null for every number that is not finite, so that none reaches a person. */
function finite<Value>(value: Value): Value {
  if (typeof value === 'number') return (Number.isFinite(value) ? value : null) as Value;
  if (Array.isArray(value)) return value.map((item: unknown) => finite(item)) as Value;
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, inner]: [string, unknown]) => [key, finite(inner)] as const);
  const whole = Object.fromEntries(entries) as Record<string, unknown>;
  // A place with one coordinate is no place.
  return ('x' in whole && 'y' in whole && (whole['x'] === null || whole['y'] === null) ? null : whole) as Value;
}
