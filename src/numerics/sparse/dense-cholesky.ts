/**
 * Partial Cholesky factorisation of a small dense symmetric matrix, the inner loop of the sparse solver.
 *
 * `a` holds an n × n matrix row by row from `offset` on, lower triangle only. The first `pivots` rows and columns are
 * eliminated; on return
 *
 *     rows < pivots     L11, lower triangle, with the diagonal inverted (1 / L_kk)
 *     rows ≥ pivots     first `pivots` columns L21, the rest the Schur complement A22 - L21 L21ᵀ
 *
 * Dot products of rows, four by four, so that each number loaded is used four times.
 *
 * @returns -1 when every pivot was positive, else the index of the first that was not (the matrix is then not positive
 *   definite and `a` is spoilt)
 */
export function eliminateDense(a: Float64Array, offset: number, n: number, pivots: number): number {
  for (let first = 0; first < pivots; first += 4) {
    const width = Math.min(4, pivots - first);
    for (let k = 0; k < width; k++) {
      const column = first + k;
      const rowK = offset + column * n;
      let d = a[rowK + column];
      for (let j = 0; j < column; j++) d -= a[rowK + j] * a[rowK + j];
      if (!(d > 0)) return column;
      const inverse = 1 / Math.sqrt(d);
      a[rowK + column] = inverse;
      const top = Math.min(first + width, n);
      for (let i = column + 1; i < top; i++) {
        const rowI = offset + i * n;
        let sum = a[rowI + column];
        for (let j = 0; j < column; j++) sum -= a[rowI + j] * a[rowK + j];
        a[rowI + column] = sum * inverse;
      }
    }
    if (width === 4) panelOfFour(a, offset, n, first);
    else narrowPanel(a, offset, n, first, width);
  }
  if (pivots > 0) schurComplement(a, offset, n, pivots);
  return -1;
}

/** Rows below a four-column panel: L = (A - earlier products) L_panel⁻ᵀ. */
function panelOfFour(a: Float64Array, offset: number, n: number, first: number): void {
  const r0 = offset + first * n;
  const r1 = r0 + n;
  const r2 = r1 + n;
  const r3 = r2 + n;
  const d0 = a[r0 + first];
  const d1 = a[r1 + first + 1];
  const d2 = a[r2 + first + 2];
  const d3 = a[r3 + first + 3];
  const l10 = a[r1 + first];
  const l20 = a[r2 + first];
  const l21 = a[r2 + first + 1];
  const l30 = a[r3 + first];
  const l31 = a[r3 + first + 1];
  const l32 = a[r3 + first + 2];
  let i = first + 4;
  for (; i + 1 < n; i += 2) {
    const p = offset + i * n;
    const q = p + n;
    let p0 = a[p + first];
    let p1 = a[p + first + 1];
    let p2 = a[p + first + 2];
    let p3 = a[p + first + 3];
    let q0 = a[q + first];
    let q1 = a[q + first + 1];
    let q2 = a[q + first + 2];
    let q3 = a[q + first + 3];
    for (let k = 0; k < first; k++) {
      const u = a[p + k];
      const v = a[q + k];
      const b0 = a[r0 + k];
      const b1 = a[r1 + k];
      const b2 = a[r2 + k];
      const b3 = a[r3 + k];
      p0 -= u * b0;
      p1 -= u * b1;
      p2 -= u * b2;
      p3 -= u * b3;
      q0 -= v * b0;
      q1 -= v * b1;
      q2 -= v * b2;
      q3 -= v * b3;
    }
    p0 *= d0;
    p1 = (p1 - p0 * l10) * d1;
    p2 = (p2 - p0 * l20 - p1 * l21) * d2;
    p3 = (p3 - p0 * l30 - p1 * l31 - p2 * l32) * d3;
    q0 *= d0;
    q1 = (q1 - q0 * l10) * d1;
    q2 = (q2 - q0 * l20 - q1 * l21) * d2;
    q3 = (q3 - q0 * l30 - q1 * l31 - q2 * l32) * d3;
    a[p + first] = p0;
    a[p + first + 1] = p1;
    a[p + first + 2] = p2;
    a[p + first + 3] = p3;
    a[q + first] = q0;
    a[q + first + 1] = q1;
    a[q + first + 2] = q2;
    a[q + first + 3] = q3;
  }
  for (; i < n; i++) {
    const p = offset + i * n;
    let p0 = a[p + first];
    let p1 = a[p + first + 1];
    let p2 = a[p + first + 2];
    let p3 = a[p + first + 3];
    for (let k = 0; k < first; k++) {
      const u = a[p + k];
      p0 -= u * a[r0 + k];
      p1 -= u * a[r1 + k];
      p2 -= u * a[r2 + k];
      p3 -= u * a[r3 + k];
    }
    p0 *= d0;
    p1 = (p1 - p0 * l10) * d1;
    p2 = (p2 - p0 * l20 - p1 * l21) * d2;
    p3 = (p3 - p0 * l30 - p1 * l31 - p2 * l32) * d3;
    a[p + first] = p0;
    a[p + first + 1] = p1;
    a[p + first + 2] = p2;
    a[p + first + 3] = p3;
  }
}

/** The same for a last panel of one to three columns. */
function narrowPanel(a: Float64Array, offset: number, n: number, first: number, width: number): void {
  for (let i = first + width; i < n; i++) {
    const rowI = offset + i * n;
    for (let k = 0; k < width; k++) {
      const column = first + k;
      const rowK = offset + column * n;
      let sum = a[rowI + column];
      for (let j = 0; j < column; j++) sum -= a[rowI + j] * a[rowK + j];
      a[rowI + column] = sum * a[rowK + column];
    }
  }
}

/** A22 - L21 L21ᵀ in the lower triangle, in tiles of four rows by two columns. */
function schurComplement(a: Float64Array, offset: number, n: number, pivots: number): void {
  let i = pivots;
  for (; i + 3 < n; i += 4) {
    const p = offset + i * n;
    const q = p + n;
    const r = q + n;
    const s = r + n;
    // The last tile of the row block reaches above the diagonal; what it writes there is never read.
    for (let j = pivots; j < i + 4; j += 2) {
      const b = offset + j * n;
      const c = b + n;
      let pb = 0;
      let pc = 0;
      let qb = 0;
      let qc = 0;
      let rb = 0;
      let rc = 0;
      let sb = 0;
      let sc = 0;
      for (let k = 0; k < pivots; k++) {
        const u = a[b + k];
        const v = a[c + k];
        const w = a[p + k];
        const x = a[q + k];
        const y = a[r + k];
        const z = a[s + k];
        pb += w * u;
        pc += w * v;
        qb += x * u;
        qc += x * v;
        rb += y * u;
        rc += y * v;
        sb += z * u;
        sc += z * v;
      }
      a[p + j] -= pb;
      a[p + j + 1] -= pc;
      a[q + j] -= qb;
      a[q + j + 1] -= qc;
      a[r + j] -= rb;
      a[r + j + 1] -= rc;
      a[s + j] -= sb;
      a[s + j + 1] -= sc;
    }
  }
  for (; i < n; i++) {
    const p = offset + i * n;
    for (let j = pivots; j <= i; j++) {
      const b = offset + j * n;
      let sum = 0;
      for (let k = 0; k < pivots; k++) sum += a[p + k] * a[b + k];
      a[p + j] -= sum;
    }
  }
}
