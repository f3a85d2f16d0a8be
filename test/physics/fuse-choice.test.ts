/** Choosing a fuse: each demand by itself, the window between them, what closes it and what would open it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { pullInCurrents, shortCircuitCurrent } from '../../src/physics/circuit.ts';
import { copperResistance } from '../../src/physics/coil.ts';
import { adiabaticTime, conductorResistance } from '../../src/physics/conductor.ts';
import { DomainError } from '../../src/physics/domain-error.ts';
import { chooseFuse, judgeFuse, type FuseQuestion } from '../../src/physics/fuse-choice.ts';
import { opensNotAfter, opensNotBefore } from '../../src/physics/fuse.ts';

const question: FuseQuestion = {
  pullInCurrent: 34,
  pullTime: 0.1,
  holdCurrent: 1,
  hotStallCurrent: 27,
  coilLimitTime: 30,
  shortCircuitCurrent: 250,
  section_m2: 2.5e-6,
  conductorBefore: 343.15,
  conductorLimit: 433.15,
  hottest: 293.15,
  coldest: 263.15,
  series: ['blade'],
};

const ratings = (asked: FuseQuestion) => chooseFuse(asked).fitting.map(({ fuse }) => fuse.rating);

/** A pull winding of 0.33 ohm on a 12 V boat, 2.5 mm² out and back. */
function boat(length: number): FuseQuestion {
  const run = (temperature: number) => conductorResistance(2.5e-6, length, temperature);
  const winding = (temperature: number) => copperResistance(0.33, 293.15, temperature);
  const coil = (temperature: number) => ({ stages: 'single coil', resistance: winding(temperature) }) as const;
  return {
    ...question,
    pullInCurrent: pullInCurrents({ source: 14.4, resistance: 0.01 + run(273.15) }, coil(273.15)).supply,
    hotStallCurrent: pullInCurrents({ source: 12, resistance: 0.03 + run(333.15) }, coil(373.15)).supply,
    shortCircuitCurrent: shortCircuitCurrent({ source: 12, resistance: 0.03 + run(333.15) }),
  };
}

test('a rating below the pull-in current is taken where its curves allow, and only there', () => {
  const { fitting, verdicts, closedBy, best } = chooseFuse(question);
  assert.deepEqual(
    fitting.map(({ fuse }) => fuse.rating),
    [15],
  );
  assert.equal(best?.fuse.rating, 15);
  assert.deepEqual(closedBy, []);
  assert.equal(verdicts.length, 11);
  assert.deepEqual(judgeFuse(question, { series: 'blade', rating: 20 }), verdicts[6]);
  const of = (rating: number) => verdicts.find(({ fuse }) => fuse.rating === rating);
  assert.deepEqual(of(10)?.fails, ['outlasts the pull']);
  assert.deepEqual(of(20)?.fails, ['spares the coil']);
});

test('the margins are those of the curves, asked for one by one', () => {
  const asked = { ...question, hottest: 338.15, ampacity: 25, greatestShortCircuit: 500 };
  for (const { fuse, demands, margin, fails } of chooseFuse(asked).verdicts) {
    const { rating } = fuse;
    const pull = opensNotBefore(fuse, 34, 0.85).seconds / 0.1 - 1;
    const coil = 30 / opensNotAfter(fuse, 27).seconds - 1;
    const stands = adiabaticTime(2.5e-6, 250, 343.15, 433.15);
    const conductor = stands / opensNotAfter(fuse, 250).seconds - 1;
    const expected = [pull, (0.75 * 0.85 * rating) / 1 - 1, coil, conductor, 25 / rating - 1, 1];
    const found = Object.values(demands).map((demand) => demand?.margin ?? NaN);
    for (const [i, value] of expected.entries())
      assert.ok(Math.abs(found[i] - value) <= 1e-9 * (1 + Math.abs(value)), `${rating} A: ${found[i]}, ${value}`);
    assert.equal(margin, Math.min(...found));
    assert.equal(fails.length === 0, margin >= 0);
  }
});

test('what a drawn curve alone promises is told from what the gates promise', () => {
  // 1.2 times a 30 A blade: 0.75 s by the gates, over a quarter of an hour by the line between them.
  const pull = (pullTime: number) =>
    judgeFuse({ ...question, pullInCurrent: 36, pullTime }, { series: 'blade', rating: 30 }).demands[
      'outlasts the pull'
    ];
  assert.deepEqual([pull(0.7)?.assured, pull(0.8)?.assured], [true, false]);
  assert.ok((pull(0.8)?.margin ?? NaN) > 1000, `${pull(0.8)?.margin}`);
  // 1.8 times a 15 A blade: 50 s by the gates, less by the line.
  const coil = (coilLimitTime: number) =>
    judgeFuse({ ...question, coilLimitTime }, { series: 'blade', rating: 15 }).demands['spares the coil'];
  assert.deepEqual([coil(51)?.assured, coil(49)?.assured], [true, false]);
  assert.ok((coil(49)?.margin ?? NaN) > 0, `${coil(49)?.margin}`);
});

test('a longer run changes the choice', () => {
  // Close by the cold pull needs 15 A, which the hot pull still opens. Further off the hot pull is too weak for 15 A and the
  // cold one still too strong for 10 A: nothing does both. Further still 10 A does.
  const quick = (length: number) => ratings({ ...boat(length), pullTime: 0.04, coilLimitTime: 40 });
  assert.deepEqual(quick(1), [15]);
  assert.deepEqual(quick(9), []);
  assert.deepEqual(quick(17), [10]);
  // And a run can be too short: the cold pull opens 15 A at 1 m, not at 3 m.
  const slower = (length: number) => ratings({ ...boat(length), pullTime: 0.06, coilLimitTime: 60 });
  assert.deepEqual(slower(1), []);
  assert.deepEqual(slower(3), [15]);
});

