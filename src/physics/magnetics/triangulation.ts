/**
 * Constrained Delaunay triangulation of points in the plane, built point by point with edge flips.
 *
 * Half-edges: edge e runs from `origin[e]` to the origin of the next edge of its triangle; triangle t owns the edges 3t,
 * 3t+1, 3t+2, counter-clockwise; `twin[e]` is the same edge seen from the neighbour, -1 on the outside. A fixed edge
 * (`fixed[e]` = 1) is never flipped. The points lie inside a starting square, four corners with the numbers 0 to 3.
 *
 * Longer than 300 lines: every method keeps the same six arrays consistent.
 *
 * Coordinates should be of order one: tolerances below are relative to that.
 *
 * [1] C. L. Lawson, Software for C1 surface interpolation, in Mathematical Software III (1977).
 * [2] S. W. Sloan, A fast algorithm for generating constrained Delaunay triangulations, Comput. Struct. 47 (1993) 441.
 */
const INSIDE_CIRCLE_TOLERANCE = 1e-13;

export type Located =
  | { readonly kind: 'triangle'; readonly triangle: number }
  | { readonly kind: 'edge'; readonly edge: number }
  | { readonly kind: 'vertex'; readonly vertex: number }
  | { readonly kind: 'blocked'; readonly edge: number };

export class Triangulation {
  readonly x: number[] = [];
  readonly y: number[] = [];
  readonly origin: number[] = [];
  readonly twin: number[] = [];
  readonly fixed: number[] = [];
  /** Label of each triangle; children of a split triangle inherit it. */
  readonly label: number[] = [];
  /** Edges of triangles made or changed since the list was last emptied, for callers that look at new triangles. */
  touched: number[] = [];
  #stack: number[] = [];
  #last = 0;

  constructor(halfWidth: number) {
    const w = halfWidth;
    this.x.push(-w, w, w, -w);
    this.y.push(-w, -w, w, w);
    this.origin.push(0, 1, 2, 0, 2, 3);
    this.twin.push(-1, -1, 3, 2, -1, -1);
    this.fixed.push(0, 0, 0, 0, 0, 0);
    this.label.push(-1, -1);
  }

  get triangles(): number {
    return this.label.length;
  }

  /** Twice the area of the triangle a, b, (px, py); above zero when counter-clockwise. */
  side(a: number, b: number, px: number, py: number): number {
    const { x, y } = this;
    return (x[b] - x[a]) * (py - y[a]) - (y[b] - y[a]) * (px - x[a]);
  }

  /**
   * Walks from a triangle towards a point. With `stopAtFixed` the walk ends at the first fixed edge in its way.
   * Bounded by the number of triangles.
   */
  locate(px: number, py: number, start = this.#last, stopAtFixed = false): Located {
    const { origin, twin, fixed, x, y } = this;
    let t = start < this.triangles ? start : 0;
    for (let step = 0; step < this.triangles + 8; step++) {
      let next = -1;
      let onEdge = -1;
      for (let k = 0; k < 3; k++) {
        const e = 3 * t + ((k + step) % 3);
        const a = origin[e];
        const b = origin[after(e)];
        const s = this.side(a, b, px, py);
        const tolerance = 1e-13 * (Math.abs(x[b] - x[a]) + Math.abs(y[b] - y[a]));
        if (s < -tolerance) {
          next = e;
          break;
        }
        if (s <= tolerance) onEdge = e;
      }
      if (next < 0) {
        this.#last = t;
        for (let k = 0; k < 3; k++) {
          const v = origin[3 * t + k];
          if (Math.abs(x[v] - px) + Math.abs(y[v] - py) < 1e-12) return { kind: 'vertex', vertex: v };
        }
        return onEdge >= 0 ? { kind: 'edge', edge: onEdge } : { kind: 'triangle', triangle: t };
      }
      if ((stopAtFixed && fixed[next] === 1) || twin[next] < 0) return { kind: 'blocked', edge: next };
      t = Math.floor(twin[next] / 3);
    }
    return { kind: 'blocked', edge: 3 * t };
  }

  /** Adds a point and returns its number, or that of the vertex already there. */
  insert(px: number, py: number): number {
    const where = this.locate(px, py);
    if (where.kind === 'vertex') return where.vertex;
    if (where.kind === 'edge') return this.splitEdge(where.edge, px, py);
    if (where.kind === 'triangle') return this.splitTriangle(where.triangle, px, py);
    throw new Error(`point (${px}, ${py}) lies outside the starting square`);
  }

