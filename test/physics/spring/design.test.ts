/** A spring to order: every offer keeps every limit when it is reckoned anew, and a closed question says what closes it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { DomainError } from '../../../src/physics/domain-error.ts';
import { designSpring, wantedRate } from '../../../src/physics/spring/design/design.ts';
import type { Limit, Offer, SpringQuestion } from '../../../src/physics/spring/design/question.ts';
import { loadTolerance } from '../../../src/physics/spring/tolerance.ts';
import { standardWireDiameters, wireStrength } from '../../../src/physics/spring/wire.ts';

const mm = 1e-3;
const extension: SpringQuestion = {
  kind: 'extension',
  first: { length: 75 * mm, least: 14, most: 18 },
  second: { length: 95 * mm, least: 38, most: 46 },
  wires: ['EN 10270-1 SM', 'EN 10270-3 1.4310'],
  space: { outsideMost: 20 * mm, insideLeast: null, freeLengthMost: null },
  grade: 2,
  windowsHold: 'nominal',
  seating: 'both ends held parallel',
  moving: null,
  reserve: 0.1,
  hottest: 353.15,
};
const compression: SpringQuestion = {
  ...extension,
  kind: 'compression',
  first: { length: 60 * mm, least: 6, most: 8 },
  second: { length: 30 * mm, least: 13, most: 15 },
  space: { outsideMost: 22 * mm, insideLeast: 12 * mm, freeLengthMost: 120 * mm },
};

/** The offer reckoned from its drawing alone, by formulas written out here. */
function assertKept(question: SpringQuestion, { specification: s }: Offer): void {
  const isDrawn = question.kind === 'extension';
  const G = s.wire === 'EN 10270-3 1.4310' ? 73e9 : 81.5e9;
  const E = s.wire === 'EN 10270-3 1.4310' ? 185e9 : 206e9;
  const d = s.wireDiameter;
  const D = s.outsideDiameter - d;
  const n = isDrawn ? s.totalTurns + G / E : s.totalTurns - 2;
  assert.ok(standardWireDiameters.includes(d), 'stocked wire');
  assert.ok(D / d >= 3.999 && D / d <= 16.001, `index ${D / d}`);
  assert.equal((2 * s.totalTurns) % 1, 0, 'whole and half turns');
  const rate = (G * d ** 4) / (8 * D ** 3 * n);
  assert.ok(Math.abs(rate / s.rate - 1) < 1e-9, 'rate');
  for (const [i, window] of [question.first, question.second].entries()) {
    const load = s.loads[i];
    const force = isDrawn
      ? s.initialTension + rate * (load.length - s.freeLength)
      : rate * (s.freeLength - load.length);
    assert.ok(Math.abs(force - load.force) < 1e-9, `${load.name} ${force}, ${load.force}`);
    assert.ok(force >= window.least - 1e-9 && force <= window.most + 1e-9, `${load.name} in its window: ${force}`);
    const stress = (8 * D * force) / (Math.PI * d ** 3);
    assert.ok(Math.abs(stress / load.stress - 1) < 1e-9, 'stress');
    const w = D / d;
    const allowed = (isDrawn ? 0.45 / ((w + 0.5) / (w - 0.75)) : 0.56) * wireStrength(s.wire, d);
    assert.ok(stress <= allowed * (1 - question.reserve) * (1 + 1e-9), `stress ${stress} of ${allowed}`);
  }
  const { outsideMost, insideLeast, freeLengthMost } = question.space;
  if (outsideMost !== null) assert.ok(s.outsideDiameter + s.diameterTolerance <= outsideMost, 'hole');
  if (insideLeast !== null) assert.ok(D - d - s.diameterTolerance >= insideLeast, 'rod');
  if (freeLengthMost !== null) assert.ok(s.freeLength <= freeLengthMost, 'free length');
  if (isDrawn) {
    assert.ok(
      s.freeLength <= question.first.length && s.initialTension <= 0.9 * s.loads[0].force + 6e-5 * s.rate,
      'coils have parted',
    );
    assert.ok(Math.abs(s.freeLength - (s.totalTurns + 1) * d - 2 * s.hookLength!) < 1e-9, 'body and two hooks');
    assert.ok(s.hookLength! >= 0.8 * (D - d) * (1 - 1e-9), 'hooks are long enough');
  } else {
    const solid = (s.totalTurns + (s.ends === 'closed' ? 1.5 : 0)) * d;
    assert.ok(question.second.length >= solid + n * ((0.0015 * D * D) / d + 0.1 * d) - 1e-9, 'coils do not touch');
    const solidStress = (8 * D * rate * (s.freeLength - solid)) / (Math.PI * d ** 3);
    assert.ok(solidStress <= 0.56 * wireStrength(s.wire, d) * (1 + 1e-9), 'may be pressed solid');
  }
}

