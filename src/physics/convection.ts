/**
 * Heat from a surface to still air and to the walls around: properties of air, natural convection, radiation.
 *
 * Nu = h L / k, with Ra = g β ΔT L³ / (ν α). Air properties are taken at the film, half way between surface and air.
 *
 * [1] S. W. Churchill, H. H. S. Chu, Correlating equations for laminar and turbulent free convection from a vertical plate,
 *     Int. J. Heat Mass Transfer 18 (1975) 1323
 * [2] S. W. Churchill, H. H. S. Chu, Correlating equations for laminar and turbulent free convection from a horizontal
 *     cylinder, Int. J. Heat Mass Transfer 18 (1975) 1049
 * [3] F. P. Incropera, D. P. DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eq. 9.32 (horizontal plates) and 9.28 (slender
 *     cylinders)
 * [4] B. E. Poling, J. M. Prausnitz, J. P. O'Connell, The Properties of Gases and Liquids, 5th ed. 2001, as fitted for dry air
 *     between 200 K and 400 K
 */
import { DomainError } from './domain-error.ts';

/** Standard gravity, m/s². */
const GRAVITY = 9.80665;
/** W/(m² K⁴). */
export const STEFAN_BOLTZMANN = 5.670374e-8;

/** Film temperatures, K, between which `airProperties` answers. */
export const AIR_RANGE = { from: 200, to: 500 } as const;

export interface AirProperties {
  /** W/(m K). */
  readonly conductivity: number;
  /** m²/s. */
  readonly kinematicViscosity: number;
  /** m²/s. */
  readonly thermalDiffusivity: number;
  readonly prandtl: number;
  /** 1/K. */
  readonly expansion: number;
}

/**
 * Dry air at 101.3 kPa.
 *
 *     ρ = 351.99/T + 344.88/T²              μ = 1.4592e-6 T^1.5 / (109.10 + T)
 *     k = 2.3340e-3 T^1.5 / (164.54 + T)    c = 1030.5 - 0.19975 T + 3.9734e-4 T²     [4]
 *     β = 1/T (ideal gas)
 *
 * The fits are stated for 200 K to 400 K. Up to 500 K they stay within 5 % of two printed tables that differ among
 * themselves by up to 4 % (test/published/convection.test.ts). Thin air of high places is left out: at 2000 m convection is
 * about a tenth weaker.
 *
 * @throws DomainError SW-D050 a temperature outside 200 K to 500 K
 */
export function airProperties(temperature: number): AirProperties {
  if (!(temperature >= AIR_RANGE.from && temperature <= AIR_RANGE.to))
    throw new DomainError('SW-D050', `properties of air are known from 200 K to 500 K, not at ${temperature} K`);
  return air(temperature);
}

/** The formulas of `airProperties` with no guard, for the middle of an integration. */
function air(T: number): AirProperties {
  const density = 351.99 / T + 344.88 / (T * T);
  const root = T * Math.sqrt(T);
  const viscosity = (1.4592e-6 * root) / (109.1 + T);
  const conductivity = (2.334e-3 * root) / (164.54 + T);
  const heat = 1030.5 - 0.19975 * T + 3.9734e-4 * T * T;
  return {
    conductivity,
    kinematicViscosity: viscosity / density,
    thermalDiffusivity: conductivity / (density * heat),
    prandtl: (heat * viscosity) / conductivity,
    expansion: 1 / T,
  };
}

/** Rayleigh number for a length (m) and a temperature difference (K) of either sign. */
export function rayleigh(properties: AirProperties, difference: number, length: number): number {
  const { expansion, kinematicViscosity, thermalDiffusivity } = properties;
  return (GRAVITY * expansion * Math.abs(difference) * cubed(length)) / (kinematicViscosity * thermalDiffusivity);
}

/**
 * Mean Nusselt number of a vertical plate over its height, Ra from 0.1 to 1e12.
 *
 *     Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}²          [1]
 *
 * An upright cylinder may be taken for a plate while D/L ≥ 35/Gr^(1/4) [3]; a more slender one loses more than this says.
 */
export function nusseltVerticalPlate(Ra: number, Pr: number): number {
  return (0.825 + (0.387 * sixthRoot(Ra)) / (1 + (0.492 / Pr) ** (9 / 16)) ** (8 / 27)) ** 2;
}

/**
 * Mean Nusselt number of a long horizontal cylinder over its diameter, Ra from 1e-5 to 1e12.
 *
 *     Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}²           [2]
 */
