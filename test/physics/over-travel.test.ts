/** An over-travel spring at work: the lever stands on its stop, and the plunger goes on against the spring alone. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { heldForce, heldPose, poseAt } from '../../src/physics/linkage.ts';
import { dot, length, plus, times, towards, turned, type Vector } from './equilibrium.ts';
import { layouts } from './layouts.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);

test('link and chain: held at its arm, the spring in them stretches by as much as the pin draws away', () => {
  fc.assert(
    fc.property(layouts('link', 'chain'), share, ({ linkage, gap, armAngle, joint }, further) => {
      assert.ok((linkage.kind === 'link' || linkage.kind === 'chain') && joint.kind === 'link', 'as drawn');
      const stop = heldPose(linkage, armAngle, gap);
      assert.ok(Math.abs(stop.stretch) < 1e-12, 'not stretched where the lever meets its stop');
      const at = (other: number) => heldPose(linkage, armAngle, other);
      const on = gap - 0.004 * further;
      const { pose, stretch } = at(on);
      const u: Vector = [linkage.directionX, linkage.directionY, 0];
      const pin = plus(joint.pin, times(gap - on, u));
      const along = plus(pin, times(-1, joint.hole));
      assert.equal(Math.abs(length(along) - linkage.length - stretch) < 1e-12, true);
      assert.equal(
        Math.hypot(pose.linkX * length(along) - along[0], pose.linkY * length(along) - along[1]) < 1e-12,
        true,
      );
      assert.equal(pose.rate, 0);
      // Virtual work: the axial force is the slope of the energy stored, F0 s + k s²/2, over the travel.
      const [F0, k] = [40, 3000];
      const energy = (other: number) => F0 * at(other).stretch + 0.5 * k * at(other).stretch ** 2;
      const h = 1e-5;
      const slope = (energy(on - h) - energy(on + h)) / (2 * h);
      const force = heldForce(linkage, pose, F0 + k * stretch);
      assert.ok(Math.abs(force.along - slope) < 1e-4, `${force.along}, ${slope}`);
      // The whole force lies along the link, towards the arm.
      const onPin = plus(times(-force.along, u), times(force.across, turned(u)));
      assert.equal(length(plus(onPin, times((F0 + k * stretch) / length(along), along))) < 1e-9, true);
    }),
    { numRuns: 200, seed: 1 },
  );
});

test('slot: the spring acts along the plunger, and the wall of the slot takes what is not square to it', () => {
  fc.assert(
    fc.property(layouts('slot'), share, ({ linkage, gap, armAngle }, tension) => {
      const u: Vector = [linkage.directionX, linkage.directionY, 0];
      const { along, across, couple } = heldForce(linkage, poseAt(linkage, gap), 50 * tension);
      assert.equal(along, 50 * tension);
      assert.equal(couple, 0);
      const onPin = plus(times(-along, u), times(across, turned(u)));
      // A smooth wall presses square to the arm.
      assert.equal(Math.abs(dot(onPin, towards(armAngle))) < 1e-9 * (1 + Math.abs(across)), true);
    }),
    { numRuns: 200, seed: 2 },
  );
  fc.assert(
    fc.property(layouts('slot'), ({ linkage, gap }) => {
      const wrongWay = { ...linkage, sense: linkage.sense === 1 ? (-1 as const) : (1 as const) };
      assert.equal(heldForce(wrongWay, poseAt(wrongWay, gap), 10).along, Infinity);
    }),
    { numRuns: 20, seed: 3 },
  );
});

test('plain pin: the spring acts along the plunger, as its travel is counted', () => {
  fc.assert(
    fc.property(layouts('pin'), ({ linkage, gap, rock }) => {
      // stationAt counts the stretch of a plain pin's spring along the plunger, so by virtual work that is its force.
      const { along } = heldForce(linkage, poseAt(linkage, gap, rock), 50);
      assert.ok(Math.abs(along - 50) < 1e-9, `${along}`);
    }),
    { numRuns: 50, seed: 4 },
  );
});
