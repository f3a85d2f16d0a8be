import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import test from 'node:test';
import { readDocument } from '../../src/job/read.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import { pathSteps } from '../../src/job/path.ts';
import type { Job } from '../../src/job/schema.ts';
import type { Form } from '../../src/web/reckoning/form.ts';
import { blankJob, jobForm } from '../../src/web/reckoning/job-form.ts';
import { surveySteps } from '../../src/web/survey/labels.ts';
import { notMeasured } from '../../src/web/survey/missing.ts';
import { switchedTo } from '../../src/web/survey/switching.ts';

const folder = new URL('../../src/job/demos/', import.meta.url);
const demos = readdirSync(folder).map(
  (file) => [file, JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as Job] as const,
);

test('a new job reads, and nothing in it is measured', () => {
  const job = blankJob();
  const reading = readDocument(job);
  assert.ok(reading.ok, JSON.stringify(reading));
  for (const path of [
    'survey.lever.runAngle',
    'means.plunger.stroke',
    'layout.homePin.x',
    'layout.adjuster.range',
    'supply.internalResistance',
  ])
    assert.ok(notMeasured(job, '').includes(path), path);
});

/** Every field of a document has a place in the survey. */
function reachable(form: Form, value: unknown, path: string): string[] {
  if (typeof value !== 'object' || value === null) return [path];
  switch (form.kind) {
    case 'group':
      return inFields(form.fields, value, path);
    case 'list':
      return (value as unknown[]).flatMap((item, i) => reachable(form.item, item, `${path}[${i}]`));
    case 'kinds': {
      const name = (value as Record<string, unknown>)[form.tag];
      const kind = form.kinds.find((one) => one.name === name);
      assert.ok(kind, `${path}: no kind ${String(name)}`);
      return [`${path}.${form.tag}`, ...inFields(kind.form.fields, value, path)];
    }
    case 'word or group':
      return reachable(form.group, value, path);
    case 'quantity':
    case 'text':
    case 'number':
    case 'choice':
      return assert.fail(`${path} is a ${form.kind}, and the document has fields there`);
  }
}

function inFields(fields: readonly { key: string; form: Form }[], value: object, path: string): string[] {
  return fields.flatMap(({ key, form }) => {
    const inner = (value as Record<string, unknown>)[key];
    return inner === undefined ? [] : reachable(form, inner, path === '' ? key : `${path}.${key}`);
  });
}

function leaves(value: unknown, path: string): string[] {
  if (typeof value !== 'object' || value === null) return [path];
  if (Array.isArray(value)) return value.flatMap((item, i) => leaves(item, `${path}[${i}]`));
  return Object.entries(value).flatMap(([key, inner]) => leaves(inner, path === '' ? key : `${path}.${key}`));
}

test('every field of every demo has its place in the survey, in one of its steps', () => {
  const form = jobForm();
  const parts: readonly string[] = surveySteps.flatMap(({ parts }) => [...parts]);
  for (const [file, job] of demos) {
    assert.deepEqual(reachable(form, job, '').sort(), leaves(job, '').sort(), file);
    for (const path of leaves(job, '')) {
      const part = String(pathSteps(path)[0]);
      assert.ok(['format', 'version'].includes(part) || parts.includes(part), path);
    }
  }
});

function formAt(path: string): Form {
  let form: Form | undefined = jobForm();
  for (const step of pathSteps(path)) {
    if (form?.kind === 'group') form = form.fields.find(({ key }) => key === step)?.form;
    else if (form?.kind === 'list') form = form.item;
    else if (form?.kind === 'kinds')
      form = form.kinds.flatMap((kind) => kind.form.fields).find(({ key }) => key === step)?.form;
  }
  assert.ok(form, path);
  return form;
}

test('switching the kind of a part keeps what both kinds have, and always gives a document that reads', () => {
  const railcar = demos.find(([file]) => file === 'railcar.json')![1];
  const connection = formAt('layout.connection');
  assert.equal(connection.kind, 'kinds');
  const slotted = {
    kind: 'slotted lever',
    slotFrom: '42 mm',
    slotTo: '62 mm',
    pinDiameter: '8 mm',
    sideClearance: '0.2 mm',
  };
  for (const { name } of connection.kinds) {
    const switched = switchedTo(connection, slotted, name) as Record<string, unknown>;
    assert.ok(readDocument({ ...railcar, layout: { ...railcar.layout, connection: switched } }).ok, name);
    if (name !== 'short chain') assert.equal(switched['pinDiameter'], '8 mm', name);
  }
  assert.equal((switchedTo(connection, slotted, 'plain pin') as Record<string, unknown>)['armRadius'], NOT_MEASURED);
  const means = formAt('means');
  assert.equal(means.kind, 'kinds');
  for (const { name } of means.kinds)
    assert.ok(readDocument({ ...railcar, means: switchedTo(means, railcar.means, name) }).ok, name);
});
