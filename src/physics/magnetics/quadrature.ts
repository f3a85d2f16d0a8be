/**
 * Six-point rule of degree 4 on the reference triangle (corners (0,0), (1,0), (0,1); weights sum to 1/2), and the
 * second-order shape functions and their derivatives at its points.
 *
 * Nodes: corners 1 - x - y, x, y; then the middles of edges 01, 12, 20.
 *
 * [1] D. A. Dunavant, High degree efficient symmetrical Gaussian quadrature rules for the triangle, Int. J. Numer.
 *     Methods Eng. 21 (1985) 1129, rule of degree 4. The points are recomputed here from their closed form.
 */
export const POINTS = 6;

const root10 = Math.sqrt(10);
const inner = Math.sqrt(38 - 44 * Math.sqrt(2 / 5));
const A = (8 - root10 + inner) / 18;
const B = (8 - root10 - inner) / 18;
const weightRoot = Math.sqrt(213125 - 53320 * root10);
const WEIGHT_A = (620 + weightRoot) / 7440;
const WEIGHT_B = (620 - weightRoot) / 7440;

const X = [A, 1 - 2 * A, A, B, 1 - 2 * B, B];
const Y = [A, A, 1 - 2 * A, B, B, 1 - 2 * B];

export const WEIGHT = Float64Array.from([WEIGHT_A, WEIGHT_A, WEIGHT_A, WEIGHT_B, WEIGHT_B, WEIGHT_B]);
/** Area coordinates of the points: three per point. */
export const AREA = Float64Array.from(X.flatMap((x, q) => [1 - x - Y[q], x, Y[q]]));
/** Shape functions at the points: six per point. */
export const SHAPE = Float64Array.from(X.flatMap((x, q) => shape(x, Y[q])));
/** Their derivatives with respect to x and y. */
export const SHAPE_X = Float64Array.from(X.flatMap((x, q) => shapeX(x, Y[q])));
export const SHAPE_Y = Float64Array.from(X.flatMap((x, q) => shapeY(x, Y[q])));

export function shape(x: number, y: number): number[] {
  const l = 1 - x - y;
  return [l * (2 * l - 1), x * (2 * x - 1), y * (2 * y - 1), 4 * l * x, 4 * x * y, 4 * y * l];
}

function shapeX(x: number, y: number): number[] {
  const l = 1 - x - y;
  return [1 - 4 * l, 4 * x - 1, 0, 4 * (l - x), 4 * y, -4 * y];
}

function shapeY(x: number, y: number): number[] {
  const l = 1 - x - y;
  return [1 - 4 * l, 0, 4 * y - 1, -4 * x, 4 * x, 4 * (l - y)];
}
