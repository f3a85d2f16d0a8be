/** A bell-crank against moments about its pivot and the work of its arm ends, and a run parted in two against the whole. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { crankedForce, crankedTravel, frictionCircle, otherWay } from '../../../src/physics/cable/bell-crank.ts';
import { cutAt, lengthOf, reversed, turnedBy } from '../../../src/physics/cable/route.ts';
import { walkTension, type Sliding } from '../../../src/physics/cable/tension.ts';
import { DomainError } from '../../../src/physics/domain-error.ts';
import { between, corners, laid } from './random-route.ts';

const seed = { seed: 20261125, numRuns: 100 };
const arms = between(0.02, 0.2);
const forces = between(-400, 400);
const close = (a: number, b: number, tolerance: number, what: string) =>
  assert.ok(Math.abs(a - b) <= tolerance * Math.max(1e-6, Math.abs(a), Math.abs(b)), `${what}: ${a} and ${b}`);

test('without friction a bell-crank carries the force by its arms, to the last bit', () => {
  fc.assert(
    fc.property(arms, arms, forces, (drivenArm, drivingArm, force) => {
      const crank = { drivenArm, drivingArm, frictionCircle: 0 };
      assert.equal(crankedForce(crank, force), force * (drivenArm / drivingArm));
      assert.equal(crankedForce({ ...crank, drivingArm: drivenArm }, force), force);
    }),
    seed,
  );
});

test('virtual work: the ends of two arms at a right angle, turned a little', () => {
  fc.assert(
    fc.property(arms, arms, forces, (drivenArm, drivingArm, force) => {
      // Driven arm along x with its core along y, driving arm along y with its core along x.
      const turn = 1e-5;
      const driven = 2 * drivenArm * Math.sin(turn);
      const driving = Math.abs(drivingArm * Math.cos(Math.PI / 2 + turn) - drivingArm * Math.cos(Math.PI / 2 - turn));
      const crank = { drivenArm, drivingArm, frictionCircle: 0 };
      close(crankedForce(crank, force) * driving, force * driven, 1e-9, 'work');
      close(driving / driven, crankedTravel(crank), 1e-9, 'travel');
    }),
    seed,
  );
});

test('with friction the moments about the pivot balance, the resultant of both cores touching the friction circle', () => {
  fc.assert(
    fc.property(arms, arms, forces, between(0, 0.015), (drivenArm, drivingArm, force, r) => {
      const driving = crankedForce({ drivenArm, drivingArm, frictionCircle: r }, force);
      close(driving * drivingArm, force * drivenArm + r * Math.hypot(force, driving), 1e-9, 'moments');
      // Driven from its other side it asks more than it gives back.
      const there = crankedForce({ drivenArm, drivingArm, frictionCircle: r }, Math.abs(force));
      const back = crankedForce(otherWay({ drivenArm, drivingArm, frictionCircle: r }), there);
      assert.ok(back >= Math.abs(force) * (1 - 1e-12), `${back} N for ${force} N`);
    }),
    seed,
  );
});

test('a pivot whose friction circle reaches the driving arm jams; what has no meaning is refused', () => {
  const crank = { drivenArm: 0.06, drivingArm: 0.01, frictionCircle: 0.01 };
  assert.equal(crankedForce(crank, 10), Infinity);
  assert.equal(crankedForce(crank, 0), 0);
  close(frictionCircle(0.02, 0.75), 0.01 * 0.6, 1e-12, 'a pin of 20 mm, 3-4-5');
  const without = [
    { drivenArm: 0 },
    { drivingArm: 0 },
    { drivenArm: NaN },
    { frictionCircle: -1 },
    { frictionCircle: NaN },
  ];
  for (const wrong of without) assert.throws(() => crankedForce({ ...crank, ...wrong }, 1), DomainError);
});

test('a run parted anywhere is as long, turns as far and carries as much as the whole', () => {
  const sliding: Sliding = { friction: 0.15, weight: 0.3, bendingStiffness: 0, radialClearance: 0 };
  fc.assert(
    fc.property(corners(5), between(0, 1), (list, share) => {
      const found = laid(list);
      if (found === null) return;
      const { pieces } = found.route;
      const [before, beyond] = cutAt(pieces, share * lengthOf(pieces));
      close(lengthOf(before), share * lengthOf(pieces), 1e-9, 'length before');
      close(lengthOf([...before, ...beyond]), lengthOf(pieces), 1e-9, 'length');
      close(turnedBy([...before, ...beyond]), turnedBy(pieces), 1e-9, 'turned');
      for (const weight of [0, 0.3]) {
        const walk = (run: typeof before, start: number) =>
          walkTension(run, { ...sliding, weight }, 'with the walk', start).tension;
        const tolerance = weight === 0 ? 1e-9 : 1e-5;
        close(walk(beyond, walk(before, 40)), walk(pieces, 40), tolerance, 'there');
        const back = walk(reversed(before), walk(reversed(beyond), 40));
        close(back, walk(reversed(pieces), 40), tolerance, 'and back');
      }
    }),
    seed,
  );
  const { pieces } = laid([
    { x: 0, y: 0, z: 0, radius: NaN },
    { x: 1, y: 0, z: 0, radius: NaN },
  ])!.route;
  for (const at of [-0.1, 1.1, NaN]) assert.throws(() => cutAt(pieces, at), DomainError, `${at}`);
});
