/**
 * The field solver against problems whose answer is known in closed form or as a quickly converging integral. Values
 * from data/plunger-solenoid-field.json (`linear_checks`), where each was computed to six digits or more from:
 *
 * - thick coils: Bessel integral, as in J. T. Conway, IEEE Trans. Magn. 43 (2007) 1023 (reference from memory); the
 *   square-section coil agrees with Grover, Inductance Calculations (1946): 1.6994e-6 H/m × mean radius (from memory)
 * - current sheet: L. Lorenz (1879), H. Nagaoka (1909); K(1) = 0.688423 (from memory)
 * - sphere: J. A. Stratton, Electromagnetic Theory (1941); nonlinear: B + 2 mu0 H(B) = 3 B0 inside, exact
 * - uniform gap and rod: Ampère's law, exact
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { prepareField } from '../../src/physics/magnetics/field.ts';
import { MAGNETIC_CONSTANT, MagnetisationCurve } from '../../src/physics/magnetics/magnetisation-curve.ts';
import type { Point } from '../../src/physics/magnetics/outline.ts';
import type { FieldProblem, Material } from '../../src/physics/magnetics/problem.ts';
import { lowCarbonPlate } from '../../src/physics/magnetics/steel.ts';
import { printed } from './solenoid-reference.ts';

const checks = printed.linear_checks;
const steel = new MagnetisationCurve(lowCarbonPlate);

function ring(inner: number, outer: number, bottom: number, top: number): Point[] {
  return [
    [inner, bottom],
    [outer, bottom],
    [outer, top],
    [inner, top],
  ];
}

function near(value: number, expected: number, relative: number, what: string): void {
  assert.ok(
    Math.abs(value / expected - 1) <= relative,
    `${what}: ${value}, expected ${expected}, off by ${value / expected - 1}`,
  );
}

function bareCoil(r1: number, r2: number, h: number): FieldProblem {
  return {
    regions: [{ name: 'coil', outline: ring(r1, r2, -h / 2, h / 2), material: 'air', winding: 'coil' }],
    surroundings: { kind: 'open' },
  };
}

test('self-inductance of thick coils to 0.02 %', () => {
  for (const { r1, r2, h, L_per_N2_H } of checks.thick_coils.self_L) {
    const { fluxLinkage, coEnergy } = prepareField(bareCoil(r1, r2, h), 0.25).solve({ coil: 1 });
    near(fluxLinkage['coil'], L_per_N2_H, 2e-4, `coil ${r1} to ${r2} by ${h} m`);
    near(coEnergy, L_per_N2_H / 2, 2e-4, 'co-energy');
  }
});

test('a thin coil has the inductance of a current sheet to 0.1 %, less the share of its thickness', () => {
  const length = 0.02;
  for (const [ratio, K] of Object.entries(checks.nagaoka.K)) {
    if (Number(ratio) < 0.5 || Number(ratio) > 2) continue;
    const radius = (Number(ratio) * length) / 2;
    const thickness = radius / 40;
    const problem = bareCoil(radius - thickness / 2, radius + thickness / 2, length);
    const { fluxLinkage } = prepareField(problem, 0.5).solve({ coil: 1 });
    // The field falls linearly across the winding: a sixth of its thickness holds less energy than a sheet would.
    const sheet = fluxLinkage['coil'] + (MAGNETIC_CONSTANT * 2 * Math.PI * radius * thickness) / (6 * length);
    near(sheet, (MAGNETIC_CONSTANT * Math.PI * radius * radius * K) / length, 1e-3, `diameter over length ${ratio}`);
  }
});

test('mutual inductance and force of coaxial thick coils to 0.1 %', () => {
  for (const { c1, c2, centre_distance: d, M_per_N1N2, F_per_NI1NI2 } of checks.thick_coils.pairs) {
    const field = prepareField(
      {
        regions: [
          { name: 'lower', outline: ring(c1[0], c1[1], -c1[2] / 2, c1[2] / 2), material: 'air', winding: 'lower' },
          {
            name: 'upper',
            outline: ring(c2[0], c2[1], d - c2[2] / 2, d + c2[2] / 2),
            material: 'air',
            winding: 'upper',
            moving: true,
          },
        ],
        surroundings: { kind: 'open' },
      },
      0.3,
    );
    near(field.solve({ lower: 1 }).fluxLinkage['upper'], M_per_N1N2, 1e-3, `M at ${d} m`);
    near(field.solve({ upper: 1 }).fluxLinkage['lower'], M_per_N1N2, 1e-3, `M the other way at ${d} m`);
    const both = field.solve({ lower: 100, upper: 100 });
    near(-both.force / 1e4, F_per_NI1NI2, 1e-3, `attraction at ${d} m`);
    near(field.forceByCoEnergy(both)!, both.force, 1e-3, 'the same force by co-energy');
    near(field.solve({ lower: 100, upper: -100 }).force / 1e4, F_per_NI1NI2, 1e-3, `repulsion at ${d} m`);
  }
});

/** Axial flux density in the middle of a sphere in a uniform field. The polygon has the sphere's volume. */
function insideSphere(material: Material, fluxDensity: number): number {
  const sides = 48;
  const angles = Array.from({ length: sides + 1 }, (_, i) => (Math.PI * i) / sides);
  const unit = angles.map((a, i): Point => [i === 0 || i === sides ? 0 : Math.sin(a), -Math.cos(a)]);
  let volume = 0;
  for (let i = 0; i < sides; i++) {
    const [[r1, z1], [r2, z2]] = [unit[i], unit[i + 1]];
    volume += (Math.PI / 3) * (z2 - z1) * (r1 * r1 + r1 * r2 + r2 * r2);
  }
  const radius = 0.01 * Math.cbrt((4 * Math.PI) / 3 / volume);
  const field = prepareField(
    {
      regions: [{ name: 'sphere', outline: unit.map(([r, z]): Point => [radius * r, radius * z]), material }],
      surroundings: { kind: 'uniform field', fluxDensity },
    },
    0.7,
  );
  const solution = field.solve({});
  assert.ok(solution.convergence.converged);
  const { mesh } = field;
  let sum = 0;
  let count = 0;
  for (let e = 0; e < mesh.region.length; e++) {
    const v = mesh.triangles[6 * e];
    if (mesh.region[e] !== 0 || Math.hypot(mesh.coordinates[2 * v], mesh.coordinates[2 * v + 1]) > 0.5 * radius)
      continue;
    sum += field.fluxDensity(solution, e);
    count++;
  }
  assert.ok(count > 0);
  return sum / count;
}

