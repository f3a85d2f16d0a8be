import type { ElementSize } from './element-size.ts';
import { after, before, type Triangulation } from './triangulation.ts';

const OUTSIDE = -2;
/** A triangle is too large when the radius of its circle exceeds this share of the wanted edge length. */
const LARGEST_RADIUS = 0.75;

/**
 * Adds points until every triangle is about as small as the size function wants, the largest first, each at the centre
 * of the circle round its triangle [1]. A centre beyond, or too close to, a fixed edge splits that edge if the edge is
 * longer than wanted there and is dropped otherwise, so the number of points is bounded by the size function.
 *
 * @returns false when more than `mostPoints` points would be needed
 *
 * [1] J. Ruppert, A Delaunay refinement algorithm for quality 2-dimensional mesh generation, J. Algorithms 18 (1995)
 *     548; L. P. Chew, Guaranteed-quality mesh generation for curved surfaces, Proc. 9th SoCG (1993).
 */
export function refine(t: Triangulation, size: ElementSize, mostPoints: number): boolean {
  const heap = new LargestFirst();
  const consider = (triangle: number): void => {
    if (t.label[triangle] === OUTSIDE) return;
    const c = circle(t, triangle);
    const [p, q, r] = [t.origin[3 * triangle], t.origin[3 * triangle + 1], t.origin[3 * triangle + 2]];
    const excess =
      c.radius / (LARGEST_RADIUS * size.at((t.x[p] + t.x[q] + t.x[r]) / 3, (t.y[p] + t.y[q] + t.y[r]) / 3));
    if (excess > 1) heap.push(excess, triangle, p, q, r);
  };
  for (let k = 0; k < t.triangles; k++) consider(k);
  t.touched = [];
  for (;;) {
    const next = heap.pop();
    if (next === undefined) return true;
    const [triangle, a, b, c] = next;
    const e = 3 * triangle;
    if (t.origin[e] !== a || t.origin[e + 1] !== b || t.origin[e + 2] !== c) continue;
    if (t.x.length > mostPoints) return false;
    const round = circle(t, triangle);
    const where = t.locate(round.x, round.y, triangle, true);
    if (where.kind === 'vertex') continue;
    let inTheWay = -1;
    if (where.kind === 'blocked') inTheWay = where.edge;
    else {
      const found = where.kind === 'triangle' ? where.triangle : Math.floor(where.edge / 3);
      inTheWay = encroached(t, found, round.x, round.y);
    }
    if (inTheWay < 0) {
      if (where.kind === 'triangle') t.splitTriangle(where.triangle, round.x, round.y);
      else if (where.kind === 'edge') t.splitEdge(where.edge, round.x, round.y);
    } else {
      const [p, q] = [t.origin[inTheWay], t.origin[after(inTheWay)]];
      const [mx, my] = [(t.x[p] + t.x[q]) / 2, (t.y[p] + t.y[q]) / 2];
      const round =
        t.label[Math.floor(inTheWay / 3)] === OUTSIDE
        || t.twin[inTheWay] < 0
        || t.label[Math.floor(t.twin[inTheWay] / 3)] === OUTSIDE;
      if (round || Math.hypot(t.x[p] - t.x[q], t.y[p] - t.y[q]) < 1.3 * size.at(mx, my)) continue;
      t.splitEdge(inTheWay, mx, my);
    }
    const touched = t.touched;
    t.touched = [];
    for (const edge of touched) consider(Math.floor(edge / 3));
  }
}

/** A fixed edge of the triangle in whose diametral circle the point lies, or -1. */
function encroached(t: Triangulation, triangle: number, x: number, y: number): number {
  for (let e = 3 * triangle; e < 3 * triangle + 3; e++) {
    if (t.fixed[e] === 0) continue;
    const [a, b] = [t.origin[e], t.origin[after(e)]];
    if ((t.x[a] - x) * (t.x[b] - x) + (t.y[a] - y) * (t.y[b] - y) < 0) return e;
  }
  return -1;
}

