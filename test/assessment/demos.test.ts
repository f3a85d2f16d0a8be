/** The demonstrations come out as they are meant to, by geometry worked out here on its own. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import type { Assessment, Finding } from '../../src/assessment/finding.ts';
import { demoJobs } from '../../src/job/demos.ts';
import { changed, demo } from '../job/jobs.ts';
import { isMeasured, quantitiesOf } from '../job/quantities.ts';
import { assertConsistent } from './plain-data.ts';

function finding(assessment: Assessment, id: string): Finding {
  const found = assessment.findings.find((one) => one.id === id);
  assert.ok(found !== undefined, id);
  return found;
}

function near(value: number | null | undefined, expected: number, tolerance: number, what: string): void {
  assert.ok(Math.abs((value ?? NaN) - expected) <= tolerance, `${what}: ${value}, by geometry ${expected}`);
}

const inRadians = (angle: number) => (angle * Math.PI) / 180;
const inDegrees = (angle: number) => (angle * 180) / Math.PI;

test('every demonstration is plain, consistent data', () => {
  assert.equal(demoJobs.length, 5);
  for (const { name } of demoJobs) assertConsistent(assess(demo(name)));
});

test('the railcar and the pump house hold everywhere', () => {
  for (const name of ['railcar', 'pump-house']) {
    const assessment = assess(demo(name));
    assert.equal(assessment.verdict, 'holds');
    assert.equal(assessment.answers.length, 3);
    for (const { words, verdict } of assessment.answers) assert.equal(verdict, 'holds', words);
    for (const { id, verdict } of assessment.findings) assert.equal(verdict, 'holds', `${name}: ${id}`);
    assert.ok(assessment.findings.length >= 20);
    assert.deepEqual([assessment.travel?.homeGap_mm, assessment.currents.length], [0, 8]);
  }
});

test('the railcar swings as its slot and straight pull say', () => {
  // The pin runs level, 45 mm above the shaft, from x = -8.5 mm at home to x = 23.5 mm; arm angle = shaft angle + 2°.
  const { travel, sweep, findings } = assess(demo('railcar'));
  near(travel?.shaftAtHome_deg, inDegrees(Math.atan2(45, -8.5)) - 2, 1e-9, 'shaft at home');
  near(travel?.shaftAtRest_deg, inDegrees(Math.atan2(45, 23.5)) - 2, 1e-9, 'shaft at rest');
  sweep?.gap_mm.forEach((gap, i) => {
    near(sweep.slotRadius_mm[i], Math.hypot(45, -8.5 + gap), 1e-9, `slot radius at ${gap} mm`);
  });
  const lash = 0.8 + inDegrees(0.2 / Math.hypot(45, 23.5));
  const reachesRun = findings.find(({ id }) => id === 'free-to-reach-run');
  near(reachesRun?.margin, 62 - (inDegrees(Math.atan2(45, 23.5)) - 2) - lash, 1e-9, 'past run');
});

test('the short stroke fails to come home and to work its end switch, at the gap where the lever meets its hard stop', () => {
  const assessment = assess(demo('short-stroke'));
  assert.deepEqual(
    assessment.findings.filter(({ verdict }) => verdict === 'fails').map(({ id }) => id),
    ['comes-home', 'end-switch'],
  );
  // Hard stop at 104° and arm offset 2°: the hole, 46 mm out, stands at 106°. The pin runs 44 mm above the shaft, 55 mm
  // from that hole, to the left of it.
  const holeX = 46 * Math.cos(inRadians(106));
  const holeY = 46 * Math.sin(inRadians(106));
  const pinX = holeX - Math.sqrt(55 ** 2 - (44 - holeY) ** 2);
  const gap = pinX + 69.5;
  near(assessment.travel?.homeGap_mm, gap, 1e-6, 'gap at which the lever meets its stop');
  near(assessment.travel?.leverStopGap_mm, gap, 1e-6, 'lever stop');
  near(finding(assessment, 'end-switch').value, gap, 1e-6, 'end switch: gap reached');
  near(finding(assessment, 'end-switch').margin, 1.2 - gap, 1e-6, 'end switch');
  // At home the hole would lie where two circles meet: 46 mm round the shaft, 55 mm round the pin at (-69.5, 44).
  const distance = Math.hypot(-69.5, 44);
  const along = (46 ** 2 - 55 ** 2 + distance ** 2) / (2 * distance);
  const armAngle = inDegrees(Math.atan2(44, -69.5)) - inDegrees(Math.acos(along / 46));
  near(finding(assessment, 'comes-home').margin, 104 - (armAngle - 2), 1e-6, 'short of the hard stop');
  assert.match(finding(assessment, 'comes-home').because, /1\.82 mm from home/);
  assert.equal(assessment.answers.find(({ question }) => question === 'burns')?.verdict, 'fails');
  // The full current stays on, so there is no lack of hold: that it stays on is what burns.
  assert.match(finding(assessment, 'holds-at-home').because, /full current goes on/);
});

test('the plain pin binds by the rise of its arc: radius less distance of the line of pull', () => {
  const assessment = assess(demo('binding-pin'));
  const binds = finding(assessment, 'does-not-bind');
  assert.equal(binds.verdict, 'fails');
  // The line of pull lies 43.3 mm above the shaft and the hole runs on a circle of 46 mm: the sagitta at its top is 2.7 mm.
  // A pin that grips stands ahead of its hole by its clearance of 0.4 mm, seen at 45°, and can give as much sideways;
  // the play in the bore, 0.15 mm each way at the mouth, lets it rock by more the further out it stands.
  const ahead = 0.4 * Math.SQRT1_2;
  const riseAt = (gap: number) => Math.abs(43.3 - Math.sqrt(46 ** 2 - (8.4 - gap - ahead) ** 2));
  const freedomAt = (gap: number) => 0.4 * Math.SQRT1_2 + 0.15 * (1 + (2 * (12 + gap)) / (70 - gap));
  near(riseAt(8.4 - ahead), 2.7, 1e-12, 'sagitta');
  // Coming in from its outer stop the pin meets the arm where the run stop holds the arm at 62°.
  const holeX = 46 * Math.cos(inRadians(62));
  const start = 8.4 + holeX - ahead;
  const gaps = Array.from({ length: 30_001 }, (_, i) => (start * i) / 30_000);
  const tightest = gaps.reduce((least, gap) =>
    freedomAt(gap) - riseAt(gap) < freedomAt(least) - riseAt(least) ? gap : least,
  );
  near(binds.margin, freedomAt(tightest) - riseAt(tightest), 1e-6, 'room');
  near(binds.value, riseAt(tightest), 1e-3, 'rise');
  near(binds.limit, freedomAt(tightest), 1e-3, 'freedom');
  near(assessment.travel?.startGap_mm, start, 1e-6, 'gap at which the lever is taken along');
  const rise = 43.3 - 46 * Math.sin(inRadians(62));
  assert.match(
    binds.because,
    new RegExp(`grips ${start.toFixed(1)} mm from home: the arc rises ${rise.toFixed(2)} mm`),
  );
  assert.equal(finding(assessment, 'returns-from-every-gap').verdict, 'fails');
});

test('a plain pin whose arc rises less than it can give does not bind', () => {
  // It may lie 4.4 mm off each way and grips at 45°, so it has over 3.1 mm to give to the same 2.7 mm.
  const roomy = changed(demo('binding-pin'), { 'layout.connection.holeDiameter': '16.6 mm' });
  assert.equal(finding(assess(roomy), 'does-not-bind').verdict, 'holds');
});

test('the ferry works, but its cable is thin when it is worn and cold: handle and way back', () => {
  const job = demo('ferry');
  const assessment = assess(job);
  assert.equal(assessment.verdict, 'thin');
  const thin = assessment.findings.filter(({ verdict }) => verdict !== 'holds').map(({ id }) => id);
  assert.deepEqual(thin.sort(), ['comes-back-on-cable', 'handle-pull']);
  assert.ok(quantitiesOf(job).every(isMeasured));
});