test('a permeable sphere in a uniform field to 0.3 %', () => {
  for (const { mur, Bin_over_B0 } of checks.sphere.linear)
    near(insideSphere({ relativePermeability: mur }, 0.1) / 0.1, Bin_over_B0, 3e-3, `mu_r ${mur}`);
});

test('a sphere of the low-carbon plate in a uniform field, up to saturation, to 0.3 %', () => {
  for (const { B0_T, Bin_T } of checks.sphere.nonlinear) near(insideSphere(steel, B0_T), Bin_T, 3e-3, `B0 ${B0_T} T`);
});

test('a gap between infinitely permeable plates to 0.01 %', () => {
  for (const { NI, gap_m: g, R1_m, R2_m, lambda_per_turn_Wb, force_core_only_N } of checks.uniform_gap.values) {
    const field = prepareField(
      {
        regions: [
          { name: 'core', outline: ring(0, R1_m, 0, g), material: 'air' },
          { name: 'coil', outline: ring(R1_m, R2_m, 0, g), material: 'air', winding: 'coil' },
        ],
        surroundings: { kind: 'permeable box', radius: R2_m, bottom: 0, top: g },
      },
      0.25,
    );
    const solution = field.solve({ coil: NI });
    // The field falls linearly across the coil, so r A has a cubic part there that second-order elements do not hold.
    near(solution.fluxLinkage['coil'], lambda_per_turn_Wb, 1e-4, `${NI} ampere-turns`);
    const core = field.mesh.region.findIndex((region) => region === 0);
    const B = field.fluxDensity(solution, core);
    near(((B * B) / (2 * MAGNETIC_CONSTANT)) * Math.PI * R1_m * R1_m, force_core_only_N, 2e-3, 'pull on the core face');
  }
});

test('a rod between infinitely permeable plates follows the curve of its steel', () => {
  for (const { NI, length_m: l, rod_radius_m: a, sheet_radius_m: b, B_T } of checks.rod_nonlinear.values) {
    const field = prepareField({
      regions: [
        { name: 'rod', outline: ring(0, a, 0, l), material: steel },
        { name: 'coil', outline: ring(b, 1.02 * b, 0, l), material: 'air', winding: 'coil' },
      ],
      surroundings: { kind: 'permeable box', radius: 1.02 * b, bottom: 0, top: l },
    });
    const solution = field.solve({ coil: NI });
    assert.ok(solution.convergence.converged);
    const inRod = field.mesh.region.findIndex((region) => region === 0);
    near(field.fluxDensity(solution, inRod), B_T, 1e-3, `${NI} ampere-turns`);
  }
});
