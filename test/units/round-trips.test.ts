/**
 * What is printed reads back, and generated text is what its digits say.
 * STOPWRIGHT_ROUNDS raises the number of rounds: 10⁴ in the suite, 10⁶ before a release.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  dimensions,
  display,
  echo,
  formatQuantity,
  fromSI,
  imperialUnits,
  kilogramForceUnits,
  metricUnits,
  readQuantity,
  toSI,
  unitsOf,
  type Dimension,
} from '../../src/units/quantity.ts';

const rounds = Number(process.env['STOPWRIGHT_ROUNDS'] ?? 10_000);
const settings = { seed: 20_260, numRuns: rounds } as const;

const allUnits = dimensions.flatMap((dimension) => unitsOf(dimension).map((unit) => ({ dimension, unit })));
const unitOfDimension = fc.constantFrom(...allUnits);
const scaled = fc.constantFrom(...allUnits.filter(({ unit }) => unit !== 'AWG'));
/** Seven digits anywhere between a millionth and a million, either sign. */
const number = fc
  .tuple(fc.integer({ min: -9_999_999, max: 9_999_999 }), fc.integer({ min: -6, max: 0 }))
  .map(([digits, power]) => Number(`${digits}e${power}`));

/** Rounding of what a value went through; a temperature also loses what its offset swallows. */
function allowed(value_SI: number, ofDimension: Dimension): number {
  return 8 * 2 ** -52 * (Math.abs(value_SI) + (ofDimension === 'temperature' ? 460 : 0));
}

test('a printed value reads back as itself', () => {
  fc.assert(
    fc.property(scaled, number, ({ dimension, unit }, written) => {
      const value = toSI(written, unit, dimension);
      fc.pre(dimension !== 'temperature' || value >= 0);
      const text = formatQuantity(value, dimension, unit, { significantDigits: 17 });
      const reading = readQuantity(text, dimension);
      assert.ok(reading.ok, `${text}: ${reading.ok ? '' : reading.problem}`);
      assert.ok(
        Math.abs(reading.quantity.value - value) <= allowed(value, dimension),
        `${text}: ${reading.quantity.value} for ${value}`,
      );
      assert.ok(
        Math.abs(fromSI(reading.quantity.value, unit, dimension) - written)
          <= allowed(Math.abs(written) + (dimension === 'temperature' ? 460 : 0), dimension),
      );
      assert.equal(reading.quantity.unit, unit);
    }),
    settings,
  );
});

test('an echo reads back as the same quantity', () => {
  fc.assert(
    fc.property(scaled, number, fc.option(number), ({ dimension, unit }, written, halfWidth) => {
      const half = halfWidth === null ? '' : ` ± ${Math.abs(halfWidth)}`;
      const text = unit === '%' || unit === '‰' ? `(${written}${half || ' ± 0'}) ${unit}` : `${written} ${unit}${half}`;
      const first = readQuantity(text, dimension);
      if (!first.ok) return assert.match(first.problem, /absolute zero/, first.problem);
      const again = readQuantity(echo(first.quantity, dimension), dimension);
      assert.ok(again.ok, `${text} → ${echo(first.quantity, dimension)}`);
      const within = (a: number, b: number): boolean =>
        Math.abs(a - b) <= 1e-11 * (Math.abs(b) + (dimension === 'temperature' ? 460 : 0));
      assert.ok(within(again.quantity.value, first.quantity.value), text);
      assert.ok(within(again.quantity.plusMinus ?? -1, first.quantity.plusMinus ?? -1), text);
      assert.equal(again.quantity.unit, first.quantity.unit);
    }),
    settings,
  );
});

test('switching the display changes nothing that is stored', () => {
  fc.assert(
    fc.property(unitOfDimension, number, ({ dimension, unit }, written) => {
      const text = unit === 'AWG' ? '18 AWG' : `${written} ${unit} ± 0.25`;
      const reading = readQuantity(text, dimension);
      if (!reading.ok) return;
      const before = JSON.stringify(reading.quantity);
      const seen = [metricUnits, imperialUnits, kilogramForceUnits, metricUnits].map((units) =>
        display(reading.quantity.value, dimension, units),
      );
      assert.equal(JSON.stringify(reading.quantity), before);
      assert.equal(reading.quantity.text, text);
      assert.equal(seen[0], seen[3]);
      for (const shown of seen) assert.doesNotMatch(shown, /NaN|Infinity|undefined/);
    }),
    settings,
  );
});

test('millimetres in every hand are the number that the digits say', () => {
  // The oracle shifts the decimal point as text and never multiplies.
  const hand = fc.record({
    minus: fc.constantFrom('', '-', '−', '–'),
    whole: fc.integer({ min: 0, max: 9_999_999 }),
    decimals: fc.string({ unit: fc.constantFrom('0', '1', '2', '5', '9'), maxLength: 6 }),
    point: fc.constantFrom('.', ','),
    grouping: fc.constantFrom('', ' ', '\u00a0', '\u202f'),
    space: fc.constantFrom('', ' ', '\u00a0'),
  });
  fc.assert(
    fc.property(hand, ({ minus, whole, decimals, point, grouping, space }) => {
      const plain = String(whole);
      const grouped = grouping === '' ? plain : plain.replace(/\B(?=(\d{3})+$)/g, grouping);
      const text = `${minus}${grouped}${decimals === '' ? '' : point + decimals}${space}mm`;
      const reading = readQuantity(text, 'length');
      if (point === ',' && decimals.length === 3 && grouped.length <= 3 && whole > 0) {
        assert.ok(!reading.ok && reading.problem.includes('could be'), text);
        return;
      }
      assert.ok(reading.ok, `${text}: ${reading.ok ? '' : reading.problem}`);
      const expected = Number(`${minus === '' ? '' : '-'}${plain}.${decimals || '0'}e-3`);
      assert.ok(
        Math.abs(reading.quantity.value - expected) <= 2 ** -52 * Math.abs(expected),
        `${text}: ${reading.quantity.value}`,
      );
    }),
    settings,
  );
});

test('inches in fractions are the number that the fraction says', () => {
  fc.assert(
    fc.property(
      fc.nat(500),
      fc.integer({ min: 1, max: 64 }),
      fc.integer({ min: 2, max: 64 }),
      fc.constantFrom(' ', '-'),
      fc.constantFrom(' in', '"', '″', 'in', ' inches'),
      (whole, top, bottom, joint, unit) => {
        const reading = readQuantity(`${whole}${joint}${top}/${bottom}${unit}`, 'length');
        if (top >= bottom) return assert.ok(!reading.ok);
        assert.ok(reading.ok, reading.ok ? '' : reading.problem);
        const expected = ((whole * bottom + top) * 254) / (bottom * 10_000);
        assert.ok(Math.abs(reading.quantity.value - expected) <= 4 * 2 ** -52 * expected);
      },
    ),
    settings,
  );
});
