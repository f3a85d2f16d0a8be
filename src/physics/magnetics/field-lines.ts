import type { Mesh } from './mesh.ts';

/**
 * Field lines as contours of u = radius × potential: between neighbouring lines of equal steps flows equal flux, 2π times
 * the step. Each element is cut into four by its edge middles and u is taken as linear on each, good enough to draw.
 *
 * @param potential u at the nodes, Wb (a solution's `potential`)
 * @param values the contours wanted, Wb
 * @returns for each value its pieces, four numbers each: radius and height of both ends, metres; in no order
 */
export function fieldLines(mesh: Mesh, potential: Float64Array, values: readonly number[]): Float64Array[] {
  const { coordinates: x, triangles } = mesh;
  const pieces: number[][] = values.map(() => []);
  for (let t = 0; t < triangles.length; t += 6) {
    let low = Infinity;
    let high = -Infinity;
    for (let k = 0; k < 6; k++) {
      low = Math.min(low, potential[triangles[t + k]]);
      high = Math.max(high, potential[triangles[t + k]]);
    }
    for (let v = 0; v < values.length; v++) {
      const value = values[v];
      if (!(value > low && value < high)) continue;
      for (const corners of QUARTERS) {
        const ends: number[] = [];
        for (let k = 0; k < 3; k++) {
          const [one, other] = [triangles[t + corners[k]], triangles[t + corners[(k + 1) % 3]]];
          // The same order from both sides, so that the ends of neighbouring pieces are equal to the last bit.
          const [a, b] = one < other ? [one, other] : [other, one];
          // At least on one end, less on the other, so that a contour through a node is met once.
          if (potential[a] >= value === potential[b] >= value) continue;
          const s = (value - potential[a]) / (potential[b] - potential[a]);
          ends.push(x[2 * a] + s * (x[2 * b] - x[2 * a]), x[2 * a + 1] + s * (x[2 * b + 1] - x[2 * a + 1]));
        }
        if (ends.length === 4) pieces[v].push(...ends);
      }
    }
  }
  return pieces.map((list) => Float64Array.from(list));
}

/** The four triangles between corners and edge middles. */
const QUARTERS = [
  [0, 3, 5],
  [3, 1, 4],
  [5, 4, 2],
  [3, 4, 5],
] as const;

/** Values for `count` field lines between the axis (0) and the extreme of u, each carrying the same flux. */
export function evenFieldLines(potential: Float64Array, count: number): number[] {
  let extreme = 0;
  for (const value of potential) if (Math.abs(value) > Math.abs(extreme)) extreme = value;
  return Array.from({ length: count }, (_, k) => (extreme * (k + 0.5)) / count);
}
