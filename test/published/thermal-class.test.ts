/** Thermal classes, the rule of insulation life, and burn thresholds, row by row. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { BURN_THRESHOLDS } from '../../src/physics/heat/touch.ts';
import { insulationLifeShare, meanLimit, THERMAL_CLASSES, thermalClassName } from '../../src/physics/thermal-class.ts';
import { toSI } from '../../src/units/quantity.ts';
import { within, type Source } from './printed.ts';

const celsius = (t: number) => toSI(t, '°C');

test('thermal classes and their letters', () => {
  // IEC 60085:2007, table 1, in an open page on its national adoption (seen).
  const printed = ['90 (Y)', '105 (A)', '120 (E)', '130 (B)', '155 (F)', '180 (H)', '200 (N)', '220 (R)', '250'];
  assert.deepEqual(
    THERMAL_CLASSES.map((one) => thermalClassName(one.celsius)),
    printed,
  );
  const iec: Source = { source: 'IEC 60085:2007, table 1', provenance: 'seen' };
  for (const name of printed) {
    const row = THERMAL_CLASSES.find((one) => thermalClassName(one.celsius) === name);
    assert.ok(row !== undefined, name);
    within(meanLimit(row.celsius, 0), celsius(Number.parseInt(name, 10)), 1e-9, iec, name);
    within(meanLimit(row.celsius), celsius(Number.parseInt(name, 10) - 10), 1e-9, iec, `${name} less 10 K`);
  }
});

test('ten kelvins halve the life', () => {
  const kosow: Source = {
    source: 'I.L. Kosow, Electric Machinery and Transformers, Examples 13.1 and 13.2, p. 460, in an open companion',
    provenance: 'seen',
  };
  within(10 * insulationLifeShare(105, celsius(125)), 2.5, 1e-9, kosow, 'years at 125 °C');
  within(10 * insulationLifeShare(105, celsius(75)), 80, 1e-9, kosow, 'years at 75 °C');
});

test('burn thresholds of bare metal', () => {
  // ISO 13732-1:2006, from memory: 43 °C for 8 h, 48 °C for 10 min, 51 °C for 1 min.
  const recalled = new Map(BURN_THRESHOLDS);
  assert.equal(recalled.get(8 * 3600), 43);
  assert.equal(recalled.get(600), 48);
  assert.equal(recalled.get(60), 51);
  // An open list of times to serious burns, metal not named (seen): 68 °C about 1 s, 57 °C about 10 s, 52 °C 1½ to 2 min,
  // 49 °C over 5 min. A threshold of first burns lies below each of them.
  for (const [seconds, serious] of [
    [1, 68],
    [10, 57],
    [60, 52],
  ] as const) {
    const threshold = recalled.get(seconds) ?? NaN;
    assert.ok(threshold < serious && threshold > serious - 5, `${threshold} °C for ${seconds} s beside ${serious} °C`);
  }
});
