/** Limits on a winding and on a hand: order, edges, what has no meaning; and the gradient inside a winding, solved numerically. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { copperResistance } from '../../../src/physics/coil.ts';
import { longestTouch } from '../../../src/physics/heat/touch.ts';
import { windingGradient, windingTemperature } from '../../../src/physics/heat/winding-temperature.ts';
import { insulationLifeShare, meanLimit, thermalClassName } from '../../../src/physics/thermal-class.ts';
import { celsius } from './bodies.ts';

test('the mean may reach the class less the hot spot', () => {
  assert.equal(meanLimit(130, 15), celsius(115));
  assert.equal(insulationLifeShare(155, celsius(155)), 1);
  assert.equal(thermalClassName(250), '250');
  assert.throws(() => meanLimit(130, -1), /SW-D055 .* -1 K/);
  assert.throws(() => meanLimit(130, NaN), /SW-D055 .* NaN K/);
  assert.throws(() => insulationLifeShare(130, 0), /SW-D055 .* not 0/);
});

test('a hotter can may be touched for less long, and at a threshold it burns', () => {
  assert.equal(longestTouch(celsius(42.9)), Infinity);
  assert.equal(longestTouch(celsius(43.1)), 600);
  assert.equal(longestTouch(celsius(48.1)), 60);
  assert.equal(longestTouch(celsius(51.1)), 10);
  assert.equal(longestTouch(celsius(60)), 1);
  assert.equal(longestTouch(celsius(65.1)), 0);
  let before = Infinity;
  for (let t = 30; t < 120; t += 0.5) {
    const now = longestTouch(celsius(t));
    assert.ok(now <= before, `${now} s at ${t} °C after ${before} s`);
    before = now;
  }
  assert.throws(() => longestTouch(NaN), /SW-D056 .* NaN/);
});

test('temperature from ohms undoes ohms from temperature', () => {
  for (const cold of [celsius(-20), celsius(20), celsius(41)]) {
    for (const hot of [celsius(-10), celsius(20), celsius(95), celsius(240)]) {
      const found = windingTemperature({ resistance: 7, at: cold }, copperResistance(7, cold, hot));
      assert.ok(Math.abs(found - hot) < 1e-9, `${found} K, was ${hot} K`);
    }
  }
  assert.throws(() => windingTemperature({ resistance: 0, at: 293 }, 4), /SW-D056 cold resistance .* 0/);
  assert.throws(() => windingTemperature({ resistance: 3, at: 293 }, NaN), /SW-D056 hot resistance .* NaN/);
});

test('the gradient is that of a wall cut into slices', () => {
  // Slices with heat q between cooled faces: steady temperatures by sweeping flows from the uncooled middle or face outward.
  const [power, volume, depth, conductivity] = [12, 3e-5, 0.01, 0.5];
  for (const cooledFaces of [1, 2] as const) {
    const slices = 2000;
    const way = depth / cooledFaces;
    const thin = way / slices;
    const drop = Array.from({ length: slices }, (_, i) => ((power / volume) * (i + 0.5) * thin * thin) / conductivity);
    const hottest = drop.reduce((sum, one) => sum + one, 0);
    let temperature = hottest;
    let sum = 0;
    for (const one of drop) {
      sum += temperature - one / 2;
      temperature -= one;
    }
    const found = windingGradient({ power, volume, depth, conductivity, cooledFaces });
    assert.ok(Math.abs(found.hottest / hottest - 1) < 1e-3, `${found.hottest} K, ${hottest} K in slices`);
    assert.ok(Math.abs(found.mean / (sum / slices) - 1) < 1e-3, `${found.mean} K, ${sum / slices} K in slices`);
    assert.ok(Math.abs(found.hottestAboveMean - (found.hottest - found.mean)) < 1e-12, 'the rest is between them');
  }
  assert.throws(() => windingGradient({ power, volume, depth: 0, conductivity, cooledFaces: 1 }), /SW-D056 depth/);
});
