/** Torsion springs and hooks from first principles: energy of bending, curved bars, virtual work. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../../src/physics/domain-error.ts';
import { activeTurnsWithHooks, hookStress } from '../../../src/physics/spring/extension.ts';
import {
  bendingCorrection,
  bendingStress,
  largestMandrel,
  shaftSpringMoment,
  torsionRate,
  turnsOfLegs,
  woundBy,
  woundDiameter,
  type TorsionSpring,
} from '../../../src/physics/spring/torsion.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const coil: fc.Arbitrary<TorsionSpring> = fc
  .record({ d: share, index: share, turns: share })
  .map(({ d, index, turns }) => ({
    wireDiameter: 5e-4 + 5e-3 * d,
    meanCoilDiameter: (5e-4 + 5e-3 * d) * (4 + 12 * index),
    activeTurns: 3 + 20 * turns,
    elasticModulus: 206e9,
  }));

/** ∫ y² dA and the like over a round section, by strips: nothing here knows the closed form. */
function overSection(d: number, of: (y: number) => number): number {
  const strips = 4000;
  let sum = 0;
  for (let i = 0; i < strips; i++) {
    const y = -d / 2 + ((i + 0.5) * d) / strips;
    sum += of(y) * 2 * Math.sqrt(Math.max(0, (d * d) / 4 - y * y)) * (d / strips);
  }
  return sum;
}

test('rate: the bending energy of the straightened wire (Castigliano)', () => {
  fc.assert(
    fc.property(coil, share, (spring, load) => {
      const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n, elasticModulus: E } = spring;
      const M = 0.01 + load;
      const I = overSection(d, (y) => y * y);
      const energy = ((M * M) / (2 * E * I)) * Math.PI * D * n;
      const angle = (2 * energy) / M;
      assert.ok(Math.abs(M / angle / torsionRate(spring) - 1) < 1e-4, 'rate');
      assert.ok(Math.abs((M * (d / 2)) / I / bendingStress(d, M) - 1) < 1e-4, 'stress at the surface');
    }),
    { numRuns: 30, seed: 21 },
  );
});

test('a straight leg gives as much as a cantilever of its length', () => {
  const spring: TorsionSpring = { wireDiameter: 2e-3, meanCoilDiameter: 0.016, activeTurns: 5, elasticModulus: 206e9 };
  const [l, F] = [0.03, 10];
  const I = overSection(2e-3, (y) => y * y);
  // The end of the leg sinks by F l³/(3 E I) with the moment F l: turned about the shaft, that is an angle of F l²/(3 E I).
  const angle = (F * l * l) / (3 * 206e9 * I);
  const asTurns = (F * l) / torsionRate({ ...spring, activeTurns: turnsOfLegs(0.016, l, 0) });
  assert.ok(Math.abs(angle / asTurns - 1) < 1e-4, `${angle}, ${asTurns}`);
});

/** Stress at the inside of a bent bar by Winkler, over that of a straight one: the neutral axis found from ∫ dA/r. */
function winkler(c: number): number {
  const d = 1;
  const R = (c * d) / 2;
  const area = overSection(d, () => 1);
  const neutral = area / overSection(d, (y) => 1 / (R + y));
  const inside = R - d / 2;
  const bent = (neutral - inside) / (area * (R - neutral) * inside);
  return bent / (d / 2 / overSection(d, (y) => y * y));
}

test('curvature: the hook factor is that of a bent bar, and EN 13906-3 a little above it', () => {
  for (const c of [4, 5, 6, 8, 12, 16]) {
    const exactly = winkler(c);
    const helical = { wireDiameter: 1, meanCoilDiameter: c, activeTurns: 1, shearModulus: 1 };
    // What bending leaves when direct tension is taken off.
    const factor = ((hookStress(helical, 1, c / 2, 3).bending - 4 / Math.PI) * Math.PI) / (16 * c);
    assert.ok(Math.abs(factor / exactly - 1) < 0.004, `hook at ${c}: ${factor}, ${exactly}`);
    const en = bendingCorrection(c) / exactly;
    assert.ok(en > 1 && en < 1.025, `EN 13906-3 at ${c}: ${en} of a bent bar`);
  }
  assert.ok(Math.abs(bendingCorrection(1e6) - 1) < 1e-5, 'a straight bar needs no correction');
});

