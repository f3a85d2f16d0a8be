/** What cannot be, said plainly with the number that would do; and whatever a document says of a cable, never an exception. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { assess } from '../../../src/assessment/assess.ts';
import { cableDrag } from '../../../src/assessment/cable/idle.ts';
import { cableStudy } from '../../../src/assessment/cable/study.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import { drawRouteAndEffort } from '../../../src/sheets/route/sheet.ts';
import { altered, changed } from '../../job/jobs.ts';
import { randomJob } from '../../job/random-job.ts';
import { assertConsistent, assertPlain } from '../plain-data.ts';
import { byLining, cables, withCable } from './cables.ts';

const rounds = Number(process.env['STOPWRIGHT_ROUNDS'] ?? 300);

function said(job: Job, id: string): { readonly verdict: string; readonly because: string; readonly missing: string } {
  const assessment = assess(job);
  assertConsistent(assessment);
  const found = assessment.findings.find((one) => one.id === id);
  assert.ok(found !== undefined, id);
  return { verdict: found.verdict, because: found.because, missing: found.missing.join() };
}

test('a bend tighter than the core allows: which, and what would do', () => {
  const { verdict, because } = said(changed(byLining, { 'means.route[4].radius': '120 mm' }), 'bend-radius');
  assert.equal(verdict, 'fails');
  assert.equal(because, 'The bend at "Over the engine" has 120 mm, tighter than the core bears: 200 mm is the least.');
});

test('bends without room: which, and what would fit; the rest is reckoned with what fits', () => {
  const job = changed(byLining, { 'means.route[2].radius': '1200 mm' });
  const { verdict, because } = said(job, 'bends-fit');
  assert.equal(verdict, 'fails');
  assert.match(because, /^The bend at "Along the beam" with 1200 mm runs into its neighbour: 992 mm would fit\./);
  assert.ok(
    said(changed(job, { 'means.route[2].radius': '992 mm', 'means.route[3].radius': '180 mm' }), 'bends-fit').verdict
      === 'holds',
  );
  assert.notEqual(said(job, 'handle-pull').verdict, 'not known');
});

test('a strand that is asked to push', () => {
  const { verdict, because } = said(changed(byLining, { 'means.towardsStop': 'pushed' }), 'may-be-pushed');
  assert.equal(verdict, 'fails');
  assert.match(because, /^This core works by pulling only, and is asked to push the lever to stop/);
});

test('a core that does not go into its conduit', () => {
  const { verdict, because } = said(changed(byLining, { 'means.conduit.bore': '2 mm' }), 'core-fits');
  assert.deepEqual([verdict, because], ['fails', 'A core of 2.5 mm does not go into a bore of 2 mm.']);
});

test('a length below nought, and a length of nought, are refused where they are read', () => {
  for (const [path, text] of [
    ['means.core.diameter', '-2 mm'],
    ['means.conduit.bore', '0 mm'],
    ['means.route[1].radius', '-200 mm'],
    ['means.leverEnd.radius', '0 mm'],
    ['means.handle.travel', '-5 mm'],
  ] as const) {
    const read = readDocument(altered(byLining, { [path]: text }));
    assert.ok(!read.ok, path);
    assert.match(read.problems[0].problem, /above 0/, path);
  }
});

test('what leaves the whole not known names what to look at', () => {
  const route = withCable(byLining).means.route;
  const cases: readonly (readonly [string, Job, RegExp, RegExp])[] = [
    ['one corner', changed(byLining, { 'means.route': [route[0]] }), /A route needs two ends/, /^means\.route$/],
    [
      'a bend without a radius',
      altered(byLining, { 'means.route[3].radius': undefined }),
      /The bend at "Round the casing" has no radius/,
      /^means\.route\[3\]\.radius$/,
    ],
    [
      'two corners at one place',
      changed(byLining, { 'means.route[2].x': '0 mm' }),
      /Two corners stand at one place: "Along the beam"/,
      /^means\.route\[2\]$/,
    ],
    [
      'a route that turns back',
      changed(byLining, { 'means.route': [route[0], { ...route[1], z: '900 mm' }, { ...route[0], z: '1200 mm' }] }),
      /turns straight back on itself at "Under the deck"/,
      /^means\.route\[1\]$/,
    ],
    [
      'neither route nor bends',
      changed(byLining, { 'means.route': [], 'survey.run.bendTotal': undefined }),
      /Neither the route nor the sum of its bends/,
      /means\.route,survey\.run\.bendTotal/,
    ],
    [
      'readings that contradict the lever',
      changed(cables[0].job, { 'means.readings.connected': '3 lbf' }),
      /differ by less than the lever alone asks/,
      /means\.readings\.free/,
    ],
    [
      'a conduit in the way of the lever',
      changed(byLining, { 'means.leverEnd.conduitEnd': { x: '38.89087 mm', y: '38.89087 mm' } }),
      /would strike the end of the conduit/,
      /conduitEnd\.x/,
    ],
  ];
  for (const [name, job, because, missing] of cases) {
    const found = said(job, 'handle-pull');
    assert.equal(found.verdict, 'not known', name);
    assert.match(found.because, because, name);
    assert.match(found.missing, missing, name);
    assertPlain(cableStudy(job, withCable(job).means));
  }
});

test('a lever that the core pulls in line with its arm: no force turns it, and every finding says so without an infinite number', () => {
  // The conduit end on the ray of the arm at 45°: beyond that angle the pull turns the lever back.
  const job = changed(byLining, { 'means.leverEnd.conduitEnd': { x: '100 mm', y: '90 mm' } });
  assert.match(said(job, 'core-turns-lever').because, /in line with the arm|towards run/);
  const pull = said(job, 'handle-pull');
  assert.equal(pull.verdict, 'fails');
  assert.match(pull.because, /no pull turns the lever towards stop/);
  assert.equal(said(job, 'handle-travel').verdict, 'fails');
});

test('so many bends that the core would part before the lever turns are said as that, and not in figures of no meaning', () => {
  const stairs = Array.from({ length: 42 }, (_, i) => ({
    x: `${Math.ceil(i / 2) * 600} mm`,
    y: `${Math.floor(i / 2) * 600} mm`,
    z: '0 mm',
    ...(i === 0 || i === 41 ? {} : { radius: '250 mm' }),
  }));
  const job = changed(byLining, { 'means.route': stairs });
  // K d² R of a 1x19 strand of 2.5 mm: 0.525 × 6.25 × 1570 N = 5151 N.
  assert.match(said(job, 'handle-pull').because, /^The core would part, at 5150 N, before it turned the lever/);
  for (const id of ['handle-pull', 'handle-travel', 'comes-back-on-cable']) {
    assert.equal(said(job, id).verdict, 'fails', id);
    assert.doesNotMatch(said(job, id).because, /\d{6}|e\+/, id);
  }
});

test('a push that jams in its conduit says so', () => {
  const pushed = cables.find(({ name }) => name === 'pushed')!.job;
  const loose = changed(pushed, {
    'means.core.diameter': '1 mm',
    'means.conduit.bore': '12 mm',
    'means.friction': '0.6',
    'means.leverEnd.radius': '20 mm',
  });
  assert.match(said(loose, 'push-holds').because, /no push gets through|bows out/);
  assert.equal(said(loose, 'push-holds').verdict, 'fails');
});

test('whatever a document says of a cable, it is assessed, studied and drawn in plain data', () => {
  let drawn = 0;
  fc.assert(
    fc.property(randomJob, fc.double({ min: -3, max: 3, noNaN: true }), (job, angle) => {
      if (job.means.kind === 'hand cable') assertConsistent(assess(job));
      for (const cable of [job.means.kind === 'hand cable' ? job.means : undefined, job.handStop]) {
        if (cable === undefined) continue;
        const study = cableStudy(job, cable);
        assertPlain(study);
        assertPlain(cableDrag(job, cable, angle, 'stop'));
        const { parts, sentences } = drawRouteAndEffort(study);
        assertPlain([parts, sentences]);
        drawn++;
      }
    }),
    { seed: 46, numRuns: rounds },
  );
  assert.ok(drawn > rounds / 4, `${drawn} cables`);
});

test('whole cables at the edge of what may be typed are assessed in plain data', () => {
  const number = (least: number, most: number) =>
    fc.integer({ min: 0, max: 1000 }).map((share) => least * (most / least) ** (share / 1000));
  const wild = fc.record({
    'means.core.diameter': number(0.0002, 5).map((m) => `${m} m`),
    'means.conduit.bore': number(0.0002, 5).map((m) => `${m} m`),
    'means.friction': number(0.001, 1.5).map((mu) => `${mu}`),
    'means.ageing': number(1, 20).map((times) => `${times}`),
    'means.drag': number(0.01, 1000).map((n) => `${n} N`),
    'means.handle.ratio': number(0.02, 50).map((times) => `${times}`),
    'means.leverEnd.radius': number(0.001, 10).map((m) => `${m} m`),
    'means.leverEnd.slack': number(0.0001, 1).map((m) => `${m} m`),
    'means.route[3].radius': number(0.001, 100).map((m) => `${m} m`),
    'means.route[3].x': number(0.001, 1000).map((m) => `${m} m`),
    'means.towardsStop': fc.constantFrom('pulled', 'pushed'),
    'means.core.construction': fc.constantFrom('solid wire', 'strand 7x19, galvanised'),
  });
  fc.assert(
    fc.property(wild, (places) => {
      const job = changed(byLining, places);
      assertConsistent(assess(job));
      assertPlain(cableStudy(job, withCable(job).means));
    }),
    { seed: 47, numRuns: rounds },
  );
});
