/**
 * What a rig does in the first second: the one place where a job meets the physics of motion.
 *
 * The magnet is the co-energy map of the job where it has one, else the pulls that were read, by a stated approximation.
 * Vibration is left out, since no trace shows the worse direction; so are eddy currents in solid steel: measured times are
 * longer than these.
 */
import type { Job } from '../../job/schema.ts';
import type { CoilOhms } from '../../physics/circuit.ts';
import {
  mostAmpereTurnsOf,
  motion,
  type Motion,
  type MotionCircuit,
  type MotionStages,
  type Suppression,
} from '../../physics/motion/motion.ts';
import { loadOf } from './load-of.ts';
import { magnetOf, type NoMotion, type Turns } from './magnet-of.ts';
import { valueOf } from '../readings.ts';
import type { Rig } from '../rig.ts';
import type { End } from '../lever-moments.ts';
import type { Scene, Warmth } from '../scene.ts';

/** One corner in which a motion is followed. */
export interface MotionCorner {
  readonly supply: End;
  readonly coil: Warmth;
  readonly friction: End;
}

/** Takes longest to come home: tired battery, hot coil, stiff. */
export const SLOWEST: MotionCorner = { supply: 'low', coil: 'hot', friction: 'high' };
/** Lands hardest: charging, cold coil, easy. */
export const HARDEST: MotionCorner = { supply: 'high', coil: 'cold', friction: 'low' };
/** Lets go last: charging, cold coil, stiff. */
export const LATEST: MotionCorner = { supply: 'high', coil: 'cold', friction: 'high' };

export type MotionFound =
  | { readonly known: true; readonly motion: Motion }
  /** Held fast: no reading would help, the plunger does not get there at all. */
  | ({ readonly known: false; readonly isHeldFast: boolean } & NoMotion);

export interface MotionAsk {
  /** Relative error of a step; 1e-4 where only a few figures are wanted. */
  readonly tolerance?: number;
  readonly tracePoints?: number;
  /** s */
  readonly duration?: number;
  /** Taken in the place of what is fitted. */
  readonly suppression?: Suppression;
}

/** How long a pull is followed, s. */
const PULL_DURATION = 1.5;
/** How long a release is followed, s. */
export const RELEASE_WATCHED = 3;
/** Rebound speed over landing speed. Starting value of this program, no source: steel on steel with little between. */
export const RESTITUTION = 0.2;
/** Volts of a silicon diode with a coil's current in it; common practice, no source. */
export const DIODE_DROP = 0.9;
/** Volts across an opening contact that draws an arc, nothing being fitted; order of size only, no source. */
const ARC_VOLTS = 200;

/** Switched on from rest and left on. */
export function pullIn(rig: Rig, scene: Scene, corner: MotionCorner, ask: MotionAsk = {}): MotionFound {
  return follow(rig, scene, corner, 'pull-in', ask);
}

/** Held at home for long, then switched off. */
export function letGo(rig: Rig, scene: Scene, corner: MotionCorner, ask: MotionAsk = {}): MotionFound {
  return follow(rig, scene, corner, 'release', ask);
}

function follow(
  rig: Rig,
  scene: Scene,
  corner: MotionCorner,
  what: 'pull-in' | 'release',
  ask: MotionAsk,
): MotionFound {
  const load = loadOf(rig, scene, corner.friction, what);
  if (load === null)
    return {
      known: false,
      isHeldFast: true,
      because: 'The connection is held fast or comes apart on the way, so there is no motion to follow.',
      readings: [],
    };
  const magnetic = magnetOf(rig);
  if (!magnetic.known) return { ...magnetic, isHeldFast: false };
  const source = rig.job.means.map === undefined ? 'means.force' : 'means.map';
  const { homeGap, startGap } = scene.travel;
  const { magnet, turns } = magnetic;
  const circuit = circuitOf(rig, corner, what, turns, ask.suppression ?? suppressionOf(rig.job.supply.suppression));
  if (homeGap < magnet.leastGap - GAP_TOLERANCE || startGap > magnet.mostGap + GAP_TOLERANCE)
    return {
      known: false,
      isHeldFast: false,
      because: 'The pulls that are known do not cover the whole way of the plunger.',
      readings: [source],
    };
  if (mostAmpereTurnsOf(circuit) > magnet.mostAmpereTurns * (1 + 1e-9))
    return {
      known: false,
      isHeldFast: false,
      because: 'More current flows than any at which the pull is known.',
      readings: [source],
    };
  return {
    known: true,
    motion: motion({
      magnet,
      circuit,
      load,
      homeGap,
      outGap: startGap,
      startGap: what === 'pull-in' ? startGap : homeGap,
      startAt: what === 'pull-in' ? 'rest' : 'held at home',
      endSwitch: endSwitchOf(rig),
      restitution: RESTITUTION,
      offAt: what === 'pull-in' ? null : 0,
      duration: ask.duration ?? (what === 'pull-in' ? PULL_DURATION : RELEASE_WATCHED),
      tolerance: ask.tolerance ?? 1e-6,
      tracePoints: ask.tracePoints ?? 0,
    }),
  };
}

/** A magnet is believed so far beyond the gaps that it is known for, m: what lay between the faces when home was read. */
const GAP_TOLERANCE = 5e-5;

function circuitOf(
  rig: Rig,
  corner: MotionCorner,
  what: 'pull-in' | 'release',
  turns: Turns,
  suppression: Suppression,
): MotionCircuit {
  const { source, resistance } = rig.loopAt[what === 'pull-in' ? 'pull-in' : 'hold'][corner.supply];
  const { coil } = rig.job.means;
  const delay = coil.stages === 'timed economiser' ? valueOf(coil.delay, 'time') : NaN;
  return { source, loopResistance: resistance, stages: stagesOf(rig.coilAt[corner.coil], turns, delay), suppression };
}

function stagesOf(coil: CoilOhms, turns: Turns, delay: number): MotionStages {
  const winding = (resistance: number, count: number) => ({ turns: count, resistance });
  switch (coil.stages) {
    case 'single coil':
      return { kind: coil.stages, winding: winding(coil.resistance, turns.main) };
    case 'pull-in and hold windings':
      return { kind: coil.stages, pullIn: winding(coil.pullIn, turns.main), hold: winding(coil.hold, turns.hold) };
    case 'series resistor':
      return { kind: coil.stages, winding: winding(coil.resistance, turns.main), resistor: coil.resistor };
    case 'timed economiser':
      return { kind: coil.stages, winding: winding(coil.resistance, turns.main), holdShare: coil.holdShare, delay };
  }
}

/** The end switch as far as it acts on the current. */
function endSwitchOf({ endSwitch }: Rig): { worksAtGap: number; reclosesAtGap: number } | null {
  if (endSwitch === null) return null;
  const { worksAtGap, reclosesAtGap } = endSwitch;
  return { worksAtGap, reclosesAtGap: Math.max(reclosesAtGap, worksAtGap + 1e-6) };
}

/** What is fitted across the coil; what was not looked at is taken as nothing. */
export function suppressionOf(fitted: Job['supply']['suppression']): Suppression {
  if (typeof fitted === 'string') return { kind: 'none', arcVolts: ARC_VOLTS };
  switch (fitted.kind) {
    case 'diode':
      return { kind: 'diode', drop: DIODE_DROP };
    case 'diode and resistor':
      return { kind: 'diode and resistor', drop: DIODE_DROP, resistance: valueOf(fitted.resistance, 'resistance') };
    case 'zener':
      return { kind: 'zener', volts: valueOf(fitted.voltage, 'voltage') };
  }
}
