/** Moments of the lever come back from the readings that they were made of. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../src/physics/domain-error.ts';
import {
  effortCurve,
  frictionMoment,
  outsideReadings,
  steadyMoment,
  type EffortReading,
} from '../../src/physics/load.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const surveys = fc.record({
  zero: share.map((n) => 2 * n - 1),
  readings: fc.array(fc.record({ step: share, radius: share, steady: share, friction: share, offSquare: share }), {
    minLength: 1,
    maxLength: 8,
  }),
});

/** Readings as a balance would show them on a lever of known moments. */
function survey({ zero, readings }: typeof surveys extends fc.Arbitrary<infer T> ? T : never) {
  let angle = 0.5;
  const rows = readings.map((drawn) => {
    angle += 0.05 + drawn.step / 3;
    const radius = 0.03 + drawn.radius / 20;
    const offSquare = drawn.offSquare - 0.5;
    const [steady, friction] = [2 * drawn.steady - 0.5, drawn.friction / 2];
    // The balance pulls off square, so only its share square to the arm turns the lever.
    const balance = (moment: number) => moment / (radius * Math.cos(offSquare)) + zero;
    return {
      steady,
      friction,
      reading: { angle, radius, offSquare, pull: balance(steady + friction), easingBack: balance(steady - friction) },
    };
  });
  return { zero, rows };
}

test('M+ and M- come back at every reading, whatever the balance showed with nothing on it and however it was held', () => {
  fc.assert(
    fc.property(surveys.map(survey), ({ zero, rows }) => {
      const readings: EffortReading[] = rows.map(({ reading }) => reading);
      const curve = effortCurve([...readings].reverse(), zero);
      for (const { steady, friction, reading } of rows) {
        assert.equal(Math.abs(steadyMoment(curve, reading.angle) - steady) < 1e-12, true);
        assert.equal(Math.abs(frictionMoment(curve, reading.angle) - friction) < 1e-12, true);
        assert.equal(outsideReadings(curve, reading.angle), 0);
      }
    }),
    { numRuns: 200, seed: 1 },
  );
});

test('between readings no moment leaves the range of its two neighbours', () => {
  fc.assert(
    fc.property(surveys.map(survey), share, ({ zero, rows }, at) => {
      const curve = effortCurve(
        rows.map(({ reading }) => reading),
        zero,
      );
      for (let i = 1; i < rows.length; i++) {
        const [a, b] = [rows[i - 1], rows[i]];
        const angle = a.reading.angle + at * (b.reading.angle - a.reading.angle);
        for (const [value, ends] of [
          [steadyMoment(curve, angle), [a.steady, b.steady]],
          [frictionMoment(curve, angle), [a.friction, b.friction]],
        ] as const) {
          assert.equal(value >= Math.min(...ends) - 1e-12 && value <= Math.max(...ends) + 1e-12, true);
        }
      }
    }),
    { numRuns: 200, seed: 2 },
  );
});

test('beyond the readings the end value is held, and the distance is told', () => {
  const reading = (angle: number, pull: number): EffortReading => ({
    angle,
    radius: 0.05,
    pull,
    easingBack: pull - 4,
    offSquare: 0,
  });
  const curve = effortCurve([reading(1, 10), reading(1.5, 20)], 0);
  assert.equal(steadyMoment(curve, 0.8), steadyMoment(curve, 1));
  assert.equal(steadyMoment(curve, 2), steadyMoment(curve, 1.5));
  assert.equal(Math.abs(outsideReadings(curve, 0.8) - 0.2) < 1e-15, true);
  assert.equal(Math.abs(outsideReadings(curve, 1.75) - 0.25) < 1e-15, true);
  assert.equal(outsideReadings(curve, 1.2), 0);
  assert.equal(Number.isNaN(steadyMoment(curve, Number.NaN)), true);
});

test('no reading, or two at one angle, is refused', () => {
  const reading: EffortReading = { angle: 1, radius: 0.05, pull: 10, easingBack: 6, offSquare: 0 };
  const refused = (error: unknown) => error instanceof DomainError && error.code === 'SW-D010';
  assert.throws(() => effortCurve([], 0), refused);
  assert.throws(() => effortCurve([reading, { ...reading, pull: 12 }], 0), refused);
});
