/**
 * Foreign units, broken text, and the time that reading takes.
 * STOPWRIGHT_ROUNDS raises the number of rounds: 10⁴ in the suite, 10⁶ before a release.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { dimensions, echo, readQuantity, unitsOf, type Dimension } from '../../src/units/quantity.ts';

const rounds = Number(process.env['STOPWRIGHT_ROUNDS'] ?? 10_000);
const settings = { seed: 20_260, numRuns: rounds } as const;

const allUnits = dimensions.flatMap((dimension) => unitsOf(dimension).map((unit) => ({ dimension, unit })));
const dimension = fc.constantFrom(...dimensions);

/** The spellings that two dimensions rightly share; everything else must be refused in the other dimension. */
const shared: Readonly<Partial<Record<Dimension, Partial<Record<Dimension, readonly string[]>>>>> = {
  angle: { length: ['′', '″'] },
  mass: { force: ['kg', 'g', 'lb', 'oz'], acceleration: ['g'] },
  magneticFluxDensity: { acceleration: ['G'] },
  temperature: { temperatureDifference: ['°C', '°F', 'K'] },
  temperatureDifference: { temperature: ['°C', '°F', 'K'] },
  pressure: { stress: ['Pa', 'kPa', 'MPa', 'psi'] },
  stress: { pressure: ['Pa', 'kPa', 'MPa', 'psi'] },
};

test('no unit is accepted for a dimension that it does not measure', () => {
  let refused = 0;
  for (const { dimension: own, unit } of allUnits) {
    for (const other of dimensions) {
      if (other === own) continue;
      const accepted = ['12 ', '12', '1 1/2 ', '3,5 '].map(
        (numeral) => readQuantity(unit === 'AWG' ? '12 AWG' : numeral + unit, other).ok,
      );
      const expected = shared[own]?.[other]?.includes(unit) ?? false;
      assert.deepEqual(new Set(accepted), new Set([expected]), `${unit} of ${own} read as ${other}`);
      if (!expected) refused += 1;
    }
  }
  assert.ok(refused > 2000, String(refused));
});

const scraps = [
  '±',
  '+/-',
  '+-',
  '(',
  ')',
  '/',
  '-',
  '−',
  '.',
  ',',
  ' ',
  '\u00a0',
  '%',
  '"',
  "'",
  '°',
  '²',
  '½',
  '#',
  'e',
  'E',
  '1',
  '42',
  '0',
  '999',
  '1e308',
  'AWG',
  'mm',
  'in',
  'ft',
  'kgf',
  'lb',
  'oz',
  'N',
  'm',
  'V',
  'Ω',
  'µ',
  'C',
  'F',
  'K',
  'rad',
  'per',
  'NaN',
  'Infinity',
  '0x',
  '<b>',
  '\u0000',
  '\ud800',
  '\u202e',
  '__proto__',
  '\n',
  '＋',
  '１',
];
const malformed = fc.oneof(
  fc.array(fc.constantFrom(...scraps), { maxLength: 12 }).map((parts) => parts.join('')),
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc.string({ unit: 'grapheme', maxLength: 60 }),
  fc
    .tuple(
      fc.constantFrom('42 mm ± 0.5', '1 1/4"', '(42 ± 0.5) mm', '7 lbf ± 5 %', '18 AWG', '35° 30\' 10"', '1 234,5 mm'),
      fc.nat(12),
      fc.constantFrom(...scraps, ''),
    )
    .map(([text, at, scrap]) => text.slice(0, at) + scrap + text.slice(at + 1)),
);

test('malformed text is refused or read to finite numbers, and never thrown', () => {
  fc.assert(
    fc.property(malformed, dimension, (text, dimension) => {
      const reading = readQuantity(text, dimension);
      if (!reading.ok) {
        assert.ok(reading.problem.length > 10 && reading.problem.length < 400, reading.problem);
        assert.doesNotMatch(reading.problem, /[\n\0\u202e]|undefined|\[object/);
        return;
      }
      const { value, plusMinus, unit, text: kept } = reading.quantity;
      assert.ok(Number.isFinite(value));
      assert.ok(plusMinus === null || (Number.isFinite(plusMinus) && plusMinus >= 0));
      assert.ok(unitsOf(dimension).includes(unit));
      assert.equal(kept, text);
      assert.match(text, /\p{N}/u, 'a number was written');
      assert.doesNotMatch(echo(reading.quantity, dimension), /NaN|Infinity|undefined/);
    }),
    { ...settings, numRuns: rounds * 4 },
  );
});

test('no text of 200 characters takes a millisecond', () => {
  const long = (piece: string, end = ''): string => piece.repeat(Math.floor((180 - end.length) / piece.length)) + end;
  const hard = [
    long('9'),
    long('9,'),
    long('9 '),
    long('123 '),
    long('1/'),
    long('1 1/'),
    long('-'),
    long('+'),
    long('+ '),
    long('± '),
    long('+/'),
    long('('),
    long('()'),
    long(' '),
    long("'"),
    long('"'),
    long('° '),
    long("1' "),
    long('mm '),
    long('·'),
    long(' · '),
    long('#'),
    long('s'),
    long('in.'),
    long('/ '),
    long('AWG'),
    long('1 234 ', 'x'),
    long('\u00a0'),
    long('½'),
    long('1e'),
    long('µ'),
    long('deg '),
    long('kgf/'),
    long('a-', '.'),
    long('，'),
  ];
  for (const dimension of dimensions) {
    for (const text of hard) {
      // A text padded differently is not one read before. The least of some tries is the reader's own time.
      let least = Infinity;
      for (let pad = 0; pad < 8; pad++) {
        const padded = text + ' '.repeat(pad + 1);
        const began = performance.now();
        readQuantity(padded, dimension);
        least = Math.min(least, performance.now() - began);
      }
      assert.ok(least < 1, `${text.slice(0, 12)}… took ${least} ms`);
    }
  }
});

test('the 120 texts of an assessment, read before, cost under 50 microseconds', () => {
  const texts = Array.from({ length: 120 }, (_, i) => `${i + 0.5} mm ± 0.1`);
  let least = Infinity;
  for (let i = 0; i < 500; i++) {
    const began = performance.now();
    for (const text of texts) readQuantity(text, 'length');
    least = Math.min(least, performance.now() - began);
  }
  assert.ok(least < 0.05, `${least * 1000} µs`);
});
