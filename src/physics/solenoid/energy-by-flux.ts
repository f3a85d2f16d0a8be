import { ampereTurnsFor, noMagnetNumbers, type Magnet } from './magnet-form.ts';

/** What the flux and the gap say at once: ampere-turns, force towards home (N) and energy in the field (J). */
export interface FluxNumbers {
  ampereTurns: number;
  force: number;
  fieldEnergy: number;
}

export function noFluxNumbers(): FluxNumbers {
  return { ampereTurns: 0, force: 0, fieldEnergy: 0 };
}

/** Cells over the flux, from none to the most, and over the gap, where they narrow towards home. */
const FLUX_CELLS = 160;
const GAP_CELLS = 64;
const ACROSS = GAP_CELLS + 1;
/** The cell at home over what all would be if they were alike. */
const NARROWEST = 0.12;
/** Of a corner: energy, its slopes with flux and gap, and its twist. */
const PER_CORNER = 4;
const PER_CELL = 16;
/** In the list of places: this cell has corners where the magnet is not known. */
const NO_CELL = 0xffff;

/**
 * The energy in the field of a magnet over flux per turn φ and gap g, in which ampere-turns and force need no search:
 *
 *     W(φ, g) = Θ φ - W'(Θ, g),      Θ = ∂W/∂φ,      F = ∂W/∂g
 *
 * Steel saturates at a flux, whatever the gap, and short of that W grows with the square of the flux: cells of one size follow
 * it well. Each is a bicubic through the exact energies, ampere-turns, forces and twists ∂Θ/∂g of its corners, so that what is
 * driven by Θ and F conserves energy to rounding. Corners are worked out when a course first comes near them, and kept.
 *
 * `test/physics/solenoid/energy-by-flux.test.ts` holds it to the magnet itself.
 */
export class EnergyByFlux {
  private readonly magnet: Magnet;
  /** Per turn, Wb: beyond it there is no cell. */
  readonly mostFlux: number;
  private readonly leastGap: number;
  private readonly mostGap: number;
  private readonly perFlux: number;
  /** Of the place u among the cells of the gap: g - least = linear × u + square × u². */
  private readonly linear: number;
  private readonly square: number;
  /** Where the numbers of a corner and of a cell stand in their lists, plus one; 0 while they have not been worked out. */
  private readonly cornerPlace = new Uint16Array((FLUX_CELLS + 1) * ACROSS);
  private readonly cellPlace = new Uint16Array(FLUX_CELLS * GAP_CELLS);
  private corners = new Float64Array(PER_CORNER * 256);
  private cells = new Float64Array(PER_CELL * 128);
  private cornersKnown = 0;
  private cellsKnown = 0;
  private readonly numbers = noMagnetNumbers();

  constructor(magnet: Magnet) {
    this.magnet = magnet;
    this.leastGap = magnet.leastGap;
    this.mostGap = magnet.mostGap;
    magnet.evaluate(magnet.leastGap, magnet.mostAmpereTurns, this.numbers);
    this.mostFlux = this.numbers.fluxLinkage;
    this.perFlux = FLUX_CELLS / this.mostFlux;
    const stroke = magnet.mostGap - magnet.leastGap;
    this.linear = (NARROWEST * stroke) / GAP_CELLS;
    this.square = ((1 - NARROWEST) * stroke) / GAP_CELLS ** 2;
  }

  /**
   * False, and nothing is written, where there is no cell: below no flux, and where a corner has more ampere-turns than the
   * magnet is known for. A little beyond the gaps, force is carried on as at the end.
   */
  write(gap: number, flux: number, into: FluxNumbers): boolean {
    if (!(flux >= 0 && flux <= this.mostFlux)) return false;
    const { perFlux, linear, square, leastGap, mostGap } = this;
    const inside = gap < leastGap ? leastGap : gap > mostGap ? mostGap : gap;
    let t = flux * perFlux;
    const root = Math.sqrt(linear * linear + 4 * square * (inside - leastGap));
    let u = (root - linear) / (2 * square);
    const i = t < FLUX_CELLS ? t | 0 : FLUX_CELLS - 1;
    const j = u < GAP_CELLS ? u | 0 : GAP_CELLS - 1;
    let place = this.cellPlace[i * GAP_CELLS + j];
    if (place === 0) place = this.workOut(i, j);
    if (place === NO_CELL) return false;
    t -= i;
    u -= j;
    const { cells } = this;
    const k = PER_CELL * (place - 1);
    const a0 = cells[k] + u * (cells[k + 1] + u * (cells[k + 2] + u * cells[k + 3]));
    const a1 = cells[k + 4] + u * (cells[k + 5] + u * (cells[k + 6] + u * cells[k + 7]));
    const a2 = cells[k + 8] + u * (cells[k + 9] + u * (cells[k + 10] + u * cells[k + 11]));
    const a3 = cells[k + 12] + u * (cells[k + 13] + u * (cells[k + 14] + u * cells[k + 15]));
    const b0 = cells[k + 1] + u * (2 * cells[k + 2] + u * 3 * cells[k + 3]);
    const b1 = cells[k + 5] + u * (2 * cells[k + 6] + u * 3 * cells[k + 7]);
    const b2 = cells[k + 9] + u * (2 * cells[k + 10] + u * 3 * cells[k + 11]);
    const b3 = cells[k + 13] + u * (2 * cells[k + 14] + u * 3 * cells[k + 15]);
    into.ampereTurns = perFlux * (a1 + t * (2 * a2 + t * 3 * a3));
    const force = (b0 + t * (b1 + t * (b2 + t * b3))) / root;
    into.force = force;
    into.fieldEnergy = a0 + t * (a1 + t * (a2 + t * a3)) + force * (gap - inside);
    return true;
  }

