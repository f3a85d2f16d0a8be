/**
 * Conversion factors and wire gauges against what others print.
 *
 * [1] NIST Special Publication 811, 2008 edition, Appendix B.8, factors listed alphabetically: seven significant
 *     digits; factors that the Guide sets in bold are exact. Seen in a public transcription of the appendix
 *     (an open statistics package of its factors), not on the Guide's own page; the bold type from memory.
 * [2] ASTM B258: 36 AWG is 0.0050 in, 0000 is 0.4600 in, ratio 92 in 39 steps. Areas and diameters as printed in an
 *     open table of gauges: seen, on a public page, three significant digits.
 * [3] SI Brochure, 9th edition (2019), table 7 (prefixes) and table 8 (min, h, degree). From memory.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { dimensions, fromSI, readQuantity, toSI, unitsOf, type Dimension } from '../../src/units/quantity.ts';

type Factor = readonly [printed: string, unit: string, dimension: Dimension, exact?: 'exact'];

const nistFactors: readonly Factor[] = [
  ['9.80665E+00', 'g_n', 'acceleration', 'exact'],
  ['3.048E-01', 'ft/s²', 'acceleration', 'exact'],
  ['1.745329E-02', '°', 'angle'],
  ['2.908882E-04', '′', 'angle'],
  ['4.848137E-06', '″', 'angle'],
  ['1.570796E-02', 'gon', 'angle'],
  ['6.283185E+00', 'turn', 'angle'],
  ['6.4516E-04', 'in²', 'area', 'exact'],
  ['9.80665E+00', 'kgf', 'force', 'exact'],
  ['4.448222E+00', 'lbf', 'force'],
  ['2.780139E-01', 'ozf', 'force'],
  ['2.54E-02', 'in', 'length', 'exact'],
  ['3.048E-01', 'ft', 'length', 'exact'],
  ['9.144E-01', 'yd', 'length', 'exact'], // this row from memory
  ['2.54E-05', 'thou', 'length', 'exact'],
  ['1.0E-06', 'μm', 'length', 'exact'],
  ['4.535924E-01', 'lb', 'mass'],
  ['2.834952E-02', 'oz', 'mass'],
  ['1.0E-04', 'G', 'magneticFluxDensity', 'exact'],
  ['7.957747E+01', 'Oe', 'magneticFieldStrength'],
  ['7.456999E+02', 'hp', 'power'],
  ['7.354988E+02', 'PS', 'power'],
  ['1.0E+05', 'bar', 'pressure', 'exact'], // this row from memory
  ['1.0E+02', 'mbar', 'pressure', 'exact'],
  ['6.894757E+03', 'psi', 'pressure'],
  ['9.80665E+04', 'kgf/cm²', 'pressure', 'exact'],
  ['6.894757E+06', 'ksi', 'stress'],
  ['9.80665E+06', 'kgf/mm²', 'stress', 'exact'],
  ['1.751268E+02', 'lbf/in', 'springRate'],
  ['1.459390E+01', 'lbf/ft', 'springRate'],
  ['5.555556E-01', '°F', 'temperatureDifference'],
  ['9.80665E+00', 'kgf m', 'torque', 'exact'],
  ['1.355818E+00', 'lbf ft', 'torque'],
  ['1.129848E-01', 'lbf in', 'torque'],
  ['7.061552E-03', 'ozf in', 'torque'],
  ['6.0E+01', 'min', 'time', 'exact'],
  ['3.6E+03', 'h', 'time', 'exact'],
  ['8.64E+04', 'd', 'time', 'exact'],
  ['2.54E-02', 'in/s', 'velocity', 'exact'],
  ['3.048E-01', 'ft/s', 'velocity', 'exact'],
  ['2.777778E-01', 'km/h', 'velocity'],
  ['1.0E-03', 'L', 'volume', 'exact'],
  ['1.638706E-05', 'in³', 'volume'],
  ['2.831685E-02', 'ft³', 'volume'],
  ['4.4704E-01', 'mph', 'velocity', 'exact'],
];

/** Half a unit in the last printed digit; for an exact factor, what two roundings of a double can do. */
function tolerance(printed: string, exact: boolean): number {
  if (exact) return Number(printed) * 2 ** -51;
  const [mantissa = '', power = '0'] = printed.split('E');
  return 0.5 * 10 ** (Number(power) - (mantissa.split('.')[1]?.length ?? 0)) * (1 + 1e-9);
}

