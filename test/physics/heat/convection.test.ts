/** Convection and radiation of a can: parts, signs, scaling, cautions. Published numbers stand in test/published. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  airProperties,
  canArea,
  convectedHeat,
  convectionCautions,
  nusseltHorizontalCylinder,
  nusseltHorizontalPlate,
  nusseltVerticalPlate,
  radiatedHeat,
  rayleigh,
  STEFAN_BOLTZMANN,
  type CanSurface,
} from '../../../src/physics/convection.ts';
import { anyBody, celsius } from './bodies.ts';

test('a can is its mantle and its two ends', () => {
  const [D, L, ts, ta] = [0.06, 0.09, celsius(95), celsius(40)];
  const air = airProperties((ts + ta) / 2);
  const h = (nu: number, length: number): number => (nu * air.conductivity) / length;
  const end = (Math.PI * D * D) / 4;
  const chord = (Math.PI * D) / 4;
  const lying =
    h(nusseltHorizontalCylinder(rayleigh(air, 55, D), air.prandtl), D) * Math.PI * D * L
    + 2 * end * h(nusseltVerticalPlate(rayleigh(air, 55, chord), air.prandtl), chord);
  const flat = rayleigh(air, 55, D / 4);
  const upright =
    h(nusseltVerticalPlate(rayleigh(air, 55, L), air.prandtl), L) * Math.PI * D * L
    + 2 * end * h(nusseltHorizontalPlate(flat), D / 4);
  for (const [attitude, sum] of [
    ['lying', 55 * lying],
    ['upright', 55 * upright],
  ] as const) {
    const found = convectedHeat({ diameter: D, length: L, attitude }, ts, ta);
    assert.ok(Math.abs(found / sum - 1) < 1e-9, `${attitude}: ${found} W, ${sum} W in parts`);
  }
});

test('heat flows to the colder side, more with every kelvin, and none flows between equals', () => {
  const temperature = fc.double({ min: celsius(-25), max: celsius(110), noNaN: true });
  fc.assert(
    fc.property(anyBody, temperature, temperature, ({ can }, surface, air) => {
      const here = convectedHeat(can, surface, air);
      assert.ok(surface === air ? here === 0 : Math.sign(here) === Math.sign(surface - air), `${here} W`);
      assert.ok(convectedHeat(can, surface + 1, air) > here, `not more than ${here} W a kelvin hotter`);
    }),
    { seed: 6040, numRuns: 300 },
  );
  assert.equal(convectedHeat({ diameter: 0.05, length: 0.08, attitude: 'upright' }, 300, 300), 0);
});

test('radiation of a black sphere of unit area, and of nothing between equals', () => {
  assert.ok(Math.abs(radiatedHeat(1, 1, 300, 0) - STEFAN_BOLTZMANN * 8.1e9) < 1e-9);
  assert.equal(radiatedHeat(1, 0.9, 320, 320), 0);
  assert.ok(radiatedHeat(1, 0.9, 300, 320) < 0, 'hot walls warm the can');
  // A can is as big as its paper: unrolled mantle and two discs.
  const can: CanSurface = { diameter: 0.05, length: 0.08, attitude: 'lying' };
  assert.ok(Math.abs(canArea(can) - (Math.PI * 0.05 * 0.08 + (2 * Math.PI * 0.05 ** 2) / 4)) < 1e-12);
});

test('formulas used beyond their range say so', () => {
  const can = (diameter: number, length: number): CanSurface => ({ diameter, length, attitude: 'upright' });
  assert.deepEqual(convectionCautions(can(0.04, 0.08), 340, 320), ['slender upright can']);
  assert.deepEqual(convectionCautions({ ...can(0.04, 0.08), attitude: 'lying' }, 340, 320), []);
  assert.deepEqual(convectionCautions(can(0.1, 0.08), 400, 320), []);
  assert.deepEqual(convectionCautions(can(0.1, 0.04), 400, 320), ['unusual size']);
  assert.deepEqual(convectionCautions(can(0.02, 0.02), 400, 320), ['unusual size', 'slender upright can']);
  assert.deepEqual(convectionCautions(can(0.16, 0.1), 400, 320), ['unusual size']);
});

test('air is not known below 200 K nor above 500 K', () => {
  assert.throws(() => airProperties(199), /SW-D050 .* 199 K/);
  assert.throws(() => airProperties(501), /SW-D050 .* 501 K/);
  assert.throws(() => airProperties(NaN), /SW-D050 .* NaN/);
});
