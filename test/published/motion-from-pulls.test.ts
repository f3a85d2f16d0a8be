/**
 * How far a pull-in comes out when a solenoid is known by pulls alone: tables are read off the finite-element reference, and
 * the motion that they give stands beside the motion on the reference's own map.
 *
 * Sources: data/plunger-solenoid-map.json with data/plunger-solenoid-transient.json (see motion-reference.ts), and the four
 * solenoids of data/plunger-solenoid-field.json, computed for this project with a general-purpose finite-element program. The
 * transients of the four are our own, on a surface through the reference's points. Bounds are what was found, rounded up.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { motion, type Motion, type MotionRequest } from '../../src/physics/motion/motion.ts';
import { coEnergySurface, type GridLine } from '../../src/physics/solenoid/field/co-energy-surface.ts';
import { magnetOfReadings, magnetOfSurface, type Magnet } from '../../src/physics/solenoid/magnet.ts';
import { forceTable } from '../../src/physics/solenoid/table.ts';
import { load } from '../physics/motion/plungers.ts';
import { referenceRequest, transient } from './motion-reference.ts';
import { referenceCases, type ReferenceCase } from './solenoid-reference.ts';

/** Greatest departures: landing time and speed as shares, the dip as a share of the steady current. */
interface Bounds {
  readonly time: number;
  readonly speed: number;
  readonly dip: number;
}

function compare(
  found: Motion,
  truth: { time: number; speed: number; dip: number; steady: number },
  bounds: Bounds,
  what: string,
): void {
  const { timeToHome, landingSpeed, dip, converged } = found;
  assert.ok(converged && timeToHome !== null && landingSpeed !== null && dip !== null, `${what}: it comes home`);
  const off = {
    time: timeToHome / truth.time - 1,
    speed: landingSpeed / truth.speed - 1,
    dip: (dip.current - truth.dip) / truth.steady,
  };
  for (const name of ['time', 'speed', 'dip'] as const)
    assert.ok(Math.abs(off[name]) <= bounds[name], `${what}: ${name} off by ${off[name]}, allowed ${bounds[name]}`);
}

/** Pulls read off a magnet, in the turns of one. */
function tableOf(magnet: Magnet, gaps: readonly number[], levels: readonly number[], turns: number, error = 0): Magnet {
  return magnetOfReadings(
    forceTable(
      levels.map((level, n) => ({
        current: level / turns,
        gaps,
        // Read too high and too low in turn.
        forces: gaps.map((gap, k) => magnet.at(gap, level).force * (1 + ((n + k) % 2 === 0 ? error : -error))),
      })),
    ),
  );
}

test('the reference transient from eight pulls at one, two and three currents', () => {
  const request = referenceRequest();
  const { turns, coil_ohm } = transient.parameters;
  const gaps = [0.1, 0.5, 1, 2, 3, 5, 8, 12].map((gap) => gap * 1e-3);
  const truth = {
    time: transient.t_landing_ms * 1e-3,
    speed: transient.landing_speed_m_per_s,
    dip: transient.current_dip_minimum.i_A,
    steady: transient.final_current_A,
  };
  const run = (levels: readonly number[], bounds: Bounds): void =>
    compare(
      motion({
        ...request,
        magnet: tableOf(request.magnet, gaps, levels, turns),
        circuit: { ...request.circuit, stages: { kind: 'single coil', winding: { turns: 1, resistance: coil_ohm } } },
      }),
      truth,
      bounds,
      `pulls at ${levels.join(', ')} ampere-turns`,
    );
  // One current says nothing of how the seat saturates.
  run([2400], { time: 0.035, speed: 0.14, dip: 0.21 });
  run([1200, 2400], { time: 0.032, speed: 0.045, dip: 0.01 });
  run([1000, 2000], { time: 0.032, speed: 0.045, dip: 0.01 });
  run([600, 1200, 2400], { time: 0.032, speed: 0.045, dip: 0.01 });
  run([800, 1600, 2400], { time: 0.032, speed: 0.045, dip: 0.01 });
});

/** The map of one solenoid, and its pull-in on 24 V against a spring of a third of the pull at full stroke. */
function caseOf({ gaps, points, ampereTurns }: ReferenceCase): {
  magnet: Magnet;
  requestOf: (magnet: Magnet, turns: number) => MotionRequest;
} {
  const none = 1e-3;
  const lines = gaps.map((gap): GridLine => {
    const own = points.filter((point) => point.gap === gap);
    const [{ coEnergy, fluxLinkage, force }] = own as [(typeof own)[0]];
    const first = { coEnergy: coEnergy * none ** 2, fluxLinkage: fluxLinkage * none, force: force * none ** 2 };
    return { gap, ampereTurns: [none * (ampereTurns[0] ?? NaN), ...ampereTurns], points: [first, ...own] };
  });
  const magnet = magnetOfSurface(coEnergySurface(lines));
  const [homeGap, outGap] = [magnet.leastGap, magnet.mostGap];
  const most = ampereTurns[3] ?? NaN;
  const spring = 0.3 * magnet.at(outGap, most).force;
  const ohms = (24 * TURNS) / most;
  const requestOf = (of: Magnet, turns: number): MotionRequest => ({
    magnet: of,
    circuit: {
      source: 24,
      loopResistance: 0.06 * ohms,
      stages: { kind: 'single coil', winding: { turns, resistance: 0.94 * ohms } },
      suppression: { kind: 'diode', drop: 0.7 },
    },
    load: load([[homeGap, 1.3 * spring, 1.2 * spring], [outGap, spring, 0.9 * spring]], 2), // prettier-ignore
    homeGap,
    outGap,
    startGap: outGap,
    startAt: 'rest',
    endSwitch: null,
    restitution: 0,
    offAt: null,
    duration: 1,
  });
  return { magnet, requestOf };
}
const TURNS = 800;

test('four solenoids of different form and size, from pulls at their own gaps, exact and 3 % off', () => {
  for (const one of referenceCases) {
    const { magnet, requestOf } = caseOf(one);
    const map = motion(requestOf(magnet, TURNS));
    const truth = {
      time: map.timeToHome ?? NaN,
      speed: map.landingSpeed ?? NaN,
      dip: map.dip?.current ?? NaN,
      steady: map.peakCurrent,
    };
    const run = (places: readonly number[], error: number, bounds: Bounds): void => {
      const levels = places.map((k) => one.ampereTurns[k] ?? NaN);
      const found = motion(requestOf(tableOf(magnet, one.gaps, levels, TURNS, error), 1));
      compare(found, truth, bounds, `${one.name}, pulls at ${levels.join(', ')} ampere-turns, ${error} off`);
    };
    for (const error of [0, 0.03]) {
      run([3], error, { time: 0.035, speed: 0.2, dip: 0.25 });
      for (const places of [[2, 3], [1, 3], [1, 2, 3]]) run(places, error, { time: 0.05, speed: 0.045, dip: 0.03 }); // prettier-ignore
    }
  }
});
