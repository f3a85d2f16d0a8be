/**
 * Resistance of copper conductors.
 *
 * [1] IEC 60228:2004, table 3: greatest resistance at 20 °C of class 5 (flexible), plain copper, ohm/km
 * [2] IEC 60028:1925: 1.7241e-8 ohm m at 20 °C
 */
import { copperResistance } from './coil.ts';

/** [section, mm²; greatest resistance at 20 °C, ohm/km] as printed [1]. */
export const class5: readonly (readonly [section_mm2: number, ohmPerKm: number])[] = [
  [0.5, 39],
  [0.75, 26],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
  [4, 4.95],
  [6, 3.3],
  [10, 1.91],
  [16, 1.21],
  [25, 0.78],
  [35, 0.554],
  [50, 0.386],
  [70, 0.272],
  [95, 0.206],
];

const COPPER_20 = 1.7241e-8;
const REFERENCE = 293.15;

/** Resistance per metre at 20 °C: the printed value for a standard section, copper alone for any other (AWG) [1][2]. */
export function resistancePerMetre(section_m2: number): number {
  const mm2 = section_m2 * 1e6;
  const printed = class5.find(([section]) => Math.abs(section - mm2) < 0.002 * section);
  return printed === undefined ? COPPER_20 / section_m2 : printed[1] / 1000;
}

/** Resistance of a run, ohm, at a conductor temperature, K. */
export function conductorResistance(section_m2: number, length: number, temperature: number): number {
  return copperResistance(resistancePerMetre(section_m2) * length, REFERENCE, temperature);
}
