import { eliminateDense } from './dense-cholesky.ts';
import { dissect, type ElementMesh, type Front } from './dissection.ts';

/**
 * Sparse Cholesky factorisation of a symmetric positive definite finite-element matrix, given element by element.
 *
 * Multifrontal method on a nested-dissection tree: each front is a small dense matrix. Fronts below which no element
 * changes are factorised once and kept, so that in a nonlinear problem the linear regions are eliminated once per mesh.
 * Ordering and storage are settled at construction and reused by every factorisation.
 *
 * [1] I. S. Duff, J. K. Reid, The multifrontal solution of indefinite sparse symmetric linear equations, ACM Trans.
 *     Math. Softw. 9 (1983) 302. [2] J. W. H. Liu, The multifrontal method for sparse matrix solution, SIAM Rev. 34
 *     (1992) 82.
 */
export class SparseCholesky {
  readonly #fronts: readonly Front[];
  readonly #offsets: Int32Array;
  readonly #values: Float64Array;
  readonly #work: Float64Array;
  #constantFrontsReady = false;

  constructor(mesh: ElementMesh) {
    this.#fronts = dissect(mesh);
    this.#offsets = new Int32Array(this.#fronts.length);
    let size = 0;
    let widest = 0;
    this.#fronts.forEach((front, f) => {
      this.#offsets[f] = size;
      const n = front.unknowns.length;
      size += n * n;
      widest = Math.max(widest, n);
    });
    this.#values = new Float64Array(size);
    this.#work = new Float64Array(widest);
  }

  /** Multiplications of one factorisation, in all and in the part that is repeated when the changing elements change. */
  get multiplications(): { readonly all: number; readonly repeated: number } {
    let all = 0;
    let repeated = 0;
    for (const front of this.#fronts) {
      const n = front.unknowns.length;
      let count = 0;
      for (let k = 0; k < front.pivots; k++) count += ((n - k) * (n - k + 1)) / 2;
      all += count;
      if (!front.constant) repeated += count;
    }
    return { all, repeated };
  }

  /** Must be called when an element that was declared unchanging has changed after all. */
  forgetConstantFronts(): void {
    this.#constantFrontsReady = false;
  }

  /**
   * Factorises the matrix whose element e has the dense symmetric m × m matrix that starts at `matrices[e m m]`; its lower
   * triangle is read.
   *
   * @returns true, or false when the matrix is not positive definite (nothing may then be solved)
   */
  factorise(matrices: Float64Array): boolean {
    const values = this.#values;
    for (let f = 0; f < this.#fronts.length; f++) {
      const front = this.#fronts[f];
      if (front.constant && this.#constantFrontsReady) continue;
      const n = front.unknowns.length;
      const base = this.#offsets[f];
      values.fill(0, base, base + n * n);
      const { elementSources, elementTargets } = front;
      for (let k = 0; k < elementSources.length; k++) values[base + elementTargets[k]] += matrices[elementSources[k]];
      for (let c = 0; c < front.children.length; c++) this.#extendAdd(front.children[c], front.childTargets[c], base);
      if (eliminateDense(values, base, n, front.pivots) >= 0) {
        this.#constantFrontsReady = false;
        return false;
      }
    }
    this.#constantFrontsReady = true;
    return true;
  }

  #extendAdd(child: number, targets: Int32Array, base: number): void {
    const values = this.#values;
    const { unknowns, pivots } = this.#fronts[child];
    const stride = unknowns.length;
    let k = 0;
    for (let i = pivots; i < stride; i++) {
      const row = this.#offsets[child] + i * stride;
      for (let j = pivots; j <= i; j++) values[base + targets[k++]] += values[row + j];
    }
  }

  /** Overwrites the right-hand side `x` (length: unknowns) with the solution. `factorise` must have returned true. */
  solve(x: Float64Array): void {
    const values = this.#values;
    const y = this.#work;
    const fronts = this.#fronts;
    for (let f = 0; f < fronts.length; f++) {
      const { unknowns, pivots } = fronts[f];
      const n = unknowns.length;
      const base = this.#offsets[f];
      for (let i = 0; i < pivots; i++) {
        const row = base + i * n;
        let sum = x[unknowns[i]];
        for (let k = 0; k < i; k++) sum -= values[row + k] * y[k];
        y[i] = sum * values[row + i];
        x[unknowns[i]] = y[i];
      }
      for (let i = pivots; i < n; i++) {
        const row = base + i * n;
        let sum = 0;
        for (let k = 0; k < pivots; k++) sum += values[row + k] * y[k];
        x[unknowns[i]] -= sum;
      }
    }
    for (let f = fronts.length - 1; f >= 0; f--) {
      const { unknowns, pivots } = fronts[f];
      const n = unknowns.length;
      const base = this.#offsets[f];
      for (let i = 0; i < pivots; i++) y[i] = x[unknowns[i]];
      for (let i = n - 1; i >= pivots; i--) {
        const row = base + i * n;
        const known = x[unknowns[i]];
        for (let k = 0; k < pivots; k++) y[k] -= values[row + k] * known;
      }
      for (let i = pivots - 1; i >= 0; i--) {
        const row = base + i * n;
        const value = y[i] * values[row + i];
        for (let k = 0; k < i; k++) y[k] -= values[row + k] * value;
        x[unknowns[i]] = value;
      }
    }
  }
}
