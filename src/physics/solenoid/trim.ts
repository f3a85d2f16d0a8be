/**
 * A field map trimmed to a few pulls: the force curve with a 95 % band from dimensions and any number of readings.
 *
 * The logarithm of a pull is taken to be
 *
 *     ln F = ln F(g, Θ; z) + δ(g, Θ) + ε
 *
 * with the unknowns z of `trim-unknowns.ts` (independent, standard normal), a discrepancy δ for all that the model leaves
 * out (other dimensions, joints, a plunger out of centre, hysteresis), and the error ε of the reading. δ is a Gaussian
 * process, alike at places that are near in ln(g + g0) and ln Θ [1]. z is the most likely one by Gauss-Newton steps; its
 * spread is that of the quadratic at the maximum (Laplace), and the band follows from both together [2].
 *
 * [1] M. C. Kennedy, A. O'Hagan, Bayesian calibration of computer models, J. R. Stat. Soc. B 63 (2001) 425
 * [2] C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine Learning, MIT Press 2006, section 2.7
 */
import {
  choleskyFactor,
  choleskyInverse,
  choleskySolve,
  dotProduct,
  type CholeskyFactor,
} from '../../numerics/positive-definite.ts';
import { DomainError } from '../domain-error.ts';
import { trimMapAt, type TrimMaps } from './trim-maps.ts';
import { TRIM_UNKNOWNS, type TrimPriors, trimValues } from './trim-unknowns.ts';
import type { SurfacePoint } from './field/co-energy-surface.ts';

/**
 * What drives the coil: ampere-turns. `byTurns` when they come from a current and the turns as guessed, so that they
 * change with the turns; not when they were given as such.
 */
export interface TrimDrive {
  readonly ampereTurns: number;
  readonly byTurns: boolean;
}

/** One pull, with standard deviations: of the pull (N), of the gap (m), and of the drive relative to itself. */
export interface PullReading extends TrimDrive {
  readonly gap: number;
  readonly pull: number;
  readonly pullSpread: number;
  readonly gapSpread: number;
  readonly driveSpread: number;
}

/** Spread of the discrepancy (in ln F) and the distances in ln(g + g0) and in ln Θ over which it changes. */
export interface Discrepancy {
  readonly spread: number;
  readonly overGap: number;
  readonly overDrive: number;
  /** g0, m. */
  readonly softening: number;
}

/** Our own estimate, no source: a twentieth, as far as joints, eccentricity and other dimensions move a force curve. */
export const USUAL_DISCREPANCY: Discrepancy = { spread: 0.05, overGap: 1, overDrive: 1, softening: 0.5e-3 };

/** Fitted unknowns. Plain data; `trimmedForce` and the others read it. */
export interface Trim {
  readonly maps: TrimMaps;
  readonly priors: TrimPriors;
  readonly discrepancy: Discrepancy;
  readonly readings: readonly PullReading[];
  /** Most likely scores, and their covariance, 6 × 6 row by row. */
  readonly scores: Float64Array;
  readonly covariance: Float64Array;
  /** Is the fit at a maximum? If not, say so beside the curve. */
  readonly converged: boolean;
  readonly iterations: number;
  /** d ln F / d z at the readings, a row each, and ln pull - ln F(z). */
  readonly slopes: readonly Float64Array[];
  readonly residuals: Float64Array;
  /** Covariance of δ + ε at the readings, n × n, and its factor. */
  readonly errorCovariance: Float64Array;
  readonly errorFactor: CholeskyFactor;
}

const UNKNOWNS = TRIM_UNKNOWNS.length;
/** Wide enough to see past the kinks of the maps, small beside the spread of a score. */
const STEP = 0.1;
const MOST_ITERATIONS = 40;
/** Gain in log probability that is not worth another step. */
const ENOUGH = 1e-4;
const ENOUGH_IN_A_KINK = 0.1;
/** Added to the curvature of the log probability, one after the other, until a step helps (Levenberg's way). */
const DAMPINGS = [0, 0.5, 2, 8, 32, 128, 512, 2048];
/** The errors of the readings depend a little on z (through the slopes); after so many steps they are held. */
const ERRORS_RENEWED = 5;
/** Scores are held within this; further out no prior is to be believed. */
const MOST_SCORE = 4;

