import { DomainError } from '../../domain-error.ts';
import {
  COARSER,
  estimateErrors,
  type FieldSolution,
  prepareField,
  type PreparedField,
} from '../../magnetics/field.ts';
import { MagnetisationCurve, type MagnetisationTable } from '../../magnetics/magnetisation-curve.ts';
import {
  coEnergySurface,
  type CoEnergySurface,
  curveAt,
  type GridLine,
  type GridPoint,
  surfaceAt,
} from './co-energy-surface.ts';
import type { SolenoidDimensions } from './dimensions.ts';
import { COIL, solenoidProblem } from './solenoid-problem.ts';

export interface MapRequest {
  /** Gaps to solve at, metres, rising; two or more. The map covers what lies between them. */
  readonly gaps: readonly number[];
  /** Ampere-turns to begin with, rising, above zero; two or more. The map covers 0 to the last. */
  readonly ampereTurns: readonly number[];
  /** At each gap, levels are added until halving a step changes force and flux linkage by less than this; 0.01 if left out. */
  readonly tolerance?: number;
  /** Element length relative to the usual, 1 if left out. */
  readonly elementLength?: number;
  /** Gaps halfway between the others to solve at as a check on the fit; 3 if left out. */
  readonly checks?: number;
}

/** One solved point of a map. */
export interface MapPoint extends GridPoint {
  readonly gap: number;
  readonly ampereTurns: number;
  readonly energy: number;
  readonly iterations: number;
}

export interface FieldMap {
  readonly surface: CoEnergySurface;
  /** What the surface is laid through, gap by gap, from the level that stands for none: it can be laid anew from these. */
  readonly lines: readonly GridLine[];
  /** The solved points that the surface passes through. */
  readonly points: readonly MapPoint[];
  readonly estimatedError: {
    /** Largest relative error of force and flux linkage by the mesh, at three levels of each gap. */
    readonly mesh: { readonly force: number; readonly fluxLinkage: number };
    /** Largest relative difference between the surface and solves at points that it was not made from. */
    readonly fit: { readonly force: number; readonly fluxLinkage: number };
  };
  /** Is flux linkage rising with ampere-turns, and the force above zero, everywhere on a dense grid? */
  readonly rising: boolean;
  readonly attracting: boolean;
  /** Nodes of all meshes of the grid together. */
  readonly nodes: number;
}

/** How far a map has come: solves done of all. */
export interface MapProgress {
  readonly done: number;
  readonly all: number;
}

/**
 * Solves along a row of gaps and lays one co-energy surface through the solutions. A generator: it yields after each gap,
 * so that the caller can show progress, or stop by asking no further.
 *
 * @throws DomainError SW-M041 the request; SW-M042 a solve did not converge; and what `solenoidProblem` throws
 */
