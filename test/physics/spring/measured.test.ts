/** Springs known by two readings: they agree with the spring that was read, carry the ±, and say what cannot be. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  exact,
  measuredShaftSpring,
  measuredSpring,
  type Band,
  type Measured,
} from '../../../src/physics/spring/measured.ts';
import { shaftSpringMoment } from '../../../src/physics/spring/torsion.ts';
import { springForce, type WorkingSpring } from '../../../src/physics/spring/working.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const about = (value: number, half: number): Band => ({ low: value - half, value, high: value + half });

function known(found: Measured) {
  assert.ok(found.ok, 'ok' in found && !found.ok ? found.contradiction : '');
  return found.spring;
}

const near = (actual: number, expected: number, what: string, tolerance = 1e-9) =>
  assert.ok(
    Math.abs(actual - expected) <= tolerance * Math.max(1, Math.abs(expected)),
    `${what}: ${actual}, ${expected}`,
  );

test('two readings of a spring give that spring back, whichever is read first', () => {
  const drawn = fc.record({ isDrawn: fc.boolean(), rate: share, free: share, tension: share, one: share, two: share });
  fc.assert(
    fc.property(drawn, ({ isDrawn, rate, free, tension, one, two }) => {
      const kind = isDrawn ? 'extension' : 'compression';
      const spring: WorkingSpring = {
        kind,
        rate: 100 + 5000 * rate,
        freeLength: 0.05 + 0.05 * free,
        initialTension: isDrawn ? 8 * tension : 0,
      };
      const away = isDrawn ? 1 : -1;
      const near1 = spring.freeLength + away * (0.001 + 0.01 * one);
      const far = near1 + away * (0.005 + 0.02 * two);
      const read = (length: number) => ({ at: exact(length), load: exact(springForce(spring, length)) });
      for (const [first, second] of [
        [near1, far],
        [far, near1],
      ] as const) {
        const found = known(measuredSpring(kind, read(first), read(second), exact(spring.freeLength)));
        near(found.rate.value, spring.rate, 'rate');
        near(found.initialTension.value, spring.initialTension, 'initial tension', 1e-8);
        if (!isDrawn) near(found.free.value, spring.freeLength, 'free length');
        assert.deepEqual(found.cautions, []);
        // Without a free length the same force at the readings and between them.
        const bare = known(measuredSpring(kind, read(first), read(second), null));
        const asLine: WorkingSpring = { kind, rate: bare.rate.value, freeLength: bare.free.value, initialTension: 0 };
        const between = (first + second) / 2;
        near(springForce(asLine, between), springForce(spring, between), 'force between the readings', 1e-7);
      }
    }),
    { numRuns: 200, seed: 11 },
  );
});

test('the ± is carried: no spring that fits the readings lies outside the bands', () => {
  const wobble = fc.array(share, { minLength: 5, maxLength: 5 });
  let widest = 0;
  fc.assert(
    fc.property(wobble, (at) => {
      const ends = [about(0.06, 5e-4), about(12, 0.5), about(0.085, 5e-4), about(40, 1), about(0.052, 5e-4)];
      const [l1, f1, l2, f2, l0] = ends as [Band, Band, Band, Band, Band];
      const found = known(measuredSpring('extension', { at: l1, load: f1 }, { at: l2, load: f2 }, l0));
      const true_ = ends.map((band, i) => band.low + (at[i] ?? 0) * (band.high - band.low));
      const inside = known(
        measuredSpring(
          'extension',
          { at: exact(true_[0]), load: exact(true_[1]) },
          { at: exact(true_[2]), load: exact(true_[3]) },
          exact(true_[4]),
        ),
      );
      const within = (one: number, band: Band) => one >= band.low - 1e-9 && one <= band.high + 1e-9;
      assert.ok(within(inside.rate.value, found.rate), `rate ${inside.rate.value}`);
      assert.ok(within(inside.initialTension.value, found.initialTension), `tension ${inside.initialTension.value}`);
      widest = Math.max(widest, Math.abs(inside.rate.value - found.rate.value));
    }),
    { numRuns: 400, seed: 12 },
  );
  // And the band is no wider than it must be: 28 N in 25 mm, ± 1.5 N and ± 1 mm.
  const found = known(
    measuredSpring(
      'extension',
      { at: about(0.06, 5e-4), load: about(12, 0.5) },
      { at: about(0.085, 5e-4), load: about(40, 1) },
      null,
    ),
  );
  near(found.rate.low, 26.5 / 0.026, 'lowest rate');
  near(found.rate.high, 29.5 / 0.024, 'highest rate');
  assert.ok(widest > 0.5 * (found.rate.value - found.rate.low), 'the random springs reach far into the band');
});

test('what cannot be is said', () => {
  const read = (at: number, load: number) => ({ at: exact(at), load: exact(load) });
  const says = (found: Measured, contradiction: string) =>
    assert.equal(found.ok ? 'nothing' : found.contradiction, contradiction);
  says(measuredSpring('extension', read(0.06, 10), read(0.06, 20), null), 'both readings at one place');
  says(measuredSpring('extension', read(0.06, 20), read(0.08, 10), null), 'rate not above zero');
  says(measuredSpring('extension', read(0.06, 10), read(0.08, 10), null), 'rate not above zero');
  says(measuredSpring('compression', read(0.06, 10), read(0.08, 20), null), 'rate not above zero');
  // Drawn: 1 N/mm, no force at 50 mm, yet said to be 45 mm long with nothing on it: its coils would have parted by nothing.
  says(measuredSpring('extension', read(0.06, 10), read(0.08, 30), exact(0.045)), 'slack before its free length');
  says(measuredSpring('extension', read(0.06, 10), read(0.08, 30), exact(0.065)), 'loaded at its free length');
  says(measuredSpring('compression', read(0.06, 10), read(0.04, 30), exact(0.055)), 'loaded at its free length');
  says(measuredSpring('compression', read(0.06, 10), read(0.04, 30), exact(0.09)), 'slack before its free length');
  says(measuredSpring('compression', read(0.06, 10), read(0.04, 30), exact(0.075)), 'slack before its free length');
  assert.equal(measuredSpring('compression', read(0.06, 10), read(0.04, 30), exact(0.072)).ok, true);
  says(measuredShaftSpring(1, read(1, 0.2), read(2, 0.3)), 'rate not above zero');
  assert.equal(measuredShaftSpring(-1, read(1, 0.2), read(2, 0.3)).ok, true);
});

test('readings too close together for their ± leave the rate open, and a reading that was not taken stays unknown', () => {
  const found = known(
    measuredSpring(
      'extension',
      { at: about(0.06, 1e-3), load: exact(10) },
      { at: about(0.061, 1e-3), load: exact(11) },
      null,
    ),
  );
  assert.ok(found.cautions.includes('readings too close together for their ±'), 'a caution');
  assert.deepEqual([found.rate.low, found.rate.high], [0, Infinity]);
  const missing = measuredSpring(
    'extension',
    { at: exact(0.06), load: exact(Number.NaN) },
    { at: exact(0.08), load: exact(11) },
    null,
  );
  assert.ok(missing.ok && Number.isNaN(missing.spring.rate.value), 'not known');
});

test('a torsion spring read at two shaft angles gives its moment back, and none beyond where its legs rest', () => {
  for (const drives of [1, -1] as const) {
    const spring = { drives, rate: 0.4, freeAngle: 1.2 };
    const wound = [1.2 - drives * 0.3, 1.2 - drives * 1.1].map((at) => ({
      at: exact(at),
      load: exact(Math.abs(shaftSpringMoment(spring, at))),
    }));
    const found = known(measuredShaftSpring(drives, wound[0], wound[1]));
    near(found.rate.value, 0.4, 'rate');
    near(found.free.value, 1.2, 'free angle');
    assert.equal(Math.abs(shaftSpringMoment(spring, 1.2 + drives * 0.1)), 0);
    assert.ok(drives * shaftSpringMoment(spring, 1.2 - drives * 0.1) > 0, 'it drives the way it says');
  }
});
