/**
 * The same grid solved by the general-purpose finite-element program `getdp`, if it is installed: on our own meshes
 * (given to it as Gmsh files, format 2.2), with the same steel, second-order elements and its own damped iteration. It
 * computes flux linkage only; force would cost it more. Its far boundary is A = 0 on our sphere of five half-extents.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { prepareField } from '../src/physics/magnetics/field.ts';
import { MagnetisationCurve } from '../src/physics/magnetics/magnetisation-curve.ts';
import type { Mesh } from '../src/physics/magnetics/mesh.ts';
import { lowCarbonPlate } from '../src/physics/magnetics/steel.ts';
import { COIL, solenoidProblem } from '../src/physics/solenoid/field/solenoid-problem.ts';
import type { ReferenceCase } from '../test/published/solenoid-reference.ts';

const [AIR, WINDING, STEEL, AXIS, FAR] = [1, 2, 3, 4, 5];

/** Gmsh file of a mesh: regions as above, axis and far boundary as three-node lines. */
function gmshFile(mesh: Mesh, kinds: readonly number[]): string {
  const rows: string[] = [];
  for (let e = 0; e < mesh.region.length; e++) {
    const kind = mesh.region[e] < 0 ? AIR : kinds[mesh.region[e]];
    const nodes = Array.from(mesh.triangles.subarray(6 * e, 6 * e + 6), (n) => n + 1);
    rows.push(`9 2 ${kind} ${kind} ${nodes.join(' ')}`);
    for (let k = 0; k < 3; k++) {
      const line = [nodes[k], nodes[(k + 1) % 3], nodes[3 + k]];
      if (line.every((n) => mesh.onAxis[n - 1] === 1)) rows.push(`8 2 ${AXIS} ${AXIS} ${line.join(' ')}`);
    }
  }
  for (const edge of mesh.outerEdges) {
    const [t, k] = [6 * Math.floor(edge / 3), edge % 3];
    rows.push(`8 2 ${FAR} ${FAR} ${[k, (k + 1) % 3, 3 + k].map((i) => mesh.triangles[t + i] + 1).join(' ')}`);
  }
  const points = Array.from(
    { length: mesh.nodes },
    (_, n) => `${n + 1} ${mesh.coordinates[2 * n]} ${mesh.coordinates[2 * n + 1]} 0`,
  );
  return [
    '$MeshFormat\n2.2 0 8\n$EndMeshFormat',
    `$Nodes\n${mesh.nodes}\n${points.join('\n')}\n$EndNodes`,
    `$Elements\n${rows.length}\n${rows.map((row, i) => `${i + 1} ${row}`).join('\n')}\n$EndElements\n`,
  ].join('\n');
}