  /** The bicubic of a cell; its place in the list, plus one, or that there is none. */
  private workOut(i: number, j: number): number {
    const near = [this.cornerAt(i, j), this.cornerAt(i, j + 1)];
    const far = [this.cornerAt(i + 1, j), this.cornerAt(i + 1, j + 1)];
    const { corners } = this;
    const greatest = Math.max(...[...near, ...far].map((k) => corners[k + 1])) * this.perFlux;
    if (!(greatest <= this.magnet.mostAmpereTurns * (1 + 1e-9))) {
      this.cellPlace[i * GAP_CELLS + j] = NO_CELL;
      return NO_CELL;
    }
    // Over the gap, at either end of the cell in flux: the value (0) and its slope with flux (1).
    const across = ([left, right]: readonly number[], of: 0 | 1) =>
      cubic(corners[left + of], corners[right + of], corners[left + of + 2], corners[right + of + 2]);
    const [value0, value1, slope0, slope1] = [across(near, 0), across(far, 0), across(near, 1), across(far, 1)];
    if (PER_CELL * (this.cellsKnown + 1) > this.cells.length) this.cells = twiceAsLong(this.cells);
    const k = PER_CELL * this.cellsKnown;
    for (let n = 0; n < 4; n++) {
      const along = cubic(value0[n], value1[n], slope0[n], slope1[n]);
      for (let m = 0; m < 4; m++) this.cells[k + 4 * m + n] = along[m];
    }
    this.cellsKnown++;
    this.cellPlace[i * GAP_CELLS + j] = this.cellsKnown;
    return this.cellsKnown;
  }

  /** Where a corner's numbers stand: W, then its slopes by one cell of flux, by one of gap, and by both. */
  private cornerAt(i: number, j: number): number {
    const { cornerPlace, magnet, numbers, perFlux, linear, square } = this;
    const corner = i * ACROSS + j;
    if (cornerPlace[corner] === 0) {
      if (PER_CORNER * (this.cornersKnown + 1) > this.corners.length) this.corners = twiceAsLong(this.corners);
      const k = PER_CORNER * this.cornersKnown;
      const flux = i / perFlux;
      const gap = j === GAP_CELLS ? magnet.mostGap : magnet.leastGap + j * (linear + square * j);
      const level = ampereTurnsFor(magnet, gap, flux, 0, numbers);
      const width = linear + 2 * square * j;
      this.corners[k] = level * flux - numbers.coEnergy;
      this.corners[k + 1] = level / perFlux;
      this.corners[k + 2] = numbers.force * width;
      // At one flux: dΘ/dg = -(∂λ/∂g)/(∂λ/∂Θ).
      this.corners[k + 3] = ((-numbers.fluxByGap / numbers.fluxByAmpereTurns) * width) / perFlux;
      this.cornersKnown++;
      cornerPlace[corner] = this.cornersKnown;
    }
    return PER_CORNER * (cornerPlace[corner] - 1);
  }
}

function twiceAsLong(list: Float64Array): Float64Array<ArrayBuffer> {
  const longer = new Float64Array(2 * list.length);
  longer.set(list);
  return longer;
}

const known = new WeakMap<Magnet, EnergyByFlux>();

/** Of one magnet there is one. */
export function energyByFlux(magnet: Magnet): EnergyByFlux {
  const found = known.get(magnet);
  if (found !== undefined) return found;
  const made = new EnergyByFlux(magnet);
  known.set(magnet, made);
  return made;
}

/** Coefficients of the cubic over a width of one with these values and slopes at its ends. */
function cubic(f0: number, f1: number, s0: number, s1: number): readonly [number, number, number, number] {
  const rise = f1 - f0;
  return [f0, s0, 3 * rise - 2 * s0 - s1, s0 + s1 - 2 * rise];
}