test('one of each unit is the factor that NIST SP 811 prints', () => {
  for (const [printed, unit, dimension, exact] of nistFactors) {
    const allowed = tolerance(printed, exact === 'exact');
    const value = toSI(1, unit, dimension);
    assert.ok(Math.abs(value - Number(printed)) <= allowed, `1 ${unit} is ${value}, printed ${printed}`);
    assert.ok(Math.abs(fromSI(value, unit, dimension) - 1) <= 2 ** -51, `${unit} back`);
  }
});

test('the same factors come out of typed text', () => {
  for (const [printed, unit, dimension, exact] of nistFactors) {
    const reading = readQuantity(`1 ${unit}`, dimension);
    assert.ok(reading.ok, reading.ok ? '' : reading.problem);
    assert.ok(Math.abs(reading.quantity.value - Number(printed)) <= tolerance(printed, exact === 'exact'), unit);
  }
});

test('temperatures follow the equations of NIST SP 811: T/K = t/°C + 273.15 and T/K = (t/°F + 459.67)/1.8', () => {
  const allowed = 2 ** -43; // an ulp or two at some hundreds of kelvin
  for (const t of [-40, 0, 32, 68, 85, 185, 212]) {
    assert.ok(Math.abs(toSI(t, '°C') - (t + 273.15)) <= allowed);
    assert.ok(Math.abs(toSI(t, '°F') - (t + 459.67) / 1.8) <= allowed);
  }
  // −40 is where the two scales meet; water boils at 212 °F = 100 °C.
  assert.ok(Math.abs(toSI(-40, '°F') - toSI(-40, '°C')) <= allowed);
  assert.ok(Math.abs(toSI(212, '°F') - toSI(100, '°C')) <= allowed);
});

/** Gauge, diameter in mm and area in mm² as printed [2], and both recomputed from the definition. */
const gauges = [
  { gauge: 8, diameter: { printed: '3.26', value: 3.2636432059 }, area: { printed: '8.36', value: 8.3655640601 } },
  { gauge: 10, diameter: { printed: '2.59', value: 2.588186728 }, area: { printed: '5.26', value: 5.2611549545 } },
  { gauge: 14, diameter: { printed: '1.63', value: 1.6277266338 }, area: { printed: '2.08', value: 2.0809077171 } },
  { gauge: 18, diameter: { printed: '1.02', value: 1.0236873428 }, area: { printed: '0.823', value: 0.8230468337 } },
  { gauge: 22, diameter: { printed: '0.644', value: 0.6438032985 }, area: { printed: '0.326', value: 0.3255339412 } },
];

test('wire gauges have the areas and diameters of the printed table', () => {
  for (const { gauge, diameter, area } of gauges) {
    const reading = readQuantity(`${gauge} AWG`, 'area');
    assert.ok(reading.ok);
    const area_mm2 = reading.quantity.value * 1e6;
    const diameter_mm = Math.sqrt((4 * area_mm2) / Math.PI);
    // Some open tables cut off instead of rounding: the 8.3656 of gauge 8 is printed 8.36. One last digit, not half.
    assert.ok(
      Math.abs(area_mm2 - Number(area.printed)) < 10 ** -(area.printed.split('.')[1]?.length ?? 0),
      `${gauge}: ${area_mm2}`,
    );
    assert.ok(
      Math.abs(diameter_mm - Number(diameter.printed)) <= 0.5 * 10 ** -(diameter.printed.split('.')[1]?.length ?? 0),
      `${gauge}: ${diameter_mm}`,
    );
    assert.ok(Math.abs(area_mm2 - area.value) <= 0.5e-10 * 1.001);
    assert.ok(Math.abs(diameter_mm - diameter.value) <= 0.5e-10 * 1.001);
  }
});

