import { COARSER, estimateErrors, type FieldSolution, prepareField } from '../../magnetics/field.ts';
import { MagnetisationCurve, type MagnetisationTable } from '../../magnetics/magnetisation-curve.ts';
import type { Mesh } from '../../magnetics/mesh.ts';
import type { Convergence } from '../../magnetics/newton.ts';
import type { SolenoidDimensions } from './dimensions.ts';
import { COIL, solenoidProblem } from './solenoid-problem.ts';

/** One gap and one level. Check `convergence.converged` before using anything else. */
export interface SolenoidFieldRow {
  /** Metres from home. */
  readonly gap: number;
  readonly ampereTurns: number;
  /** Pull towards home, N, by nodal virtual work. */
  readonly force: number;
  /** The same as a difference of co-energies, N; undefined if a solve for it did not converge. */
  readonly forceByCoEnergy: number | undefined;
  /** Wb per turn. */
  readonly fluxLinkage: number;
  readonly coEnergy: number;
  readonly energy: number;
  /** Estimated relative errors by the mesh. */
  readonly estimatedError: { readonly force: number; readonly fluxLinkage: number };
  readonly convergence: Convergence;
}

export interface SolenoidFieldResult {
  readonly mesh: Mesh;
  readonly rows: readonly SolenoidFieldRow[];
  /** The solutions behind the rows, for drawing: contours of `potential` over the mesh are the field lines. */
  readonly solutions: readonly FieldSolution[];
}

/**
 * The field of a plunger solenoid at one gap and several levels: one mesh, each level started from the one before, each
 * force found twice and each error estimated on a coarser mesh.
 *
 * @param gap metres from home; a residual shim is added to it
 * @param ampereTurns in any order; neighbours best stand together
 * @throws DomainError SW-M030 to SW-M032 (dimensions, gap), SW-M020 to SW-M022 (table), SW-M015, SW-M017
 */
export function solenoidField(
  solenoid: SolenoidDimensions,
  steel: MagnetisationTable | MagnetisationCurve,
  gap: number,
  ampereTurns: readonly number[],
  elementLength = 1,
): SolenoidFieldResult {
  const problem = solenoidProblem(solenoid, gap, steel);
  const fine = prepareField(problem, elementLength);
  const coarse = prepareField(problem, Math.min(4, elementLength * COARSER));
  const solutions: FieldSolution[] = [];
  let rough: FieldSolution | undefined;
  for (const level of ampereTurns) {
    solutions.push(fine.solve({ [COIL]: level }, solutions[solutions.length - 1]));
  }
  const rows = solutions.map((solution, i): SolenoidFieldRow => {
    rough = coarse.solve({ [COIL]: ampereTurns[i] }, rough);
    const { force, fluxLinkage, coEnergy, energy, convergence } = solution;
    const second = convergence.converged ? fine.forceByCoEnergy(solution) : undefined;
    const errors = estimateErrors(solution, rough, elementLength);
    return {
      gap,
      ampereTurns: ampereTurns[i],
      force: 0 - force,
      forceByCoEnergy: second === undefined ? undefined : 0 - second,
      fluxLinkage: fluxLinkage[COIL],
      coEnergy,
      energy,
      estimatedError: { force: errors.force, fluxLinkage: errors.fluxLinkage[COIL] },
      convergence,
    };
  });
  return { mesh: fine.mesh, rows, solutions };
}
