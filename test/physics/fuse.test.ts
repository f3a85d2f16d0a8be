/** Fuse curves: falling, inside their gates, silent outside them, and bounds that hold there. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../src/physics/domain-error.ts';
import {
  fuseBands,
  fuseDerating,
  fusesOf,
  greatestRating,
  opensNotAfter,
  opensNotBefore,
  timeToOpen,
  type Fuse,
} from '../../src/physics/fuse.ts';

const fuses = fc.constantFrom(...fusesOf('blade'), ...fusesOf('large blade'));
/** Multiples of the rating, from half to a short circuit. */
const multiples = fc.nat(1_000_000).map((n) => 0.5 * 100 ** (n / 1_000_000));

test('more current never opens a fuse later, by the curve or by the bounds', () => {
  fc.assert(
    fc.property(fuses, multiples, multiples, (fuse, a, b) => {
      const [low, high] = [Math.min(a, b) * fuse.rating, Math.max(a, b) * fuse.rating];
      const slack = 1 + 1e-9;
      for (const side of ['fastest', 'slowest'] as const) {
        const [atLow, atHigh] = [timeToOpen(fuse, low)[side], timeToOpen(fuse, high)[side]];
        if (atLow !== null && atHigh !== null) assert.ok(atHigh <= atLow * slack, `${side}: ${atLow} s, ${atHigh} s`);
      }
      for (const known of [opensNotBefore, opensNotAfter]) {
        assert.ok(known(fuse, high).seconds <= known(fuse, low).seconds * slack, known.name);
        assert.ok(known(fuse, high).assured <= known(fuse, low).assured, known.name);
      }
    }),
    { numRuns: 1000, seed: 1 },
  );
});

test('the soonest is never after the latest, and the curve lies between what the gates promise', () => {
  fc.assert(
    fc.property(fuses, multiples, (fuse, multiple) => {
      const current = multiple * fuse.rating;
      const { fastest, slowest } = timeToOpen(fuse, current);
      if (fastest !== null && slowest !== null) assert.ok(fastest < slowest, `${fastest} s, ${slowest} s`);
      const soonest = opensNotBefore(fuse, current);
      const latest = opensNotAfter(fuse, current);
      assert.ok(soonest.assured <= soonest.seconds && soonest.seconds < latest.seconds, 'soonest');
      assert.ok(latest.seconds <= latest.assured, 'latest');
      if (fastest !== null) assert.equal(soonest.seconds, fastest);
      if (slowest !== null) assert.ok(Math.abs(latest.seconds / slowest - 1) < 1e-12, 'latest is the curve');
      // Outside the gates the curve is silent and the bound says that it is one.
      assert.equal(soonest.basis === 'read', fastest !== null, 'basis of the soonest');
      assert.equal(latest.basis === 'read', slowest !== null, 'basis of the latest');
    }),
    { numRuns: 1000, seed: 2 },
  );
});

test('straight on logarithmic paper: at the geometric middle of two gates, the geometric middle of their times', () => {
  for (const [series, bands] of Object.entries(fuseBands) as [Fuse['series'], (typeof fuseBands)['blade']][]) {
    for (const { ratings, gates } of bands) {
      for (let i = 1; i < gates.length; i++) {
        const [x0, , t0] = gates[i - 1];
        const [x1, , t1] = gates[i];
        if (t0 === null || t1 === null) continue;
        for (const rating of ratings) {
          const { slowest } = timeToOpen({ series, rating }, rating * Math.sqrt(x0 * x1));
          assert.ok(Math.abs((slowest ?? NaN) / Math.sqrt(t0 * t1) - 1) < 1e-9, `${rating} A ${series}`);
        }
      }
    }
  }
});

test('outside the gates: silence from the curve, and bounds', () => {
  const fuse: Fuse = { series: 'blade', rating: 10 };
  assert.deepEqual(timeToOpen(fuse, 10.9), { fastest: null, slowest: null });
  assert.deepEqual(timeToOpen(fuse, 60.1), { fastest: null, slowest: null });
  assert.deepEqual(opensNotBefore(fuse, 5), { seconds: 360_000, assured: 360_000, basis: 'bound' });
  assert.deepEqual(opensNotBefore(fuse, 61), { seconds: 0, assured: 0, basis: 'bound' });
  assert.deepEqual(opensNotAfter(fuse, 13.4), { seconds: Infinity, assured: Infinity, basis: 'bound' });
  // Twelve times the rating: a quarter of the time at six, by the same current² × time.
  const short = opensNotAfter(fuse, 120);
  assert.ok(
    Math.abs(short.seconds - 0.025) < 1e-15 && short.assured === 0.1 && short.basis === 'bound',
    'short circuit',
  );
});

test('current² × time falls with current along every slowest curve, which the bound of a short circuit leans on', () => {
  for (const bands of Object.values(fuseBands)) {
    for (const { gates } of bands) {
      const heat = gates.flatMap(([x, , latest]) => (latest === null ? [] : [x * x * latest]));
      for (let i = 1; i < heat.length; i++) assert.ok(heat[i] < heat[i - 1], heat.join(', '));
    }
  }
});

test('a warm fuse is a smaller fuse', () => {
  fc.assert(
    fc.property(fc.integer({ min: 240, max: 420 }), fc.integer({ min: 0, max: 60 }), (kelvin, more) => {
      assert.equal(fuseDerating(kelvin + more) <= fuseDerating(kelvin), true);
    }),
    { numRuns: 200, seed: 3 },
  );
  const fuse: Fuse = { series: 'large blade', rating: 40 };
  const warm = timeToOpen(fuse, 80, 0.5);
  assert.deepEqual(warm, timeToOpen({ series: 'large blade', rating: 20 }, 80));
  assert.equal(fuseDerating(400), 0);
  assert.equal(opensNotBefore(fuse, 1, 0).seconds, 0);
});

test('what has no meaning is refused', () => {
  const refused = (call: () => unknown) =>
    assert.throws(call, (error) => error instanceof DomainError && error.code === 'SW-D069');
  refused(() => timeToOpen({ series: 'blade', rating: 50 }, 20));
  refused(() => timeToOpen({ series: 'blade', rating: 0 }, 20));
  // A fitted fuse of a rating that is not in the list goes by the same multiples.
  assert.deepEqual(timeToOpen({ series: 'blade', rating: 12 }, 24), { fastest: 0.15, slowest: 5 });
  assert.equal(greatestRating('blade'), 40);
  refused(() => opensNotAfter({ series: 'blade', rating: 10 }, 0));
  refused(() => opensNotBefore({ series: 'blade', rating: 10 }, 10, 1.2));
  refused(() => fuseDerating(NaN));
});
