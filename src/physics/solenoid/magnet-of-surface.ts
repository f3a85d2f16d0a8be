import type { CoEnergySurface } from './field/co-energy-surface.ts';
import {
  CO_ENERGY,
  FLUX_BY_AMPERE_TURNS,
  FLUX_BY_GAP,
  FLUX_LINKAGE,
  FORCE,
  magnetOf,
  type Magnet,
} from './magnet-form.ts';

/** Eight coefficients a cell of a curve: q, then ∂q/∂y, each a cubic in x from the cell's beginning. */
const PER_CELL = 8;

/**
 * The surface of a field map, laid out for many evaluations: every cubic Hermite piece as the coefficients of a cubic, so
 * that value and slopes are a few products, and no object is made. The same surface as `surfaceAt` to rounding.
 *
 * With E = exp q, h = √(Θ² + Θ1²), r = g + g0:
 *
 *     λ = E (Θ + ½ Θ² qx/h),     F = -½ Θ² E qy/r
 *     ∂λ/∂Θ = (qx/h) λ + E (1 + Θ qx/h + ½ Θ² (qxx - qx Θ/h)/h²)
 *     ∂λ/∂g = (qy λ + ½ Θ² E qxy/h)/r
 */
export function magnetOfSurface(surface: CoEnergySurface): Magnet {
  const { gaps, levelUnit, softening, mostAmpereTurns, curves } = surface;
  const lines = gaps.length;
  const y = gaps.map((gap) => Math.log(gap + softening));
  const nodes = curves.map((curve) => curve.x);
  const cubics = curves.map(({ x, q, qSlope, qy, qySlope }) => {
    const cells = new Float64Array(PER_CELL * (x.length - 1));
    for (let i = 0; i + 1 < x.length; i++) {
      writeCubic(cells, PER_CELL * i, x[i + 1] - x[i], q[i], q[i + 1], qSlope[i], qSlope[i + 1]);
      writeCubic(cells, PER_CELL * i + 4, x[i + 1] - x[i], qy[i], qy[i + 1], qySlope[i], qySlope[i + 1]);
    }
    return cells;
  });
  // Where the last call was: the next is all but always near.
  const cells = new Int32Array(lines);
  let line = 0;
  let lastGap = NaN;
  let [v0, v1, v2, v3] = [0, 0, 0, 0];
  let [dv0, dv1, dv2, dv3] = [0, 0, 0, 0];

  const acrossGaps = (gap: number): void => {
    while (line > 0 && gap < gaps[line]) line--;
    while (line + 2 < lines && gap >= gaps[line + 1]) line++;
    const width = y[line + 1] - y[line];
    const t = (Math.log(gap + softening) - y[line]) / width;
    const s = 1 - t;
    v0 = s * s * (1 + 2 * t);
    v1 = t * t * (3 - 2 * t);
    v2 = width * t * s * s;
    v3 = -width * t * t * s;
    dv1 = (6 * t * s) / width;
    dv0 = -dv1;
    dv2 = s * (1 - 3 * t);
    dv3 = t * (3 * t - 2);
    lastGap = gap;
  };

  const evaluate = (gap: number, ampereTurns: number, into: Float64Array): void => {
    if (gap !== lastGap) acrossGaps(gap);
    const ratio = ampereTurns / levelUnit;
    const root = Math.sqrt(ratio * ratio + 1);
    const x = Math.log(ratio + root);
    let [q, qx, qxx, qy, qxy] = [0, 0, 0, 0, 0];
    for (let side = 0; side < 2; side++) {
      const at = line + side;
      const grid = nodes[at];
      let cell = cells[at];
      while (cell > 0 && x < grid[cell]) cell--;
      while (cell + 2 < grid.length && x >= grid[cell + 1]) cell++;
      cells[at] = cell;
      const c = cubics[at];
      const k = PER_CELL * cell;
      const u = x - grid[cell];
      const value = c[k] + u * (c[k + 1] + u * (c[k + 2] + u * c[k + 3]));
      const slope = c[k + 1] + u * (2 * c[k + 2] + u * 3 * c[k + 3]);
      const bend = 2 * c[k + 2] + 6 * u * c[k + 3];
      const across = c[k + 4] + u * (c[k + 5] + u * (c[k + 6] + u * c[k + 7]));
      const acrossSlope = c[k + 5] + u * (2 * c[k + 6] + u * 3 * c[k + 7]);
      const acrossBend = 2 * c[k + 6] + 6 * u * c[k + 7];
      const v = side === 0 ? v0 : v1;
      const w = side === 0 ? v2 : v3;
      const dv = side === 0 ? dv0 : dv1;
      const dw = side === 0 ? dv2 : dv3;
      q += v * value + w * across;
      qx += v * slope + w * acrossSlope;
      qxx += v * bend + w * acrossBend;
      qy += dv * value + dw * across;
      qxy += dv * slope + dw * acrossSlope;
    }
    const permeance = Math.exp(q);
    const h = levelUnit * root;
    const r = gap + softening;
    const half = 0.5 * ampereTurns * ampereTurns;
    const steepness = qx / h;
    const fluxLinkage = permeance * (ampereTurns + half * steepness);
    into[CO_ENERGY] = half * permeance;
    into[FLUX_LINKAGE] = fluxLinkage;
    into[FORCE] = (-half * permeance * qy) / r;
    into[FLUX_BY_AMPERE_TURNS] =
      steepness * fluxLinkage
      + permeance * (1 + ampereTurns * steepness + (half * (qxx - (qx * ampereTurns) / h)) / (h * h));
    into[FLUX_BY_GAP] = (qy * fluxLinkage + (half * permeance * qxy) / h) / r;
  };

  return magnetOf({ leastGap: gaps[0], mostGap: gaps[lines - 1], mostAmpereTurns, approximation: null, evaluate });
}

/** Coefficients of the cubic in u with given values and slopes at u = 0 and u = w. */
function writeCubic(c: Float64Array, k: number, w: number, f0: number, f1: number, s0: number, s1: number): void {
  const secant = (f1 - f0) / w;
  c[k] = f0;
  c[k + 1] = s0;
  c[k + 2] = (3 * secant - 2 * s0 - s1) / w;
  c[k + 3] = (s0 + s1 - 2 * secant) / (w * w);
}
