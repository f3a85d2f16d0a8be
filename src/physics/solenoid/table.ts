/**
 * A plunger solenoid known from pulls that were read: F(gap) at one or more stated currents.
 *
 * Between gaps a shape-keeping cubic is drawn in log F over log(g + g0). Between two currents the exponent of the
 * current is interpolated at each gap; beyond one it is taken on the cautious side: for a pull that must be enough, 2.15
 * downward and 0 upward; for a force that must be small, the other way round. Beyond a factor of 1.5 from any current
 * that was read nothing is said. [PHYSICS 4, source 1]
 *
 * Why 2.15: in air the force goes as the square of the current; steel that is not yet on the steep of its B-H curve makes
 * it a little steeper. Why 0: saturated steel gives no more.
 */
import { pchip, pchipAt, type Pchip } from '../../numerics/pchip.ts';
import { DomainError } from '../domain-error.ts';

export interface ForceLevel {
  /** Coil current while the pulls were read, A. */
  readonly current: number;
  /** Gaps, m, strictly increasing. */
  readonly gaps: readonly number[];
  /** Pulls, N, above zero. */
  readonly forces: readonly number[];
}

export interface LevelCurve {
  readonly current: number;
  readonly curve: Pchip;
  readonly from: number;
  readonly to: number;
}

/** Levels in order of rising current. */
export interface ForceTable {
  readonly levels: readonly LevelCurve[];
}

/** Softens the logarithm at small gaps, m. It shapes the curve between readings and leaves the readings alone. */
export const SOFTENING = 2e-4;

/** How far a current may lie from one that was read. */
export const READ_FACTOR = 1.5;

const DOWNWARD = 2.15;

/** @throws DomainError SW-D020 no level, or a level without pulls, with equal gaps, or with a pull not above zero */
export function forceTable(levels: readonly ForceLevel[]): ForceTable {
  if (levels.length === 0) throw new DomainError('SW-D020', 'a force table needs at least one current');
  const curves = levels.map(({ current, gaps, forces }) => {
    if (gaps.length === 0 || gaps.length !== forces.length || !(current > 0)) {
      throw new DomainError(
        'SW-D020',
        `a force table needs a pull for each gap and a current above zero, not ${gaps.length} gaps at ${current} A`,
      );
    }
    if (forces.some((force) => !(force > 0)))
      throw new DomainError('SW-D020', 'every pull in a force table must be above zero');
    if (gaps.some((gap, i) => i > 0 && !(gap > gaps[i - 1])))
      throw new DomainError('SW-D020', 'gaps in a force table must increase');
    return {
      current,
      curve: pchip(
        gaps.map((gap) => Math.log(gap + SOFTENING)),
        forces.map((force) => Math.log(force)),
      ),
      from: gaps[0],
      to: gaps[gaps.length - 1],
    };
  });
  return { levels: curves.sort((a, b) => a.current - b.current) };
}

/** Which side of the truth an answer must lie on. */
export type Caution = 'least' | 'greatest';

/**
 * Force at a gap and a coil current, N: the least or the greatest that the readings allow.
 *
 * NaN where nothing was read: gap outside the rows, or current beyond a factor 1.5 from every level.
 */
export function tableForce(table: ForceTable, gap: number, current: number, caution: Caution): number {
  if (!(current > 0)) return NaN;
  const { levels } = table;
  let below: LevelCurve | undefined;
  let above: LevelCurve | undefined;
  for (const level of levels) {
    if (!covers(level, gap)) continue;
    if (level.current <= current) below = level;
    else if (above === undefined) above = level;
  }
  if (below === undefined && above === undefined) return NaN;
  const at = Math.log(gap + SOFTENING);
  if (below !== undefined && above !== undefined) return between(below, above, at, current, caution);
  const level = (below ?? above)!;
  return isNear(current, level) ? beyond(level, at, current, caution) : NaN;
}

/**
 * Between two currents: where each lies within the factor of the other's reach, the exponent that joins them. Further apart
 * (pull-in and hold readings of one winding) only what the nearer one allows, held between the two.
 */
function between(below: LevelCurve, above: LevelCurve, at: number, current: number, caution: Caution): number {
  const low = pchipAt(below.curve, at);
  const high = pchipAt(above.curve, at);
  const span = above.current / below.current;
  if (span <= READ_FACTOR * READ_FACTOR * (1 + 1e-9)) {
    return Math.exp(low + (Math.log(current / below.current) / Math.log(span)) * (high - low));
  }
  if (!isNear(current, below) && !isNear(current, above)) return NaN;
  const fromBelow = beyond(below, at, current, caution);
  const fromAbove = beyond(above, at, current, caution);
  return caution === 'least' ? Math.max(fromBelow, fromAbove) : Math.min(fromBelow, fromAbove);
}

/** One level carried to another current by the cautious exponent, N. */
function beyond(level: LevelCurve, at: number, current: number, caution: Caution): number {
  const ratio = current / level.current;
  return Math.exp(pchipAt(level.curve, at)) * ratio ** exponentBeyond(ratio, caution);
}

function isNear(current: number, level: LevelCurve): boolean {
  const ratio = current / level.current;
  return ratio <= READ_FACTOR * (1 + 1e-9) && ratio * READ_FACTOR * (1 + 1e-9) >= 1;
}

/** The cautious exponent of the current, downward (ratio below 1) or upward. */
function exponentBeyond(ratio: number, caution: Caution): number {
  return ratio < 1 === (caution === 'least') ? DOWNWARD : 0;
}

/** Readings stop short of zero gap by the thickness of what was between: half a tenth of a millimetre is let pass. */
const GAP_TOLERANCE = 5e-5;

function covers(level: LevelCurve, gap: number): boolean {
  return gap >= level.from - GAP_TOLERANCE && gap <= level.to + GAP_TOLERANCE;
}