export function* fieldMapSteps(
  solenoid: SolenoidDimensions,
  steel: MagnetisationTable | MagnetisationCurve,
  request: MapRequest,
): Generator<MapProgress, FieldMap> {
  const { gaps, ampereTurns, tolerance = 0.01, elementLength = 1, checks = 3 } = request;
  requireRising('gaps', gaps, 0);
  requireRising('ampere-turns', ampereTurns, Number.MIN_VALUE);
  if (!(tolerance > 0)) throw new DomainError('SW-M041', `the tolerance of a map must be above zero, not ${tolerance}`);
  const curve = steel instanceof MagnetisationCurve ? steel : new MagnetisationCurve(steel);
  const prepare = (gap: number, length: number): PreparedField =>
    prepareField(solenoidProblem(solenoid, gap, curve), length);
  // A thousandth of the first level stands for none at all: the steel is at its initial permeability.
  const levels = [ampereTurns[0] / 1000, ...ampereTurns];
  const checkCount = Math.min(Math.max(0, Math.round(checks)), gaps.length - 1);
  const all = gaps.length + checkCount;
  const lines: Line[] = [];
  const mesh = { force: 0, fluxLinkage: 0 };
  const fit = { force: 0, fluxLinkage: 0 };
  let nodes = 0;
  for (const gap of gaps) {
    const field = prepare(gap, elementLength);
    nodes += field.mesh.nodes;
    const line = solveLine(field, gap, levels, tolerance);
    lines.push(line);
    raise(fit, line.lastChange);
    const rough = prepare(gap, Math.min(4, elementLength * COARSER));
    let roughStart: FieldSolution | undefined;
    for (const level of [levels[1], levels[Math.ceil(levels.length / 2)], levels[levels.length - 1]]) {
      roughStart = rough.solve({ [COIL]: level }, roughStart);
      const fine = line.solutions[line.ampereTurns.indexOf(level)];
      const estimate = estimateErrors(fine, roughStart, elementLength);
      raise(mesh, { force: estimate.force, fluxLinkage: estimate.fluxLinkage[COIL] });
    }
    yield { done: lines.length, all };
  }
  const surface = coEnergySurface(lines);
  for (let k = 0; k < checkCount; k++) {
    const j = Math.floor(((k + 0.5) / checkCount) * (gaps.length - 1));
    const gap = Math.sqrt((gaps[j] + surface.softening) * (gaps[j + 1] + surface.softening)) - surface.softening;
    const field = prepare(gap, elementLength);
    // Halfway between the levels at which the map began, and at the last.
    const checkLevels = levels
      .slice(1)
      .map((level, i) => (i + 2 < levels.length ? Math.sqrt(level * levels[i + 2]) : level));
    for (const point of solveLine(field, gap, checkLevels, Infinity).points) {
      const fitted = surfaceAt(surface, gap, point.ampereTurns);
      raise(fit, {
        force: Math.abs(fitted.force / point.force - 1),
        fluxLinkage: Math.abs(fitted.fluxLinkage / point.fluxLinkage - 1),
      });
    }
    yield { done: gaps.length + k + 1, all };
  }
  return {
    surface,
    lines: lines.map(({ gap, ampereTurns: line, points }) => ({ gap, ampereTurns: line, points })),
    points: lines.flatMap((line) => line.points.slice(1)),
    estimatedError: { mesh, fit },
    ...shape(surface),
    nodes,
  };
}

interface Errors {
  force: number;
  fluxLinkage: number;
}

function raise(errors: Errors, by: Readonly<Errors>): void {
  errors.force = Math.max(errors.force, by.force);
  errors.fluxLinkage = Math.max(errors.fluxLinkage, by.fluxLinkage);
}

/**
 * Gaps from the smallest to the largest, evenly spread in the variable in which the map is smooth: close together where
 * the plunger nears its seat.
 *
 * @throws DomainError SW-M041 unless 0 ≤ smallest < largest and count is 2 or more
 */
export function spreadGaps(smallest: number, largest: number, count = 12): number[] {
  requireRising('gaps', [smallest, largest], 0);
  if (!(Number.isInteger(count) && count >= 2))
    throw new DomainError('SW-M041', `a map needs two gaps or more, not ${count}`);
  const softening = (largest - smallest) / 40;
  const ratio = (largest + softening) / (smallest + softening);
  return Array.from({ length: count }, (_, i) => {
    if (i === 0) return smallest;
    return i === count - 1 ? largest : (smallest + softening) * ratio ** (i / (count - 1)) - softening;
  });
}

