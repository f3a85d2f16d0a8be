/** Springs from first principles: a straightened torsion bar, stored energy, the geometry of coils. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../src/physics/domain-error.ts';
import { bucklingDeflection, leastCoilGaps, solidLength } from '../../src/physics/spring/compression.ts';
import {
  correctedShearStress,
  permissibleShare,
  shearStress,
  springRate,
  stressCorrection,
  type HelicalSpring,
} from '../../src/physics/spring/helical.ts';
import { shearModulus, springWires, wireStrength, type SpringWire } from '../../src/physics/spring/wire.ts';
import {
  leverSpringLength,
  leverSpringMoment,
  springForce,
  type LeverSpring,
  type WorkingSpring,
} from '../../src/physics/spring/working.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const helical: fc.Arbitrary<HelicalSpring> = fc
  .record({ d: share, index: share, turns: share, modulus: share })
  .map(({ d, index, turns, modulus }) => {
    const wireDiameter = 3e-4 + 5e-3 * d;
    return {
      wireDiameter,
      meanCoilDiameter: wireDiameter * (4 + 14 * index),
      activeTurns: 2 + 20 * turns,
      shearModulus: 7e10 + 1.2e10 * modulus,
    };
  });

test('rate: the energy of a straightened wire twisted by F D/2 over its length π D n', () => {
  fc.assert(
    fc.property(helical, share, (spring, load) => {
      const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n, shearModulus: G } = spring;
      const F = 1 + 100 * load;
      // Shear stress and strain energy density added up over rings of the wire's section, not by the closed form of J.
      const rings = 2000;
      const dr = d / 2 / rings;
      let polar = 0;
      for (let i = 0; i < rings; i++) {
        const r = (i + 0.5) * dr;
        polar += r * r * 2 * Math.PI * r * dr;
      }
      const twist = (F * D) / 2 / (G * polar);
      const energy = 0.5 * F * (D / 2) * twist * (Math.PI * D * n);
      assert.equal(Math.abs((F * F) / (2 * energy) / springRate(spring) - 1) < 1e-6, true);
      // And the stress at the wire's surface from the same twist.
      assert.equal(Math.abs((G * twist * d) / 2 / shearStress(spring, F) - 1) < 1e-6, true);
    }),
    { numRuns: 50, seed: 1 },
  );
});

test('correction for curvature: above 1, falling with the spring index to 1, and part of the corrected stress', () => {
  let last = Infinity;
  for (const w of [3, 4, 6, 10, 20, 1e3, 1e9]) {
    const k = stressCorrection(w);
    assert.equal(k > 1 && k < last, true);
    last = k;
  }
  assert.equal(last - 1 < 2e-9, true);
  fc.assert(
    fc.property(helical, (spring) => {
      const k = correctedShearStress(spring, 10) / shearStress(spring, 10);
      assert.equal(Math.abs(k - stressCorrection(spring.meanCoilDiameter / spring.wireDiameter)) < 1e-12, true);
    }),
    { numRuns: 50, seed: 2 },
  );
});

test('what has no meaning is refused with its value', () => {
  const good: HelicalSpring = { wireDiameter: 1e-3, meanCoilDiameter: 8e-3, activeTurns: 8, shearModulus: 81.5e9 };
  const code = (wanted: string, words: RegExp) => (error: unknown) =>
    error instanceof DomainError && error.code === wanted && words.test(error.message);
  for (const bad of [0, -1, Number.NaN, Infinity]) {
    for (const name of ['wireDiameter', 'meanCoilDiameter', 'activeTurns', 'shearModulus'] as const) {
      assert.throws(() => springRate({ ...good, [name]: bad }), code('SW-D001', new RegExp(`not ${bad}`)));
    }
  }
  assert.throws(() => springRate({ ...good, meanCoilDiameter: 1e-3 }), code('SW-D002', /0\.001 m/));
});

const working: fc.Arbitrary<WorkingSpring> = fc
  .record({
    kind: fc.constantFrom('extension' as const, 'compression' as const),
    rate: share,
    free: share,
    tension: share,
  })
  .map(({ kind, rate, free, tension }) => ({
    kind,
    rate: 100 + 5000 * rate,
    freeLength: 0.02 + 0.06 * free,
    initialTension: kind === 'extension' ? 5 * tension : 0,
  }));

test('a spring only draws or only pushes, and its force rises by the rate', () => {
  fc.assert(
    fc.property(working, share, (spring, stretch) => {
      const { kind, freeLength, rate, initialTension } = spring;
      const away = kind === 'extension' ? 1 : -1;
      const deflection = 1e-4 + 0.015 * stretch;
      const force = springForce(spring, freeLength + away * deflection);
      assert.equal(Math.abs(force - initialTension - rate * deflection) < 1e-9, true);
      assert.equal(springForce(spring, freeLength - away * deflection), 0);
      assert.equal(springForce(spring, freeLength), 0);
      assert.equal(Number.isNaN(springForce(spring, Number.NaN)), true);
    }),
    { numRuns: 100, seed: 3 },
  );
});

test('moment of a lever spring: minus the slope of its stored energy over the angle (virtual work)', () => {
  const levers = fc
    .record({ spring: working, x: share, y: share, radius: share, angle: share, shaft: share })
    .map(({ spring, x, y, radius, angle, shaft }) => {
      const lever: LeverSpring = {
        spring,
        anchorX: 0.2 * x - 0.1,
        anchorY: 0.2 * y - 0.1,
        radius: 0.02 + 0.06 * radius,
        angle: 6 * angle,
      };
      return { lever, shaft: 6 * shaft };
    });
  let worked = 0;
  fc.assert(
    fc.property(levers, ({ lever, shaft }) => {
      const { spring } = lever;
      const energy = (angle: number) => {
        const length = leverSpringLength(lever, angle);
        const deflection = spring.kind === 'extension' ? length - spring.freeLength : spring.freeLength - length;
        return deflection > 0 ? spring.initialTension * deflection + 0.5 * spring.rate * deflection ** 2 : 0;
      };
      const h = 1e-4;
      // Where the spring just goes slack the energy has a corner.
      if (springForce(spring, leverSpringLength(lever, shaft - 3 * h)) === 0) {
        if (springForce(spring, leverSpringLength(lever, shaft + 3 * h)) === 0)
          assert.equal(Math.abs(leverSpringMoment(lever, shaft)), 0);
        return;
      }
      if (springForce(spring, leverSpringLength(lever, shaft + 3 * h)) === 0) return;
      if (leverSpringLength(lever, shaft) < 5e-3) return;
      worked++;
      const central = (step: number) => (energy(shaft + step) - energy(shaft - step)) / (2 * step);
      const slope = (4 * central(h) - central(2 * h)) / 3;
      assert.ok(
        Math.abs(leverSpringMoment(lever, shaft) + slope) < 1e-6,
        `${leverSpringMoment(lever, shaft)}, ${-slope}`,
      );
    }),
    { numRuns: 400, seed: 4 },
  );
  assert.ok(worked > 150, `${worked} springs at work`);
  const atAnchor: LeverSpring = {
    spring: { kind: 'compression', rate: 1000, freeLength: 0.05, initialTension: 0 },
    anchorX: 0.05,
    anchorY: 0,
    radius: 0.05,
    angle: 0,
  };
  assert.equal(leverSpringMoment(atAnchor, 0), 0);
});

test('coils: ground ends are shorter by one and a half wires, and thicker wire or more turns need more room', () => {
  fc.assert(
    fc.property(helical, (spring) => {
      const { activeTurns: n, wireDiameter: d } = spring;
      const ground = solidLength(n, d, 'closed and ground');
      assert.equal(Math.abs(solidLength(n, d, 'closed') - ground - 1.5 * d) < 1e-15, true);
      assert.equal(ground > n * d, true);
      assert.equal(leastCoilGaps({ ...spring, activeTurns: 2 * n }) > leastCoilGaps(spring), true);
      assert.equal(
        leastCoilGaps({ ...spring, meanCoilDiameter: 2 * spring.meanCoilDiameter }) > leastCoilGaps(spring),
        true,
      );
    }),
    { numRuns: 50, seed: 5 },
  );
});

test('buckling: a short spring cannot, a slender one does soon, and firmer ends help', () => {
  const q = 81.5 / 206;
  const D = 0.01;
  for (const seating of [0.5, 0.7, 1, 2]) {
    const limit = (D * Math.PI * Math.sqrt((1 - q) / (0.5 + q))) / seating;
    assert.equal(bucklingDeflection(limit * 0.999, D, q, seating), Infinity);
    const just = bucklingDeflection(limit * 1.001, D, q, seating);
    assert.ok(Number.isFinite(just) && just > 0.7 * limit * 0.999, 'starts at half over 1 - G/E of its length');
    let last = 1;
    for (const times of [1.2, 2, 5, 20]) {
      const part = bucklingDeflection(limit * times, D, q, seating) / (limit * times);
      assert.equal(part < last && part > 0, true);
      last = part;
    }
    // A very slender one goes like a strut: s/L → (1/4)(π D / ν L)² / (1/2 + G/E) × … , so as 1/L².
    const share10 = bucklingDeflection(limit * 100, D, q, seating) / (limit * 100);
    const share20 = bucklingDeflection(limit * 200, D, q, seating) / (limit * 200);
    assert.equal(Math.abs(share10 / share20 - 4) < 0.01, true);
  }
  assert.equal(bucklingDeflection(0.06, D, q, 0.5) > bucklingDeflection(0.06, D, q, 1), true);
});

test('strength falls with diameter, is asked of no wire outside its table, and its share is allowed as shear', () => {
  const outsideTable: Record<SpringWire, readonly number[]> = {
    'EN 10270-1 SL': [0.29e-3, 10.1e-3],
    'EN 10270-1 SM': [0.29e-3, 20.1e-3],
    'EN 10270-1 SH': [0.29e-3, 10.1e-3],
    'EN 10270-1 DM': [0.29e-3, 20.1e-3],
    'EN 10270-1 DH': [0.19e-3, 10.1e-3],
    'EN 10270-3 1.4310': [0, 10.1e-3],
  };
  for (const wire of springWires) {
    let last = Infinity;
    for (let mm = 0.3; mm <= 6; mm += 0.05) {
      const strength = wireStrength(wire, mm / 1000);
      assert.ok(strength <= last && strength > 8e8, `${wire} ${mm} mm`);
      last = strength;
    }
    for (const outside of outsideTable[wire]) {
      assert.equal(Number.isNaN(wireStrength(wire, outside)), true);
    }
    assert.equal(Number.isNaN(wireStrength(wire, Number.NaN)), true);
    assert.equal(shearModulus(wire) > 6e10 && shearModulus(wire) < 9e10, true);
  }
  assert.equal(wireStrength('EN 10270-1 SL', 2e-3) < wireStrength('EN 10270-1 SM', 2e-3), true);
  assert.equal(wireStrength('EN 10270-1 SM', 2e-3) < wireStrength('EN 10270-1 SH', 2e-3), true);
  assert.equal(permissibleShare('extension') < permissibleShare('compression'), true);
});
