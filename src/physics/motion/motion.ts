import { DomainError } from '../domain-error.ts';
import type { Magnet } from '../solenoid/magnet-form.ts';
import { Course } from './course.ts';
import type { MotionLoad } from './load-curve.ts';
import { mostAmpereTurnsOf, type MotionCircuit } from './motion-circuit.ts';
import { resultOf } from './motion-result.ts';
import type { MotionTrace } from './motion-trace.ts';

export type { MotionLoad } from './load-curve.ts';
export {
  mostAmpereTurnsOf,
  type MotionCircuit,
  type MotionStages,
  type MotionWinding,
  type Suppression,
} from './motion-circuit.ts';
export type { MotionTrace } from './motion-trace.ts';

export interface MotionRequest {
  readonly magnet: Magnet;
  readonly circuit: MotionCircuit;
  readonly load: MotionLoad;
  /** Gap of the stop at home, and of the stop at full stroke, m. */
  readonly homeGap: number;
  readonly outGap: number;
  /** Where the plunger stands when switched on from rest, m. */
  readonly startGap: number;
  /** 'held at home': it begins at the home gap with the steady current of what holds it there. */
  readonly startAt: 'rest' | 'held at home';
  /** Works when the gap falls to the one, recloses when it rises to the other, m. Null: there is none, or it is stuck closed. */
  readonly endSwitch: { readonly worksAtGap: number; readonly reclosesAtGap: number } | null;
  /** Rebound speed as a share of the speed of impact, at either stop; 0 is a dead landing. */
  readonly restitution: number;
  /** s after on; null: it stays on. */
  readonly offAt: number | null;
  /** s */
  readonly duration: number;
  /** Relative, 1e-6 if left out. */
  readonly tolerance?: number;
  /** Points of the trace besides the events, 300 if left out; with 0, peaks and the dip are those at ends of steps. */
  readonly tracePoints?: number;
}

export type MotionEventKind =
  | 'starts moving'
  | 'stalls'
  | 'turns back'
  | 'end switch works'
  | 'end switch recloses'
  | 'stage change'
  | 'comes home'
  | 'bounces'
  | 'current off'
  | 'current gone'
  | 'leaves home'
  | 'at rest';

export interface MotionEvent {
  readonly kind: MotionEventKind;
  /** s after on */
  readonly time: number;
  /** m */
  readonly gap: number;
  /** Drawn from the source just before, A. */
  readonly current: number;
  /** Towards home, just before, m/s. */
  readonly speed: number;
}

/** How it stands when the current is switched off, or at the end. */
export type MotionOutcome =
  | 'home'
  | 'did not start'
  | 'stalled'
  | 'dropped out'
  /** It came home and dropped out again more than once. */
  | 'hunts'
  | 'still moving';

/** How it stands at the end, after the current was switched off. */
export type ReleaseOutcome = 'returned' | 'stopped on the way' | 'did not leave home' | 'still moving';

/** J */
export interface EnergyAudit {
  readonly source: number;
  readonly copper: number;
  readonly loopAndResistor: number;
  /** In diode, zener, resistor beside the diode, or arc. */
  readonly suppression: number;
  /** Gain of the energy in the field. */
  readonly field: number;
  readonly kinetic: number;
  /** Against load and drag; below zero where the springs gave more than they took. */
  readonly load: number;
  /** Lost in impacts, at stops and steps of the load. */
  readonly landings: number;
  /** What does not add up, as a share of all that was put in. */
  readonly imbalance: number;
}

export interface Motion {
  readonly outcome: MotionOutcome;
  readonly release: ReleaseOutcome | null;
  readonly events: readonly MotionEvent[];
  /** First touch of home, s after on, and the speed then, m/s; null if it never came, or began there. */
  readonly timeToHome: number | null;
  readonly landingSpeed: number | null;
  /** Where it stood still last, short of home, while switched on, m. */
  readonly stallGap: number | null;
  /** Drawn from the source: the greatest while switched on, A. */
  readonly peakCurrent: number;
  /** Drawn from the source on the way home, up to landing or stage change: the peak and the least after it; null without a dip. */
  readonly dip: {
    readonly peakTime: number;
    readonly peakCurrent: number;
    readonly time: number;
    readonly current: number;
  } | null;
  /** From switching off until it leaves home, and until it comes to rest for good, s. */
  readonly releaseTime: number | null;
  readonly returnTime: number | null;
  /** Greatest magnitudes: at the terminals, across the switch that opened, across the end switch's open contact, V. */
  readonly peakVolts: { readonly terminals: number; readonly contact: number; readonly endSwitch: number };
  /** Greatest ampere-turns met, and whether the magnet is known so far. */
  readonly peakAmpereTurns: number;
  readonly isBeyondMagnet: boolean;
  readonly energy: EnergyAudit;
  readonly trace: MotionTrace;
  readonly steps: { readonly accepted: number; readonly rejected: number };
  /** False when the integration stopped short: everything above then ends at the last time of the trace. */
  readonly converged: boolean;
  /** Greatest estimated error of a step as a multiple of the tolerance; above 1 only where it stopped short. */
  readonly residual: number;
  /** The magnet's approximation, if it is one; null for a field map. */
  readonly approximation: string | null;
}