/** The same in one go. */
export function fieldMap(
  solenoid: SolenoidDimensions,
  steel: MagnetisationTable | MagnetisationCurve,
  request: MapRequest,
): FieldMap {
  const steps = fieldMapSteps(solenoid, steel, request);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

interface Line {
  readonly gap: number;
  readonly ampereTurns: number[];
  readonly points: MapPoint[];
  readonly solutions: FieldSolution[];
  /** Largest change made by the last halvings. */
  readonly lastChange: Errors;
}

/** Steps between levels are halved no further than this. */
const MOST_HALVINGS = 4;

/**
 * Solves rising levels on one mesh, each from the one before, and halves the steps between them (in the surface's own
 * variable) wherever the solution in the middle differs from what the curve through the others says.
 */
function solveLine(field: PreparedField, gap: number, levels: readonly number[], tolerance: number): Line {
  const line: Line = { gap, ampereTurns: [], points: [], solutions: [], lastChange: { force: 0, fluxLinkage: 0 } };
  const insert = (at: number, level: number, start: FieldSolution | undefined): void => {
    const solution = field.solve({ [COIL]: level }, start);
    const { converged, iterations, residual } = solution.convergence;
    if (!converged)
      throw new DomainError(
        'SW-M042',
        `no field found at gap ${gap} m and ${level} ampere-turns: residual ${residual} after ${iterations} iterations`,
      );
    line.ampereTurns.splice(at, 0, level);
    line.solutions.splice(at, 0, solution);
    line.points.splice(at, 0, mapPoint(gap, level, solution));
  };
  for (const level of levels) insert(line.ampereTurns.length, level, line.solutions[line.solutions.length - 1]);
  if (tolerance === Infinity) return line;
  const unit = levels[1];
  let open = levels.slice(1).map((level): readonly [number, number] => [level, 0]);
  while (open.length > 0) {
    const next: (readonly [number, number])[] = [];
    // The curve of this gap alone, as a surface between two copies of it.
    const before = coEnergySurface([line, { ...line, gap: gap * 1.001 + 1e-6 }]);
    for (const [upper, halvings] of open) {
      const at = line.ampereTurns.indexOf(upper);
      const lower = at === 1 ? 0 : line.ampereTurns[at - 1];
      const middle = unit * Math.sinh((Math.asinh(lower / unit) + Math.asinh(upper / unit)) / 2);
      const expected = curveAt(before, middle);
      insert(at, middle, line.solutions[at - 1]);
      const found = line.points[at];
      const change = {
        force: Math.abs(expected.force / found.force - 1),
        fluxLinkage: Math.abs(expected.fluxLinkage / found.fluxLinkage - 1),
      };
      if (Math.max(change.force, change.fluxLinkage) > tolerance && halvings < MOST_HALVINGS)
        next.push([middle, halvings + 1], [upper, halvings + 1]);
      else raise(line.lastChange, change);
    }
    open = next;
  }
  return line;
}

function mapPoint(gap: number, ampereTurns: number, solution: FieldSolution): MapPoint {
  const { coEnergy, energy, fluxLinkage, force, convergence } = solution;
  return {
    gap,
    ampereTurns,
    coEnergy,
    energy,
    fluxLinkage: fluxLinkage[COIL],
    force: -force,
    iterations: convergence.iterations,
  };
}

function requireRising(name: string, values: readonly number[], least: number): void {
  if (values.length < 2) throw new DomainError('SW-M041', `a map needs two ${name} or more, not ${values.length}`);
  values.forEach((value, i) => {
    if (!(value >= least && value < Infinity))
      throw new DomainError('SW-M041', `${name} of a map must be finite and not below zero, read ${value}`);
    if (i > 0 && value <= values[i - 1])
      throw new DomainError('SW-M041', `${name} of a map must rise: ${value} follows ${values[i - 1]}`);
  });
}

const LEVELS_LOOKED_AT = 60;

/** Looks at the surface between the gaps and levels that it was made from. */
function shape(surface: CoEnergySurface): { rising: boolean; attracting: boolean } {
  const dense = (nodes: Float64Array): number[] =>
    Array.from(nodes).flatMap((a, k) =>
      k + 1 < nodes.length ? [0, 1, 2, 3].map((m) => a + ((nodes[k + 1] - a) * m) / 4) : [a],
    );
  let isRising = true;
  let attracting = true;
  for (const gap of dense(surface.gaps)) {
    let before = 0;
    for (let k = 1; k <= LEVELS_LOOKED_AT; k++) {
      const level = surface.mostAmpereTurns * (k / LEVELS_LOOKED_AT) ** 3;
      const { fluxLinkage, force } = surfaceAt(surface, gap, level);
      if (!(fluxLinkage > before)) isRising = false;
      if (!(force > 0)) attracting = false;
      before = fluxLinkage;
    }
  }
  return { rising: isRising, attracting };
}
