/** What a trim says at any gap and drive: mean, band, and how a further reading would narrow it. */
import { choleskySolve, dotProduct } from '../../numerics/positive-definite.ts';
import {
  alike,
  forceWithScores,
  readingVariance,
  requireCovered,
  slopesAt,
  times,
  type PullReading,
  type Trim,
  type TrimDrive,
} from './trim.ts';

/** Standard normal quantile of a two-sided 95 % interval. */
export const NORMAL_95 = 1.959964;

export interface TrimmedForce {
  readonly gap: number;
  /** Most likely force (the median), N, and the ends of its 95 % band. */
  readonly force: number;
  readonly low95: number;
  readonly high95: number;
  /** Standard deviation of ln force. */
  readonly spread: number;
  /** Flux linkage per turn (Wb) of the solenoid with the fitted unknowns. */
  readonly fluxLinkage: number;
}

/** A place with what the posterior covariance needs there. */
interface Place {
  readonly gap: number;
  readonly drive: TrimDrive;
  /** ln F with all corrections, and the flux linkage. */
  readonly logForce: number;
  readonly fluxLinkage: number;
  /** Slopes over the scores less what the discrepancy seen at the readings takes off. */
  readonly free: Float64Array;
  /** Covariance of δ here with that at the readings, and C⁻¹ times it. */
  readonly seen: Float64Array;
  readonly weighted: Float64Array;
}

function placeAt(trim: Trim, gap: number, drive: TrimDrive): Place {
  const { maps, priors, scores, readings, discrepancy, slopes, residuals, errorFactor } = trim;
  const { force, fluxLinkage } = forceWithScores(maps, priors, scores, gap, drive);
  const seen = Float64Array.from(readings, (r) => alike(discrepancy, gap, drive, r.gap, r));
  const weighted = choleskySolve(errorFactor, seen);
  const free = slopesAt(maps, priors, scores, gap, drive);
  slopes.forEach((row, i) => row.forEach((slope, a) => (free[a] -= weighted[i] * slope)));
  return { gap, drive, logForce: Math.log(force) + dotProduct(weighted, residuals), fluxLinkage, free, seen, weighted };
}

/** Covariance of ln F at two places, given the readings. */
function covarianceOf(trim: Trim, a: Place, b: Place): number {
  return (
    dotProduct(a.free, times(trim.covariance, b.free))
    + alike(trim.discrepancy, a.gap, a.drive, b.gap, b.drive)
    - dotProduct(a.weighted, b.seen)
  );
}

/**
 * Force over a row of gaps (m, read gaps) at one drive, with its 95 % band. `widen` multiplies the band: 1, or more when
 * the readings scatter beyond their errors (`judgeReadings`).
 *
 * @throws DomainError SW-M051 outside what the maps cover
 */
export function trimmedForce(trim: Trim, gaps: readonly number[], drive: TrimDrive, widen = 1): TrimmedForce[] {
  return gaps.map((gap) => {
    requireCovered(trim.maps, trim.priors, gap, drive, 'curve');
    const place = placeAt(trim, gap, drive);
    const spread = widen * Math.sqrt(Math.max(0, covarianceOf(trim, place, place)));
    return {
      gap,
      force: Math.exp(place.logForce),
      low95: Math.exp(place.logForce - NORMAL_95 * spread),
      high95: Math.exp(place.logForce + NORMAL_95 * spread),
      spread,
      fluxLinkage: place.fluxLinkage,
    };
  });
}

/** A reading that could be taken: where, and how well. */
export type PossibleReading = Omit<PullReading, 'pull' | 'pullSpread'> & {
  /** Standard deviation of the balance: a share of the pull and an amount (N), squares added. */
  readonly balance: { readonly share: number; readonly amount: number };
};

export interface NextReading {
  readonly gap: number;
  readonly drive: TrimDrive;
  /** The pull to expect, N: shows which balance to take. */
  readonly expectedPull: number;
  /** Mean half-width of the 95 % band over the curve, as a share of the force: now, and expected after. */
  readonly bandNow: number;
  readonly bandAfter: number;
}

/**
 * Which of the possible readings is expected to leave the narrowest band over the curves wanted: the mean of the spread
 * over all their places, after the rank-one change that a reading makes to a linear Gaussian model,
 *
 *     var' = var - cov²/(var of the reading + its error²).
 *
 * @returns null if there is none to choose from
 */
export function nextReading(
  trim: Trim,
  possible: readonly PossibleReading[],
  wanted: readonly { readonly gap: number; readonly drive: TrimDrive }[],
): NextReading | null {
  const places = wanted.map(({ gap, drive }) => placeAt(trim, gap, drive));
  const variances = places.map((place) => Math.max(0, covarianceOf(trim, place, place)));
  const halfWidth = (all: readonly number[]): number =>
    all.reduce((sum, variance) => sum + Math.expm1(NORMAL_95 * Math.sqrt(variance)), 0) / all.length;
  let best: NextReading | null = null;
  for (const one of possible) {
    const place = placeAt(trim, one.gap, one);
    const pull = Math.exp(place.logForce);
    const pullSpread = Math.hypot(one.balance.share * pull, one.balance.amount);
    const error = readingVariance(trim.maps, trim.priors, trim.scores, { ...one, pull, pullSpread });
    const total = Math.max(0, covarianceOf(trim, place, place)) + error;
    const after = places.map((p, i) => Math.max(0, variances[i] - covarianceOf(trim, p, place) ** 2 / total));
    const bandAfter = halfWidth(after);
    if (best === null || bandAfter < best.bandAfter)
      best = {
        gap: one.gap,
        drive: { ampereTurns: one.ampereTurns, byTurns: one.byTurns },
        expectedPull: pull,
        bandNow: halfWidth(variances),
        bandAfter,
      };
  }
  return best;
}
