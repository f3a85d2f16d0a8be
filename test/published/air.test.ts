/**
 * Air against a textbook's problems, a fluid-power book's examples, and a run of a general-purpose solver.
 *
 * The last: SciPy 1.10 `solve_ivp`, method Radau, relative tolerance 1e-11, on a formulation of its own (mass and internal
 * energy of each chamber instead of pressure; the flow typed anew from ISO 6358-1 and its two lines near equal pressures).
 * Rod draws in; bore 25, rod 10, stroke 40 mm; 20 cm³ dead in either chamber; in 1.2 L/(s bar), out 0.8, b 0.3; efficiency
 * 0.9, drag 4 N; 0.4 kg against 30 N and 1.5 N/mm from rest; 5 bar; 300 K; atmosphere 101325 Pa.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { airPerStop, stopsFrom, type Cylinder } from '../../src/physics/air/cylinder.ts';
import { flowCurve, inSeries, massFlow, pipe, type FlowCurve } from '../../src/physics/air/flow.ts';
import { ATMOSPHERE, GAS_CONSTANT, massIn, REFERENCE_DENSITY } from '../../src/physics/air/gas.ts';
import { stroke, type StrokeAsk } from '../../src/physics/air/stroke.ts';
import { agrees, within, type Source } from './printed.ts';

test('a tank blows down through a nozzle that chokes', () => {
  const white: Source = {
    source:
      'F. M. White, Fluid Mechanics, 8th ed., Problem P3.27: ṁ = 0.685 p0 A/√(R T0); 25 % of density gone after 0.42',
    provenance: 'seen, derived',
  };
  const [area, temperature, pressure, volume] = [4e-6, 293.15, 3e6, 1e-3];
  // The conductance of that nozzle; in air as here R is 288.
  const C = (0.685 * area) / (REFERENCE_DENSITY * Math.sqrt(GAS_CONSTANT * temperature));
  const nozzle = flowCurve({ conductance: C, criticalRatio: 0.528 });
  const flow = massFlow(nozzle, { pressure, temperature }, { pressure: ATMOSPHERE, temperature });
  agrees((flow * Math.sqrt(GAS_CONSTANT * temperature)) / (pressure * area), '0.685', white, 'flow');
  const { trace } = stroke({ ...emptied(nozzle, volume, pressure - ATMOSPHERE), duration: 1.2 });
  const unit = volume / (area * Math.sqrt(GAS_CONSTANT * temperature));
  const at = trace!.home_Pa.findIndex((p) => p + ATMOSPHERE <= 0.75 * pressure);
  const [a, b] = [trace!.home_Pa[at - 1] + ATMOSPHERE, trace!.home_Pa[at] + ATMOSPHERE];
  const [t0, t1] = [trace!.time_s[at - 1], trace!.time_s[at]];
  agrees((t0 + ((a - 0.75 * pressure) / (a - b)) * (t1 - t0)) / unit, '0.42', white, 'time over V/(A√(R T0))');
});

/** A vessel that empties: a piston that a load without measure holds fast. */
function emptied(exhaust: FlowCurve, volume: number, supply: number): StrokeAsk {
  const cylinder: Cylinder = {
    action: 'push',
    bore: 0.01,
    rod: 0.005,
    stroke: 0.01,
    efficiency: 1,
    drag: 0,
    deadVolume: volume - (Math.PI / 4) * 0.01 ** 2 * 0.01,
  };
  return {
    cylinder,
    load: load([0, 0.01], [1e6, 1e6], [-1e6, -1e6]),
    way: { homeGap: 0, outGap: 0.01 },
    towards: 'out',
    supply,
    temperature: 293.15,
    inlet: exhaust,
    exhaust,
    returnsByAir: false,
    process: 'isothermal',
    duration: 1,
    tracePoints: 4001,
  };
}

