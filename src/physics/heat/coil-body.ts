/**
 * A coil in its can as heat sees it: two bodies, each of one temperature, and what lies between and around them; and how to
 * get there from what can be measured on the bench.
 *
 * Starting values are for what was not measured; each says where it comes from. Scales, micrometer and one steady test make
 * them needless.
 *
 * [1] IEC 60028:1925 (resistivity and density of copper)
 * [2] IEC 60949:1988 (volumetric heat of copper, 3.45e6 J/(K m³))
 */
import { copperResistance } from '../coil.ts';
import type { CanSurface } from '../convection.ts';
import { DomainError, requireAboveZero } from '../domain-error.ts';
import { COPPER_RESISTIVITY, enamelledDiameter } from '../winding.ts';

export interface CoilBody {
  /** Copper with its enamel, J/K. */
  readonly windingHeatCapacity: number;
  /** Can, core, plunger, J/K. */
  readonly canHeatCapacity: number;
  /** W/K. */
  readonly windingToCan: number;
  readonly can: CanSurface;
  /** Of the outside of the can, 0 to 1. */
  readonly emissivity: number;
  /** From the can to where the bracket has the bracket's temperature, W/K; zero where there is none. */
  readonly canToBracket: number;
}

/** kg/m³ [1]. */
export const COPPER_DENSITY = 8890;
/** J/(K m³) [2]. */
export const COPPER_VOLUMETRIC_HEAT = 3.45e6;
/** J/(K m³) of enamel: own estimate from 1400 kg/m³ and 1200 J/(kg K) of polyesters, no source. */
const ENAMEL_VOLUMETRIC_HEAT = 1.7e6;
/** J/(kg K) of low-carbon steel near 20 °C (handbook value, from memory; warmer steel takes more). */
export const STEEL_SPECIFIC_HEAT = 460;
/** Steel in the outside volume of a can with its plunger; own estimate from tube, two ends and core. Weigh it. */
export const STEEL_SHARE = 0.45;
/** kg/m³. */
const STEEL_DENSITY = 7850;

/** Emissivity of what cans are covered with; rounded from open tables that agree within 0.1 (seen). */
export const SURFACE_EMISSIVITY = {
  painted: 0.9,
  'rusty or oxidised': 0.75,
  'dull zinc': 0.28,
  'bright metal': 0.1,
} as const;

/**
 * Copper of a winding, kg, from its ohms at a temperature (K) and the bare diameter of its wire (m).
 *
 *     R = ρ l / A,  m = D l A   give   m = D R A² / ρ
 *
 * The wire counts with its fourth power: 2 % of diameter are 8 % of copper, and of time to any temperature.
 *
 * @throws DomainError SW-D051 ohms or diameter not finite and above zero
 */
export function copperMass(resistance: number, at: number, wireDiameter: number): number {
  requireAboveZero('SW-D051', 'resistance', resistance);
  requireAboveZero('SW-D051', 'wire diameter', wireDiameter);
  const area = (Math.PI * wireDiameter ** 2) / 4;
  return (COPPER_DENSITY * resistance * area * area) / copperResistance(COPPER_RESISTIVITY, 293.15, at);
}

/**
 * Heat capacity of the enamel over that of the copper inside it, from the grade 1 table of `winding.ts`: 0.1 at 0.3 mm, 0.06
 * at 1 mm. Paper, varnish and bobbin are left out: they are slow to take part, and without them times come out short.
 */
export function enamelShare(wireDiameter: number): number {
  const { overall } = enamelledDiameter(wireDiameter);
  return (((overall / wireDiameter) ** 2 - 1) * ENAMEL_VOLUMETRIC_HEAT) / COPPER_VOLUMETRIC_HEAT;
}

/**
 * J/K of copper with insulation that takes up `insulationShare` of the copper's own heat.
 *
 * @throws DomainError SW-D051 a mass not finite and above zero, a share below zero
 */
export function windingHeatCapacity(copper_kg: number, insulationShare: number): number {
  requireAboveZero('SW-D051', 'mass of copper', copper_kg);
  if (!(insulationShare >= 0 && insulationShare < Infinity))
    throw new DomainError('SW-D051', `insulation cannot take ${insulationShare} of the heat of its copper`);
  return (copper_kg / COPPER_DENSITY) * COPPER_VOLUMETRIC_HEAT * (1 + insulationShare);
}

