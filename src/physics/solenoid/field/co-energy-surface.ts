import { DomainError } from '../../domain-error.ts';

/** One solved point of the grid; `force` positive towards home. */
export interface GridPoint {
  readonly coEnergy: number;
  readonly fluxLinkage: number;
  readonly force: number;
}

/** What was solved at one gap, ampere-turns rising. */
export interface GridLine {
  readonly gap: number;
  /** The first level stands for none at all: small enough for the steel to be at its initial permeability. */
  readonly ampereTurns: readonly number[];
  readonly points: readonly GridPoint[];
}

/**
 * One smooth surface of co-energy over ampere-turns Θ and gap g, from which both flux linkage and force derive,
 *
 *     λ = ∂W'/∂Θ,      F = -∂W'/∂g      (towards home)
 *
 * so that energy is conserved on every path. It is held as
 *
 *     W' = ½ Θ² exp q(x, y),   x = asinh(Θ / Θ1),   y = ln(g + g0)
 *
 * where exp q is the permeance, all but constant while the steel is unsaturated. Along each solved gap q is a cubic
 * Hermite curve through the solved co-energies with the solved flux linkages as slopes, and ∂q/∂y, from the solved
 * forces, a cubic through its values. Between neighbouring gaps the two are joined by cubic Hermite weights in y. The
 * surface and its slopes are continuous and meet every solved co-energy, flux linkage and force. W' is positive by form,
 * and even in Θ.
 */
export interface CoEnergySurface {
  /** Gaps, metres, rising. */
  readonly gaps: Float64Array;
  /** Θ1 and g0. */
  readonly levelUnit: number;
  readonly softening: number;
  readonly mostAmpereTurns: number;
  readonly curves: readonly SurfaceCurve[];
}

/** One gap: nodes x, then q and ∂q/∂y with their slopes along x. */
interface SurfaceCurve {
  readonly x: Float64Array;
  readonly q: Float64Array;
  readonly qSlope: Float64Array;
  readonly qy: Float64Array;
  readonly qySlope: Float64Array;
}

export interface SurfacePoint {
  readonly coEnergy: number;
  readonly fluxLinkage: number;
  readonly force: number;
}

/** @param lines two or more, gaps rising; all from the same lowest to the same highest level, three levels or more */
export function coEnergySurface(lines: readonly GridLine[]): CoEnergySurface {
  const gaps = Float64Array.from(lines, (line) => line.gap);
  // The force of a narrow gap varies over gaps of the order of what else stands in the flux's way.
  const softening = (gaps[gaps.length - 1] - gaps[0]) / 40;
  const levelUnit = lines[0].ampereTurns[1];
  return {
    gaps,
    levelUnit,
    softening,
    mostAmpereTurns: lines[0].ampereTurns[lines[0].ampereTurns.length - 1],
    curves: lines.map((line) => curveOf(line, levelUnit, softening)),
  };
}

function curveOf({ gap, ampereTurns, points }: GridLine, levelUnit: number, softening: number): SurfaceCurve {
  const x = Float64Array.from(ampereTurns, (level, i) => (i === 0 ? 0 : Math.asinh(level / levelUnit)));
  const q = Float64Array.from(points, ({ coEnergy }, i) => Math.log((2 * coEnergy) / ampereTurns[i] ** 2));
  const qSlope = Float64Array.from(points, ({ coEnergy, fluxLinkage }, i) =>
    i === 0 ? 0 : (fluxLinkage / coEnergy - 2 / ampereTurns[i]) * Math.hypot(ampereTurns[i], levelUnit),
  );
  const qy = Float64Array.from(points, ({ coEnergy, force }) => (-force / coEnergy) * (gap + softening));
  const qySlope = qy.map((_, i) => (i === 0 ? 0 : slopeAt(x, qy, i)));
  return { x, q, qSlope, qy, qySlope };
}

