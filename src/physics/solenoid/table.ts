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
export function tableForce({ levels }: ForceTable, gap: number, current: number, caution: Caution): number {
  const at = Math.log(gap + SOFTENING);
  for (let l = 0; l < levels.length; l++) logsHere[l] = logForce(levels[l], gap, at);
  carry(levels, logsHere, current, caution, carriedHere);
  return carriedForce(carriedHere, logsHere);
}

// Written over by whoever asks next: nothing of it leaves this file.
const logsHere: number[] = [];
const carriedHere = newCarried();
const logRows: Float64Array[] = [];
let places = new Float64Array(0);

/**
 * `tableForce` at the first `count` of these gaps, a row for each current. What hangs on the current alone is worked out once
 * for each stretch of gaps that the same levels cover.
 *
 * @returns whether at all these gaps a stronger current was read to pull no less: then the weakest of many currents, where
 *   its pull is known, pulls least
 */
export function tableForces(
  { levels }: ForceTable,
  gaps: ArrayLike<number>,
  count: number,
  currents: readonly number[],
  caution: Caution,
  rows: readonly Float64Array[],
): boolean {
  while (logRows.length < levels.length) logRows.push(new Float64Array(count));
  if (places.length < count) places = new Float64Array(count);
  for (let i = 0; i < count; i++) places[i] = Math.log(gaps[i] + SOFTENING);
  for (let l = 0; l < levels.length; l++) {
    if (logRows[l].length < count) logRows[l] = new Float64Array(count);
    const logs = logRows[l];
    for (let i = 0; i < count; i++) logs[i] = logForce(levels[l], gaps[i], places[i]);
  }
  let from = 0;
  for (let to = 1; to <= count; to++) {
    if (to < count && isCoveredAlike(levels.length, to)) continue;
    for (let l = 0; l < levels.length; l++) logsHere[l] = logRows[l][from];
    for (let k = 0; k < currents.length; k++) {
      carry(levels, logsHere, currents[k], caution, carriedHere);
      carryRow(carriedHere, from, to, rows[k]);
    }
    from = to;
  }
  return doesRise(levels.length, count);
}

/** Whether at no place a level pulls less than one of less current. */
function doesRise(levels: number, count: number): boolean {
  for (let l = 1; l < levels; l++)
    for (let k = 0; k < l; k++) for (let i = 0; i < count; i++) if (logRows[l][i] < logRows[k][i]) return false;
  return true;
}

/** Whether the same levels cover a place and the one before it. */
function isCoveredAlike(levels: number, i: number): boolean {
  for (let l = 0; l < levels; l++) if (Number.isNaN(logRows[l][i]) !== Number.isNaN(logRows[l][i - 1])) return false;
  return true;
}

/** `carriedForce` from one place up to another. */
function carryRow(
  { below, above, share, onBelow, onAbove, caution }: Carried,
  from: number,
  to: number,
  row: Float64Array,
) {
  if (below < 0 && above < 0) row.fill(NaN, from, to);
  else if (below < 0 || above < 0) {
    const logs = logRows[Math.max(below, above)];
    const factor = below < 0 ? onAbove : onBelow;
    for (let i = from; i < to; i++) row[i] = Math.exp(logs[i]) * factor;
  } else if (!Number.isNaN(share)) {
    const [low, high] = [logRows[below], logRows[above]];
    for (let i = from; i < to; i++) row[i] = Math.exp(low[i] + share * (high[i] - low[i]));
  } else {
    const [low, high] = [logRows[below], logRows[above]];
    for (let i = from; i < to; i++) {
      const fromBelow = Math.exp(low[i]) * onBelow;
      const fromAbove = Math.exp(high[i]) * onAbove;
      row[i] = caution === 'least' ? Math.max(fromBelow, fromAbove) : Math.min(fromBelow, fromAbove);
    }
  }
}

/** Logarithm of the pull of a level; NaN where the gap lies outside its rows. */
function logForce(level: LevelCurve, gap: number, at: number): number {
  return covers(level, gap) ? pchipAt(level.curve, at) : NaN;
}

/** How the pull at a current follows from the levels beside it. */
interface Carried {
  /** Places of the level below and above the current; -1 where there is none. */
  below: number;
  above: number;
  /** Share of the way from one logarithm to the other; NaN where each level is carried by itself. */
  share: number;
  /** Factor on the pull of each; NaN where it does not reach. */
  onBelow: number;
  onAbove: number;
  caution: Caution;
}

function newCarried(): Carried {
  return { below: -1, above: -1, share: NaN, onBelow: NaN, onAbove: NaN, caution: 'least' };
}

/**
 * Between two currents: where each lies within the factor of the other's reach, the exponent that joins them. Further apart
 * (pull-in and hold readings of one winding) only what the nearer one allows, held between the two. Beside one level, that
 * level carried by the cautious exponent.
 */
function carry(
  levels: readonly LevelCurve[],
  logs: readonly number[],
  current: number,
  caution: Caution,
  into: Carried,
): void {
  let below = -1;
  let above = -1;
  for (let l = 0; l < levels.length; l++) {
    if (Number.isNaN(logs[l])) continue;
    if (levels[l].current <= current) below = l;
    else if (above < 0) above = l;
  }
  into.below = below;
  into.above = above;
  into.caution = caution;
  into.share = NaN;
  into.onBelow = NaN;
  into.onAbove = NaN;
  if (!(current > 0)) return;
  if (below >= 0 && above >= 0) {
    const span = levels[above].current / levels[below].current;
    if (span <= READ_FACTOR * READ_FACTOR * (1 + 1e-9)) {
      into.share = Math.log(current / levels[below].current) / Math.log(span);
      return;
    }
  }
  const isReached = (below >= 0 && isNear(current, levels[below])) || (above >= 0 && isNear(current, levels[above]));
  if (!isReached) return;
  if (below >= 0) into.onBelow = beyond(levels[below], current, caution);
  if (above >= 0) into.onAbove = beyond(levels[above], current, caution);
}

function carriedForce({ below, above, share, onBelow, onAbove, caution }: Carried, logs: readonly number[]): number {
  if (below < 0) return above < 0 ? NaN : Math.exp(logs[above]) * onAbove;
  if (above < 0) return Math.exp(logs[below]) * onBelow;
  if (!Number.isNaN(share)) return Math.exp(logs[below] + share * (logs[above] - logs[below]));
  const fromBelow = Math.exp(logs[below]) * onBelow;
  const fromAbove = Math.exp(logs[above]) * onAbove;
  return caution === 'least' ? Math.max(fromBelow, fromAbove) : Math.min(fromBelow, fromAbove);
}

/** Factor that carries the pull of a level to another current by the cautious exponent. */
function beyond(level: LevelCurve, current: number, caution: Caution): number {
  const ratio = current / level.current;
  return ratio ** exponentBeyond(ratio, caution);
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
