/** Preferred values, derating and heat of series resistors. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../src/physics/domain-error.ts';
import { deratedPower, preferredSeries, preferredValues, resistorHeat, wireWound } from '../../src/physics/resistor.ts';

const ohms = fc.integer({ min: 0, max: 1_000_000 }).map((n) => 0.01 * 1e7 ** (n / 1e6));
const series = fc.constantFrom(...(Object.keys(preferredSeries) as (keyof typeof preferredSeries)[]));

/** Widest step of each series: the tolerance that it was made for, there and back. */
const widestStep = { E6: 1.51, E12: 1.25, E24: 1.16 };

test('a preferred value is close on both sides, and the nearest by ratio is one of the two', () => {
  fc.assert(
    fc.property(ohms, series, (resistance, name) => {
      const { below, nearest, above } = preferredValues(resistance, name);
      assert.ok(below <= resistance * (1 + 2e-9) && above >= resistance * (1 - 2e-9), `${below} ${above}`);
      assert.ok(above / below <= widestStep[name], `${below} to ${above} around ${resistance}`);
      const off = (value: number) => Math.abs(Math.log(value / resistance));
      assert.ok(off(nearest) <= Math.min(off(below), off(above)) + 1e-12, `${nearest} for ${resistance}`);
    }),
    { numRuns: 500, seed: 1 },
  );
});

test('a preferred value is its own neighbour in every decade', () => {
  for (const name of Object.keys(preferredSeries) as (keyof typeof preferredSeries)[]) {
    for (const mantissa of preferredSeries[name]) {
      for (const power of [-2, -1, 0, 1, 2, 3]) {
        const value = Number(`${mantissa}e${power}`);
        assert.deepEqual(preferredValues(value, name), { below: value, nearest: value, above: value });
      }
    }
  }
});

test('nearest is by ratio and not by difference', () => {
  // 1.24 is 0.24 from 1.0 and 0.26 from 1.5, but 24 % above the one and 21 % below the other.
  assert.equal(preferredValues(1.24, 'E6').nearest, 1.5);
});

test('derating is whole, straight, and nothing', () => {
  const { fullUpTo, nothingAt } = wireWound;
  assert.equal(deratedPower(50, fullUpTo - 40), 50);
  assert.equal(deratedPower(50, fullUpTo), 50);
  assert.ok(Math.abs(deratedPower(50, (fullUpTo + nothingAt) / 2) - 25) < 1e-12, 'half way, half the power');
  assert.equal(deratedPower(50, nothingAt), 0);
  assert.equal(deratedPower(50, nothingAt + 10), 0);
});

test('a constant rise per watt gives the derating line', () => {
  // The same law from the other end: the body is at its limit at full power and 25 °C, so it warms by (limit - 25)/rating
  // for each watt; at another ambient the power that brings it to its limit is the derated one.
  fc.assert(
    fc.property(fc.integer({ min: 300, max: 540 }), (ambient) => {
      const perWatt = (wireWound.nothingAt - wireWound.fullUpTo) / 50;
      const body = ambient + perWatt * deratedPower(50, ambient);
      assert.ok(Math.abs(body - wireWound.nothingAt) < 1e-9, `${body} K`);
    }),
    { numRuns: 100, seed: 2 },
  );
});

test('heat against what is allowed', () => {
  const { power, allowed, margin } = resistorHeat({ resistance: 9.1, rating: 25 }, 1, 348.15);
  assert.equal(power, 9.1);
  assert.ok(Math.abs(allowed - 20) < 1e-12 && Math.abs(margin - (20 / 9.1 - 1)) < 1e-12, `${allowed} W, ${margin}`);
  assert.equal(resistorHeat({ resistance: 9.1, rating: 25 }, 1, 600).margin, -1);
});

test('what has no meaning is refused', () => {
  const refused = (code: string, call: () => unknown) =>
    assert.throws(call, (error) => error instanceof DomainError && error.code === code);
  refused('SW-D064', () => preferredValues(0));
  refused('SW-D064', () => preferredValues(NaN));
  refused('SW-D065', () => deratedPower(-1, 300));
  refused('SW-D065', () => deratedPower(10, 300, { fullUpTo: 400, nothingAt: 350 }));
  refused('SW-D065', () => deratedPower(10, NaN));
});
