/**
 * Where everything stands, against layouts that were built forwards (layouts.ts), and how it moves, against differences:
 * the rates of arm and link, and by virtual work the force along the axis where nothing rubs.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { connectionForce, linkToArm, linkToPull, poseAt, type Pose } from '../../src/physics/linkage.ts';
import { cross, dot, length, plus, times, towards } from './equilibrium.ts';
import { layouts, type Layout } from './layouts.ts';

const kinds = ['slot', 'link', 'chain', 'pin'] as const;

/** How far src may leave a plain pin from where it stands, as a share of its clearance: it stops after six rounds. */
const PIN_CLOSES = 1.5e-3;

function turn(angle: number, from: number): number {
  return Math.atan2(Math.sin(angle - from), Math.cos(angle - from));
}

for (const [seed, kind] of kinds.entries()) {
  test(`${kind}: found from its home position, it stands as it was built`, () => {
    fc.assert(
      fc.property(layouts(kind), ({ linkage, gap, rock, joint, armAngle }) => {
        const pose = poseAt(linkage, gap, rock);
        assert.equal(pose.assembled && !pose.binds, true);
        assert.ok(pose.rate > 0 && pose.leverage > 0, 'turns the wanted way');
        const off = Math.abs(turn(pose.armAngle, armAngle));
        if (joint.kind === 'pin') {
          assert.ok(linkage.kind === 'pin', 'as drawn');
          assert.ok(off * linkage.armRadius <= PIN_CLOSES * linkage.length, `off by ${off} rad`);
          assert.equal(length([pose.linkX - joint.contact[0], pose.linkY - joint.contact[1], 0]) <= PIN_CLOSES, true);
          return;
        }
        assert.ok(off < 1e-10, `arm off by ${off} rad`);
        // Whole turns: within half a turn of where it is expected at home, carried there by the motion.
        assert.equal(Math.abs(pose.armAngle - linkage.armAngleExpected) <= Math.PI, true);
        if (joint.kind === 'slot') return assert.equal(Math.abs(pose.radius - length(joint.pin)) < 1e-15, true);
        const along = plus(joint.pin, times(-1, joint.hole));
        const e = times(1 / length(along), along);
        assert.equal(length([pose.linkX - e[0], pose.linkY - e[1], 0]) < 1e-9, true);
        assert.ok(linkage.kind !== 'slot', 'as drawn');
        assert.equal(
          Math.abs(Math.sin(linkToArm(linkage, pose)) - Math.abs(cross(towards(armAngle), e)[2])) < 1e-9,
          true,
        );
        const u = [linkage.directionX, linkage.directionY, 0] as const;
        assert.equal(Math.abs(Math.cos(linkToPull(linkage, pose)) - Math.abs(dot(u, e))) < 1e-9, true);
      }),
      { numRuns: 300, seed: seed + 1 },
    );
  });
}

/** d/d(travel) by central differences, the error of order h² taken out (Richardson). Travel grows as the gap falls. */
function slope(f: (gap: number) => number, gap: number): number {
  const central = (h: number) => (f(gap - h) - f(gap + h)) / (2 * h);
  const h = 2e-5;
  return (4 * central(h) - central(2 * h)) / 3;
}

const rateTolerance = (kind: string) => (kind === 'pin' ? 5e-3 : 1e-8);

