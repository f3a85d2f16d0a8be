import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readQuantity, type Dimension, type Quantity } from '../../src/units/quantity.ts';

function read(text: string, dimension: Dimension): Quantity {
  const reading = readQuantity(text, dimension);
  assert.ok(reading.ok, `${text}: ${reading.ok ? '' : reading.problem}`);
  assert.equal(reading.quantity.text, text, 'the text is kept to the letter');
  return reading.quantity;
}

function problem(text: string, dimension: Dimension): string {
  const reading = readQuantity(text, dimension);
  assert.ok(!reading.ok, `${text} was read as ${JSON.stringify(reading)}`);
  return reading.problem;
}

/** Within a few roundings of a double. */
function near(actual: number | null, expected: number, what: string): void {
  assert.ok(
    actual !== null && Math.abs(actual - expected) <= Math.abs(expected) * 4e-16,
    `${what}: ${actual}, expected ${expected}`,
  );
}

type Row = readonly [text: string, dimension: Dimension, value: number, plusMinus?: number | null, unit?: string];

// Expected values worked by hand from the definitions; see test/published/conversion-factors.test.ts for those.
const understood: readonly Row[] = [
  ['42 mm ± 0.5', 'length', 0.042, 0.0005, 'mm'],
  ['42 mm +/- 0.5', 'length', 0.042, 0.0005],
  ['42 mm + / - 0.5', 'length', 0.042, 0.0005],
  ['42+-0.5mm', 'length', 0.042, 0.0005, 'mm'],
  ['42 mm ± 0.5 mm', 'length', 0.042, 0.0005],
  ['42 mm ± 0.02 in', 'length', 0.042, 0.000508, 'mm'],
  ['42 mm ± 2 %', 'length', 0.042, 0.00084],
  ['42 mm ± 2%', 'length', 0.042, 0.00084],
  ['(42 ± 0.5) mm', 'length', 0.042, 0.0005],
  ['(42 mm ± 0.5 mm)', 'length', 0.042, 0.0005],
  ['(42 ± 2 %) mm', 'length', 0.042, 0.00084],
  ['42 mm ± 0', 'length', 0.042, 0],
  ['42 mm ±0,5', 'length', 0.042, 0.0005],
  ['42 mm ＋/－ ０．５', 'length', 0.042, 0.0005],
  ['-42 mm ± 2 %', 'length', -0.042, 0.00084],
  ['12.5 mm', 'length', 0.0125, null, 'mm'],
  ['12,5 mm', 'length', 0.0125],
  ['0,125 mm', 'length', 0.000125],
  ['1234,567 mm', 'length', 1.234567],
  ['1 234,5 mm', 'length', 1.2345],
  ['1 234 mm', 'length', 1.234],
  ['1\u202f234.5 mm', 'length', 1.2345],
  ['.5 mm', 'length', 0.0005],
  ['5. mm', 'length', 0.005],
  ['1e-3 m', 'length', 0.001, null, 'm'],
  ['1,5E2mm', 'length', 0.15],
  ['3/8 in', 'length', 0.009525, null, 'in'],
  ['3/8 in.', 'length', 0.009525],
  ['3/8"', 'length', 0.009525, null, 'in'],
  ['1 1/4"', 'length', 0.03175],
  ['1-1/4 in', 'length', 0.03175],
  ['1¼ in', 'length', 0.03175],
  ['-1 1/4 in', 'length', -0.03175],
  ['1 1/4″ ± 1/32', 'length', 0.03175, 0.00079375],
  ['1 ½ inches', 'length', 0.0381],
  ['6 ft', 'length', 1.8288],
  ['5’ 3”', 'length', 1.6002, null, 'in'],
  [`5' 3 1/2"`, 'length', 1.6129],
  [`5'-3"`, 'length', 1.6002],
  ['5 ft 3 in ± 1/8 in', 'length', 1.6002, 0.003175],
  [`5''`, 'length', 0.127],
  ['250 thou', 'length', 0.00635],
  ['80 µm', 'length', 80e-6, null, 'μm'],
  ['80 μm', 'length', 80e-6],
  ['80 um', 'length', 80e-6],
  ['42\u00a0mm', 'length', 0.042],
  ['−42 mm', 'length', -0.042],
  ['–42 mm', 'length', -0.042],
  ['+42 mm', 'length', 0.042],
  ['  42   mm  ', 'length', 0.042],
  ['42 MM', 'length', 0.042],
  ['42 Millimetres', 'length', 0.042],
  ['４２ｍｍ', 'length', 0.042],
  ['1.2 kgf', 'force', 11.76798, null, 'kgf'],
  ['1.2 kg', 'force', 11.76798, null, 'kgf'],
  ['500 g', 'force', 4.903325, null, 'gf'],
  ['3 lb', 'force', 13.3446648457815, null, 'lbf'],
  ['3 lb 4 oz', 'force', 3.25 * 4.4482216152605, null, 'lbf'],
  ['8 oz', 'force', 2.22411080763025, null, 'ozf'],
  ['7 lbf ± 5 %', 'force', 31.1375513068235, 1.556877565341175, 'lbf'],
  ['7 lbs ± 0.5', 'force', 31.1375513068235, 2.22411080763025],
  ['1.5 daN', 'force', 15],
  ['0.35 kg', 'mass', 0.35, null, 'kg'],
  ['500 g', 'mass', 0.5, null, 'g'],
  ['3 lb', 'mass', 1.36077711, null, 'lb'],
  ['0.5 g', 'acceleration', 4.903325, null, 'g_n'],
  ['0.5 G', 'acceleration', 4.903325, null, 'g_n'],
  ['5 m/s²', 'acceleration', 5],
  ['5 m/s^2', 'acceleration', 5],
  ['5 m/s2', 'acceleration', 5],
  ['85 °C', 'temperature', 358.15, null, '°C'],
  ['85 C', 'temperature', 358.15, null, '°C'],
  ['85C', 'temperature', 358.15],
  ['85 degC', 'temperature', 358.15],
  ['85 deg C', 'temperature', 358.15],
  ['85 ° C', 'temperature', 358.15],
  ['85 ºC', 'temperature', 358.15],
  ['85 ℃', 'temperature', 358.15],
  ['85 °C ± 5', 'temperature', 358.15, 5],
  ['85 °C ± 5 K', 'temperature', 358.15, 5],
  ['85 ± 5 °C', 'temperature', 358.15, 5],
  ['(85 ± 5) °C', 'temperature', 358.15, 5],
  ['85 °C ± 9 °F', 'temperature', 358.15, 5, '°C'],
  ['185 °F', 'temperature', 358.15, null, '°F'],
  ['185 °F ± 9', 'temperature', 358.15, 5, '°F'],
  ['-273.15 °C', 'temperature', 0],
  ['-20 °C', 'temperature', 253.15],
  ['10 K', 'temperatureDifference', 10],
  ['10 °C', 'temperatureDifference', 10],
  ['18 °F', 'temperatureDifference', 10],
  ['24 V', 'voltage', 24],
  ['24V', 'voltage', 24],
  ['24 v', 'voltage', 24],
  ['24 V DC', 'voltage', 24],
  ['24 volts', 'voltage', 24],
  ['10 mA', 'current', 0.01],
  ['30 amps', 'current', 30],
  ['1.2 Ω', 'resistance', 1.2, null, 'Ω'],
  ['1.2 \u2126', 'resistance', 1.2],
  ['1.2 ohm', 'resistance', 1.2],
  ['1.2 Ohms', 'resistance', 1.2],
  ['300 mΩ', 'resistance', 0.3],
  ['300 mohm', 'resistance', 0.3],
  ['2,2 kΩ', 'resistance', 2200],
  ['1 MΩ', 'resistance', 1e6],
  ['1 Mohm', 'resistance', 1e6],
  ['1.5 mm²', 'area', 1.5e-6, null, 'mm²'],
  ['1.5 mm2', 'area', 1.5e-6],
  ['1.5mm^2', 'area', 1.5e-6],
  ['1.5 sq mm', 'area', 1.5e-6],
  ['0.25', 'ratio', 0.25, null, ''],
  ['0,25', 'ratio', 0.25],
  ['1/4', 'ratio', 0.25],
  ['25 %', 'ratio', 0.25, null, '%'],
  ['(25 ± 2) %', 'ratio', 0.25, 0.02],
  ['25 % ± 2', 'ratio', 0.25, 0.02],
  ['0.25 ± 0.02', 'ratio', 0.25, 0.02],
  ['0.2 N/mm', 'springRate', 200],
  ['0.2 N / mm', 'springRate', 200],
  ['3 lbf/in', 'springRate', (3 * 4.4482216152605) / 0.0254],
  ['3 lb/in', 'springRate', (3 * 4.4482216152605) / 0.0254, null, 'lbf/in'],
  ['0.02 kg/mm', 'springRate', 196.133, null, 'kgf/mm'],
  ['15 N mm/°', 'torsionRate', (0.015 * 180) / Math.PI],
  ['15 Nmm/deg', 'torsionRate', (0.015 * 180) / Math.PI],
  ['0.9 N·m/rad', 'torsionRate', 0.9],
  ['1.5 N m', 'torque', 1.5],
  ['1.5 Nm', 'torque', 1.5],
  ['1.5 N·m', 'torque', 1.5],
  ['1.5 N-m', 'torque', 1.5],
  ['13 in-lb', 'torque', 13 * 4.4482216152605 * 0.0254, null, 'lbf in'],
  ['35°', 'angle', (35 * Math.PI) / 180, null, '°'],
  ['35 deg', 'angle', (35 * Math.PI) / 180],
  ['35° ± 0.5', 'angle', (35 * Math.PI) / 180, (0.5 * Math.PI) / 180],
  ["35° 30'", 'angle', (35.5 * Math.PI) / 180, null, '°'],
  [`35° 30' 36"`, 'angle', (35.51 * Math.PI) / 180],
  ["-0° 30'", 'angle', (-0.5 * Math.PI) / 180],
  ['0.6 rad', 'angle', 0.6],
  ['1/2 turn', 'angle', Math.PI],
  ['7 bar', 'pressure', 7e5],
  ['600 MPa', 'stress', 6e8],
  ['600 N/mm²', 'stress', 6e8],
  ['35 mH', 'inductance', 0.035],
  ['1500 rpm', 'frequency', 25],
  ['1500 1/min', 'frequency', 25],
  ['250 ms', 'time', 0.25],
  ['5 min', 'time', 300],
  ['0.8 m/s', 'velocity', 0.8],
  ['1.2 T', 'magneticFluxDensity', 1.2],
  ['800 A/m', 'magneticFieldStrength', 800],
];