  splitTriangle(t: number, px: number, py: number): number {
    const p = this.#point(px, py);
    const e0 = 3 * t;
    const [a, b, c] = [this.origin[e0], this.origin[e0 + 1], this.origin[e0 + 2]];
    // (a, b, c) becomes (a, b, p), (b, c, p) and (c, a, p)
    const [tb, tc] = [this.twin[e0 + 1], this.twin[e0 + 2]];
    const [fb, fc] = [this.fixed[e0 + 1], this.fixed[e0 + 2]];
    const u = this.#triangle(b, c, p, this.label[t]);
    const v = this.#triangle(c, a, p, this.label[t]);
    this.origin[e0 + 2] = p;
    this.#join(u, tb, fb);
    this.#join(v, tc, fc);
    this.#join(e0 + 1, u + 2, 0);
    this.#join(u + 1, v + 2, 0);
    this.#join(v + 1, e0 + 2, 0);
    this.#stack.push(e0, u, v);
    this.touched.push(e0, u, v);
    this.#flipToDelaunay();
    return p;
  }

  /** Splits an edge at a point on it; both halves stay fixed if the edge was. */
  splitEdge(e: number, px: number, py: number): number {
    const { origin, twin, fixed, label } = this;
    const p = this.#point(px, py);
    const wasFixed = fixed[e];
    const f = twin[e];
    const e1 = after(e);
    const b = origin[e1];
    const c = origin[before(e)];
    const outerB = twin[e1];
    const outerBFixed = fixed[e1];
    const t = Math.floor(e / 3);
    // triangle (a, b, c) becomes (a, p, c) and (p, b, c)
    const u = this.#triangle(p, b, c, label[t]);
    origin[e1] = p;
    this.#join(u + 1, outerB, outerBFixed);
    this.#join(e1, u + 2, 0);
    this.#stack.push(before(e), u + 1);
    this.touched.push(e, u);
    if (f < 0) {
      this.#join(e, -1, wasFixed);
      this.#join(u, -1, wasFixed);
    } else {
      const f1 = after(f);
      const d = origin[before(f)];
      const a = origin[f1];
      const outerA = twin[f1];
      const outerAFixed = fixed[f1];
      // triangle (b, a, d) becomes (b, p, d) and (p, a, d)
      const w = this.#triangle(p, a, d, label[Math.floor(f / 3)]);
      origin[f1] = p;
      this.#join(w + 1, outerA, outerAFixed);
      this.#join(f1, w + 2, 0);
      this.#join(e, w, wasFixed);
      this.#join(f, u, wasFixed);
      this.#stack.push(before(f), w + 1);
      this.touched.push(f, w);
    }
    this.#flipToDelaunay();
    return p;
  }

  /**
   * Makes the segment between two vertices an edge and fixes it [2]. Bounded; returns false if it could not be done,
   * which happens only when another fixed edge or a vertex lies in the way.
   */
  fixSegment(a: number, b: number): boolean {
    const { x, y, origin, twin, fixed } = this;
    const crosses = (p: number, q: number): boolean => {
      if (p === a || p === b || q === a || q === b) return false;
      return this.side(a, b, x[p], y[p]) > 0 !== this.side(a, b, x[q], y[q]) > 0;
    };
    const crossed = this.#edgesAcross(a, b);
    if (crossed === undefined) return false;
    for (let bound = 10 * (crossed.length + 2) ** 2; crossed.length > 0 && bound > 0; bound--) {
      const [p, q] = crossed.shift()!;
      const e = this.edgeBetween(p, q);
      if (e < 0 || fixed[e] === 1 || twin[e] < 0) return false;
      if (!this.#convex(e)) {
        crossed.push([p, q]);
        continue;
      }
      const c = origin[before(e)];
      const d = origin[before(twin[e])];
      this.#flip(e);
      if (crosses(c, d)) crossed.push([c, d]);
    }
    const e = this.edgeBetween(a, b);
    if (e < 0) return false;
    fixed[e] = 1;
    if (twin[e] >= 0) fixed[twin[e]] = 1;
    return true;
  }