/** Force and flux linkage of the solenoid with these scores, without the discrepancy. */
export function forceWithScores(
  maps: TrimMaps,
  priors: TrimPriors,
  z: ArrayLike<number>,
  gap: number,
  drive: TrimDrive,
): SurfacePoint {
  const { turnsFactor, residualGap, clearanceFactor, saturation, fieldStrength: h, faceOffset } = trimValues(priors, z);
  const ampereTurns = drive.ampereTurns * (drive.byTurns ? turnsFactor : 1);
  const magneticGap = Math.min(gap + residualGap, maps.fine.gaps[maps.fine.gaps.length - 1]);
  const level = Math.min(ampereTurns / h, maps.fine.mostAmpereTurns);
  const point = trimMapAt(maps, magneticGap, level, clearanceFactor, Math.log(saturation / h), faceOffset);
  return { coEnergy: h * h * point.coEnergy, fluxLinkage: h * point.fluxLinkage, force: h * h * point.force };
}

/**
 * Fits the unknowns to the pulls; without any, the outcome is the prior.
 *
 * @throws DomainError SW-M050 a reading that is no number above zero (a gap: zero or more) or has no spread;
 *   SW-M051 a reading outside what the maps cover
 */
export function fitTrim(
  maps: TrimMaps,
  priors: TrimPriors,
  readings: readonly PullReading[],
  discrepancy: Discrepancy = USUAL_DISCREPANCY,
): Trim {
  readings.forEach((reading, i) => checkReading(maps, priors, reading, i));
  const n = readings.length;
  let z = new Float64Array(UNKNOWNS);
  let state = linearise(maps, priors, readings, discrepancy, z);
  let converged = false;
  let iterations = 0;
  while (iterations < MOST_ITERATIONS && !converged) {
    iterations++;
    const gradient = z.map((score) => -score);
    const weighted = choleskySolve(state.errorFactor, state.residuals);
    state.slopes.forEach((row, i) => row.forEach((slope, a) => (gradient[a] += slope * weighted[i])));
    const promised = dotProduct(times(posteriorCovariance(state, n), gradient), gradient) / 2;
    // Steps are judged with the errors as they stand; one that does not help is shortened and turned uphill.
    const before = penalty(z, state.residuals, state.errorFactor);
    let gained = 0;
    for (const damping of DAMPINGS) {
      const step = times(posteriorCovariance(state, n, damping), gradient);
      const trial = z.map((score, a) => Math.max(-MOST_SCORE, Math.min(MOST_SCORE, score + step[a])));
      gained = before - penalty(trial, residualsAt(maps, priors, readings, trial), state.errorFactor);
      if (gained <= 1e-6 * promised) continue;
      z = trial;
      break;
    }
    // The force has kinks where cells of the maps meet; a maximum in a kink promises a little for ever.
    converged = promised < ENOUGH || (gained < ENOUGH && promised < ENOUGH_IN_A_KINK);
    if (gained <= 0) break;
    const renewed = linearise(maps, priors, readings, discrepancy, z);
    state =
      iterations < ERRORS_RENEWED
        ? renewed
        : { ...renewed, errorCovariance: state.errorCovariance, errorFactor: state.errorFactor };
  }
  return {
    maps,
    priors,
    discrepancy,
    readings,
    scores: z,
    covariance: posteriorCovariance(state, n),
    converged,
    iterations,
    ...state,
  };
}

interface State {
  readonly slopes: readonly Float64Array[];
  readonly residuals: Float64Array;
  readonly errorCovariance: Float64Array;
  readonly errorFactor: CholeskyFactor;
}

function penalty(z: Float64Array, residuals: Float64Array, factor: CholeskyFactor): number {
  return (dotProduct(z, z) + dotProduct(residuals, choleskySolve(factor, residuals))) / 2;
}

function residualsAt(
  maps: TrimMaps,
  priors: TrimPriors,
  readings: readonly PullReading[],
  z: Float64Array,
): Float64Array {
  return Float64Array.from(readings, (r) => Math.log(r.pull / forceWithScores(maps, priors, z, r.gap, r).force));
}

/** Slopes of ln F over the scores at one place, by central differences. */
export function slopesAt(
  maps: TrimMaps,
  priors: TrimPriors,
  z: Float64Array,
  gap: number,
  drive: TrimDrive,
): Float64Array {
  const slopes = new Float64Array(UNKNOWNS);
  for (let a = 0; a < UNKNOWNS; a++) {
    const [up, down] = [z.slice(), z.slice()];
    up[a] += STEP;
    down[a] -= STEP;
    const [high, low] = [up, down].map((scores) => forceWithScores(maps, priors, scores, gap, drive).force);
    slopes[a] = Math.log(high / low) / (2 * STEP);
  }
  return slopes;
}

