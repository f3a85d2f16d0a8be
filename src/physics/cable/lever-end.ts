/**
 * Where the core leaves its conduit and takes hold of the lever.
 *
 * In the plane of the lever, shaft centre O at the origin: the core is fastened at A = R (cos β, sin β), β the shaft angle
 * plus a constant, and leaves the conduit at C. Free core |C - A|, so that what has been drawn in since another angle is the
 * difference of two such lengths, exactly. A pull T turns the lever with T (A × e), e = (C - A)/|C - A|: its arm is A × e,
 * above zero counter-clockwise. The core stands off the axis of the conduit end by the angle between e and that axis: it
 * rubs over the mouth as over a bend of that angle, and presses on it with 2 T sin(angle/2).
 *
 * Left out: friction of the nipple in its hole, the thickness of the mouth.
 *
 * @throws DomainError SW-D093 a radius not finite and above zero, a place or an angle that is no finite number, or a core
 *         without length: the lever stands in the mouth of the conduit
 */
import { DomainError, requireAboveZero } from '../domain-error.ts';

export interface LeverEnd {
  /** End of the conduit, m. */
  readonly conduitX: number;
  readonly conduitY: number;
  /** From the shaft centre to where the core is fastened, m. */
  readonly radius: number;
  /** Direction of that point minus shaft angle, rad. */
  readonly angle: number;
}

export interface LeverPose {
  readonly shaftAngle: number;
  readonly x: number;
  readonly y: number;
  /** Core between lever and conduit, m. */
  readonly freeLength: number;
  /** Direction from the lever to the conduit, rad, from -π to π. */
  readonly direction: number;
  /** Moment of a pull of 1 N about the shaft, m: above zero counter-clockwise. */
  readonly arm: number;
}

/** A core shorter than this share of the radius is none. */
const TOUCHES = 1e-6;

export function leverPose(end: LeverEnd, shaftAngle: number): LeverPose {
  const { conduitX, conduitY, radius: R, angle } = end;
  requireAboveZero('SW-D093', 'the radius at which a core is fastened', R);
  if (!Number.isFinite(conduitX + conduitY + angle + shaftAngle))
    throw new DomainError('SW-D093', `a lever end at ${conduitX}, ${conduitY}, ${angle}, ${shaftAngle} has no meaning`);
  const x = R * Math.cos(shaftAngle + angle);
  const y = R * Math.sin(shaftAngle + angle);
  const [dx, dy] = [conduitX - x, conduitY - y];
  const freeLength = Math.hypot(dx, dy);
  if (freeLength < TOUCHES * R) throw new DomainError('SW-D093', 'the lever stands in the mouth of the conduit');
  return { shaftAngle, x, y, freeLength, direction: Math.atan2(dy, dx), arm: (x * dy - y * dx) / freeLength };
}

/** Core drawn into the conduit between two shaft angles, m; below zero it comes out. */
export function coreDrawnIn(end: LeverEnd, from: number, to: number): number {
  return leverPose(end, from).freeLength - leverPose(end, to).freeLength;
}

/** From one direction to another the short way, rad, from -π to π. */
export function turnBetween(from: number, to: number): number {
  const turn = to - from;
  return Math.atan2(Math.sin(turn), Math.cos(turn));
}

/** Axis of the conduit end that halves the swing of the core over these poses, rad. */
export function middleOfSwing(poses: readonly LeverPose[]): number {
  const [{ direction: first }] = poses;
  const turns = poses.map(({ direction }) => turnBetween(first, direction));
  return first + (Math.min(...turns) + Math.max(...turns)) / 2;
}

/** Press of the core on the mouth of the conduit, N. */
export function pressOnMouth(tension: number, offAxis: number): number {
  return 2 * Math.abs(tension) * Math.sin(Math.abs(offAxis) / 2);
}

/**
 * Push under which the free core between conduit and lever bows out, N: Euler's column, held straight in the conduit and
 * pinned at the lever, F = π² E I/(0.7 L)² [1]; the exact factor is 0.6992 (tan u = u at u = 4.4934).
 *
 * @throws DomainError SW-D094 a stiffness below zero, a length not finite and above zero
 * [1] S. P. Timoshenko, J. M. Gere, Theory of Elastic Stability, 2nd ed. (1961), 2.2
 */
export function bowsOutAt(bendingStiffness: number, freeLength: number): number {
  requireAboveZero('SW-D094', 'the free length of a pushed core', freeLength);
  if (!(bendingStiffness >= 0)) throw new DomainError('SW-D094', `a bending stiffness of ${bendingStiffness}`);
  return (PINNED_AND_HELD ** 2 * bendingStiffness) / freeLength ** 2;
}

/** Least root of tan u = u above zero. */
const PINNED_AND_HELD = 4.493409457909064;