export function nusseltHorizontalCylinder(Ra: number, Pr: number): number {
  return (0.6 + (0.387 * sixthRoot(Ra)) / (1 + (0.559 / Pr) ** (9 / 16)) ** (8 / 27)) ** 2;
}

/**
 * Mean Nusselt number of a horizontal plate over area divided by perimeter, on the side where the plate itself is in the way
 * of the air: Nu = 0.27 Ra^(1/4), Ra from 1e5 to 1e10 [3].
 */
export function nusseltHorizontalPlate(Ra: number): number {
  return 0.27 * Math.sqrt(Math.sqrt(Ra));
}

// A general power costs more than all the rest of a balance of heat, which is reckoned a dozen times for each draw of a spread.
const cubed = (x: number): number => x * x * x;
const sixthRoot = (x: number): number => Math.cbrt(Math.sqrt(x));

export type CanAttitude = 'lying' | 'upright';

/** A round can, closed at both ends, free on all sides. Metres. */
export interface CanSurface {
  readonly diameter: number;
  readonly length: number;
  readonly attitude: CanAttitude;
}

/**
 * Heat from a round can to still air by convection, W; negative where the air is warmer.
 *
 * Lying: mantle as a horizontal cylinder [2], ends as vertical plates of height π D/4 (the mean chord of a circle).
 * Upright: mantle as a vertical plate [1], both ends as horizontal plates of length D/4 with air in their way [3]: the upper
 * one could do twice as well alone, but stands in the air that the mantle has warmed (own choice). The ends of small cans lie
 * below the range of [3]; whole cans of 40 to 100 mm stay within 15 % of a rule for bodies of any shape all the same
 * (test/published/convection.test.ts), and that is how far convection may be trusted.
 *
 * What the bracket covers and what its plate sheds as a fin, drafts and fans are left out.
 */
export function convectedHeat(can: CanSurface, surface: number, airTemperature: number): number {
  const difference = surface - airTemperature;
  if (difference === 0) return 0;
  const { diameter: D, length: L } = can;
  const properties = air((surface + airTemperature) / 2);
  const { conductivity: k, prandtl: Pr } = properties;
  const perCubicMetre = rayleigh(properties, difference, 1);
  const end = (Math.PI * D * D) / 4;
  if (can.attitude === 'lying') {
    const chord = (Math.PI * D) / 4;
    const mantle = Math.PI * L * nusseltHorizontalCylinder(perCubicMetre * cubed(D), Pr);
    const ends = ((2 * end) / chord) * nusseltVerticalPlate(perCubicMetre * cubed(chord), Pr);
    return k * (mantle + ends) * difference;
  }
  const mantle = Math.PI * D * nusseltVerticalPlate(perCubicMetre * cubed(L), Pr);
  const ends = ((8 * end) / D) * nusseltHorizontalPlate(perCubicMetre * cubed(D / 4));
  return k * (mantle + ends) * difference;
}

export type ConvectionCaution =
  /** Smaller than 30 mm across, larger than 150 mm, or shorter than half its diameter: nothing to compare with was at hand. */
  | 'unusual size'
  /** The upright can is too slender to be taken for a plate: more heat leaves than reckoned. */
  | 'slender upright can';

/**
 * Where `convectedHeat` is beyond what it was compared with.
 *
 * @throws DomainError SW-D050 air at the film outside 200 K to 500 K
 */
export function convectionCautions(
  can: CanSurface,
  surface: number,
  airTemperature: number,
): readonly ConvectionCaution[] {
  const properties = airProperties((surface + airTemperature) / 2);
  const { diameter: D, length: L, attitude } = can;
  const grashof = rayleigh(properties, surface - airTemperature, L) / properties.prandtl;
  return [
    ...(D < 0.03 || D > 0.15 || L < D / 2 ? (['unusual size'] as const) : []),
    ...(attitude === 'upright' && D / L < 35 / grashof ** 0.25 ? (['slender upright can'] as const) : []),
  ];
}

/**
 * Heat from a grey surface to large walls around it, W: ε σ A (T⁴ - Tw⁴). Negative where the walls are warmer.
 */
export function radiatedHeat(area: number, emissivity: number, surface: number, walls: number): number {
  const [surfaceSquared, wallsSquared] = [surface * surface, walls * walls];
  return emissivity * STEFAN_BOLTZMANN * area * (surfaceSquared * surfaceSquared - wallsSquared * wallsSquared);
}

/** Mantle and both ends of a can, m². */
export function canArea({ diameter: D, length: L }: CanSurface): number {
  return Math.PI * D * (L + D / 2);
}