test('every offer keeps what was asked, reckoned anew from its drawing', () => {
  const halfKept: SpringQuestion = {
    ...compression,
    reserve: 0.5,
    seating: 'guided along its length',
    space: { outsideMost: null, insideLeast: null, freeLengthMost: null },
  };
  for (const question of [extension, compression, { ...extension, reserve: 0.5 }, halfKept]) {
    const { offers, considered, closed } = designSpring(question, 1000);
    assert.ok(offers.length > (question.reserve > 0.1 ? 3 : 20), `${question.kind}: ${offers.length} of ${considered}`);
    assert.equal(closed, null);
    for (const offer of offers) assertKept(question, offer);
  }
});

test('the best first: stress in tenths, then buckling, then mass', () => {
  for (const question of [extension, compression]) {
    const { offers } = designSpring(question, 1000);
    const tenth = ({ used }: Offer) =>
      Math.max(5, Math.ceil(10 * Math.max(used['static stress'] ?? 0, used['stress of the hooks'] ?? 0)));
    offers.slice(1).forEach((offer, i) => {
      const before = offers[i];
      assert.ok(tenth(offer) >= tenth(before), 'stress');
      if (tenth(offer) === tenth(before) && question.kind === 'extension')
        assert.ok(offer.specification.mass >= before.specification.mass, 'mass');
    });
  }
});

test('no spring that fits is missed: all of a coarse list of coils are wound and reckoned by hand', () => {
  // Compression without any limit of space: for each wire and half turns, the diameter that gives the rate.
  const free: SpringQuestion = {
    ...compression,
    wires: ['EN 10270-1 SM'],
    space: { outsideMost: null, insideLeast: null, freeLengthMost: null },
    seating: 'guided along its length',
  };
  const rate = wantedRate(free);
  const { offers } = designSpring(free, 10_000);
  let missed = 0;
  let fitting = 0;
  for (const d of standardWireDiameters) {
    for (let n = 2; n <= 60; n += 0.5) {
      const D = Math.cbrt((81.5e9 * d ** 4) / (8 * n * rate));
      const w = D / d;
      if (w < 4.1 || w > 15.9 || Number.isNaN(wireStrength('EN 10270-1 SM', d))) continue;
      const freeLength = free.second.length + 14 / rate;
      const solid = (n + 2 + (d < 0.5e-3 ? 1.5 : 0)) * d;
      const Rm = wireStrength('EN 10270-1 SM', d);
      const stress = (F: number) => (8 * D * F) / (Math.PI * d ** 3 * 0.56 * Rm);
      const fits =
        stress(14) < 0.89
        && stress(rate * (freeLength - solid)) < 0.99
        && (freeLength - free.second.length) * 1.01 < freeLength - solid - n * ((0.0015 * D * D) / d + 0.1 * d);
      if (!fits) continue;
      fitting++;
      // Offers stand at every half step of the index: one of the same wire is no further away.
      const isFound = offers.some(
        ({ specification: one }) =>
          one.wireDiameter === d
          && Math.abs(one.meanCoilDiameter / d - w) <= 0.51
          && Math.abs(one.activeTurns - n) <= n / 3 + 1,
      );
      if (!isFound) missed++;
    }
  }
  assert.ok(fitting > 60, `${fitting} fit`);
  assert.equal(missed, 0, `${missed} of ${fitting} have no offer beside them`);
  const wires = new Set(offers.map((one) => one.specification.wireDiameter));
  assert.ok(wires.size >= 5, 'every wire that can do it is offered');
});

test('where nothing fits, the limit that closes it is named, and moving it opens the question', () => {
  const cases: readonly (readonly [SpringQuestion, Limit, SpringQuestion])[] = [
    [
      { ...compression, space: { ...compression.space, outsideMost: 12 * mm, insideLeast: null } },
      'outside diameter',
      { ...compression, space: { ...compression.space, outsideMost: 40 * mm, insideLeast: null } },
    ],
    [
      { ...compression, space: { ...compression.space, freeLengthMost: 80 * mm } },
      'free length',
      { ...compression, space: { ...compression.space, freeLengthMost: 100 * mm } },
    ],
    [{ ...extension, reserve: 0.9 }, 'static stress', { ...extension, reserve: 0.5 }],
  ];
  for (const [question, limit, opened] of cases) {
    const { offers, closed } = designSpring(question);
    assert.equal(offers.length, 0, limit);
    assert.ok(closed !== null && closed.limits.length > 0, 'said');
    assert.ok(closed.used > 1, String(closed.used));
    assert.equal(closed.limits[0], closed.limit);
    assert.ok(
      closed.limits.includes(limit) || (closed.aloneStops[limit] ?? 0) > 0,
      `${limit}: ${closed.limits.join(', ')}`,
    );
    assert.ok(designSpring(opened).offers.length > 0, `${limit} opened`);
  }
});

