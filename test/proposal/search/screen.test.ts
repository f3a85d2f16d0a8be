/** The quick look is never harder on a layout than the assessment, and stands where the assessment stands. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import { rigOf } from '../../../src/assessment/rig.ts';
import { combination, combinations } from '../../../src/numerics/discrete-search.ts';
import { chosenAt, jobOf } from '../../../src/proposal/search/problem.ts';
import { PLACED } from '../../../src/proposal/search/axes.ts';
import { metricUnits } from '../../../src/units/quantity.ts';
import { demo } from '../../job/jobs.ts';
import { problemFor, solenoidJob } from './spaces.ts';

const SAMPLES = 40;

for (const name of ['railcar', 'short-stroke', 'binding-pin', 'pump-house']) {
  test(`${name}: value of the quick look against the assessment, ${SAMPLES} placed layouts of each connection`, () => {
    const problem = problemFor(solenoidJob(demo(name)));
    let compared = 0;
    let close = 0;
    for (const screen of problem.screens) {
      const total = combinations(screen.radices);
      let seen = 0;
      // A stride without a common divisor with the axes looks at all of them.
      for (let i = 0, number = 7; i < 400_000 && seen < SAMPLES; i++, number = (number + 7_368_787) % total) {
        const choices = combination(screen.radices, number);
        if (!(screen.bound!(choices, 3, -Infinity) > -Infinity)) continue;
        if (!(screen.bound!(choices, PLACED, -Infinity) > -1)) continue;
        const value = screen.value(choices, -Infinity);
        const job = jobOf(problem, chosenAt(screen, choices));
        const asked = problem.judge.valueOf(assess(job, metricUnits, 'at rest').findings);
        assert.ok(
          value >= asked - 2e-3 * Math.max(1, Math.abs(asked)),
          `${name} ${choices.join(' ')}: ${value} < ${asked}`,
        );
        if (Number.isFinite(asked) && Math.abs(value - asked) < 0.25) close++;
        seen++;
        compared++;
      }
    }
    assert.ok(compared >= SAMPLES, `only ${compared} layouts could be compared`);
    assert.ok(close > compared / 5, `the quick look says hardly anything: ${close} of ${compared} are near`);
  });
}

test('the linkage of a layout is the one that the job with its changes has', () => {
  for (const name of ['railcar', 'short-stroke', 'binding-pin', 'pump-house']) {
    const problem = problemFor(solenoidJob(demo(name)));
    for (const screen of problem.screens) {
      const { axes, radices } = screen;
      for (const number of [0, 12_345, 54_321]) {
        const choices = combination(radices, number % combinations(radices));
        const layout = screen.layoutOf(choices);
        const { linkage, lever } = rigOf(jobOf(problem, { layout, spring: 0, electric: 0 }));
        assert.ok(Math.abs(linkage.homeX - layout.x) < 1e-6 && Math.abs(linkage.homeY - layout.y) < 1e-6, axes.kind);
        const turned = Math.atan2(linkage.directionY, linkage.directionX) - layout.direction;
        assert.ok(Math.abs(Math.sin(turned)) < 1e-5, `${axes.kind}: ${turned}`);
        assert.ok(Math.abs(lever.armMinusShaft - axes.armMinusShaft[choices[0]]) < 1e-9, axes.kind);
        if (linkage.kind !== 'slot') {
          assert.ok(Math.abs(linkage.armRadius - layout.radius) < 1e-6, axes.kind);
          assert.ok(Math.abs(linkage.length - layout.length) < 1e-6, axes.kind);
        }
      }
    }
  }
});
