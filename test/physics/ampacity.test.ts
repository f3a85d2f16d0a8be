/** Lasting currents: which row and column are read, and what the tables must obey whatever their figures. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { ampacity, bundleFactor, gaugeAmpacity, metricAmpacity } from '../../src/physics/ampacity.ts';
import { standardSections } from '../../src/physics/conductor.ts';
import { DomainError } from '../../src/physics/domain-error.ts';
import { areaOfGauge } from '../../src/units/gauge.ts';

const celsius = (t: number) => t + 273.15;

test('thicker wire or better insulation never carries less, an engine space never more', () => {
  const classes = [60, 70, 75, 80, 85, 90, 105, 125, 200];
  for (const system of ['metric', 'gauge'] as const) {
    const sold = standardSections.filter((section) => section.system === system && section.label !== '20 AWG');
    for (const [i, { section_m2, label }] of sold.entries()) {
      for (const [j, class_C] of classes.entries()) {
        const here = ampacity(section_m2, celsius(class_C), false)?.amperes ?? NaN;
        assert.ok(here > 0, `${label} at ${class_C} °C`);
        assert.ok(
          (ampacity(section_m2, celsius(class_C), true)?.amperes ?? NaN) <= here,
          `${label} in an engine space`,
        );
        if (i > 0)
          assert.ok(here >= (ampacity(sold[i - 1].section_m2, celsius(class_C), false)?.amperes ?? NaN), label);
        if (j > 0)
          assert.ok(here >= (ampacity(section_m2, celsius(classes[j - 1]), false)?.amperes ?? NaN), `${class_C} °C`);
      }
    }
  }
});

test('heat balance: amperes grow with the section to a power between heat from a surface and from a volume', () => {
  // Heat I²ρ/S leaves through the surface, which goes as √S: amperes as S^0.75 with the same film, as S^0.6 or so with the
  // better film of a thin wire. A slip of a digit in a table would leave these bounds.
  for (const { rows } of [metricAmpacity, gaugeAmpacity]) {
    const area = (size: number) => (rows === gaugeAmpacity.rows ? areaOfGauge(size) * 1e6 : size);
    for (const column of rows[0][1].keys()) {
      const [first, last] = [rows[0], rows[rows.length - 1]];
      const power = Math.log(last[1][column] / first[1][column]) / Math.log(area(last[0]) / area(first[0]));
      assert.ok(power > 0.55 && power < 0.8, `column ${column}: ${power}`);
    }
  }
});

test('between rows and columns the lower one is read; below the first there is no answer', () => {
  assert.equal(ampacity(2.0e-6, celsius(72), false)?.amperes, 18, '1.5 mm², 70 °C');
  assert.equal(ampacity(2.0e-6, celsius(72), false)?.insulation, celsius(70));
  assert.equal(ampacity(500e-6, celsius(70), false)?.amperes, 310, 'as the thickest of the table');
  assert.equal(ampacity(areaOfGauge(20), celsius(105), false), null);
  assert.equal(ampacity(0.5e-6, celsius(105), false), null);
  assert.equal(ampacity(1.5e-6, celsius(55), false), null);
});

test('a larger bundle leaves less', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 60 }), (n) => {
      assert.equal(bundleFactor(n + 1) <= bundleFactor(n) && bundleFactor(n) >= 0.4, true);
    }),
    { numRuns: 60, seed: 1 },
  );
  assert.deepEqual([1, 2, 3, 4, 6, 7, 24, 25].map(bundleFactor), [1, 1, 0.7, 0.6, 0.6, 0.5, 0.5, 0.4]);
});

test('what has no meaning is refused', () => {
  const refused = (call: () => unknown) =>
    assert.throws(call, (error) => error instanceof DomainError && error.code === 'SW-D063');
  refused(() => ampacity(0, celsius(70), false));
  refused(() => ampacity(1e-6, NaN, false));
  refused(() => bundleFactor(0));
  refused(() => bundleFactor(2.5));
});
