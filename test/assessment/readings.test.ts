/**
 * Every reading is taken away in turn, and every reading is changed a little: exactly the findings that say they rest on
 * it are concerned.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import type { Finding } from '../../src/assessment/finding.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import { readDocument } from '../../src/job/read.ts';
import type { Job } from '../../src/job/schema.ts';
import { altered, changed, demo } from '../job/jobs.ts';
import { exactly, quantitiesOf, quantityOf, type Found } from '../job/quantities.ts';
import { installations } from './installations.ts';
import { assertConsistent, assertPlain } from './plain-data.ts';

/** All that a finding says, but for what may mend it. */
function said({ verdict, value, limit, margin, at, because }: Finding): string {
  return JSON.stringify({ verdict, value, limit, margin, at, because });
}

function byId(job: Job): Map<string, Finding> {
  const assessment = assess(job);
  assertPlain(assessment.findings);
  return new Map(assessment.findings.map((finding) => [finding.id, finding]));
}

for (const { name, job } of installations) {
  test(`${name}: a reading that was not taken is missed by exactly the findings that rest on it`, () => {
    const before = byId(job);
    const readings = quantitiesOf(job).filter(({ isOptional }) => !isOptional);
    const wrong: string[] = [];
    let concerned = 0;
    for (const { path } of readings) {
      const after = byId(altered(job, { [path]: NOT_MEASURED }));
      assert.deepEqual([...after.keys()].sort(), [...before.keys()].sort(), path);
      for (const [id, finding] of after) {
        const known = before.get(id)!;
        if (known.needs.includes(path)) {
          concerned++;
          if (finding.verdict !== 'not known' || finding.missing.join() !== path)
            wrong.push(`${id} without ${path}: ${finding.verdict}, missing ${finding.missing.join()}`);
        } else if (said(finding) !== said(known)) {
          wrong.push(`${id} without ${path}: ${said(known)} became ${said(finding)}`);
        }
      }
    }
    assert.deepEqual(wrong, []);
    assert.ok(readings.length > 60 && concerned > 400, `${readings.length} readings, ${concerned} findings concerned`);
  });

  test(`${name}: a reading that is a little different concerns no finding that does not say so`, () => {
    const before = new Map(assess(job).findings.map((finding) => [finding.id, finding]));
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
    assert.deepEqual(wrong, []);
  });
}

/** A little less; of a temperature some kelvins, of nothing a little. */
function nearby(found: Found): string {
  const { value } = quantityOf(found);
  const { dimension } = found.rule;
  return exactly(dimension === 'temperature' ? value - 8 : value === 0 ? 1e-3 : value * 0.93, dimension);
}

test('no finding names a reading twice', () => {
  for (const { name, job } of installations)
    for (const { id, needs } of assess(job).findings) assert.equal(new Set(needs).size, needs.length, `${name}: ${id}`);
});

test('an empty list of efforts is missed by all that rest on the effort, an empty list of pulls by all that rest on the pull', () => {
  const job = demo('railcar');
  const cases = [
    ['survey.effort.readings', 'survey.effort.readings[0].pull'],
    ['means.force', 'means.force[0].rows[0].force'],
    ['means.force', 'means.force[2].rows[0].force'],
  ] as const;
  for (const [list, row] of cases) {
    const before = byId(job);
    for (const [id, finding] of byId(changed(job, { [list]: [] }))) {
      if (!before.get(id)!.needs.includes(row)) continue;
      assert.deepEqual([finding.verdict, finding.missing], ['not known', [list]], id);
    }
  }
});

test('several readings missing at once are all named, and what rests on none of them stays as it was', () => {
  const job = demo('railcar');
  const gone = ['survey.lever.lash', 'means.coil.holdResistance', 'survey.effort.readings[3].pull'];
  const before = byId(job);
  const after = byId(changed(job, Object.fromEntries(gone.map((path) => [path, NOT_MEASURED]))));
  for (const [id, finding] of after) {
    const known = before.get(id)!;
    const missing = known.needs.filter((path) => gone.includes(path));
    if (missing.length === 0) assert.equal(said(finding), said(known), id);
    else assert.deepEqual([finding.verdict, finding.missing], ['not known', missing], id);
  }
});

test('a document in which nothing was measured says of every finding which readings to take', () => {
  for (const name of ['railcar', 'pump-house', 'short-stroke', 'binding-pin']) {
    const job = demo(name);
    const readings = quantitiesOf(job)
      .filter(({ isOptional }) => !isOptional)
      .map(({ path }) => path);
    const assessment = assess(changed(job, Object.fromEntries(readings.map((path) => [path, NOT_MEASURED]))));
    assertConsistent(assessment);
    assert.equal(assessment.sweep, null);
    for (const { id, verdict, missing, needs } of assessment.findings) {
      if (!needs.some((path) => readings.includes(path))) continue; // looked at, not measured
      assert.equal(verdict, 'not known', id);
      assert.deepEqual([...missing].sort(), needs.filter((path) => readings.includes(path)).sort(), id);
    }
  }
});
