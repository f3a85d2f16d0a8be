/** Lasting currents of small-craft conductors. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { ampacity, gaugeAmpacity, metricAmpacity } from '../../src/physics/ampacity.ts';
import { readQuantity, toSI } from '../../src/units/quantity.ts';
import { within, type Source } from './printed.ts';

function section(text: string): number {
  const reading = readQuantity(text, 'area');
  assert.ok(reading.ok, text);
  return reading.quantity.value;
}

function amperes(size: string, class_C: number, engineSpace = false): number {
  const found = ampacity(section(size), toSI(class_C, '°C'), engineSpace);
  assert.ok(found !== null, `${size} at ${class_C} °C`);
  return found.amperes;
}

const regulation: Source = {
  source: '33 CFR 183.425 table 5, as two public copies of the regulation give it',
  provenance: 'seen',
};

test('gauges: allowable amperage under 50 V', () => {
  const printed: readonly (readonly [string, readonly number[]])[] = [
    ['18 AWG', [10, 10, 15, 20, 20, 25, 25]],
    ['14 AWG', [20, 20, 25, 30, 35, 40, 45]],
    ['10 AWG', [40, 40, 50, 55, 60, 70, 70]],
    ['8 AWG', [55, 65, 70, 70, 80, 90, 100]],
    ['4/0 AWG', [300, 360, 385, 385, 445, 475, 510]],
  ];
  for (const [gauge, values] of printed) {
    for (const [i, class_C] of [60, 75, 80, 90, 105, 125, 200].entries())
      within(amperes(gauge, class_C), values[i], 0, regulation, `${gauge} at ${class_C} °C, A`);
  }
});

test('gauges of 105 °C in engine spaces', () => {
  const trade: Source = {
    source: 'three trade pages of the same table inside engine spaces, cut to whole amperes',
    provenance: 'seen',
  };
  // The pages cut 29.75 to 30 and 38.25 to 38: less than one ampere either way.
  for (const [gauge, inside] of [
    ['18 AWG', 17], ['16 AWG', 21], ['14 AWG', 30], ['12 AWG', 38], ['10 AWG', 51], ['8 AWG', 68], ['6 AWG', 102],
    ['4 AWG', 136], ['3 AWG', 153], ['2 AWG', 178], ['1 AWG', 208], ['1/0 AWG', 242], ['2/0 AWG', 280], ['3/0 AWG', 327],
    ['4/0 AWG', 378],
  ] as const) within(amperes(gauge, 105, true), inside, 0.5 + 1e-9, trade, `${gauge}, A`); // prettier-ignore
});

test('metric sections', () => {
  const iso: Source = { source: 'ISO 10133:2012 table A.1, to be compared with the standard', provenance: 'memory' };
  const printed: readonly (readonly [string, readonly number[]])[] = [
    ['0.75 mm²', [6, 10, 12, 16, 20, 25]],
    ['1.5 mm²', [12, 18, 21, 25, 30, 40]],
    ['2.5 mm²', [17, 25, 30, 35, 40, 45]],
    ['6 mm²', [29, 45, 50, 60, 70, 75]],
    ['16 mm²', [54, 90, 100, 130, 150, 170]],
    ['35 mm²', [87, 160, 185, 210, 225, 240]],
  ];
  for (const [size, values] of printed) {
    for (const [i, class_C] of [60, 70, 85, 105, 125, 200].entries())
      within(amperes(size, class_C), values[i], values[i] * 0.1, iso, `${size} at ${class_C} °C, A`);
  }
});

test('engine-space factors follow the rule of the square root, but for the three that src names', () => {
  const other: Source = {
    source: 'correction factors for 50 °C of an electrical code for buildings, in a public repository',
    provenance: 'seen',
  };
  for (const [class_C, factor] of [[60, 0.58], [75, 0.75], [90, 0.82], [105, 0.86], [125, 0.89]] as const) {
    within(Math.sqrt((class_C - 50) / (class_C - 30)), factor, 0.006, other, `${class_C} °C`);
    const ours = gaugeAmpacity.engineSpace[gaugeAmpacity.classes_C.indexOf(class_C)];
    within(ours, factor, 0.011, other, `our factor, ${class_C} °C`);
  } // prettier-ignore
  const odd: string[] = [];
  for (const { source, classes_C, engineSpace } of [metricAmpacity, gaugeAmpacity]) {
    for (const [i, class_C] of classes_C.entries()) {
      // "85 to 90" carries the factor of its upper end.
      const tops = class_C === 85 ? 90 : class_C;
      const rule = Math.sqrt((tops - 50) / (tops - 30));
      // Half of the last digit, and as much again for a factor that was rounded up.
      if (Math.abs(engineSpace[i] - rule) > 0.006) odd.push(`${source}: ${class_C}`);
    }
  }
  assert.deepEqual(odd, [
    'ISO 10133:2012 table A.1, from memory: 70',
    'ISO 10133:2012 table A.1, from memory: 200',
    '33 CFR 183.425 table 5: 105',
    '33 CFR 183.425 table 5: 200',
  ]);
});
