/** Compression and extension springs as a whole: rates in series, the geometry of the coil, what is used at a length. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  compressionUse,
  growthWhenSolid,
  leastCoilGaps,
  shortestWorkingLength,
  solidLength,
  type CompressionSpring,
} from '../../../src/physics/spring/compression.ts';
import {
  bodyLength,
  extensionFreeLength,
  extensionUse,
  mostInitialStress,
  usualInitialStress,
  usualInitialTension,
} from '../../../src/physics/spring/extension.ts';
import { shearStress, springRate, type HelicalSpring } from '../../../src/physics/spring/helical.ts';
import { wireStrength } from '../../../src/physics/spring/wire.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const helical: fc.Arbitrary<HelicalSpring> = fc
  .record({ d: share, index: share, turns: share })
  .map(({ d, index, turns }) => {
    const wireDiameter = 5e-4 + 5e-3 * d;
    return {
      wireDiameter,
      meanCoilDiameter: wireDiameter * (4 + 12 * index),
      activeTurns: 2 + 20 * turns,
      shearModulus: 81.5e9,
    };
  });

test('more turns are softer, thicker wire stiffer, a wider coil softer, and two springs in series one of all their turns', () => {
  fc.assert(
    fc.property(helical, helical, (spring, { activeTurns: others }) => {
      const rate = springRate(spring);
      const of = (change: Partial<HelicalSpring>) => springRate({ ...spring, ...change });
      assert.ok(of({ activeTurns: spring.activeTurns + 0.5 }) < rate, 'turns');
      assert.ok(of({ wireDiameter: spring.wireDiameter * 1.1 }) > rate, 'wire');
      assert.ok(of({ meanCoilDiameter: spring.meanCoilDiameter * 1.1 }) < rate, 'coil');
      const series = 1 / (1 / rate + 1 / of({ activeTurns: others }));
      assert.ok(Math.abs(of({ activeTurns: spring.activeTurns + others }) / series - 1) < 1e-12, 'series');
      // A spring twice as large in every way is twice as stiff, and bears four times the force at one stress.
      const twice = of({ wireDiameter: 2 * spring.wireDiameter, meanCoilDiameter: 2 * spring.meanCoilDiameter });
      assert.ok(Math.abs(twice / rate - 2) < 1e-9, 'scale');
    }),
    { numRuns: 100, seed: 51 },
  );
});

test('a coil pressed solid grows: the wire keeps its length', () => {
  fc.assert(
    fc.property(helical, share, (spring, open) => {
      const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n } = spring;
      const gap = d * (0.2 + 2 * open);
      const freeLength = solidLength(n, d, 'closed and ground') + n * gap;
      const found = growthWhenSolid(spring, freeLength, 'closed and ground');
      // One turn of wire is the hypotenuse of its pitch and its circumference; solid, the pitch is the wire.
      const pitch = d + gap;
      const turn = Math.hypot(Math.PI * D, pitch);
      const solid = Math.sqrt(turn * turn - d * d) / Math.PI - D;
      // EN 13906-1 gives about twice that: the ends turn against each other too. It must lie above, and not far above.
      assert.ok(found >= solid, `${found} of ${solid}`);
      assert.ok(found <= 3 * solid, `${found} of ${solid}`);
    }),
    { numRuns: 100, seed: 52 },
  );
  const spring: HelicalSpring = { wireDiameter: 1e-3, meanCoilDiameter: 1e-2, activeTurns: 8, shearModulus: 81.5e9 };
  assert.equal(growthWhenSolid(spring, 0.01, 'closed and ground'), 0);
});

test('what a compression spring has used: nothing at its free length, all its travel where its coils begin to touch', () => {
  const spring: CompressionSpring = {
    kind: 'compression', wire: 'EN 10270-1 SM', wireDiameter: 2e-3, meanCoilDiameter: 0.016, activeTurns: 8,
    freeLength: 0.06, ends: 'closed and ground',
  }; // prettier-ignore
  const body: HelicalSpring = { ...spring, shearModulus: 81.5e9 };
  const free = compressionUse(spring, 0.07, 1);
  assert.deepEqual([free.force, free.stressUsed, free.travelUsed, free.bucklingUsed], [0, 0, 0, 0]);
  const shortest = shortestWorkingLength(body, spring.ends);
  assert.ok(Math.abs(shortest - (10 * 2e-3 + leastCoilGaps(body))) < 1e-15, 'Lc + Sa');
  assert.ok(Math.abs(compressionUse(spring, shortest, 1).travelUsed - 1) < 1e-12, 'all travel');
  assert.ok(
    compressionUse(spring, 0.04, 1, 'moving').travelUsed > compressionUse(spring, 0.04, 1).travelUsed,
    'moving',
  );
  const solid = compressionUse(spring, 0.02, 0.5);
  assert.ok(Math.abs(solid.stressUsed - solid.solidStressUsed) < 1e-12, 'solid is solid');
  assert.equal(compressionUse(spring, 0.04, 0.5).bucklingUsed, 0);
  assert.ok(compressionUse({ ...spring, freeLength: 0.12 }, 0.05, 1).bucklingUsed > 1, 'a long one buckles');
  assert.equal(compressionUse({ ...spring, freeLength: 0.021 }, 0.0209, 1).travelUsed, Infinity);
});

test('initial tension: within what a lathe winds, falling with the index; free length is body and two hooks', () => {
  let last: readonly [number, number] = [Infinity, Infinity];
  for (let w = 4; w <= 16; w += 0.5) {
    const [least, most] = usualInitialStress(w);
    assert.ok(least > 0 && least < most && most < last[1] && least < last[0], `falls at ${w}`);
    assert.ok(most < mostInitialStress(w, 1980e6, 'on a lathe') * 1.05, `wound on a lathe at ${w}`);
    assert.ok(
      mostInitialStress(w, 1980e6, 'by machine') < mostInitialStress(w, 1980e6, 'on a lathe'),
      'by machine less',
    );
    last = [least, most];
  }
  const spring: HelicalSpring = { wireDiameter: 1.2e-3, meanCoilDiameter: 0.01, activeTurns: 24, shearModulus: 81.5e9 };
  const [least, most] = usualInitialTension(spring);
  assert.ok(Math.abs(shearStress(spring, least) / usualInitialStress(0.01 / 1.2e-3)[0] - 1) < 1e-12, 'least');
  assert.ok(most > 5 && least < 7, `${least} to ${most} N about the 5 N and 7 N of such springs`);
  assert.ok(Math.abs(extensionFreeLength(20, 1e-3, 8e-3) - (bodyLength(20, 1e-3) + 2 * 7e-3)) < 1e-15, 'free length');
});

test('what an extension spring has used: hooks before body, and nothing moves below its free length', () => {
  const spring = {
    kind: 'extension', wire: 'EN 10270-1 SM', wireDiameter: 1.2e-3, meanCoilDiameter: 0.01, activeTurns: 24.4,
    freeLength: 0.046, initialTension: 6,
  } as const; // prettier-ignore
  assert.equal(extensionUse(spring, 0.03).force, 6);
  const used = extensionUse(spring, 0.08);
  const rate = springRate({ ...spring, shearModulus: 81.5e9 });
  assert.ok(Math.abs(used.force - 6 - rate * 0.034) < 1e-12, 'force');
  assert.ok(
    Math.abs(used.correctedStress / (0.45 * wireStrength(spring.wire, 1.2e-3)) - used.stressUsed) < 1e-12,
    'body',
  );
  assert.ok(used.hookUsed > used.stressUsed, 'the hook is the weaker part');
  assert.ok(
    Number.isNaN(extensionUse({ ...spring, wireDiameter: 0.1e-3, meanCoilDiameter: 1e-3 }, 0.05).stressUsed),
    'not known',
  );
});
