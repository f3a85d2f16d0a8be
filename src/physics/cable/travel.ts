/**
 * What is lost between handle and lever: stretch of the core, shortening of the conduit, and play in the bends.
 *
 * The core stretches by ∫T ds/(E A), with the tension that it has at each place; the conduit, which bears the same force the
 * other way, shortens by ∫T ds/K, K the force that would shorten it by its own length. In a bend the core lies on the inside
 * while pulled and on the outside while pushed: it loses Σ|φ| (bore - diameter) where it changes over, and half of that
 * where it starts slack in the middle. A core that a spring keeps taut loses none. [1]
 *
 * @throws DomainError SW-D095 a stiffness not finite and above zero, a bore no larger than the core
 * [1] geometry: the difference of two arcs of one angle
 */
import { DomainError, requireAboveZero } from '../domain-error.ts';

export interface Give {
  /** m */
  readonly stretch: number;
  readonly shortening: number;
}

/** @param integral ∫T ds, N m; below zero for a push, that shortens the core and draws the conduit out */
export function giveOf(integral: number, axialStiffness: number, conduitStiffness: number): Give {
  requireAboveZero('SW-D095', 'the stiffness of a core', axialStiffness);
  requireAboveZero('SW-D095', 'the stiffness of a conduit', conduitStiffness);
  return { stretch: integral / axialStiffness, shortening: integral / conduitStiffness };
}

/** Between lying on the inside of every bend and on the outside, m. */
export function playInBends(turned: number, bore: number, diameter: number): number {
  requireAboveZero('SW-D095', 'the diameter of a core', diameter);
  if (!(bore >= diameter && bore < Infinity))
    throw new DomainError('SW-D095', `a bore of ${bore} m around a core of ${diameter} m`);
  return turned * (bore - diameter);
}
