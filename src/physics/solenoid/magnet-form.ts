/**
 * The solenoid as motion sees it: one co-energy surface W'(Θ, g) behind one type, whatever it came from.
 *
 *     λ = ∂W'/∂Θ,      F = -∂W'/∂g      (towards home)
 *
 * Both come from the same W', so energy is conserved on every path. Θ is the sum over the windings N_k i_k, λ the flux
 * linkage per turn: winding k links N_k λ. Left out: eddy currents, hysteresis and the residual force; a real solenoid is
 * slower, and sticks.
 */
export interface MagnetState {
  /** J */
  readonly coEnergy: number;
  /** Per turn, ∂W'/∂Θ, Wb. */
  readonly fluxLinkage: number;
  /** Towards home, -∂W'/∂g, N. */
  readonly force: number;
}

export interface Magnet {
  /** Gaps that it is known for, m. A little beyond, force is carried on as at the end. */
  readonly leastGap: number;
  readonly mostGap: number;
  /**
   * Known for ampere-turns up to here. Beyond, for a moment's overshoot, flux linkage goes on in a straight line, with
   * the force that belongs to it.
   */
  readonly mostAmpereTurns: number;
  /** A sentence naming the approximation when it is one; null for a field map. */
  readonly approximation: string | null;
  at(gap: number, ampereTurns: number): MagnetState;
  /** The same with the slopes of flux linkage, written into an object that the caller keeps. */
  evaluate(gap: number, ampereTurns: number, into: MagnetNumbers): void;
}

/** A magnet's state with its slopes, to be written anew at every call. */
export interface MagnetNumbers {
  coEnergy: number;
  fluxLinkage: number;
  force: number;
  /** ∂λ/∂Θ, Wb/A */
  fluxByAmpereTurns: number;
  /** ∂λ/∂g = -∂F/∂Θ, Wb/m */
  fluxByGap: number;
}

export function noMagnetNumbers(): MagnetNumbers {
  return { coEnergy: 0, fluxLinkage: 0, force: 0, fluxByAmpereTurns: 0, fluxByGap: 0 };
}

/** What a source of W' gives: all five numbers for gaps within the range and ampere-turns from 0 to the most. */
export interface MagnetSource {
  readonly leastGap: number;
  readonly mostGap: number;
  readonly mostAmpereTurns: number;
  readonly approximation: string | null;
  evaluate(gap: number, ampereTurns: number, into: MagnetNumbers): void;
}

/**
 * Adds to a source what every magnet has: mirrored ampere-turns, and beyond the last ones, with d = Θ - Θm,
 *
 *     W' = W'm + λm d + ½ P d²      (P constant over the gap)
 *
 * so that force and flux linkage still belong to one co-energy.
 */
export function magnetOf(source: MagnetSource): Magnet {
  const { leastGap, mostGap, mostAmpereTurns } = source;
  const own = noMagnetNumbers();
  let permeance = Infinity;
  for (const gap of [leastGap, (leastGap + mostGap) / 2, mostGap]) {
    source.evaluate(gap, mostAmpereTurns, own);
    permeance = Math.min(permeance, Math.max(own.fluxByAmpereTurns, (1e-3 * own.fluxLinkage) / mostAmpereTurns));
  }
  const evaluate = (gap: number, ampereTurns: number, into: MagnetNumbers): void => {
    const level = Math.abs(ampereTurns);
    const within = Math.min(mostGap, Math.max(leastGap, gap));
    source.evaluate(within, Math.min(level, mostAmpereTurns), into);
    const beyond = level - mostAmpereTurns;
    if (beyond > 0) {
      into.coEnergy += (into.fluxLinkage + 0.5 * permeance * beyond) * beyond;
      into.fluxLinkage += permeance * beyond;
      into.force -= into.fluxByGap * beyond;
      into.fluxByAmpereTurns = permeance;
    }
    if (gap !== within) {
      // The force is carried on: W' changes by it, and flux linkage by its change with the ampere-turns.
      into.coEnergy -= into.force * (gap - within);
      into.fluxLinkage += into.fluxByGap * (gap - within);
    }
    if (ampereTurns < 0) {
      into.fluxLinkage = -into.fluxLinkage;
      into.fluxByGap = -into.fluxByGap;
    }
  };
  return {
    leastGap,
    mostGap,
    mostAmpereTurns,
    approximation: source.approximation,
    evaluate,
    at(gap, ampereTurns) {
      evaluate(gap, ampereTurns, own);
      return { coEnergy: own.coEnergy, fluxLinkage: own.fluxLinkage, force: own.force };
    },
  };
}

/** Newton steps and halvings before the search for ampere-turns gives up. */
const MOST_TRIES = 60;

/**
 * Ampere-turns that give a flux linkage at a gap: Newton's rule inside a bracket, from a start that may be poor. Leaves in
 * `into` the five numbers there, with force and flux linkage carried the last short way by their slopes: what a last step of
 * a share `nearness` of the ampere-turns leaves is its square. NaN if none was found.
 */
export function ampereTurnsFor(
  magnet: Magnet,
  gap: number,
  fluxLinkage: number,
  start: number,
  into: MagnetNumbers,
  nearness = 1e-6,
): number {
  let low = -Infinity;
  let high = Infinity;
  let level = start;
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    magnet.evaluate(gap, level, into);
    const missing = fluxLinkage - into.fluxLinkage;
    const step = missing / into.fluxByAmpereTurns;
    if (Math.abs(step) <= nearness * Math.abs(level) + 1e-14 * magnet.mostAmpereTurns) {
      into.coEnergy += (into.fluxLinkage + missing / 2) * step;
      into.force -= into.fluxByGap * step;
      into.fluxLinkage = fluxLinkage;
      return level + step;
    }
    if (missing > 0) low = level;
    else high = level;
    const next = level + step;
    if (next > low && next < high) level = next;
    else if (low === -Infinity) level = high - Math.max(Math.abs(high), 1e-3 * magnet.mostAmpereTurns);
    else if (high === Infinity) level = low + Math.max(Math.abs(low), 1e-3 * magnet.mostAmpereTurns);
    else {
      level = (low + high) / 2;
      if (high - low <= 1e-12 * Math.max(Math.abs(low), Math.abs(high))) return level;
    }
  }
  return NaN;
}
