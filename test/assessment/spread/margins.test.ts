/** A drawn document with the nominal values gives exactly the margins of an assessment, and a drawn one those of its own text. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess, isSolenoid } from '../../../src/assessment/assess.ts';
import { drawnJob } from '../../../src/assessment/spread/drawn-job.ts';
import { spreadInputs } from '../../../src/assessment/spread/inputs.ts';
import { marginReckoner, spreadFindings } from '../../../src/assessment/spread/margins.ts';
import { change, apply } from '../../../src/job/change.ts';
import { demoJobs } from '../../../src/job/demos.ts';
import { readDocument } from '../../../src/job/read.ts';
import type { Job } from '../../../src/job/schema.ts';
import { DomainError } from '../../../src/physics/domain-error.ts';
import { formatQuantity, metricUnits } from '../../../src/units/quantity.ts';
import { randomInstallations } from '../random-installation.ts';

const demos = demoJobs.map(({ document }) => {
  const read = readDocument(document);
  assert.ok(read.ok, 'a demonstration reads');
  return read.job;
});

const atRest = (job: Job) =>
  new Map(assess(job, metricUnits, 'at rest').findings.map(({ id, margin }) => [id, margin]));

function drawnMargins(job: Job, move: (nominal_SI: number, i: number) => number, wanted?: readonly string[]) {
  assert.ok(isSolenoid(job), 'has a solenoid');
  const { inputs } = spreadInputs(job, { unwritten: 'instrument' });
  const drawn = drawnJob(job, inputs);
  drawn.set(
    inputs.map(({ nominal_SI }, i) => move(nominal_SI, i)),
    0,
  );
  const ids = spreadFindings(job).map(({ id }) => id);
  const margins = new Float64Array(ids.length);
  marginReckoner(job, ids, wanted).margins(drawn.job, margins, 0);
  return { ids, margins, inputs };
}

test('nominal values give the margins of the assessment to the last digit, on every demonstration and 150 random installations', () => {
  const jobs = [...demos, ...randomInstallations(150, 20_261)].filter(isSolenoid);
  assert.ok(jobs.length > 100, `only ${jobs.length} have a solenoid`);
  for (const job of jobs) {
    const expected = atRest(job);
    const { ids, margins } = drawnMargins(job, (nominal) => nominal);
    for (const [id, margin] of expected) {
      const got = margins[ids.indexOf(id)];
      if (margin === null) assert.ok(Number.isNaN(got), `${job.name}: ${id} is not known, and gave ${got}`);
      else assert.equal(got, margin, `${job.name}: ${id}`);
    }
  }
});

test('a draw gives what the assessment gives when the drawn values are written into the document', () => {
  for (const job of demos.filter(isSolenoid)) {
    // A thousandth up or down by turns: written with twelve digits, so margins agree to about as many.
    const move = (nominal: number, i: number) => nominal * (1 + (i % 2 === 0 ? 1e-3 : -1e-3));
    const { ids, margins, inputs } = drawnMargins(job, move);
    const changes = inputs.flatMap(({ path, alsoAt, dimension, nominal_SI }, i) =>
      [path, ...alsoAt].map((place) => {
        const unit = metricUnits[dimension];
        return change(job, place, formatQuantity(move(nominal_SI, i), dimension, unit, { significantDigits: 15 }));
      }),
    );
    const expected = atRest(apply(job, changes));
    for (const [id, margin] of expected) {
      if (margin === null) continue;
      const got = margins[ids.indexOf(id)] ?? NaN;
      assert.ok(
        Math.abs(got - margin) <= 1e-7 * Math.max(1, Math.abs(margin)),
        `${job.name}: ${id} drawn ${got}, written ${margin}`,
      );
    }
  }
});

test('findings that are not asked for stay out, and those that are asked for are the same', () => {
  const job = demos[0];
  const all = drawnMargins(job, (nominal) => nominal);
  const some = drawnMargins(job, (nominal) => nominal, ['holds-at-home']);
  all.ids.forEach((id, i) => {
    if (id === 'holds-at-home') assert.equal(some.margins[i], all.margins[i], id);
    else assert.ok(Number.isNaN(some.margins[i]), `${id} was not asked for`);
  });
});

test('draws one after another, each written over the one before, give what each gives alone', () => {
  const jobs = [...demos, ...randomInstallations(60, 77)].filter(isSolenoid);
  let compared = 0;
  for (const job of jobs) {
    const { inputs } = spreadInputs(job, { unwritten: 'instrument' });
    const ids = spreadFindings(job).map(({ id }) => id);
    const inOneRoom = marginReckoner(job, ids);
    const drawn = drawnJob(job, inputs);
    // Far enough apart that stations come and go with stops and switches.
    for (const by of [0, 0.02, -0.02, 0.01, 0]) {
      const values = inputs.map(({ nominal_SI }, i) => nominal_SI * (1 + by * Math.cos(3 * i)));
      const [together, alone] = [new Float64Array(ids.length), new Float64Array(ids.length)];
      drawn.set(values, 0);
      const wasRefused = refuses(() => inOneRoom.margins(drawn.job, together, 0));
      const fresh = drawnJob(job, inputs);
      fresh.set(values, 0);
      assert.equal(
        refuses(() => marginReckoner(job, ids).margins(fresh.job, alone, 0)),
        wasRefused,
        job.name,
      );
      if (wasRefused) continue;
      assert.deepEqual([...together], [...alone], `${job.name}, moved by ${by}`);
      compared++;
    }
  }
  assert.ok(compared > 200, `only ${compared} compared`);
});

function refuses(work: () => void): boolean {
  try {
    work();
    return false;
  } catch (error) {
    if (error instanceof DomainError) return true;
    throw error;
  }
}
