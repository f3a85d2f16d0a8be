import type { FieldSystem } from './field-system.ts';

/** How a solve ended. A solve that did not converge says so here; its numbers must not be used. */
export interface Convergence {
  readonly converged: boolean;
  readonly iterations: number;
  /** Gradient of the energy at the end, relative to the load. */
  readonly residual: number;
  /** Newton decrement of the last step over the field energy: about the relative error squared before that step. */
  readonly decrement: number;
}

export interface NewtonOptions {
  /** Stop once the decrement falls below this share of the energy; the last step is still taken. */
  readonly decrement: number;
  readonly mostIterations: number;
}

/** Leaves force and flux linkage about a millionth off, far below what any mesh does. */
export const USUAL_NEWTON: NewtonOptions = { decrement: 1e-7, mostIterations: 60 };

/**
 * Minimises the field energy by Newton's method with a line search on the energy itself, from `start` or from a first
 * solve with a constant permeability. The energy is convex, so each accepted step lowers it.
 *
 * @returns the potential at the nodes and how the iteration ended; never more than `mostIterations` factorisations
 */
export function minimiseEnergy(
  system: FieldSystem,
  load: Float64Array,
  start: Float64Array | undefined,
  options: NewtonOptions,
): { potential: Float64Array; energy: number; convergence: Convergence } {
  const n = system.mesh.nodes;
  const { unknownOf } = system;
  let u = start === undefined ? new Float64Array(n) : start.slice();
  let trial = new Float64Array(n);
  const step = new Float64Array(n);
  let linear = new Float64Array(n);
  const linearStep = new Float64Array(n);
  const gradient = new Float64Array(n);
  const right = new Float64Array(system.unknowns);

  let loadSquared = 0;
  for (let i = 0; i < n; i++) if (unknownOf[i] >= 0) loadSquared += load[i] * load[i];
  if (loadSquared === 0)
    return {
      potential: new Float64Array(n),
      energy: 0,
      convergence: { converged: true, iterations: 0, residual: 0, decrement: 0 },
    };

  system.linearGradient(u, linear);
  gradient.set(linear);
  let nonlinearEnergy = system.nonlinearPass(u, gradient, start === undefined ? FIRST_FLUX_DENSITY : undefined);
  for (let i = 0; i < n; i++) gradient[i] -= load[i];
  let fieldEnergy = nonlinearEnergy + dot(u, linear) / 2;
  let potentialEnergy = fieldEnergy - dot(u, load);

  const residual = (): number => {
    let sum = 0;
    for (let i = 0; i < n; i++) if (unknownOf[i] >= 0) sum += gradient[i] * gradient[i];
    return Math.sqrt(sum / loadSquared);
  };
  let decrement = Infinity;
  for (let iteration = 1; iteration <= options.mostIterations; iteration++) {
    if (!system.factorise())
      return {
        potential: u,
        energy: fieldEnergy,
        convergence: { converged: false, iterations: iteration - 1, residual: residual(), decrement },
      };
    for (let i = 0; i < n; i++) if (unknownOf[i] >= 0) right[unknownOf[i]] = -gradient[i];
    system.cholesky.solve(right);
    let slope = 0;
    for (let i = 0; i < n; i++) {
      step[i] = unknownOf[i] >= 0 ? right[unknownOf[i]] : 0;
      slope += gradient[i] * step[i];
    }
    // Along the step the linear part is a parabola; only the nonlinear elements are evaluated again.
    system.linearGradient(step, linearStep);
    const c1 = dot(step, linear);
    const c2 = dot(step, linearStep) / 2;
    const c0 = dot(u, linear) / 2;
    const loadA = dot(u, load);
    const loadStep = dot(step, load);
    let share = 1;
    let accepted = false;
    for (let attempt = 0; attempt < 40; attempt++) {
      for (let i = 0; i < n; i++) trial[i] = u[i] + share * step[i];
      gradient.fill(0);
      nonlinearEnergy = attempt === 0 ? system.nonlinearPass(trial, gradient) : system.nonlinearEnergy(trial);
      const field = nonlinearEnergy + c0 + share * (c1 + share * c2);
      const value = field - loadA - share * loadStep;
      if (value <= potentialEnergy + 1e-4 * share * slope + 1e-13 * Math.abs(field)) {
        if (attempt > 0) system.nonlinearPass(trial, gradient);
        fieldEnergy = field;
        potentialEnergy = value;
        accepted = true;
        break;
      }
      const parabola = (-slope * share) / (2 * (value - potentialEnergy - slope * share));
      share *= Math.min(0.5, Math.max(0.1, parabola));
    }
    if (!accepted)
      return {
        potential: u,
        energy: fieldEnergy,
        convergence: { converged: false, iterations: iteration, residual: residual(), decrement },
      };
    [u, trial] = [trial, u];
    for (let i = 0; i < n; i++) linear[i] += share * linearStep[i];
    for (let i = 0; i < n; i++) gradient[i] += linear[i] - load[i];
    decrement = -slope / Math.max(Math.abs(fieldEnergy), Number.MIN_VALUE);
    const linearProblem = !system.hasNonlinear;
    if (Math.abs(decrement) < options.decrement || linearProblem)
      return {
        potential: u,
        energy: fieldEnergy,
        convergence: {
          converged: Number.isFinite(fieldEnergy),
          iterations: iteration,
          residual: residual(),
          decrement,
        },
      };
  }
  return {
    potential: u,
    energy: fieldEnergy,
    convergence: { converged: false, iterations: options.mostIterations, residual: residual(), decrement },
  };
}

/** The first solve takes the permeability that the steel has at this flux density, tesla. */
const FIRST_FLUX_DENSITY = 1;

function dot(x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i] * y[i];
  return sum;
}
