import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { estimateErrors, prepareField, solveField, type FieldSolution } from '../../../src/physics/magnetics/field.ts';
import { MagnetisationCurve } from '../../../src/physics/magnetics/magnetisation-curve.ts';
import { lowCarbonPlate } from '../../../src/physics/magnetics/steel.ts';
import { COIL, solenoidProblem } from '../../../src/physics/solenoid/field/solenoid-problem.ts';
import { printed, referenceCases } from '../../published/solenoid-reference.ts';

const steel = new MagnetisationCurve(lowCarbonPlate);
const [flat] = referenceCases;

describe('order of convergence', () => {
  /** Slope of log error over log element length between the first and the last. */
  const order = (lengths: readonly number[], errors: readonly number[]): number =>
    Math.log(errors[0] / errors[errors.length - 1]) / Math.log(lengths[0] / lengths[lengths.length - 1]);

  test('inductance of a bare coil: order four, as second-order elements have for energies', () => {
    const { r1, r2, h, L_per_N2_H } = printed.linear_checks.thick_coils.self_L[0];
    const lengths = [1, 0.5, 0.25];
    const errors = lengths.map((length) => {
      const field = prepareField(
        {
          regions: [
            {
              name: 'coil',
              outline: [
                [r1, 0],
                [r2, 0],
                [r2, h],
                [r1, h],
              ],
              material: 'air',
              winding: 'coil',
            },
          ],
          surroundings: { kind: 'open' },
        },
        length,
      );
      return Math.abs(field.solve({ coil: 1 }).fluxLinkage['coil'] / L_per_N2_H - 1);
    });
    const found = order(lengths, errors);
    assert.ok(found > 3.3 && found < 5.5, `order ${found} from errors ${errors.join(', ')}`);
  });

  test('force and co-energy of a saturated solenoid: better than order 1.5, corners and all', () => {
    // Reference value of the finest of four levels, gap 2 mm and 1000 ampere-turns: 27.524481 N.
    const lengths = [2, 1, 0.5];
    const results = lengths.map((length) =>
      prepareField(solenoidProblem(flat.solenoid, 2e-3, steel), length).solve({ [COIL]: 1000 }),
    );
    const force = results.map((r) => Math.abs(-r.force / 27.524481 - 1));
    assert.ok(force[2] < 1e-3, `force errors ${force.join(', ')}`);
    const finest = prepareField(solenoidProblem(flat.solenoid, 2e-3, steel), 0.3).solve({ [COIL]: 1000 });
    const energy = results.map((r) => Math.abs(r.coEnergy / finest.coEnergy - 1));
    const found = order(lengths, energy);
    assert.ok(found > 1.5, `order ${found} from errors ${energy.join(', ')}`);
    // The discrete space is too small, so the co-energy comes from below.
    for (const r of results) assert.ok(r.coEnergy < finest.coEnergy);
  });
});

test('force is the change of co-energy when the plunger moves, at every gap', () => {
  for (const { solenoid, gaps, ampereTurns } of referenceCases)
    for (const gap of [gaps[0], gaps[4], gaps[7]])
      for (const level of [ampereTurns[0], ampereTurns[4]]) {
        const field = prepareField(solenoidProblem(solenoid, gap, steel), 1.4);
        const solution = field.solve({ [COIL]: level });
        assert.ok(
          Math.abs(field.forceByCoEnergy(solution)! / solution.force - 1) < 5e-4,
          `gap ${gap}, ${level} ampere-turns`,
        );
        // Looking must not disturb: the same field is found again afterwards.
        const again = field.solve({ [COIL]: level });
        assert.ok(Math.abs(again.force / solution.force - 1) < 1e-6);
      }
});

test('energy round closed paths in ampere-turns and gap balances within 0.5 % of the work on the way', () => {
  // Gauss-Legendre points and weights on 0 to 1, order 10.
  const half = [0.906179845938664, 0.5384693101056831, 0];
  const weight = [0.2369268850561891, 0.4786286704993665, 0.5688888888888889];
  const rule = [0, 1, 2, 1, 0].map((k, i): [number, number] => [0.5 + (i < 2 ? -1 : 1) * (half[k] / 2), weight[k] / 2]);
  for (const { solenoid, gaps, ampereTurns } of referenceCases) {
    for (const [low, high, from, to] of [
      [gaps[2], gaps[3], ampereTurns[1], ampereTurns[2]],
      [gaps[5], gaps[6], ampereTurns[2], ampereTurns[4]],
    ]) {
      const electric = (gap: number): number => {
        const field = prepareField(solenoidProblem(solenoid, gap, steel));
        let last: FieldSolution | undefined;
        return rule.reduce((sum, [t, w]) => {
          last = field.solve({ [COIL]: from + t * (to - from) }, last);
          return sum + w * (to - from) * last.fluxLinkage[COIL];
        }, 0);
      };
      const mechanical = [0, 0];
      for (const [t, w] of rule) {
        // Even steps in log gap, since the force falls with it.
        const gap = low * (high / low) ** t;
        const field = prepareField(solenoidProblem(solenoid, gap, steel));
        [from, to].forEach(
          (level, k) => (mechanical[k] += w * Math.log(high / low) * gap * field.solve({ [COIL]: level }).force),
        );
      }
      // Up at the small gap, open at the high level, down at the large gap, close at the low level.
      const [charged, discharged] = [electric(low), electric(high)];
      const imbalance = charged + mechanical[1] - discharged - mechanical[0];
      assert.ok(Math.abs(imbalance) < 0.005 * charged, `imbalance ${imbalance} J of ${charged} J`);
    }
  }
});