function load(gaps: number[], home: number[], out: number[], mass = 0.4) {
  return {
    gaps: Float64Array.from(gaps),
    home: Float64Array.from(home),
    out: Float64Array.from(out),
    mass: new Float64Array(gaps.length).fill(mass),
    viscous: 0,
  };
}

test('air that a cylinder takes', () => {
  const esposito: Source = {
    source: 'A. Esposito, Fluid Power with Applications, 5th ed., Example 13-13, as re-worked in an open companion',
    provenance: 'seen',
  };
  // 44.5 mm bore, 152 mm stroke, 687 kPa, both temperatures as there: 30 cycles a minute take 0.0555 m³/min of free air.
  // The book leaves the rod out and fills one chamber a cycle; its cylinder ends each stroke empty.
  const cylinder: Cylinder = {
    action: 'push',
    bore: 0.0445,
    rod: 0.001,
    stroke: 0.152,
    efficiency: 1,
    drag: 0,
    deadVolume: 0,
  };
  const { mass } = airPerStop(cylinder, false, 687e3, { homeGap: 0, outGap: 0.152 }, 300);
  const freeAtBook = (mass * GAS_CONSTANT * 293) / 101e3;
  // Whole cycles: between 30 and 31 of them use it up. Its atmosphere is 101 kPa, ours 101.325: 0.05 %.
  const cycles = 0.0555 / freeAtBook;
  assert.ok(cycles >= 30 && cycles < 31, `${cycles} cycles a minute: ${esposito.source}`);
});

const printed = {
  'isothermal, spring': [2.258151104e-3, 18.863588507e-3, 24.60841993e-3, 3.8821294923],
  'isothermal, by air': [21.27230411e-3, 47.815548241e-3, 60.561466003e-3, 1.3684556464],
  'adiabatic, spring': [1.6129650744e-3, 16.79475571e-3, 22.296319454e-3, 4.0128245215],
  'adiabatic, by air': [15.675195818e-3, 40.450754571e-3, 53.514375512e-3, 1.2233923734],
} as const;

for (const [name, [starts, half, home, speed]] of Object.entries(printed)) {
  test(`a stroke as a general-purpose solver has it: ${name}`, () => {
    const scipy: Source = {
      source: 'SciPy solve_ivp on mass and internal energy, recipe at the head',
      provenance: 'seen',
    };
    const gaps = [0, 0.01, 0.02, 0.03, 0.04];
    const against = gaps.map((gap) => 30 + 1500 * (0.04 - gap));
    const found = stroke({
      cylinder: { action: 'pull', bore: 0.025, rod: 0.01, stroke: 0.04, efficiency: 0.9, drag: 4, deadVolume: 2e-5 },
      load: load(gaps, against, against),
      way: { homeGap: 0, outGap: 0.04 },
      towards: 'home',
      supply: 5e5,
      temperature: 300,
      inlet: flowCurve({ conductance: 1.2e-8, criticalRatio: 0.3 }),
      exhaust: flowCurve({ conductance: 0.8e-8, criticalRatio: 0.3 }),
      returnsByAir: name.endsWith('by air'),
      process: name.startsWith('isothermal') ? 'isothermal' : 'adiabatic',
      duration: 0.5,
      marks: [0.02],
      tolerance: 1e-8,
    });
    const share = 2e-5;
    within(found.startsAt!, starts, share * starts, scipy, 'starts, s');
    within(found.passesAt[0]!, half, share * half, scipy, 'half way, s');
    within(found.arrivesAt!, home, share * home, scipy, 'home, s');
    within(found.landingSpeed!, speed, share * speed, scipy, 'lands, m/s');
    within(found.homeAtEnd, 5e5, 1, scipy, 'pressure at the end, Pa');
    assert.equal(found.ended, 'end', 'the run goes to its end');
  });
}