/** The problem in the program's own language. */
function problemFile(steel: MagnetisationCurve, coilArea: number): string {
  const out = new Float64Array(3);
  const samples = Array.from({ length: 1200 }, (_, i) => (i < 1000 ? 1e-3 + (2.3 * i) / 1000 : 2.3 + (i - 1000) / 50));
  const table = (value: (b: number) => number): string =>
    samples.map((b, i) => `${i === 0 ? 0 : b * b}, ${value(b)}`).join(', ');
  const reluctivity = (b: number): number => {
    steel.evaluate(b, out);
    return out[0] / b;
  };
  // d(H/B)/d(B²) = (dH/dB - H/B) / (2 B²)
  const slope = (b: number): number => {
    steel.evaluate(b, out);
    return (out[1] - out[0] / b) / (2 * b * b);
  };
  return `
DefineConstant[ turns = 1000 ];
Group {
  Winding = Region[${WINDING}]; Steel = Region[${STEEL}]; Plain = Region[{${AIR}, ${WINDING}}];
  All_ = Region[{Plain, Steel}]; Zero = Region[{${AXIS}, ${FAR}}];
}
Function {
  reluctivityTable() = {${table(reluctivity)}};
  slopeTable() = {${table(slope)}};
  nu[Plain] = 1 / (4e-7 * Pi);
  nu[Steel] = InterpolationLinear[SquNorm[$1]]{reluctivityTable()};
  tangent[Steel] = 2 * InterpolationLinear[SquNorm[$1]]{slopeTable()} * SquDyadicProduct[$1];
  current[Winding] = Vector[0, 0, turns / ${coilArea}];
}
Jacobian { { Name RoundAxis; Case { { Region All; Jacobian VolAxi; } } } }
Integration { { Name Gauss_; Case { { Type Gauss; Case { { GeoElement Triangle2; NumberOfPoints 6; } { GeoElement Line2; NumberOfPoints 3; } } } } } }
Constraint { { Name NoPotential; Case { { Region Zero; Value 0; } } } }
FunctionSpace { { Name Potential; Type Form1P;
  BasisFunction { { Name b; NameOfCoef c; Function BF_PerpendicularEdge; Support All_; Entity NodesOf[All]; } }
  Constraint { { NameOfCoef c; EntityType NodesOf; NameOfConstraint NoPotential; } } } }
Formulation { { Name FieldEquation; Type FemEquation; Quantity { { Name a; Type Local; NameOfSpace Potential; } }
  Equation {
    Galerkin { [ nu[{d a}] * Dof{d a}, {d a} ]; In All_; Jacobian RoundAxis; Integration Gauss_; }
    Galerkin { JacNL [ tangent[{d a}] * Dof{d a}, {d a} ]; In Steel; Jacobian RoundAxis; Integration Gauss_; }
    Galerkin { [ -current[], {a} ]; In Winding; Jacobian RoundAxis; Integration Gauss_; }
  } } }
Resolution { { Name Solve_; System { { Name S; NameOfFormulation FieldEquation; } }
  Operation { InitSolution[S]; IterativeLoop[80, 1e-5, 0.6] { GenerateJac[S]; SolveJac[S]; } SaveSolution[S]; } } }
PostProcessing { { Name Linkage; NameOfFormulation FieldEquation; Quantity {
  { Name lambda; Value { Integral { [ 2 * Pi * CompZ[{a}] / ${coilArea} ]; In Winding; Jacobian RoundAxis; Integration Gauss_; } } } } } }
PostOperation { { Name WriteLinkage; NameOfPostProcessing Linkage; Operation { Print[ lambda[Winding], OnGlobal, Format Table, File "lambda.txt" ]; } } }
`;
}

export interface GeneralProgramRun {
  readonly seconds: number;
  readonly solves: number;
  /** Solves whose flux linkage is within a per cent of the reference. */
  readonly right: number;
}

/**
 * Solves the grid at some of its gaps with the general-purpose program; undefined when it is not installed. Only the
 * program's own time counts.
 */
export function generalProgram(
  reference: ReferenceCase,
  elementLength: number,
  gaps: readonly number[],
): GeneralProgramRun | undefined {
  if (spawnSync('getdp', ['--version']).error !== undefined) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'field-bench-'));
  try {
    const steel = new MagnetisationCurve(lowCarbonPlate);
    const { innerRadius, outerRadius, bottom, top } = reference.solenoid.coil;
    writeFileSync(join(folder, 'field.pro'), problemFile(steel, (outerRadius - innerRadius) * (top - bottom)));
    let [seconds, solves, right] = [0, 0, 0];
    for (const gap of gaps) {
      const problem = solenoidProblem(reference.solenoid, gap, steel);
      const kinds = problem.regions.map((region) => (region.winding === COIL ? WINDING : STEEL));
      writeFileSync(join(folder, 'field.msh'), gmshFile(prepareField(problem, elementLength).mesh, kinds));
      for (const point of reference.points.filter((p) => p.gap === gap)) {
        const start = performance.now();
        spawnSync(
          'getdp',
          [
            'field.pro',
            '-msh',
            'field.msh',
            '-solve',
            'Solve_',
            '-pos',
            'WriteLinkage',
            '-setnumber',
            'turns',
            `${point.ampereTurns}`,
            '-v',
            '1',
          ],
          {
            cwd: folder,
            env: { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' },
          },
        );
        seconds += (performance.now() - start) / 1000;
        solves++;
        const printed = readFileSync(join(folder, 'lambda.txt'), 'utf8').trim().split(/\s+/);
        if (Math.abs(Number(printed[printed.length - 1]) / point.fluxLinkage - 1) < 0.01) right++;
      }
    }
    return { seconds, solves, right };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