/** Readings stop short of home by the thickness of what was between; so far beyond its gaps a magnet is believed, m. */
const GAP_TOLERANCE = 5e-5;

/**
 * What happens from switching on, or off, in time: current, flux and motion of a plunger together.
 *
 *     N_k φ' = v - R_k i_k,   Σ N_k i_k = Θ(φ, g)          (`motion-circuit.ts`)
 *     m s̈ + ½ (dm/ds) ṡ² = F(Θ, g) - load - c ṡ           (`plunger-system.ts`)
 *
 * Coulomb friction stands in the load's two columns and never chatters; stops, end switch, steps of the load, stage change,
 * switching off and the end of the current are located events (`course.ts`). Impact at a step where the mass grows keeps
 * momentum; where it shrinks, keeps speed.
 *
 * Left out: eddy currents and hysteresis in solid steel (measured times are longer), residual force, leakage between two
 * windings, bounce of contacts, heating within the motion, waves in springs.
 *
 * @throws DomainError SW-M071 the load; SW-M072 circuit or request; SW-M073 gaps beyond the magnet; SW-M074 ampere-turns beyond it
 */
export function motion(request: MotionRequest): Motion {
  checkRequest(request);
  const course = new Course(request);
  course.run();
  return resultOf(course);
}

function checkRequest(request: MotionRequest): void {
  const {
    magnet,
    circuit,
    homeGap,
    outGap,
    startGap,
    endSwitch,
    restitution,
    offAt,
    duration,
    tolerance = 1e-6,
  } = request;
  const refuse = (what: string): never => {
    throw new DomainError('SW-M072', what);
  };
  if (!(homeGap >= 0 && outGap > homeGap && outGap < Infinity))
    refuse(`the stroke goes from full stroke to home, not from ${outGap} m to ${homeGap} m`);
  if (!(startGap >= homeGap && startGap <= outGap))
    refuse(`the plunger starts between ${homeGap} m and ${outGap} m, not at ${startGap} m`);
  if (
    endSwitch !== null
    && !(endSwitch.worksAtGap < endSwitch.reclosesAtGap && Number.isFinite(endSwitch.reclosesAtGap))
  )
    refuse(
      `an end switch recloses at a wider gap than it works at, not at ${endSwitch.reclosesAtGap} m after ${endSwitch.worksAtGap} m`,
    );
  if (!(restitution >= 0 && restitution < 1)) refuse(`restitution is 0 to below 1, not ${restitution}`);
  if (!(duration > 0 && duration < Infinity)) refuse(`a duration must be finite and above zero, not ${duration} s`);
  if (offAt !== null && !(offAt >= 0)) refuse(`switching off cannot be at ${offAt} s`);
  if (!(tolerance >= 1e-11 && tolerance <= 1e-2)) refuse(`a tolerance is 1e-11 to 0.01, not ${tolerance}`);
  if (homeGap < magnet.leastGap - GAP_TOLERANCE || outGap > magnet.mostGap + GAP_TOLERANCE)
    throw new DomainError(
      'SW-M073',
      `the magnet is known from ${magnet.leastGap} to ${magnet.mostGap} m, not from ${homeGap} to ${outGap} m`,
    );
  const most = mostAmpereTurnsOf(circuit);
  if (most > magnet.mostAmpereTurns * (1 + 1e-9))
    throw new DomainError(
      'SW-M074',
      `the circuit drives ${most} ampere-turns; the magnet is known up to ${magnet.mostAmpereTurns}`,
    );
}
