import assert from 'node:assert/strict';
import { test } from 'node:test';
import { eliminateDense } from '../../../src/numerics/sparse/dense-cholesky.ts';
import { SparseCholesky } from '../../../src/numerics/sparse/multifrontal.ts';

/** Numbers between -1 and 1 from a fixed seed (linear congruential generator of Numerical Recipes). */
function noise(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}

function randomPositive(n: number, next: () => number): Float64Array {
  const g = Float64Array.from({ length: n * n }, next);
  const a = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      for (let k = 0; k < n; k++) a[i * n + j] += g[i * n + k] * g[j * n + k];
      if (i === j) a[i * n + j] += 0.1;
    }
  return a;
}

test('partial elimination gives the factor and the Schur complement for every size and number of pivots', () => {
  const next = noise(1);
  for (let n = 1; n <= 19; n++) {
    for (let pivots = 0; pivots <= n; pivots++) {
      const a = randomPositive(n, next);
      const worked = Float64Array.from([9, ...a, 9]);
      assert.equal(eliminateDense(worked, 1, n, pivots), -1);
      assert.equal(worked[0], 9);
      assert.equal(worked[n * n + 1], 9);
      // Put L11, L21 and the complement together again: it must be the matrix.
      for (let i = 0; i < n; i++)
        for (let j = 0; j <= i; j++) {
          let sum = i >= pivots && j >= pivots ? worked[1 + i * n + j] : 0;
          for (let k = 0; k <= Math.min(j, pivots - 1); k++) {
            const left = i === k ? 1 / worked[1 + i * n + k] : worked[1 + i * n + k];
            const right = j === k ? 1 / worked[1 + j * n + k] : worked[1 + j * n + k];
            sum += left * right;
          }
          assert.ok(Math.abs(sum - a[i * n + j]) < 1e-12 * n, `n ${n}, pivots ${pivots}, entry ${i} ${j}`);
        }
    }
  }
});

test('a pivot that is not positive is named', () => {
  assert.equal(eliminateDense(Float64Array.from([1, 0, 2, 1]), 0, 2, 2), 1);
  assert.equal(eliminateDense(Float64Array.from([NaN]), 0, 1, 1), 0);
});

/** A grid of square four-node elements with random positive matrices; nodes on the left edge are fixed. */
function gridMesh(side: number, next: () => number) {
  const nodes = (side + 1) ** 2;
  const elementUnknowns: number[] = [];
  const centres: number[] = [];
  const unknownOf = Array.from({ length: nodes }, (_, v) =>
    v % (side + 1) === 0 ? -1 : v - 1 - Math.floor(v / (side + 1)),
  );
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      const v = y * (side + 1) + x;
      elementUnknowns.push(...[v, v + 1, v + side + 2, v + side + 1].map((k) => unknownOf[k]));
      centres.push(x, y);
    }
  const elements = side * side;
  const matrices = new Float64Array(16 * elements);
  for (let e = 0; e < elements; e++) matrices.set(randomPositive(4, next), 16 * e);
  const changing = Uint8Array.from({ length: elements }, (_, e) => (e % side < side / 3 ? 1 : 0));
  return {
    mesh: {
      unknowns: side * (side + 1),
      nodesPerElement: 4,
      elementUnknowns: Int32Array.from(elementUnknowns),
      centres: Float64Array.from(centres),
      changing,
    },
    matrices,
  };
}

function multiply(mesh: ReturnType<typeof gridMesh>['mesh'], matrices: Float64Array, x: Float64Array): Float64Array {
  const y = new Float64Array(x.length);
  for (let e = 0; e < mesh.changing.length; e++)
    for (let i = 0; i < 4; i++)
      for (let j = 0; j < 4; j++) {
        const [u, v] = [mesh.elementUnknowns[4 * e + i], mesh.elementUnknowns[4 * e + j]];
        if (u >= 0 && v >= 0) y[u] += matrices[16 * e + 4 * i + j] * x[v];
      }
  return y;
}

test('solves a grid to rounding, again after the changing elements changed, and keeps the constant part', () => {
  for (const side of [1, 2, 5, 13, 30]) {
    const next = noise(side);
    const { mesh, matrices } = gridMesh(side, next);
    const cholesky = new SparseCholesky(mesh);
    for (let round = 0; round < 3; round++) {
      if (round > 0)
        mesh.changing.forEach((changes, e) => changes === 1 && matrices.set(randomPositive(4, next), 16 * e));
      assert.ok(cholesky.factorise(matrices));
      const x = Float64Array.from({ length: mesh.unknowns }, next);
      const b = multiply(mesh, matrices, x);
      cholesky.solve(b);
      b.forEach((value, i) => assert.ok(Math.abs(value - x[i]) < 1e-9, `side ${side}, round ${round}, unknown ${i}`));
    }
    if (side === 30) assert.ok(cholesky.multiplications.repeated < 0.8 * cholesky.multiplications.all);
  }
});

test('an element said to be constant that changed needs the constant part forgotten', () => {
  const { mesh, matrices } = gridMesh(12, noise(3));
  const cholesky = new SparseCholesky(mesh);
  assert.ok(cholesky.factorise(matrices));
  for (let i = 0; i < matrices.length; i++) matrices[i] *= 2;
  cholesky.forgetConstantFronts();
  assert.ok(cholesky.factorise(matrices));
  const x = new Float64Array(mesh.unknowns).fill(1);
  const b = multiply(mesh, matrices, x);
  cholesky.solve(b);
  b.forEach((value) => assert.ok(Math.abs(value - 1) < 1e-9));
});

test('work grows as nested dissection lets it: less than n to the power 1.7', () => {
  const work = [16, 32, 64].map((side) => new SparseCholesky(gridMesh(side, noise(1)).mesh).multiplications.all);
  for (let k = 0; k < 2; k++) assert.ok(Math.log2(work[k + 1] / work[k]) / 2 < 1.7, `${work[k]} to ${work[k + 1]}`);
});

test('a matrix that is not positive definite is refused', () => {
  const { mesh, matrices } = gridMesh(6, noise(2));
  matrices.fill(-1);
  assert.equal(new SparseCholesky(mesh).factorise(matrices), false);
});
