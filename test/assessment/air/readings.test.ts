/**
 * Readings and findings of an air cylinder: a reading that was not taken is missed by exactly the findings that rest on it,
 * and one that is a little different concerns no other.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../../src/assessment/assess.ts';
import type { Finding } from '../../../src/assessment/finding.ts';
import { NOT_MEASURED } from '../../../src/job/quantity-text.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import { altered, changed } from '../../job/jobs.ts';
import { exactly, quantitiesOf, quantityOf, type Found } from '../../job/quantities.ts';
import { assertConsistent } from '../plain-data.ts';
import { cylinders } from './cylinders.ts';

function said({ verdict, value, limit, margin, at, because }: Finding): string {
  return JSON.stringify({ verdict, value, limit, margin, at, because });
}

const byId = (job: Job): Map<string, Finding> => new Map(assess(job).findings.map((one) => [one.id, one]));

const isToStop = ({ means }: Job) => means.kind === 'air cylinder' && means.works === 'air to stop';

/** Words that are no quantity, and may not have been looked at. */
const words = ['means.works', 'means.action', 'means.returns', 'survey.air'];

for (const { name, job } of cylinders) {
  test(`${name}: everything said is plain and follows from its margins`, () => {
    assertConsistent(assess(job), isToStop(job));
  });

  test(`${name}: a reading that was not taken is missed by exactly the findings that rest on it`, () => {
    const before = byId(job);
    const readings = quantitiesOf(job)
      .filter(({ isOptional }) => !isOptional)
      .map(({ path }) => path);
    const wrong: string[] = [];
    let concerned = 0;
    for (const path of readings) {
      const after = byId(altered(job, { [path]: NOT_MEASURED }));
      assert.deepEqual([...after.keys()].sort(), [...before.keys()].sort(), path);
      for (const [id, finding] of after) {
        const known = before.get(id)!;
        if (known.needs.includes(path)) {
          concerned++;
          if (finding.verdict !== 'not known' || finding.missing.join() !== path)
            wrong.push(`${id} without ${path}: ${finding.verdict}, missing ${finding.missing.join()}`);
        } else if (said(finding) !== said(known))
          wrong.push(`${id} without ${path}: ${said(known)} became ${said(finding)}`);
      }
    }
    assert.deepEqual(wrong, [], 'readings and findings agree');
    assert.ok(concerned > 250, `${concerned} findings concerned by ${readings.length} readings`);
  });

  test(`${name}: a reading that is a little different concerns no finding that does not say so`, () => {
    const before = byId(job);
    const wrong: string[] = [];
    for (const found of quantitiesOf(job)) {
      if (found.isOptional) continue;
      const text = nearby(found);
      const read = readDocument(altered(job, { [found.path]: text }));
      if (!read.ok) continue;
      for (const { id, value, limit, margin } of assess(read.job).findings) {
        const known = before.get(id)!;
        if (known.needs.includes(found.path)) continue;
        if (value !== known.value || limit !== known.limit || margin !== known.margin)
          wrong.push(`${id} with ${found.path} = ${text}: margin ${known.margin} became ${margin}`);
      }
    }
    assert.deepEqual(wrong, [], 'nothing rests on what it does not name');
  });

  test(`${name}: what was not looked at is missed by its name`, () => {
    const before = byId(job);
    for (const path of words) {
      const after = byId(changed(job, { [path]: NOT_MEASURED }));
      let missed = 0;
      for (const [id, finding] of after) {
        if (!finding.missing.includes(path)) continue;
        missed++;
        assert.equal(finding.verdict, 'not known', `${id} without ${path}`);
      }
      assert.ok(missed > 0, `nothing misses ${path}`);
      assert.ok(after.size >= before.size - 1, `${path}: ${after.size} of ${before.size} findings`);
      assertConsistent(assess(changed(job, { [path]: NOT_MEASURED })), isToStop(job) || path === 'means.works');
    }
  });
}

function nearby(found: Found): string {
  const { value } = quantityOf(found);
  const { dimension } = found.rule;
  return exactly(dimension === 'temperature' ? value - 8 : value === 0 ? 1e-3 : value * 0.93, dimension);
}
