/**
 * Moments on the lever that resist the way home, in four corners: home and out, at low and at high friction. What was read is
 * looked up once for all of them.
 */
import { momentsReadInto } from '../physics/load.ts';
import { shaftSpringMoment } from '../physics/spring/torsion.ts';
import { leverSpringMoment } from '../physics/spring/working.ts';
import type { MechanicalRig } from './rig.ts';

/** Of a pair: low or high friction, weak or strong supply. */
export type End = 'low' | 'high';

/** Steady moment and friction of the four corners, until `reckonMoments` is asked again. */
export const moments = new Float64Array(8);
/** The rig and the shaft angle that they are of, and what was read there. */
let momentsOf: MechanicalRig | null = null;
const read = new Float64Array(3);

/** Where no moment passes: an over-travel spring has taken over. */
export function forgetMoments(): void {
  momentsOf = null;
  moments.fill(NaN);
}

/** Without friction, and friction alone, N m. */
export interface LeverMoments {
  readonly steady: number;
  readonly friction: number;
}

/** For pull-in the state of the engine that resists most, for the return the one that drives least. */
export function leverMoments(rig: MechanicalRig, shaftAngle: number, end: End, way: 'home' | 'out'): LeverMoments {
  reckonMoments(rig, shaftAngle);
  const at = momentAt(end, way);
  return { steady: moments[at], friction: moments[at + 1] };
}

// Where the steady moment of each corner stands among the eight; its friction follows it.
export const HOME_LOW = 0;
export const HOME_HIGH = 2;
export const OUT_LOW = 4;
export const OUT_HIGH = 6;

export function momentAt(end: End, way: 'home' | 'out'): number {
  return way === 'home' ? (end === 'low' ? HOME_LOW : HOME_HIGH) : end === 'low' ? OUT_LOW : OUT_HIGH;
}

/**
 * The moments of all four corners, into `moments`: what was read is looked up once for them all, and not again where the same
 * place of the same rig is asked about twice (a rig, once made, never changes).
 */
export function reckonMoments(rig: MechanicalRig, shaftAngle: number): void {
  if (rig === momentsOf && shaftAngle === read[0]) return;
  momentsOf = rig;
  read[0] = shaftAngle;
  const { efforts, readTowards, frictionFactor } = rig.lever;
  if (efforts === null) {
    moments.fill(NaN);
    return;
  }
  // The readings resist the way the balance moved the lever; home may be the other way.
  const resists = readTowards * (rig.toStop ? 1 : -1);
  for (let k = 0; k < efforts.length; k++) {
    momentsReadInto(efforts[k], shaftAngle, read, 1);
    const steady = resists * read[1];
    const low = frictionFactor.low * read[2];
    const high = frictionFactor.high * read[2];
    if (k === 0 || steady + low > moments[0] + moments[1]) {
      moments[0] = steady;
      moments[1] = low;
    }
    if (k === 0 || steady + high > moments[2] + moments[3]) {
      moments[2] = steady;
      moments[3] = high;
    }
    if (k === 0 || steady - low < moments[4] - moments[5]) {
      moments[4] = steady;
      moments[5] = low;
    }
    if (k === 0 || steady - high < moments[6] - moments[7]) {
      moments[6] = steady;
      moments[7] = high;
    }
  }
  const springs = springMoment(rig, shaftAngle);
  for (let at = 0; at < 8; at += 2) moments[at] += springs;
}

/** Moment of the springs on the lever that resists the way home, N m. */
export function springMoment(rig: MechanicalRig, shaftAngle: number): number {
  let moment = rig.trial.moment;
  for (const { lever } of rig.springs) if (lever !== null) moment -= rig.sense * leverSpringMoment(lever, shaftAngle);
  for (const { onShaft } of rig.shaftSprings) moment -= rig.sense * shaftSpringMoment(onShaft, shaftAngle);
  return moment;
}
