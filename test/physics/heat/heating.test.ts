/**
 * Heating of a coil against closed forms, against a plain integration of the same balances by another rule, and what must hold
 * for every coil: no heat lost from the books, hotter never later.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { COPPER_DENSITY, windingHeatCapacity } from '../../../src/physics/heat/coil-body.ts';
import { coilHeat, OFF, type CoilPower } from '../../../src/physics/heat/coil-power.ts';
import { heating } from '../../../src/physics/heat/heating.ts';
import { heatLost, stateAt, step, type Scene, type State } from '../../../src/physics/heat/nodes.ts';
import { CEILING, type HeatStage } from '../../../src/physics/heat/stages.ts';
import {
  anyBody,
  anyPower,
  anySurroundings,
  bracketOnly,
  celsius,
  engineSpace,
  held,
  holdWinding,
  stalled,
  usual,
} from './bodies.ts';

const near = (actual: number, expected: number, tolerance: number, what: string): void =>
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what}: ${actual}, expected ${expected} ± ${tolerance}`);

/** A winding that is as good as alone: nothing flows to a can that is as good as endless. */
const alone = bracketOnly({ windingHeatCapacity: 40, windingToCan: 1e-12, canHeatCapacity: 1e12, canToBracket: 0 });
const ZERO = 273.15 - 234.5;

test('no loss, constant current: the time of the logarithm', () => {
  // C dT/dt = I² r (T - T0) gives t = C/(I² r) ln((T - T0)/(Ts - T0)).
  const power: CoilPower = { drive: 'current', current: 30, winding: { resistance: 0.25, at: celsius(20) } };
  const start = celsius(60);
  const run = heating(alone, [{ duration: 1000, power, surroundings: engineSpace }], { winding: start, can: start });
  const perKelvin = 0.25 / (celsius(20) - ZERO);
  for (const { thermalClass, time } of run.passed) {
    const limit = celsius(thermalClass - 10);
    const expected = (40 / (900 * perKelvin)) * Math.log((limit - ZERO) / (start - ZERO));
    assert.ok(time !== null, `${thermalClass} is passed`);
    near(time, expected, 0.002 * expected, `class ${thermalClass}, s`);
  }
  assert.equal(run.ended, 'ceiling');
  near(run.end.winding, CEILING, 1e-6, 'the run ends at the ceiling');
});

test('no loss, volts behind a loop: the time of the quadratic', () => {
  // (r θ + Rl)²/(r θ) dθ = U²/C dt, θ = T - T0: t U²/C = r θ²/2 + 2 Rl θ + (Rl²/r) ln θ between start and limit.
  const run = heating(alone, [{ duration: 600, power: stalled, surroundings: engineSpace }], {
    winding: celsius(20),
    can: celsius(20),
  });
  const r = 0.25 / (celsius(20) - ZERO);
  const primitive = (θ: number): number => (r * θ * θ) / 2 + 2 * 0.05 * θ + (0.05 ** 2 / r) * Math.log(θ);
  for (const { thermalClass, time } of run.passed) {
    const expected = (40 / 14 ** 2) * (primitive(celsius(thermalClass - 10) - ZERO) - primitive(celsius(20) - ZERO));
    assert.ok(time !== null, `${thermalClass} is passed`);
    near(time, expected, 0.002 * expected, `class ${thermalClass}, s`);
  }
});

test('a can that stays cold: first-order rise with the resistance rising', () => {
  // C dT/dt = I² r (T - T0) - G (T - Tc) is a straight line in T.
  const body = { ...alone, windingToCan: 0.8 };
  const power: CoilPower = { drive: 'current', current: 1, winding: holdWinding };
  const [start, cold, C, G] = [celsius(20), celsius(20), 40, 0.8];
  const p = 12.2 / (celsius(20) - ZERO);
  const rest = (G * cold - p * ZERO) / (G - p);
  for (const duration of [1, 30, 300, 3000]) {
    const run = heating(body, [{ duration, power, surroundings: engineSpace }], { winding: start, can: cold });
    const expected = rest + (start - rest) * Math.exp((-(G - p) / C) * duration);
    near(run.end.winding, expected, 0.03, `after ${duration} s`);
    assert.equal(run.end.time, duration);
  }
});

test('a warming bracket is followed as its own closed form says', () => {
  // One body on a bracket that warms by a straight line: T = Tb(t) - sτ + (T0 - Tb0 + sτ) e^(-t/τ).
  const body = bracketOnly({ windingHeatCapacity: 1e-3, windingToCan: 1e3, canHeatCapacity: 300, canToBracket: 0.5 });
  const [warm, hot] = [celsius(60), celsius(110)];
  const stage: HeatStage = {
    duration: 1800,
    power: OFF,
    surroundings: { air: warm, bracket: warm },
    bracketCourse: [
      [0, warm],
      [600, hot],
    ],
  };
  const slope = 50 / 600;
  const lag = 300 / 0.5;
  const at600 = hot - slope * lag + slope * lag * Math.exp(-600 / lag);
  const at1800 = hot + (at600 - hot) * Math.exp(-1200 / lag);
  const run = heating(body, [stage], { winding: warm, can: warm });
  near(run.end.can, at1800, 0.05, 'after half an hour');
  const corner = run.trace.time.indexOf(600);
  assert.ok(corner > 0, 'the corner of the course is a point of the trace');
  near(run.trace.can[corner], at600, 0.05, 'at the corner');
});

