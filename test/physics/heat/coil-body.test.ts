/** From bench readings to bodies: copper wound turn by turn, steel of a can taken apart, a steady test played back. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  bracketConductance,
  canHeatCapacityFromSize,
  canHeatCapacityFromWeight,
  COPPER_DENSITY,
  copperMass,
  enamelShare,
  windingHeatCapacity,
  windingToCanFromSize,
  windingToCanFromTest,
} from '../../../src/physics/heat/coil-body.ts';
import { steadyState } from '../../../src/physics/heat/steady.ts';
import { windingResistance } from '../../../src/physics/winding.ts';
import { celsius, engineSpace, held, usual } from './bodies.ts';

test('copper from ohms is the copper that was wound', () => {
  const window = { innerRadius: 0.011, outerRadius: 0.02, length: 0.045 };
  const [wire, turns] = [0.5e-3, 480];
  const wound =
    COPPER_DENSITY * turns * Math.PI * (window.innerRadius + window.outerRadius) * ((Math.PI * wire ** 2) / 4);
  for (const at of [celsius(-10), celsius(20), celsius(85)]) {
    const found = copperMass(windingResistance(window, wire, turns, at), at, wire);
    assert.ok(Math.abs(found / wound - 1) < 1e-9, `${found} kg, wound ${wound} kg`);
  }
});

test('copper has 386 to 390 J/(kg K), and enamel adds a tenth or less', () => {
  assert.ok(Math.abs(windingHeatCapacity(1, 0) - 388) < 2, `${windingHeatCapacity(1, 0)} J/(kg K)`);
  assert.equal(windingHeatCapacity(1, 0.5), 1.5 * windingHeatCapacity(1, 0));
  for (const [mm, least, most] of [
    [0.3, 0.08, 0.13],
    [0.5, 0.07, 0.1],
    [1, 0.05, 0.08],
  ]) {
    const share = enamelShare(mm * 1e-3);
    assert.ok(share > least && share < most, `${mm} mm: ${share}`);
  }
});

test('steel by the scales and steel by size agree for a can that is taken apart', () => {
  // Tube 50 x 3 mm, 80 long; two ends of 5 mm; core and plunger of 18 mm, 70 together. Litres.
  const litres = (Math.PI / 4) * ((0.5 ** 2 - 0.44 ** 2) * 0.8 + 2 * 0.44 ** 2 * 0.05 + 0.18 ** 2 * 0.7);
  const bySize = canHeatCapacityFromSize({ diameter: 0.05, length: 0.08, attitude: 'lying' });
  const byWeight = canHeatCapacityFromWeight(litres * 7.85 + 1.1 * 0.2, 0.2);
  assert.ok(Math.abs(byWeight / (litres * 7.85 * 460) - 1) < 1e-9, `${byWeight} J/K`);
  assert.ok(Math.abs(bySize / byWeight - 1) < 0.33, `${bySize} J/K by size, ${byWeight} J/K by weight`);
});

test('a steady test gives back the conductance that made it', () => {
  const rest = steadyState(usual, held, engineSpace);
  assert.ok(rest.kind === 'steady', rest.kind);
  const found = windingToCanFromTest(rest.power, rest.winding, rest.can);
  assert.ok(Math.abs(found / usual.windingToCan - 1) < 1e-6, `${found} W/K, made with ${usual.windingToCan}`);
});

test('a bigger can takes up heat better, a thin long bracket carries little', () => {
  const small = windingToCanFromSize({ diameter: 0.04, length: 0.06, attitude: 'lying' });
  const tall = windingToCanFromSize({ diameter: 0.04, length: 0.12, attitude: 'lying' });
  assert.ok(Math.abs(tall / small - 2) < 1e-9, `${tall} and ${small} W/K`);
  assert.ok(small > 0.2 && small < 2, `${small} W/K`);
  // 30 x 4 mm of steel, 60 mm long: 50 x 120e-6 / 0.06.
  assert.ok(Math.abs(bracketConductance(120e-6, 0.06) - 0.1) < 1e-12);
});

test('what has no meaning is refused with the value', () => {
  const can = { diameter: 0.05, length: 0.08, attitude: 'lying' } as const;
  assert.throws(() => copperMass(0, 300, 1e-3), /SW-D051 resistance .* not 0/);
  assert.throws(() => copperMass(1, 300, -1e-3), /SW-D051 wire diameter .* -0.001/);
  assert.throws(() => windingHeatCapacity(NaN, 0), /SW-D051 .* NaN/);
  assert.throws(() => windingHeatCapacity(1, -0.1), /SW-D051 .* -0.1/);
  assert.throws(() => canHeatCapacityFromWeight(0.2, 0.3), /SW-D052 .* 0.2 kg .* 0.3 kg/);
  assert.throws(() => canHeatCapacityFromSize(can, 1.5), /SW-D051 .* 1.5/);
  assert.throws(() => canHeatCapacityFromSize({ ...can, length: 0 }), /SW-D051 length .* not 0/);
  assert.throws(() => windingToCanFromSize({ ...can, diameter: -1 }), /SW-D051 diameter .* -1/);
  assert.throws(() => windingToCanFromTest(12, 300, 310), /SW-D052 .* -10/);
  assert.throws(() => windingToCanFromTest(0, 320, 310), /SW-D052 .* 0/);
  assert.throws(() => bracketConductance(0, 1), /SW-D051 .* 0/);
});
