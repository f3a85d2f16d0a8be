/**
 * The field solver's speed: the 8 × 5 map of the first reference case, one thread, meshing included, with the largest
 * error of its forces against the reference. Medians of a few runs after one to warm up.
 */
import { performance } from 'node:perf_hooks';
import { prepareField, type FieldSolution } from '../src/physics/magnetics/field.ts';
import { MagnetisationCurve } from '../src/physics/magnetics/magnetisation-curve.ts';
import { lowCarbonPlate } from '../src/physics/magnetics/steel.ts';
import { fieldMap } from '../src/physics/solenoid/field/field-map.ts';
import { COIL, solenoidProblem } from '../src/physics/solenoid/field/solenoid-problem.ts';
import { generalProgram } from './field-general-program.ts';
import { referenceCases, type ReferenceCase } from '../test/published/solenoid-reference.ts';

interface Run {
  readonly seconds: number;
  /** Processor time: what the wall clock would show on a machine that does nothing else. */
  readonly processor: number;
  readonly meshing: number;
  readonly nodes: number;
  readonly iterations: number;
  readonly forceError: number;
  readonly fluxError: number;
}

function solveGrid(reference: ReferenceCase, elementLength: number): Run {
  const steel = new MagnetisationCurve(lowCarbonPlate);
  const began = performance.now();
  const processor = process.cpuUsage();
  let [meshing, nodes, iterations, forceError, fluxError] = [0, 0, 0, 0, 0];
  for (const gap of reference.gaps) {
    const start = performance.now();
    const field = prepareField(solenoidProblem(reference.solenoid, gap, steel), elementLength);
    meshing += performance.now() - start;
    nodes += field.mesh.nodes;
    let last: FieldSolution | undefined;
    for (const point of reference.points.filter((p) => p.gap === gap)) {
      last = field.solve({ [COIL]: point.ampereTurns }, last);
      if (!last.convergence.converged) throw new Error(`no convergence at ${gap} m, ${point.ampereTurns} ampere-turns`);
      iterations += last.convergence.iterations;
      forceError = Math.max(forceError, Math.abs(-last.force / point.force - 1));
      fluxError = Math.max(fluxError, Math.abs(last.fluxLinkage[COIL] / point.fluxLinkage - 1));
    }
  }
  return {
    seconds: (performance.now() - began) / 1000,
    processor: process.cpuUsage(processor).user / 1e6,
    meshing: meshing / 1000,
    nodes,
    iterations,
    forceError,
    fluxError,
  };
}

/** The run of median duration, after one that is not counted. */
function median(runs: number, run: () => Run): Run {
  run();
  const all = Array.from({ length: runs }, run).sort((a, b) => a.seconds - b.seconds);
  return all[Math.floor(runs / 2)];
}

const percent = (value: number): string => `${(100 * value).toFixed(2)} %`;

/** Prints what was measured, a line at a time. */
export async function bench(print: (line: string) => void): Promise<void> {
  const [first] = referenceCases;
  print(`field: 8 gaps × 5 levels of ${first.name}, meshing and 40 solves, one thread`);
  for (const elementLength of [1.5, 1]) {
    const run = median(5, () => solveGrid(first, elementLength));
    print(
      `  element length ${elementLength}: ${run.seconds.toFixed(3)} s (processor ${run.processor.toFixed(3)} s; preparing ${run.meshing.toFixed(3)} s), ${run.nodes} nodes on 8 meshes, `
        + `${run.iterations} iterations, force within ${percent(run.forceError)}, flux linkage within ${percent(run.fluxError)}`,
    );
    if (elementLength !== 1.5) continue;
    print(`  goal 1 s within 1 %: ${run.seconds <= 1 && run.forceError <= 0.01 ? 'met' : 'missed'}`);
    const other = generalProgram(first, elementLength, [first.gaps[1], first.gaps[4], first.gaps[7]]);
    // Measured once, on a machine of this size, on meshes of its usual kind for 1 %: 3430 nodes each against our 1180.
    const recorded = `on its usual meshes for 1 % it was recorded at 58.6 s for the 40, ${(58.6 / run.seconds).toFixed(0)} times as long`;
    if (other === undefined) {
      print(`  getdp is not installed; ${recorded}`);
    } else {
      const ratio = other.seconds / other.solves / (run.seconds / 40);
      print(
        `  getdp on our meshes, meshing not counted: ${other.seconds.toFixed(1)} s for ${other.solves} solves, ${other.right} of them right, `
          + `${ratio.toFixed(0)} times as long per solve; ${recorded}`,
      );
    }
  }
  const start = performance.now();
  const prepared = prepareField(solenoidProblem(first.solenoid, first.gaps[4], lowCarbonPlate), 2);
  prepared.solve({ [COIL]: 1000 });
  print(`  one coarse solve after a changed dimension: ${(performance.now() - start).toFixed(0)} ms`);
  const coarse = performance.now();
  for (const gap of first.gaps)
    prepareField(solenoidProblem(first.solenoid, gap, lowCarbonPlate), 2).solve({ [COIL]: 1000 });
  print(`  a coarse curve of 8 gaps at one level: ${(performance.now() - coarse).toFixed(0)} ms`);
  const mapped = performance.now();
  const map = fieldMap(first.solenoid, lowCarbonPlate, {
    gaps: first.gaps,
    ampereTurns: [15, 75, 300, 1000, 2400, 4000],
  });
  const { mesh, fit } = map.estimatedError;
  print(
    `  a whole map with its error estimates: ${((performance.now() - mapped) / 1000).toFixed(2)} s, ${map.points.length} points, `
      + `force to ${percent(mesh.force)} by the mesh and ${percent(fit.force)} by the fit`,
  );
}
