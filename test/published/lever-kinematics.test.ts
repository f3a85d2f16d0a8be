/** Levers, cranks and links: where they stand and how fast they go, against geometry and worked examples. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { connectionForce, linkBranch, linkToArm, pinBranch, poseAt, type Linkage } from '../../src/physics/linkage.ts';
import { agrees, within, type Source } from './printed.ts';

const degrees = Math.PI / 180;

test('the arc of a lever rises by its sagitta, and the best straight line runs through the middle of it', () => {
  const segment: Source = {
    source: "circle segment; Machinery's Handbook tabulates the same: s = r(1 - cos θ/2), chord 2 r sin θ/2",
    provenance: 'derived',
  };
  // Radius and whole swing, then rise, best distance of the line from the shaft, and travel, all in mm.
  for (const [r, swing, rise, offset, travel] of [
    [40, 30, 1.3629669484, 39.3185165258, 20.7055236082],
    [50, 45, 3.8060233744, 48.0969883128, 38.2683432365],
    [60, 60, 8.0384757729, 55.9807621135, 60.0],
  ] as const) {
    // A plain pin with room for the whole rise: the pin stays on its line, the hole on its arc.
    const line: Linkage = {
      kind: 'pin',
      homeX: travel / 2000,
      homeY: -offset / 1000,
      directionX: 1,
      directionY: 0,
      sense: 1,
      armAngleExpected: -60 * degrees,
      armRadius: r / 1000,
      length: 1e-9,
      armRubRadius: 0.004,
      pinRubRadius: 0.004,
      sideFreedom: 0,
      branch: pinBranch(1),
    };
    const roomy = rise / 1000;
    const [home, middle, out] = [0, travel / 2, travel].map((gap) => poseAt(line, gap / 1000, roomy));
    within((home.armAngle - out.armAngle) / degrees, swing, 1e-5, segment, 'swing');
    // Half the rise to either side of the line: the ends one way, the middle the other.
    within(home.rise * 1000, -rise / 2, 1e-5, segment, 'rise at home');
    within(out.rise * 1000, -rise / 2, 1e-5, segment, 'rise at the far end');
    within(middle.rise * 1000, rise / 2, 1e-5, segment, 'rise in the middle');
    // Any other distance of the line asks more of the pin at one end or in the middle.
    for (const aside of [-0.1, 0.1]) {
      const moved = { ...line, homeY: line.homeY + aside / 1000 };
      const worst = Math.max(...[0, travel / 2, travel].map((gap) => Math.abs(poseAt(moved, gap / 1000, roomy).rise)));
      assert.equal(worst > (rise / 2 + 0.099) / 1000, true);
    }
    // And with room for half the rise it just does not bind.
    const room = (share: number) =>
      [0, travel / 2, travel].some((gap) => poseAt(line, gap / 1000, share * roomy).binds);
    assert.equal(room(0.501), false);
    assert.equal(room(0.499), true);
  }
});

test('a crank drives its slider as the textbook says', () => {
  const khurmi: Source = {
    source: 'R.S. Khurmi, J.K. Gupta, Theory of Machines, Example 15.4, p. 528: r = 0.3 m, l = 1.5 m, 40°, 180 rpm',
    // An open companion re-works it; it prints the approximate velocity, the exact ones are recomputed.
    provenance: 'seen, derived',
  };
  const [r, l] = [0.3, 1.5];
  const travelled = 0.0826335863324;
  const line = { homeX: r + l - travelled, homeY: 0, directionX: 1, directionY: 0 };
  const branch = linkBranch(line, r, l, 40 * degrees, -1);
  const crank: Linkage = {
    kind: 'link',
    ...line,
    sense: -1,
    armAngleExpected: 40 * degrees,
    armRadius: r,
    length: l,
    armRubRadius: 0,
    pinRubRadius: 0,
    sideFreedom: 0,
    branch,
  };
  const pose = poseAt(crank, 0);
  within(pose.armAngle / degrees, 40, 1e-8, khurmi, 'crank, degrees');
  const speed = (2 * Math.PI * 180) / 60 / pose.rate;
  within(speed, 4.1964337194, 1e-8, khurmi, 'slider, m/s');
  // The printed 4.19 leaves out terms of order (r/l)³, 0.8 %.
  within(speed, 4.19, 4.19 * 0.2 ** 3, khurmi, 'slider by the approximation, m/s');
});

test('transmission angle: the share of a link that turns its arm is the sine of the angle between them', () => {
  const rule: Source = {
    source: 'usual rule of mechanism design, 40° at least and 45° or more preferred (e.g. Norton, Design of Machinery)',
    provenance: 'memory',
  };
  for (const [angle, share] of [
    [40, '0.6428'],
    [45, '0.7071'],
    [60, '0.8660'],
    [89.9, '1.0000'],
  ] as const) {
    const r = 0.05;
    const [ex, ey] = [Math.cos(angle * degrees), Math.sin(angle * degrees)];
    const line = { homeX: r + 0.08 * ex, homeY: 0.08 * ey, directionX: ex, directionY: ey };
    const link: Linkage = {
      kind: 'link',
      ...line,
      sense: 1,
      armAngleExpected: 0,
      armRadius: r,
      length: 0.08,
      armRubRadius: 0,
      pinRubRadius: 0,
      sideFreedom: 0,
      branch: linkBranch(line, r, 0.08, 0, 1),
    };
    const pose = poseAt(link, 0);
    agrees(pose.leverage / r, share, rule, `${angle}°`);
    within(linkToArm(link, pose) / degrees, angle, 1e-6, rule, 'angle between link and arm');
    const { along } = connectionForce(link, pose, 1, 1, { slot: 0, pins: 0 });
    agrees(1 / (along * r), share, rule, 'moment a newton of pull makes, over the arm');
  }
});