/**
 * J/K of can, core and plunger from the solenoid's weight, kg, less copper and insulation (a tenth of the copper's weight).
 *
 * @throws DomainError SW-D052 a solenoid that weighs less than its winding
 */
export function canHeatCapacityFromWeight(solenoid_kg: number, copper_kg: number): number {
  requireAboveZero('SW-D051', 'mass of copper', copper_kg);
  const steel = solenoid_kg - 1.1 * copper_kg;
  if (!(steel > 0 && steel < Infinity))
    throw new DomainError(
      'SW-D052',
      `a solenoid of ${solenoid_kg} kg leaves no steel beside ${copper_kg} kg of copper`,
    );
  return steel * STEEL_SPECIFIC_HEAT;
}

/**
 * J/K of can, core and plunger from the outside of the can and the share of steel in it. Good to a third at best; a light can
 * is the cautious guess.
 */
export function canHeatCapacityFromSize(can: CanSurface, steelShare: number = STEEL_SHARE): number {
  requireCan(can);
  if (!(steelShare > 0 && steelShare <= 1))
    throw new DomainError('SW-D051', `steel cannot fill ${steelShare} of a can`);
  return ((Math.PI * can.diameter ** 2) / 4) * can.length * steelShare * STEEL_DENSITY * STEEL_SPECIFIC_HEAT;
}

/**
 * W/K from winding to can out of one steady test: watts held until nothing changes, mean of the winding by its ohms, can by a
 * thermometer.
 *
 * @throws DomainError SW-D052 a winding that is no warmer than its can, or no power
 */
export function windingToCanFromTest(power: number, winding: number, can: number): number {
  requireAboveZero('SW-D052', 'power of the test', power);
  requireAboveZero('SW-D052', 'winding above can', winding - can);
  return power / (winding - can);
}

/** Across the wires of a wound coil, W/(m K): 0.2 to 1 is said of round wire (memory); the lower half is cautious. */
export const WINDING_CONDUCTIVITY = 0.4;
/** Bobbin wall, paper and air between winding and can, m² K/W: 1 mm of plastic (own estimate, no source). */
const BOBBIN_RESISTANCE = 5e-3;

/**
 * W/K from the mean of a winding to the can around it, for a winding of depth b with cooled face of area A:
 *
 *     1/G = (b/(3 k) + r) / A
 *
 * b/3k is the mean of a plane wall with even heat, cooled on one face; r the bobbin. For the can alone, with the usual
 * proportions of a solenoid: b = D/5, A = ¾ π D L (own estimate, no source). One steady test is better.
 */
export function windingToCanFromSize(can: CanSurface): number {
  requireCan(can);
  const { diameter: D, length: L } = can;
  return (0.75 * Math.PI * D * L) / (D / 5 / (3 * WINDING_CONDUCTIVITY) + BOBBIN_RESISTANCE);
}

/** W/(m K) of low-carbon steel (handbook value, from memory). */
const STEEL_CONDUCTIVITY = 50;

/** W/K along a steel bracket of this section (m²) from can to engine (m). Contacts are left out: the true value is lower. */
export function bracketConductance(section_m2: number, length: number): number {
  requireAboveZero('SW-D051', 'section of the bracket', section_m2);
  requireAboveZero('SW-D051', 'length of the bracket', length);
  return (STEEL_CONDUCTIVITY * section_m2) / length;
}

function requireCan(can: CanSurface): void {
  requireAboveZero('SW-D051', 'diameter of the can', can.diameter);
  requireAboveZero('SW-D051', 'length of the can', can.length);
}

/**
 * @throws DomainError SW-D051 a dimension, capacity or emissivity without meaning
 * @throws DomainError SW-D052 a conductance not finite, or not above zero from winding to can, or below it to the bracket
 */
export function requireBody(body: CoilBody): void {
  requireCan(body.can);
  requireAboveZero('SW-D051', 'heat capacity of the winding', body.windingHeatCapacity);
  requireAboveZero('SW-D051', 'heat capacity of the can', body.canHeatCapacity);
  if (!(body.emissivity >= 0 && body.emissivity <= 1))
    throw new DomainError('SW-D051', `emissivity lies between 0 and 1, not at ${body.emissivity}`);
  requireAboveZero('SW-D052', 'conductance from winding to can', body.windingToCan);
  if (!(body.canToBracket >= 0 && body.canToBracket < Infinity))
    throw new DomainError(
      'SW-D052',
      `conductance from can to bracket must be finite and not below zero, not ${body.canToBracket} W/K`,
    );
}
