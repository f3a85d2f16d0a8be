/**
 * Nested dissection of a finite-element mesh by recursive bisection of its elements.
 *
 * The elements are halved again and again along whichever of the coordinates gives the smaller seam. Unknowns that
 * only one half knows are eliminated inside that half; those on the seam are eliminated one floor up. The result is the
 * tree of dense fronts that `multifrontal.ts` works through, children before parents.
 *
 * [1] A. George, Nested dissection of a regular finite element mesh, SIAM J. Numer. Anal. 10 (1973) 345.
 */
export interface ElementMesh {
  /** Unknowns in the system; every index below is smaller than this. */
  readonly unknowns: number;
  /** Nodes of one element. */
  readonly nodesPerElement: number;
  /** Unknown of node k of element e at e × nodesPerElement + k; -1 where the node carries none (fixed). */
  readonly elementUnknowns: Int32Array;
  /** Centre of element e, two numbers each. */
  readonly centres: Float64Array;
  /** 1 where the element's matrix changes from one factorisation to the next, 0 where it never does. */
  readonly changing: Uint8Array;
}

/** One dense front. Local unknowns: first the `pivots` that are eliminated here, then those handed to the parent. */
export interface Front {
  readonly unknowns: Int32Array;
  readonly pivots: number;
  readonly children: readonly number[];
  /**
   * For child c: where each entry of the matrix that it hands up (lower triangle, row by row) goes in this front's
   * matrix (row × width + column, lower triangle).
   */
  readonly childTargets: readonly Int32Array[];
  /** Leaves only: entry `elementSources[k]` of the list of element matrices goes to `elementTargets[k]` here. */
  readonly elementSources: Int32Array;
  readonly elementTargets: Int32Array;
  /** True when no element below changes: the front is factorised once. */
  readonly constant: boolean;
}

const ELEMENTS_IN_A_LEAF = 10;

/** Fronts in the order of elimination, the root last. */
export function dissect(mesh: ElementMesh): Front[] {
  const { unknowns, nodesPerElement: m, elementUnknowns, centres, changing } = mesh;
  const elementCount = elementUnknowns.length / m;
  const uses = new Int32Array(unknowns);
  for (const u of elementUnknowns) if (u >= 0) uses[u]++;
  const usedHere = new Int32Array(unknowns);
  const place = new Int32Array(unknowns);
  const side = new Int32Array(unknowns);
  const eliminated = new Uint8Array(unknowns);
  const inFirstHalf = new Uint8Array(elementCount);
  const fronts: Front[] = [];

  /** Unknowns of a set of elements, each once. */
  function unknownsOf(elements: Int32Array): number[] {
    const found: number[] = [];
    for (const e of elements)
      for (let k = e * m; k < e * m + m; k++) {
        const u = elementUnknowns[k];
        if (u >= 0 && usedHere[u]++ === 0) found.push(u);
      }
    return found;
  }

  function clear(found: readonly number[]): void {
    for (const u of found) usedHere[u] = 0;
  }

  function seam(first: Int32Array, second: Int32Array): number {
    let count = 0;
    for (const e of first)
      for (let k = e * m; k < e * m + m; k++) if (elementUnknowns[k] >= 0) side[elementUnknowns[k]] = 1;
    for (const e of second)
      for (let k = e * m; k < e * m + m; k++) {
        const u = elementUnknowns[k];
        if (u >= 0 && side[u] === 1) {
          side[u] = 2;
          count++;
        }
      }
    for (const e of first)
      for (let k = e * m; k < e * m + m; k++) if (elementUnknowns[k] >= 0) side[elementUnknowns[k]] = 0;
    return count;
  }

  /**
   * Halves a set of elements, given in the order of each coordinate; several cuts are tried and the cheapest seam for its
   * balance is kept. Returns both halves, again in the order of each coordinate.
   */
  function halve(orders: Orders): [Orders, Orders] {
    let best = 0;
    let bestCut = 0;
    let bestCost = Infinity;
    const count = orders[0].length;
    orders.forEach((order, direction) => {
      for (const share of count > FEW_ELEMENTS ? CUT_SHARES : [0.5]) {
        const cut = Math.round(count * share);
        const cost = seam(order.subarray(0, cut), order.subarray(cut)) * (1 + 4 * (share - 0.5) ** 2);
        if (cost >= bestCost) continue;
        bestCost = cost;
        best = direction;
        bestCut = cut;
      }
    });
    for (let k = 0; k < count; k++) inFirstHalf[orders[best][k]] = k < bestCut ? 1 : 0;
    const half = (which: number): Orders => [
      orders[0].filter((e) => inFirstHalf[e] === which),
      orders[1].filter((e) => inFirstHalf[e] === which),
    ];
    return [half(1), half(0)];
  }

  /** Builds the fronts of a set of elements and returns the index of the topmost. */
  function build(orders: Orders): number {
    const elements = orders[0];
    const leaf = elements.length <= ELEMENTS_IN_A_LEAF;
    const children: number[] = [];
    if (!leaf) for (const half of halve(orders)) children.push(build(half));
    const found = unknownsOf(elements);
    const pivots: number[] = [];
    const handedUp: number[] = [];
    for (const u of found) {
      if (eliminated[u] === 1) continue;
      if (usedHere[u] === uses[u]) pivots.push(u);
      else handedUp.push(u);
    }
    clear(found);
    for (const u of pivots) eliminated[u] = 1;
    const local = Int32Array.from([...pivots, ...handedUp]);
    for (let i = 0; i < local.length; i++) place[local[i]] = i;
    const width = local.length;
    const target = (a: number, b: number): number => (a > b ? a * width + b : b * width + a);
    const childTargets = children.map((c) => {
      const places = fronts[c].unknowns.subarray(fronts[c].pivots).map((u) => place[u]);
      const targets = new Int32Array((places.length * (places.length + 1)) / 2);
      for (let i = 0, k = 0; i < places.length; i++)
        for (let j = 0; j <= i; j++) targets[k++] = target(places[i], places[j]);
      return targets;
    });
    const elementSources: number[] = [];
    const elementTargets: number[] = [];
    let constant = children.every((c) => fronts[c].constant);
    for (const e of leaf ? elements : []) {
      if (changing[e] === 1) constant = false;
      for (let i = 0; i < m; i++)
        for (let j = 0; j <= i; j++) {
          const [u, v] = [elementUnknowns[e * m + i], elementUnknowns[e * m + j]];
          if (u < 0 || v < 0) continue;
          elementSources.push((e * m + i) * m + j);
          elementTargets.push(target(place[u], place[v]));
        }
    }
    fronts.push({
      unknowns: local,
      pivots: pivots.length,
      children,
      childTargets,
      elementSources: Int32Array.from(elementSources),
      elementTargets: Int32Array.from(elementTargets),
      constant,
    });
    return fronts.length - 1;
  }

  const along = (coordinate: 0 | 1): Int32Array =>
    Int32Array.from({ length: elementCount }, (_, e) => e).sort(
      (a, b) => centres[2 * a + coordinate] - centres[2 * b + coordinate],
    );
  if (elementCount > 0) build([along(0), along(1)]);
  return fronts;
}

/** The same elements in the order of the first and of the second coordinate. */
type Orders = readonly [Int32Array, Int32Array];

/** Sets larger than this are worth trying uneven cuts on. */
const FEW_ELEMENTS = 60;
const CUT_SHARES = [0.5, 0.4, 0.6];
