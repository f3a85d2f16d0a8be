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

test(
  'a thicker conductor never has more resistance',
  { todo: 'an odd section is reckoned as solid copper: 1.4 mm² comes out 7 % below 1.5 mm² of class 5' },
  () => {
    for (let mm2 = 0.5; mm2 < 90; mm2 *= 1.01) {
      assert.ok(resistancePerMetre(mm2 * 1.01e-6) <= resistancePerMetre(mm2 * 1e-6) * (1 + 1e-12), `${mm2} mm²`);
    }
    for (const [mm2] of class5)
      assert.ok(resistancePerMetre(mm2 * 0.95e-6) >= resistancePerMetre(mm2 * 1e-6), `${mm2}`);
  },
);
