import assert from 'node:assert/strict';
import { test } from 'node:test';
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

test('a value is printed in the unit that is asked for, without idle zeros', () => {
  assert.equal(formatQuantity(0.0125, 'length', 'mm'), '12.5 mm');
  assert.equal(formatQuantity(0.042, 'length', 'mm'), '42 mm');
  assert.equal(formatQuantity(-0.042, 'length', 'mm'), '-42 mm');
  assert.equal(formatQuantity(12.3456789, 'length', 'm'), '12.35 m');
  assert.equal(formatQuantity(12.3456789, 'length', 'm', { significantDigits: 6 }), '12.3457 m');
  assert.equal(formatQuantity(123456, 'length', 'm'), '123500 m');
  assert.equal(formatQuantity(Math.PI / 4, 'angle', '°'), '45°');
  assert.equal(formatQuantity(0.25, 'ratio', ''), '0.25');
  assert.equal(formatQuantity(0.25, 'ratio', '%'), '25 %');
  assert.equal(formatQuantity(358.15, 'temperature', '°C'), '85 °C');
  assert.equal(formatQuantity(358.15, 'temperature', '°F'), '185 °F');
  assert.equal(formatQuantity(10, 'temperatureDifference', '°F'), '18 °F');
});

test('decimals are kept when they are asked for', () => {
  assert.equal(formatQuantity(0.012, 'length', 'mm', { decimals: 2 }), '12.00 mm');
  assert.equal(formatQuantity(-0.0000001, 'length', 'mm', { decimals: 2 }), '0.00 mm');
  assert.equal(formatQuantity(-0, 'length', 'mm'), '0 mm');
  assert.equal(formatQuantity(0.012, 'length', 'mm', { decimals: 0, significantDigits: 1 }), '12 mm');
});

test('what is not a number is never printed as one', () => {
  for (const value of [Number.NaN, Infinity, -Infinity]) {
    for (const dimension of dimensions) {
      for (const unit of unitsOf(dimension)) assert.equal(formatQuantity(value, dimension, unit), 'not known');
      assert.equal(display(value, dimension, imperialUnits), 'not known');
    }
  }
  assert.equal(formatQuantity(Number.MAX_VALUE, 'length', 'thou'), 'not known');
});

test('a wire gauge is printed only where the area is one', () => {
  assert.equal(formatQuantity(toSI(18, 'AWG'), 'area', 'AWG'), '18 AWG');
  assert.equal(formatQuantity(toSI(0, 'AWG'), 'area', 'AWG'), '1/0 AWG');
  assert.equal(formatQuantity(toSI(-3, 'AWG'), 'area', 'AWG'), '4/0 AWG');
  assert.equal(formatQuantity(1.5e-6, 'area', 'AWG'), 'between 15 and 16 AWG');
  assert.equal(formatQuantity(toSI(18, 'AWG') * 1.01, 'area', 'AWG'), 'between 17 and 18 AWG');
  assert.equal(formatQuantity(95e-6, 'area', 'AWG'), 'between 4/0 and 3/0 AWG');
  assert.equal(formatQuantity(50e-6, 'area', 'AWG'), 'between 1/0 and 1 AWG');
  assert.equal(formatQuantity(1e-3, 'area', 'AWG'), 'thicker than 4/0 AWG');
  assert.equal(formatQuantity(1e-12, 'area', 'AWG'), 'thinner than 56 AWG');
  assert.equal(formatQuantity(0, 'area', 'AWG'), 'thinner than 56 AWG');
});

test('an unknown unit is a mistake of the caller and says which', () => {
  assert.throws(() => formatQuantity(1, 'length', 'N'), {
    name: 'RangeError',
    message: '"N" is not the symbol of a unit of length',
  });
  assert.throws(() => toSI(1, 'furlong'), RangeError);
  assert.throws(() => fromSI(1, 'mm', 'force'), RangeError);
});

test('the echo says how a text was understood', () => {
  const said = (text: string, dimension: Dimension): string => {
    const reading = readQuantity(text, dimension);
    assert.ok(reading.ok, text);
    return echo(reading.quantity, dimension);
  };
  assert.equal(said('12,5mm +/- .1', 'length'), '12.5 mm ± 0.1 mm');
  assert.equal(said('1.2 kg', 'force'), '1.2 kgf');
  assert.equal(said('3 lb 4 oz ± 2 oz', 'force'), '3.25 lbf ± 0.125 lbf');
  assert.equal(said('1 1/4" ± 1/32', 'length'), '1.25 in ± 0.03125 in');
  assert.equal(said('85 C ± 9 °F', 'temperature'), '85 °C ± 5 °C');
  assert.equal(said('25 % ± 2', 'ratio'), '(25 ± 2) %');
  assert.equal(said('AWG 18', 'area'), '18 AWG');
  assert.equal(said("35° 30'", 'angle'), '35.5°');
  assert.equal(said('7 lbf ± 5 %', 'force'), '7 lbf ± 0.35 lbf');
});

test('every reader sees each dimension in a unit that the dimension has', () => {
  for (const units of [metricUnits, kilogramForceUnits, imperialUnits]) {
    assert.deepEqual(Object.keys(units).toSorted(), [...dimensions].toSorted());
    for (const dimension of dimensions) assert.ok(unitsOf(dimension).includes(units[dimension]), dimension);
  }
});

test('one value as three readers see it', () => {
  assert.equal(display(0.0254, 'length', metricUnits), '25.4 mm');
  assert.equal(display(0.0254, 'length', imperialUnits), '1 in');
  assert.equal(display(9.80665, 'force', metricUnits), '9.807 N');
  assert.equal(display(9.80665, 'force', metricUnits, 2), '9.8 N');
  assert.equal(display(9.80665, 'force', kilogramForceUnits), '1 kgf');
  assert.equal(display(9.80665, 'force', imperialUnits), '2.205 lbf');
  assert.equal(display(358.15, 'temperature', imperialUnits), '185 °F');
  assert.equal(display(toSI(18, 'AWG'), 'area', metricUnits), '0.823 mm²');
  assert.equal(display(toSI(18, 'AWG'), 'area', imperialUnits), '18 AWG');
  assert.equal(display(1.5e-6, 'area', imperialUnits), '1.5 mm²', 'no gauge has this area');
});
