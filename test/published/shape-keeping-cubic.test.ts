/**
 * The shape-keeping cubic against a general-purpose reference library: SciPy 1.17.1, interpolate.PchipInterpolator, whose
 * slopes follow the same papers (Fritsch and Carlson 1980; Fritsch and Butland 1984). Values as it prints them.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pchip, pchipAt } from '../../src/numerics/pchip.ts';

interface Case {
  readonly data: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly at: readonly number[];
  readonly values: readonly number[];
  readonly slopes: readonly number[];
}

const cases: readonly Case[] = [
  {
    data: 'radiochemical data, table 1 of Fritsch and Carlson 1980 (data from memory)',
    x: [7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20],
    y: [0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.94374, 0.998636, 0.999919, 0.999994],
    at: [9.4913, 10.9925, 12.4938, 13.995, 15.4962, 16.9975, 18.4988],
    values: [
      0.6785361601243676, 0.9858485279553852, 0.9990369985794862, 0.9997711379519312, 0.99993372093586,
      0.9999679811794434, 0.9999876885352392,
    ],
    slopes: [
      0, 0.0005525086818680746, 0.3358768346083505, 0.3494491676859672, 0.5969582389267871, 0.06032184552297048,
      0.0009003953827692708, 3.142468363044495e-5, 3.3881317890172014e-21,
    ],
  },
  {
    data: "Akima's data of 1970: flat, then steep (data from memory)",
    x: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
    y: [10, 10, 10, 10, 10, 10, 10.5, 15, 50, 60, 85],
    at: [1.25, 2.5, 3.75, 5, 6.25, 7.5, 8.75],
    values: [10, 10, 10, 10, 10.95587420886076, 31.552390998593534, 57.1577380952381],
    slopes: [0, 0, 0, 0, 0, 0, 0.9, 7.974683544303797, 15.555555555555557, 14.285714285714286, 32.5],
  },
  {
    data: 'up, down, level and up again',
    x: [0, 0.3, 1, 1.8, 2.5, 4],
    y: [1, 3, 2.5, -1, -1, 4],
    at: [0.5, 1, 1.5, 2, 2.5, 3, 3.5],
    values: [2.950211331106283, 2.5, 0.02243170807751338, -1, -1, -0.3265993265993265, 1.4579124579124583],
    slopes: [8.88095238095238, 0, -1.2087490406753647, 0, 0, 5.606060606060605],
  },
  { data: 'two points', x: [1, 3], y: [2, 5], at: [1.25, 2, 2.75], values: [2.375, 3.5, 4.625], slopes: [1.5, 1.5] },
  {
    data: 'three points with a turn',
    x: [0, 1, 3],
    y: [0, 2, 1],
    at: [0.375, 0.75, 1.125, 1.5, 1.875, 2.25, 2.625],
    values: [1.0478515625, 1.8203125, 1.999755859375, 1.984375, 1.916259765625, 1.755859375, 1.463623046875],
    slopes: [2.8333333333333335, 0, -1.5],
  },
];

for (const { data, x, y, at, values, slopes } of cases) {
  test(`as the reference library: ${data}`, () => {
    const curve = pchip(x, y);
    for (const [i, place] of at.entries()) {
      assert.ok(Math.abs(pchipAt(curve, place) - values[i]) < 1e-12 * Math.max(1, Math.abs(values[i])), `at ${place}`);
    }
    for (const [i, slope] of slopes.entries()) {
      assert.ok(Math.abs(curve.slope[i] - slope) < 1e-12 * Math.max(1, Math.abs(slope)), `slope ${i}`);
    }
  });
}
