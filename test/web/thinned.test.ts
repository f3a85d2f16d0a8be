import assert from 'node:assert/strict';
import test from 'node:test';
import * as fc from 'fast-check';
import { thinned } from '../../src/web/time/thinned.ts';

test('a spike of one sample among a million is kept, and the points stay few and in order', () => {
  const time = Float64Array.from({ length: 1_000_000 }, (_, i) => i * 1e-6);
  const current = Float32Array.from(time, (at) => Math.sin(40 * at));
  current[123_456] = 50;
  current[700_001] = -50;
  const { time_s, supplyCurrent_A } = thinned(time, current, 0, 1, 1500);
  assert.ok(time_s.length <= 3002, `${time_s.length}`);
  assert.ok(supplyCurrent_A.includes(50) && supplyCurrent_A.includes(-50));
  assert.ok(time_s.every((at, i) => i === 0 || at > (time_s[i - 1] ?? 0)));
});

test('extremes of any stretch of samples are among the points, and every point is a sample of that stretch', () => {
  const samples = fc.array(fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: -9, max: 9 })), {
    minLength: 1,
    maxLength: 200,
  });
  fc.assert(
    fc.property(samples, fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 100 }), (steps, pieces, start) => {
      let at = 0;
      const time = steps.map(([step]) => (at += step));
      const current = steps.map(([, amps]) => amps);
      const inside = current.filter((_, i) => (time[i] ?? 0) >= start && (time[i] ?? 0) <= at);
      const { time_s, supplyCurrent_A } = thinned(time, current, start, Math.max(at, start), pieces);
      assert.equal(time_s.length, supplyCurrent_A.length);
      if (inside.length === 0 || at <= start) return;
      assert.equal(Math.max(...supplyCurrent_A), Math.max(...inside));
      assert.equal(Math.min(...supplyCurrent_A), Math.min(...inside));
      time_s.forEach((moment, i) =>
        assert.ok(time.some((one, k) => one === moment && current[k] === supplyCurrent_A[i])),
      );
    }),
    { seed: 5, numRuns: 300 },
  );
});

test('few samples are all kept', () => {
  assert.deepEqual(thinned([0, 1, 2], [5, 6, 7], 1, 2, 100), { time_s: [1, 2], supplyCurrent_A: [6, 7] });
});
