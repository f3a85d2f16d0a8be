/**
 * Random installations: whatever is put together, the assessment is plain, consistent data, and no text is too odd for it.
 * STOPWRIGHT_ROUNDS raises the number of rounds.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { assess } from '../../src/assessment/assess.ts';
import { mechanismOf } from '../../src/assessment/mechanism.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import type { Job } from '../../src/job/schema.ts';
import { randomJob } from '../job/random-job.ts';
import { readDocument } from '../../src/job/read.ts';
import { altered, demo } from '../job/jobs.ts';
import { exactly, isMeasured, quantitiesOf, quantityOf } from '../job/quantities.ts';
import { randomInstallation, randomInstallations } from './random-installation.ts';
import { assertConsistent, assertPlain } from './plain-data.ts';

const rounds = Number(process.env['STOPWRIGHT_ROUNDS'] ?? 400);

test('random installations give plain, consistent data', () => {
  fc.assert(
    fc.property(randomInstallation, (job) => assertConsistent(assess(job))),
    { seed: 41, numRuns: rounds },
  );
});

test('random installations with readings missing give plain, consistent data', () => {
  const withGaps = fc
    .tuple(randomInstallation, fc.array(fc.nat(200), { minLength: 1, maxLength: 6 }))
    .map(([job, at]) => {
      const readings = quantitiesOf(job).filter(({ isOptional }) => !isOptional);
      return altered(job, Object.fromEntries(at.map((i) => [readings[i % readings.length]?.path, NOT_MEASURED])));
    });
  fc.assert(
    fc.property(withGaps, (job) => assertConsistent(assess(job))),
    { seed: 42, numRuns: rounds },
  );
});

test('any document that reads is assessed, however odd, and a picture can be taken of it at any gap', () => {
  fc.assert(
    fc.property(randomJob, fc.double({ min: 0, max: 1, noNaN: true }), (job, share) => {
      assertConsistent(assess(job));
      const mechanism = mechanismOf(job);
      for (const gap of [0, (mechanism.stroke ?? 0.02) * share, mechanism.stroke ?? 0.03])
        assertPlain(mechanism.pictureAt(gap));
    }),
    { seed: 43, numRuns: rounds },
  );
});

test('the random installations are of every kind, and every finding comes out well for some and badly for others', () => {
  const jobs = randomInstallations(400, 44);
  const kinds = new Set(jobs.map(kindOf));
  assert.equal(kinds.size, 4 * 2 * 2 * 4, 'connection × way of working × pull or push × coil');
  const verdicts = new Map<string, Set<string>>();
  for (const job of jobs)
    for (const { id, verdict } of assess(job).findings) verdicts.set(id, (verdicts.get(id) ?? new Set()).add(verdict));
  assert.ok(verdicts.size >= 38, String(verdicts.size));
  for (const [id, seen] of verdicts)
    assert.ok(seen.has('holds') && seen.has('fails'), `${id}: ${[...seen].join(', ')}`);
});

/** Readings that a slip of the pen makes a thousand times too great or too small. */
const slips = [1e-3, 0.1, 10, 1e3];

test('a reading out of all proportion is assessed like any other, or refused where it is read', () => {
  let [assessed, refused] = [0, 0];
  for (const name of ['railcar', 'pump-house']) {
    const job = demo(name);
    for (const found of quantitiesOf(job)) {
      if (!isMeasured(found)) continue;
      const { value } = quantityOf(found);
      for (const factor of slips) {
        const read = readDocument(altered(job, { [found.path]: exactly(value * factor, found.rule.dimension) }));
        if (read.ok) assertConsistent(assess(read.job));
        else assert.ok(read.problems.every(({ problem }) => problem.length > 10));
        if (read.ok) assessed++;
        else refused++;
      }
    }
  }
  assert.ok(assessed > 500 && refused > 20, `${assessed} assessed, ${refused} refused`);
});

function kindOf({ layout, means }: Job): string {
  if (means.kind !== 'solenoid') throw new Error('a random installation has a solenoid');
  return [layout.connection.kind, means.works, means.action, means.coil.stages].join(', ');
}
