/**
 * How warm a winding is inside: its mean by its ohms, its hottest place above that.
 *
 * [1] IEC 60034-1 (rise by resistance; it writes 235 for copper where we use 234.5)
 * [2] F. P. Incropera, D. P. DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eq. 3.43, plane wall with even heat
 */
import { copperResistance } from '../coil.ts';
import { requireAboveZero } from '../domain-error.ts';

/**
 * Mean temperature of a copper winding, K, from its ohms cold (at a known temperature, K) and hot [1].
 *
 *     T = T0 + (R/R0 - 1) (T0 + 234.5 °C)
 */
export function windingTemperature(cold: { readonly resistance: number; readonly at: number }, hot: number): number {
  requireAboveZero('SW-D056', 'cold resistance', cold.resistance);
  requireAboveZero('SW-D056', 'hot resistance', hot);
  // Kelvins for which copper gains as much as it has at `at`: the straight line again, read the other way.
  const kelvins = 1 / (copperResistance(1, cold.at, cold.at + 1) - 1);
  return cold.at + (hot / cold.resistance - 1) * kelvins;
}

export interface WindingGradient {
  /** Hottest place above the cooled face, K. */
  readonly hottest: number;
  /** Mean above the cooled face, K. */
  readonly mean: number;
  /** Hottest place above the mean, K: what a hot-spot allowance has to cover. */
  readonly hottestAboveMean: number;
}

/**
 * A winding of depth b, heated evenly, q watts per m³, once steady [2].
 *
 *     cooled on one face:    hottest = q b²/(2 k), mean = q b²/(3 k)
 *     cooled on both faces:  hottest = q b²/(8 k), mean = q b²/(12 k)
 *
 * Curvature and the warmer copper's greater share of the heat are left out. During a short stall it is smaller: nothing has
 * had time to flow.
 *
 * @throws DomainError SW-D056 a quantity not finite and above zero
 */
export function windingGradient(winding: {
  readonly power: number;
  readonly volume: number;
  readonly depth: number;
  /** Across the wires, W/(m K). */
  readonly conductivity: number;
  readonly cooledFaces: 1 | 2;
}): WindingGradient {
  const { power, volume, depth, conductivity, cooledFaces } = winding;
  requireAboveZero('SW-D056', 'power', power);
  requireAboveZero('SW-D056', 'volume of the winding', volume);
  requireAboveZero('SW-D056', 'depth of the winding', depth);
  requireAboveZero('SW-D056', 'conductivity of the winding', conductivity);
  const way = depth / cooledFaces;
  const hottest = ((power / volume) * way * way) / (2 * conductivity);
  return { hottest, mean: (2 / 3) * hottest, hottestAboveMean: hottest / 3 };
}
