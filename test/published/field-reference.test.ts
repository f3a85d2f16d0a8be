/**
 * The field solver against finite-element reference results for four plunger solenoids (flat and conical seat, thin
 * can, wide clearance; 8 gaps × 5 levels each).
 *
 * Source: computed for this project with an independent program (Python, second-order triangles on meshes of a
 * general-purpose generator, 25 to 113 thousand nodes), cross-checked at 18 points by a second general-purpose
 * finite-element program. Its own error estimates stand beside each number in data/plunger-solenoid-field.json; its
 * claim is 0.2 % for force and flux linkage. Far boundary: A = 0 at 8 radii, at most 0.03 % in these cases.
 */
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { prepareField, type FieldSolution } from '../../src/physics/magnetics/field.ts';
import { MagnetisationCurve } from '../../src/physics/magnetics/magnetisation-curve.ts';
import { lowCarbonPlate } from '../../src/physics/magnetics/steel.ts';
import { COIL, solenoidProblem } from '../../src/physics/solenoid/field/solenoid-problem.ts';
import { printed, referenceCases } from './solenoid-reference.ts';

const steel = new MagnetisationCurve(lowCarbonPlate);

test('the built-in table of the low-carbon plate is the one that the reference used', () => {
  // The reference prints its knots above 1.8 T to 1e-6 T and 1e-4 A/m.
  lowCarbonPlate.fluxDensity.forEach((b, i) =>
    assert.ok(Math.abs(b - printed.bh.knots_used_B_T[i]) <= 5.1e-7, `knot ${i}: ${b} T`),
  );
  lowCarbonPlate.fieldStrength.forEach((h, i) =>
    assert.ok(Math.abs(h - printed.bh.knots_used_H_A_per_m[i]) <= 1e-3, `knot ${i}: ${h} A/m`),
  );
});

for (const { name, solenoid, gaps, points } of referenceCases) {
  describe(`reference case ${name}`, () => {
    test('force within 1 % or twice the reference error, flux linkage within 0.5 %, at every gap and level', () => {
      for (const gap of gaps) {
        const field = prepareField(solenoidProblem(solenoid, gap, steel));
        let start: FieldSolution | undefined;
        for (const point of points.filter((p) => p.gap === gap)) {
          const solution = field.solve({ [COIL]: point.ampereTurns }, start);
          start = solution;
          const where = `gap ${gap} m, ${point.ampereTurns} ampere-turns`;
          assert.ok(solution.convergence.converged, where);
          const allowed = Math.max(0.01, (2 * point.forceErrorPercent) / 100);
          // The reference counts force towards the seat as positive.
          const forceError = -solution.force / point.force - 1;
          const fluxError = solution.fluxLinkage[COIL] / point.fluxLinkage - 1;
          assert.ok(Math.abs(forceError) <= allowed, `${where}: force off by ${forceError}`);
          assert.ok(Math.abs(fluxError) <= 0.005, `${where}: flux linkage off by ${fluxError}`);
        }
      }
    });
  });
}
