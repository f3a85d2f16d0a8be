import assert from 'node:assert/strict';
import { test } from 'node:test';
import { lowCarbonPlate } from '../../../../src/physics/magnetics/steel.ts';
import { solenoidField } from '../../../../src/physics/solenoid/field/solenoid-field.ts';
import { referenceCases } from '../../../published/solenoid-reference.ts';

const [flat] = referenceCases;

test('rows carry the pull towards home twice, the linkage and errors that cover the reference', () => {
  const gap = flat.gaps[4];
  const { rows, mesh, solutions } = solenoidField(flat.solenoid, lowCarbonPlate, gap, flat.ampereTurns);
  assert.equal(rows.length, 5);
  assert.equal(solutions[0].potential.length, mesh.nodes);
  for (const row of rows) {
    const point = flat.points.find((p) => p.gap === gap && p.ampereTurns === row.ampereTurns)!;
    assert.ok(row.convergence.converged && row.force > 0);
    assert.ok(Math.abs(row.forceByCoEnergy! / row.force - 1) < 1e-3);
    assert.ok(Math.abs(row.force / point.force - 1) < row.estimatedError.force + 0.002);
    assert.ok(Math.abs(row.fluxLinkage / point.fluxLinkage - 1) < row.estimatedError.fluxLinkage + 0.002);
    assert.ok(Math.abs(row.coEnergy / point.coEnergy - 1) < 0.005);
  }
});

test('without current there is no pull, no linkage and no error', () => {
  const [row] = solenoidField(flat.solenoid, lowCarbonPlate, 1e-3, [0], 2).rows;
  assert.deepEqual([row.force, row.forceByCoEnergy, row.fluxLinkage, row.coEnergy], [0, 0, 0, 0]);
});
