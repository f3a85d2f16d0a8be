import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../../src/physics/domain-error.ts';
import {
  bowsOutAt,
  coreDrawnIn,
  leverPose,
  middleOfSwing,
  pressOnMouth,
  turnBetween,
  type LeverEnd,
} from '../../../src/physics/cable/lever-end.ts';
import { between } from './random-route.ts';

const close = (a: number, b: number, within: number, what: string) =>
  assert.ok(Math.abs(a - b) <= within, `${what}: ${a} and ${b}`);
const places = fc.record({
  conduitX: between(-0.3, 0.3),
  conduitY: between(-0.3, 0.3),
  radius: between(0.02, 0.1),
  angle: between(-3, 3),
});
const shaftAngles = between(-3, 3);
const seed = { seed: 20261125, numRuns: 200 };
/** A conduit end that the lever does not meet. */
const isClear = ({ conduitX, conduitY, radius }: LeverEnd) => Math.abs(Math.hypot(conduitX, conduitY) - radius) > 0.01;

test('virtual work: the arm of the pull is the core drawn in for each radian', () => {
  fc.assert(
    fc.property(places.filter(isClear), shaftAngles, (end, angle) => {
      const h = 1e-5;
      const rate = coreDrawnIn(end, angle - h, angle + h) / (2 * h);
      close(leverPose(end, angle).arm, rate, 1e-7, 'arm and rate');
    }),
    seed,
  );
});

test('square to the arm the pull has the whole radius, in line with it none', () => {
  const end: LeverEnd = { conduitX: -0.2, conduitY: 0.05, radius: 0.05, angle: 0 };
  close(leverPose(end, Math.PI / 2).arm, 0.05, 1e-12, 'square');
  const inLine = Math.atan2(end.conduitY, end.conduitX);
  close(leverPose(end, inLine).arm, 0, 1e-12, 'in line');
  assert.ok(leverPose(end, inLine + 0.1).arm < 0, 'beyond the dead point it turns the lever the other way');
});

test('core drawn in adds up, and comes out again on the way back', () => {
  fc.assert(
    fc.property(places.filter(isClear), shaftAngles, shaftAngles, shaftAngles, (end, a, b, c) => {
      close(coreDrawnIn(end, a, b) + coreDrawnIn(end, b, c), coreDrawnIn(end, a, c), 1e-12, 'sum');
      close(coreDrawnIn(end, a, b), -coreDrawnIn(end, b, a), 0, 'there and back');
    }),
    seed,
  );
});

test('the middle of the swing leaves as much to one side as to the other, across the turn of the compass too', () => {
  fc.assert(
    fc.property(places.filter(isClear), shaftAngles, between(0.1, 1), (end, from, swing) => {
      const poses = Array.from({ length: 40 }, (_, i) => leverPose(end, from + (swing * i) / 39));
      const turns = poses.map(({ direction }) => turnBetween(middleOfSwing(poses), direction));
      // Beyond half a circle of swing there is no middle.
      if (Math.max(...turns) - Math.min(...turns) > 3) return;
      close(Math.max(...turns), -Math.min(...turns), 1e-9, 'both sides');
    }),
    seed,
  );
});

test('press on the mouth: a closed triangle of two equal pulls', () => {
  const [tension, angle] = [30, 0.2];
  const resultant = Math.hypot(tension - tension * Math.cos(angle), tension * Math.sin(angle));
  close(pressOnMouth(tension, angle), resultant, 1e-12, 'press');
  close(pressOnMouth(-tension, -angle), resultant, 1e-12, 'a push presses as much');
});

test('a free core bows out at the least load at which its bent shape stands still', () => {
  // Shape of a column held at 0 and pinned at L, y = sin kx - kL... : the end conditions leave tan kL = kL. Counted here by
  // integrating EI y'' + P y = P c x from the held end and asking when the pinned end lies on the axis.
  const [stiffness, length] = [0.38, 0.12];
  const free = (load: number): number => {
    // y(0) = y'(0) = 0, EI y'' = -P y + R (L - x); with R = 1 the end deflection changes sign through infinity or zero.
    const k = Math.sqrt(load / stiffness);
    const steps = 4000;
    const h = length / steps;
    let [y, slope] = [0, 0];
    const bend = (x: number, at: number) => -k * k * at + (length - x) / stiffness;
    for (let i = 0; i < steps; i++) {
      const x = i * h;
      const k1 = [slope, bend(x, y)];
      const k2 = [slope + (h / 2) * k1[1], bend(x + h / 2, y + (h / 2) * k1[0])];
      const k3 = [slope + (h / 2) * k2[1], bend(x + h / 2, y + (h / 2) * k2[0])];
      const k4 = [slope + h * k3[1], bend(x + h, y + h * k3[0])];
      y += (h / 6) * (k1[0] + 2 * k2[0] + 2 * k3[0] + k4[0]);
      slope += (h / 6) * (k1[1] + 2 * k2[1] + 2 * k3[1] + k4[1]);
    }
    return y;
  };
  const critical = bowsOutAt(stiffness, length);
  assert.ok(free(0.999 * critical) * free(1.001 * critical) < 0, 'the end of the column passes the axis there');
  assert.ok(free(0.5 * critical) * free(0.999 * critical) > 0, 'and not before');
  close(critical / ((Math.PI ** 2 * stiffness) / (0.7 * length) ** 2), 1, 0.003, 'the textbook has 0.7 for 0.6992');
});

test('what has no meaning is refused with its value', () => {
  const end: LeverEnd = { conduitX: 0.1, conduitY: 0, radius: 0.05, angle: 0 };
  const refused = (code: string, words: RegExp) => (error: unknown) =>
    error instanceof DomainError && error.code === code && words.test(error.message);
  assert.throws(() => leverPose({ ...end, radius: 0 }, 0), refused('SW-D093', /not 0/));
  assert.throws(() => leverPose({ ...end, conduitX: NaN }, 0), refused('SW-D093', /NaN/));
  assert.throws(() => leverPose({ ...end, conduitX: 0.05 }, 0), refused('SW-D093', /mouth/));
  assert.throws(() => bowsOutAt(-1, 0.1), refused('SW-D094', /-1/));
  assert.throws(() => bowsOutAt(1, 0), refused('SW-D094', /not 0/));
});
