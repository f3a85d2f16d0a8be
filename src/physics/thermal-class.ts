/**
 * What the insulation of a winding stands: thermal classes, the share left for the hot spot, and the rule of life.
 *
 * [1] IEC 60085:2007 Electrical insulation, thermal evaluation and designation, table 1
 * [2] V. M. Montsinger, Loading transformers by temperature, Trans. AIEE 49 (1930) 776
 */
import { DomainError, requireAboveZero } from './domain-error.ts';

const ZERO_CELSIUS = 273.15;

/** Class temperature in °C and its letter as printed [1]; 250 has none. */
export const THERMAL_CLASSES = [
  { celsius: 90, letter: 'Y' },
  { celsius: 105, letter: 'A' },
  { celsius: 120, letter: 'E' },
  { celsius: 130, letter: 'B' },
  { celsius: 155, letter: 'F' },
  { celsius: 180, letter: 'H' },
  { celsius: 200, letter: 'N' },
  { celsius: 220, letter: 'R' },
  { celsius: 250, letter: '' },
] as const;

export type ThermalClass = (typeof THERMAL_CLASSES)[number]['celsius'];

/** "130 (B)", "250". */
export function thermalClassName(thermalClass: ThermalClass): string {
  const letter = THERMAL_CLASSES.find(({ celsius }) => celsius === thermalClass)?.letter ?? '';
  return letter === '' ? String(thermalClass) : `${thermalClass} (${letter})`;
}

/** Hottest place of a winding above its mean, K, where nothing better is known: 5 to 15 K are usual (common practice, no source). */
export const HOT_SPOT_ALLOWANCE = 10;

/**
 * Highest mean temperature of a winding, K: the class is for the hottest place, ohms give the mean.
 *
 * @throws DomainError SW-D055 an allowance that is not finite or is below zero
 */
export function meanLimit(thermalClass: ThermalClass, allowance: number = HOT_SPOT_ALLOWANCE): number {
  if (!(allowance >= 0 && allowance < Infinity))
    throw new DomainError('SW-D055', `the hot spot cannot lie ${allowance} K above the mean`);
  return ZERO_CELSIUS + thermalClass - allowance;
}

/**
 * Life of insulation over its life at the class temperature: 2^((Tclass - T)/10 K), after [2] with the 10 K usual for motors.
 *
 * A rule of thumb to give "too hot" a meaning in words; no limit is drawn from it. Temperatures in K, of the hottest place.
 *
 * @throws DomainError SW-D055 a temperature that is not finite and above zero
 */
export function insulationLifeShare(thermalClass: ThermalClass, hotSpot: number): number {
  requireAboveZero('SW-D055', 'temperature of the insulation', hotSpot);
  return 2 ** ((ZERO_CELSIUS + thermalClass - hotSpot) / 10);
}
