import { pchip, pchipAt, type Pchip } from '../../numerics/pchip.ts';
import { DomainError } from '../domain-error.ts';
import { coEnergySurface, type GridLine } from './field/co-energy-surface.ts';
import type { Magnet } from './magnet-form.ts';
import { magnetOfSurface } from './magnet-of-surface.ts';
import { READ_FACTOR, SOFTENING, type ForceTable, type LevelCurve } from './table.ts';

export interface ReadingsMagnetOptions {
  /** Inductance of the main winding read with a small current at a gap, H; null or left out if not read. */
  readonly inductance?: { readonly gap: number; readonly value: number } | null;
  /** What the estimate of the inductance at full stroke is multiplied by; `LEAKAGE` if left out. */
  readonly leakage?: number;
}

/**
 * Ratio of the inductance at full stroke to that of its working gap alone, when it is estimated. The four solenoids of
 * the finite-element reference (data/plunger-solenoid-field.json) have 1.06 to 1.34, over all ampere-turns.
 */
export const LEAKAGE = 1.2;

/**
 * A solenoid known only by pulls F(g) read at one or more currents, as a co-energy surface:
 *
 *     W' = ½ L i² + ∫ F(i, g') dg'  from g to the widest gap that was read,    λ = L i + ∫ ∂F/∂i dg'
 *
 * F(i, g) meets every reading. Between two currents its exponent changes smoothly; below the smallest the force goes as the
 * square of the current, as in air; above the largest it goes on as it last did, but never faster than the square. A current
 * that was read over a part of the gaps only (home, as a rule) lends its exponent to the gaps beyond, where it returns to
 * that of air over `RETURN_TO_AIR`. The main winding counts as one turn: ampere-turns are its amperes, and a second winding
 * has its turns over those of the main one.
 *
 * L, the inductance at the widest gap: from a reading at a gap, less what the pulls say of the way from there. Otherwise that
 * of the working gap, which a plane gap's pull gives as 2 F g / i² [1], times a leakage factor (`LEAKAGE`). Where the pulls
 * ask for more, because flux must rise with current at every gap, they get it.
 *
 * An approximation, and its sentence says so: flux was not read at all. Energy is conserved all the same, since force and
 * flux come from one surface.
 *
 * @throws DomainError SW-M070 no current was read at two gaps or more, or an option is not finite and above zero
 * [1] H. C. Roters, Electromagnetic Devices (1941): force of a plane gap, ½ Θ² dP/dg with P = μ0 A/g
 */
export function magnetOfReadings(table: ForceTable, options: ReadingsMagnetOptions = {}): Magnet {
  const { inductance = null, leakage = LEAKAGE } = options;
  const base = widest(table.levels);
  if (!(base.to > base.from))
    throw new DomainError('SW-M070', 'flux linkage from pulls needs one current with pulls at two gaps or more');
  if (!(leakage > 0) || leakage === Infinity)
    throw new DomainError('SW-M070', `a leakage factor must be finite and above zero, not ${leakage}`);
  if (inductance !== null && !(inductance.value > 0 && inductance.value < Infinity && inductance.gap >= 0))
    throw new DomainError('SW-M070', `no inductance can be ${inductance.value} H at a gap of ${inductance.gap} m`);

  const most = READ_FACTOR * table.levels[table.levels.length - 1].current;
  const gaps = gapsBetween(base);
  const currents = currentsUpTo(most);
  const believed = table.levels.toSorted((a, b) => (isWider(a, b) ? -1 : isWider(b, a) ? 1 : 0));
  const pulls = integrated(gaps, currents, (gap) => forceOverCurrent(believed, base, gap, most));

  const estimate = leakage * 2 * pulls.airCoefficient * base.to;
  const read = inductance === null ? null : inductance.value - pulls.smallSignalInductance(inductance.gap);
  const contradicts = read !== null && !(read > 0.1 * estimate);
  const wanted = read === null || contradicts ? estimate : read;
  // Flux must rise with current everywhere: where saturation at home would make it fall, the rest of the magnet carries it.
  const asked = leastInductance(currents, pulls.flux);
  const L = Math.max(wanted, asked);

  const lines = gaps.map((gap, j): GridLine => {
    const points = currents.map((i, k) => ({
      coEnergy: 0.5 * L * i * i + pulls.work[j][k],
      fluxLinkage: L * i + pulls.flux[j][k],
      force: pulls.force[j][k],
    }));
    const levels = (_: unknown, k: number): boolean => k % LOOKED_AT === 0;
    return { gap, ampereTurns: currents.filter(levels), points: points.filter(levels) };
  });
  const sentences = [
    'Reckoned from pulls alone: no flux was read, so times and currents are approximate.',
    table.levels.length === 1
      ? 'The force is taken to go as the square of the current.'
      : 'Below the smallest current that was read the force is taken to go as its square.',
    contradicts
      ? 'The inductance read is less than the pulls ask for, and was not used.'
      : read === null
        ? `The inductance at full stroke is estimated from the pull there with a leakage factor of ${leakage}.`
        : '',
    asked > wanted ? 'It had to be raised for flux to rise with current everywhere.' : '',
  ];
  return {
    ...magnetOfSurface(coEnergySurface(lines)),
    approximation: sentences.filter((sentence) => sentence !== '').join(' '),
  };
}