for (const [seed, kind] of kinds.entries()) {
  test(`${kind}: rates are the slopes of the poses, and without friction the force is moment times rate (virtual work)`, () => {
    fc.assert(
      fc.property(layouts(kind), (layout: Layout) => {
        const { linkage, gap, rock, moment, direction, muGuide } = layout;
        const at = (other: number): Pose => poseAt(linkage, other, rock);
        const pose = at(gap);
        if ([gap - 4e-5, gap + 4e-5].some((other) => !at(other).assembled || steep(at(other)) || steep(pose))) return;
        const rate = slope((other) => turn(at(other).armAngle, pose.armAngle), gap);
        const allowed = rateTolerance(kind);
        const scale = 1 / pose.radius;
        assert.ok(
          Math.abs(linkage.sense * rate - pose.rate) <= allowed * Math.max(scale, pose.rate),
          `rate ${pose.rate}`,
        );
        if (linkage.kind === 'link' || linkage.kind === 'chain') {
          const from = Math.atan2(pose.linkY, pose.linkX);
          const linkRate = slope((other) => turn(Math.atan2(at(other).linkY, at(other).linkX), from), gap);
          assert.ok(Math.abs(linkRate - pose.linkRate) <= 1e-7 / linkage.length, `link rate ${pose.linkRate}`);
        }
        const smooth = { slot: 0, pins: 0 };
        const { along, across, couple } = connectionForce(linkage, pose, moment, direction, smooth);
        assert.equal(Math.abs(couple), 0);
        assert.ok(Math.abs(along / (moment * linkage.sense * rate) - 1) <= 2 * allowed, 'virtual work along');
        assert.equal(Number.isFinite(across) && muGuide > 0, true);
        // And sideways: a small shift of the whole line of pull along v turns the lever by across × shift / moment.
        const shifted = (shift: number) => ({
          ...linkage,
          homeX: linkage.homeX - shift * linkage.directionY,
          homeY: linkage.homeY + shift * linkage.directionX,
        });
        if (kind === 'pin') return;
        const sideways = slope((other) => turn(poseAt(shifted(gap - other), gap).armAngle, pose.armAngle), gap);
        // The connection works on the pin with (-along u + across v) and on the lever against the moment.
        assert.ok(
          Math.abs(across + linkage.sense * moment * sideways) <= 1e-7 * Math.hypot(along, across),
          `virtual work across: ${across} against ${-linkage.sense * moment * sideways}`,
        );
      }),
      { numRuns: 300, seed: seed + 21 },
    );
  });
}

/** A plain pin whose flank is as steep as it may be, or whose rise the rock just takes up: its motion has a corner there. */
function steep(pose: Pose): boolean {
  return pose.binds;
}

test('the rise of a plain pin grows until it binds, and it binds where the clearance and the rock are used up', () => {
  fc.assert(
    fc.property(layouts('pin'), ({ linkage, gap, rock }) => {
      assert.ok(linkage.kind === 'pin', 'as drawn');
      const moved = (aside: number) => ({
        ...linkage,
        homeX: linkage.homeX - aside * linkage.directionY,
        homeY: linkage.homeY + aside * linkage.directionX,
      });
      const pose = poseAt(linkage, gap, rock);
      const freedom = linkage.sideFreedom + rock;
      for (const side of [1, -1]) {
        const toLimit = side * freedom - pose.rise;
        // A step sideways changes the flank, which moves the hole along its arc: a little less than the step is left.
        assert.equal(poseAt(moved(toLimit - side * 0.7 * linkage.length), gap, rock).binds, false);
        assert.equal(poseAt(moved(toLimit + side * 0.7 * linkage.length), gap, rock).binds, true);
        const held = connectionForce(linkage, poseAt(moved(toLimit + side * 0.7 * linkage.length), gap, rock), 1, 1, {
          slot: 0,
          pins: 0.1,
        });
        assert.equal(held.along, Infinity);
      }
    }),
    { numRuns: 200, seed: 41 },
  );
});

test('parts that cannot reach each other are said to be apart, with no number', () => {
  fc.assert(
    fc.property(layouts('link', 'chain'), ({ linkage }) => {
      assert.ok(linkage.kind !== 'slot', 'as drawn');
      const reach = linkage.armRadius + linkage.length;
      const far = { ...linkage, homeX: 1.001 * reach, homeY: 0, directionX: 1, directionY: 0 };
      const pose = poseAt(far, 0);
      assert.equal(pose.assembled, false);
      assert.equal(Number.isNaN(pose.armAngle) && Number.isNaN(pose.rate), true);
      assert.equal(poseAt({ ...far, homeX: 0.999 * reach }, 0).assembled, true);
    }),
    { numRuns: 50, seed: 42 },
  );
});
