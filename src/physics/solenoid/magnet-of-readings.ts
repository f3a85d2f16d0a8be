import { findRoot } from '../../numerics/roots.ts';
import { DomainError } from '../domain-error.ts';
import { coEnergySurface, type GridLine } from './field/co-energy-surface.ts';
import { noMagnetNumbers, type Magnet } from './magnet-form.ts';
import { kneeBasis, kneeLine, type KneeBasis, type KneeLine } from './magnet-knee.ts';
import { magnetOfSurface } from './magnet-of-surface.ts';
import { pullsOf, type Pulls } from './magnet-pulls.ts';
import { READ_FACTOR, type ForceTable } from './table.ts';

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
 * Of the inductance at full stroke, what is left at any gap for more current on top of a great one. The same four solenoids
 * have 0.38 to 0.57 at home between their two greatest currents, and more at wider gaps.
 */
const SATURATED = 0.35;

/**
 * A solenoid known only by pulls F(g) read at one or more currents, as a co-energy surface:
 *
 *     W' = ½ Ls i² + M(i, g),    M(i read, g) = ½ (L - Ls) i1² F(i, gm)/F(i1, gm) + ∫ F(i, g') dg'  from g to gm
 *
 * with gm the widest gap that was read, i1 the least current, and the co-energy at gm going as the pull there, as a plane
 * gap's does. F meets every reading (`magnet-pulls.ts`). What the pulls give at each gap is M at the currents that were
 * read; between, below and above them M follows one knee of the steel at each gap (`magnet-knee.ts`), so that flux bends over
 * where the pulls say that it does, below the smallest current too. The main winding counts as one turn: ampere-turns are its amperes, and
 * a second winding has its turns over those of the main one.
 *
 * L, the inductance at the widest gap for a small current: from a reading at a gap, less what the pulls say of the way from
 * there. Otherwise that of the working gap, which a plane gap's pull gives as 2 F g / i² [1], times a leakage factor (`LEAKAGE`). Ls is `SATURATED`
 * of it. Where the pulls ask for more, because flux must rise with current at every gap, they get it.
 *
 * An approximation, and its sentence says so: flux was not read at all. Energy is conserved all the same, since force and
 * flux come from one surface.
 *
 * @throws DomainError SW-M070 no current was read at two gaps or more, or an option is not finite and above zero
 * [1] H. C. Roters, Electromagnetic Devices (1941): force of a plane gap, ½ Θ² dP/dg with P = μ0 A/g
 */
export function magnetOfReadings(table: ForceTable, options: ReadingsMagnetOptions = {}): Magnet {
  const { inductance = null, leakage = LEAKAGE } = options;
  if (!table.levels.some(({ from, to }) => to > from))
    throw new DomainError('SW-M070', 'flux linkage from pulls needs one current with pulls at two gaps or more');
  if (!(leakage > 0) || leakage === Infinity)
    throw new DomainError('SW-M070', `a leakage factor must be finite and above zero, not ${leakage}`);
  if (inductance !== null && !(inductance.value > 0 && inductance.value < Infinity && inductance.gap >= 0))
    throw new DomainError('SW-M070', `no inductance can be ${inductance.value} H at a gap of ${inductance.gap} m`);

  const pulls = pullsOf(table);
  const { gaps, currents: read } = pulls;
  const last = gaps.length - 1;
  const currents = currentsUpTo(READ_FACTOR * table.levels[table.levels.length - 1].current, read);
  const basis = kneeBasis(read, currents);

  const estimate = (leakage * 2 * pulls.force[last][0] * gaps[last]) / read[0] ** 2;
  const open = inductance === null ? null : openInductance(pulls, inductance, 0.1 * estimate);
  const wanted = open ?? estimate;
  // Flux must rise with current everywhere: where the pulls would make it fall, the rest of the magnet carries it.
  let L = wanted;
  let found = magnetAt(pulls, basis, L);
  for (let tries = 0; tries < MOST_RAISES && !found.rises; tries++) {
    L *= RAISE ** (tries + 1);
    found = magnetAt(pulls, basis, L);
  }
  const sentences = [
    'Reckoned from pulls alone: no flux was read, so times and currents are approximate.',
    read.length === 1
      ? 'The force is taken to go as the square of the current.'
      : 'Between and below the currents that were read the steel is taken to saturate with one bend at each gap.',
    inductance !== null && open === null
      ? 'The inductance read is less than the pulls ask for, and was not used.'
      : inductance === null
        ? `The inductance at full stroke is estimated from the pull there with a leakage factor of ${leakage}.`
        : '',
    L > wanted ? 'It had to be raised for flux to rise with current everywhere.' : '',
  ];
  return {
    ...found.magnet,
    approximation: sentences.filter((sentence) => sentence !== '').join(' '),
  };
}

