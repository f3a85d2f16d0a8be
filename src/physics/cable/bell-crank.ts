/**
 * A bell-crank between two cores: arms a (driven) and b (driving) at a right angle, each core square to its arm.
 *
 * Moments about the pivot, whose pin of radius r_p rubs at μ under the resultant of both cores, friction circle
 * r = r_p sin(atan μ) [1]:
 *
 *     P b = F a + r √(F² + P²)       P = F [a b + r √(a² + b² - r²)]/(b² - r²)
 *
 * F is what the driven core resists, P what the driving core pulls; without friction P = F a/b. Where F is below zero the
 * driven core runs ahead, and friction holds it back. At r ≥ b the pivot jams: no force drives it. Travel goes the other
 * way round: the driving core moves b/a for each of the driven.
 *
 * Left out: how the arms lean as the crank swings, the weight of the crank, friction of the clevis pins.
 *
 * @throws DomainError SW-D098 an arm not finite and above zero, a friction circle below zero or not finite
 * [1] F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, 8.9 (axle friction, friction circle; section from memory)
 */
import { DomainError, requireAboveZero } from '../domain-error.ts';

export interface BellCrank {
  /** Of the core that it drives, and of the core that drives it, m. */
  readonly drivenArm: number;
  readonly drivingArm: number;
  /** Friction circle of its pivot, m. */
  readonly frictionCircle: number;
}

/** Pull in the driving core, N; infinite where the pivot jams. */
export function crankedForce({ drivenArm: a, drivingArm: b, frictionCircle: r }: BellCrank, driven: number): number {
  requireAboveZero('SW-D098', 'the driven arm of a bell-crank', a);
  requireAboveZero('SW-D098', 'the driving arm of a bell-crank', b);
  if (!(r >= 0 && r < Infinity)) throw new DomainError('SW-D098', `a friction circle of ${r} m has no meaning`);
  if (driven === 0) return 0;
  if (r >= b) return Infinity;
  // Without friction to the last bit F a/b.
  const rubs = (r / b) * (Math.sqrt(a * a + b * b - r * r) / b);
  return (driven * (a / b) + Math.abs(driven) * rubs) / (1 - (r / b) ** 2);
}

/** Travel of the driving core for each metre of the driven. */
export function crankedTravel({ drivenArm, drivingArm }: BellCrank): number {
  return drivingArm / drivenArm;
}

export function frictionCircle(pinDiameter: number, friction: number): number {
  return (pinDiameter / 2) * Math.sin(Math.atan(friction));
}

/** The same crank driven from its other side. */
export function otherWay({ drivenArm, drivingArm, frictionCircle: r }: BellCrank): BellCrank {
  return { drivenArm: drivingArm, drivingArm: drivenArm, frictionCircle: r };
}
