import assert from 'node:assert/strict';
import test from 'node:test';
import { isSolenoid } from '../../../src/assessment/assess.ts';
import { timePicture } from '../../../src/assessment/time/study.ts';
import { readDemos } from '../../../src/server/demos.ts';
import { readJob } from '../../../src/job/read.ts';

test('the points of each trace lie where something happens, and runs that are drawn together end together', () => {
  let looked = 0;
  for (const { text } of readDemos()) {
    const reading = readJob(text);
    assert.ok(reading.ok, 'a demo reads');
    if (!isSolenoid(reading.job)) continue;
    const { runs, releases } = timePicture(reading.job);
    for (const together of [runs, releases]) {
      const ends = together.map(({ time_s }) => time_s[time_s.length - 1] ?? 0);
      for (const end of ends)
        assert.ok(Math.abs(end - (ends[0] ?? 0)) < 1e-9, `${reading.job.name}: ${ends.join(', ')}`);
    }
    for (const { name, time_s, events } of [...runs, ...releases]) {
      const last = events.at(-1)?.time_s ?? 0;
      if (last === 0) continue;
      looked++;
      const before = time_s.filter((at) => at <= last).length;
      assert.ok(before >= 40, `${reading.job.name}, ${name}: ${before} points up to ${last} s`);
    }
  }
  assert.ok(looked > 4, `${looked} runs`);
});
