/**
 * An air cylinder at rest: what its rod gives, and the air that it takes.
 *
 *     pull or push at the rod = Σ p A - friction,   friction = max(drag, (1 - η) Σ |p| A)
 *
 * p above atmosphere, so that air on the rod's end cancels; A the whole bore where the rod comes out, the bore less the rod
 * where it draws in; η the efficiency as read or stated for a cylinder under pressure; drag the friction of seals that no
 * pressure presses. Friction acts against the motion in either direction.
 *
 * Left out: cushions at the ends, leaks past the seals, friction that falls with speed.
 *
 * Textbook statics; η and drag are starting values until measured.
 */
import { DomainError, requireAboveZero } from '../domain-error.ts';
import { ATMOSPHERE, freeAir, massIn } from './gas.ts';

export interface Cylinder {
  /** Whether the rod draws in or comes out on the way home. */
  readonly action: 'pull' | 'push';
  /** m */
  readonly bore: number;
  readonly rod: number;
  readonly stroke: number;
  /** Force at the rod over pressure times area, under pressure. */
  readonly efficiency: number;
  /** Friction of the seals without pressure, N. */
  readonly drag: number;
  /** What is left in a chamber when the piston is at its end, m³; the pipe of that chamber included. */
  readonly deadVolume: number;
}

/** Of the chamber whose air drives home, and of the other: areas, m², or volumes, m³. */
export interface Areas {
  readonly home: number;
  readonly out: number;
}

/**
 * @throws DomainError SW-D082 a bore, rod or stroke not finite and above zero, a rod not thinner than the bore, an efficiency
 *   outside 0 to 1, a drag or dead volume below zero
 */
export function areasOf(cylinder: Cylinder): Areas {
  const { bore: D, rod: d, action } = cylinder;
  check(cylinder);
  const whole = (Math.PI * D * D) / 4;
  const ring = whole - (Math.PI * d * d) / 4;
  return action === 'push' ? { home: whole, out: ring } : { home: ring, out: whole };
}

/** Friction at the piston, N, with pressures above atmosphere in the chambers that drive home and out, Pa. */
export function pistonFriction(cylinder: Cylinder, areas: Areas, home: number, out: number): number {
  const { efficiency, drag } = cylinder;
  return Math.max(drag, (1 - efficiency) * (Math.abs(home) * areas.home + Math.abs(out) * areas.out));
}

/** What the rod gives towards home at a gauge pressure, Pa, standing or moving slowly home, the other chamber empty, N. */
export function forceHome(cylinder: Cylinder, pressure: number): number {
  const areas = areasOf(cylinder);
  return pressure * areas.home - pistonFriction(cylinder, areas, pressure, 0);
}

/** The same away from home, by air in the other chamber, N. */
export function forceOutByAir(cylinder: Cylinder, pressure: number): number {
  const areas = areasOf(cylinder);
  return pressure * areas.out - pistonFriction(cylinder, areas, 0, pressure);
}

/** Gauge pressure that gives a force towards home, Pa: the inverse of `forceHome`. */
export function pressureFor(cylinder: Cylinder, force: number): number {
  const { home } = areasOf(cylinder);
  const { efficiency, drag } = cylinder;
  return Math.max((force + drag) / home, force / (efficiency * home));
}

/** The air of one stop and the way back: each chamber that air is let into is emptied and filled once. */
export interface AirPerStop {
  /** kg */
  readonly mass: number;
  /** Volume at the reference state, m³. */
  readonly freeAir: number;
}

/** Between which gaps the piston moves, m from home; both lie within the stroke. */
export interface Way {
  readonly homeGap: number;
  readonly outGap: number;
}

