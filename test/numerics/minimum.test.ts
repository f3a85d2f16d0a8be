/** The least value of functions whose dip is known. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { leastBetween } from '../../src/numerics/minimum.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);

test('lands within 0.618 to the power of its steps of the dip, wherever that is, and asks no more often than told', () => {
  const shapes: readonly ((x: number) => number)[] = [Math.abs, (x) => x * x, (x) => (x < 0 ? -3 * x : x), Math.cosh];
  fc.assert(
    fc.property(fc.constantFrom(...shapes), share, fc.integer({ min: 3, max: 24 }), (shape, dip, steps) => {
      const [from, to] = [-2, 5];
      const place = from + dip * (to - from);
      let calls = 0;
      const { at, value } = leastBetween(
        (x) => {
          calls++;
          return shape(x - place);
        },
        from,
        to,
        steps,
      );
      assert.equal(calls, steps);
      assert.equal(value, shape(at - place));
      assert.equal(at >= from && at <= to, true);
      const left = ((Math.sqrt(5) - 1) / 2) ** steps * (to - from);
      // A flat bottom hides the last digits of its place.
      assert.ok(Math.abs(at - place) <= left * (1 + 1e-9) + 3e-8, `${Math.abs(at - place)} off, ${left} allowed`);
    }),
    { numRuns: 500, seed: 1 },
  );
});

test('a curve that only falls is least at its far end', () => {
  assert.equal(leastBetween((x) => -x, 0, 1, 20).at > 1 - 1e-4, true);
  assert.equal(leastBetween((x) => x, 0, 1, 20).at < 1e-4, true);
});