function circle(t: Triangulation, triangle: number): { x: number; y: number; radius: number } {
  const [a, b, c] = [t.origin[3 * triangle], t.origin[3 * triangle + 1], t.origin[3 * triangle + 2]];
  const [bx, by] = [t.x[b] - t.x[a], t.y[b] - t.y[a]];
  const [cx, cy] = [t.x[c] - t.x[a], t.y[c] - t.y[a]];
  const d = 2 * (bx * cy - by * cx);
  const b2 = bx * bx + by * by;
  const c2 = cx * cx + cy * cy;
  const ux = (cy * b2 - by * c2) / d;
  const uy = (bx * c2 - cx * b2) / d;
  return { x: t.x[a] + ux, y: t.y[a] + uy, radius: Math.hypot(ux, uy) };
}

const SMOOTHING_ROUNDS = 3;

/**
 * Moves free vertices to the middle of their neighbours where that improves the worst triangle round them, then flips
 * back to Delaunay. Nothing on a fixed edge moves.
 */
export function smooth(t: Triangulation): void {
  const held = new Uint8Array(t.x.length);
  for (let v = 0; v < 4; v++) held[v] = 1;
  for (let e = 0; e < t.origin.length; e++) if (t.fixed[e] === 1) held[t.origin[e]] = held[t.origin[after(e)]] = 1;
  const edgeOf = new Int32Array(t.x.length);
  for (let round = 0; round < SMOOTHING_ROUNDS; round++) {
    for (let e = 0; e < t.origin.length; e++) edgeOf[t.origin[e]] = e;
    for (let v = 4; v < t.x.length; v++) if (held[v] === 0) moveVertex(t, v, edgeOf[v]);
    t.flipAll();
  }
}

function moveVertex(t: Triangulation, v: number, start: number): void {
  let [sx, sy, count] = [0, 0, 0];
  let worst = Infinity;
  let e = start;
  do {
    const a = t.origin[after(e)];
    sx += t.x[a];
    sy += t.y[a];
    count++;
    worst = Math.min(worst, quality(t, e));
    e = t.twin[before(e)];
  } while (e !== start);
  const [oldX, oldY] = [t.x[v], t.y[v]];
  t.x[v] = sx / count;
  t.y[v] = sy / count;
  do {
    if (quality(t, e) < worst) {
      t.x[v] = oldX;
      t.y[v] = oldY;
      return;
    }
    e = t.twin[before(e)];
  } while (e !== start);
}

/** Area over the sum of squared edge lengths: largest for the equilateral, zero or less for flat or inverted. */
function quality(t: Triangulation, e: number): number {
  const [a, b, c] = [t.origin[e], t.origin[after(e)], t.origin[before(e)]];
  const [bx, by, cx, cy] = [t.x[b] - t.x[a], t.y[b] - t.y[a], t.x[c] - t.x[a], t.y[c] - t.y[a]];
  return (bx * cy - by * cx) / (bx * bx + by * by + cx * cx + cy * cy + (bx - cx) ** 2 + (by - cy) ** 2);
}

/** A binary heap of triangles by how much too large they are. Entries go stale; the corners tell. */
class LargestFirst {
  readonly #key: number[] = [];
  readonly #entry: (readonly [number, number, number, number])[] = [];

  push(key: number, triangle: number, a: number, b: number, c: number): void {
    let i = this.#key.length;
    this.#key.push(key);
    this.#entry.push([triangle, a, b, c]);
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (this.#key[parent] >= key) break;
      this.#swap(i, parent);
      i = parent;
    }
  }

  pop(): readonly [number, number, number, number] | undefined {
    const top = this.#entry[0];
    const key = this.#key.pop();
    const entry = this.#entry.pop();
    if (key === undefined || entry === undefined) return undefined;
    const n = this.#key.length;
    if (n === 0) return top;
    this.#key[0] = key;
    this.#entry[0] = entry;
    for (let i = 0; ;) {
      let largest = i;
      for (const child of [2 * i + 1, 2 * i + 2])
        if (child < n && this.#key[child] > this.#key[largest]) largest = child;
      if (largest === i) return top;
      this.#swap(i, largest);
      i = largest;
    }
  }

  #swap(i: number, j: number): void {
    [this.#key[i], this.#key[j]] = [this.#key[j], this.#key[i]];
    [this.#entry[i], this.#entry[j]] = [this.#entry[j], this.#entry[i]];
  }
}
