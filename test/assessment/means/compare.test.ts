/** The means side by side: the same rows for each, every one judged as an assessment of its own would judge it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import { compareMeans } from '../../../src/assessment/means/compare.ts';
import { rowNames, type MeansColumn } from '../../../src/assessment/means/comparison.ts';
import { withMeans } from '../../../src/assessment/means/variants.ts';
import { apply, inverse } from '../../../src/job/change.ts';
import { demoJobs } from '../../../src/job/demos.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import { changed, demo } from '../../job/jobs.ts';
import { assertPlain } from '../plain-data.ts';

const ferry = demo('ferry');

function column(job: Job, kind: MeansColumn['kind']): MeansColumn {
  const found = compareMeans(job).columns.find((one) => one.kind === kind);
  assert.ok(found !== undefined, `no column for ${kind}`);
  return found;
}

test('every demo has a column for each kind of means, with every row, in plain data', () => {
  for (const { name } of demoJobs) {
    const comparison = compareMeans(demo(name));
    assert.deepEqual(
      new Set(comparison.columns.map(({ kind }) => kind)),
      new Set(['hand cable', 'solenoid', 'air cylinder']),
      name,
    );
    for (const { cells, verdict, notPossible, name: means } of comparison.columns) {
      assert.deepEqual(Object.keys(cells), [...rowNames], `${name}: ${means}`);
      if (verdict !== null)
        for (const row of rowNames) assert.ok(cells[row].lines.length > 0, `${name}: ${means} has nothing on ${row}`);
      else assert.ok(notPossible !== null, `${name}: ${means} has no verdict and no reason`);
    }
    assertPlain({ ...comparison, columns: comparison.columns.map((one) => ({ ...one, take: [] })) });
  }
});

test('a column says what assessing the job with that means says', () => {
  const { columns } = compareMeans(ferry);
  const alone = [ferry, ...(ferry.considered ?? []).map((other) => withMeans(ferry, other))].map((job) => assess(job));
  assert.deepEqual(
    columns.map(({ verdict, answers }) => ({ verdict, answers })),
    alone.map(({ verdict, answers }) => ({ verdict, answers })),
  );
});

test('what holds is recommended before what is thin, and every other means has its reason', () => {
  const { recommended, columns } = compareMeans(ferry);
  assert.ok(recommended.column !== null);
  const best = columns[recommended.column];
  assert.deepEqual([best.kind, best.verdict], ['air cylinder', 'holds']);
  for (const other of columns)
    if (other !== best)
      assert.ok(
        recommended.reasons.some((reason) => reason.startsWith(other.name)),
        `nothing is said of ${other.name}`,
      );
  assert.ok(recommended.reasons.some((reason) => /hand stop/.test(reason)));
});

test('where nothing works nothing is recommended', () => {
  // A lever with a hard stop before no-fuel cannot be taken there by any means.
  const { recommended } = compareMeans(changed(ferry, { 'survey.lever.hardStopAngle': '50°' }));
  assert.equal(recommended.column, null, recommended.words);
  assert.ok(recommended.reasons.length > 0);
});

test('no air, no cylinder; and a means that is not described says what it would have to give', () => {
  const railcar = column(demo('railcar'), 'air cylinder');
  assert.deepEqual([railcar.verdict, railcar.notPossible], [null, 'There is no compressed air here.']);
  const dry = column(changed(ferry, { 'survey.air': 'none' }), 'air cylinder');
  assert.equal(dry.notPossible, 'There is no compressed air here.');
  const solenoid = column(changed(ferry, { considered: undefined }), 'solenoid');
  // Greatest reading 4.4 lbf at 55 mm with the first pull of 4.6 lbf: by hand 25.0 N and more at 45 mm of arm.
  assert.match(solenoid.notPossible ?? '', /must give 2\d(\.\d)? N over 22 mm at an arm of 45 mm/);
});

test('taking a means puts it in the place of the chosen one, which stays among the others; and it can be taken back', () => {
  for (const name of ['ferry', 'railcar']) {
    const job = demo(name);
    for (const { take, kind } of compareMeans(job).columns) {
      if (take.length === 0) continue;
      const taken = apply(job, take);
      const read = readDocument(taken);
      assert.ok(read.ok, JSON.stringify(read));
      assert.equal(read.job.means.kind, kind);
      assert.ok((read.job.considered ?? []).some(({ means }) => means.kind === job.means.kind));
      assert.deepEqual(apply(taken, inverse(take)), job, `${name}: ${kind}`);
    }
  }
});

test('a cable with starting values is told as such, and rests on the survey alone', () => {
  const cable = column(demo('railcar'), 'hand cable');
  assert.equal(cable.origin, 'starting values');
  assert.ok(cable.assumed.some(({ path }) => path === 'means.core'));
  const unread = changed(demo('railcar'), { 'survey.run.distance': 'not measured' });
  assert.equal(column(unread, 'hand cable').verdict, 'not known');
});