  /** An edge that joins two vertices, or -1. */
  edgeBetween(a: number, b: number): number {
    let found = -1;
    this.#aroundVertex(a, (e) => {
      if (this.origin[after(e)] === b) found = e;
      else if (this.origin[before(e)] === b) found = before(e);
    });
    return found;
  }

  /** The edges that a segment crosses, as pairs of vertices; empty when it is an edge; undefined if it meets a vertex. */
  #edgesAcross(a: number, b: number): [number, number][] | undefined {
    const { x, y, origin, twin } = this;
    if (this.edgeBetween(a, b) >= 0) return [];
    let edge = -1;
    this.#aroundVertex(a, (e) => {
      const right = origin[after(e)];
      const left = origin[before(e)];
      if (this.side(a, b, x[right], y[right]) < 0 && this.side(a, b, x[left], y[left]) > 0) edge = after(e);
    });
    const crossed: [number, number][] = [];
    for (let step = 0; step <= this.triangles && edge >= 0; step++) {
      crossed.push([origin[edge], origin[after(edge)]]);
      const over = twin[edge];
      if (over < 0) return undefined;
      const apex = origin[before(over)];
      if (apex === b) return crossed;
      const s = this.side(a, b, x[apex], y[apex]);
      if (s === 0) return undefined;
      edge = s > 0 ? after(over) : before(over);
    }
    return undefined;
  }

  /** Calls `visit` with the edge that leaves v in each of its triangles. A scan: vertices are few when this is used. */
  #aroundVertex(v: number, visit: (edge: number) => void): void {
    for (let e = 0; e < this.origin.length; e++) if (this.origin[e] === v) visit(e);
  }

  /** Restores the Delaunay property everywhere except across fixed edges. */
  flipAll(): void {
    for (let e = 0; e < this.origin.length; e++) if (this.twin[e] > e) this.#stack.push(e);
    this.#flipToDelaunay();
  }

  #convex(e: number): boolean {
    const { origin, twin, x, y } = this;
    const a = origin[e];
    const b = origin[after(e)];
    const c = origin[before(e)];
    const d = origin[before(twin[e])];
    return this.side(d, b, x[c], y[c]) > 1e-14 && this.side(c, a, x[d], y[d]) > 1e-14;
  }

  #flip(e: number): void {
    const { origin, twin, fixed } = this;
    const f = twin[e];
    const e1 = after(e);
    const f1 = after(f);
    const c = origin[before(e)];
    const d = origin[before(f)];
    const [te, tf] = [twin[e1], twin[f1]];
    const [fe, ff] = [fixed[e1], fixed[f1]];
    // (a, b, c) and (b, a, d) become (a, d, c) and (b, c, d)
    origin[e1] = d;
    origin[f1] = c;
    this.#join(e, tf, ff);
    this.#join(f, te, fe);
    this.#join(e1, f1, 0);
  }

  #flipToDelaunay(): void {
    const { origin, twin, fixed, x, y } = this;
    let guard = 200 * (this.triangles + 10);
    while (this.#stack.length > 0 && guard-- > 0) {
      const e = this.#stack.pop()!;
      const f = twin[e];
      if (f < 0 || fixed[e] === 1) continue;
      const a = origin[e];
      const b = origin[after(e)];
      const c = origin[before(e)];
      const d = origin[before(f)];
      if (!insideCircle(x[a], y[a], x[b], y[b], x[c], y[c], x[d], y[d])) continue;
      if (!this.#convex(e)) continue;
      this.#flip(e);
      this.touched.push(e, f);
      this.#stack.push(e, before(e), f, before(f));
    }
    this.#stack.length = 0;
  }

  #point(px: number, py: number): number {
    this.x.push(px);
    this.y.push(py);
    return this.x.length - 1;
  }

  #triangle(a: number, b: number, c: number, label: number): number {
    const e = this.origin.length;
    this.origin.push(a, b, c);
    this.twin.push(-1, -1, -1);
    this.fixed.push(0, 0, 0);
    this.label.push(label);
    return e;
  }

  #join(e: number, f: number, fixed: number): void {
    this.twin[e] = f;
    this.fixed[e] = fixed;
    if (f >= 0) {
      this.twin[f] = e;
      this.fixed[f] = fixed;
    }
  }
}

export function after(e: number): number {
  return e % 3 === 2 ? e - 2 : e + 1;
}

export function before(e: number): number {
  return e % 3 === 0 ? e + 2 : e - 1;
}

/** Is d clearly inside the circle through a, b, c (counter-clockwise)? Ties, within rounding, are not. */
function insideCircle(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): boolean {
  const [px, py, qx, qy, rx, ry] = [ax - dx, ay - dy, bx - dx, by - dy, cx - dx, cy - dy];
  const p2 = px * px + py * py;
  const q2 = qx * qx + qy * qy;
  const r2 = rx * rx + ry * ry;
  const [m0, m1, m2] = [qx * ry - qy * rx, px * ry - py * rx, px * qy - py * qx];
  const value = p2 * m0 - q2 * m1 + r2 * m2;
  const size =
    p2 * (Math.abs(qx * ry) + Math.abs(qy * rx))
    + q2 * (Math.abs(px * ry) + Math.abs(py * rx))
    + r2 * (Math.abs(px * qy) + Math.abs(py * qx));
  return value > INSIDE_CIRCLE_TOLERANCE * size;
}