/** The classic rule of Runge and Kutta with fixed steps. */
function classic(scene: Scene, w0: number, c0: number, duration: number, steps: number): readonly [number, number] {
  let [w, c] = [w0, c0];
  const h = duration / steps;
  const { body, power, surroundings } = scene;
  const slopes = (a: number, b: number): readonly [number, number] => [
    (coilHeat(power, a) - body.windingToCan * (a - b)) / body.windingHeatCapacity,
    (body.windingToCan * (a - b) - heatLost(body, surroundings, b)) / body.canHeatCapacity,
  ];
  for (let i = 0; i < steps; i++) {
    const k1 = slopes(w, c);
    const k2 = slopes(w + (h / 2) * k1[0], c + (h / 2) * k1[1]);
    const k3 = slopes(w + (h / 2) * k2[0], c + (h / 2) * k2[1]);
    const k4 = slopes(w + h * k3[0], c + h * k3[1]);
    w += (h / 6) * (k1[0] + 2 * k2[0] + 2 * k3[0] + k4[0]);
    c += (h / 6) * (k1[1] + 2 * k2[1] + 2 * k3[1] + k4[1]);
  }
  return [w, c];
}

test('any coil agrees with the classic rule of fixed small steps', () => {
  fc.assert(
    fc.property(anyBody, anyPower, anySurroundings, (body, power, surroundings) => {
      const start = surroundings.air;
      const run = heating(body, [{ duration: 900, power, surroundings }], { winding: start, can: start });
      const [w, c] = classic({ body, power, surroundings, bracketSlope: 0 }, start, start, run.end.time, 3000);
      // A run that was broken off is compared at its own end; there it is as far off as its time is.
      near(run.end.winding, w, 0.15, 'winding');
      near(run.end.can, c, 0.15, 'can');
    }),
    { seed: 6001, numRuns: 60 },
  );
});

test('the step is of third order, with a warming bracket too', () => {
  const scene: Scene = { body: usual, power: stalled, surroundings: engineSpace, bracketSlope: 0.3 };
  const after = (steps: number): State => {
    let at = stateAt(scene, 0, celsius(20), celsius(35));
    for (let i = 0; i < steps; i++) at = step(scene, at, 40 / steps).to;
    return at;
  };
  const truth = after(2048);
  const error = (steps: number): number =>
    Math.hypot(after(steps).winding - truth.winding, after(steps).can - truth.can);
  for (const steps of [16, 32]) {
    const order = Math.log2(error(steps) / error(2 * steps));
    assert.ok(order > 2.7 && order < 3.6, `order ${order} from ${steps} to ${2 * steps} steps`);
  }
});

test('a finer tolerance comes closer', () => {
  // The largest error of several moments: one alone may be right by chance.
  const moments = [7, 31, 90, 260, 700, 1900];
  const ends = (tolerance: number): readonly number[] =>
    moments.map(
      (duration) =>
        heating(
          usual,
          [{ duration, power: duration < 60 ? stalled : held, surroundings: engineSpace }],
          { winding: celsius(20), can: celsius(20) },
          { tolerance },
        ).end.winding,
    );
  const truth = ends(1e-6);
  const [coarse, common, fine] = [0.3, 0.01, 1e-4].map((tolerance) =>
    Math.max(...ends(tolerance).map((end, i) => Math.abs(end - truth[i]))),
  );
  assert.ok(fine < common && common < coarse, `${coarse}, ${common}, ${fine} K`);
  assert.ok(common < 0.05, `${common} K with the tolerance that is used`);
});

test('heat made is stored or lost, within a thousandth', () => {
  fc.assert(
    fc.property(anyBody, anyPower, anySurroundings, (body, power, surroundings) => {
      const { energy } = heating(
        body,
        [
          { duration: 20, power, surroundings },
          { duration: 600, power: OFF, surroundings },
        ],
        { winding: surroundings.air, can: surroundings.air },
      );
      const turned = energy.made + Math.abs(energy.toBracket) + Math.abs(energy.toAirAndWalls);
      assert.ok(Math.abs(energy.rest) < 1e-3 * turned, `${energy.rest} J of ${turned} J`);
    }),
    { seed: 6002, numRuns: 200 },
  );
  const { energy } = heating(usual, [{ duration: 3600, power: held, surroundings: engineSpace }], {
    winding: celsius(50),
    can: celsius(50),
  });
  assert.ok(Math.abs(energy.rest) < 1e-3 * energy.made, `an hour of hold: ${energy.rest} J of ${energy.made} J`);
});

const order = (a: number | null, b: number | null): number => (a ?? Infinity) - (b ?? Infinity);

