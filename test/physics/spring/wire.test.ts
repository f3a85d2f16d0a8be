/** Surge, temperature, endurance and tolerance: limits, independent sums, and what must grow with what. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../../src/physics/domain-error.ts';
import { enduranceAmplitude, enduranceUsed, SHEAR_SHARE, zimmerli } from '../../../src/physics/spring/endurance.ts';
import { coilMass, naturalFrequency, springRate, type HelicalSpring } from '../../../src/physics/spring/helical.ts';
import {
  coilDiameterTolerance,
  freeLengthTolerance,
  loadTolerance,
  rateTolerance,
} from '../../../src/physics/spring/tolerance.ts';
import {
  modulusShare,
  springWires,
  standardWireDiameters,
  stockedDiameters,
  wireCautions,
  wireStrength,
} from '../../../src/physics/spring/wire.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const helical: fc.Arbitrary<HelicalSpring> = fc
  .record({ d: share, index: share, turns: share })
  .map(({ d, index, turns }) => {
    const wireDiameter = 5e-4 + 5e-3 * d;
    const meanCoilDiameter = wireDiameter * (4 + 12 * index);
    return { wireDiameter, meanCoilDiameter, activeTurns: 2 + 20 * turns, shearModulus: 81.5e9 };
  });

/** Lowest frequency, Hz, of masses on springs in a row between two walls (or one wall), by inverse iteration on the chain. */
function chainFrequency(rate: number, mass: number, isFree: boolean): number {
  const links = 400;
  const k = rate * links;
  const m = mass / links;
  const count = isFree ? links : links - 1;
  let shape = Array.from(
    { length: count },
    (_, i) => Math.sin((Math.PI * (i + 1)) / (isFree ? 2 * links : links)) + 0.2,
  );
  let eigen = 0;
  for (let round = 0; round < 60; round++) {
    // Solve K x = M v: a row of equal springs, each end of the row on a wall or free.
    const right = shape.map((v, i) => v * (isFree && i === count - 1 ? m / 2 : m));
    const diagonal = right.map((_, i) => (isFree && i === count - 1 ? k : 2 * k));
    for (let i = 1; i < count; i++) {
      const factor = k / diagonal[i - 1];
      diagonal[i] -= factor * k;
      right[i] += factor * right[i - 1];
    }
    const next = right.slice();
    for (let i = count - 1; i >= 0; i--) next[i] = (right[i] + (i + 1 < count ? k * next[i + 1] : 0)) / diagonal[i];
    const size = Math.sqrt(next.reduce((sum, x) => sum + x * x, 0));
    eigen = Math.sqrt(shape.reduce((sum, x) => sum + x * x, 0)) / size;
    shape = next.map((x) => x / size);
  }
  return Math.sqrt(eigen) / (2 * Math.PI);
}

test('surge: the lowest note of the wire, cut into four hundred masses between springs', () => {
  fc.assert(
    fc.property(helical, fc.boolean(), (spring, isFree) => {
      const mass = coilMass(spring.wireDiameter, spring.meanCoilDiameter, spring.activeTurns, 7850);
      const expected = chainFrequency(springRate(spring), mass, isFree);
      const found = naturalFrequency(spring, 7850, isFree ? 'one free' : 'held');
      assert.ok(Math.abs(found / expected - 1) < 1e-4, `${found}, ${expected}`);
    }),
    { numRuns: 12, seed: 31 },
  );
  assert.throws(
    () => naturalFrequency({ wireDiameter: 1e-3, meanCoilDiameter: 8e-3, activeTurns: 8, shearModulus: 81.5e9 }, 0),
    (error) => error instanceof DomainError && error.code === 'SW-D001',
  );
});

test('wire: stocked diameters have a strength, drawn for moving springs is as strong as for static ones', () => {
  for (const wire of springWires) {
    const diameters = stockedDiameters(wire);
    assert.ok(diameters.length > 15, `${wire}: ${diameters.length}`);
    for (const d of diameters) assert.ok(wireStrength(wire, d) > 1e9, `${wire} ${d}`);
  }
  assert.deepEqual(
    [...standardWireDiameters].sort((a, b) => a - b),
    standardWireDiameters,
  );
  for (const mm of [0.3, 1, 2.3, 9]) {
    assert.equal(wireStrength('EN 10270-1 DM', mm / 1000), wireStrength('EN 10270-1 SM', mm / 1000));
    assert.equal(wireStrength('EN 10270-1 DH', mm / 1000), wireStrength('EN 10270-1 SH', mm / 1000));
  }
});

