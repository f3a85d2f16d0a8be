/** Flow, chambers and piston against closed forms, limits and balances that use none of the formulas tested. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  areasOf,
  forceHome,
  forceOutByAir,
  pressureFor,
  stopsFrom,
  type Cylinder,
} from '../../../src/physics/air/cylinder.ts';
import { flowCurve, inSeries, pipe } from '../../../src/physics/air/flow.ts';
import { ATMOSPHERE, delayInPipe, GAS_CONSTANT, massIn, REFERENCE_DENSITY } from '../../../src/physics/air/gas.ts';
import { stroke, type StrokeAsk } from '../../../src/physics/air/stroke.ts';

const cylinder: Cylinder = {
  action: 'pull',
  bore: 0.025,
  rod: 0.01,
  stroke: 0.04,
  efficiency: 0.9,
  drag: 4,
  deadVolume: 2e-5,
};

function load(home: (gap: number) => number, out = home, mass = 0.4) {
  const gaps = Float64Array.from({ length: 17 }, (_, i) => (0.04 * i) / 16);
  return { gaps, home: gaps.map(home), out: gaps.map(out), mass: new Float64Array(17).fill(mass), viscous: 0 };
}

const usual: StrokeAsk = {
  cylinder,
  load: load(() => 60),
  way: { homeGap: 0, outGap: 0.04 },
  towards: 'home',
  supply: 5e5,
  temperature: 300,
  inlet: flowCurve({ conductance: 1.2e-8, criticalRatio: 0.3 }),
  exhaust: flowCurve({ conductance: 0.8e-8, criticalRatio: 0.3 }),
  returnsByAir: false,
  process: 'isothermal',
  duration: 1,
};

const close = (actual: number, expected: number, share: number, what: string) =>
  assert.ok(Math.abs(actual - expected) <= share * Math.abs(expected), `${what}: ${actual}, not ${expected}`);

test('a chamber that empties while choked falls as a closed form has it', () => {
  const held = {
    ...usual,
    load: load(
      () => 1e6,
      () => -1e6,
    ),
    towards: 'out' as const,
    supply: 3e6,
    tracePoints: 201,
  };
  const { home } = areasOf(cylinder);
  const volume = cylinder.deadVolume + home * cylinder.stroke;
  const C = 0.8e-8;
  // Isothermal: exponential; adiabatic: (1 + (κ-1)/2 t/τ)^(-2κ/(κ-1)), τ = m/ṁ at the beginning.
  const p0 = 3e6 + ATMOSPHERE;
  const outflow = C * REFERENCE_DENSITY * p0 * Math.sqrt(293.15 / 300);
  const time = massIn(volume, p0, 300) / outflow;
  const forms = {
    isothermal: (t: number) => Math.exp(-t / time),
    adiabatic: (t: number) => (1 + 0.2 * (t / time)) ** -7,
  };
  for (const process of ['isothermal', 'adiabatic'] as const) {
    const { trace } = stroke({ ...held, process, duration: 0.15, tolerance: 1e-8 });
    let seen = 0;
    trace!.time_s.forEach((t, i) => {
      const p = trace!.home_Pa[i] + ATMOSPHERE;
      if (ATMOSPHERE / p > 0.3) return;
      seen++;
      close(p / p0, forms[process](t), 1e-6, `${process} after ${t} s`);
    });
    assert.ok(seen > 50, `${seen} points while choked`);
  }
});

test('an insulated empty vessel that is filled ends hotter by the ratio of heat capacities', () => {
  // From nothing it would be 1.4 T; from one atmosphere: κ T / (1 + (κ - 1)...) by the first law: m T = m0 T0 + κ Tin (m - m0).
  const { home } = areasOf(cylinder);
  const volume = cylinder.deadVolume + home * 0.0001;
  const held = {
    ...usual,
    way: { homeGap: 0.0399, outGap: 0.04 },
    load: load(
      () => 1e6,
      () => -1e6,
    ),
    supply: 5e6,
    process: 'adiabatic' as const,
    duration: 1,
    tolerance: 1e-9,
  };
  const { massTaken, homeAtEnd } = stroke(held);
  const first = massIn(cylinder.deadVolume, ATMOSPHERE, 300);
  const temperature = ((homeAtEnd + ATMOSPHERE) * cylinder.deadVolume) / ((first + massTaken) * GAS_CONSTANT);
  close((first + massTaken) * temperature, first * 300 + 1.4 * 300 * massTaken, 1e-6, 'first law');
  assert.ok(temperature > 1.37 * 300 && temperature < 1.4 * 300, `${temperature} K in ${volume} m³`);
});

test('work of the air goes into the load, the seals and the motion, and its mass is kept', () => {
  for (const process of ['isothermal', 'adiabatic'] as const)
    for (const returnsByAir of [false, true]) {
      const pushed = load((gap) => 40 + 1200 * (0.04 - gap));
      const found = stroke({ ...usual, load: pushed, process, returnsByAir, tracePoints: 4001, duration: 0.08 });
      const areas = areasOf(cylinder);
      const { time_s, gap_m, speed_m_s, home_Pa, out_Pa } = found.trace!;
      const last = time_s.findIndex((t) => t >= found.arrivesAt!) - 1;
      let work = 0;
      for (let i = 1; i <= last; i++) {
        const power = (j: number) => {
          const [a, b] = [home_Pa[j] * areas.home, out_Pa[j] * areas.out];
          const rub = Math.max(4, 0.1 * (Math.abs(a) + Math.abs(b)));
          return (a - b - rub - 40 - 1200 * (0.04 - gap_m[j])) * speed_m_s[j];
        };
        work += ((power(i) + power(i - 1)) / 2) * (time_s[i] - time_s[i - 1]);
      }
      close(work, 0.2 * speed_m_s[last] ** 2, 2e-3, `${process} ${returnsByAir}: work into motion`);
      const taken = massIn(cylinder.deadVolume + areas.home * 0.04, found.homeAtEnd + ATMOSPHERE, 300);
      if (process === 'isothermal')
        close(found.massTaken, taken - massIn(cylinder.deadVolume, ATMOSPHERE, 300), 1e-4, 'mass');
    }
});

test('slow air moves the piston when the pressure is enough, and it creeps home as fast as air comes in', () => {
  // Choked, against a load that does not change: p stays at P/A, so A v p/(R T) = ṁ.
  const inlet = flowCurve({ conductance: 2e-11, criticalRatio: 0.3 });
  const found = stroke({
    ...usual,
    inlet,
    supply: 9e5,
    duration: 60,
    tracePoints: 601,
    load: load(
      () => 60,
      () => 60,
      0.01,
    ),
  });
  const areas = areasOf(cylinder);
  const needed = pressureFor(cylinder, 60);
  const flow = 2e-11 * REFERENCE_DENSITY * (9e5 + ATMOSPHERE) * Math.sqrt(293.15 / 300);
  const volume = cylinder.deadVolume;
  close(found.startsAt!, massIn(volume, needed, 300) / flow, 2e-3, 'start, s');
  const crossing = massIn(areas.home * 0.04, needed + ATMOSPHERE, 300) / flow;
  close(found.arrivesAt! - found.startsAt!, crossing, 1e-2, 'way, s');
});

test('too little air does not move it, and a load that grows stops it on the way', () => {
  const weak = stroke({ ...usual, supply: pressureFor(cylinder, 60) * 0.999, duration: 3 });
  assert.equal(weak.startsAt, null, 'one thousandth too little');
  const strong = stroke({ ...usual, supply: pressureFor(cylinder, 60) * 1.001, duration: 30 });
  assert.ok(strong.startsAt !== null && strong.arrivesAt !== null, 'one thousandth more than needed');
  const growing = stroke({ ...usual, supply: 3e5, load: load((gap) => 20 + 8000 * (0.04 - gap)), duration: 3 });
  assert.equal(growing.arrivesAt, null, 'the load outgrows the air');
  assert.ok(growing.gapAtEnd > 0.005 && growing.gapAtEnd < 0.035, `stands at ${growing.gapAtEnd} m`);
});

test('let go, a spring brings it out when the air has left, and without a spring it stays', () => {
  const spring = load(
    (gap) => 60 + 1500 * (0.04 - gap),
    (gap) => 50 + 1500 * (0.04 - gap),
  );
  const back = stroke({ ...usual, load: spring, towards: 'out' });
  assert.ok(back.startsAt! > 0 && back.arrivesAt! > back.startsAt!, 'comes out');
  // It starts when p A - friction falls below what drives it out.
  const stays = stroke({
    ...usual,
    load: load(
      () => 20,
      () => -1,
    ),
    towards: 'out',
    duration: 3,
  });
  assert.equal(stays.startsAt, null, 'stays home');
  assert.ok(Math.abs(stays.homeAtEnd) < 100, `the air has left: ${stays.homeAtEnd} Pa`);
  const byAir = stroke({
    ...usual,
    load: load(
      () => 20,
      () => -1,
    ),
    towards: 'out',
    returnsByAir: true,
    duration: 3,
  });
  assert.ok(byAir.arrivesAt !== null, 'air brings it out');
});

test('less way for the air, a narrower exhaust and a longer pipe never make it quicker', () => {
  const time = (ask: Partial<StrokeAsk>) => stroke({ ...usual, returnsByAir: true, ...ask, duration: 20 }).arrivesAt!;
  const valve = { conductance: 1.2e-8, criticalRatio: 0.3 };
  const lengths = [0.5, 2, 6, 20].map((length) => time({ inlet: inSeries([valve, pipe(0.004, length)]) }));
  assert.deepEqual(
    lengths,
    lengths.toSorted((a, b) => a - b),
    'pipe',
  );
  const exhausts = [2e-8, 1e-8, 3e-9, 1e-9].map((conductance) =>
    time({ exhaust: flowCurve({ conductance, criticalRatio: 0.3 }) }),
  );
  assert.deepEqual(
    exhausts,
    exhausts.toSorted((a, b) => a - b),
    'exhaust',
  );
  assert.ok(exhausts[3] > 3 * exhausts[0], `a choked exhaust decides: ${exhausts.join(', ')}`);
});

test('flow through several in a row is what the pressures between them say', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.record({
          conductance: fc.double({ min: 1e-9, max: 1e-7, noNaN: true }),
          criticalRatio: fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        }),
        { minLength: 1, maxLength: 4 },
      ),
      fc.double({ min: 0.01, max: 0.997, noNaN: true }),
      (list, ratio) => {
        const whole = inSeries(list);
        // Follow the pressure down at a flow; the flow that ends at the ratio, or the greatest there is, by halving.
        const behind = (flow: number) =>
          list.reduce((p, { conductance: C, criticalRatio: b }) => {
            const share = flow / (p * C);
            return share > 1 ? 0 : p * (b + (1 - b) * Math.sqrt(1 - share * share));
          }, 1);
        let [low, high] = [0, 1e-7];
        for (let i = 0; i < 80; i++) {
          const middle = (low + high) / 2;
          if (behind(middle) > ratio) low = middle;
          else high = middle;
        }
        close(whole.at(ratio), low, 2e-4, `flow at ${ratio}`);
      },
    ),
    { seed: 6358, numRuns: 300 },
  );
});

test('force and pressure undo each other, and a rod takes its share of the area', () => {
  for (const force of [1, 20, 60, 300]) close(forceHome(cylinder, pressureFor(cylinder, force)), force, 1e-12, 'force');
  const push: Cylinder = { ...cylinder, action: 'push' };
  close(forceHome(push, 5e5), 0.9 * 5e5 * (Math.PI / 4) * 0.025 ** 2, 1e-12, 'whole bore');
  close(forceOutByAir(push, 5e5), 0.9 * 5e5 * (Math.PI / 4) * (0.025 ** 2 - 0.01 ** 2), 1e-12, 'ring');
  close(delayInPipe(34.8, 300), 0.1, 0.01, 'a wave goes some 348 m in a second');
  assert.equal(stopsFrom(cylinder, false, usual.way, 1, 1e5, 2e5), 0, 'too little from the beginning');
});

test('what has no meaning is refused', () => {
  const codes: [() => unknown, string][] = [
    [() => flowCurve({ conductance: 0, criticalRatio: 0.3 }), 'SW-D080'],
    [() => flowCurve({ conductance: 1e-8, criticalRatio: 1 }), 'SW-D080'],
    [() => inSeries([]), 'SW-D080'],
    [() => pipe(0, 1), 'SW-D081'],
    [() => pipe(0.004, -1), 'SW-D081'],
    [() => areasOf({ ...cylinder, rod: 0.03 }), 'SW-D082'],
    [() => areasOf({ ...cylinder, efficiency: 1.1 }), 'SW-D082'],
    [() => areasOf({ ...cylinder, drag: -1 }), 'SW-D082'],
    [() => stopsFrom(cylinder, false, usual.way, 0, 5e5, 1e5), 'SW-D083'],
    [() => stopsFrom(cylinder, false, usual.way, 1, -1, 1e5), 'SW-D083'],
    [() => stroke({ ...usual, way: { homeGap: 0.03, outGap: 0.02 } }), 'SW-D084'],
    [() => stroke({ ...usual, supply: NaN }), 'SW-D084'],
  ];
  for (const [ask, code] of codes) assert.throws(ask, { code }, code);
});
