/**
 * Known optima of placement: the search finds them from the outside.
 *
 * [1] Circle segment: sagitta r(1 - cos θ/2), chord 2 r sin θ/2, best line of a straight pull midway in the sagitta, at
 *     r(1 + cos θ/2)/2 from the pivot: Machinery's Handbook, table of circular segments; the rule of the middle follows.
 * [2] R. S. Khurmi, J. K. Gupta, Theory of Machines, Example 15.4, p. 528: crank 0.3 m, rod 1.5 m, 180 rpm. The piston
 *     is fastest where its acceleration is zero, 79.27° from the inner dead centre by the two terms of the series.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { refineWithin } from '../../src/numerics/discrete-search-refine.ts';
import { poseAt, type LinkLinkage } from '../../src/physics/linkage.ts';
import { jobOf } from '../../src/proposal/search/problem.ts';
import { rigOf } from '../../src/assessment/rig.ts';
import { relativeMargin, type Finding } from '../../src/assessment/finding.ts';
import type { Judge } from '../../src/proposal/search/judge.ts';
import { layoutOf } from '../../src/proposal/search/layout.ts';
import { bestOf } from '../../src/proposal/search/run-state.ts';
import { fromSI } from '../../src/units/quantity.ts';
import { changed, demo } from '../job/jobs.ts';
import { problemFor, searched, solenoidJob } from '../proposal/search/spaces.ts';

const RADIAN = Math.PI / 180;

/** A judge who asks nothing but the room of the pin. */
function onlyBinding(judge: Judge): Judge {
  const isAsked = ({ id }: Finding) => id === 'does-not-bind';
  return {
    ...judge,
    marginOf: (finding) => (isAsked(finding) ? relativeMargin(finding) : null),
    decidingOf: (findings) => findings.find(isAsked) ?? null,
    valueOf: (findings) => relativeMargin(findings.find(isAsked)!),
  };
}

/** [1]; offsets in mm as given, to a thousandth. */
const swings = [
  { arm: 40, swing: 30, sagitta: 1.363, offset: 39.3185, travel: 20.7055 },
  { arm: 50, swing: 45, sagitta: 3.806, offset: 48.097, travel: 38.2683 },
  { arm: 60, swing: 60, sagitta: 8.0385, offset: 55.9808, travel: 60 },
] as const;

for (const { arm, swing, sagitta, offset, travel } of swings) {
  test(`arm ${arm} mm, swing ${swing}°: the bracket that a search finds pulls along the middle of the arc's rise [1]`, () => {
    // A plain pin with just room enough: what decides is the rise of the arc beside the line of pull.
    const clearance = sagitta;
    const half = swing / 2;
    // At both ends the hole lies half the sagitta beside the line, and the pin that much less ahead of it.
    const lead = Math.sqrt(clearance ** 2 - (sagitta / 2) ** 2);
    const from = 90 - half;
    const to = 90 + half;
    const job = solenoidJob(
      changed(demo('binding-pin'), {
        'survey.lever.runAngle': `${from + 1}°`,
        'survey.lever.runStopAngle': `${from - 5}°`,
        'survey.lever.noFuelAngle': `${to - 4}°`,
        'survey.lever.hardStopAngle': `${to + 4}°`,
        'survey.lever.armOffset': '0°',
        'survey.lever.hubPositions': 1,
        'survey.lever.lash': '0°',
        'means.plunger.stroke': `${travel} mm`,
        'means.plunger.boreClearance': '0 mm',
        'layout.hubPosition': 0,
        'layout.pullDirection': '180°',
        'layout.homePin': { x: `${-(travel / 2 + lead)} mm`, y: `${offset - 1.7} mm` },
        'layout.connection': {
          kind: 'plain pin',
          armRadius: `${arm} mm`,
          pinDiameter: '8 mm',
          holeDiameter: `${8 + 2 * clearance} mm`,
        },
        space: {
          bracket: {
            x: { from: `${-(travel / 2 + lead)} mm`, to: `${-(travel / 2 + lead)} mm` },
            y: { from: `${offset - 3} mm`, to: `${offset + 3} mm` },
          },
          direction: { from: '180°', to: '180°' },
          connections: ['plain pin'],
          armHoles: [`${arm} mm`],
        },
      }),
    );
    const rest = problemFor(job);
    // The rise alone: the other margins of this made-up lever say nothing of the line of pull.
    const rise = (y: number): number => {
      const { linkage } = rigOf(jobOf(rest, { layout: { ...layoutOf(job)!, y }, spring: 0, electric: 0 }));
      const gaps = Array.from({ length: 41 }, (_, i) => ((travel / 1000) * i) / 40);
      return -Math.max(...gaps.map((gap) => Math.abs(poseAt(linkage, gap).rise)));
    };
    const found = refineWithin(([y]) => rise(y), [(offset - 1.7) / 1000], [[(offset - 3) / 1000, (offset + 3) / 1000]]);
    assert.ok(
      Math.abs(fromSI(found.at[0], 'mm') - offset) < 0.01,
      `the line is ${fromSI(found.at[0], 'mm')} mm from the pivot, the middle of the rise is ${offset}`,
    );
    assert.ok(Math.abs(fromSI(-found.value, 'mm') - sagitta / 2) < 0.005, `${fromSI(-found.value, 'mm')} mm of rise`);
    const best = bestOf(searched({ ...rest, judge: onlyBinding(rest.judge) }));
    assert.ok(best !== null, 'the search found nothing');
    // It sets brackets in steps of half a millimetre.
    const y = fromSI(best.layout.y, 'mm');
    assert.ok(Math.abs(y - offset) <= 0.5 + 1e-9, `the search puts the line ${y} mm from the pivot, best is ${offset}`);
    assert.ok(jobOf(rest, best).layout.connection.kind === 'plain pin');
  });
}

