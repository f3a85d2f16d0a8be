import { DomainError } from '../domain-error.ts';
import { FieldSystem } from './field-system.ts';
import { displacedCoordinates, displacementShares, nodalForce } from './force.ts';
import { MagnetisationCurve } from './magnetisation-curve.ts';
import { meshRegions, type Mesh } from './mesh.ts';
import { type Convergence, minimiseEnergy, type NewtonOptions, USUAL_NEWTON } from './newton.ts';
import type { AmpereTurns, FieldProblem } from './problem.ts';

/** A field on one mesh. Check `convergence.converged` before using anything else. */
export interface FieldSolution {
  readonly ampereTurns: AmpereTurns;
  /** Radius × azimuthal vector potential at the nodes of the mesh, Wb: its contours are the field lines. */
  readonly potential: Float64Array;
  /** Axial force on the moving regions by nodal virtual work, N, positive towards greater height; 0 if none moves. */
  readonly force: number;
  /** Flux linkage per turn of each winding, Wb: mean of 2 π r A over its section. */
  readonly fluxLinkage: Readonly<Record<string, number>>;
  /** ∫ λ dNI from zero, J: the whole space. */
  readonly coEnergy: number;
  /** Field energy, J; energy + coEnergy = Σ NI λ when nothing but the windings excites the field. */
  readonly energy: number;
  readonly convergence: Convergence;
}

/** A meshed problem, ready to be solved for any ampere-turns. */
export interface PreparedField {
  readonly mesh: Mesh;
  /** Solves; `start` (a solution on this mesh) saves iterations. */
  solve(ampereTurns: AmpereTurns, start?: FieldSolution): FieldSolution;
  /**
   * Axial force, N, as the difference of co-energy between the moving regions a little higher and a little lower, each
   * solved anew at the same ampere-turns: what `force` must equal. NaN never; `undefined` if a solve did not converge.
   */
  forceByCoEnergy(solution: FieldSolution): number | undefined;
  /** Mean of |B| over element e, tesla. */
  fluxDensity(solution: FieldSolution, element: number): number;
}

/** @throws DomainError SW-M010 to SW-M016 (outlines and mesh), SW-M018 (a permeability) */
export function prepareField(
  problem: FieldProblem,
  elementLength = 1,
  newton: NewtonOptions = USUAL_NEWTON,
): PreparedField {
  const { regions, surroundings } = problem;
  for (const { name, material } of regions)
    if (typeof material === 'object' && !(material instanceof MagnetisationCurve)) {
      const { relativePermeability: mu } = material;
      if (!(mu > 0 && mu <= 1e7))
        throw new DomainError(
          'SW-M018',
          `relative permeability of region "${name}" must lie above 0 and up to 1e7, not ${mu}`,
        );
    }
  const permeable = regions.map(({ name, outline, material }) => ({ name, outline, permeable: material !== 'air' }));
  const mesh = meshRegions(permeable, surroundings, elementLength);
  const system = new FieldSystem(mesh, regions, surroundings);
  const moves = regions.some((r) => r.moving === true);
  const shares = moves ? displacementShares(mesh, regions) : undefined;
  const step = moves ? smallestStep(mesh, shares!) : 0;

  function loadOf(ampereTurns: AmpereTurns): Float64Array {
    const load = system.outerLoad.slice();
    for (const [name, turns] of Object.entries(ampereTurns)) {
      const k = system.windings.indexOf(name);
      if (k < 0)
        throw new DomainError(
          'SW-M017',
          `no region belongs to a winding "${name}"; there are: ${system.windings.join(', ') || 'none'}`,
        );
      if (!(Math.abs(turns) <= MOST_AMPERE_TURNS))
        throw new DomainError(
          'SW-M017',
          `ampere-turns of winding "${name}" must lie within ±${MOST_AMPERE_TURNS}, not ${turns}`,
        );
      const linkage = system.linkages[k];
      for (let n = 0; n < load.length; n++) load[n] += turns * linkage[n];
    }
    return load;
  }

  function coEnergyDisplaced(solution: FieldSolution, load: Float64Array, distance: number): number | undefined {
    const moved = system.moved(displacedCoordinates(mesh, shares!, distance));
    moved.cholesky.forgetConstantFronts();
    const { potential, energy, convergence } = minimiseEnergy(moved, load, solution.potential, newton);
    return convergence.converged ? dot(load, potential) - energy : undefined;
  }

  return {
    mesh,
    solve(ampereTurns, start) {
      const load = loadOf(ampereTurns);
      const { potential, energy, convergence } = minimiseEnergy(system, load, start?.potential, newton);
      return {
        ampereTurns,
        potential,
        force: shares === undefined ? 0 : nodalForce(system, shares, potential),
        fluxLinkage: Object.fromEntries(system.windings.map((name, k) => [name, dot(system.linkages[k], potential)])),
        coEnergy: dot(load, potential) - energy,
        energy,
        convergence,
      };
    },
    forceByCoEnergy(solution) {
      if (!moves) return 0;
      const load = loadOf(solution.ampereTurns);
      const above = coEnergyDisplaced(solution, load, step);
      const below = coEnergyDisplaced(solution, load, -step);
      system.cholesky.forgetConstantFronts();
      return above === undefined || below === undefined ? undefined : (above - below) / (2 * step);
    },
    fluxDensity(solution, element) {
      const B = new Float64Array(2);
      let sum = 0;
      let weight = 0;
      for (let q = 0; q < 6; q++) {
        system.fluxDensity(element, q, solution.potential, B);
        const w = system.weights[6 * element + q];
        sum += w * Math.hypot(B[0], B[1]);
        weight += w;
      }
      return sum / weight;
    },
  };
}

