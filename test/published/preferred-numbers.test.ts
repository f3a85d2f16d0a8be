/** Preferred resistances against the printed series and against the rule that the newer ones follow. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { deratedPower, preferredSeries, preferredValues } from '../../src/physics/resistor.ts';
import { toSI } from '../../src/units/quantity.ts';
import { within, type Source } from './printed.ts';

test('the series as printed', () => {
  const printed: Readonly<Record<keyof typeof preferredSeries, string>> = {
    E6: '1.0 1.5 2.2 3.3 4.7 6.8',
    E12: '1.0 1.2 1.5 1.8 2.2 2.7 3.3 3.9 4.7 5.6 6.8 8.2',
    E24: '1.0 1.1 1.2 1.3 1.5 1.6 1.8 2.0 2.2 2.4 2.7 3.0 3.3 3.6 3.9 4.3 4.7 5.1 5.6 6.2 6.8 7.5 8.2 9.1',
  };
  for (const [series, text] of Object.entries(printed)) {
    const values = preferredSeries[series as keyof typeof preferredSeries];
    assert.deepEqual([...values], text.split(' ').map(Number), `${series}: IEC 60063, memory`);
  }
});

test('the series are powers of ten but for the figures that history kept', () => {
  // IEC 60063: E24 is 10^(k/24) rounded to two digits, except 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7 and 8.2 (from memory).
  const odd = preferredSeries.E24.filter((value, k) => value !== Math.round(10 ** (k / 24) * 10) / 10);
  assert.deepEqual(odd, [2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 8.2]);
  // And E12 is every second, E6 every fourth of them.
  assert.deepEqual(
    preferredSeries.E24.filter((_, k) => k % 2 === 0),
    [...preferredSeries.E12],
  );
  assert.deepEqual(
    preferredSeries.E24.filter((_, k) => k % 4 === 0),
    [...preferredSeries.E6],
  );
});

test('the hold resistor of a 12 V coil', () => {
  // Common practice, no source: 12 V, 3 ohm coil, 1 A to hold: 9 ohm in series, bought as 9.1 (E24), 8.2 (E12) or 10.
  assert.deepEqual(preferredValues(9, 'E24'), { below: 8.2, nearest: 9.1, above: 9.1 });
  assert.deepEqual(preferredValues(9, 'E12'), { below: 8.2, nearest: 8.2, above: 10 });
  assert.deepEqual(preferredValues(9, 'E6'), { below: 6.8, nearest: 10, above: 10 });
});

test('derating as an open calculator does it', () => {
  const page: Source = {
    source: 'an open derating calculator: 100 W, 70 to 350 °C, its example at 105 °C',
    provenance: 'seen',
  };
  const power = deratedPower(100, toSI(105, '°C'), { fullUpTo: toSI(70, '°C'), nothingAt: toSI(350, '°C') });
  within(power, 87.5, 0.05, page, 'W');
});
