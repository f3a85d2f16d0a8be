/** Dying currents: the closed forms against the differential equation solved in small steps, and against energy. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../src/physics/domain-error.ts';
import {
  currentAfter,
  peakVolts,
  timeToCurrent,
  type Suppression,
  type SwitchedCoil,
} from '../../src/physics/suppression.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const coils: fc.Arbitrary<SwitchedCoil> = fc.record({
  resistance: share.map((n) => 0.2 * 100 ** n),
  inductance: share.map((n) => 0.005 * 200 ** n),
  current: share.map((n) => 0.5 + 30 * n),
  source: fc.constantFrom(12, 24),
});
const paths: fc.Arbitrary<Suppression> = fc.oneof(
  share.map((n): Suppression => ({ kind: 'none', arcVolts: 30 + 300 * n })),
  share.map((n): Suppression => ({ kind: 'diode', forwardVolts: 0.6 + 0.6 * n })),
  share.map((n): Suppression => ({ kind: 'diode and resistor', forwardVolts: 0.8, resistance: 0.1 + 30 * n })),
  share.map((n): Suppression => ({ kind: 'resistor', resistance: 0.1 + 100 * n })),
  share.map((n): Suppression => ({ kind: 'zener', zenerVolts: 5 + 60 * n, forwardVolts: 0.8 })),
);

/** Volts that the path sets against a current, written anew for the test. */
function against(coil: SwitchedCoil, path: Suppression, amps: number): number {
  switch (path.kind) {
    case 'none':
      return path.arcVolts - coil.source;
    case 'diode':
      return path.forwardVolts;
    case 'diode and resistor':
      return path.forwardVolts + amps * path.resistance;
    case 'resistor':
      return amps * path.resistance;
    case 'zener':
      return path.zenerVolts + path.forwardVolts;
  }
}

test('the closed form agrees with the equation solved in small steps, and the stored energy is accounted for', () => {
  fc.assert(
    fc.property(coils, paths, share, (coil, path, part) => {
      const { resistance: R, inductance: L, current: i0 } = coil;
      const target = i0 * (0.05 + 0.9 * part);
      const time = timeToCurrent(coil, path, target);
      const steps = 2000;
      const h = time / steps;
      let i = i0;
      let spent = 0;
      const slope = (amps: number) => -(R * amps + against(coil, path, amps)) / L;
      const power = (amps: number) => amps * (R * amps + against(coil, path, amps));
      for (let n = 0; n < steps; n++) {
        const middle = i + (h / 2) * slope(i);
        spent += h * power(middle);
        i += h * slope(middle);
      }
      assert.ok(Math.abs(i / target - 1) < 1e-4, `${i} A by steps, ${target} A sought: ${path.kind}`);
      const stored = 0.5 * L * (i0 * i0 - target * target);
      assert.ok(Math.abs(spent / stored - 1) < 1e-3, `${spent} J spent, ${stored} J given up: ${path.kind}`);
      assert.ok(Math.abs(currentAfter(coil, path, time) / target - 1) < 1e-9, 'back again');
    }),
    { numRuns: 200, seed: 1 },
  );
});

test('more volts against it end a current sooner, and are seen by the contacts', () => {
  fc.assert(
    fc.property(coils, share, (coil, part) => {
      const to = coil.current * (0.05 + 0.9 * part);
      const time = (path: Suppression) => timeToCurrent(coil, path, to);
      const diode = time({ kind: 'diode', forwardVolts: 0.8 });
      const withResistor = time({ kind: 'diode and resistor', forwardVolts: 0.8, resistance: 2 * coil.resistance });
      const zener = time({ kind: 'zener', forwardVolts: 0.8, zenerVolts: 3 * coil.current * coil.resistance });
      assert.ok(zener < withResistor && withResistor < diode, `${zener} ${withResistor} ${diode} s`);
      const peak = peakVolts(coil, { kind: 'zener', forwardVolts: 0.8, zenerVolts: 40 });
      assert.ok(Math.abs(peak.coil - 40.8) < 1e-12 && Math.abs(peak.contacts - coil.source - 40.8) < 1e-12, 'volts');
      assert.ok(Math.abs(peakVolts(coil, { kind: 'none', arcVolts: 60 }).contacts - 60) < 1e-12, 'the arc itself');
    }),
    { numRuns: 200, seed: 2 },
  );
});

test('limits: through resistance alone a current never quite dies, through a diode it does', () => {
  const coil = { resistance: 3, inductance: 0.06, current: 4, source: 12 };
  assert.equal(timeToCurrent(coil, { kind: 'resistor', resistance: 10 }, 0), Infinity);
  const dies = timeToCurrent(coil, { kind: 'diode', forwardVolts: 0.8 }, 0);
  assert.ok(Math.abs(dies - 0.02 * Math.log(12.8 / 0.8)) < 1e-15, `${dies} s`);
  assert.equal(currentAfter(coil, { kind: 'diode', forwardVolts: 0.8 }, 2 * dies), 0);
  assert.equal(timeToCurrent(coil, { kind: 'diode', forwardVolts: 0.8 }, 4), 0);
});

test('what has no meaning is refused', () => {
  const coil = { resistance: 3, inductance: 0.06, current: 4, source: 12 };
  const refused = (call: () => unknown) =>
    assert.throws(call, (error) => error instanceof DomainError && error.code === 'SW-D066');
  refused(() => currentAfter({ ...coil, inductance: 0 }, { kind: 'diode', forwardVolts: 0.8 }, 1));
  refused(() => currentAfter({ ...coil, resistance: NaN }, { kind: 'diode', forwardVolts: 0.8 }, 1));
  refused(() => peakVolts(coil, { kind: 'none', arcVolts: 10 }));
  refused(() => peakVolts(coil, { kind: 'diode', forwardVolts: NaN }));
  refused(() => timeToCurrent(coil, { kind: 'diode', forwardVolts: 0.8 }, -1));
});
