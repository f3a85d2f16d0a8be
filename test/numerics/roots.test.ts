/** Roots that are known beforehand, and searches that cannot end well and must say so. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { findRoot } from '../../src/numerics/roots.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);

test('finds the root of smooth functions to the tolerance, without ever leaving the bracket', () => {
  const shapes: readonly ((x: number, root: number) => number)[] = [
    (x, root) => x - root,
    (x, root) => (x - root) * (1 + (x - root) ** 2),
    (x, root) => Math.exp(x) - Math.exp(root),
    (x, root) => Math.atan(20 * (x - root)),
    (x, root) => Math.sin(x) - Math.sin(root),
    (x, root) => 1 / (2 + root) - 1 / (2 + x),
  ];
  fc.assert(
    fc.property(fc.constantFrom(...shapes), share, share, share, fc.boolean(), (shape, a, b, c, swap) => {
      const root = 1.4 * a - 0.7;
      const [from, to] = [root - 0.01 - 0.7 * b, root + 0.01 + 0.7 * c];
      let calls = 0;
      const f = (x: number) => {
        calls++;
        assert.ok(x >= from && x <= to, `asked at ${x}, outside ${from} to ${to}`);
        return shape(x, root);
      };
      const found = swap ? findRoot(f, to, from) : findRoot(f, from, to);
      assert.equal(found.converged, true);
      assert.ok(Math.abs(found.at - root) < 1e-9, `${found.at} for ${root}`);
      assert.equal(found.residual, shape(found.at, root));
      assert.equal(found.iterations, calls);
      assert.ok(calls < 40, `${calls} evaluations`);
    }),
    { numRuns: 500, seed: 1 },
  );
});

test('a root at an end is found there', () => {
  assert.deepEqual(
    findRoot((x) => x, 0, 5),
    { converged: true, at: 0, residual: 0, iterations: 1 },
  );
  assert.deepEqual(
    findRoot((x) => x - 5, 0, 5),
    { converged: true, at: 5, residual: 0, iterations: 2 },
  );
});

test('no change of sign, no number, or too few steps: it says that it did not converge', () => {
  assert.deepEqual(
    findRoot((x) => x * x + 1, -1, 2),
    { converged: false, at: -1, residual: 2, iterations: 2 },
  );
  assert.equal(findRoot(() => Number.NaN, 0, 1).converged, false);
  const short = findRoot((x) => x ** 3 - 0.3, 0, 1, 1e-12, 5);
  assert.equal(short.converged, false);
  assert.equal(short.iterations, 5);
});

test('a first step that hardly moves is no root', () => {
  // Where one end is very steep the secant lands beside the other end: e^50x - e^15 has its root at 0.3.
  const found = findRoot((x) => Math.exp(50 * x) - Math.exp(15), -1, 1);
  assert.ok(!found.converged || Math.abs(found.at - 0.3) < 1e-9, JSON.stringify(found));
});
