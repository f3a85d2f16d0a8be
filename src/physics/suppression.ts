/**
 * How the current of a coil dies when its switch opens: closed forms at constant inductance.
 *
 * A check and a quick answer. The inductance of a solenoid changes while the plunger leaves and with saturation, and eddy
 * currents in solid steel hold the flux up after the current has gone: the real release is slower, and comes from the
 * motion of the plunger.
 *
 *     L di/dt = -(R + Rs) i - V,      i(t) = (i0 + V/Rt) exp(-Rt t/L) - V/Rt,  Rt = R + Rs
 *
 * V is what the path keeps for itself whatever the current: the forward volts of a diode, the volts of a zener, the arc
 * less the source. Ohm's and Faraday's laws; textbook.
 */
import { DomainError, requireAboveZero } from './domain-error.ts';

export type Suppression =
  /** Nothing fitted: the contacts draw an arc, whose volts must exceed the source's or the current never ends. */
  | { readonly kind: 'none'; readonly arcVolts: number }
  | { readonly kind: 'diode'; readonly forwardVolts: number }
  | { readonly kind: 'diode and resistor'; readonly forwardVolts: number; readonly resistance: number }
  /** A resistor straight across the coil: it draws current as long as the coil is on. */
  | { readonly kind: 'resistor'; readonly resistance: number }
  /** With its diode in series. */
  | { readonly kind: 'zener'; readonly zenerVolts: number; readonly forwardVolts: number };

export interface SwitchedCoil {
  /** Ohm, at the temperature in question. */
  readonly resistance: number;
  /** H, taken as constant. */
  readonly inductance: number;
  /** Current at the moment of opening, A. */
  readonly current: number;
  /** Volts of the source. */
  readonly source: number;
}

interface Path {
  readonly resistance: number;
  readonly volts: number;
}

function pathOf(coil: SwitchedCoil, suppression: Suppression): Path {
  requireAboveZero('SW-D066', 'coil resistance', coil.resistance);
  requireAboveZero('SW-D066', 'inductance', coil.inductance);
  requireAboveZero('SW-D066', 'current', coil.current);
  requireAboveZero('SW-D066', 'source', coil.source);
  const path = outside(coil.source, suppression);
  if (!(path.resistance >= 0 && path.volts >= 0 && path.resistance + path.volts < Infinity))
    throw new DomainError('SW-D066', `a path of ${path.resistance} ohm and ${path.volts} V takes no current over`);
  return path;
}

function outside(source: number, suppression: Suppression): Path {
  switch (suppression.kind) {
    case 'none':
      return { resistance: 0, volts: suppression.arcVolts - source };
    case 'diode':
      return { resistance: 0, volts: suppression.forwardVolts };
    case 'diode and resistor':
      return { resistance: suppression.resistance, volts: suppression.forwardVolts };
    case 'resistor':
      return { resistance: suppression.resistance, volts: 0 };
    case 'zener':
      return { resistance: 0, volts: suppression.zenerVolts + suppression.forwardVolts };
  }
}

/**
 * Coil current after `time` seconds, A; zero once it has died.
 *
 * @throws DomainError SW-D066 a coil without resistance, inductance, current or source; a path that takes nothing over, an
 * arc below the source among them
 */
export function currentAfter(coil: SwitchedCoil, suppression: Suppression, time: number): number {
  const { resistance, volts: V } = pathOf(coil, suppression);
  const Rt = coil.resistance + resistance;
  return Math.max(0, (coil.current + V / Rt) * Math.exp((-Rt * time) / coil.inductance) - V / Rt);
}

/**
 * Seconds until the current has fallen to `to`, A: t = L/Rt ln((i0 Rt + V)/(i Rt + V)). Infinity for zero current where
 * nothing but resistance opposes it; zero where it is there already.
 *
 * @throws DomainError SW-D066 as for `currentAfter`, and a current sought that is below zero or no number
 */
export function timeToCurrent(coil: SwitchedCoil, suppression: Suppression, to: number): number {
  const { resistance, volts: V } = pathOf(coil, suppression);
  if (!(to >= 0)) throw new DomainError('SW-D066', `no time to a current of ${to} A`);
  if (to >= coil.current) return 0;
  const Rt = coil.resistance + resistance;
  return (coil.inductance / Rt) * Math.log((coil.current * Rt + V) / (to * Rt + V));
}

/**
 * Volts at the moment of opening: across the coil, against its polarity in service, and across the opening contacts.
 *
 * @throws DomainError SW-D066 as for `currentAfter`
 */
export function peakVolts(
  coil: SwitchedCoil,
  suppression: Suppression,
): { readonly coil: number; readonly contacts: number } {
  const { resistance, volts } = pathOf(coil, suppression);
  const across = coil.current * resistance + volts;
  return { coil: across, contacts: coil.source + across };
}
