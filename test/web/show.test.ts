import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import { inks } from '../../src/sheets/svg.ts';
import { metricUnits } from '../../src/units/quantity.ts';
import { unitsFor } from '../../src/web/show/units.ts';
import { amount, placeWords } from '../../src/web/show/words.ts';
import { labelOf, placeName } from '../../src/web/survey/labels.ts';

test('the page has the inks of the sheet, light and dark', () => {
  const css = readFileSync(new URL('../../src/web/look/inks.css', import.meta.url), 'utf8');
  const [light = '', dark = ''] =
    css.split("[data-theme='dark']").length > 1 ? css.split("[data-theme='dark']") : css.split('[data-theme="dark"]');
  for (const [name, colour] of Object.entries(inks.light))
    assert.ok(light.includes(`--sheet-${name}: ${colour};`), `light ${name}`);
  for (const [name, colour] of Object.entries(inks.dark))
    assert.ok(dark.includes(`--sheet-${name}: ${colour};`), `dark ${name}`);
});

test('a choice of units changes only what it names', () => {
  const imperial = unitsFor({ length: 'in', force: 'lbf', temperature: '°F', area: 'AWG' });
  assert.deepEqual(
    [imperial.length, imperial.force, imperial.springRate, imperial.temperature, imperial.area],
    ['in', 'lbf', 'lbf/in', '°F', 'AWG'],
  );
  assert.equal(imperial.voltage, 'V');
  assert.deepEqual(unitsFor({ length: 'mm', force: 'N', temperature: '°C', area: 'mm²' }), metricUnits);
});

test('numbers of an assessment are said in the reader’s units, never as NaN', () => {
  assert.equal(amount(25.4, 'mm', unitsFor({ length: 'in', force: 'N', temperature: '°C', area: 'mm²' })), '1 in');
  assert.equal(amount(0.314, 'share', metricUnits), '31 %');
  assert.equal(amount(9.80665, 'N', unitsFor({ length: 'mm', force: 'kgf', temperature: '°C', area: 'mm²' })), '1 kgf');
  assert.equal(amount(Number.NaN, 'share', metricUnits), 'not known');
  assert.equal(amount(2, '°/mm', metricUnits), '2 °/mm');
});

test('a place is said as a person would find it', () => {
  const place = { gap_mm: 4.2, shaftAngle_deg: 90, supply: 'low', coil: 'hot', friction: 'high', moved: null } as const;
  assert.equal(placeWords(place, metricUnits), '4.2 mm from home, low supply, hot coil, high friction');
  assert.equal(placeWords({ ...place, gap_mm: 0, supply: null, coil: null, friction: null }, metricUnits), 'at home');
});

test('fields have the words of the trade', () => {
  assert.equal(labelOf('survey.lever.noFuelAngle'), 'No-fuel angle');
  assert.equal(placeName('survey.effort.readings[2].pull'), 'Reading 3, pull');
  assert.equal(placeName('means.force[0].rows[4].force'), 'Row 5, pull');
  assert.equal(placeName('supply.low'), 'Volts, low');
});
