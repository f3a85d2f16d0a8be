/** The guide: how far the pin rocks, how much of the plunger is held, and what happens where it is pulled right out. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { engaged, guideFriction, overhangAt, rock, type Guide } from '../../src/physics/guide.ts';

const millimetres = (min: number, max: number) => fc.integer({ min: min * 1000, max: max * 1000 }).map((n) => n / 1e6);
const guides: fc.Arbitrary<Guide> = fc.record({
  action: fc.constantFrom('pull', 'push'),
  lengthAtHome: millimetres(45, 100),
  overhang: millimetres(0, 40),
  stroke: millimetres(5, 40),
  diameter: millimetres(6, 30),
  boreClearance: millimetres(0, 1),
  planeOffset: fc.constant(0),
});

test('mouth, tail and pin keep their distances on the plunger and in the guide', () => {
  fc.assert(
    fc.property(guides, fc.nat(1000), (guide, share) => {
      const gap = (guide.stroke * share) / 1000;
      const [b, c] = [engaged(guide, gap), overhangAt(guide, gap)];
      if (guide.action === 'pull') {
        // A pull plunger's end inside the guide and its pin stay the same length apart.
        assert.equal(Math.abs(b + c - (guide.lengthAtHome + guide.overhang)) < 1e-15, true);
        assert.equal(c, guide.overhang + gap);
      } else {
        // A push rod passes through: the guide holds the same length, and the pin is at its overhang at the outer stop.
        assert.equal(b, guide.lengthAtHome);
        assert.equal(Math.abs(overhangAt(guide, guide.stroke) - guide.overhang) < 1e-15, true);
        assert.equal(c >= guide.overhang - 1e-15, true);
      }
    }),
    { numRuns: 100, seed: 1 },
  );
});

test('rock is the furthest that the pin goes sideways while mouth and tail stay inside the bore', () => {
  fc.assert(
    fc.property(guides, fc.nat(1000), (guide, share) => {
      const gap = (guide.stroke * share) / 1000;
      const [b, c, j] = [engaged(guide, gap), overhangAt(guide, gap), guide.boreClearance];
      // The pin's place is a straight line through mouth and tail, so its extremes stand at the corners of their ranges.
      const places = [j / 2, -j / 2].flatMap((mouth) =>
        [j / 2, -j / 2].map((tail) => mouth + ((mouth - tail) * c) / b),
      );
      assert.equal(Math.abs(Math.max(...places) - rock(guide, gap)) < 1e-15, true);
    }),
    { numRuns: 100, seed: 2 },
  );
});

test('friction of the guide is even in the side force, grows with the coefficient, and is nothing without either', () => {
  fc.assert(
    fc.property(
      guides,
      fc.integer({ min: -500, max: 500 }),
      fc.integer({ min: 1, max: 40 }),
      (guide, side, percent) => {
        const [F, mu] = [side / 10, percent / 100];
        const rub = (across: number, along: number, couple: number, friction: number) =>
          guideFriction(guide, guide.stroke / 2, along, across, couple, 1, friction);
        assert.equal(rub(F, 30, 0, mu), rub(-F, 30, 0, mu));
        assert.equal(rub(F, 30, 0, 0), 0);
        assert.equal(rub(0, 30, 0, mu), 0);
        // A side force outside the guide presses the mouth with more than itself.
        assert.equal(rub(F, 0, 0, mu) >= mu * Math.abs(F) * (1 - 1e-12) || guide.overhang === 0, true);
      },
    ),
    { numRuns: 200, seed: 3 },
  );
});

test('a plunger pulled right out of its guide has a great but finite friction', () => {
  const guide: Guide = {
    action: 'pull',
    lengthAtHome: 0.02,
    overhang: 0.01,
    stroke: 0.03,
    diameter: 0.01,
    boreClearance: 2e-4,
    planeOffset: 0.005,
  };
  for (const gap of [0.02, 0.025, 0.03]) {
    const rub = guideFriction(guide, gap, 10, 1, 0, 1, 0.2);
    assert.ok(Number.isFinite(rub) && rub > 50, `${rub} N`);
    assert.equal(Number.isFinite(rock(guide, gap)), true);
  }
});
