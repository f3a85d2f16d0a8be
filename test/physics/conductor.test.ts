/** Copper over temperature, section and length. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { copperResistance } from '../../src/physics/coil.ts';
import { class5, conductorResistance, resistancePerMetre } from '../../src/physics/conductor.ts';
import { DomainError } from '../../src/physics/domain-error.ts';

const kelvin = fc.integer({ min: 233, max: 453 });

test('resistance over temperature is a straight line that comes back to where it started', () => {
  fc.assert(
    fc.property(kelvin, kelvin, kelvin, (a, b, c) => {
      const R = 12.2;
      const there = copperResistance(R, a, b);
      assert.equal(Math.abs(copperResistance(there, b, a) / R - 1) < 1e-14, true);
      assert.equal(Math.abs(copperResistance(there, b, c) / copperResistance(R, a, c) - 1) < 1e-14, true);
      if (b !== a) assert.equal(there > R === b > a, true);
      const middle = copperResistance(R, a, (b + c) / 2);
      assert.equal(Math.abs(middle - (there + copperResistance(R, a, c)) / 2) < 1e-12, true);
    }),
    { numRuns: 200, seed: 1 },
  );
});

test('a reading taken where the straight line has no resistance is refused', () => {
  for (const temperature of [38.6, 20, -10]) {
    assert.throws(
      () => copperResistance(1, temperature, 293.15),
      (error) => error instanceof DomainError && error.code === 'SW-D030' && error.message.includes(`${temperature}`),
    );
  }
});

test('a conductor twice as long has twice the resistance, and every printed one more than copper alone', () => {
  fc.assert(
    fc.property(fc.constantFrom(...class5), kelvin, ([mm2, ohmPerKm], temperature) => {
      const section = mm2 * 1e-6;
      const once = conductorResistance(section, 3.6, temperature);
      assert.equal(Math.abs(conductorResistance(section, 7.2, temperature) / once - 2) < 1e-14, true);
      assert.equal(resistancePerMetre(section), ohmPerKm / 1000);
      // Strands are laid up and drawn: 6 to 19 % over the ideal bar of the same nominal section.
      const over = resistancePerMetre(section) / (1.7241e-8 / section);
      assert.ok(over > 1.06 && over < 1.19, `${mm2} mm²: ${over}`);
    }),
    { numRuns: 100, seed: 2 },
  );
});

test('a thicker standard conductor has less resistance, and so has a thicker gauge; the two are not mixed', () => {
  // A standard section is nominal: its copper is less. A gauge or any other section is taken as copper alone, as published
  // examples reckon it, so just below a standard section the figure is lower. The page on supply says so.
  for (let i = 1; i < class5.length; i++)
    assert.ok(resistancePerMetre(class5[i][0] * 1e-6) < resistancePerMetre(class5[i - 1][0] * 1e-6));
  for (let mm2 = 0.51; mm2 < 90; mm2 *= 1.26)
    assert.ok(resistancePerMetre(mm2 * 1.26e-6) < resistancePerMetre(mm2 * 1e-6), `${mm2} mm²`);
});
