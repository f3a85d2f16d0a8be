/**
 * Air as this room reckons with it: an ideal gas of constant heat capacities.
 *
 * Left out: moisture that condenses or freezes at the exhaust, and what a real gas does above some 30 bar (below 1 %).
 *
 * Reference state 100 kPa, 20 °C, 65 % relative humidity, 1.185 kg/m³: [1]
 *
 * [1] ISO 8778:2003, standard reference atmosphere
 */

/** Of air at the reference state, J/(kg K). */
export const GAS_CONSTANT = 288;
export const HEAT_CAPACITY_RATIO = 1.4;
/** Pa, K and kg/m³ at the reference state. */
export const REFERENCE_PRESSURE = 100e3;
export const REFERENCE_TEMPERATURE = 293.15;
export const REFERENCE_DENSITY = 1.185;
/** Of the surroundings, Pa: gauges read from here. */
export const ATMOSPHERE = 101_325;

/** Mass of air, kg, in a volume, m³, at an absolute pressure, Pa, and a temperature, K: m = p V / (R T). */
export function massIn(volume: number, pressure: number, temperature: number): number {
  return (pressure * volume) / (GAS_CONSTANT * temperature);
}

/** Volume that a mass of air, kg, takes at the reference state, m³: "free air". */
export function freeAir(mass: number): number {
  return mass / REFERENCE_DENSITY;
}

/** How long a change of pressure is under way in a pipe, s: length over the speed of sound √(κ R T). */
export function delayInPipe(length: number, temperature: number): number {
  return length / Math.sqrt(HEAT_CAPACITY_RATIO * GAS_CONSTANT * temperature);
}
