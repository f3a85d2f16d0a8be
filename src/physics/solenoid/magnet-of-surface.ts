import type { CoEnergySurface } from './field/co-energy-surface.ts';
import { magnetOf, type Magnet, type MagnetNumbers } from './magnet-form.ts';

/** Eight coefficients a cell of a curve: q, then ∂q/∂y, each a cubic in x from the cell's beginning. */
const PER_CELL = 8;

/**
 * The surface of a field map, laid out for many evaluations: every cubic Hermite piece as the coefficients of a cubic, all
 * curves cut at the same places (a cubic cut in two is the same cubic). At a gap the two neighbouring curves are joined to
 * one cubic of q and one of ∂q/∂y, which serve as long as gap and cell stay. The same surface as `surfaceAt` to rounding.
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
  const y = Float64Array.from(gaps, (gap) => Math.log(gap + softening));
  const nodes = allNodes(curves.map(({ x }) => x));
  const perLine = PER_CELL * (nodes.length - 1);
  const cubics = new Float64Array(perLine * lines);
  curves.forEach(({ x, q, qSlope, qy, qySlope }, j) => {
    let of = 0;
    for (let i = 0; i + 1 < nodes.length; i++) {
      while (of + 2 < x.length && nodes[i] >= x[of + 1]) of++;
      const [width, from, k] = [x[of + 1] - x[of], nodes[i] - x[of], perLine * j + PER_CELL * i];
      writeCubic(cubics, k, width, from, q[of], q[of + 1], qSlope[of], qSlope[of + 1]);
      writeCubic(cubics, k + 4, width, from, qy[of], qy[of + 1], qySlope[of], qySlope[of + 1]);
    }
  });
  const unitSquared = levelUnit * levelUnit;
  const lastCell = nodes.length - 2;
  // Where the last call was: the next is all but always near.
  let line = 0;
  let cell = 0;
  // Weights across the gap: values of the two lines, their slopes; then the derivatives of these.
  const across = new Float64Array(8);
  // The two joined cubics, of q and of ∂q/∂y; then where their cell begins and ends, and the gap that they are for.
  const joined = new Float64Array(11).fill(NaN);

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
    joined[10] = gap;
  };

  const join = (): void => {
    joined[8] = nodes[cell];
    joined[9] = cell === lastCell ? Infinity : nodes[cell + 1];
    const a = perLine * line + PER_CELL * cell;
    const b = a + perLine;
    const v = across[0];
    const V = across[1];
    const w = across[2];
    const W = across[3];
    joined[0] = v * cubics[a] + V * cubics[b] + w * cubics[a + 4] + W * cubics[b + 4];
    joined[1] = v * cubics[a + 1] + V * cubics[b + 1] + w * cubics[a + 5] + W * cubics[b + 5];
    joined[2] = v * cubics[a + 2] + V * cubics[b + 2] + w * cubics[a + 6] + W * cubics[b + 6];
    joined[3] = v * cubics[a + 3] + V * cubics[b + 3] + w * cubics[a + 7] + W * cubics[b + 7];
    const dv = across[4];
    const dV = across[5];
    const dw = across[6];
    const dW = across[7];
    joined[4] = dv * cubics[a] + dV * cubics[b] + dw * cubics[a + 4] + dW * cubics[b + 4];
    joined[5] = dv * cubics[a + 1] + dV * cubics[b + 1] + dw * cubics[a + 5] + dW * cubics[b + 5];
    joined[6] = dv * cubics[a + 2] + dV * cubics[b + 2] + dw * cubics[a + 6] + dW * cubics[b + 6];
    joined[7] = dv * cubics[a + 3] + dV * cubics[b + 3] + dw * cubics[a + 7] + dW * cubics[b + 7];
  };

  const evaluate = (gap: number, ampereTurns: number, into: MagnetNumbers): void => {
    const h = Math.sqrt(ampereTurns * ampereTurns + unitSquared);
    const x = Math.log((ampereTurns + h) / levelUnit);
    const isElsewhere = gap !== joined[10];
    if (isElsewhere) weighGap(gap);
    if (!(x >= joined[8] && x < joined[9])) {
      while (cell > 0 && x < nodes[cell]) cell--;
      while (cell < lastCell && x >= nodes[cell + 1]) cell++;
      join();
    } else if (isElsewhere) join();
    const u = x - joined[8];
    const q1 = joined[1];
    const q2 = joined[2];
    const q3 = joined[3];
    const d1 = joined[5];
    const d2 = joined[6];
    const d3 = joined[7];
    const qx = q1 + u * (2 * q2 + u * 3 * q3);
    const qy = joined[4] + u * (d1 + u * (d2 + u * d3));
    const permeance = Math.exp(joined[0] + u * (q1 + u * (q2 + u * q3)));
    const perLevel = 1 / h;
    const perGap = 1 / (gap + softening);
    const half = 0.5 * ampereTurns * ampereTurns;
    const coEnergy = half * permeance;
    const steepness = qx * perLevel;
    const fluxLinkage = permeance * (ampereTurns + half * steepness);
    into.coEnergy = coEnergy;
    into.fluxLinkage = fluxLinkage;
    into.force = -coEnergy * qy * perGap;
    into.fluxByAmpereTurns =
      steepness * fluxLinkage
      + permeance
        * (1 + ampereTurns * steepness + half * (2 * q2 + 6 * u * q3 - ampereTurns * steepness) * perLevel * perLevel);
    into.fluxByGap = (qy * fluxLinkage + coEnergy * (d1 + u * (2 * d2 + u * 3 * d3)) * perLevel) * perGap;
  };

  return magnetOf({ leastGap: gaps[0], mostGap: gaps[lines - 1], mostAmpereTurns, approximation: null, evaluate });
}

/** The nodes of all curves, rising; those that differ in the last digits only are one. */
function allNodes(curves: readonly Float64Array[]): Float64Array {
  const rising = curves.flatMap((x) => [...x]).sort((a, b) => a - b);
  return Float64Array.from(rising.filter((x, i) => i === 0 || x - rising[i - 1] > 1e-12 * x));
}

/** Coefficients of the cubic with given values and slopes at the ends of a width w, about a place `from` its beginning. */
function writeCubic(
  c: Float64Array,
  k: number,
  w: number,
  from: number,
  f0: number,
  f1: number,
  s0: number,
  s1: number,
): void {
  const secant = (f1 - f0) / w;
  const c2 = (3 * secant - 2 * s0 - s1) / w;
  const c3 = (s0 + s1 - 2 * secant) / (w * w);
  c[k] = f0 + from * (s0 + from * (c2 + from * c3));
  c[k + 1] = s0 + from * (2 * c2 + from * 3 * c3);
  c[k + 2] = c2 + from * 3 * c3;
  c[k + 3] = c3;
}