test('heat softens a spring, and a wire is out of place beyond its temperatures', () => {
  for (const wire of springWires) {
    assert.equal(modulusShare(wire, 293.15), 1);
    assert.ok(modulusShare(wire, 373.15) < 0.98 && modulusShare(wire, 373.15) > 0.96, wire);
    assert.ok(modulusShare(wire, 253.15) > 1, wire);
  }
  assert.deepEqual(wireCautions('EN 10270-1 SM', 313.15, 0.5), []);
  assert.deepEqual(wireCautions('EN 10270-1 SM', 353.15, 0.5), ['will lose load in the heat']);
  assert.deepEqual(wireCautions('EN 10270-1 SM', 393.15, 0.2), ['outside the working temperature of its wire']);
  assert.deepEqual(wireCautions('EN 10270-3 1.4310', 393.15, 0.5), []);
});

test('endurance: through the found point, at rest the shear strength decides, peening helps', () => {
  const spring: HelicalSpring = { wireDiameter: 2e-3, meanCoilDiameter: 0.016, activeTurns: 8, shearModulus: 81.5e9 };
  const Rm = 1760e6;
  const k = ((8 + 0.5) / (8 - 0.75)) * ((8 * 0.016) / (Math.PI * 8e-9));
  for (const surface of ['plain', 'shot peened'] as const) {
    const { amplitude, mean } = zimmerli[surface];
    const used = enduranceUsed(spring, (mean - amplitude) / k, (mean + amplitude) / k, Rm, surface);
    assert.ok(Math.abs(used - 1) < 1e-9, `Zimmerli's own point is the edge: ${used}`);
    const still = (SHEAR_SHARE * Rm) / k;
    assert.ok(Math.abs(enduranceUsed(spring, still, still, Rm, surface) - 1) < 1e-9, 'no swing');
    assert.ok(enduranceAmplitude(Rm, surface) > amplitude, 'about no mean stress it bears more');
  }
  assert.ok(enduranceUsed(spring, 40, 100, Rm, 'shot peened') < enduranceUsed(spring, 40, 100, Rm, 'plain'), 'peened');
  assert.ok(enduranceUsed(spring, 20, 100, Rm, 'plain') > enduranceUsed(spring, 40, 100, Rm, 'plain'), 'wider swing');
});

test('tolerances: coarser grades, greater forces and fewer turns are off by more', () => {
  fc.assert(
    fc.property(helical, share, (spring, load) => {
      const F = 1 + 200 * load;
      const of = (grade: 1 | 2 | 3, force = F) => loadTolerance(spring, force, grade);
      assert.ok(of(1) > 0 && of(1) < of(2) && of(2) < of(3), 'grades');
      assert.ok(Math.abs(of(2, F + 100) - of(2) - 1.5) < 1e-9, '1.5 % of the force');
      const fewer = loadTolerance({ ...spring, activeTurns: spring.activeTurns / 1.5 }, F, 2);
      assert.ok(spring.activeTurns < 3 || fewer > of(2), 'fewer turns, more scatter');
      // A free length off by its ± is a force off by the part that does not grow with it.
      const fixed = of(2) - 0.015 * F;
      assert.ok(Math.abs(freeLengthTolerance(spring, 2) * springRate(spring) - fixed) < 1e-9, 'free length');
      const { meanCoilDiameter: D, wireDiameter: d } = spring;
      if (D <= 0.063) assert.ok(rateTolerance(spring, 3) > rateTolerance(spring, 1), 'rate');
      if (D <= 0.063)
        assert.ok(coilDiameterTolerance(D, D / d, 3) >= 1.4 * coilDiameterTolerance(D, D / d, 2), 'diameter');
    }),
    { numRuns: 100, seed: 32 },
  );
  for (const [D, w] of [
    [0.07, 8],
    [5e-4, 8],
    [0.02, 3.9],
    [0.02, 21],
  ] as const)
    assert.ok(Number.isNaN(coilDiameterTolerance(D, w, 2)), `outside the table: ${D}, ${w}`);
});
