/**
 * Heat made in a coil as its own temperature changes its ohms.
 *
 * One plain value stands for every stage: stalled in pull-in (both windings in parallel), hold, resistor in series (more ohms
 * of the loop), economiser (`chopped`), off.
 */
import { copperResistance } from '../coil.ts';
import { DomainError, requireAboveZero } from '../domain-error.ts';

/** Ohms, read at a temperature in K. */
export interface WindingOhms {
  readonly resistance: number;
  readonly at: number;
}

export type CoilPower =
  | { readonly drive: 'off' }
  /** A source behind resistances that stay as they are: battery, conductors, contacts, series resistor. */
  | {
      readonly drive: 'volts';
      readonly source: number;
      readonly loopResistance: number;
      readonly winding: WindingOhms;
    }
  | { readonly drive: 'current'; readonly current: number; readonly winding: WindingOhms };

/** A coil on a source of volts. */
export type CoilOnVolts = Extract<CoilPower, { readonly drive: 'volts' }>;

export const OFF: CoilPower = { drive: 'off' };

/** Two windings in parallel on one bobbin, so of one temperature, as one. */
export function windingsInParallel(first: WindingOhms, second: WindingOhms): WindingOhms {
  const other = copperResistance(second.resistance, second.at, first.at);
  return { resistance: (first.resistance * other) / (first.resistance + other), at: first.at };
}

/**
 * A coil that is given a share s of the terminal volts by fast switching: it sees s times the source behind s² times the loop,
 * since power in equals power out (see `holdCurrents` in circuit.ts).
 *
 * @throws DomainError SW-D053 a share outside 0 to 1
 */
export function chopped(power: CoilOnVolts, share: number): CoilOnVolts {
  if (!(share > 0 && share <= 1)) throw new DomainError('SW-D053', `a coil cannot be on for ${share} of the time`);
  return { ...power, source: share * power.source, loopResistance: share * share * power.loopResistance };
}

/**
 * Watts in the coil with its copper at `temperature`, K.
 *
 *     P = U² R / (R + Rl)²,   or   P = I² R,    R by the straight line of copper
 */
export function coilHeat(power: CoilPower, temperature: number): number {
  if (power.drive === 'off') return 0;
  const R = copperResistance(power.winding.resistance, power.winding.at, temperature);
  if (power.drive === 'current') return power.current * power.current * R;
  const amps = power.source / (R + power.loopResistance);
  return amps * amps * R;
}

/** Its slope over temperature, W/K: what makes a coil on volts calm itself and one on amps run away. */
export function coilHeatSlope(power: CoilPower, temperature: number): number {
  if (power.drive === 'off') return 0;
  const { resistance, at } = power.winding;
  const R = copperResistance(resistance, at, temperature);
  const perKelvin = copperResistance(resistance, at, temperature + 1) - R;
  if (power.drive === 'current') return power.current * power.current * perKelvin;
  const { source: U, loopResistance: Rl } = power;
  return ((U * U * (Rl - R)) / (R + Rl) ** 3) * perKelvin;
}

/** @throws DomainError SW-D053 volts, amps or ohms that are not finite, or not above zero where they must be */
export function requirePower(power: CoilPower): void {
  if (power.drive === 'off') return;
  requireAboveZero('SW-D053', 'resistance of the winding', power.winding.resistance);
  requireAboveZero('SW-D053', 'temperature of the resistance', power.winding.at);
  const amount = power.drive === 'volts' ? power.source : power.current;
  if (!(Math.abs(amount) < Infinity))
    throw new DomainError('SW-D053', `a coil cannot be driven by ${amount} ${power.drive === 'volts' ? 'V' : 'A'}`);
  if (power.drive === 'volts' && !(power.loopResistance >= 0 && power.loopResistance < Infinity))
    throw new DomainError('SW-D053', `the loop cannot have ${power.loopResistance} ohm`);
}