test('the two gauges that define the scale: 36 AWG is 0.0050 in and 0000 is 0.4600 in', () => {
  for (const [text, inches] of [
    ['36 AWG', 0.005],
    ['0000 AWG', 0.46],
    ['4/0 AWG', 0.46],
  ] as const) {
    const reading = readQuantity(text, 'area');
    assert.ok(reading.ok);
    const diameter_m = Math.sqrt((4 * reading.quantity.value) / Math.PI);
    assert.ok(Math.abs(diameter_m / toSI(inches, 'in') - 1) < 1e-14, text);
  }
});

/** Prefixes of the SI as the Brochure prints them [3], and the units without prefix, in base SI. */
const prefixes: Readonly<Record<string, number>> = {
  G: 1e9,
  M: 1e6,
  k: 1e3,
  da: 1e1,
  '': 1,
  d: 1e-1,
  c: 1e-2,
  m: 1e-3,
  μ: 1e-6,
};
const simple: Readonly<Record<string, number>> = {
  m: 1, g: 1e-3, s: 1, N: 1, Pa: 1, V: 1, A: 1, Ω: 1, W: 1, H: 1, T: 1, Hz: 1, K: 1, rad: 1, bar: 1e5, G: 1e-4, min: 60, h: 3600, '°': Math.PI / 180,
  gf: 9.80665e-3, lbf: 4.4482216152605, ozf: 4.4482216152605 / 16, in: 0.0254, L: 1e-3, ft: 0.3048,
}; // prettier-ignore

/** "kgf cm/°" from its parts: the worth of each prefix and unit, multiplied before the stroke, divided after it. */
function fromParts(symbol: string): number | null {
  const [above = '', below = ''] = symbol.replace(/[()]/g, '').split('/');
  const worth = (parts: string): number | null =>
    parts.split(' ').reduce<number | null>((product, part) => {
      const [, name = '', power = ''] = /^(.+?)([²³]?)$/.exec(part) ?? [];
      const prefix =
        name in simple
          ? ''
          : Object.keys(prefixes).find(
              (each) => each !== '' && name.startsWith(each) && name.slice(each.length) in simple,
            );
      const unit = prefix === undefined ? undefined : simple[name.slice(prefix.length)];
      if (product === null || prefix === undefined || unit === undefined) return null;
      return product * ((prefixes[prefix] ?? Number.NaN) * unit) ** ({ '²': 2, '³': 3 }[power] ?? 1);
    }, 1);
  const top = worth(above);
  const bottom = below === '' ? 1 : worth(below);
  return top === null || bottom === null ? null : top / bottom;
}

test('every unit is its prefix times its unit, or stands in the table above, or is named here', () => {
  const named: Readonly<Record<string, number>> = { '': 1, '%': 0.01, '‰': 0.001, rpm: 1 / 60 };
  for (const dimension of dimensions) {
    for (const unit of unitsOf(dimension)) {
      if (dimension === 'temperature' || unit === 'AWG') continue; // each has its own test
      const isPrinted = nistFactors.some(([, symbol, of]) => symbol === unit && of === dimension);
      const expected = fromParts(unit) ?? named[unit] ?? (unit === '°C' ? 1 : null);
      assert.ok(isPrinted || expected !== null || unit === 'psi', `nothing proves ${unit} of ${dimension}`);
      if (expected === null) continue;
      const value = toSI(1, unit, dimension);
      assert.ok(Math.abs(value / expected - 1) <= 2 ** -50, `1 ${unit} is ${value}, from its parts ${expected}`);
    }
  }
  assert.equal(toSI(1, 'psi', 'stress'), toSI(1, 'psi', 'pressure'));
});
