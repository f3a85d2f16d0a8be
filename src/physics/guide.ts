/**
 * The plunger in its guide: reactions, friction, rock.
 *
 * The guide carries the plunger at two places, its mouth and its tail, b apart; the pin stands c outside the mouth.
 * A pull plunger leaves its guide as the gap opens, a push rod reaches further out as it comes home. [PHYSICS 2, Guide]
 *
 * Left out: pressure spread along the guide, and the sideways magnetic pull of a plunger off centre.
 *
 * Reactions of a two-point guide with friction: [1] F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics,
 * Sample Problem 8.3 (bracket on a pipe), carried over to a force along the guide and one across it.
 */
export interface Guide {
  readonly action: 'pull' | 'push';
  /** Length of plunger inside the guide at home, m (push: always). */
  readonly lengthAtHome: number;
  /** From mouth to pin, m: at home for a pull plunger, at the outer stop for a push rod. */
  readonly overhang: number;
  readonly stroke: number;
  /** Diameter of the plunger, m. */
  readonly diameter: number;
  /** Bore minus plunger diameter, m. */
  readonly boreClearance: number;
  /** Lever plane beside the axis of the plunger, m. */
  readonly planeOffset: number;
  /** A rod in a bearing: what is guided stays as long as it is, whichever way it moves. A plunger draws out of its guide. */
  readonly isRod?: boolean;
}

/** Shortest part of the guide length that is reckoned to carry, m: keeps a plunger pulled right out from dividing by zero. */
const LEAST_ENGAGED = 1e-4;

/** Engaged length b, m. */
export function engaged(guide: Guide, gap: number): number {
  return guide.action === 'pull' && guide.isRod !== true
    ? Math.max(LEAST_ENGAGED, guide.lengthAtHome - gap)
    : guide.lengthAtHome;
}

/** Overhang c, m. */
export function overhangAt(guide: Guide, gap: number): number {
  return guide.action === 'pull' ? guide.overhang + gap : guide.overhang + guide.stroke - gap;
}

/** How far the pin can be rocked sideways, each way, by the clearance in the bore, m: (j/2)(1 + 2c/b). */
export function rock(guide: Guide, gap: number): number {
  return (guide.boreClearance / 2) * (1 + (2 * overhangAt(guide, gap)) / engaged(guide, gap));
}

/**
 * Friction in the guide, N, from the force that the connection puts on the pin.
 *
 *     R2 = [c F - p (Q + d μ (D/2) F)] / b,   R1 = -(F + R2)        in the plane of the lever, p = +1 pull, -1 push
 *     R' = along × z / b                                            out of it, where the lever plane lies z off the axis
 *     friction = μ (√(R1² + R'²) + √(R2² + R'²))
 *
 * The middle term is the couple of the two friction forces across the bore.
 *
 * @param along     force of the connection along the axis, N (away from home)
 * @param across    side force on the pin along v, N
 * @param couple    moment of the connection on the plunger, N m, counter-clockwise
 * @param direction +1 moving towards home, -1 away
 */
export function guideFriction(
  guide: Guide,
  gap: number,
  along: number,
  across: number,
  couple: number,
  direction: 1 | -1,
  mu: number,
): number {
  const b = engaged(guide, gap);
  const c = overhangAt(guide, gap);
  const side = guide.action === 'pull' ? 1 : -1;
  const tail = (c * across - side * (couple + direction * mu * 0.5 * guide.diameter * across)) / b;
  const mouth = -(across + tail);
  if (guide.planeOffset === 0) return mu * (Math.abs(mouth) + Math.abs(tail));
  const twist = (along * guide.planeOffset) / b;
  return mu * (Math.sqrt(mouth * mouth + twist * twist) + Math.sqrt(tail * tail + twist * twist));
}
