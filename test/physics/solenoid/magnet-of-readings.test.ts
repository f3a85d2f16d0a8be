import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { isSolenoid } from '../../../src/assessment/assess.ts';
import { magnetOf } from '../../../src/assessment/time/magnet-of.ts';
import { rigOf } from '../../../src/assessment/rig.ts';
import { readJob } from '../../../src/job/read.ts';
import { noMagnetNumbers, type Magnet } from '../../../src/physics/solenoid/magnet-form.ts';
import { LEAKAGE, magnetOfReadings } from '../../../src/physics/solenoid/magnet-of-readings.ts';
import { forceTable, type ForceLevel } from '../../../src/physics/solenoid/table.ts';
import { readDemos } from '../../../src/server/demos.ts';

function near(found: number, expected: number, relative: number, what: string): void {
  assert.ok(Math.abs(found - expected) <= relative * Math.abs(expected), `${what}: ${found}, expected ${expected}`);
}

/** Pulls that go as the square of the current and fall as a plane gap's. */
const f = (gap: number): number => 2e-5 / (gap + 1.5e-3) ** 2;
const gaps = [0, 0.5, 1, 2, 3, 5, 8, 12, 18, 25].map((gap) => gap * 1e-3);
const level = (current: number, at: readonly number[] = gaps): ForceLevel => ({
  current,
  gaps: at,
  forces: at.map((gap) => f(gap) * current * current),
});

/** Places where flux does not rise with current, on a dense grid. */
function fallsOf(magnet: Magnet): string[] {
  const numbers = noMagnetNumbers();
  const falls: string[] = [];
  for (let a = 0; a <= 60; a++) {
    const gap = magnet.leastGap + (magnet.mostGap - magnet.leastGap) * (a / 60) ** 2;
    let before = 0;
    for (let b = 1; b <= 300; b++) {
      const amps = (magnet.mostAmpereTurns * b) / 300;
      magnet.evaluate(gap, amps, numbers);
      if (!(numbers.fluxLinkage > before && numbers.fluxByAmpereTurns > 0)) falls.push(`${gap} m, ${amps} A`);
      before = numbers.fluxLinkage;
    }
  }
  return falls;
}

test('a magnet whose steel has one bend at each gap comes back from its pulls at two currents, at every current', () => {
  // W' = ½ Ls i² + a ψ(i), ψ = i²/(1 + √(1 + q i²)), a and q of the gap; at full stroke q is 0 and Ls is 0.35 of it all.
  const out = 20e-3;
  const L = 3e-3;
  const a = (gap: number): number => 0.65 * L + 2e-4 * (1 / (0.02 + gap / 0.02) - 1 / 1.02);
  const q = (gap: number): number => 0.06 * (1 / (1 + gap / 4e-3) - 1 / 6) ** 2;
  const psi = (gap: number, i: number): number => (i * i) / (1 + Math.sqrt(1 + q(gap) * i * i));
  const M = (gap: number, i: number): number => a(gap) * psi(gap, i);
  const h = 1e-8;
  const force = (gap: number, i: number): number => (M(gap - h, i) - M(gap + h, i)) / (2 * h);
  const flux = (gap: number, i: number): number => 0.35 * L * i + (M(gap, i + 1e-6) - M(gap, i - 1e-6)) / 2e-6;
  const dense = Array.from({ length: 90 }, (_, k) => 2e-4 + (out - 2e-4) * (k / 89) ** 2);
  const read = [3, 9].map((current) => ({ current, gaps: dense, forces: dense.map((gap) => force(gap, current)) }));
  const magnet = magnetOfReadings(forceTable(read), { inductance: { gap: out, value: L } });
  for (const gap of [0.3e-3, 0.5e-3, 1e-3, 3e-3, 8e-3, 16e-3])
    for (const amps of [0.5, 1.5, 3, 5, 9, 12]) {
      near(magnet.at(gap, amps).force, force(gap, amps), 1e-3, `force at ${gap} m, ${amps} A`);
      near(magnet.at(gap, amps).fluxLinkage, flux(gap, amps), 1e-3, `flux linkage at ${gap} m, ${amps} A`);
    }
  assert.match(magnet.approximation ?? '', /one bend at each gap/, 'the sentence says what was taken');
});

