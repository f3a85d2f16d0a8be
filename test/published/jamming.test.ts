/** When friction holds fast: guides, slopes and slots, against statics texts. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { findRoot } from '../../src/numerics/roots.ts';
import { guideFriction, type Guide } from '../../src/physics/guide.ts';
import { connectionForce, poseAt, type Linkage } from '../../src/physics/linkage.ts';
import { toSI } from '../../src/units/quantity.ts';
import { agrees, within, type Source } from './printed.ts';

const bracket = (grip: number, diameter: number, offset: number): Guide => ({
  action: 'pull',
  lengthAtHome: grip,
  overhang: 0,
  stroke: 0.01,
  diameter,
  boreClearance: 0,
  planeOffset: offset,
});

test('a bracket on a pipe grips by itself from a distance of h/2μ, whatever the pipe', () => {
  const beer: Source = {
    source:
      'F.P. Beer, E.R. Johnston, Statics, Sample Problem 8.3 (4.13 in the split edition): h = 6 in, 3 in pipe, μ 0.25',
    provenance: 'seen', // a public page with the full printed solution
  };
  const load = 100;
  for (const diameter of [3, 1, 0.1]) {
    const surplus = (x: number) =>
      guideFriction(bracket(toSI(6, 'in'), toSI(diameter, 'in'), x), 0, load, 0, 0, 1, 0.25) - load;
    const grips = findRoot(surplus, 0, 1);
    assert.equal(grips.converged, true);
    within(grips.at / toSI(1, 'in'), 12, 1e-9, beer, `inches, ${diameter} in pipe`);
    // The same with the load's moment in the plane of the lever.
    const moment = findRoot(
      (x) => guideFriction(bracket(toSI(6, 'in'), toSI(diameter, 'in'), 0), 0, load, 0, load * x, 1, 0.25) - load,
      0,
      1,
    );
    within(moment.at / toSI(1, 'in'), 12, 1e-9, beer, `inches in the plane, ${diameter} in pipe`);
  }
});

test('the two-to-one rule of plain bearings is that limit at a friction of 0.25', () => {
  const rule: Source = { source: 'trade paper on the 2:1 ratio (author withheld)', provenance: 'seen, derived' };
  for (const [mu, ratio] of [
    [0.25, 2],
    [0.15, 3.3333333333],
    [0.1, 5],
    [0.3, 1.6666666667],
  ] as const) {
    const length = 0.04;
    const surplus = (x: number) => guideFriction(bracket(length, 0.02, x), 0, 1, 0, 0, -1, mu) - 1;
    within(findRoot(surplus, 0, 10).at / length, ratio, 1e-9, rule, `μ ${mu}`);
  }
});

test('a slope and a slot hold by themselves from the tangent of their angle', () => {
  const hibbeler: Source = {
    source: 'R.C. Hibbeler, Statics, Example 8.2, p. 306: a crate on a slope of 25°',
    provenance: 'seen', // by an open companion that re-works it
  };
  // Outward the lever drives the pin along its slot: with the slot 25° off the line of pull it is that slope.
  const slot: Linkage = {
    kind: 'slot',
    homeX: 0.05 * Math.cos((25 * Math.PI) / 180),
    homeY: 0.05 * Math.sin((25 * Math.PI) / 180),
    directionX: 1,
    directionY: 0,
    sense: -1,
    armAngleExpected: 0,
  };
  const left = (mu: number) => connectionForce(slot, poseAt(slot, 0), 1, -1, { slot: mu, pins: 0 }).along;
  const holds = findRoot(left, 0, 1);
  assert.equal(holds.converged, true);
  agrees(holds.at, '0.466', hibbeler, 'coefficient');
});
