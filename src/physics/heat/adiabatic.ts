/**
 * A winding that loses none of its heat, which over a second or so is all but true.
 *
 *     C dT/dt = i² R(T),   R(T) = R0 (T + K)/(T0 + K)                 [1]
 *     hence (T + K) grows by exp(∫ i² dt × R0 / (C (T0 + K)))
 *
 * with K the kelvins for which copper's straight line would reach no resistance. Heat lost to the can is left out: the
 * temperature is that or lower.
 *
 * [1] IEC 60949:1988, the same balance for a short circuit
 */
import { copperResistance } from '../coil.ts';
import { DomainError, requireAboveZero } from '../domain-error.ts';

export interface AdiabaticWinding {
  /** Ohms at a temperature, K. */
  readonly resistance: number;
  readonly at: number;
  /** J/K of its copper and what is stuck to it. */
  readonly heatCapacity: number;
}

/**
 * Mean temperature at each time, K. Between two times the current is a straight line.
 *
 * @param times s, rising
 * @param current A, of the same length
 * @param start temperature at the first time, K
 * @throws DomainError SW-D056 resistance, heat capacity or a temperature not finite and above zero, or lists of two lengths
 */
export function adiabaticTemperatures(
  { resistance, at, heatCapacity }: AdiabaticWinding,
  times: ArrayLike<number>,
  current: ArrayLike<number>,
  start: number,
): Float64Array {
  requireAboveZero('SW-D056', 'resistance', resistance);
  requireAboveZero('SW-D056', 'heat capacity', heatCapacity);
  requireAboveZero('SW-D056', 'temperature at the start', start);
  if (times.length !== current.length)
    throw new DomainError('SW-D056', `${times.length} times and ${current.length} currents`);
  // What copper gains for each kelvin, as a share of its ohms at the start.
  const gain = copperResistance(1, start, start + 1) - 1;
  const ohms = copperResistance(resistance, at, start);
  const temperatures = new Float64Array(times.length);
  let heat = 0;
  for (let i = 0; i < times.length; i++) {
    if (i > 0)
      heat += ((current[i] ** 2 + current[i] * current[i - 1] + current[i - 1] ** 2) / 3) * (times[i] - times[i - 1]);
    temperatures[i] = start + Math.expm1((heat * ohms * gain) / heatCapacity) / gain;
  }
  return temperatures;
}