test('a force that bends over alike at every gap comes back between, below and beyond two currents', () => {
  const knee = 9;
  const bent = (amps: number): number => knee * knee * (Math.sqrt(1 + (amps / knee) ** 2) - 1);
  const read = [8, 20].map((current) => ({ current, gaps, forces: gaps.map((gap) => f(gap) * bent(current)) }));
  const magnet = magnetOfReadings(forceTable(read));
  for (const gap of gaps)
    for (const amps of [2, 5, 8, 14, 20, 29])
      near(magnet.at(gap, amps).force, f(gap) * bent(amps), 2e-3, `${gap} m, ${amps} A`);
});

test('with one current the force goes as its square', () => {
  const magnet = magnetOfReadings(forceTable([level(20)]));
  for (const gap of gaps)
    for (const amps of [1, 10, 20, 29]) near(magnet.at(gap, amps).force, f(gap) * amps * amps, 2e-3, `${gap} m`);
  assert.match(magnet.approximation ?? '', /square of the current\..*estimated.*factor of 1\.2/, 'and it is said');
});

test('co-energy between two gaps is the work of the force between them, in closed form', () => {
  const dense = Array.from({ length: 80 }, (_, k) => 25e-3 * (k / 79) ** 2);
  const magnet = magnetOfReadings(forceTable([level(20, dense)]));
  for (const [from, to] of [
    [0, 25e-3],
    [1e-3, 8e-3],
  ] as const) {
    const work = 2e-5 * (1 / (from + 1.5e-3) - 1 / (to + 1.5e-3)) * 400;
    near(magnet.at(from, 20).coEnergy - magnet.at(to, 20).coEnergy, work, 2e-4, `from ${from} to ${to} m`);
  }
});

/** Tables at random: pulls fall with the gap and rise with the current, at home by less; read by hand within 2 %. */
const anyTable: fc.Arbitrary<ForceLevel[]> = fc
  .record({
    count: fc.integer({ min: 3, max: 8 }),
    stroke: fc.double({ min: 6e-3, max: 30e-3, noNaN: true }),
    softening: fc.double({ min: 2e-4, max: 4e-3, noNaN: true }),
    home: fc.double({ min: 20, max: 600, noNaN: true }),
    fall: fc.double({ min: 0.8, max: 2.4, noNaN: true }),
    steps: fc.array(fc.double({ min: 1.2, max: 4, noNaN: true }), { maxLength: 2 }),
    inAir: fc.double({ min: 1.6, max: 2.3, noNaN: true }),
    atSeat: fc.double({ min: 0.3, max: 1.2, noNaN: true }),
    reach: fc.double({ min: 0.05, max: 0.5, noNaN: true }),
    errors: fc.array(fc.double({ min: -0.02, max: 0.02, noNaN: true }), { minLength: 24, maxLength: 24 }),
    isPartial: fc.boolean(),
  })
  .map(({ count, stroke, softening, home, fall, steps, inAir, atSeat, reach, errors, isPartial }) => {
    const all = Array.from({ length: count }, (_, k) => 1e-4 + (stroke - 1e-4) * (k / (count - 1)) ** 1.7);
    const currents = steps.reduce((sum, step) => [...sum, (sum.at(-1) ?? 1) * step], [1]);
    return currents.map((current, n) => {
      const at = isPartial && n > 0 ? all.filter((gap) => gap < 0.3 * stroke) : all;
      const forces = at.map((gap, k) => {
        const exponent = inAir + (atSeat - inAir) * Math.exp(-gap / (reach * stroke));
        const error = errors[(n * count + k) % errors.length] ?? 0;
        return home * (softening / (gap + softening)) ** fall * current ** exponent * (1 + error);
      });
      return { current, gaps: at, forces };
    });
  });

test('200 tables at random: every reading is met at every current, and flux rises with current everywhere', () => {
  let contradictions = 0;
  fc.assert(
    fc.property(anyTable, (levels) => {
      const magnet = magnetOfReadings(forceTable(levels));
      assert.deepEqual(fallsOf(magnet), [], 'flux rises');
      const contradicts = levels.some(({ forces }, n) =>
        forces.some((force, k) => force <= (levels[n - 1]?.forces[k] ?? 0)),
      );
      if (contradicts) return void contradictions++;
      for (const { current, gaps: at, forces } of levels)
        at.forEach((gap, k) =>
          near(magnet.at(gap, current).force, forces[k] ?? NaN, 1e-9, `read at ${gap} m, ${current} A`),
        );
    }),
    { seed: 20260101, numRuns: 200 },
  );
  assert.ok(contradictions < 40, `${contradictions} of them fall with the current`);
});

