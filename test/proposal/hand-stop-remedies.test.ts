/** What would mend a hand stop beside another means: every remedy is applied, read and assessed anew. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import type { Job } from '../../src/job/schema.ts';
import { knobsOf } from '../../src/proposal/knobs.ts';
import { withRemedies } from '../../src/proposal/remedy.ts';
import { metricUnits } from '../../src/units/quantity.ts';
import { beside, ferryByAir } from '../assessment/hand-stop/beside.ts';
import { changed, demo } from '../job/jobs.ts';
import { assertRemedies, mended } from './remedies-hold.ts';

const railcar = demo('railcar');
const pumpHouse = demo('pump-house');

/** A cable of this kind hardly drags, so that nothing but what is changed falls short. */
const easy = { 'handStop.friction': '0.05', 'handStop.drag': '1 N', 'handStop.handle.ratio': '2' };
const solid = {
  ...easy,
  'handStop.core.construction': 'solid wire',
  'handStop.core.diameter': '2 mm',
  'handStop.core.moves': 'by pulling and pushing',
};

for (const [name, job] of [
  ['energise to stop', beside(railcar, easy)],
  ['energise to run, solid wire', beside(pumpHouse, solid)],
  ['air', beside(ferryByAir, easy)],
] as const)
  test(`${name}: every remedy does what it says and no more`, () => {
    const { mended: count } = assertRemedies(job);
    assert.ok(count > 0, 'something that fails has a remedy');
  });

const link = { kind: 'pinned link', length: '60 mm', armRadius: '45 mm', pinDiameter: '8 mm' };

const cases: readonly (readonly [string, Job, string, RegExp])[] = [
  [
    'a tight bend',
    beside(railcar, { ...easy, 'handStop.route[3].radius': '120 mm' }),
    'hand-stop-bend-radius',
    /^Cable of the hand stop: give the bend at "Round the casing" a radius of 2\d\d mm$/,
  ],
  [
    'bends that run into each other',
    beside(railcar, { ...easy, 'handStop.route[2].radius': '1200 mm' }),
    'hand-stop-bends-fit',
    /^Cable of the hand stop: give the bend at "Along the beam" a radius of only \d+ mm$/,
  ],
  [
    'a hard pull',
    beside(railcar, { ...easy, 'handStop.friction': '0.12' }),
    'hand-stop-handle-pull',
    /^Cable of the hand stop: (take a handle whose hand|renew the cable|fit a new cable)/,
  ],
  [
    'a handle that is too short',
    beside(railcar, { ...easy, 'handStop.handle.travel': '50 mm' }),
    'hand-stop-handle-travel',
    /^Cable of the hand stop: take a handle with/,
  ],
  [
    'a thin core',
    beside(railcar, { ...easy, 'handStop.core.diameter': '0.5 mm' }),
    'hand-stop-core-strength',
    /^Cable of the hand stop: take a core of 1\.\d mm$/,
  ],
  [
    'a core off its axis',
    beside(railcar, { ...easy, 'handStop.leverEnd.fitting': 'clamp', 'handStop.leverEnd.conduitDirection': '164°' }),
    'hand-stop-core-on-axis',
    /^Cable of the hand stop: let the conduit end turn with the core: fit a swivel$/,
  ],
  [
    'a slot that holds the lever to a plunger stuck out',
    beside(railcar, easy),
    'hand-stop-means-stuck',
    /^Join the plunger to a hole in the arm \d+ mm from the shaft centre by a chain \d+ mm long/,
  ],
  [
    'a link that holds the lever to a rod stuck out',
    beside(ferryByAir, easy),
    'hand-stop-means-stuck',
    /^Join lever and clevis by a short chain in place of the link/,
  ],
  [
    'energised to run, a spring that gives too little by hand',
    beside(pumpHouse, easy),
    'hand-stop-means-stuck',
    /^Give the over-travel spring \d+(\.\d)? mm of travel, so that the hand stop can pull against it$/,
  ],
  [
    'energised to run, nothing that gives',
    beside(pumpHouse, { ...easy, 'layout.overTravel': 'none', 'layout.connection': link }),
    'hand-stop-means-stuck',
    /^Fit an over-travel spring in the connection that the hand stop can pull against: preload 40/,
  ],
  [
    'a stuck solid wire',
    beside(railcar, solid),
    'means-hand-stop-stuck',
    /^Cable of the hand stop: (fit a core of strand|give the core \d+(\.\d)? mm of slack)/,
  ],
];

for (const [name, job, id, words] of cases)
  test(`${name} has a remedy`, () => {
    const found = mended(job, id);
    assert.ok(found.verdict === 'fails' || found.verdict === 'thin', `${id} is ${found.verdict}`);
    assert.ok(
      found.words.some((one) => words.test(one)),
      `${id}: ${found.words.join('; ')}`,
    );
  });

test('a cable whose drag spoils the way back of the means is mended at the cable too', () => {
  const { words } = mended(beside(railcar), 'returns-from-every-gap');
  assert.ok(
    words.some((one) => one.startsWith('Cable of the hand stop: ')),
    words.join('; '),
  );
});

test('what readings at the handle of a hand stop said is kept when its lever end or a spring is changed', () => {
  const job = beside(railcar, { 'handStop.readings': { free: '3 N', connected: '100 N' } });
  const remedies = withRemedies(job, assess(job)).findings.flatMap((finding) => finding.remedies);
  const touching = remedies.filter(({ changes }) =>
    changes.some(({ path }) => path.startsWith('handStop.leverEnd') || path.startsWith('return.springs')),
  );
  for (const { changes, words } of touching) {
    const kept = changes.find(({ path }) => path === 'handStop')?.to as Job['handStop'];
    assert.ok(kept !== undefined && kept.readings === undefined && kept.friction !== undefined, words);
  }
  assert.ok(touching.length > 0, 'some were looked at');
});

test('a job without a hand stop is offered nothing of one', () => {
  for (const job of [railcar, pumpHouse, ferryByAir, demo('ferry')])
    for (const knob of knobsOf(job, metricUnits))
      for (const amount of knob.ladder) {
        const setting = knob.settingAt(amount);
        assert.ok(setting === null || setting.changes.every(({ path }) => !path.startsWith('handStop')), knob.name);
        assert.doesNotMatch(setting?.words ?? '', /hand stop/);
      }
  const besides = knobsOf(changed(beside(railcar), {}), metricUnits).length - knobsOf(railcar, metricUnits).length;
  assert.ok(besides > 20, `${besides} knobs of the hand stop`);
});