export interface SolveOptions {
  /** Element length relative to the usual, 0.05 to 4: 1 (the default) keeps force within about half a per cent. */
  readonly elementLength?: number;
  readonly newton?: NewtonOptions;
}

/** A solution with its checks. */
export interface FieldResult extends FieldSolution {
  readonly mesh: Mesh;
  /** The same force as a difference of co-energies, N; undefined if one of those solves did not converge. */
  readonly forceByCoEnergy: number | undefined;
  /** Estimated relative errors, from the change against a mesh with elements half as long again; 1 if that failed. */
  readonly estimatedError: { readonly force: number; readonly fluxLinkage: Readonly<Record<string, number>> };
}

/**
 * Meshes and solves one axisymmetric magnetostatic problem, with a second force and an error estimate.
 *
 * Leaves out hysteresis, eddy currents and joints. Point values of B at sharp corners depend on the mesh.
 *
 * @throws DomainError SW-M010 to SW-M018, see docs/field.md
 */
export function solveField(problem: FieldProblem, ampereTurns: AmpereTurns, options: SolveOptions = {}): FieldResult {
  const { elementLength = 1, newton = USUAL_NEWTON } = options;
  const fine = prepareField(problem, elementLength, newton);
  const coarse = prepareField(problem, Math.min(4, elementLength * COARSER), newton);
  const solution = fine.solve(ampereTurns);
  const rough = coarse.solve(ampereTurns);
  return {
    ...solution,
    mesh: fine.mesh,
    forceByCoEnergy: solution.convergence.converged ? fine.forceByCoEnergy(solution) : undefined,
    estimatedError: estimateErrors(solution, rough, elementLength),
  };
}

/** The coarser mesh of the error estimate has elements longer by this factor. */
export const COARSER = 1.5;

/**
 * Estimated relative errors of a solution from the one on a mesh coarser by `COARSER`. The change of the force may pass
 * through zero by chance, so force and flux linkage are each given the larger of the two changes, and a floor that falls
 * with the elements' area.
 */
export function estimateErrors(
  solution: FieldSolution,
  rough: FieldSolution,
  elementLength: number,
): FieldResult['estimatedError'] {
  if (!solution.convergence.converged || !rough.convergence.converged)
    return { force: 1, fluxLinkage: Object.fromEntries(Object.keys(solution.fluxLinkage).map((name) => [name, 1])) };
  const change = (value: number, other: number): number =>
    value === other ? 0 : Math.abs(value - other) / Math.abs(value);
  const floor = LEAST_ERROR * elementLength ** 2;
  const fluxChanges = Object.entries(solution.fluxLinkage).map(
    ([name, value]) => [name, change(value, rough.fluxLinkage[name])] as const,
  );
  const largestFlux = Math.max(0, ...fluxChanges.map(([, value]) => value));
  const forceChange = change(solution.force, rough.force);
  return {
    force: Math.min(1, floor + Math.max(forceChange, largestFlux)),
    fluxLinkage: Object.fromEntries(
      fluxChanges.map(([name, value]) => [name, Math.min(1, floor + Math.max(value, forceChange / 2))]),
    ),
  };
}

/** Floor of the error estimate at the usual element length. */
const LEAST_ERROR = 1.5e-3;

const MOST_AMPERE_TURNS = 1e7;

/** A displacement that distorts no element by more than a hundredth. */
function smallestStep(mesh: Mesh, shares: Float64Array): number {
  let steepest = 0;
  for (let e = 0; e < mesh.region.length; e++)
    for (let k = 0; k < 3; k++) {
      const a = mesh.triangles[6 * e + k];
      const b = mesh.triangles[6 * e + ((k + 1) % 3)];
      const length = Math.hypot(
        mesh.coordinates[2 * a] - mesh.coordinates[2 * b],
        mesh.coordinates[2 * a + 1] - mesh.coordinates[2 * b + 1],
      );
      steepest = Math.max(steepest, Math.abs(shares[a] - shares[b]) / length);
    }
  return steepest > 0 ? 0.01 / steepest : 0.01 * Math.max(mesh.farRadius, 1e-3);
}

function dot(x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i] * y[i];
  return sum;
}