test('hooks: direct tension and bending add up, twist grows as the bend tightens', () => {
  const body = { wireDiameter: 1e-3, meanCoilDiameter: 8e-3, activeTurns: 20, shearModulus: 81.5e9 };
  const of = (r1: number, r2: number, F = 20) => hookStress(body, F, r1, r2);
  // A hook of great radius: F D/2 on a straight bar, and F over the section.
  const straight = (32 * 20 * 4e-3) / (Math.PI * 1e-9) + 20 / ((Math.PI * 1e-6) / 4);
  assert.ok(Math.abs(of(1e3, 1e3).bending / straight - 1) < 1e-5, 'straight bar');
  assert.ok(of(4e-3, 1.5e-3).twist > of(4e-3, 3e-3).twist, 'tighter bend');
  assert.ok(Math.abs(of(4e-3, 3e-3, 40).bending / of(4e-3, 3e-3).bending - 2) < 1e-12, 'in proportion to the force');
  assert.ok(
    activeTurnsWithHooks(20, 'EN 10270-1 SM') > 20.3 && activeTurnsWithHooks(20, 'EN 10270-1 SM') < 20.5,
    'two hooks',
  );
});

test('winding: the wire keeps its length, the coil tightens, and a mandrel must leave it room', () => {
  fc.assert(
    fc.property(coil, share, (spring, turn) => {
      const angle = 6 * turn;
      const wound = woundDiameter(spring, angle);
      const turns = spring.activeTurns + angle / (2 * Math.PI);
      assert.ok(
        Math.abs((wound * turns) / (spring.meanCoilDiameter * spring.activeTurns) - 1) < 1e-12,
        'length of wire',
      );
      assert.ok(largestMandrel(spring, angle) < wound - spring.wireDiameter, 'room on the mandrel');
    }),
    { numRuns: 50, seed: 22 },
  );
});

test('moment on the shaft: minus the slope of the stored energy, one way only', () => {
  fc.assert(
    fc.property(fc.boolean(), share, share, share, (isLeft, rate, free, at) => {
      const spring = { drives: isLeft ? (1 as const) : (-1 as const), rate: 0.05 + rate, freeAngle: 4 * free - 2 };
      const energy = (angle: number) => 0.5 * spring.rate * woundBy(spring, angle) ** 2;
      const angle = 4 * at - 2;
      const h = 1e-5;
      const slope = (energy(angle + h) - energy(angle - h)) / (2 * h);
      assert.ok(
        Math.abs(shaftSpringMoment(spring, angle) + slope) < 1e-4,
        `${shaftSpringMoment(spring, angle)}, ${-slope}`,
      );
    }),
    { numRuns: 200, seed: 23 },
  );
});

test('more turns softer, thicker wire stiffer, two in series as one of both; nonsense is refused', () => {
  const good: TorsionSpring = { wireDiameter: 2e-3, meanCoilDiameter: 0.016, activeTurns: 5, elasticModulus: 206e9 };
  const rate = (change: Partial<TorsionSpring>) => torsionRate({ ...good, ...change });
  assert.ok(rate({ activeTurns: 6 }) < rate({}), 'more turns');
  assert.ok(Math.abs(rate({ wireDiameter: 4e-3 }) / rate({}) - 16) < 1e-9, 'fourth power of the wire');
  assert.ok(
    Math.abs(1 / rate({ activeTurns: 12 }) - 1 / rate({ activeTurns: 5 }) - 1 / rate({ activeTurns: 7 })) < 1e-9,
    'series',
  );
  for (const bad of [0, -1, Number.NaN, Infinity]) {
    assert.throws(
      () => rate({ elasticModulus: bad }),
      (error) => error instanceof DomainError && error.code === 'SW-D001',
    );
    assert.throws(
      () => rate({ activeTurns: bad }),
      (error) => error instanceof DomainError && error.code === 'SW-D001',
    );
  }
  assert.throws(
    () => rate({ meanCoilDiameter: 2e-3 }),
    (error) => error instanceof DomainError && error.code === 'SW-D002',
  );
});
