/** Mean of a winding by its ohms, and its hottest place above that. */
import { test } from 'node:test';
import { windingGradient, windingTemperature } from '../../src/physics/heat/winding-temperature.ts';
import { toSI } from '../../src/units/quantity.ts';
import { agrees, within, type Source } from './printed.ts';

const celsius = (t: number) => toSI(t, '°C');

test('rise of a winding by its resistance', () => {
  const rise = windingTemperature({ resistance: 3.42, at: celsius(20) }, 4.22) - celsius(20);
  const gained = 4.22 / 3.42 - 1;
  const kulshreshtha: Source = {
    source: 'D. C. Kulshreshtha, Basic Electrical Engineering, Example 2.18, p. 32, in an open companion',
    provenance: 'seen',
  };
  // The book's 0.00426 /K at 0 °C puts copper's zero at -234.74 °C; ours is -234.5. The rise differs by that times the gain.
  agrees(rise + (1 / 0.00426 - 234.5) * gained, '59.59', kulshreshtha, 'K');
  const iec: Source = { source: 'IEC 60034-1, rise by resistance, with its 235 for copper', provenance: 'memory' };
  within(rise + 0.5 * gained, 59.649, 0.001, iec, 'K');
  within(rise, 59.649, 0.2, iec, 'K, constants as they are');
});

test('hottest place of a winding cooled on one face or on both', () => {
  const from: Source = {
    source: 'F.P. Incropera, D.P. DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed., eq. 3.43',
    provenance: 'memory, derived',
  };
  const winding = { power: 12, volume: 3e-5, depth: 0.01, conductivity: 0.5 };
  within(windingGradient({ ...winding, cooledFaces: 2 }).hottest, 10, 1e-5, from, 'K, both faces');
  within(windingGradient({ ...winding, cooledFaces: 1 }).hottest, 40, 4e-5, from, 'K, one face');
});
