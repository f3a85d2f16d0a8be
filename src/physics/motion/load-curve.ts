import { pchip } from '../../numerics/pchip.ts';
import { DomainError } from '../domain-error.ts';

/** What the plunger feels at each gap, besides the magnet. */
export interface MotionLoad {
  /** m, rising; two equal gaps in a row are a step. */
  readonly gaps: Float64Array;
  /** What resists moving home, friction in, N. */
  readonly home: Float64Array;
  /** What drives out, friction off, N; below zero it sticks. */
  readonly out: Float64Array;
  /** Mass as felt at the plunger, kg: m + J α'² + a third of each spring's mass + the rack's by its lever ratio squared. */
  readonly mass: Float64Array;
  /** Drag in proportion to speed, N s/m. */
  readonly viscous: number;
}

/** The load at one gap; `massSlope` is dm/dg. */
export interface LoadState {
  home: number;
  out: number;
  mass: number;
  massSlope: number;
}

/** Numbers of one cell: a cubic of home, of out and of mass, from the cell's beginning. */
const PER_CELL = 12;

/**
 * A load table as shape-keeping cubics between its steps. The pieces are asked by number, because at a step the same gap
 * belongs to two of them; beyond its ends a piece goes on with its end values.
 */
export interface LoadCurve {
  readonly pieces: number;
  /** First and last gap of each piece. */
  readonly from: readonly number[];
  readonly to: readonly number[];
  /** The load of a piece at a gap, into `state`. */
  write(piece: number, gap: number, state: LoadState): void;
  /** The piece that holds a gap; at a step, the one nearer home. */
  pieceAt(gap: number): number;
}

/**
 * @throws DomainError SW-M071 columns of unequal length, gaps that do not rise, three equal gaps in a row, a step at an end,
 *   a mass not above zero, out above home, or a number that is not finite
 */
export function loadCurve(load: MotionLoad): LoadCurve {
  checkLoad(load);
  const { gaps } = load;
  const n = gaps.length;
  const starts = [0];
  for (let i = 1; i < n; i++) if (gaps[i] === gaps[i - 1]) starts.push(i);
  const ends = [...starts.slice(1), n];
  const tables = starts.map((start, piece) => {
    const x = gaps.slice(start, ends[piece]);
    const cubics = new Float64Array(PER_CELL * (x.length - 1));
    [load.home, load.out, load.mass].forEach((column, c) => {
      const { y, slope } = pchip(x, column.slice(start, ends[piece]));
      for (let i = 0; i + 1 < x.length; i++) {
        const h = x[i + 1] - x[i];
        const secant = (y[i + 1] - y[i]) / h;
        const k = PER_CELL * i + 4 * c;
        cubics[k] = y[i];
        cubics[k + 1] = slope[i];
        cubics[k + 2] = (3 * secant - 2 * slope[i] - slope[i + 1]) / h;
        cubics[k + 3] = (slope[i] + slope[i + 1] - 2 * secant) / (h * h);
      }
    });
    return { x, cubics };
  });
  const from = tables.map(({ x }) => x[0]);
  const to = tables.map(({ x }) => x[x.length - 1]);
  const cells = new Int32Array(tables.length);
  return {
    pieces: tables.length,
    from,
    to,
    write(piece, gap, state) {
      const { x, cubics } = tables[piece];
      const within = Math.min(to[piece], Math.max(from[piece], gap));
      let cell = cells[piece];
      while (cell > 0 && within < x[cell]) cell--;
      while (cell + 2 < x.length && within >= x[cell + 1]) cell++;
      cells[piece] = cell;
      const u = within - x[cell];
      const k = PER_CELL * cell;
      state.home = cubics[k] + u * (cubics[k + 1] + u * (cubics[k + 2] + u * cubics[k + 3]));
      state.out = cubics[k + 4] + u * (cubics[k + 5] + u * (cubics[k + 6] + u * cubics[k + 7]));
      state.mass = cubics[k + 8] + u * (cubics[k + 9] + u * (cubics[k + 10] + u * cubics[k + 11]));
      state.massSlope = within === gap ? cubics[k + 9] + u * (2 * cubics[k + 10] + u * 3 * cubics[k + 11]) : 0;
    },
    pieceAt(gap) {
      const found = to.findIndex((end) => gap <= end);
      return found < 0 ? tables.length - 1 : found;
    },
  };
}

function checkLoad({ gaps, home, out, mass, viscous }: MotionLoad): void {
  const refuse = (what: string): never => {
    throw new DomainError('SW-M071', what);
  };
  const n = gaps.length;
  if (n < 2 || home.length !== n || out.length !== n || mass.length !== n)
    refuse(
      `a load needs two gaps or more and as many of each, not ${n}, ${home.length}, ${out.length}, ${mass.length}`,
    );
  if (!(viscous >= 0 && viscous < Infinity)) refuse(`drag must be finite and not below zero, not ${viscous} N s/m`);
  for (let i = 0; i < n; i++) {
    if (![gaps[i], home[i], out[i], mass[i]].every(Number.isFinite))
      refuse(`a load of ${home[i]} N home, ${out[i]} N out and ${mass[i]} kg at ${gaps[i]} m is not finite`);
    if (!(mass[i] > 0)) refuse(`the moving mass must be above zero, not ${mass[i]} kg at ${gaps[i]} m`);
    if (out[i] > home[i])
      refuse(`what drives out (${out[i]} N) cannot exceed what resists moving home (${home[i]} N) at ${gaps[i]} m`);
    if (i > 0 && !(gaps[i] >= gaps[i - 1])) refuse(`gaps of a load must rise: ${gaps[i]} follows ${gaps[i - 1]} m`);
    if (i > 1 && gaps[i] === gaps[i - 2]) refuse(`three equal gaps of ${gaps[i]} m in a row are no step`);
  }
  if (gaps[1] === gaps[0] || gaps[n - 1] === gaps[n - 2])
    refuse(`a step of the load stands at its end, at ${gaps[n - 1]} m`);
}
