import { pchipAt } from '../../numerics/pchip.ts';
import { SOFTENING, type ForceTable, type LevelCurve } from './table.ts';

/** Pulls at every current that was read, carried to every gap of a grid, and their work. */
export interface Pulls {
  /** m, rising: every gap that was read, and enough between. */
  readonly gaps: readonly number[];
  /** A, rising. */
  readonly currents: readonly number[];
  /** N, at each gap and current. */
  readonly force: readonly (readonly number[])[];
  /** The integral of the force from each gap to the widest, J. */
  readonly work: readonly (readonly number[])[];
}

/** Over this much gap the exponent of the current returns to that of air, m. Starting value of this program, no source. */
const RETURN_TO_AIR = 3e-3;
/** Of the current in air. */
const SQUARE = 2;
/** Currents closer than this say nothing of an exponent. */
const LEAST_RATIO = 1.05;

/**
 * The pulls of a table over the gaps of the level that was read most widely. A current that was read over a part of them
 * (home, as a rule) lends its exponent at its last gap to the gaps beyond, where it returns to that of air over
 * `RETURN_TO_AIR`; nearer home than it was read, the exponent stays. A pull that falls with the current is an error of
 * reading: the one that was read less widely gives way, as far as it must. Of two currents within 5 % the one read more
 * widely counts alone.
 */
export function pullsOf({ levels }: ForceTable): Pulls {
  const believed: LevelCurve[] = [];
  for (const level of levels.toSorted((a, b) => (isWider(a, b) ? -1 : isWider(b, a) ? 1 : 0)))
    if (believed.every(({ current }) => Math.max(current / level.current, level.current / current) >= LEAST_RATIO))
      believed.push(level);
  const rising = believed.toSorted((a, b) => a.current - b.current);
  const places = believed.map((level) => rising.indexOf(level));
  const forcesAt = (gap: number): number[] => {
    const forces = rising.map(() => NaN);
    believed.forEach((level, n) => {
      let force = n === 0 ? readForce(level, gap) : carried(level, believed[0], gap);
      for (let other = 0; other < n; other++) {
        const known = forces[places[other]];
        force = believed[other].current < level.current ? Math.max(force, known) : Math.min(force, known);
      }
      forces[places[n]] = force;
    });
    return forces;
  };
  const gaps = gapsOf(believed);
  return {
    gaps,
    currents: rising.map(({ current }) => current),
    force: gaps.map(forcesAt),
    work: worksOf(gaps, forcesAt),
  };
}

/** The pull of a level at any gap of the base, N. */
function carried(level: LevelCurve, base: LevelCurve, gap: number): number {
  const at = Math.min(level.to, Math.max(level.from, gap));
  if (at === gap) return readForce(level, gap);
  const ratio = Math.log(level.current / base.current);
  const exponent = Math.log(readForce(level, at) / readForce(base, at)) / ratio;
  const share = gap > at ? Math.exp((at - gap) / RETURN_TO_AIR) : 1;
  return readForce(base, gap) * Math.exp((SQUARE + (exponent - SQUARE) * share) * ratio);
}

/** Gauss-Legendre nodes and weights on 0 to 1, three points: exact to the fifth power. */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;
/** Pieces between two gaps. */
const PIECES = 2;

function worksOf(gaps: readonly number[], forcesAt: (gap: number) => number[]): number[][] {
  const works = gaps.map((): number[] => []);
  works[gaps.length - 1] = forcesAt(gaps[0]).map(() => 0);
  for (let j = gaps.length - 2; j >= 0; j--) {
    const width = (gaps[j + 1] - gaps[j]) / PIECES;
    const work = [...works[j + 1]];
    for (let piece = 0; piece < PIECES; piece++)
      for (const [node, weight] of GAUSS) {
        const forces = forcesAt(gaps[j] + (piece + node) * width);
        for (let n = 0; n < work.length; n++) work[n] += weight * width * forces[n];
      }
    works[j] = work;
  }
  return works;
}

/** Gaps of the grid between those that were read: close together near home, where a pull changes fastest. */
const EVEN_GAPS = 20;
/** Two gaps of the grid are never closer, m: less than what was between the faces. */
const LEAST_APART = 2e-5;

function gapsOf(believed: readonly LevelCurve[]): number[] {
  const { from, to } = believed[0];
  const softening = (to - from) / 40;
  const ratio = ((to - from) / softening + 1) ** (1 / (EVEN_GAPS - 1));
  const gaps = [from, to];
  const isFree = (gap: number, apart: number): boolean => gaps.every((other) => Math.abs(other - gap) >= apart);
  for (const { curve } of believed)
    for (const x of curve.x) {
      const gap = Math.exp(x) - SOFTENING;
      if (gap > from && gap < to && isFree(gap, LEAST_APART)) gaps.push(gap);
    }
  for (let k = 1; k + 1 < EVEN_GAPS; k++) {
    const gap = from - softening + softening * ratio ** k;
    if (isFree(gap, 0.3 * (ratio - 1) * (gap - from + softening))) gaps.push(gap);
  }
  return gaps.sort((a, b) => a - b);
}

function readForce({ curve }: LevelCurve, gap: number): number {
  return Math.exp(pchipAt(curve, Math.log(gap + SOFTENING)));
}

/** Read over more gaps, by more than the last digits of a length. */
function isWider(one: LevelCurve, other: LevelCurve): boolean {
  return one.to - one.from > other.to - other.from + 1e-9;
}
