/** Where a slot stands square to the pull the pin turns back in it: nothing jumps there. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { connectionForce, poseAt, type Linkage } from '../../src/physics/linkage.ts';

test('a slot square to the pull rubs as much as one that is all but square, from either side', () => {
  for (const sense of [1, -1] as const) {
    for (const direction of [1, -1] as const) {
      const linkage: Linkage = {
        kind: 'slot',
        homeX: 0,
        homeY: 0.045,
        directionX: -sense,
        directionY: 0,
        sense,
        armAngleExpected: Math.PI / 2,
      };
      const [before, square, after] = [-1e-12, 0, 1e-12].map((gap) => {
        const { along, across } = connectionForce(linkage, poseAt(linkage, gap), 0.8, direction, {
          slot: 0.2,
          pins: 0,
        });
        return { along, across: Math.abs(across) };
      });
      for (const one of [before, after]) {
        assert.ok(Math.abs(one.along - square.along) < 1e-9, `along ${one.along}, square ${square.along}`);
        assert.ok(Math.abs(one.across - square.across) < 1e-9, `across ${one.across}, square ${square.across}`);
      }
      // By hand: N = M/ρ, of which the slot rubs μ.
      assert.ok(Math.abs(square.across - (0.2 * 0.8) / 0.045) < 1e-9, `${square.across} N`);
    }
  }
});
