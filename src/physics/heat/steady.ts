/** Where a coil that stays switched on comes to rest. */
import { findRoot, findRootBetween } from '../../numerics/roots.ts';
import { requireBody, type CoilBody } from './coil-body.ts';
import { coilHeat, coilHeatSlope, requirePower, type CoilPower } from './coil-power.ts';
import { CEILING, requireSurroundings } from './stages.ts';
import { heatLost, type Surroundings, type Temperatures } from './nodes.ts';

export type SteadyState =
  | (Temperatures & {
      readonly kind: 'steady';
      /** W. */
      readonly power: number;
      readonly toBracket: number;
    })
  /** It would pass 300 °C, or, on constant current, warm without end. */
  | { readonly kind: 'beyond the ceiling' };

/**
 * The balance P(Tw) = Q(Tc) + Gb (Tc - Tb) with Tw = Tc + P/G, found as a root, not by waiting.
 *
 * Sought upward from the can's rest without power, so that of several rests (a coil of fewer ohms than its loop can have
 * them) it is the one that a cold coil reaches.
 *
 * @throws DomainError SW-D051, SW-D052 a body without meaning
 * @throws DomainError SW-D053 a power without meaning
 * @throws DomainError SW-D054 a temperature of the surroundings out of range
 */
export function steadyState(body: CoilBody, power: CoilPower, surroundings: Surroundings): SteadyState {
  requireBody(body);
  requirePower(power);
  requireSurroundings(surroundings);
  const { windingToCan: G, canToBracket: Gb } = body;
  const { air, walls = air, bracket } = surroundings;
  // Without power the can rests between what surrounds it; with power, above that.
  const idle = findRoot(
    (can) => heatLost(body, surroundings, can),
    Math.min(air, walls, bracket),
    Math.max(air, walls, bracket),
    1e-9,
  ).at;
  // Where warming never makes more heat there is one rest and no more.
  const intervals = coilHeatSlope(power, idle) <= 0 ? 1 : 24;
  const width = CEILING - idle;
  let cooler = idle;
  let before = NaN;
  for (let i = 0; i < intervals; i++) {
    const warmer = idle + (width * (i + 1)) / intervals;
    const after = surplus(body, power, surroundings, warmer);
    if (after > 0) {
      cooler = warmer;
      before = after;
      continue;
    }
    const { at: can } = findRootBetween(
      (temperature) => surplus(body, power, surroundings, temperature),
      cooler,
      i === 0 ? surplus(body, power, surroundings, cooler) : before,
      warmer,
      after,
      1e-8,
    );
    const lost = heatLost(body, surroundings, can);
    const winding = can + lost / G;
    if (!(winding < CEILING)) break;
    return { kind: 'steady', winding, can, power: lost, toBracket: Gb * (can - bracket) };
  }
  return { kind: 'beyond the ceiling' };
}

/** More heat made than lost, W, were the can at this temperature and the winding where the flow to the can puts it. */
function surplus(body: CoilBody, power: CoilPower, surroundings: Surroundings, can: number): number {
  const lost = heatLost(body, surroundings, can);
  return coilHeat(power, Math.min(can + lost / body.windingToCan, CEILING)) - lost;
}
