import { leastBetween } from '../../numerics/minimum.ts';
import { pchipAt } from '../../numerics/pchip.ts';
import { DomainError } from '../domain-error.ts';
import { magnetOf, noMagnetNumbers, type Magnet, type MagnetNumbers } from './magnet-form.ts';
import { READ_FACTOR, SOFTENING, type ForceTable, type LevelCurve } from './table.ts';

export interface TableMagnetOptions {
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

/** Hermite cells between two readings; with so many the force is met to a millionth. */
const CELLS_BETWEEN_READINGS = 16;

/**
 * A solenoid known only by pulls F(g) read at one or more currents, as a co-energy surface:
 *
 *     W' = ½ L i² + G(g) ψ(i),      ψ = is² (√(1 + (i/is)²) - 1)
 *
 * G(g) is the integral of F/ψ(i read) from g to the widest gap that was read, so that F = ψ(i) F_read/ψ(i_read). ψ goes as
 * ½ i² and bends over to is·i: the exponent of the force falls from 2 to 1. is is fitted to the exponents between the
 * currents read, and is infinite with one current. The main winding counts as one turn: ampere-turns are its amperes, and
 * a second winding has `relativeTurns`.
 *
 * L, the inductance at the widest gap: from a reading at a gap g_r, L = reading - G(g_r). Otherwise that of the working
 * gap, which a plane gap's pull gives as 2 F g / i² [1], times a leakage factor (`LEAKAGE`).
 *
 * An approximation, and its sentence says so: the real steel saturates with the flux, not with the current alone, and the
 * flux is not read at all. Energy is conserved all the same. Of several currents the one read over the widest range of
 * gaps gives the shape; the others are met as well as one is can meet them.
 *
 * @throws DomainError SW-M070 no current was read at two gaps or more, or an option is not finite and above zero
 * [1] H. C. Roters, Electromagnetic Devices (1941): force of a plane gap, ½ Θ² dP/dg with P = μ0 A/g
 */
export function magnetOfTable(table: ForceTable, options: TableMagnetOptions = {}): Magnet {
  const { inductance = null, leakage = LEAKAGE } = options;
  const base = widest(table.levels);
  if (!(base.to > base.from))
    throw new DomainError('SW-M070', 'flux linkage from pulls needs one current with pulls at two gaps or more');
  if (!(leakage > 0) || leakage === Infinity)
    throw new DomainError('SW-M070', `a leakage factor must be finite and above zero, not ${leakage}`);
  if (inductance !== null && !(inductance.value > 0 && inductance.value < Infinity && inductance.gap >= 0))
    throw new DomainError('SW-M070', `no inductance can be ${inductance.value} H at a gap of ${inductance.gap} m`);

  const knee = kneeOf(base, table.levels);
  const level = psi(base.current, knee.current);
  const pulls = integrated(base, level);
  const estimate = leakage * (readForce(base, base.to) / level) * base.to;
  const open =
    inductance === null
      ? estimate
      : inductance.value - pulls.at(Math.min(base.to, Math.max(base.from, inductance.gap)));
  // A reading below what the pulls alone amount to: they contradict each other, and the sentence says so.
  const contradicts = !(open > 0.1 * estimate);
  const L = contradicts ? 0.1 * estimate : open;

  const q = knee.current === Infinity ? 0 : 1 / (knee.current * knee.current);
  const evaluate = (gap: number, amps: number, into: MagnetNumbers): void => {
    const { value: G, slope: dG } = pulls.find(gap);
    const root = Math.sqrt(1 + q * amps * amps);
    const stored = (amps * amps) / (root + 1);
    const rate = amps / root;
    into.coEnergy = 0.5 * L * amps * amps + G * stored;
    into.fluxLinkage = L * amps + G * rate;
    into.force = -dG * stored;
    into.fluxByAmpereTurns = L + G / (root * root * root);
    into.fluxByGap = dG * rate;
  };
  const sentences = [
    'Reckoned from pulls alone: no flux was read, so times and currents are approximate.',
    knee.current === Infinity
      ? 'The force is taken to go as the square of the current.'
      : `The force is taken to go as the square of a small current, bending towards the first power at ${knee.current.toPrecision(2)} A`
        + `${knee.misfit > 0.01 ? `, which meets the pulls read at other currents within ${Math.ceil(100 * knee.misfit)} %` : ''}.`,
    contradicts
      ? 'The inductance read is less than the pulls ask for, and was not used.'
      : inductance === null
        ? `The inductance at full stroke is estimated from the pull there with a leakage factor of ${leakage}.`
        : '',
  ];
  return magnetOf({
    leastGap: base.from,
    mostGap: base.to,
    mostAmpereTurns: READ_FACTOR * table.levels[table.levels.length - 1].current,
    approximation: sentences.filter((sentence) => sentence !== '').join(' '),
    evaluate,
  });
}

/**
 * Turns of a second winding, the main one's taken as one, from its force (N) at a gap and current: ampere-turns that
 * give this force, by the current. Null when no ampere-turns within the magnet's range give it.
 */
export function relativeTurns(magnet: Magnet, gap: number, force: number, current: number): number | null {
  const numbers = noMagnetNumbers();
  let [low, high] = [0, magnet.mostAmpereTurns];
  if (!(force > 0 && current > 0) || magnet.at(gap, high).force < force) return null;
  for (let halvings = 0; halvings < 60; halvings++) {
    const middle = (low + high) / 2;
    magnet.evaluate(gap, middle, numbers);
    if (numbers.force < force) low = middle;
    else high = middle;
  }
  return high / current;
}

const psi = (current: number, knee: number): number => (current * current) / (Math.sqrt(1 + (current / knee) ** 2) + 1);

function readForce({ curve }: LevelCurve, gap: number): number {
  return Math.exp(pchipAt(curve, Math.log(gap + SOFTENING)));
}

function widest(levels: readonly LevelCurve[]): LevelCurve {
  return levels.reduce((best, level) => (level.to - level.from >= best.to - best.from ? level : best));
}

/** Gaps at which two currents are compared: evenly spread over what both cover. */
const COMPARED = 9;

/** Where the force bends over, A, and the greatest relative misfit that it leaves at the other currents. */
function kneeOf(
  base: LevelCurve,
  levels: readonly LevelCurve[],
): { readonly current: number; readonly misfit: number } {
  const pairs = levels.flatMap((level) => {
    const [from, to] = [Math.max(base.from, level.from), Math.min(base.to, level.to)];
    if (level === base || !(to >= from)) return [];
    const logs = Array.from({ length: COMPARED }, (_, k) => {
      const gap = from + ((to - from) * k) / (COMPARED - 1);
      return Math.log(readForce(level, gap) / readForce(base, gap));
    });
    return [{ current: level.current, logs }];
  });
  if (pairs.length === 0) return { current: Infinity, misfit: 0 };
  const wrong = (knee: number): { sum: number; most: number } => {
    let [sum, most] = [0, 0];
    for (const { current, logs } of pairs) {
      const expected = Math.log(psi(current, knee) / psi(base.current, knee));
      for (const log of logs) {
        sum += (log - expected) ** 2;
        most = Math.max(most, Math.abs(Math.expm1(expected - log)));
      }
    }
    return { sum, most };
  };
  const middle = Math.log(base.current);
  const best = leastBetween((x) => wrong(Math.exp(x)).sum, middle - 4, middle + 4, 40);
  const knee = wrong(Infinity).sum <= best.value ? Infinity : Math.exp(best.at);
  return { current: knee, misfit: wrong(knee).most };
}

interface Integral {
  /** G at a gap. */
  at(gap: number): number;
  /** G and dG/dg at a gap; the object is the same one at every call. */
  find(gap: number): { readonly value: number; readonly slope: number };
}

/**
 * G(g): the integral of force/level from g to the widest gap, in u = ln(g + g0), as cubic Hermite pieces whose slopes at
 * the nodes are the read force; the force between is their derivative, so that it is the slope of G everywhere.
 */
function integrated(base: LevelCurve, level: number): Integral {
  const u: number[] = [];
  const { x } = base.curve;
  for (let i = 0; i + 1 < x.length; i++)
    for (let k = 0; k < CELLS_BETWEEN_READINGS; k++) u.push(x[i] + ((x[i + 1] - x[i]) * k) / CELLS_BETWEEN_READINGS);
  u.push(x[x.length - 1]);
  const n = u.length;
  const rate = (at: number): number => (Math.exp(pchipAt(base.curve, at)) * Math.exp(at)) / level;
  const G = new Float64Array(n);
  const slopes = Float64Array.from(u, (at) => -rate(at));
  for (let k = n - 2; k >= 0; k--) {
    const [half, middle] = [(u[k + 1] - u[k]) / 2, (u[k + 1] + u[k]) / 2];
    const d = half * Math.sqrt(0.6);
    G[k] = G[k + 1] + (half * (5 * rate(middle - d) + 8 * rate(middle) + 5 * rate(middle + d))) / 9;
  }
  const found = { value: 0, slope: 0, gap: NaN };
  let cell = 0;
  const find = (gap: number): { readonly value: number; readonly slope: number } => {
    if (gap === found.gap) return found;
    found.gap = gap;
    const at = Math.log(gap + SOFTENING);
    while (cell > 0 && at < u[cell]) cell--;
    while (cell + 2 < n && at >= u[cell + 1]) cell++;
    const w = u[cell + 1] - u[cell];
    const t = (at - u[cell]) / w;
    const s = 1 - t;
    const g0 = G[cell];
    const g1 = G[cell + 1];
    const m0 = w * slopes[cell];
    const m1 = w * slopes[cell + 1];
    found.value = g0 * (1 + 2 * t) * s * s + m0 * t * s * s + g1 * t * t * (3 - 2 * t) - m1 * t * t * s;
    found.slope = (6 * t * s * (g1 - g0) + m0 * s * (1 - 3 * t) + m1 * t * (3 * t - 2)) / (w * (gap + SOFTENING));
    return found;
  };
  return { at: (gap) => find(gap).value, find };
}
