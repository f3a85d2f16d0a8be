/** The least value of functions whose dip is known. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { leastBetween } from '../../src/numerics/minimum.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);

/** What is left of an interval that golden section narrows. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

function search(shape: (x: number) => number, dip: number, most: number, known?: number) {
  const [from, to] = [-2, 5];
  const place = from + dip * (to - from);
  let calls = 0;
  const f = (x: number) => {
    calls++;
    return shape(x - place);
  };
  const at = known === undefined ? undefined : from + known * (to - from);
  const found = leastBetween(f, from, to, most, at === undefined ? undefined : { at, value: shape(at - place) });
  assert.equal(found.value, shape(found.at - place));
  assert.ok(found.at >= from && found.at <= to, String(found.at));
  assert.ok(calls <= most, `${calls} evaluations where ${most} are allowed`);
  return { calls, off: Math.abs(found.at - place) / (to - from) };
}

test('a smooth dip is found to a ten-thousandth of the interval in few evaluations, wherever it is', () => {
  const shapes: readonly ((x: number) => number)[] = [
    (x) => x * x,
    Math.cosh,
    (x) => x * x * (1 + 0.2 * x * x),
    (x) => Math.exp(x) - x,
  ];
  let calls = 0;
  const runs = 500;
  fc.assert(
    fc.property(fc.constantFrom(...shapes), share, share, (shape, dip, known) => {
      const found = search(shape, dip, 20, known);
      calls += found.calls;
      assert.ok(found.off <= 2.1e-4, `${found.off} of the interval off after ${found.calls} evaluations`);
    }),
    { numRuns: runs, seed: 1 },
  );
  assert.ok(calls / runs < 11, `${calls / runs} evaluations on the average`);
});

test('a kink is found no worse than a golden section of half as many steps would', () => {
  const kinks: readonly ((x: number) => number)[] = [
    Math.abs,
    (x) => (x < 0 ? -3 * x : x),
    (x) => (x < 0 ? -x : 20 * x),
  ];
  fc.assert(
    fc.property(fc.constantFrom(...kinks), share, fc.integer({ min: 4, max: 24 }), (shape, dip, most) => {
      const { off } = search(shape, dip, most);
      assert.ok(off <= GOLDEN ** (most / 2) + 2.1e-4, `${off} of the interval off after ${most}`);
    }),
    { numRuns: 1000, seed: 1 },
  );
});

test('what is known already is never given up for more', () => {
  const found = leastBetween((x) => x * x + (x === 0.3 ? -5 : 0), 0, 1, 12, { at: 0.3, value: -4.91 });
  assert.deepEqual(found, { at: 0.3, value: -4.91 });
});

test('no number is taken for a least one', () => {
  const { at, value } = leastBetween((x) => (x > 0.5 ? NaN : (x - 0.2) ** 2), 0, 1, 20, { at: 0.25, value: 0.0025 });
  assert.ok(at <= 0.5 && value <= 0.0025, `${at} ${value}`);
});

test('a curve that only falls is least at its far end', () => {
  assert.ok(leastBetween((x) => -x, 0, 1, 20).at > 1 - 5e-4);
  assert.ok(leastBetween((x) => x, 0, 1, 20).at < 5e-4);
});
