/**
 * Small dense symmetric positive definite systems, row by row in flat arrays.
 */
import { eliminateDense } from './sparse/dense-cholesky.ts';

/** Cholesky factor of an n × n matrix: lower triangle L with its diagonal inverted. */
export interface CholeskyFactor {
  readonly n: number;
  readonly lower: Float64Array;
}

/** Factor of a symmetric matrix of n × n numbers (only its lower triangle is read), or null if it is not positive definite. */
export function choleskyFactor(matrix: Float64Array, n: number): CholeskyFactor | null {
  if (matrix.length !== n * n) throw new RangeError(`${n} rows of ${n} numbers wanted, not ${matrix.length} numbers`);
  const lower = matrix.slice();
  return eliminateDense(lower, 0, n, n) === -1 ? { n, lower } : null;
}

/** x of A x = b. */
export function choleskySolve({ n, lower }: CholeskyFactor, b: Float64Array): Float64Array {
  const x = b.slice();
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) x[i] -= lower[i * n + j] * x[j];
    x[i] *= lower[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j < n; j++) x[i] -= lower[j * n + i] * x[j];
    x[i] *= lower[i * n + i];
  }
  return x;
}

/** The inverse, n × n. */
export function choleskyInverse(factor: CholeskyFactor): Float64Array {
  const { n } = factor;
  const inverse = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const unit = new Float64Array(n);
    unit[j] = 1;
    inverse.set(choleskySolve(factor, unit), j * n);
  }
  return inverse;
}

/** a · b. */
export function dotProduct(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
