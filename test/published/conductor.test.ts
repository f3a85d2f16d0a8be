/** Conductor tables by stranding, and how long copper stands a short circuit. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  adiabaticConstant,
  adiabaticTime,
  greatestResistance,
  insulations,
  resistancePerMetre,
  standardSections,
  type Stranding,
} from '../../src/physics/conductor.ts';
import { toSI } from '../../src/units/quantity.ts';
import { agrees, within, type Source } from './printed.ts';

const celsius = (t: number) => toSI(t, '°C');

test('class 2 and tinned class 5 conductors: greatest resistance at 20 °C', () => {
  const seen: Source = {
    source: 'IEC 60228; three open pages agree from 1 to 35 mm², two of them at 0.5 and 0.75',
    provenance: 'seen',
  };
  const recalled: Source = { source: 'IEC 60228', provenance: 'memory' };
  const printed: readonly (readonly [Stranding, readonly number[]])[] = [
    ['class 2', [36.0, 24.5, 18.1, 12.1, 7.41, 4.61, 3.08, 1.83, 1.15, 0.727, 0.524, 0.387, 0.268, 0.193]],
    ['class 5', [39.0, 26.0, 19.5, 13.3, 7.98, 4.95, 3.3, 1.91, 1.21, 0.78, 0.554, 0.386, 0.272, 0.206]],
    ['class 5 tinned', [40.1, 26.7, 20.0, 13.7, 8.21, 5.09, 3.39, 1.95, 1.24, 0.795, 0.565, 0.393, 0.277, 0.21]],
  ];
  const sections = [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95];
  assert.deepEqual(
    greatestResistance.map(([section]) => section),
    sections,
    'every row of src is checked here',
  );
  for (const [stranding, values] of printed) {
    for (const [i, mm2] of sections.entries()) {
      const ours = resistancePerMetre(mm2 * 1e-6, stranding) * 1000;
      within(ours, values[i], 1e-9, mm2 > 35 ? recalled : seen, `${mm2} mm² ${stranding}, ohm/km`);
    }
  }
});

test('printed resistances against copper of the nominal section', () => {
  const derived: Source = { source: 'IEC 60228 class 5 against IEC 60028, 0.5 to 35 mm²', provenance: 'seen, derived' };
  const ratios = greatestResistance
    .filter(([mm2]) => mm2 <= 35)
    .map(([mm2]) => resistancePerMetre(mm2 * 1e-6) / (1.7241e-8 / (mm2 * 1e-6)));
  within(Math.min(...ratios), 1.1078243721, 0.0011, derived, 'least ratio');
  within(Math.max(...ratios), 1.1571254568, 0.0012, derived, 'greatest ratio');
});

test('the sizes that are sold', () => {
  const label = standardSections.map((section) => section.label).join(', ');
  assert.equal(
    label,
    '0.75 mm², 1 mm², 1.5 mm², 2.5 mm², 4 mm², 6 mm², 10 mm², 16 mm², 25 mm², 35 mm², 50 mm², 70 mm², 95 mm², '
      + '20 AWG, 18 AWG, 16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG, 6 AWG, 4 AWG, 3 AWG, 2 AWG, 1 AWG, 1/0 AWG, 2/0 AWG, '
      + '3/0 AWG, 4/0 AWG',
  );
  const mils: Source = {
    source: "nominal circular mils on two pages of a chandler's catalogue, rounded by up to 0.8 %",
    provenance: 'seen',
  };
  const circularMil = (Math.PI / 4) * toSI(0.001, 'in') ** 2;
  for (const [gauge, nominal] of [
    ['18 AWG', 1620], ['16 AWG', 2580], ['14 AWG', 4110], ['12 AWG', 6530], ['10 AWG', 10380], ['8 AWG', 16510],
    ['6 AWG', 26240],
  ] as const) {
    const section = standardSections.find((one) => one.label === gauge);
    assert.ok(section !== undefined, gauge);
    within(section.section_m2 / circularMil, nominal, nominal * 0.005, mils, `${gauge}, CM`);
  } // prettier-ignore
});

test('the adiabatic constant', () => {
  const k: Source = {
    source: 'IEC 60364-5-54 (values of k; an open page lists 115 for PVC 70 to 160 °C and 143 for XLPE 90 to 250 °C)',
    provenance: 'seen',
  };
  agrees(adiabaticConstant(insulations.PVC.service, insulations.PVC.shortCircuit) / 1e6, '115', k, 'PVC, A√s/mm²');
  agrees(adiabaticConstant(insulations.XLPE.service, insulations.XLPE.shortCircuit) / 1e6, '143', k, 'XLPE, A√s/mm²');
  const bare: Source = { source: 'IEC 60364-5-54, bare copper from 30 °C', provenance: 'memory' };
  agrees(adiabaticConstant(celsius(30), celsius(200)) / 1e6, '159', bare, 'to 200 °C, A√s/mm²');
  const derived: Source = { source: 'IEC 60949, k by its formula', provenance: 'memory, derived' };
  within(adiabaticConstant(celsius(70), celsius(160)) / 1e6, 115.0044814865, 0.6, derived, 'A√s/mm²');
  const table: Source = {
    source: 'an open table of currents that a conductor stands for 1 s (k rounded to 115 and 143; kA, two decimals)',
    provenance: 'seen, derived',
  };
  for (const [mm2, kiloampere] of [
    [1.5, 0.17],
    [2.5, 0.29],
    [4, 0.46],
    [6, 0.69],
    [10, 1.15],
  ] as const) {
    // The time for the printed current is one second, within twice the rounding of the current.
    const time = adiabaticTime(mm2 * 1e-6, kiloampere * 1000, celsius(70), celsius(160));
    within(time, 1, (2 * 0.005) / kiloampere + 0.002, table, `${mm2} mm² PVC, s`);
  }
  // Rule of thumb: copper at 20 °C gains J²/200 kelvin in a second, J in A/mm²; the source gives 0.0049974 K/s.
  const gain = 1 / adiabaticTime(1e-6, 1, celsius(20), celsius(21));
  within(gain, 0.0049973913, 0.0049973913 * 0.005, derived, 'K/s at 1 A/mm²');
});
