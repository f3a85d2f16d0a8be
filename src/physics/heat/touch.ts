/**
 * How long bare skin bears a hot can.
 *
 * [1] ISO 13732-1:2006 Ergonomics of the thermal environment, contact with hot surfaces: burn thresholds of bare (uncoated)
 *     metal. The standard was not seen. From memory: 51 °C for a minute, 48 °C for ten, 43 °C for eight hours and more, the
 *     low edge (65 °C) of its band for one second. For ten seconds the low edge is remembered as 55 °C, less surely.
 */
import { requireAboveZero } from '../domain-error.ts';

/** Contact in s, and the lowest temperature in °C at which bare metal burns in that time [1]; longest first. */
export const BURN_THRESHOLDS: readonly (readonly [seconds: number, celsius: number])[] = [
  [28800, 43],
  [600, 48],
  [60, 51],
  [10, 55],
  [1, 65],
];

/**
 * The longest listed contact, s, that bare metal at this temperature (K) does not burn: Infinity for as long as one likes, 0
 * where even a second burns. Paint helps only for contacts under a minute and is not counted.
 *
 * A caution for words ("do not touch"), never a permission.
 */
export function longestTouch(temperature: number): number {
  requireAboveZero('SW-D056', 'temperature of the surface', temperature);
  const celsius = temperature - 273.15;
  const [forever] = BURN_THRESHOLDS;
  if (celsius < forever[1]) return Infinity;
  return BURN_THRESHOLDS.find(([, threshold]) => celsius < threshold)?.[0] ?? 0;
}
