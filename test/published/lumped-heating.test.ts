/** Warming and cooling of one body, adiabatic copper and a coil at rest, against worked examples: through the coil's own balances. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { COPPER_DENSITY, windingHeatCapacity, type CoilBody } from '../../src/physics/heat/coil-body.ts';
import { OFF, type CoilPower } from '../../src/physics/heat/coil-power.ts';
import { heating } from '../../src/physics/heat/heating.ts';
import { steadyState } from '../../src/physics/heat/steady.ts';
import { COPPER_RESISTIVITY } from '../../src/physics/winding.ts';
import { toSI } from '../../src/units/quantity.ts';
import { agrees, within, type Source } from './printed.ts';

const celsius = (t: number) => toSI(t, '°C');
const companion = 'an open companion that re-works the printed example; the page itself was not seen';

/** One body with a stated coefficient: a can with no surface of its own, on a "bracket" of h A. */
const lumped = (heatCapacity: number, hA: number): CoilBody => ({
  windingHeatCapacity: 1e-3,
  canHeatCapacity: heatCapacity,
  windingToCan: 1e3,
  can: { diameter: 1e-7, length: 1e-6, attitude: 'lying' },
  emissivity: 0,
  canToBracket: hA,
});

test('a steel ball cools', () => {
  const from: Source = { source: `J.P. Holman, Heat Transfer (SI), Example 4.1; ${companion}`, provenance: 'seen' };
  // 50 mm, 7800 kg/m³, 460 J/(kg K), 10 W/(m² K): from 450 °C to 150 °C in 100 °C. Only (T - T∞)/(T0 - T∞) = 50/350 counts:
  // played here from 250 °C, since no coil starts at 450.
  const area = Math.PI * 0.05 ** 2;
  const body = lumped((7800 * 460 * area * 0.05) / 6, 10 * area);
  const around = celsius(100);
  const end = (duration: number): number =>
    heating(
      body,
      [{ duration, power: OFF, surroundings: { air: around, bracket: around } }],
      { winding: celsius(250), can: celsius(250) },
      { tolerance: 1e-4 },
    ).end.can;
  const reached = around + (150 * 50) / 350;
  assert.ok(end(5817) > reached && end(5819) < reached, `${from.source}: 5818 s printed`);
  within(Math.log(150 / (end(1000) - around)) / 1000, 0.000334448, 3e-8, from, 'h A / (ρ c V), 1/s');
});

test('a panel warms to 150 °C in an oven of 175 °C', () => {
  const from: Source = {
    source: `M.J. Moran et al., Introduction to Thermal Systems Engineering, Example 16.9, p. 390; ${companion}`,
    provenance: 'seen',
  };
  // Per square metre; 300 s of curing follow the warming in the printed 425 s.
  const body = lumped(2770 * 0.0015 * 875, 40 + 12);
  const oven = celsius(175);
  // The oven is hotter than any air that a coil stands in; nothing here touches the air.
  const { end } = heating(
    body,
    [{ duration: 125.27, power: OFF, surroundings: { air: celsius(100), bracket: oven } }],
    { winding: celsius(25), can: celsius(25) },
  );
  // One second is 0.36 K there.
  within(end.can, celsius(150), 0.36, from, 'K after 125.27 s');
});

test('a hold winding on 12 V comes to rest where its ohms say', () => {
  const from: Source = { source: 'Ohm, and the coefficient of IEC 60028: a quadratic', provenance: 'derived' };
  // 12.2 ohm at 20 °C, 6 K/W to 60 °C: half of it inside, half by the bracket.
  const body = { ...lumped(250, 1 / 3), windingHeatCapacity: 60, windingToCan: 1 / 3 };
  const power: CoilPower = {
    drive: 'volts',
    source: 12,
    loopResistance: 0,
    winding: { resistance: 12.2, at: celsius(20) },
  };
  const surroundings = { air: celsius(60), bracket: celsius(60) };
  const rest = steadyState(body, power, surroundings);
  assert.ok(rest.kind === 'steady', rest.kind);
  within(rest.winding, celsius(112.0118), 0.1, from, 'K at rest');
  within(rest.power / 12, 0.72239, 0.002 * 0.72239, from, 'A when hot');
  const waited = heating(body, [{ duration: 36000, power, surroundings }], {
    winding: celsius(60),
    can: celsius(60),
  });
  within(waited.end.winding, celsius(112.0118), 0.1, from, 'K after ten hours');
});

test('short-time current of copper: 115 A√s/mm² from 70 °C to 160 °C', () => {
  const from: Source = {
    source: 'IEC 60364-5-54, and IEC 60949 for the constants: 226 √ln(1 + (Tf - Ti)/(234.5 + Ti))',
    provenance: 'memory, derived',
  };
  // A metre of 1 mm², nothing lost, from 70 °C until class 180 less 20 K.
  const body: CoilBody = {
    ...lumped(1e12, 0),
    windingHeatCapacity: windingHeatCapacity(1e-6 * COPPER_DENSITY, 0),
    windingToCan: 1e-12,
  };
  for (const current of [5, 20, 100]) {
    const power: CoilPower = {
      drive: 'current',
      current,
      winding: { resistance: COPPER_RESISTIVITY / 1e-6, at: celsius(20) },
    };
    const { passed } = heating(
      body,
      [{ duration: 3600, power, surroundings: { air: celsius(70), bracket: celsius(70) } }],
      { winding: celsius(70), can: celsius(70) },
      { hotSpotAllowance: 20 },
    );
    const time = passed.find(({ thermalClass }) => thermalClass === 180)?.time ?? NaN;
    agrees(current * Math.sqrt(time), '115', from, `A√s/mm² at ${current} A`);
  }
});
