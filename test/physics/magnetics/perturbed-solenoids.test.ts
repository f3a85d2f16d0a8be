/**
 * A hundred random solenoids round each reference case, every dimension changed by up to a fifth, independently. Each
 * must mesh and converge, or be refused for parts that do not fit. Coarse meshes, so that it takes seconds.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { DomainError } from '../../../src/physics/domain-error.ts';
import { prepareField, type FieldSolution } from '../../../src/physics/magnetics/field.ts';
import { MagnetisationCurve } from '../../../src/physics/magnetics/magnetisation-curve.ts';
import { lowCarbonPlate } from '../../../src/physics/magnetics/steel.ts';
import type { SolenoidDimensions } from '../../../src/physics/solenoid/field/dimensions.ts';
import { COIL, solenoidProblem } from '../../../src/physics/solenoid/field/solenoid-problem.ts';
import { referenceCases } from '../../published/solenoid-reference.ts';

const steel = new MagnetisationCurve(lowCarbonPlate);

function perturbed(solenoid: SolenoidDimensions, next: () => number): SolenoidDimensions {
  const shake = (value: unknown): unknown =>
    typeof value === 'number'
      ? value * (1 + 0.2 * next())
      : Object.fromEntries(Object.entries(value as object).map(([key, inner]) => [key, shake(inner)]));
  return shake(solenoid) as SolenoidDimensions;
}

referenceCases.forEach(({ name, solenoid, gaps, ampereTurns }, k) => {
  test(`a hundred solenoids like ${name} converge`, () => {
    let state = k + 1;
    const next = (): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 31 - 1;
    };
    let solved = 0;
    let refused = 0;
    let most = 0;
    while (solved < 100 && solved + refused < 2000) {
      const one = perturbed(solenoid, next);
      const gap = gaps[Math.floor(((next() + 1) / 2) * gaps.length)] * (1 + 0.2 * next());
      try {
        const field = prepareField(solenoidProblem(one, gap, steel), 1.6);
        let last: FieldSolution | undefined;
        for (const level of [ampereTurns[0], ampereTurns[4]]) {
          last = field.solve({ [COIL]: level * (1 + 0.2 * next()) }, last);
          const where = `${JSON.stringify(one)} gap ${gap} at ${level}: ${JSON.stringify(last.convergence)}`;
          assert.ok(last.convergence.converged, where);
          // A plunger short enough to lie inside the can whole may be drawn either way.
          assert.ok(Number.isFinite(last.force) && last.fluxLinkage[COIL] > 0, where);
          most = Math.max(most, last.convergence.iterations);
        }
        assert.ok(field.mesh.nodes < 10_000, `${field.mesh.nodes} nodes for ${JSON.stringify(one)} gap ${gap}`);
        solved++;
      } catch (error) {
        if (!(error instanceof DomainError) || error.code !== 'SW-M031') throw error;
        refused++;
      }
    }
    assert.equal(solved, 100, `${refused} refused`);
    assert.ok(most <= 40, `${most} iterations`);
  });
});