test('hotter air, hotter bracket, more volts, warmer start: no class is passed later', () => {
  const more = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(anyBody, anyPower, anySurroundings, more, fc.nat(3), (body, power, surroundings, by, which) => {
      const start = surroundings.air;
      const passed = (p: CoilPower, s: typeof surroundings, from: number): readonly (number | null)[] =>
        heating(body, [{ duration: 900, power: p, surroundings: s }], { winding: from, can: from }).passed.map(
          ({ time }) => time,
        );
      const before = passed(power, surroundings, start);
      const after = [
        () => passed(power, { ...surroundings, air: surroundings.air + 20 * by }, start),
        () => passed(power, { ...surroundings, bracket: surroundings.bracket + 20 * by }, start),
        () => passed({ ...power, source: power.source * (1 + by) }, surroundings, start),
        () => passed(power, surroundings, start + 20 * by),
      ][which]();
      before.forEach((time, i) => {
        // Both times carry the error of their integration.
        const slack = time === null ? Infinity : 0.5 + 0.005 * time;
        if (after[i] === null && time !== null && time > 890) return;
        assert.ok(!(order(after[i], time) > slack), `${time} s became ${after[i]} s`);
      });
    }),
    { seed: 6003, numRuns: 200 },
  );
});

test('after the engine has stopped the can goes on warming, and its peak is told', () => {
  const soak: HeatStage = {
    duration: 7200,
    power: OFF,
    surroundings: { air: celsius(60), walls: celsius(75), bracket: celsius(95) },
    bracketCourse: [
      [0, celsius(80)],
      [600, celsius(105)],
      [7200, celsius(50)],
    ],
  };
  const run = heating({ ...usual, canToBracket: 0.6 }, [soak], { winding: celsius(60), can: celsius(60) });
  const { winding, can } = run.greatest;
  assert.ok(can.time > 600 && can.time < 5000, `the can is hottest at ${can.time} s, after its bracket`);
  assert.ok(winding.time > can.time, `the winding follows the can: ${winding.time} s after ${can.time} s`);
  assert.ok(winding.temperature < can.temperature, `${winding.temperature} K stays below ${can.temperature} K`);
  assert.ok(can.temperature > Math.max(...run.trace.can) - 1e-9, 'no point of the trace is hotter than the peak');
  assert.ok(can.temperature < Math.max(...run.trace.can) + 0.5, 'and one is nearly as hot');
  // Steps so short that the highest of their ends is the peak.
  const fine = heating(
    { ...usual, canToBracket: 0.6 },
    [soak],
    { winding: celsius(60), can: celsius(60) },
    { tolerance: 1e-7 },
  );
  for (const node of ['winding', 'can'] as const) {
    const top = Math.max(...fine.trace[node]);
    near(run.greatest[node].temperature, top, 0.03, `peak of the ${node}`);
    near(
      run.greatest[node].time,
      fine.trace.time[fine.trace[node].indexOf(top)],
      10,
      `time of the peak of the ${node}`,
    );
  }
});

test('a limit that is passed inside a step is passed, and what was hot at the start was passed at zero', () => {
  const stages: HeatStage[] = [
    { duration: 1, power: stalled, surroundings: engineSpace },
    { duration: 600, power: OFF, surroundings: engineSpace },
  ];
  const run = heating(usual, stages, { winding: celsius(100), can: celsius(60) });
  assert.equal(run.passed[0].time, 0, 'class 90 less 10 K');
  assert.equal(run.passed[1].time, 0, 'class 105 less 10 K');
  for (const { thermalClass, time } of run.passed) {
    const reached = run.greatest.winding.temperature >= celsius(thermalClass - 10);
    assert.equal(time !== null, reached, `class ${thermalClass}`);
  }
});

test('copper alone, one gram a square millimetre and nothing lost, warms by J²/200 a second', () => {
  // What the table of sources calls a rule of thumb, here from the bodies themselves.
  const volume = 1e-6;
  const body = { ...alone, windingHeatCapacity: windingHeatCapacity(volume * COPPER_DENSITY, 0) };
  const power: CoilPower = { drive: 'current', current: 10, winding: { resistance: 0.017241, at: celsius(20) } };
  const run = heating(body, [{ duration: 1, power, surroundings: engineSpace }], {
    winding: celsius(20),
    can: celsius(20),
  });
  near(run.end.winding - celsius(20), 100 / 200, 0.005, 'K in the first second');
});

test('the trace is told in rising time, with values that end where the run ends', () => {
  const run = heating(usual, [{ duration: 3600, power: stalled, surroundings: engineSpace }], {
    winding: celsius(-20),
    can: celsius(-20),
  });
  const { time, winding, can } = run.trace;
  assert.equal(time.length, winding.length);
  assert.equal(time.length, can.length);
  time.forEach((t, i) => assert.ok(i === 0 || t > time[i - 1], `${t} s after ${time[i - 1]} s`));
  assert.deepEqual({ time: time.at(-1), winding: winding.at(-1), can: can.at(-1) }, run.end);
  assert.ok(time.length > 40 && time.length < 500, `${time.length} points`);
});