test('a pipe against a flow with wall friction that chokes at its end', () => {
  // Fanno: 4fL/d = (1-M²)/(κM²) + (κ+1)/(2κ) ln((κ+1)M²/(2+(κ-1)M²)), with H. Blasius's 0.316/Re^¼; both textbook, derived.
  // The fit of measured pipes has their inlets and fittings in it, and lies below smooth pipe: 0.83 to 1.0 of it.
  const k = 1.4;
  for (const [bore, length] of [
    [0.0025, 1],
    [0.004, 6.5],
    [0.006, 3],
    [0.008, 30],
    [0.01, 1],
  ]) {
    let [friction, flow] = [0.02, 0];
    for (let i = 0; i < 60; i++) {
      let [low, high] = [1e-4, 1];
      for (let j = 0; j < 80; j++) {
        const M = (low + high) / 2;
        const room =
          (1 - M * M) / (k * M * M) + ((k + 1) / (2 * k)) * Math.log(((k + 1) * M * M) / (2 + (k - 1) * M * M));
        if (room > (friction * length) / bore) low = M;
        else high = M;
      }
      const M = low;
      const p = 7e5;
      flow =
        p
        * (Math.PI / 4)
        * bore ** 2
        * Math.sqrt(k / (GAS_CONSTANT * 293.15))
        * M
        * (1 + ((k - 1) / 2) * M * M) ** (-(k + 1) / (2 * (k - 1)));
      friction = 0.316 * ((4 * flow) / (Math.PI * bore * 1.82e-5)) ** -0.25;
    }
    const share = pipe(bore, length).conductance / (flow / (REFERENCE_DENSITY * 7e5));
    assert.ok(share > 0.83 && share < 1.01, `${bore} m by ${length} m: ${share} of a smooth pipe`);
  }
});

test('two nozzles of one size in a row pass what the air between them allows', () => {
  // Derived from ISO 6358-3 by hand: both C, b = 0: the second chokes at C p1' = C p1 √(1 - x²), x = 1 - ... with b = 0 the
  // flow q = C p1 √(1 - r²) = C r p1, so r² = 1/2 and q = C p1/√2.
  const iso: Source = { source: 'ISO 6358-3:2014, two equal restrictions', provenance: 'derived' };
  const one = { conductance: 1e-8, criticalRatio: 0 };
  within(inSeries([one, one]).conductance / 1e-8, Math.SQRT1_2, 1e-9, iso, 'share of one');
  within(inSeries([one, one, one]).conductance / 1e-8, 1 / Math.sqrt(3), 1e-9, iso, 'share of one, of three');
});

test('a vessel gives its stops, counted one by one', () => {
  const cylinder: Cylinder = {
    action: 'pull',
    bore: 0.032,
    rod: 0.012,
    stroke: 0.05,
    efficiency: 0.9,
    drag: 5,
    deadVolume: 1e-4,
  };
  const way = { homeGap: 0.002, outGap: 0.045 };
  for (const returnsByAir of [false, true]) {
    const counted = stopsFrom(cylinder, returnsByAir, way, 0.01, 7e5, 3e5);
    // By hand, mass after mass.
    const area = (Math.PI / 4) * (0.032 ** 2 - 0.012 ** 2);
    const whole = (Math.PI / 4) * 0.032 ** 2;
    let p = 7e5 + ATMOSPHERE;
    let stops = 0;
    const fill = (full: number, empty: number) =>
      ((massIn(0.01, p, 300) + massIn(empty, ATMOSPHERE, 300)) * GAS_CONSTANT * 300) / (0.01 + full);
    for (;;) {
      p = fill(1e-4 + area * 0.048, 1e-4 + area * 0.005);
      if (p < 3e5 + ATMOSPHERE) break;
      stops++;
      if (returnsByAir) p = fill(1e-4 + whole * 0.045, 1e-4 + whole * 0.002);
    }
    assert.equal(counted, stops, `${returnsByAir ? 'by air' : 'by spring'}: counted ${stops}`);
    assert.ok(stops > 10, `${stops} stops: too few to say much`);
  }
});
