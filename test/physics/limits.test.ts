/** Limits and symmetries that hold whatever the formula: no friction, long links, short links, mirrors, turns, scales. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { engaged, guideFriction, overhangAt, type Guide } from '../../src/physics/guide.ts';
import { connectionForce, linkBranch, poseAt, type Linkage, type Pose } from '../../src/physics/linkage.ts';
import { forceOut, lockRatio, pullNeeded, type PlungerLoads } from '../../src/physics/plunger.ts';
import { layouts, type Layout } from './layouts.ts';

const all = () => layouts('slot', 'link', 'chain', 'pin');
const loads: PlungerLoads = { spring: 5, weightAlong: 1, weightAcross: 2, vibration: 0.5, endSwitch: 3, sticking: 4 };

function close(a: number, b: number, relative: number, what: string): void {
  if (a === b || (Number.isNaN(a) && Number.isNaN(b))) return;
  assert.ok(Math.abs(a - b) <= relative * Math.max(1, Math.abs(a), Math.abs(b)), `${what}: ${a} and ${b}`);
}

/** Everything that the plunger feels, both ways; across and couple change sign in a mirror and are taken without it. */
function felt({ linkage, guide, gap, rock, moment, muJoint, muGuide }: Layout): Record<string, number> {
  const friction = { slot: muJoint, pins: muJoint, guide: muGuide };
  const pose = poseAt(linkage, gap, rock);
  const inward = pullNeeded(linkage, guide, pose, moment, friction, loads);
  const outward = forceOut(linkage, guide, pose, 1.2 * moment, moment, friction, loads);
  return {
    rate: pose.rate,
    needed: inward.needed,
    side: Math.abs(inward.side),
    net: outward.net,
    drive: outward.drive,
    sideOut: Math.abs(outward.side),
    lockRatio: Math.min(1e6, lockRatio(linkage, guide, pose, friction)),
  };
}

function same(a: Layout, b: Layout, relative = 1e-9): void {
  const [left, right] = [felt(a), felt(b)];
  for (const [what, value] of Object.entries(left)) close(value, right[what], relative, what);
}

const opposite = (sign: 1 | -1): 1 | -1 => (sign === 1 ? -1 : 1);

function mirrored(linkage: Linkage): Linkage {
  const placed = {
    homeY: -linkage.homeY,
    directionY: -linkage.directionY,
    sense: opposite(linkage.sense),
    armAngleExpected: -linkage.armAngleExpected,
  };
  return linkage.kind === 'slot'
    ? { ...linkage, ...placed }
    : { ...linkage, ...placed, branch: opposite(linkage.branch) };
}

function rotated(linkage: Linkage, by: number): Linkage {
  const [c, s] = [Math.cos(by), Math.sin(by)];
  return {
    ...linkage,
    homeX: c * linkage.homeX - s * linkage.homeY,
    homeY: s * linkage.homeX + c * linkage.homeY,
    directionX: c * linkage.directionX - s * linkage.directionY,
    directionY: s * linkage.directionX + c * linkage.directionY,
    armAngleExpected: linkage.armAngleExpected + by,
  };
}

test('a layout in a mirror feels the same', () => {
  fc.assert(
    fc.property(all(), (layout) => same(layout, { ...layout, linkage: mirrored(layout.linkage) })),
    { numRuns: 300, seed: 1 },
  );
});

test('a layout turned about the shaft feels the same', () => {
  fc.assert(
    fc.property(all(), fc.nat(628), (layout, hundredths) => {
      same(layout, { ...layout, linkage: rotated(layout.linkage, hundredths / 100) }, 1e-8);
    }),
    { numRuns: 300, seed: 2 },
  );
});

test('all lengths and the moment twice as large: forces and ratios stay, the rate halves', () => {
  fc.assert(
    fc.property(layouts('slot', 'link', 'chain'), (layout) => {
      const { linkage, guide } = layout;
      const place = { homeX: 2 * linkage.homeX, homeY: 2 * linkage.homeY };
      const large: Layout = {
        ...layout,
        gap: 2 * layout.gap,
        moment: 2 * layout.moment,
        linkage:
          linkage.kind === 'slot'
            ? { ...linkage, ...place }
            : {
                ...linkage,
                ...place,
                armRadius: 2 * linkage.armRadius,
                length: 2 * linkage.length,
                armRubRadius: 2 * linkage.armRubRadius,
                pinRubRadius: 2 * linkage.pinRubRadius,
              },
        guide: {
          ...guide,
          lengthAtHome: 2 * guide.lengthAtHome,
          overhang: 2 * guide.overhang,
          stroke: 2 * guide.stroke,
          diameter: 2 * guide.diameter,
          planeOffset: 2 * guide.planeOffset,
        },
      };
      const [small, double] = [felt(layout), felt(large)];
      for (const [what, value] of Object.entries(small)) {
        close(what === 'rate' ? value / 2 : value, double[what], 1e-9, what);
      }
    }),
    { numRuns: 200, seed: 3 },
  );
});