test('narrower windows, less room and more reserve never bring an offer more', () => {
  const count = (question: SpringQuestion) => designSpring(question, 10_000).offers.length;
  for (const question of [extension, compression]) {
    const all = count(question);
    const tighter: readonly SpringQuestion[] = [
      { ...question, reserve: 0.3 },
      { ...question, space: { ...question.space, outsideMost: 15 * mm } },
      { ...question, grade: 3, windowsHold: 'with tolerance' },
      { ...question, moving: 'plain' },
    ];
    for (const one of tighter) assert.ok(count(one) <= all, `${count(one)} of ${all}`);
    assert.ok(count({ ...question, moving: 'shot peened' }) >= count({ ...question, moving: 'plain' }), 'peened');
  }
});

test('with tolerance every spring of the grade keeps both windows', () => {
  const wide: SpringQuestion = {
    ...compression,
    first: { length: 60 * mm, least: 10, most: 22 },
    second: { length: 40 * mm, least: 25, most: 42 },
    windowsHold: 'with tolerance',
    grade: 1,
  };
  const { offers } = designSpring(wide, 500);
  assert.ok(offers.length > 0, 'some');
  for (const { specification: s, keepsWindowsInGrade } of offers) {
    assert.equal(keepsWindowsInGrade, true);
    const helical = {
      wireDiameter: s.wireDiameter,
      meanCoilDiameter: s.meanCoilDiameter,
      activeTurns: s.activeTurns,
      shearModulus: 0,
    };
    for (const [i, window] of [wide.first, wide.second].entries()) {
      const { force, tolerance } = s.loads[i];
      assert.ok(Math.abs(tolerance - loadTolerance(helical, force, 1)) < 1e-12, 'tolerance');
      assert.ok(
        force - tolerance >= window.least - 1e-9 && force + tolerance <= window.most + 1e-9,
        `${force} ± ${tolerance}`,
      );
    }
  }
});

test('any question is answered in plain numbers, with offers or with what closes it', () => {
  const share = fc.nat(1000).map((n) => n / 1000);
  const questions = fc
    .record({ isDrawn: fc.boolean(), at: share, travel: share, force: share, rise: share, width: share, room: share })
    .map(({ isDrawn, at, travel, force, rise, width, room }): SpringQuestion => {
      const near = 0.03 + 0.15 * at;
      const far = near * (1 + 0.1 + 0.8 * travel);
      const F1 = 0.5 + 60 * force;
      const F2 = F1 * (1.1 + 3 * rise);
      const half = 0.02 + 0.2 * width;
      const window = (length: number, F: number) => ({ length, least: F * (1 - half), most: F * (1 + half) });
      return {
        ...(isDrawn ? extension : compression),
        first: window(isDrawn ? near : far, F1),
        second: window(isDrawn ? far : near, F2),
        space: { outsideMost: 0.005 + 0.04 * room, insideLeast: null, freeLengthMost: null },
        wires: ['EN 10270-1 SH'],
      };
    });
  let offered = 0;
  fc.assert(
    fc.property(questions, (question) => {
      const answer = designSpring(question, 3);
      for (const offer of answer.offers) assertKept(question, offer);
      offered += answer.offers.length > 0 ? 1 : 0;
      assert.equal(answer.offers.length > 0, answer.closed === null);
      if (answer.closed !== null) assert.ok(answer.closed.used > 1, `closed by ${answer.closed.limit}`);
      const shown = answer.offers[0] ?? answer.closed?.nearest;
      if (shown !== undefined && shown !== null)
        for (const value of Object.values(shown.specification))
          assert.ok(typeof value !== 'number' || Number.isFinite(value), String(value));
    }),
    { numRuns: 40, seed: 41 },
  );
  assert.ok(offered > 8, `${offered} of 40 have an offer`);
});

test('a question without meaning is refused', () => {
  const refused = (change: Partial<SpringQuestion>) =>
    assert.throws(
      () => designSpring({ ...compression, ...change }),
      (error) => error instanceof DomainError && error.code === 'SW-D003',
    );
  refused({ first: { ...compression.first, most: 6 } });
  refused({ first: { ...compression.first, length: Number.NaN } });
  refused({ first: compression.second, second: compression.first });
  refused({ second: { ...compression.second, least: 5, most: 8 } });
  refused({ kind: 'extension' });
  refused({ reserve: 1 });
  refused({ wires: [] });
});