test('what people type is understood', () => {
  for (const [text, dimension, value, plusMinus, unit] of understood) {
    const quantity = read(text, dimension);
    near(quantity.value, value, text);
    if (plusMinus === undefined || plusMinus === null) assert.equal(quantity.plusMinus, null, text);
    else near(quantity.plusMinus, plusMinus, `± of ${text}`);
    if (unit !== undefined) assert.equal(quantity.unit, unit, text);
  }
});

test('a wire gauge in every way of writing it is one area', () => {
  const eighteen = read('18 AWG', 'area');
  assert.equal(eighteen.unit, 'AWG');
  for (const text of ['AWG 18', 'AWG18', '18AWG', '18 awg', '#18 AWG', 'AWG #18'])
    assert.equal(read(text, 'area').value, eighteen.value, text);
  for (const [n, one, other] of [
    [0, '0', '1/0'],
    [-1, '00', '2/0'],
    [-2, '000', '3/0'],
    [-3, '0000', '4/0'],
  ] as const) {
    assert.equal(read(`${one} AWG`, 'area').value, read(`${other} AWG`, 'area').value, String(n));
  }
  for (const text of ['-1 AWG', '18.5 AWG', '5/0 AWG', '00000 AWG', '57 AWG', '1 1/2 AWG', 'AWG', 'AWG x', '1e1 AWG']) {
    assert.match(problem(text, 'area'), /no wire gauge/, text);
  }
  for (const text of ['18 AWG ± 1', '(18 ± 1) AWG', '18 ± 1 AWG', '18 AWG ± 2 %', '1 mm² ± 1 AWG', 'AWG 18 ± 1']) {
    assert.match(problem(text, 'area'), /a wire gauge takes no ±/, text);
  }
  assert.match(problem('18 AWG', 'length'), /is a wire size: write a length/);
});

test('a text read before gives the same frozen answer, and forgetting changes nothing', () => {
  const first = readQuantity('42 mm ± 0.5', 'length');
  assert.equal(readQuantity('42 mm ± 0.5', 'length'), first);
  assert.notEqual(readQuantity('0.5 g', 'mass'), readQuantity('0.5 g', 'force'));
  assert.ok(first.ok && Object.isFrozen(first) && Object.isFrozen(first.quantity));
  for (let i = 0; i < 10_000; i++) readQuantity(`${i} mm`, 'length');
  const later = readQuantity('42 mm ± 0.5', 'length');
  assert.notEqual(later, first, 'the store of texts read before is bounded');
  assert.deepEqual(later, first);
});
