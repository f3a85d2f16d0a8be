import type { CoEnergySurface } from './field/co-energy-surface.ts';
import { magnetOf, type Magnet, type MagnetNumbers } from './magnet-form.ts';

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
  // Weights across the gap (values of the two lines, then slopes), their derivatives, and the gap that they are for.
  const across = new Float64Array(9).fill(NaN);

  const weighGap = (gap: number): void => {
    while (line > 0 && gap < gaps[line]) line--;
    while (line + 2 < lines && gap >= gaps[line + 1]) line++;
    const width = y[line + 1] - y[line];
    const t = (Math.log(gap + softening) - y[line]) / width;
    const s = 1 - t;
    across[0] = s * s * (1 + 2 * t);
    across[1] = t * t * (3 - 2 * t);
    across[2] = width * t * s * s;
    across[3] = -width * t * t * s;
    across[4] = (-6 * t * s) / width;
    across[5] = (6 * t * s) / width;
    across[6] = s * (1 - 3 * t);
    across[7] = t * (3 * t - 2);
    across[8] = gap;
  };

  const evaluate = (gap: number, ampereTurns: number, into: MagnetNumbers): void => {
    if (gap !== across[8]) weighGap(gap);
    const ratio = ampereTurns / levelUnit;
    const root = Math.sqrt(ratio * ratio + 1);
    const x = Math.log(ratio + root);
    let q = 0;
    let qx = 0;
    let qxx = 0;
    let qy = 0;
    let qxy = 0;
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
      const v = across[side];
      const w = across[2 + side];
      const dv = across[4 + side];
      const dw = across[6 + side];
      const slope = c[k + 1] + u * (2 * c[k + 2] + u * 3 * c[k + 3]);
      const slopeAcross = c[k + 5] + u * (2 * c[k + 6] + u * 3 * c[k + 7]);
      const value = c[k] + u * (c[k + 1] + u * (c[k + 2] + u * c[k + 3]));
      const valueAcross = c[k + 4] + u * (c[k + 5] + u * (c[k + 6] + u * c[k + 7]));
      q += v * value + w * valueAcross;
      qx += v * slope + w * slopeAcross;
      qxx += v * (2 * c[k + 2] + 6 * u * c[k + 3]) + w * (2 * c[k + 6] + 6 * u * c[k + 7]);
      qy += dv * value + dw * valueAcross;
      qxy += dv * slope + dw * slopeAcross;
    }
    const permeance = Math.exp(q);
    const h = levelUnit * root;
    const r = gap + softening;
    const half = 0.5 * ampereTurns * ampereTurns;
    const steepness = qx / h;
    const fluxLinkage = permeance * (ampereTurns + half * steepness);
    into.coEnergy = half * permeance;
    into.fluxLinkage = fluxLinkage;
    into.force = (-half * permeance * qy) / r;
    into.fluxByAmpereTurns =
      steepness * fluxLinkage
      + permeance * (1 + ampereTurns * steepness + (half * (qxx - (qx * ampereTurns) / h)) / (h * h));
    into.fluxByGap = (qy * fluxLinkage + (half * permeance * qxy) / h) / r;
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
