/** Every reading of a hand cable is taken away in turn, and changed a little: exactly the findings that rest on it are concerned. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import type { Finding } from '../../../src/assessment/finding.ts';
import { cableStudy } from '../../../src/assessment/cable/study.ts';
import { NOT_MEASURED } from '../../../src/job/quantity-text.ts';
import { valueAt } from '../../../src/job/path.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import { altered } from '../../job/jobs.ts';
import { exactly, quantitiesOf, quantityOf } from '../../job/quantities.ts';
import { assertConsistent, assertPlain } from '../plain-data.ts';
import { cables, withCable } from './cables.ts';

function said({ verdict, value, limit, margin, at, because }: Finding): string {
  return JSON.stringify({ verdict, value, limit, margin, at, because });
}

function byId(job: Job): Map<string, Finding> {
  const assessment = assess(job);
  assertConsistent(assessment);
  return new Map(assessment.findings.map((finding) => [finding.id, finding]));
}

/** What is looked at rather than measured, but may be left open too. */
const looked = [
  'means.handle.kind',
  'means.handle.posture',
  'means.core.construction',
  'means.core.moves',
  'means.conduit.lining',
  'means.towardsStop',
  'means.leverEnd.fitting',
];

for (const { name, job } of cables) {
  const readings = [
    ...quantitiesOf(job)
      .filter(({ isOptional }) => !isOptional)
      .map(({ path }) => path),
    // The radius of a bend may be left out at the ends, where it is of no use.
    ...job.means.route.flatMap(({ radius }, i) => (radius === undefined ? [] : [`means.route[${i}].radius`])),
    // Where a tee or bell-crank stands is not asked of a second cable.
    ...(valueAt(job, 'means.secondStation.joins') === undefined ? [] : ['means.secondStation.joins']),
    ...looked,
  ];

  test(`${name}: a reading that was not taken is missed by exactly the findings that rest on it`, () => {
    const before = byId(job);
    const wrong: string[] = [];
    let concerned = 0;
    for (const path of readings) {
      assert.notEqual(valueAt(job, path), undefined, path);
      const without = altered(job, { [path]: NOT_MEASURED });
      assertPlain(cableStudy(without, withCable(without).means));
      const after = byId(without);
      // Whether a core is pushed decides which questions there are.
      if (path !== 'means.towardsStop') assert.deepEqual([...after.keys()].sort(), [...before.keys()].sort(), path);
      for (const [id, finding] of after) {
        const known = before.get(id);
        if (known === undefined || known.needs.includes(path)) {
          concerned++;
          if (finding.verdict !== 'not known' || !finding.missing.includes(path))
            wrong.push(`${id} without ${path}: ${finding.verdict}, missing ${finding.missing.join()}`);
        } else if (said(finding) !== said(known)) {
          wrong.push(`${id} without ${path}: ${said(known)} became ${said(finding)}`);
        }
      }
    }
    assert.deepEqual(wrong, []);
    assert.ok(readings.length > 40 && concerned > 100, `${readings.length} readings, ${concerned} findings concerned`);
  });

  test(`${name}: a reading that is a little different concerns no finding that does not say so`, () => {
    const before = byId(job);
    const wrong: string[] = [];
    let moved = 0;
    for (const found of quantitiesOf(job)) {
      if (found.isOptional && !/\.(radius|joins)$/.test(found.path)) continue;
      const { value } = quantityOf(found);
      const text = exactly(value === 0 ? 1e-3 : value * 0.97, found.rule.dimension);
      const read = readDocument(altered(job, { [found.path]: text }));
      if (!read.ok) continue;
      for (const { id, value: now, limit, margin } of assess(read.job).findings) {
        const known = before.get(id)!;
        const isSame = now === known.value && limit === known.limit && margin === known.margin;
        if (!isSame) moved++;
        if (!isSame && !known.needs.includes(found.path))
          wrong.push(`${id} with ${found.path} = ${text}: margin ${known.margin} became ${margin}`);
      }
    }
    assert.deepEqual(wrong, []);
    assert.ok(moved > 60, `${moved} findings moved`);
  });
}

test('a document in which nothing of the cable was measured names what to take, finding by finding', () => {
  for (const { job } of cables) {
    const all = Object.fromEntries(
      [
        ...quantitiesOf(job)
          .filter(({ isOptional }) => !isOptional)
          .map(({ path }) => path),
        ...looked,
      ].map((path) => [path, NOT_MEASURED]),
    );
    const nothing = altered(job, all);
    const assessment = assess(nothing);
    assertConsistent(assessment);
    for (const { verdict, missing, id } of assessment.findings) {
      if (id === 'may-be-pushed' || missing.length > 0) assert.equal(verdict, 'not known', id);
    }
    const study = cableStudy(nothing, withCable(nothing).means);
    assertPlain(study);
    assert.deepEqual([study.worst, study.now, study.swing, study.travel], [null, null, null, null]);
    assert.ok(study.missing.length > 10, `${study.missing.length} readings named`);
  }
});
