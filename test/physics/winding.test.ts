/**
 * Coils of enamelled copper wire. Published: wire tables (ASTM B258, IEC 60317-0-1 and its national adoption), worked
 * example of resistance over temperature. Independent: turns summed layer by layer, circles counted in a box.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  coilCurrent,
  enamelledDiameter,
  LAYERED_ROUND_SHARE,
  MOST_ROUND_SHARE,
  turnsFromResistance,
  windingFill,
  windingFromCopperShare,
  windingResistance,
  type WindingWindow,
} from '../../src/physics/winding.ts';

const celsius = (t: number): number => t + 273.15;
const window: WindingWindow = { innerRadius: 11e-3, outerRadius: 20e-3, length: 45e-3 };
/** A window whose mean turn is one metre long. */
const metre: WindingWindow = { innerRadius: 0.4 / Math.PI, outerRadius: 0.6 / Math.PI, length: 0.05 };

test('a metre of wire has the resistance of the wire tables', () => {
  // ASTM B258 at 20 °C, printed to three digits: AWG, mm, ohm/km.
  for (const [gauge, printed] of [
    [22, 53],
    [18, 21],
    [14, 8.29],
    [10, 3.28],
    [8, 2.06],
  ]) {
    const diameter = 0.127e-3 * 92 ** ((36 - gauge) / 39);
    const found = 1000 * windingResistance(metre, diameter, 1, celsius(20));
    assert.ok(Math.abs(found / printed - 1) < 0.005, `AWG ${gauge}: ${found} ohm/km, printed ${printed}`);
  }
  // IEC 60317-0-1 reckons winding wire at 58.5 MS/m, 0.86 % more than annealed copper: 0.500 mm has 0.08706 ohm/m.
  for (const [mm, printed] of [
    [0.2, 0.5441],
    [0.315, 0.2193],
    [0.5, 0.08706],
    [0.8, 0.03401],
    [1, 0.02176],
  ]) {
    const found = windingResistance(metre, mm * 1e-3, 1, celsius(20));
    assert.ok(Math.abs((found * 58) / 58.5 / printed - 1) < 0.003, `${mm} mm: ${found} ohm/m`);
  }
});

test('current falls as copper warms', () => {
  // R. L. Boylestad, Introductory Circuit Analysis, 10th edition, example 3.9: 50 ohm at 20 °C are 65.72 ohm at 100 °C.
  assert.ok(Math.abs(24 / coilCurrent(24, 50, celsius(20), celsius(100)) - 65.72) < 0.01);
  assert.equal(coilCurrent(24, 12, celsius(35), celsius(35)), 2);
});

test('enamel is read from the table of grade 1', () => {
  assert.ok(Math.abs(enamelledDiameter(0.315e-3).overall - 0.349e-3) < 1e-12);
  assert.ok(Math.abs(enamelledDiameter(1.4e-3).overall - 1.468e-3) < 1e-12);
  assert.ok(Math.abs(enamelledDiameter(0.2e-3).overall - 0.226e-3) < 1e-12);
  // Sizes between the rows against IS 13730-0-1 (SWG sizes, largest overall, grade 1), which differ by 0.002 mm at most.
  for (const [bare, overall] of [
    [1.016, 1.08],
    [0.914, 0.976],
    [0.813, 0.872],
    [0.711, 0.766],
    [0.61, 0.659],
    [0.508, 0.554],
    [0.457, 0.501],
    [0.376, 0.417],
    [0.315, 0.349],
  ]) {
    const found = enamelledDiameter(bare * 1e-3);
    assert.ok(found.inTable && Math.abs(found.overall * 1e3 - overall) < 0.0021, `${bare}: ${found.overall}`);
  }
  assert.equal(enamelledDiameter(0.1e-3).inTable, false);
  assert.equal(enamelledDiameter(2e-3).inTable, false);
});

test('turns summed layer by layer have the resistance of as many mean turns', () => {
  const wire = 0.4e-3;
  const layers = 20;
  const perLayer = 100;
  let length = 0;
  for (let k = 0; k < layers; k++)
    length +=
      perLayer * 2 * Math.PI * (window.innerRadius + ((k + 0.5) / layers) * (window.outerRadius - window.innerRadius));
  const summed = (1.7241e-8 * length) / ((Math.PI / 4) * wire ** 2);
  assert.ok(Math.abs(windingResistance(window, wire, layers * perLayer, celsius(20)) / summed - 1) < 1e-12);
  assert.ok(Math.abs(turnsFromResistance(window, wire, summed, celsius(20)) - layers * perLayer) < 1e-6);
});

test('from ohms and the share of copper the same winding comes back', () => {
  const [wire, turns, at] = [0.45e-3, 900, celsius(40)];
  const ohms = windingResistance(window, wire, turns, at);
  const found = windingFromCopperShare(window, windingFill(window, wire, turns).copperShare, ohms, at);
  assert.ok(Math.abs(found.turns - turns) < 1e-6 && Math.abs(found.wireDiameter - wire) < 1e-12);
});

test('what fits a window agrees with circles counted in a box', () => {
  const wire = 0.4e-3;
  const { overallDiameter: D } = windingFill(window, wire, 1);
  const depth = window.outerRadius - window.innerRadius;
  const squares = Math.floor(window.length / D) * Math.floor(depth / D);
  let hexagons = 0;
  for (let row = 0; D + (row * D * Math.sqrt(3)) / 2 <= depth; row++)
    hexagons += Math.floor((window.length - (row % 2) * (D / 2)) / D);
  // The box has edges, so its count stays under the limit of an endless plane, by less than a layer on each side.
  for (const [count, limit] of [
    [squares, LAYERED_ROUND_SHARE],
    [hexagons, MOST_ROUND_SHARE],
  ]) {
    const share = windingFill(window, wire, count).roundShare;
    assert.ok(share <= limit && share > limit * (1 - D / window.length - D / depth), `${share} of ${limit}`);
  }
  assert.equal(windingFill(window, wire, squares).room, 'fits');
  assert.equal(windingFill(window, wire, hexagons).room, 'tight');
  assert.equal(windingFill(window, wire, 1.15 * hexagons).room, 'does not fit');
  assert.equal(windingFill(window, wire, squares / 3).room, 'loose');
});

test('numbers without meaning are refused', () => {
  const refused = (code: string, run: () => unknown): void => assert.throws(run, { name: 'DomainError', code });
  refused('SW-D040', () => enamelledDiameter(0));
  refused('SW-D040', () => windingResistance(window, Number.NaN, 100, 300));
  refused('SW-D041', () => windingFill({ ...window, outerRadius: 11e-3 }, 0.4e-3, 100));
  refused('SW-D041', () => windingResistance({ ...window, length: -1 }, 0.4e-3, 100, 300));
  refused('SW-D042', () => turnsFromResistance(window, 0.4e-3, 0, 300));
  refused('SW-D042', () => coilCurrent(24, -1, 300, 300));
  refused('SW-D042', () => windingFill(window, 0.4e-3, 0));
  refused('SW-D043', () => windingFromCopperShare(window, 0.95, 10, 300));
  refused('SW-D030', () => coilCurrent(24, 10, 20, 300));
});