/** The magnet with an inductance at full stroke, H, and whether its flux rises with current everywhere. */
function magnetAt(pulls: Pulls, basis: KneeBasis, L: number): { readonly magnet: Magnet; readonly rises: boolean } {
  const { gaps } = pulls;
  const { wanted } = basis;
  const rest = SATURATED * L;
  const lines = gaps.map((_, j) => lineAt(pulls, basis, L, j));
  const surface = lines.map(({ M, byCurrent, byGap }, j): GridLine => {
    const points = wanted.map((i, k) => ({
      coEnergy: 0.5 * rest * i * i + M[k],
      fluxLinkage: rest * i + byCurrent[k],
      force: -byGap[k],
    }));
    return { gap: gaps[j], ampereTurns: wanted, points };
  });
  const magnet = magnetOfSurface(coEnergySurface(surface));
  // One knee alone always rises.
  return { magnet, rises: lines.every(({ isPlain }) => isPlain) || doesFluxRise(magnet, gaps, wanted) };
}

function lineAt({ work, force }: Pulls, basis: KneeBasis, L: number, j: number): KneeLine {
  const open = force[force.length - 1];
  const own = 0.5 * (1 - SATURATED) * L * basis.read[0] ** 2;
  return kneeLine(
    basis,
    open.map((one, n) => (own * one) / open[0] + work[j][n]),
    force[j].map((one) => -one),
  );
}

/** The inductance at the widest gap that gives the one read, H; null where the pulls alone ask for more. */
function openInductance(
  pulls: Pulls,
  { gap, value }: { readonly gap: number; readonly value: number },
  least: number,
): number | null {
  const { gaps, currents } = pulls;
  const none = kneeBasis(currents, []);
  const at = Math.min(gaps[gaps.length - 1], Math.max(gaps[0], gap));
  const j = Math.max(
    1,
    gaps.findIndex((one) => one >= at),
  );
  const share = (at - gaps[j - 1]) / (gaps[j] - gaps[j - 1]);
  const readAt = (L: number): number => {
    const [a, b] = [lineAt(pulls, none, L, j - 1).atNone, lineAt(pulls, none, L, j).atNone];
    return SATURATED * L + (1 - share) * a + share * b;
  };
  if (!(readAt(least) < value)) return null;
  const { at: found } = findRoot((L) => readAt(L) - value, least, value, 1e-12 * value);
  return found;
}

/** Flux rises with current at least with this share of their ratio. */
const LEAST_RISE = 0.01;
/** Each raise is by this much more than the one before. */
const RAISE = 1.05;
const MOST_RAISES = 30;
/** Places looked at between two currents of the surface: its slopes jump where its cells meet. */
const LOOKED_AT = [0.001, 0.35, 0.7, 0.999];

/** Looked at on every gap and midway between each two. */
function doesFluxRise(magnet: Magnet, gaps: readonly number[], currents: readonly number[]): boolean {
  const numbers = noMagnetNumbers();
  for (let j = 0; j < 2 * gaps.length - 1; j++) {
    const gap = j % 2 === 0 ? gaps[j / 2] : (gaps[(j - 1) / 2] + gaps[(j + 1) / 2]) / 2;
    for (let k = 0; k + 1 < currents.length; k++)
      for (const share of LOOKED_AT) {
        const i = currents[k] + (currents[k + 1] - currents[k]) * share;
        magnet.evaluate(gap, i, numbers);
        if (!(numbers.fluxByAmpereTurns * i >= LEAST_RISE * numbers.fluxLinkage)) return false;
      }
  }
  return true;
}

/** Currents of the surface, as shares of the greatest: the first stands for none at all. */
const SHARES = [0.0005, 0.02, 0.035, 0.05, 0.07, 0.09, 0.12, 0.16, 0.2, 0.25, 0.31, 0.38, 0.46, 0.55, 0.66, 0.82, 1];

/** Those shares, and every current that was read: there the force is met exactly. */
function currentsUpTo(most: number, read: readonly number[]): number[] {
  const currents = read.filter((i) => i > SHARES[1] * most);
  SHARES.forEach((share, k) => {
    const i = share * most;
    const isEnd = k < 2 || k + 1 === SHARES.length;
    if (isEnd || currents.every((other) => Math.abs(other - i) > 0.1 * i)) currents.push(i);
  });
  return currents.sort((a, b) => a - b);
}