/** Derivative at node k of values on uneven nodes: the parabola through it and its neighbours. */
function slopeAt(nodes: Float64Array, values: Float64Array, k: number): number {
  const m = Math.min(nodes.length - 2, Math.max(1, k));
  const [h0, h1] = [nodes[m] - nodes[m - 1], nodes[m + 1] - nodes[m]];
  const [s0, s1] = [(values[m] - values[m - 1]) / h0, (values[m + 1] - values[m]) / h1];
  return s0 + ((s1 - s0) / (h0 + h1)) * (2 * nodes[k] - nodes[m - 1] - nodes[m]);
}

/**
 * Co-energy (J), flux linkage per turn (Wb) and force towards home (N) at a gap (m) and ampere-turns.
 *
 * @throws DomainError SW-M040 outside the solved range: the surface does not extrapolate
 */
export function surfaceAt(surface: CoEnergySurface, gap: number, ampereTurns: number): SurfacePoint {
  const { gaps, levelUnit, softening, mostAmpereTurns, curves } = surface;
  const level = Math.abs(ampereTurns);
  if (!(gap >= gaps[0] - 1e-9 && gap <= gaps[gaps.length - 1] + 1e-9 && level <= mostAmpereTurns * (1 + 1e-9)))
    throw new DomainError(
      'SW-M040',
      `the map covers gaps of ${gaps[0]} to ${gaps[gaps.length - 1]} m and up to ${mostAmpereTurns} ampere-turns, not ${gap} m and ${ampereTurns}`,
    );
  const j = cell(gaps, gap);
  const y0 = Math.log(gaps[j] + softening);
  const width = Math.log(gaps[j + 1] + softening) - y0;
  const [v, dv] = hermite((Math.log(gap + softening) - y0) / width, width);
  const x = Math.asinh(level / levelUnit);
  let q = 0;
  let qx = 0;
  let qy = 0;
  for (let b = 0; b < 2; b++) {
    const curve = curves[j + b];
    const i = cell(curve.x, x);
    const w = curve.x[i + 1] - curve.x[i];
    const [u, du] = hermite((x - curve.x[i]) / w, w);
    const along = (weights: number[], value: Float64Array, slope: Float64Array): number =>
      weights[0] * value[i] + weights[1] * value[i + 1] + weights[2] * slope[i] + weights[3] * slope[i + 1];
    const value = along(u, curve.q, curve.qSlope);
    const slopeY = along(u, curve.qy, curve.qySlope);
    q += v[b] * value + v[2 + b] * slopeY;
    qx += v[b] * along(du, curve.q, curve.qSlope) + v[2 + b] * along(du, curve.qy, curve.qySlope);
    qy += dv[b] * value + dv[2 + b] * slopeY;
  }
  const permeance = Math.exp(q);
  const coEnergy = (permeance * level * level) / 2;
  return {
    coEnergy,
    fluxLinkage: permeance * ampereTurns * (1 + (qx * level) / (2 * Math.hypot(level, levelUnit))),
    force: (-coEnergy * qy) / (gap + softening),
  };
}

/** `surfaceAt` on the first of the solved gaps. */
export function curveAt(surface: CoEnergySurface, ampereTurns: number): SurfacePoint {
  return surfaceAt(surface, surface.gaps[0], ampereTurns);
}

/** Index of the cell that holds a value, the last one at its end. */
function cell(nodes: Float64Array, value: number): number {
  let k = 0;
  while (k + 2 < nodes.length && value >= nodes[k + 1]) k++;
  return k;
}

/** Cubic Hermite weights of the two values and the two slopes of a cell of width w, and their derivatives. */
function hermite(t: number, w: number): [number[], number[]] {
  const s = 1 - t;
  return [
    [s * s * (1 + 2 * t), t * t * (3 - 2 * t), w * t * s * s, -w * t * t * s],
    [(-6 * t * s) / w, (6 * t * s) / w, s * (1 - 3 * t), t * (3 * t - 2)],
  ];
}