test('forces of the connection grow with the moment and change no direction', () => {
  fc.assert(
    fc.property(all(), ({ linkage, gap, rock, moment, direction, muJoint }) => {
      const pose = poseAt(linkage, gap, rock);
      const friction = { slot: muJoint, pins: muJoint };
      const once = connectionForce(linkage, pose, moment, direction, friction);
      const thrice = connectionForce(linkage, pose, 3 * moment, direction, friction);
      for (const part of ['along', 'across', 'couple', 'tension'] as const) {
        close(3 * once[part], thrice[part], 1e-12, part);
      }
      const nothing = connectionForce(linkage, pose, 0, direction, friction);
      if (Number.isFinite(once.along)) assert.equal(Math.abs(nothing.along) + Math.abs(nothing.across), 0);
    }),
    { numRuns: 200, seed: 4 },
  );
});

test('friction never helps: the pull needed is least without it, and what comes out falls with all of it', () => {
  // The pull itself need not rise with friction in the slot: that friction also straightens the force on the guide.
  fc.assert(
    fc.property(layouts('slot', 'link', 'chain'), (layout) => {
      if (layout.moment < 0) return;
      const none = felt({ ...layout, muJoint: 0, muGuide: 0 });
      const half = felt({ ...layout, muJoint: layout.muJoint / 2, muGuide: layout.muGuide / 2 });
      const full = felt(layout);
      assert.ok(none['needed'] <= half['needed'] + 1e-12 && none['needed'] <= full['needed'] + 1e-12, 'pull needed');
      assert.ok(none['net'] >= half['net'] && half['net'] >= full['net'] - 1e-12, 'force out');
    }),
    { numRuns: 300, seed: 5 },
  );
});

test('a push rod is a pull plunger whose friction couples turn the other way', () => {
  fc.assert(
    fc.property(all(), ({ linkage, guide, gap, rock, moment, direction, muJoint, muGuide }) => {
      const pose = poseAt(linkage, gap, rock);
      const { along, across, couple } = connectionForce(linkage, pose, moment, direction, {
        slot: muJoint,
        pins: muJoint,
      });
      if (along === Infinity) return;
      const [b, c] = [engaged(guide, gap), overhangAt(guide, gap)];
      const pull: Guide = { ...guide, action: 'pull', lengthAtHome: b + gap, overhang: c - gap };
      const push: Guide = { ...guide, action: 'push', lengthAtHome: b, overhang: c - guide.stroke + gap };
      close(
        guideFriction(push, gap, along, across, couple, direction, muGuide),
        guideFriction(pull, gap, along, across, -couple, direction === 1 ? -1 : 1, muGuide),
        1e-9,
        'guide friction',
      );
    }),
    { numRuns: 200, seed: 6 },
  );
});

/** Largest error at each of several sizes of a small number, and the order with which it vanishes. */
function orderOf(errors: readonly (readonly [size: number, error: number])[]): number {
  const [first, last] = [errors[0], errors[errors.length - 1]];
  return Math.log(first[1] / last[1]) / Math.log(first[0] / last[0]);
}

test('pinned link, little friction: the power lost in two turning pins, to second order', () => {
  // Power balance, any statics text on axle friction: F = M α' + |T| r μ (|β' - α'| + |β'|), T = M / |A × e|.
  fc.assert(
    fc.property(layouts('link'), ({ linkage, gap, moment }) => {
      assert.ok(linkage.kind === 'link', 'as drawn');
      const pose = poseAt(linkage, gap);
      const armTurns = linkage.sense * pose.rate;
      const turns = Math.abs(pose.linkRate - armTurns) + Math.abs(pose.linkRate);
      const M = Math.abs(moment);
      for (const direction of [1, -1] as const) {
        const errors = [1e-3, 1e-4].map((mu) => {
          const lost = (M / pose.leverage) * linkage.armRubRadius * mu * turns;
          const { along } = connectionForce(linkage, pose, M, direction, { slot: 0, pins: mu });
          return [mu, Math.abs(along - (M * pose.rate + direction * lost)) + 1e-13 * M * pose.rate] as const;
        });
        const relative = errors[0][1] / (M * pose.rate);
        assert.ok(relative < 1e-4 && (relative < 1e-9 || orderOf(errors) > 1.8), `order ${orderOf(errors)}`);
      }
    }),
    { numRuns: 200, seed: 7 },
  );
});