/** Variance of ln(pull as read): balance, gap and drive together. */
export function readingVariance(maps: TrimMaps, priors: TrimPriors, z: Float64Array, reading: PullReading): number {
  const { gap, pull, pullSpread, gapSpread, driveSpread } = reading;
  const at = (g: number, drive: TrimDrive): number => forceWithScores(maps, priors, z, g, drive).force;
  const half = Math.max(gapSpread / 2, 1e-6);
  const low = Math.max(0, gap - half);
  const overGap = Math.log(at(gap + half, reading) / at(low, reading)) / (gap + half - low);
  const stronger = { ...reading, ampereTurns: reading.ampereTurns * 1.01 };
  const overDrive = Math.log(at(gap, stronger) / at(gap, reading)) / Math.log(1.01);
  return (pullSpread / pull) ** 2 + (overGap * gapSpread) ** 2 + (overDrive * driveSpread) ** 2;
}

function linearise(
  maps: TrimMaps,
  priors: TrimPriors,
  readings: readonly PullReading[],
  discrepancy: Discrepancy,
  z: Float64Array,
): State {
  const n = readings.length;
  const errorCovariance = new Float64Array(n * n);
  readings.forEach((a, i) => {
    readings.forEach((b, j) => (errorCovariance[i * n + j] = alike(discrepancy, a.gap, a, b.gap, b)));
    errorCovariance[i * n + i] += readingVariance(maps, priors, z, a);
  });
  const errorFactor = choleskyFactor(errorCovariance, n);
  if (errorFactor === null) throw new DomainError('SW-M050', 'the errors of the readings must be above zero');
  return {
    slopes: readings.map((r) => slopesAt(maps, priors, z, r.gap, r)),
    residuals: residualsAt(maps, priors, readings, z),
    errorCovariance,
    errorFactor,
  };
}

/** Covariance of the discrepancy at two places. */
export function alike(discrepancy: Discrepancy, gapA: number, a: TrimDrive, gapB: number, b: TrimDrive): number {
  const { spread, overGap, overDrive, softening } = discrepancy;
  const dg = Math.log((gapA + softening) / (gapB + softening)) / overGap;
  const dn = Math.log(a.ampereTurns / b.ampereTurns) / overDrive;
  return spread ** 2 * Math.exp(-(dg * dg + dn * dn) / 2);
}

/** (1 + Jᵀ C⁻¹ J + damping)⁻¹; without damping the covariance of the scores. */
function posteriorCovariance({ slopes, errorFactor }: State, n: number, damping = 0): Float64Array {
  const precision = new Float64Array(UNKNOWNS * UNKNOWNS);
  for (let a = 0; a < UNKNOWNS; a++) {
    const column = choleskySolve(
      errorFactor,
      Float64Array.from({ length: n }, (_, i) => slopes[i][a]),
    );
    for (let b = 0; b < UNKNOWNS; b++) {
      precision[b * UNKNOWNS + a] = a === b ? 1 + damping : 0;
      for (let i = 0; i < n; i++) precision[b * UNKNOWNS + a] += slopes[i][b] * column[i];
    }
  }
  return choleskyInverse(choleskyFactor(precision, UNKNOWNS)!);
}

export function times(matrix: Float64Array, vector: Float64Array): Float64Array {
  const n = vector.length;
  return Float64Array.from({ length: n }, (_, i) => dotProduct(matrix.subarray(i * n, (i + 1) * n), vector));
}

function checkReading(maps: TrimMaps, priors: TrimPriors, reading: PullReading, i: number): void {
  const { gap, pull, ampereTurns, pullSpread, gapSpread, driveSpread } = reading;
  const named = { pull, 'ampere-turns': ampereTurns, 'spread of the pull': pullSpread };
  for (const [name, value] of Object.entries(named))
    if (!(value > 0 && value < Infinity))
      throw new DomainError('SW-M050', `reading ${i + 1}: ${name} must be finite and above zero, not ${value}`);
  for (const [name, value] of Object.entries({
    gap,
    'spread of the gap': gapSpread,
    'spread of the drive': driveSpread,
  }))
    if (!(value >= 0 && value < Infinity))
      throw new DomainError('SW-M050', `reading ${i + 1}: ${name} must be finite and zero or more, not ${value}`);
  requireCovered(maps, priors, gap, reading, `reading ${i + 1}`);
}

/** @throws DomainError SW-M051 */
export function requireCovered(maps: TrimMaps, priors: TrimPriors, gap: number, drive: TrimDrive, who: string): void {
  const widest = maps.fine.gaps[maps.fine.gaps.length - 1] - priors.residualGap.median;
  if (!(gap >= 0 && gap <= widest))
    throw new DomainError('SW-M051', `${who}: the maps cover gaps of 0 to ${widest} m, not ${gap} m`);
  if (!(drive.ampereTurns > 0 && drive.ampereTurns <= maps.fine.mostAmpereTurns))
    throw new DomainError(
      'SW-M051',
      `${who}: the maps cover up to ${maps.fine.mostAmpereTurns} ampere-turns, not ${drive.ampereTurns}`,
    );
}
