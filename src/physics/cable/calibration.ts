/**
 * Friction of a cable from two readings of a spring balance at its handle.
 *
 * With the lever end free the balance shows every drag that does not depend on the tension, however it is shared out along
 * the run. Connected, the lever's pull T comes on top, multiplied by the bends, so that
 *
 *     connected - free = T exp(μΣ|φ|)          μ = ln[(connected - free)/T]/Σ|φ|
 *
 * The weight of the core changes that a little; it is carried by walking both cases. A band comes from the ends of each
 * reading: friction grows with `connected` and falls with `free` and with T.
 *
 * @throws DomainError SW-D096 a reading or pull that is not finite or below zero, or a band upside down
 */
import { findRoot } from '../../numerics/roots.ts';
import { DomainError } from '../domain-error.ts';
import { walkTension, type Sliding } from './tension.ts';
import { turnedBy, type Piece } from './route.ts';

export interface ReadingBand {
  readonly low: number;
  readonly value: number;
  readonly high: number;
}

export interface Calibration {
  /** At the handle with nothing connected, N. */
  readonly drag: ReadingBand;
  /** Of the value, what is left when the weight of the core is taken off, N: it does not depend on the tension. */
  readonly constantDrag: number;
  readonly friction: ReadingBand;
}

export type CalibrationOutcome =
  | { readonly agrees: true; readonly calibration: Calibration }
  /** 'no bends': friction cannot be read where nothing turns. */
  | { readonly agrees: false; readonly why: 'less than the lever asks' | 'more than any friction' | 'no bends' };

/** Friction beyond any that is met. */
const MOST = 3;

/**
 * @param pieces  from the lever to the handle
 * @param sliding its friction is not used
 * @param pull    of the lever on the core where the handle was hardest to pull, N
 */
export function calibrate(
  pieces: readonly Piece[],
  sliding: Omit<Sliding, 'friction'>,
  pull: ReadingBand,
  free: ReadingBand,
  connected: ReadingBand,
): CalibrationOutcome {
  for (const { low, value, high } of [pull, free, connected]) {
    if (!(value >= 0 && low <= value && value <= high && high < Infinity))
      throw new DomainError('SW-D096', `a reading from ${low} by ${value} to ${high} N has no meaning`);
  }
  if (!(turnedBy(pieces) > 1e-6) || !(pull.value > 0)) return { agrees: false, why: 'no bends' };
  const value = frictionFor(pieces, sliding, pull.value, connected.value - free.value);
  if (value === 'less') return { agrees: false, why: 'less than the lever asks' };
  if (value === 'more') return { agrees: false, why: 'more than any friction' };
  const least = frictionFor(pieces, sliding, pull.high, connected.low - free.high);
  const most = frictionFor(pieces, sliding, Math.max(pull.low, 1e-9), connected.high - free.low);
  return {
    agrees: true,
    calibration: {
      drag: { low: Math.max(0, free.low), value: free.value, high: free.high },
      constantDrag: Math.max(0, free.value - handleForce(pieces, sliding, value, 0)),
      friction: { low: Math.min(value, bounded(least)), value, high: Math.max(value, bounded(most)) },
    },
  };
}

const bounded = (friction: number | 'less' | 'more'): number =>
  friction === 'less' ? 0 : friction === 'more' ? MOST : friction;

function handleForce(
  pieces: readonly Piece[],
  sliding: Omit<Sliding, 'friction'>,
  friction: number,
  pull: number,
): number {
  return walkTension(pieces, { ...sliding, friction }, 'with the walk', pull, [], 'ends alone').tension;
}

function frictionFor(
  pieces: readonly Piece[],
  sliding: Omit<Sliding, 'friction'>,
  pull: number,
  difference: number,
): number | 'less' | 'more' {
  const added = (friction: number) =>
    handleForce(pieces, sliding, friction, pull) - handleForce(pieces, sliding, friction, 0) - difference;
  // A difference that equals the pull to rounding is a cable without friction.
  if (added(0) > 1e-9 * pull) return 'less';
  if (added(MOST) < 0) return 'more';
  return added(0) >= 0 ? 0 : findRoot(added, 0, MOST, 1e-10).at;
}
