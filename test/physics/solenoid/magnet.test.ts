import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { surfaceAt } from '../../../src/physics/solenoid/field/co-energy-surface.ts';
import { ampereTurnsFor, noMagnetNumbers, type Magnet } from '../../../src/physics/solenoid/magnet-form.ts';
import { magnetOfReadings, magnetOfSurface } from '../../../src/physics/solenoid/magnet.ts';
import { forceTable, type ForceLevel } from '../../../src/physics/solenoid/table.ts';
import { printedSurface } from '../../published/motion-reference.ts';

const surface = printedSurface();
const solved = magnetOfSurface(surface);

function near(found: number, expected: number, relative: number, what: string): void {
  assert.ok(Math.abs(found - expected) <= relative * Math.abs(expected), `${what}: ${found}, expected ${expected}`);
}

/** Pulls of a known law: F = f(g) ψ(i), f falling as a plane gap's, ψ bending over at the knee. */
const knee = 9;
const f = (gap: number): number => 2e-5 / (gap + 1.5e-3) ** 2;
const psi = (amps: number): number => knee * knee * (Math.sqrt(1 + (amps / knee) ** 2) - 1);
const gaps = [0, 0.5, 1, 2, 3, 5, 8, 12, 18, 25].map((gap) => gap * 1e-3);
const level = (current: number, at = gaps): ForceLevel => ({
  current,
  gaps: at,
  forces: at.map((gap) => f(gap) * psi(current)),
});
const twoCurrents = magnetOfReadings(forceTable([level(8), level(20)]));
const oneCurrent = magnetOfReadings(forceTable([level(20)]));

const anyPlace = (magnet: Magnet): fc.Arbitrary<[number, number]> =>
  fc.tuple(
    fc.double({ min: magnet.leastGap * 1.01 + 1e-6, max: magnet.mostGap * 0.99, noNaN: true }),
    fc.double({ min: -1.3 * magnet.mostAmpereTurns, max: 1.3 * magnet.mostAmpereTurns, noNaN: true }),
  );

for (const [name, magnet] of [
  ['field map', solved],
  ['pulls at two currents', twoCurrents],
  ['pulls at one', oneCurrent],
] as const)
  // prettier-ignore
  test(`${name}: force and flux linkage are the slopes of one co-energy, and their own slopes are right`, () => {
    const scale = magnet.mostAmpereTurns;
    const numbers = noMagnetNumbers();
    fc.assert(
      fc.property(anyPlace(magnet), ([gap, amps]) => {
        fc.pre(Math.abs(amps) > 1e-3 * scale && Math.abs(Math.abs(amps) - scale) > 1e-3 * scale);
        magnet.evaluate(gap, amps, numbers);
        const [dg, da] = [1e-6 * gap, 1e-6 * Math.abs(amps)];
        const slope = (of: 'coEnergy' | 'fluxLinkage' | 'force', byGap: boolean): number => {
          const [a, b] = byGap
            ? [magnet.at(gap - dg, amps), magnet.at(gap + dg, amps)]
            : [magnet.at(gap, amps - da), magnet.at(gap, amps + da)];
          return (b[of] - a[of]) / (2 * (byGap ? dg : da));
        };
        near(slope('coEnergy', false), numbers.fluxLinkage, 1e-5, 'flux linkage');
        near(-slope('coEnergy', true), numbers.force, 1e-4, 'force');
        // Cells of the surface meet with a bend: a difference across one is only near.
        near(slope('fluxLinkage', false), numbers.fluxByAmpereTurns, 2e-2, 'flux linkage by ampere-turns');
        assert.ok(
          Math.abs(slope('fluxLinkage', true) - numbers.fluxByGap) <= 2e-2 * Math.abs(numbers.fluxByGap) + 1e-4 * Math.abs(numbers.fluxLinkage / gap),
          `flux linkage by gap ${slope('fluxLinkage', true)}, ${numbers.fluxByGap}`,
        );
        near(magnet.at(gap, -amps).force, numbers.force, 1e-12, 'the force does not ask which way the current flows');
        near(magnet.at(gap, -amps).fluxLinkage, -numbers.fluxLinkage, 1e-12, 'flux linkage does');
      }),
      { seed: 20260101, numRuns: 300 },
    );
  });

test('the map laid out for speed is the surface itself', () => {
  for (const gap of [0.1e-3, 0.13e-3, 0.5e-3, 3e-3, 12e-3])
    for (const amps of [0.01, 5, 50, 333, 1999, 2400]) {
      const [a, b] = [surfaceAt(surface, gap, amps), solved.at(gap, amps)];
      near(b.coEnergy, a.coEnergy, 1e-12, 'co-energy');
      near(b.fluxLinkage, a.fluxLinkage, 1e-12, 'flux linkage');
      near(b.force, a.force, 1e-12, 'force');
    }
  assert.equal(solved.approximation, null, 'a field map is no approximation');
});

test('ampere-turns are found again from the flux linkage, from any start', () => {
  const numbers = noMagnetNumbers();
  for (const magnet of [solved, twoCurrents])
    fc.assert(
      fc.property(anyPlace(magnet), fc.double({ min: -2, max: 2, noNaN: true }), ([gap, amps], start) => {
        const truth = magnet.at(gap, amps);
        const found = ampereTurnsFor(magnet, gap, truth.fluxLinkage, start * magnet.mostAmpereTurns, numbers);
        assert.ok(Math.abs(found - amps) <= 1e-9 * magnet.mostAmpereTurns, `${found}, sent ${amps}`);
        assert.ok(
          Math.abs(numbers.force - truth.force) <= 1e-7 * truth.force + 1e-9,
          `force ${numbers.force}, ${truth.force}`,
        );
      }),
      { seed: 7, numRuns: 300 },
    );
});
