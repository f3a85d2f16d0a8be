import assert from 'node:assert/strict';
import { test } from 'node:test';
import { MAGNETIC_CONSTANT, MagnetisationCurve } from '../../../src/physics/magnetics/magnetisation-curve.ts';
import { steelTables } from '../../../src/physics/magnetics/steel.ts';

for (const table of steelTables) {
  const curve = new MagnetisationCurve(table);
  const out = new Float64Array(3);

  test(`${table.name}: passes through its readings and rises everywhere`, () => {
    table.fluxDensity.forEach((b, i) => {
      curve.evaluate(b, out);
      assert.ok(Math.abs(out[0] - table.fieldStrength[i]) <= 1e-9 * (1 + table.fieldStrength[i]), `at ${b} T`);
    });
    let before = -1;
    for (let b = 0; b < 4; b += 0.0007) {
      curve.evaluate(b, out);
      assert.ok(out[0] > before && out[1] > 0, `at ${b} T`);
      before = out[0];
    }
  });

  test(`${table.name}: slope and energy are the derivative and the integral of the field strength`, () => {
    const h = 1e-6;
    const [low, high] = [new Float64Array(3), new Float64Array(3)];
    for (let b = 0.0013; b < 3.5; b += 0.0317) {
      curve.evaluate(b - h, low);
      curve.evaluate(b + h, high);
      curve.evaluate(b, out);
      // A knot within h of b would leave a jump of the curvature: second order in h, far below the tolerance.
      assert.ok(Math.abs((high[0] - low[0]) / (2 * h) / out[1] - 1) < 1e-4, `slope at ${b} T`);
      assert.ok(Math.abs((high[2] - low[2]) / (2 * h) - out[0]) < 1e-4 * (1 + out[0]), `energy at ${b} T`);
    }
  });

  test(`${table.name}: adds no more than air beyond its end`, () => {
    const end = curve.lastFluxDensity;
    curve.evaluate(end + 1, out);
    assert.equal(out[1], 1 / MAGNETIC_CONSTANT);
    assert.ok(Math.abs(curve.fieldStrength(-end) + curve.fieldStrength(end)) < 1e-9);
    assert.ok(table.source.length > 20);
  });
}

test('tables without meaning are refused, each with its code', () => {
  const refused = (fluxDensity: number[], fieldStrength: number[], code: string): void =>
    assert.throws(() => new MagnetisationCurve({ fluxDensity, fieldStrength }), { name: 'DomainError', code });
  refused([0, 1, 1.5], [0, 100, 300], 'SW-M020');
  refused([0, 1, 1.5, 1.6], [0, 100, 300], 'SW-M020');
  refused([0, 1, Number.NaN, 1.6], [0, 100, 300, 900], 'SW-M020');
  refused([0.1, 1, 1.5, 1.6], [0, 100, 300, 900], 'SW-M021');
  refused([0, 1, 0.9, 1.6], [0, 100, 300, 900], 'SW-M021');
  refused([0, 1, 1.5, 1.6], [0, 100, 90, 900], 'SW-M021');
  refused([0, 1, 1.5, 1.6], [0, -100, 300, 900], 'SW-M021');
  refused([0, 1, 1.5, 1.501], [0, 100, 300, 90_000], 'SW-M022');
});