test('slider-crank: the search finds the fastest place of the stroke at 79.27° [2]', () => {
  const n = 1.5 / 0.3;
  const speed = (angle: number) => Math.sin(angle) + Math.sin(2 * angle) / (2 * n);
  const found = refineWithin(([angle]) => speed(angle), [1], [[0.2, 2.5]]);
  assert.ok(Math.abs(found.at[0] / RADIAN - 79.27) < 0.02, `${found.at[0] / RADIAN}°`);
});

test('slider-crank by the linkage of this house: fastest where the exact acceleration is zero [2]', () => {
  // The crank turns clockwise towards home, the rod leads to the right.
  const crank: LinkLinkage = {
    kind: 'link',
    homeX: 1.8,
    homeY: 0,
    directionX: 1,
    directionY: 0,
    sense: -1,
    armAngleExpected: 0,
    armRadius: 0.3,
    length: 1.5,
    armRubRadius: 0,
    pinRubRadius: 0,
    sideFreedom: 0,
    branch: 1,
  };
  // v at 40° and 180 rpm as printed, 4.19 m/s by the series and 4.196 exactly.
  const angle = 40 * RADIAN;
  const gap = 0.3 * (1 - Math.cos(angle)) + 1.5 * (1 - Math.sqrt(1 - (Math.sin(angle) / 5) ** 2));
  assert.ok(Math.abs(gap - 0.0826336) < 1e-5, `${gap}`);
  const { rate, armAngle } = poseAt(crank, gap);
  assert.ok(Math.abs(Math.abs(armAngle) / RADIAN - 40) < 1e-6, `${armAngle / RADIAN}`);
  assert.ok(Math.abs(((180 / 60) * 2 * Math.PI) / rate - 4.1964) < 0.005, `${rate}`);
  const found = refineWithin(([at]) => 1 / poseAt(crank, at).rate, [0.1], [[0.01, 0.5]]);
  const fastest = Math.abs(poseAt(crank, found.at[0]).armAngle);
  // The exact speed over the crank's, whose greatest is found by halving.
  const exact = (a: number) => 0.3 * Math.sin(a) + (0.3 * Math.sin(a) * Math.cos(a)) / Math.sqrt(25 - Math.sin(a) ** 2);
  let [low, high] = [70 * RADIAN, 85 * RADIAN];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (exact(middle + 1e-5) > exact(middle - 1e-5)) low = middle;
    else high = middle;
  }
  assert.ok(Math.abs(fastest - low) < 1e-3, `${fastest / RADIAN}° against ${low / RADIAN}°`);
});