test('where pull and coil leave no room a timer is named, between the pull and the loss of the coil', () => {
  const slow: FuseQuestion = { ...question, pullTime: 1.2, series: ['blade', 'large blade'] };
  const { fitting, closedBy, remedies, best } = chooseFuse(slow);
  assert.deepEqual(fitting, []);
  assert.equal(best, null);
  assert.deepEqual(closedBy, ['outlasts the pull', 'spares the coil']);
  assert.deepEqual(remedies, [{ code: 'timer or thermal cut-out', longerThan: 1.2, shorterThan: 30 }]);
  // With the timer fitted nobody asks the fuse to spare the coil, and one is found.
  assert.notEqual(chooseFuse({ ...slow, coilLimitTime: Infinity }).best, null);
});

test('a coil that does not outlive its pull cannot be helped by a fuse', () => {
  const { remedies } = chooseFuse({ ...question, pullTime: 40 });
  assert.deepEqual(remedies, [{ code: 'coil lost within its pull' }]);
});

test('a thin conductor closes the window, and the section named opens it', () => {
  const thin = { ...question, section_m2: 0.1e-6 };
  const { fitting, closedBy, remedies } = chooseFuse(thin);
  assert.deepEqual(fitting, []);
  // A smaller fuse would spare it, but opens in the pull: either demand closes the window.
  assert.deepEqual(closedBy, ['outlasts the pull', 'spares the conductor']);
  const [remedy] = remedies;
  assert.ok(remedy.code === 'thicker conductor' && remedy.section_m2 !== null, JSON.stringify(remedies));
  assert.notEqual(chooseFuse({ ...thin, section_m2: remedy.section_m2 * 1.0001 }).best, null);
  assert.equal(chooseFuse({ ...thin, section_m2: remedy.section_m2 * 0.999 }).best, null);

  const hot = chooseFuse({ ...question, ampacity: 12 });
  assert.deepEqual(hot.closedBy, ['outlasts the pull', 'within the ampacity']);
  assert.deepEqual(hot.remedies, [{ code: 'thicker conductor', section_m2: null, ampacity: 15 }]);
});

test('a hot box can close the window, and it is said that a cooler place opens it', () => {
  const hot = chooseFuse({ ...question, hottest: 358.15 });
  assert.deepEqual(hot.fitting, []);
  assert.ok(
    hot.remedies.some(({ code }) => code === 'cooler place for the fuse'),
    JSON.stringify(hot.remedies),
  );
  const beyond = chooseFuse({ ...question, hottest: 420 });
  assert.equal(beyond.best, null, 'no fuse at 147 °C');
});

test('more than these fuses carry or break asks for another kind', () => {
  const great = chooseFuse({
    ...question,
    pullInCurrent: 400,
    hotStallCurrent: 390,
    pullTime: 5,
    coilLimitTime: Infinity,
  });
  assert.deepEqual(great.remedies, [{ code: 'another kind of fuse' }]);
  const battery = chooseFuse({ ...question, greatestShortCircuit: 2000 });
  assert.deepEqual(battery.closedBy, ['breaks the short circuit']);
  assert.deepEqual(battery.remedies, [{ code: 'another kind of fuse' }]);
});

test('a coil that may stay on for good asks only that the fuse carries it', () => {
  const small = { ...question, pullInCurrent: 4, hotStallCurrent: 3, pullTime: Infinity, coilLimitTime: Infinity };
  const { fitting } = chooseFuse({ ...small, holdCurrent: 4 });
  // 4 A for good: three quarters of 5 A are 3.75 A.
  assert.equal(fitting[0].fuse.rating, 7.5);
  assert.equal(fitting.length, 8);
});

test('harder questions never have more answers', () => {
  const worse = fc.nat(1000).map((n) => 1 + n / 500);
  fc.assert(
    fc.property(worse, worse, worse, worse, (a, b, c, d) => {
      const easy = { ...question, pullTime: 0.02, coilLimitTime: 300, hottest: 313.15, section_m2: 1e-6 };
      const hard = {
        ...easy,
        pullInCurrent: easy.pullInCurrent * a,
        pullTime: easy.pullTime * b,
        coilLimitTime: easy.coilLimitTime / c,
        hotStallCurrent: easy.hotStallCurrent / d,
        section_m2: easy.section_m2 / c,
      };
      const before = ratings(easy);
      for (const rating of ratings(hard)) assert.ok(before.includes(rating), `${rating} A`);
      const choice = chooseFuse(hard);
      assert.equal(choice.fitting.length === 0, choice.closedBy.length > 0, 'closed by something, or open');
      assert.equal(choice.fitting.length === 0, choice.remedies.length > 0, 'a remedy where it is closed');
    }),
    { numRuns: 300, seed: 1 },
  );
});

test('what has no meaning is refused', () => {
  const refused = (wrong: Partial<FuseQuestion>) =>
    assert.throws(
      () => chooseFuse({ ...question, ...wrong }),
      (error) => error instanceof DomainError && error.code === 'SW-D070',
    );
  refused({ pullInCurrent: 0 });
  refused({ pullTime: NaN });
  refused({ holdCurrent: -1 });
  refused({ shortCircuitCurrent: Infinity });
  refused({ section_m2: 0 });
});
