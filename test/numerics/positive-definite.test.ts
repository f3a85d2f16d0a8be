import assert from 'node:assert/strict';
import { test } from 'node:test';
import { choleskyFactor, choleskyInverse, choleskySolve, dotProduct } from '../../src/numerics/positive-definite.ts';

/** The Hilbert matrix, 1/(i + j + 1): its inverse has whole numbers (of order 3: 9 -36 30, -36 192 -180, 30 -180 180). */
const hilbert = (n: number): Float64Array =>
  Float64Array.from({ length: n * n }, (_, k) => 1 / (Math.floor(k / n) + (k % n) + 1));

test('the inverse of the Hilbert matrix of order 3 has its known whole numbers', () => {
  const inverse = choleskyInverse(choleskyFactor(hilbert(3), 3)!);
  [9, -36, 30, -36, 192, -180, 30, -180, 180].forEach((value, k) => assert.ok(Math.abs(inverse[k] - value) < 1e-10));
});

test('a solved system gives back its right side, from order 0 to 9', () => {
  for (let n = 0; n <= 9; n++) {
    const a = hilbert(n).map((value, k) => value + (k % (n + 1) === 0 ? 0.1 : 0));
    const b = Float64Array.from({ length: n }, (_, i) => Math.sin(i + 1));
    const x = choleskySolve(choleskyFactor(a, n)!, b);
    for (let i = 0; i < n; i++) assert.ok(Math.abs(dotProduct(a.subarray(i * n, (i + 1) * n), x) - b[i]) < 1e-12);
  }
});

test('what is not positive definite, or not square, is told', () => {
  assert.equal(choleskyFactor(Float64Array.of(1, 2, 2, 1), 2), null);
  assert.equal(choleskyFactor(Float64Array.of(Number.NaN), 1), null);
  assert.throws(() => choleskyFactor(Float64Array.of(1, 2, 3), 2), RangeError);
});
