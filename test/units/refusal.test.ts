import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readQuantity, type Dimension } from '../../src/units/quantity.ts';

function problem(text: string, dimension: Dimension): string {
  const reading = readQuantity(text, dimension);
  assert.ok(!reading.ok, `${text} was read as ${JSON.stringify(reading)}`);
  return reading.problem;
}

test('what could mean two things is refused, and both are named', () => {
  assert.equal(
    problem('1,234 mm', 'length'),
    '"1,234 mm": 1,234 could be 1234 or 1.234: write the one that is meant, with a decimal point or no comma',
  );
  for (const text of ['12,345 mm', '999,999 mm', '-1,234 mm', '1 mm ± 1,234 mm', '1,234e2 mm'])
    assert.match(problem(text, 'length'), /could be/, text);
  for (const text of ['1.234,5 mm', '1,234.5 mm', '1.2.3 mm', '1,2,3 mm', '1..2 mm'])
    assert.match(problem(text, 'length'), /more than one point or comma/, text);
  assert.match(problem('3 mil', 'length'), /thou or mm/);
  assert.match(problem('25 % ± 2 %', 'ratio'), /points of %/);
  assert.match(problem('0.25 ± 2 percent', 'ratio'), /points of %/);
  assert.match(problem('85 °C ± 5 %', 'temperature'), /depends on the scale/);
  assert.match(problem('42-43 mm', 'length'), /looks like a range/);
  assert.match(problem('42 – 43 mm', 'length'), /looks like a range/);
  assert.match(problem('42 to 43 mm', 'length'), /looks like a range/);
  assert.match(problem('42 mm +0.5/-0.2', 'length'), /one ± half-width/);
  assert.match(problem('85°', 'temperature'), /is an angle: write a temperature such as 85 °C or 185 °F/);
});

test('a number without a unit is told which units are likely; only a ratio may be bare', () => {
  assert.equal(problem('42', 'length'), '"42" has no unit: write a length such as 42 mm or 1 5/8 in');
  assert.equal(problem('1.2', 'force'), '"1.2" has no unit: write a force such as 12 N, 1.2 kgf or 3 lbf');
  assert.match(problem('42 ± 0.5', 'length'), /has no unit/);
  assert.match(problem('42 ± 2 %', 'length'), /has no unit/);
  assert.match(problem('0', 'length'), /has no unit/);
});

test('a quantity of another dimension is named for what it is', () => {
  assert.equal(problem('42 N', 'length'), '"42 N" is a force: write a length such as 42 mm or 1 5/8 in');
  assert.equal(problem('42 mm', 'force'), '"42 mm" is a length: write a force such as 12 N, 1.2 kgf or 3 lbf');
  assert.equal(problem('7 mm²', 'length'), '"7 mm²" is an area: write a length such as 42 mm or 1 5/8 in');
  assert.match(problem('42 mm ± 0.5 V', 'length'), /what follows ± is a voltage/);
  assert.match(problem('12 kg', 'length'), /is a force|is a mass/);
  assert.match(problem('25 %', 'length'), /is a ratio/);
});

test('the case of a letter that means milli or mega is not forgiven', () => {
  for (const [text, dimension] of [
    ['5 MV', 'voltage'],
    ['5 MA', 'current'],
    ['5 mPa', 'pressure'],
    ['5 mpa', 'stress'],
    ['5 M', 'length'],
    ['5 Mm', 'length'],
    ['5 MN', 'force'],
    ['5 MH', 'inductance'],
    ['5 MS', 'time'],
    ['5 n', 'force'],
  ] as const) {
    problem(text, dimension);
  }
});

test('superscripts, odd spaces and direction marks never join digits', () => {
  for (const text of [
    '5³ mm',
    '4²2 mm',
    '4\u200b2 mm',
    '4\u20602 mm',
    '4 2 mm',
    '1  234 5 mm',
    '0 234 mm',
    '12 34 mm',
    '\u202e42 mm',
    '①2 mm',
    '٤٢ mm',
    '4²mm',
    '1½½ in',
    '0.½ in',
    '4½2 mm',
    '½42 mm',
    `5'½3"`,
    `5' -3"`,
  ]) {
    problem(text, 'length');
  }
});

test('text that is no quantity is refused with a sentence', () => {
  const bad = [
    '',
    ' ',
    '±',
    '± 5',
    'mm',
    'NaN',
    'Infinity mm',
    '-Infinity mm',
    '∞ mm',
    '0x10 mm',
    '0b1 mm',
    '1e999 mm',
    '1e-999 mm',
    '1/0 in',
    '1 1/0 in',
    '1 5/4 in',
    '3/8/2 in',
    '5, mm',
    '--5 mm',
    '+-5 mm',
    '5 mm mm',
    '42 m m',
    '(42) mm',
    '42 mm)',
    '(42 mm',
    '((42 ± 1)) mm',
    '42 mm ± ',
    '42 mm ± x',
    '42 mm ± 1 ± 1',
    '42 mm ± -1',
    '42 mm ± −1',
    '(42 mm ± 1) mm',
    '(42 ± 1 mm) mm',
    '1e308 m ± 1e309 m',
    `5' 14"`,
    `5.5' 3"`,
    `5' 3`,
    '5 in 3 ft',
    '5 ft 3 ft',
    '5 ft 3 mm',
    '5 mm;',
    '=42 mm',
    '42 mm<script>',
    'constructor',
    '1 constructor',
    '1 __proto__',
    '5 toString',
  ];
  for (const text of bad) {
    const sentence = problem(text, 'length');
    assert.match(sentence, /write|too (?:large|small) to be a reading/, `${text}: ${sentence}`);
    assert.doesNotMatch(sentence, /undefined|\[object|null/, sentence);
  }
  assert.match(problem('-300 °C', 'temperature'), /below absolute zero/);
  assert.match(problem('-1 K', 'temperature'), /below absolute zero/);
  assert.match(problem('-500 °F', 'temperature'), /below absolute zero/);
});

test('text over 200 characters is refused unread and quoted short', () => {
  assert.ok(readQuantity(`${' '.repeat(196)}42mm`, 'length').ok);
  const sentence = problem(`${'9'.repeat(10_000_000)} mm`, 'length');
  assert.match(sentence, /10000003 characters long/);
  assert.ok(sentence.length < 200);
});

test('what is not text at all is refused, not thrown', () => {
  const notTexts: readonly unknown[] = [null, undefined, 42, Number.NaN, {}, [], true, Symbol('x')];
  for (const notText of notTexts) {
    const reading = readQuantity(notText as string, 'length');
    assert.ok(!reading.ok && reading.problem.includes('not text'));
  }
});
