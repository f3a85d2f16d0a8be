/** A trace beside what a job predicts: on plain data, and on the demonstrations. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { compareWithPrediction, comparedWords } from '../../../src/diagnosis/trace/compare.ts';
import type { Found } from '../../../src/diagnosis/trace/find-events.ts';
import { predictedEvents, type PredictedEvents } from '../../../src/diagnosis/trace/predicted.ts';
import { NOT_MEASURED } from '../../../src/job/quantity-text.ts';
import { changed, demo } from '../../job/jobs.ts';

const predicted: PredictedEvents = {
  home_s: { least: 0.03, greatest: 0.05 },
  stage_s: { least: 0.032, greatest: 0.053 },
  heavy_A: { least: 15, greatest: 26 },
  hold_A: { least: 0.4, greatest: 0.8 },
  dip_A: null,
  corner: '',
};

/** Only what the comparison looks at. */
function found(home: number | null, peak: number): Found {
  return {
    on_s: 0.1,
    landing: home === null ? null : { time_s: 0.1 + home, dip_A: 12 },
    stage: null,
    peak_A: peak,
  } as unknown as Found;
}

test('between the ends nothing differs, beyond them the share counts from the nearer end', () => {
  const [home, stage, heavy] = compareWithPrediction(found(0.04, 26), predicted);
  assert.deepEqual([home?.differs, home?.isFar], [0, false]);
  assert.deepEqual([stage?.seen, stage?.isFar], [null, true]);
  assert.equal(heavy?.differs, 0);
  const [late] = compareWithPrediction(found(0.06, 26), predicted);
  assert.ok(late?.differs !== undefined && late.differs !== null && Math.abs(late.differs - 0.2) < 1e-12, 'late');
  const [early, , weak] = compareWithPrediction(found(0.015, 7.5), predicted);
  assert.deepEqual([early?.differs, early?.isFar], [-0.5, true]);
  assert.deepEqual([weak?.differs, weak?.isFar], [-0.5, true]);
});

test('what the job does not predict is not compared, and the words carry their units', () => {
  const rows = compareWithPrediction(found(0.06, 26), predicted);
  assert.ok(!rows.some(({ what }) => what === 'current in the dip'), 'the dip was not predicted');
  const words = rows.map(comparedWords);
  assert.equal(words[0], 'home: 60 ms seen, 30 ms to 50 ms reckoned (+20 % beyond)');
  assert.equal(words[1], 'stage change: not seen, 32 ms to 53 ms reckoned');
});

test('a job predicts a way home between its two corners; without a reading it predicts nothing', () => {
  for (const name of ['railcar', 'pump-house']) {
    const events = predictedEvents(demo(name));
    assert.ok(events?.home_s && events.stage_s && events.hold_A && events.heavy_A, name);
    assert.ok(events.home_s.least < events.home_s.greatest && events.home_s.greatest < 0.5, name);
    assert.ok(events.hold_A.greatest < events.heavy_A.least, name);
    assert.equal(events.dip_A, null, 'known by pulls alone');
  }
  assert.equal(predictedEvents(changed(demo('railcar'), { 'means.plunger.mass': NOT_MEASURED })), null);
  assert.equal(predictedEvents(demo('ferry')), null);
});
