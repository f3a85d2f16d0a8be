/** Plungers, magnets and circuits for the tests of motion: small ones whose truth is known by other means. */
import type { MotionCircuit, MotionLoad, MotionRequest, Suppression } from '../../../src/physics/motion/motion.ts';
import { magnetOf, type Magnet } from '../../../src/physics/solenoid/magnet-form.ts';

/** A coil without a plunger: constant inductance per turn squared, no force. */
export function coilAlone(inductance: number): Magnet {
  return magnetOf({
    leastGap: 0,
    mostGap: 1,
    mostAmpereTurns: 1e6,
    approximation: null,
    evaluate(_gap, level, into) {
      into.coEnergy = 0.5 * inductance * level * level;
      into.fluxLinkage = inductance * level;
      into.force = 0;
      into.fluxByAmpereTurns = inductance;
      into.fluxByGap = 0;
    },
  });
}

/** Permeance p0 + c/(g + d), unsaturated; its slopes by hand, so that tests can use them apart from the magnet. */
export interface AirGap {
  readonly p0: number;
  readonly c: number;
  readonly d: number;
}

export const permeance = ({ p0, c, d }: AirGap, gap: number): number => p0 + c / (gap + d);
export const permeanceSlope = ({ c, d }: AirGap, gap: number): number => -c / (gap + d) ** 2;

export function airGapMagnet(of: AirGap, mostGap = 0.05): Magnet {
  return magnetOf({
    leastGap: 0,
    mostGap,
    mostAmpereTurns: 1e5,
    approximation: null,
    evaluate(gap, level, into) {
      const [p, slope] = [permeance(of, gap), permeanceSlope(of, gap)];
      into.coEnergy = 0.5 * p * level * level;
      into.fluxLinkage = p * level;
      into.force = -0.5 * slope * level * level;
      into.fluxByAmpereTurns = p;
      into.fluxByGap = slope * level;
    },
  });
}

/** Straight lines between the given gaps. */
export function load(
  rows: readonly (readonly [gap: number, home: number, out: number, mass?: number])[],
  viscous = 0,
): MotionLoad {
  return {
    gaps: Float64Array.from(rows, ([gap]) => gap),
    home: Float64Array.from(rows, ([, home]) => home),
    out: Float64Array.from(rows, ([, , out]) => out),
    mass: Float64Array.from(rows, ([, , , mass = 0.1]) => mass),
    viscous,
  };
}

export function oneCoil(
  source: number,
  resistance: number,
  turns: number,
  more: { loop?: number; suppression?: Suppression } = {},
): MotionCircuit {
  return {
    source,
    loopResistance: more.loop ?? 0,
    stages: { kind: 'single coil', winding: { turns, resistance } },
    suppression: more.suppression ?? { kind: 'diode', drop: 0.7 },
  };
}

/** A plunger that nothing moves: for currents alone. */
export function stuck(magnet: Magnet, circuit: MotionCircuit, more: Partial<MotionRequest> = {}): MotionRequest {
  return {
    magnet,
    circuit,
    load: load([
      [0, 1e4, -1e4],
      [0.01, 1e4, -1e4],
    ]),
    homeGap: 0,
    outGap: 0.01,
    startGap: 0.01,
    startAt: 'rest',
    endSwitch: null,
    restitution: 0,
    offAt: null,
    duration: 1,
    ...more,
  };
}

/** A plunger that a load alone moves: the coil has no force and next to no current. */
export function unmagnetic(of: MotionLoad, more: Partial<MotionRequest> = {}): MotionRequest {
  return { ...stuck(coilAlone(0.01), oneCoil(1e-3, 1, 1)), load: of, ...more };
}

/** Value of a trace's column at a time, on the straight line between its points. */
export function at(time: Float64Array, column: Float64Array, when: number): number {
  const k = Math.max(
    1,
    time.findIndex((t) => t >= when),
  );
  const share = time[k] === time[k - 1] ? 1 : (when - time[k - 1]) / (time[k] - time[k - 1]);
  return column[k - 1] + share * (column[k] - column[k - 1]);
}