test('the error estimate covers the reference at 95 % of its points and does not exaggerate beyond use', () => {
  let points = 0;
  let covered = 0;
  let fluxCovered = 0;
  let largest = 0;
  for (const reference of referenceCases)
    for (const gap of reference.gaps) {
      const problem = solenoidProblem(reference.solenoid, gap, steel);
      const [fine, rough] = [prepareField(problem), prepareField(problem, 1.5)];
      let [start, roughStart]: (FieldSolution | undefined)[] = [];
      for (const point of reference.points.filter((p) => p.gap === gap)) {
        start = fine.solve({ [COIL]: point.ampereTurns }, start);
        roughStart = rough.solve({ [COIL]: point.ampereTurns }, roughStart);
        const estimate = estimateErrors(start, roughStart, 1);
        const own = point.forceErrorPercent / 100;
        points++;
        if (Math.abs(-start.force / point.force - 1) <= estimate.force + own) covered++;
        if (Math.abs(start.fluxLinkage[COIL] / point.fluxLinkage - 1) <= estimate.fluxLinkage[COIL] + own)
          fluxCovered++;
        largest = Math.max(largest, estimate.force);
      }
    }
  assert.equal(points, 160);
  assert.ok(covered >= 0.95 * points, `force covered at ${covered} of ${points}`);
  assert.ok(fluxCovered >= 0.95 * points, `flux linkage covered at ${fluxCovered} of ${points}`);
  assert.ok(largest < 0.06, `largest estimate ${largest}`);
});

test('solveField reports force twice, with errors, and the two agree', () => {
  const { force, forceByCoEnergy, estimatedError, convergence, mesh, energy, coEnergy, fluxLinkage } = solveField(
    solenoidProblem(flat.solenoid, 1e-3, steel),
    { [COIL]: 1000 },
  );
  assert.ok(convergence.converged && convergence.iterations > 1 && convergence.residual < 1e-5);
  assert.ok(force < 0 && Math.abs(forceByCoEnergy! / force - 1) < 1e-3);
  assert.ok(estimatedError.force > 0 && estimatedError.force < 0.05 && estimatedError.fluxLinkage[COIL] < 0.05);
  assert.ok(mesh.nodes > 500);
  assert.ok(Math.abs((energy + coEnergy) / (1000 * fluxLinkage[COIL]) - 1) < 1e-9);
});

test('from nothing to a million ampere-turns every solve ends and says how', () => {
  const field = prepareField(solenoidProblem(flat.solenoid, 0.5e-3, steel), 1.4);
  const none = field.solve({ [COIL]: 0 });
  assert.deepEqual([none.force, none.coEnergy, none.convergence.converged], [0, 0, true]);
  let before = 0;
  for (const level of [1e-6, 1e-3, 1, 1e2, 1e4, 1e5, 1e6]) {
    const { convergence, fluxLinkage, force } = field.solve({ [COIL]: level });
    assert.ok(
      convergence.converged && convergence.iterations <= 60,
      `${level} ampere-turns: ${JSON.stringify(convergence)}`,
    );
    assert.ok(fluxLinkage[COIL] > before && force < 0);
    before = fluxLinkage[COIL];
  }
  const [forward, backward] = [field.solve({ [COIL]: 700 }), field.solve({ [COIL]: -700 })];
  assert.ok(Math.abs(backward.force / forward.force - 1) < 1e-6);
  assert.ok(Math.abs(backward.fluxLinkage[COIL] / forward.fluxLinkage[COIL] + 1) < 1e-6);
  // A bound on work of two iterations is too little, and the solution says so.
  const short = prepareField(solenoidProblem(flat.solenoid, 0.5e-3, steel), 1.4, {
    decrement: 1e-9,
    mostIterations: 2,
  });
  assert.equal(short.solve({ [COIL]: 1000 }).convergence.converged, false);
});
