/** A winding that loses no heat: against the published constant of copper, a marched balance, and its own limits. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { copperResistance } from '../../../src/physics/coil.ts';
import { DomainError } from '../../../src/physics/domain-error.ts';
import { adiabaticTemperatures } from '../../../src/physics/heat/adiabatic.ts';

const celsius = (degrees: number) => degrees + 273.15;

test('copper goes from 70 °C to 160 °C in the time of IEC 60364-5-54: k = 115 A √s/mm²', () => {
  // [1] IEC 60364-5-54 table A.54.2, copper with PVC: 115, printed to a unit. One metre of 1 mm², Qc 3.45e-3 J/(K mm³).
  const section = 1;
  const current = 100;
  const winding = { resistance: 17.241e-3 / section, at: celsius(20), heatCapacity: 3.45 * section };
  const seconds = ((115 * section) / current) ** 2;
  const [, end] = adiabaticTemperatures(winding, [0, seconds], [current, current], celsius(70));
  // Half a unit in k is a share of 1/115 of the time, and so about 0.8 K of the 90.
  assert.ok(Math.abs(end - celsius(160)) < 0.85, `${end - 273.15} °C after ${seconds} s`);
});

test('a current that rises in a straight line heats as a balance marched in small steps does', () => {
  const winding = { resistance: 1.2, at: celsius(20), heatCapacity: 80 };
  const [start, rate, duration, steps] = [celsius(5), 9, 3, 200_000];
  let temperature = start;
  for (let i = 0; i < steps; i++) {
    const amps = (rate * duration * (i + 0.5)) / steps;
    const half = (duration / steps) * 0.5;
    const power = (at: number) => amps ** 2 * copperResistance(winding.resistance, winding.at, at);
    const middle = temperature + (half * power(temperature)) / winding.heatCapacity;
    temperature += (2 * half * power(middle)) / winding.heatCapacity;
  }
  const [, end] = adiabaticTemperatures(winding, [0, duration], [0, rate * duration], start);
  assert.ok(Math.abs(end - temperature) < 1e-7 * temperature, `${end} and ${temperature} K`);
});

test('no current, no heat; and where the time is cut makes no difference', () => {
  const winding = { resistance: 0.8, at: celsius(20), heatCapacity: 50 };
  assert.deepEqual([...adiabaticTemperatures(winding, [0, 1, 5], [0, 0, 0], 300)], [300, 300, 300]);
  const whole = adiabaticTemperatures(winding, [0, 2], [10, 10], 300);
  const cut = adiabaticTemperatures(winding, [0, 0.3, 1.1, 2], [10, 10, 10, 10], 300);
  assert.ok(Math.abs(whole[1] - cut[3]) < 1e-10, `${whole[1]} and ${cut[3]} K`);
});

test('what cannot be is refused', () => {
  const winding = { resistance: 0.8, at: 293.15, heatCapacity: 50 };
  const refused = (act: () => unknown) =>
    assert.throws(act, (error) => error instanceof DomainError && error.code === 'SW-D056');
  refused(() => adiabaticTemperatures({ ...winding, heatCapacity: 0 }, [0], [0], 300));
  refused(() => adiabaticTemperatures({ ...winding, resistance: NaN }, [0], [0], 300));
  refused(() => adiabaticTemperatures(winding, [0, 1], [0], 300));
  refused(() => adiabaticTemperatures(winding, [0], [0], -1));
});