/** Air that one stop with its way back takes, at a gauge pressure, Pa, all at one temperature, K. */
export function airPerStop(
  cylinder: Cylinder,
  returnsByAir: boolean,
  pressure: number,
  way: Way,
  temperature: number,
): AirPerStop {
  const mass = chambersOf(cylinder, returnsByAir, way).reduce(
    (sum, { empty, full }) =>
      sum + massIn(full, ATMOSPHERE + pressure, temperature) - massIn(empty, ATMOSPHERE, temperature),
    0,
  );
  return { mass, freeAir: freeAir(mass) };
}

interface Chamber {
  /** Volume when it begins to be filled, and when it is full, m³. */
  readonly empty: number;
  readonly full: number;
}

/** Volumes of the chambers with the piston at a gap, m³. */
export function volumesAt(cylinder: Cylinder, areas: Areas, gap: number): Areas {
  const { deadVolume, stroke } = cylinder;
  return { home: deadVolume + areas.home * (stroke - gap), out: deadVolume + areas.out * gap };
}

function chambersOf(cylinder: Cylinder, returnsByAir: boolean, { homeGap, outGap }: Way): readonly Chamber[] {
  const areas = areasOf(cylinder);
  const [home, out] = [volumesAt(cylinder, areas, homeGap), volumesAt(cylinder, areas, outGap)];
  const driving = { empty: out.home, full: home.home };
  return returnsByAir ? [driving, { empty: home.out, full: out.out }] : [driving];
}

/**
 * How many stops a vessel of air gives before its pressure no longer moves the lever, nothing pumping: the last stop counted
 * is the last at whose end the pressure is still enough.
 *
 *     p' (V + full) = p V + atmosphere × empty     for each chamber filled, at one temperature
 *
 * so that p falls by the same share of what is left each time. Left out: leaks, and any regulator between.
 *
 * @param vessel m³
 * @param from   gauge pressure at the beginning, Pa
 * @param enough gauge pressure that still moves the lever, Pa
 * @throws DomainError SW-D083 a vessel not finite and above zero, or a pressure below zero
 */
export function stopsFrom(
  cylinder: Cylinder,
  returnsByAir: boolean,
  way: Way,
  vessel: number,
  from: number,
  enough: number,
): number {
  requireAboveZero('SW-D083', 'volume of the air vessel', vessel);
  if (!(from >= 0 && enough >= 0))
    throw new DomainError('SW-D083', `pressures of a vessel must not lie below zero: ${from} and ${enough} Pa`);
  // In absolute pressure: after a filling p' = keep p + add.
  const fillings = chambersOf(cylinder, returnsByAir, way).map(({ empty, full }) => ({
    keep: vessel / (vessel + full),
    add: (ATMOSPHERE * empty) / (vessel + full),
  }));
  const [first] = fillings;
  const needed = (ATMOSPHERE + enough - first.add) / first.keep;
  const start = ATMOSPHERE + from;
  if (start < needed * (1 - 1e-12)) return 0;
  const keep = fillings.reduce((product, one) => product * one.keep, 1);
  const add = fillings.reduce((sum, one) => sum * one.keep + one.add, 0);
  const settles = add / (1 - keep);
  return 1 + Math.floor(Math.log((start - settles) / (needed - settles)) / -Math.log(keep) + 1e-9);
}

function check({ bore, rod, stroke, efficiency, drag, deadVolume }: Cylinder): void {
  requireAboveZero('SW-D082', 'bore of the cylinder', bore);
  requireAboveZero('SW-D082', 'rod of the cylinder', rod);
  requireAboveZero('SW-D082', 'stroke of the cylinder', stroke);
  if (rod >= bore) throw new DomainError('SW-D082', `a rod of ${rod} m does not fit a bore of ${bore} m`);
  if (!(efficiency > 0 && efficiency <= 1))
    throw new DomainError('SW-D082', `the efficiency of a cylinder lies above 0 and up to 1, not at ${efficiency}`);
  if (!(drag >= 0 && drag < Infinity && deadVolume >= 0 && deadVolume < Infinity))
    throw new DomainError('SW-D082', `drag and dead volume must not lie below zero: ${drag} N, ${deadVolume} m³`);
}
