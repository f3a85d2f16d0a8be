/** An air cylinder's findings: what more air, a stiffer spring, a longer pipe or no air at all does is what it must do. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { airStudy } from '../../../src/assessment/air/study.ts';
import { assess, isAir } from '../../../src/assessment/assess.ts';
import type { Finding } from '../../../src/assessment/finding.ts';
import type { Job } from '../../../src/job/schema.ts';
import { changed, demo } from '../../job/jobs.ts';
import { randomJob } from '../../job/random-job.ts';
import { assertConsistent, assertPlain } from '../plain-data.ts';
import { cylinders } from './cylinders.ts';

const byId = (job: Job): Map<string, Finding> => new Map(assess(job).findings.map((one) => [one.id, one]));

function findingOf(job: Job, id: string): Finding {
  const found = byId(job).get(id);
  assert.ok(found !== undefined, `no finding ${id}`);
  return found;
}

test('any cylinder in any document is assessed and studied, however odd', () => {
  let seen = 0;
  fc.assert(
    fc.property(randomJob, ({ handStop: _beside, ...job }) => {
      if (!isAir(job)) return;
      seen++;
      assertConsistent(assess(job));
      assertPlain(airStudy(job));
    }),
    { seed: 63, numRuns: 300 },
  );
  assert.ok(seen > 60, `${seen} cylinders`);
});

const [bySpring, byAir, sprung, toRun] = cylinders.map(({ job }) => job);

test('more pressure never takes force away, and less of it fails with the number that would do', () => {
  const margins = ['1 bar', '2 bar', '4 bar', '8 bar'].map(
    (low) => findingOf(changed(bySpring, { 'survey.air.low': low }), 'carries-home').margin!,
  );
  assert.deepEqual(
    margins,
    margins.toSorted((a, b) => a - b),
    'margins rise',
  );
  const weak = findingOf(changed(bySpring, { 'survey.air.low': '1 bar' }), 'carries-home');
  assert.equal(weak.verdict, 'fails', weak.because);
  const [, just = ''] = /([\d.]+ bar) would just do/.exec(weak.because) ?? [];
  const [, enough = ''] = /would just do, ([\d.]+ bar) with the wanted margin/.exec(weak.because) ?? [];
  // Two figures are said, so a twentieth either way.
  const at = (pressure: string, share: number) =>
    findingOf(changed(bySpring, { 'survey.air.low': `${Number.parseFloat(pressure) * share} bar` }), 'carries-home')
      .verdict;
  assert.deepEqual([at(just, 0.95), at(just, 1.05)], ['fails', 'thin'], `just: ${just}`);
  assert.equal(at(enough, 1.05), 'holds', `enough: ${enough}`);
});

test('a pressure below the spring inside is said plainly', () => {
  const stiff = changed(bySpring, { 'means.returns': { preload: '60 N', rate: '2 N/mm' }, 'survey.air.low': '3 bar' });
  const { because, verdict } = findingOf(stiff, 'carries-home');
  assert.equal(verdict, 'fails', because);
  assert.match(because, /The spring inside alone holds up to 140 N/, because);
});

test('no air at all fails what needs air, and says so', () => {
  const none = changed(byAir, { 'survey.air': 'none' });
  for (const id of [
    'moves-from-rest',
    'carries-home',
    'stops-per-vessel',
    'time-to-no-fuel',
    'returns-from-every-gap',
  ]) {
    const { verdict, because } = findingOf(none, id);
    assert.equal(verdict, 'fails', id);
    assert.match(because, /no compressed air/, id);
  }
});

test('air to run: loss of air stops the engine, and the same spring does it in time', () => {
  const lost = findingOf(toRun, 'air-lost');
  assert.equal(lost.question, 'stops', 'what happens without air is how it stops');
  assert.equal(lost.margin, findingOf(toRun, 'returns-from-every-gap').margin, 'nothing but springs either way');
  assert.match(lost.because, /Without air the engine is stopped/, lost.because);
  const slack = changed(toRun, { 'return.springs': [], 'means.returns': { preload: '0 N', rate: '0 N/mm' } });
  assert.equal(findingOf(slack, 'air-lost').verdict, 'fails', 'no spring at all');
  assert.match(findingOf(slack, 'air-lost').because, /only the hand stop/, 'the hand stop is named');
});

test('a cylinder that air brings back stays where it is without air', () => {
  assert.equal(findingOf(byAir, 'air-lost').verdict, 'fails', 'the seals hold the lever');
  assert.equal(findingOf(byAir, 'returns-from-every-gap').verdict, 'holds', 'with air it comes back');
});

test('line and way out are named where they decide the time, and a wide one saves what was said', () => {
  const long = changed(bySpring, { 'means.line': { bore: '2.5 mm', length: '25 m' }, 'means.valve': '8 L/(s bar)' });
  const before = findingOf(long, 'time-to-no-fuel');
  assert.match(before.because, /the pipe costs most: a wide one would save/, before.because);
  const shut = changed(bySpring, { 'means.exhaust': '0.08 L/(s bar)', 'means.line.bore': '6 mm' });
  const back = findingOf(shut, 'time-to-run');
  assert.match(back.because, /the way out costs most/, back.because);
  const open = findingOf(changed(shut, { 'means.exhaust': '2.4 L/(s bar)' }), 'time-to-run'); // 30 times as wide
  const [, saved = '', unit] = /would save ([\d.]+) (ms|s)\./.exec(back.because) ?? [];
  const saves = Number(saved) * (unit === 'ms' ? 1e-3 : 1);
  assert.ok(
    Math.abs(back.value! - open.value! - saves) < 0.06 * saves,
    `${back.value} to ${open.value}, said ${saves} s`,
  );
});

test('a spring inside is felt as the same spring beside the rod would be', () => {
  const outside = changed(bySpring, {
    'means.returns': { preload: '0 N', rate: '0 N/mm' },
    'return.springs': [
      {
        on: 'plunger',
        name: 'The same, outside',
        kind: 'compression',
        lengthAtHome: '50 mm',
        // 18 N at the outer stop, 40 mm further out than home, and 0.4 N/mm.
        spring: { by: 'rate', rate: '0.4 N/mm', freeLength: '135 mm', limitLength: '20 mm' },
      },
    ],
  });
  for (const id of [
    'moves-from-rest',
    'carries-home',
    'returns-from-every-gap',
    'returns-from-home',
    'does-not-cock',
    'time-to-no-fuel',
  ]) {
    const [a, b] = [findingOf(bySpring, id).margin!, findingOf(outside, id).margin!];
    assert.ok(Math.abs(a - b) < 1e-6 * (1 + Math.abs(a)), `${id}: ${a} inside, ${b} outside`);
  }
});

test('a pushing rod and a pushing plunger of the same measures meet the same lever', () => {
  const parts = { stroke: '40 mm', guideLength: '28 mm', overhang: '22 mm' };
  const rod = changed(toRun, {
    means: {
      ...toRun.means,
      ...parts,
      rod: '12 mm',
      movingMass: '0.3 kg',
      sealDrag: '0 N',
      returns: { preload: '0 N', rate: '0 N/mm' },
    },
  });
  const plunger = changed(demo('pump-house'), {
    'means.action': 'push',
    'means.plunger': { ...parts, mass: '0.3 kg', diameter: '12 mm', boreClearance: '0.06 mm' },
    'means.stickingForce': '0 N',
    'means.endSwitch': 'none',
  });
  const [air, coil] = [assess(rod).sweep!, assess(plunger).sweep!];
  assert.equal(air.gap_mm.length, coil.gap_mm.length, 'as many gaps');
  for (const column of [
    'gap_mm',
    'shaftAngle_deg',
    'pullNeeded_N',
    'pullNeededLowFriction_N',
    'sideForce_N',
    'returnDrive_N',
    'returnForce_N',
  ] as const)
    air[column].forEach((value, i) =>
      assert.ok(
        Math.abs(value! - coil[column][i]!) < 1e-6,
        `${column} at ${air.gap_mm[i]} mm: ${value} and ${coil[column][i]}`,
      ),
    );
  // And the rod's own force, by hand: 0.85 × 5 bar × π/4 (32 mm)².
  const byHand = 0.85 * 5e5 * (Math.PI / 4) * 0.032 ** 2;
  assert.ok(Math.abs(air.pullLeast_N[0]! - byHand) < 1e-9 * byHand, `${air.pullLeast_N[0]} N, by hand ${byHand}`);
});

test('the seals hold the way back by their drag, once, at rest and in time', () => {
  const dry = changed(bySpring, { 'means.sealDrag': '0 N' });
  const stiff = changed(bySpring, { 'means.sealDrag': '7 N' });
  const [without, withDrag] = [dry, stiff].map((job) => findingOf(job, 'returns-from-every-gap'));
  assert.ok(Math.abs(withDrag.limit! - without.limit! - 7) < 1e-9, `${without.limit} N and ${withDrag.limit} N`);
  // Left out, it is a fifth of a bar on the piston, and the result says so.
  const told = assess(bySpring).assumed.find(({ path }) => path === 'means.sealDrag');
  const usual = findingOf(bySpring, 'returns-from-every-gap').limit! - without.limit!;
  assert.ok(Math.abs(usual - 0.2e5 * (Math.PI / 4) * 0.025 ** 2) < 1e-9, `${usual} N of drag`);
  assert.equal(told?.text, '9.8 N', 'as told');
  // On the way out a drag is felt as so much less of a spring, where no pressure presses the seals harder.
  const eased = { 'means.efficiency': '1', 'means.returns.preload': '30 N', 'means.sealDrag': '8 N' };
  const less = { ...eased, 'means.returns.preload': '22 N', 'means.sealDrag': '0 N' };
  const [dragged, softer] = [eased, less].map((places) => findingOf(changed(bySpring, places), 'time-to-run').value!);
  assert.ok(Math.abs(dragged - softer) < 1e-3 * softer, `${dragged} s and ${softer} s`);
});

test('stops from the vessel are those that a count by hand finds', () => {
  const job = changed(bySpring, { 'survey.air': { low: '4 bar', high: '7 bar', reservoir: '3 L' } });
  const needed = Math.max(findingOf(job, 'moves-from-rest').limit!, findingOf(job, 'carries-home').limit!);
  const atmosphere = 101_325;
  const area = (Math.PI / 4) * (0.025 ** 2 - 0.01 ** 2);
  const just = Math.max(needed / (0.85 * area), (needed + 0.2e5 * (Math.PI / 4) * 0.025 ** 2) / area);
  const travel = assess(job).travel!;
  const left = 0.1 * (Math.PI / 4) * 0.025 ** 2 * 0.04 + (Math.PI / 4) * 0.004 ** 2 * 5;
  const empty = left + area * (0.04 - travel.startGap_mm! / 1000);
  const full = left + area * (0.04 - travel.homeGap_mm! / 1000);
  let pressure = 4e5 + atmosphere;
  let stops = 0;
  for (;;) {
    pressure = (pressure * 3e-3 + atmosphere * empty) / (3e-3 + full);
    if (pressure < just + atmosphere) break;
    stops++;
  }
  assert.equal(findingOf(job, 'stops-per-vessel').value, stops, `${stops} by hand`);
  assert.ok(stops > 10, `${stops} stops: too few to say much`);
});

test('the highest pressure on the lever is judged where the pump is known, and only then', () => {
  assert.equal(byId(sprung).has('lever-bears'), false, 'no such reading');
  // Stopped short by the hard stop the lever takes everything.
  const short = changed(bySpring, { 'layout.homePin.x': '-13.5 mm', 'survey.lever.bears': '3 N m' });
  const { verdict, because, value } = findingOf(short, 'lever-bears');
  assert.equal(verdict, 'fails', because);
  const higher = findingOf(changed(short, { 'survey.air.high': '10 bar' }), 'lever-bears');
  assert.ok(higher.value! > value!, 'more pressure lays more on it');
  assert.equal(findingOf(short, 'comes-home').verdict, 'fails', 'the rod is stopped short');
  assert.match(findingOf(short, 'comes-home').because, /its stop takes all that the air gives/, 'and what that means');
});
