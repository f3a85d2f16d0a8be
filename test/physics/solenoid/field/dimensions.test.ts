import assert from 'node:assert/strict';
import { test } from 'node:test';
import { prepareField } from '../../../../src/physics/magnetics/field.ts';
import { signedArea } from '../../../../src/physics/magnetics/outline.ts';
import { lowCarbonPlate } from '../../../../src/physics/magnetics/steel.ts';
import {
  checkDimensions,
  recessDepth,
  type SolenoidDimensions,
  solenoidOutlines,
} from '../../../../src/physics/solenoid/field/dimensions.ts';
import { COIL, solenoidProblem } from '../../../../src/physics/solenoid/field/solenoid-problem.ts';
import { referenceCases } from '../../../published/solenoid-reference.ts';

const [{ solenoid: flat }, { solenoid: cone }] = referenceCases;

test('dimensions that cannot be built are refused with both sizes', () => {
  const refused = (code: string, message: RegExp, change: Partial<SolenoidDimensions>, of = flat): void =>
    assert.throws(() => checkDimensions({ ...of, ...change }), { name: 'DomainError', code, message });
  refused('SW-M030', /can wall must be finite and above zero, not 0/, { can: { ...flat.can, wall: 0 } });
  refused('SW-M030', /radial clearance .* not -0.0001/, { radialClearance: -1e-4 });
  refused('SW-M030', /plunger length .* not NaN/, { plunger: { ...flat.plunger, length: Number.NaN } });
  refused('SW-M030', /residual shim/, { residualShim: -1e-3 });
  refused('SW-M031', /plunger radius \(0.01 m\) must be less than coil inner radius \(0.0095 m\)/, {
    plunger: { radius: 0.01, length: 0.04 },
  });
  refused('SW-M031', /can wall/, { can: { outerRadius: 0.02, wall: 0.02, length: 0.05 } });
  refused('SW-M031', /coil outer radius/, { coil: { ...flat.coil, outerRadius: 0.018 } });
  refused('SW-M031', /coil top/, { coil: { ...flat.coil, top: 0.046 } });
  refused('SW-M031', /coil bottom/, { coil: { ...flat.coil, bottom: 0.044 } });
  refused('SW-M031', /bottom plate thickness/, { seat: { ...flat.seat, faceHeight: 0.004 } });
  refused('SW-M031', /plunger bore radius/, {
    plunger: { ...flat.plunger, bore: { radius: 0.008, depth: 0.01, from: 'tail' } },
  });
  refused('SW-M031', /guide tube outer radius/, { guideTube: { innerRadius: 0.0081, outerRadius: 0.0097 } });
  refused(
    'SW-M031',
    /recess of the seat/,
    { seat: { ...cone.seat, cone: { includedAngle: 0.3, tipRadius: 0.003 } } },
    cone,
  );
  refused(
    'SW-M031',
    /cone tip radius/,
    { seat: { ...cone.seat, cone: { includedAngle: 1.5, tipRadius: 0.011 } } },
    cone,
  );
  refused('SW-M031', /plunger radius .* seat radius/, { seat: { ...cone.seat, radius: 0.009 } }, cone);
});

test('gaps without meaning are refused', () => {
  for (const gap of [-1e-3, 0, 1e-9, 2, Number.NaN])
    assert.throws(() => solenoidProblem(flat, gap, lowCarbonPlate), { code: 'SW-M032' });
  assert.ok(solenoidProblem({ ...flat, residualShim: 1e-4 }, 0, lowCarbonPlate));
});

test('the plunger fits its seat, and a bore takes away what it should', () => {
  assert.equal(recessDepth(flat), 0);
  assert.ok(Math.abs(recessDepth(cone) - 0.007) < 1e-12);
  const area = (s: SolenoidDimensions): number => Math.abs(signedArea(solenoidOutlines(s, 1e-3).plunger));
  for (const s of [flat, cone])
    for (const from of ['tip', 'tail'] as const) {
      const bored = (depth: number): SolenoidDimensions => ({
        ...s,
        plunger: { ...s.plunger, bore: { radius: 0.002, depth, from } },
      });
      assert.ok(Math.abs(area(s) - area(bored(0.015)) - 0.002 * 0.015) < 1e-12);
      assert.ok(Math.abs(area(s) - area(bored(1)) - 0.002 * (s.plunger.length + recessDepth(s))) < 1e-12);
    }
});

test('a residual shim acts as gap, a bore and a wider clearance weaken the pull, any cone angle meshes', () => {
  const pull = (s: SolenoidDimensions, gap: number): number => {
    const { force, convergence } = prepareField(solenoidProblem(s, gap, lowCarbonPlate), 1.3).solve({ [COIL]: 1500 });
    assert.ok(convergence.converged);
    return -force;
  };
  const plain = pull(flat, 0.5e-3);
  assert.equal(pull({ ...flat, residualShim: 0.2e-3 }, 0.3e-3), pull(flat, 0.3e-3 + 0.2e-3));
  assert.ok(pull({ ...flat, radialClearance: 0.8e-3 }, 0.5e-3) < plain);
  for (const from of ['tip', 'tail'] as const)
    assert.ok(
      pull({ ...flat, plunger: { ...flat.plunger, bore: { radius: 3e-3, depth: 20e-3, from } } }, 0.5e-3) < plain,
    );
  for (const degrees of [40, 60, 75, 120, 150, 175]) {
    const includedAngle = (degrees * Math.PI) / 180;
    const one = { ...cone, seat: { ...cone.seat, faceHeight: 35e-3, cone: { includedAngle, tipRadius: 2e-3 } } };
    for (const gap of [0.1e-3, 1e-3, 10e-3]) assert.ok(pull(one, gap) > 0, `${degrees}° at ${gap} m`);
  }
});