test('the demonstrations: every reading is met, and flux rises with current everywhere', () => {
  let looked = 0;
  for (const { text } of readDemos()) {
    const reading = readJob(text);
    assert.ok(reading.ok, 'a demo reads');
    if (!isSolenoid(reading.job)) continue;
    const magnetic = magnetOf(rigOf(reading.job));
    if (!magnetic.known || magnetic.magnet.approximation === null) continue;
    looked++;
    assert.deepEqual(fallsOf(magnetic.magnet), [], reading.job.name);
    assert.doesNotMatch(magnetic.magnet.approximation, /raised/, `${reading.job.name}: its pulls fit together`);
  }
  assert.ok(looked >= 3, `${looked} demonstrations have pulls`);
});

test('of pulls that contradict each other the one read over fewer gaps gives way, as far as it must', () => {
  const whole = level(20);
  const home = { current: 10, gaps: [0], forces: [1.2 * f(0) * 400] };
  const magnet = magnetOfReadings(forceTable([whole, home]));
  near(magnet.at(0, 20).force, f(0) * 400, 1e-9, 'the one read widely is met');
  near(magnet.at(0, 10).force, f(0) * 400, 1e-9, 'the other comes as near as it may');
  assert.deepEqual(fallsOf(magnet), [], 'flux rises all the same');
  const alike = magnetOfReadings(forceTable([whole, { current: 20.5, gaps: [0], forces: [0.5 * f(0) * 400] }]));
  near(alike.at(0, 20).force, f(0) * 400, 1e-9, 'of two currents within 5 % the one read widely counts');
});

test('the inductance at full stroke: from a reading, else from the pull there within the spread of four solved solenoids', () => {
  const L = 3e-4;
  const small = magnetOfReadings(forceTable([level(20)]), { inductance: { gap: 25e-3, value: L } });
  near(small.at(25e-3, 0.1).fluxLinkage, 0.1 * L, 1e-9, 'as read');
  const atHome = magnetOfReadings(forceTable([level(20)]), {
    inductance: { gap: 0, value: small.at(0, 1).fluxLinkage },
  });
  near(atHome.at(25e-3, 1).fluxLinkage, L, 1e-6, 'the same from a reading at home');
  const contradicted = magnetOfReadings(forceTable([level(20)]), { inductance: { gap: 0, value: 1e-6 } });
  assert.match(contradicted.approximation ?? '', /not used/, 'a reading that the pulls contradict is named');
  // Source: the finite-element reference, computed for this project (data/plunger-solenoid-field.json).
  const { cases } = JSON.parse(
    readFileSync(new URL('../../published/data/plunger-solenoid-field.json', import.meta.url), 'utf8'),
  ) as { cases: { geometry: { name: string; ampere_turns: number[] }; results: number[][] }[] };
  for (const { geometry, results } of cases)
    for (const amps of geometry.ampere_turns) {
      const rows = results.filter(([, ampereTurns]) => ampereTurns === amps);
      const forces = rows.map(([, , force = NaN]) => force);
      const magnet = magnetOfReadings(
        forceTable([{ current: amps, gaps: rows.map(([gap = NaN]) => gap * 1e-3), forces }]),
      );
      const ratio = magnet.at(magnet.mostGap, amps).fluxLinkage / (rows.at(-1)?.[3] ?? NaN);
      assert.ok(ratio > LEAKAGE / 1.35 && ratio < LEAKAGE / 1.05, `${geometry.name} at ${amps}: ${ratio}`);
    }
});

test('it is known between its first and last gap, and up to a half more than the greatest current', () => {
  const magnet = magnetOfReadings(forceTable([level(8, [1e-3, 5e-3]), level(20, [0.5e-3, 9e-3, 12e-3])]));
  near(magnet.leastGap, 0.5e-3, 1e-12, 'first gap');
  near(magnet.mostGap, 12e-3, 1e-12, 'last gap');
  near(magnet.mostAmpereTurns, 30, 1e-12, 'current');
});

test('what has no meaning is refused', () => {
  const refused = (build: () => unknown): void => assert.throws(build, { name: 'DomainError', code: 'SW-M070' });
  refused(() => magnetOfReadings(forceTable([level(20, [1e-3])])));
  refused(() => magnetOfReadings(forceTable([level(20)]), { leakage: 0 }));
  refused(() => magnetOfReadings(forceTable([level(20)]), { inductance: { gap: 0, value: -1 } }));
  refused(() => magnetOfReadings(forceTable([level(20)]), { inductance: { gap: 0, value: NaN } }));
});
