/** The study of an air cylinder: curves in step, courses that rise in time and agree with the findings, and what is missing. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { airStudy } from '../../../src/assessment/air/study.ts';
import type { AirJob } from '../../../src/assessment/air/air-rig.ts';
import { assess, isAir } from '../../../src/assessment/assess.ts';
import { NOT_MEASURED } from '../../../src/job/quantity-text.ts';
import type { Job } from '../../../src/job/schema.ts';
import { mechanismOf } from '../../../src/assessment/mechanism.ts';
import { changed } from '../../job/jobs.ts';
import { assertPlain } from '../plain-data.ts';
import { cylinders } from './cylinders.ts';

const byAir = (job: Job): AirJob => {
  assert.ok(isAir(job), 'an air cylinder');
  return job;
};

for (const { name, job } of cylinders) {
  test(`${name}: curves and courses are in step and plain`, () => {
    const study = airStudy(byAir(job));
    assertPlain(study);
    assert.deepEqual(study.missing, [], 'nothing is missing');
    for (const [column, values] of Object.entries(study.force ?? {}))
      if (values !== null) assert.equal(values.length, study.force!.gap_mm.length, column);
    for (const run of study.runs) {
      for (const values of [run.gap_mm, run.shaftAngle_deg, run.home_bar, run.out_bar])
        assert.equal(values.length, run.time_ms.length, run.name);
      assert.ok(
        run.time_ms.every((time, i) => i === 0 || time > run.time_ms[i - 1]),
        `${run.name} goes on in time`,
      );
      const [first, last] = [run.gap_mm[0], run.gap_mm.at(-1)!];
      assert.ok(run.name.startsWith('home') ? last < first : last > first, `${run.name} gets somewhere`);
    }
  });

  test(`${name}: what the courses say is what the findings say`, () => {
    const study = airStudy(byAir(job));
    const { findings } = assess(job);
    const value = (id: string) => findings.find((one) => one.id === id)?.value ?? null;
    const isToStop = byAir(job).means.works === 'air to stop';
    const [slow, hard, out] = study.runs;
    if (slow === undefined) {
      assert.equal(value('time-to-no-fuel'), null, 'what cannot be followed has no time');
      return;
    }
    const at = (run: typeof slow, kind: string) => run.events.find((event) => event.kind === kind)?.time_ms ?? NaN;
    const noFuel = at(isToStop ? slow : out, 'passes no-fuel');
    const run = at(isToStop ? out : slow, 'passes run');
    const close = (a: number, b: number | null, what: string) =>
      assert.ok(b !== null && Math.abs(a - 1000 * b) < 2e-3 * a, `${what}: ${a} ms and ${b} s`);
    close(noFuel, value('time-to-no-fuel'), 'no-fuel');
    close(run, value('time-to-run'), 'run');
    assert.ok(at(hard, 'arrives') <= at(slow, 'arrives'), 'more pressure is no slower');
    assert.equal(study.use?.stopsFromLow, value('stops-per-vessel'), 'stops');
    assert.ok(study.use.stopsFromHigh >= study.use.stopsFromLow, 'more air, no fewer stops');
    assert.equal(study.force?.atLow_N[0], value('carries-home'), 'force');
  });
}

test('a reading that was not taken leaves out what rests on it, and is named', () => {
  const [{ job }] = cylinders;
  const without = (path: string) => airStudy(byAir(changed(job, { [path]: NOT_MEASURED })));
  const noVessel = without('survey.air.reservoir');
  assert.deepEqual([noVessel.missing, noVessel.use], [['survey.air.reservoir'], null], 'vessel');
  assert.ok(noVessel.runs.length === 3 && noVessel.whenLost !== null, 'and nothing else');
  const noValve = without('means.valve');
  assert.deepEqual([noValve.missing, noValve.runs], [['means.valve'], []], 'valve');
  assert.ok(noValve.use !== null, 'the vessel does not ask for it');
  const noStroke = without('means.stroke');
  assert.deepEqual([noStroke.force, noStroke.runs, noStroke.use, noStroke.whenLost], [null, [], null, null], 'stroke');
});

test('what the lever does without air', () => {
  const [bySpring, both, , toRun] = cylinders.map(({ job }) => airStudy(byAir(job)).whenLost);
  assert.deepEqual([bySpring?.fromStop, bySpring?.fromRun], ['goes to run', 'stays at run'], 'a spring, to stop');
  assert.equal(both?.fromStop, 'stays at stop', 'no spring');
  assert.deepEqual([toRun?.fromRun, toRun?.fromStop], ['goes to stop', 'stays at stop'], 'to run');
});

test('the mechanism is drawn at every gap, the cylinder with its bore', () => {
  for (const { name, job } of cylinders) {
    const mechanism = mechanismOf(job);
    assert.ok(mechanism.stroke !== null && mechanism.stroke > 0, name);
    for (const share of [0, 0.5, 1]) {
      const picture = mechanism.pictureAt(share * mechanism.stroke);
      assertPlain(picture);
      assert.equal(picture.actuator.kind, 'air cylinder', name);
      assert.ok(picture.actuator.bore !== null && picture.forces?.pullLeast !== null, name);
    }
  }
});