/** Flux rises with current at least with this share of their ratio. */
const LEAST_RISE = 0.08;
/** Currents looked at for that, for each level of the surface. */
const LOOKED_AT = 3;

/** The inductance that the rest of the magnet must have, H, for flux to rise enough with current at every gap. */
function leastInductance(currents: readonly number[], flux: readonly (readonly number[])[]): number {
  let least = 0;
  for (const row of flux)
    for (let k = 1; k < row.length; k++) {
      const rise = (row[k] - row[k - 1]) / (currents[k] - currents[k - 1]);
      least = Math.max(least, (LEAST_RISE * (row[k] / currents[k]) - rise) / (1 - LEAST_RISE));
    }
  return least;
}

/** Over this much gap the exponent of the current returns to that of air, m. Starting value of this program, no source. */
const RETURN_TO_AIR = 3e-3;
/** Of the current in air. */
const SQUARE = 2;
/** Currents closer than this say nothing of an exponent. */
const LEAST_RATIO = 1.05;

/** Gaps of the surface: close together near home, where a pull changes fastest. */
function gapsBetween({ from, to }: LevelCurve): number[] {
  const count = 16;
  const softening = (to - from) / 40;
  const ratio = (to - from + softening) / softening;
  return Array.from({ length: count }, (_, j) =>
    j === 0 ? from : j === count - 1 ? to : from - softening + softening * ratio ** (j / (count - 1)),
  );
}

/** Levels of the surface: the first stands for none at all. */
function currentsUpTo(most: number): number[] {
  const shares = [0.0005, 0.02, 0.04, 0.07, 0.11, 0.16, 0.22, 0.3, 0.38, 0.47, 0.57, 0.67, 0.78, 0.89, 1];
  return shares.flatMap((share, k) =>
    k + 1 === shares.length
      ? [share * most]
      : Array.from({ length: LOOKED_AT }, (_, n) => most * (share + ((shares[k + 1] - share) * n) / LOOKED_AT)),
  );
}

/** ln F over ln i at one gap; the levels in the order in which they are believed. */
function forceOverCurrent(levels: readonly LevelCurve[], base: LevelCurve, gap: number, most: number): Pchip {
  const baseLog = Math.log(readForce(base, gap));
  // A pull that falls with the current is an error of reading: the one that was read less widely gives way.
  const known: (readonly [current: number, log: number])[] = [[base.current, baseLog]];
  for (const level of levels) {
    const ratio = level.current / base.current;
    if (level === base || Math.max(ratio, 1 / ratio) < LEAST_RATIO) continue;
    const at = Math.min(level.to, Math.max(level.from, gap));
    const exponent = Math.log(readForce(level, at) / readForce(base, at)) / Math.log(ratio);
    const beyond = Math.abs(gap - at);
    const here = SQUARE + (exponent - SQUARE) * Math.exp(-beyond / RETURN_TO_AIR);
    const log = baseLog + here * Math.log(ratio);
    if (known.every(([i, other]) => (level.current - i) * (log - other) > 0)) known.push([level.current, log]);
  }
  known.sort(([i], [j]) => i - j);
  const [[least, leastLog]] = known;
  const [greatest, greatestLog] = known[known.length - 1];
  const before = known.length > 1 ? known[known.length - 2] : null;
  const onward =
    before === null ? SQUARE : Math.min(SQUARE, (greatestLog - before[1]) / (Math.log(greatest) - Math.log(before[0])));
  const below = [64, 8].map((n) => [Math.log(least / n), leastLog - SQUARE * Math.log(n)] as const);
  const above = [1.1 * most].map((i) => [Math.log(i), greatestLog + onward * Math.log(i / greatest)] as const);
  const nodes = [...below, ...known.map(([i, log]) => [Math.log(i), log] as const), ...above];
  return pchip(
    nodes.map(([x]) => x),
    nodes.map(([, y]) => y),
  );
}

