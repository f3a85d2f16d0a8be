/**
 * Moment of the stop lever from spring-balance readings.
 *
 * A reading taken while the lever is moved on gives M+ = Me + Mf, one taken while it is let back gives M- = Me - Mf: Me is
 * what the lever's own springs, weight and governor ask, Mf its friction. Between readings a shape-keeping cubic is
 * drawn through both; beyond them the end value is held and the caller is told how far. [PHYSICS 3]
 *
 * Left out: inertia and viscous drag of the governor (readings are taken slowly).
 */
import { pchip, pchipAt, pchipPairInto, type Pchip } from '../numerics/pchip.ts';
import { DomainError } from './domain-error.ts';

export interface EffortReading {
  /** Shaft angle, rad. */
  readonly angle: number;
  /** Shaft centre to hook, m. */
  readonly radius: number;
  /** Balance while moving the lever on, N. */
  readonly pull: number;
  /** Balance while easing it back, N. */
  readonly easingBack: number;
  /** Balance off square to the arm, rad. */
  readonly offSquare: number;
}

/** Effort over the shaft angle for one state of the engine; moments resist the way the balance moved the lever. */
export interface EffortCurve {
  readonly steady: Pchip;
  readonly friction: Pchip;
  readonly from: number;
  readonly to: number;
}

/**
 * @param balanceZero what the balance shows with nothing on it, N
 * @throws DomainError SW-D010 no reading, or two readings at one angle
 */
export function effortCurve(readings: readonly EffortReading[], balanceZero: number): EffortCurve {
  if (readings.length === 0) throw new DomainError('SW-D010', 'an effort curve needs at least one reading');
  const isInOrder = readings.every(({ angle }, i) => i === 0 || angle > readings[i - 1].angle);
  const sorted = isInOrder ? readings : readings.toSorted((a, b) => a.angle - b.angle);
  const angles = sorted.map((reading) => reading.angle);
  if (angles.some((angle, i) => i > 0 && !(angle > angles[i - 1]))) {
    throw new DomainError('SW-D010', 'two effort readings stand at the same angle');
  }
  const on = sorted.map((reading) => momentOf(reading, reading.pull, balanceZero));
  const back = sorted.map((reading) => momentOf(reading, reading.easingBack, balanceZero));
  return {
    steady: pchip(
      angles,
      on.map((value, i) => (value + back[i]) / 2),
    ),
    friction: pchip(
      angles,
      on.map((value, i) => (value - back[i]) / 2),
    ),
    from: angles[0],
    to: angles[angles.length - 1],
  };
}

function momentOf({ radius, offSquare }: EffortReading, balance: number, balanceZero: number): number {
  return (balance - balanceZero) * radius * Math.cos(offSquare);
}

/** Me, N m. */
export function steadyMoment(curve: EffortCurve, angle: number): number {
  return pchipAt(curve.steady, angle);
}

/** Mf, N m. */
export function frictionMoment(curve: EffortCurve, angle: number): number {
  return pchipAt(curve.friction, angle);
}

/** Me and Mf, N m, beside each other. */
export function momentsReadInto(
  { steady, friction }: EffortCurve,
  angle: number,
  into: Float64Array,
  place: number,
): void {
  pchipPairInto(steady, friction, angle, into, place);
}

/** How far an angle lies outside the readings, rad; zero inside. */
export function outsideReadings(curve: EffortCurve, angle: number): number {
  return Math.max(0, curve.from - angle, angle - curve.to);
}
