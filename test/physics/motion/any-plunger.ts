/** Plungers at random, and one plain one, for the properties and courses of motion. */
import * as fc from 'fast-check';
import type { MotionRequest, MotionStages, Suppression } from '../../../src/physics/motion/motion.ts';
import type { Magnet } from '../../../src/physics/solenoid/magnet.ts';
import { magnetOfReadings, magnetOfSurface } from '../../../src/physics/solenoid/magnet.ts';
import { forceTable } from '../../../src/physics/solenoid/table.ts';
import { printedSurface } from '../../published/motion-reference.ts';
import { load } from './plungers.ts';

const solved = magnetOfSurface(printedSurface());
export const homeGap = 0.1e-3;
export const outGap = 12e-3;

/** Pulls that fall from home, read at 1.9 A, in the turns of one. */
const read = magnetOfReadings(
  forceTable([{ current: 1.9, gaps: [0.1e-3, 1e-3, 3e-3, 6e-3, 9e-3, 12e-3], forces: [350, 74, 30, 14, 9.5, 7.3] }]),
);

export interface Given {
  readonly source: number;
  readonly hot: number;
  readonly loop: number;
  readonly preload: number;
  readonly rate: number;
  readonly friction: number;
  readonly mass: number;
  readonly viscous: number;
  readonly restitution: number;
  readonly isRead: boolean;
  readonly suppression: Suppression;
  readonly kind: MotionStages['kind'];
  readonly step: boolean;
}

export const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
export const suppressions: readonly Suppression[] = [
  { kind: 'none', arcVolts: 400 },
  { kind: 'diode', drop: 0.8 },
  { kind: 'diode and resistor', drop: 0.8, resistance: 20 },
  { kind: 'zener', volts: 47 },
];
export const given: fc.Arbitrary<Given> = fc.record({
  source: between(15, 26),
  hot: between(1, 1.5),
  loop: between(0, 1.5),
  preload: between(1, 5),
  rate: between(0, 400),
  friction: between(0, 1),
  mass: between(0.03, 0.2),
  viscous: between(0, 4),
  restitution: fc.constantFrom(0, 0, 0.3),
  isRead: fc.boolean(),
  suppression: fc.constantFrom(...suppressions),
  kind: fc.constantFrom('single coil', 'pull-in and hold windings', 'series resistor', 'timed economiser'),
  step: fc.boolean(),
});

function stagesOf({ kind, hot }: Given, turns: number): MotionStages {
  const winding = { turns, resistance: 11.7 * hot };
  switch (kind) {
    case 'single coil':
      return { kind, winding };
    case 'pull-in and hold windings':
      return {
        kind,
        pullIn: { turns: 0.6 * turns, resistance: 9 * hot },
        hold: { turns: 0.5 * turns, resistance: 30 * hot },
      };
    case 'series resistor':
      return { kind, winding, resistor: 20 };
    case 'timed economiser':
      return { kind, winding, holdShare: 0.5, delay: 0.15 };
  }
}

export function requestOf(of: Given, more: Partial<MotionRequest> = {}): MotionRequest {
  const magnet: Magnet = of.isRead ? read : solved;
  const spring = (gap: number): number => of.preload + of.rate * (outGap - gap);
  const row = (gap: number, extra: number, mass: number): [number, number, number, number] =>
    [gap, spring(gap) + extra + of.friction, spring(gap) + extra - of.friction, mass]; // prettier-ignore
  const rows = of.step
    ? [row(homeGap, 2, of.mass), row(2e-3, 2, of.mass), row(2e-3, 0, 1.3 * of.mass), row(outGap, 0, 1.3 * of.mass)]
    : [row(homeGap, 0, of.mass), row(outGap, 0, of.mass)];
  return {
    magnet,
    circuit: {
      source: of.source,
      loopResistance: of.loop,
      stages: stagesOf(of, of.isRead ? 1 : 1050),
      suppression: of.suppression,
    },
    load: load(rows, of.viscous),
    homeGap,
    outGap,
    startGap: outGap,
    startAt: 'rest',
    endSwitch: { worksAtGap: 0.8e-3, reclosesAtGap: 2.5e-3 },
    restitution: of.restitution,
    offAt: 0.25,
    duration: 0.5,
    ...more,
  };
}

/** Far from any usual plunger: loads that push home, springs that fall off, much friction, much bounce, started anywhere. */
export const wild: fc.Arbitrary<MotionRequest> = fc
  .record({
    of: given,
    preload: between(-4, 8),
    rate: between(-200, 800),
    friction: between(0, 5),
    restitution: fc.constantFrom(0, 0.2, 0.5, 0.9),
    startAt: fc.constantFrom<MotionRequest['startAt'][]>('rest', 'rest', 'held at home'),
    startGap: fc.oneof(fc.constantFrom(homeGap, 2e-3, outGap), between(homeGap, outGap)),
    endSwitch: fc.oneof(
      fc.constantFrom(null, { worksAtGap: homeGap, reclosesAtGap: 2e-4 }, { worksAtGap: 2e-3, reclosesAtGap: outGap }),
      fc.record({ worksAtGap: between(0, 3e-3), reclosesAtGap: between(3.1e-3, 13e-3) }),
    ),
    offAt: fc.oneof(fc.constantFrom(null, 0), between(0, 0.3)),
  })
  .map(({ of, preload, rate, friction, restitution, startAt, startGap, endSwitch, offAt }) =>
    requestOf({ ...of, preload, rate, friction, restitution }, { startAt: startAt, startGap, endSwitch, offAt }),
  );

export const plain: Given = {
  source: 24, hot: 1, loop: 0.8, preload: 3, rate: 250, friction: 0.2, mass: 0.09, viscous: 2, restitution: 0,
  isRead: false, suppression: { kind: 'diode', drop: 0.7 }, kind: 'single coil', step: false,
}; // prettier-ignore