interface Integrated {
  /** At each gap and current: N, J and Wb. */
  readonly force: readonly (readonly number[])[];
  readonly work: readonly (readonly number[])[];
  readonly flux: readonly (readonly number[])[];
  /** F/i² at the widest gap for a vanishing current. */
  readonly airCoefficient: number;
  /** What the pulls say of the inductance at a gap, above that at the widest, H. */
  smallSignalInductance(gap: number): number;
}

/** Gauss-Legendre nodes and weights on 0 to 1, three points: exact to the fifth power. */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;
/** Pieces between two gaps of the surface. */
const PIECES = 2;

/** Slope of a curve inside its range. */
function slopeOf(curve: Pchip, at: number): number {
  const { x, y, slope } = curve;
  let k = 0;
  while (k + 2 < x.length && at >= x[k + 1]) k++;
  const h = x[k + 1] - x[k];
  const t = (at - x[k]) / h;
  const s = 1 - t;
  return (6 * t * s * (y[k + 1] - y[k])) / h + slope[k] * s * (1 - 3 * t) + slope[k + 1] * t * (3 * t - 2);
}

function integrated(gaps: readonly number[], currents: readonly number[], curveAt: (gap: number) => Pchip): Integrated {
  const at = (curve: Pchip, i: number): { force: number; byCurrent: number } => {
    const x = Math.log(i);
    const [first] = curve.x;
    // Below its first node the curve is the square of the current.
    const log = x < first ? curve.y[0] + SQUARE * (x - first) : pchipAt(curve, x);
    const slope = x < first ? SQUARE : slopeOf(curve, x);
    const force = Math.exp(log);
    return { force, byCurrent: (force * slope) / i };
  };
  const work: number[][] = gaps.map(() => currents.map(() => 0));
  const flux: number[][] = gaps.map(() => currents.map(() => 0));
  for (let j = gaps.length - 2; j >= 0; j--) {
    const width = (gaps[j + 1] - gaps[j]) / PIECES;
    currents.forEach((_, k) => {
      work[j][k] = work[j + 1][k];
      flux[j][k] = flux[j + 1][k];
    });
    for (let piece = 0; piece < PIECES; piece++)
      for (const [node, weight] of GAUSS) {
        const curve = curveAt(gaps[j] + (piece + node) * width);
        currents.forEach((i, k) => {
          const { force, byCurrent } = at(curve, i);
          work[j][k] += weight * width * force;
          flux[j][k] += weight * width * byCurrent;
        });
      }
  }
  const ends = gaps.map(curveAt);
  const force = ends.map((curve) => currents.map((i) => at(curve, i).force));
  const last = ends[ends.length - 1];
  return {
    force,
    work,
    flux,
    airCoefficient: at(last, currents[0]).force / currents[0] ** 2,
    smallSignalInductance(gap) {
      const j = gaps.findIndex((one) => one >= gap);
      if (j <= 0) return j === 0 ? flux[0][0] / currents[0] : 0;
      const share = (gap - gaps[j - 1]) / (gaps[j] - gaps[j - 1]);
      return ((1 - share) * flux[j - 1][0] + share * flux[j][0]) / currents[0];
    },
  };
}

function readForce({ curve }: LevelCurve, gap: number): number {
  return Math.exp(pchipAt(curve, Math.log(gap + SOFTENING)));
}

function widest(levels: readonly LevelCurve[]): LevelCurve {
  return levels.reduce((best, level) => (isWider(best, level) ? best : level));
}

/** Read over more gaps, by more than the last digits of a length. */
function isWider(one: LevelCurve, other: LevelCurve): boolean {
  return one.to - one.from > other.to - other.from + 1e-9;
}