test('a link without end is a straight pull at the arm hole: the difference goes as one over its length', () => {
  fc.assert(
    fc.property(layouts('link'), ({ linkage, gap, moment }) => {
      assert.ok(linkage.kind === 'link', 'as drawn');
      const pose = poseAt(linkage, gap);
      const { armRadius: r, directionX: ux, directionY: uy, sense } = linkage;
      const [ax, ay] = [r * Math.cos(pose.armAngle), r * Math.sin(pose.armAngle)];
      const square = sense * (ax * uy - ay * ux);
      const travel = 0.1 * r;
      if (square < 0.3 * r || Math.abs(ax * ux + ay * uy + travel) > 0.95 * r) return;
      const errors = [10, 1000].map((length) => {
        // In line with the pull at this arm angle; then the plunger goes on by `travel`.
        const line = { homeX: ax + length * ux, homeY: ay + length * uy, directionX: ux, directionY: uy };
        const branch = linkBranch(line, r, length, pose.armAngle, sense);
        const long = poseAt({ ...linkage, ...line, length, branch, armAngleExpected: pose.armAngle }, -travel);
        // The arm hole of an endless link moves by the travel along u and as the circle wants across it.
        const alongU = ax * ux + ay * uy + travel;
        const acrossU = -sense * Math.sqrt(r * r - alongU * alongU);
        const endless = Math.atan2(alongU * uy + acrossU * ux, alongU * ux - acrossU * uy);
        const turned = Math.abs(Math.sin(long.armAngle - endless));
        const force = connectionForce({ ...linkage, ...line, length }, long, moment, 1, { slot: 0, pins: 0 });
        const straight = moment / (sense * r * Math.sin(Math.atan2(uy, ux) - long.armAngle));
        return [1 / length, turned + Math.abs(force.along / straight - 1) + 1e-15] as const;
      });
      assert.ok(errors[1][1] < 1e-3 && orderOf(errors) > 0.9, `order ${orderOf(errors)}`);
    }),
    { numRuns: 100, seed: 8 },
  );
});

test('a plain pin without rock is a link as long as its clearance', () => {
  fc.assert(
    fc.property(layouts('pin'), ({ linkage, gap, moment }) => {
      assert.ok(linkage.kind === 'pin', 'as drawn');
      const pin = poseAt(linkage, gap, 0);
      if (pin.binds) return;
      const steepest = Math.abs(pin.rise) / linkage.length;
      if (steepest > 0.7) return;
      const link: Linkage = { ...linkage, kind: 'link' };
      // Of the two ways to assemble, the one that pulls.
      const poses = ([1, -1] as const).map((branch): Pose => poseAt({ ...link, branch }, gap));
      const pulls = poses.find((one) => one.linkX * link.directionX + one.linkY * link.directionY > 0);
      assert.ok(pulls !== undefined, 'one of the two pulls');
      assert.equal(
        Math.abs(Math.sin(pulls.armAngle - pin.armAngle)) * linkage.armRadius < 1.5e-3 * linkage.length,
        true,
      );
      const smooth = { slot: 0, pins: 0 };
      const [a, b] = [pin, pulls].map((pose) => connectionForce(link, pose, moment, 1, smooth));
      close(a.along, b.along, 2e-3, 'along');
    }),
    { numRuns: 200, seed: 9 },
  );
});

test('slotted lever in a thin guide: the closed form of the pull and of the force left for going out', () => {
  // By hand from the two reactions of a guide: N = M/ρ, t = |B·u|/h, k = 1 + 2c/b,
  // F = (N h/ρ)[1 + μs t + μg k |t - μs|], Fout = (N h/ρ)[1 - μs t - μg k (t + μs)].
  fc.assert(
    fc.property(layouts('slot'), ({ linkage, guide, gap, moment, muJoint: s, muGuide: g }) => {
      const thin = { ...guide, diameter: 0, planeOffset: 0 };
      const pose = poseAt(linkage, gap);
      const M = Math.abs(moment);
      const h = pose.leverage;
      const t = Math.abs(pose.alongSlot) / h;
      const k = 1 + (2 * overhangAt(guide, gap)) / engaged(guide, gap);
      const none: PlungerLoads = {
        ...loads,
        spring: 0,
        weightAlong: 0,
        weightAcross: 0,
        vibration: 0,
        endSwitch: 0,
        sticking: 0,
      };
      const friction = { slot: s, pins: 0, guide: g };
      const base = (M * h) / pose.radius ** 2;
      // Inward the friction in the slot works with or against the pull by which way the pin slides along the arm.
      const slides = Math.sign(pose.alongSlot);
      const side = Math.abs(pose.alongSlot / h - slides * s);
      const { needed } = pullNeeded(linkage, thin, pose, M, friction, none);
      close(needed / base, 1 + s * t + g * k * side, 1e-12, 'pull');
      assert.equal(Math.abs(side - Math.abs(t - s)) < 1e-12, true);
      const { net } = forceOut(linkage, thin, pose, M, M, friction, none);
      close(net / base, 1 - s * t - g * k * (t + s), 1e-12, 'force out');
      close(lockRatio(linkage, thin, pose, friction), 1 / (s * t + g * k * (t + s)), 1e-9, 'lock ratio');
    }),
    { numRuns: 300, seed: 10 },
  );
});
