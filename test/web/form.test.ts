import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import test from 'node:test';
import { readDocument } from '../../src/job/read.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import { apply, change } from '../../src/job/change.ts';
import { pathSteps, valueAt } from '../../src/job/path.ts';
import type { Job } from '../../src/job/schema.ts';
import { blank, type Form } from '../../src/web/reckoning/form.ts';
import { addStep, noSteps, type Steps } from '../../src/web/desk/steps.ts';
import { stoodBefore, switchedTo } from '../../src/web/fields/switching.ts';
import { blankJob, jobForm } from '../../src/web/reckoning/job-form.ts';
import { labelOf, surveySteps } from '../../src/web/survey/labels.ts';
import { notMeasured } from '../../src/web/survey/missing.ts';
import { defaultOf } from '../../src/web/survey/default-of.ts';

const folder = new URL('../../src/job/demos/', import.meta.url);
const demos = readdirSync(folder).map(
  (file) => [file, JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as Job] as const,
);

const railcar = demos.find(([file]) => file === 'railcar.json')![1];

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
    'means.body.diameter',
    'means.body.thermalClass',
    'supply.fuse',
    'supply.cutOut',
    'supply.suppression',
    'supply.command',
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
      return reachable(form.part, value, path);
    case 'computed':
      return leaves(value, path);
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

function groupsOf(form: Form): (Form & { readonly kind: 'group' })[] {
  if (form.kind === 'group') return [form];
  if (form.kind === 'kinds') return form.kinds.map((kind) => kind.form);
  return form.kind === 'word or group' ? groupsOf(form.part) : [];
}

function formAt(path: string): Form {
  let form: Form | undefined = jobForm();
  for (const step of pathSteps(path)) {
    if (form?.kind === 'list') form = form.item;
    else
      form = (form === undefined ? [] : groupsOf(form))
        .flatMap(({ fields }) => fields)
        .find(({ key }) => key === step)?.form;
  }
  assert.ok(form, path);
  return form;
}

test('switching the kind of a part keeps what both kinds have, and always gives a document that reads', () => {
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

test('words and parts that stand beside each other can all be chosen, and every choice reads', () => {
  for (const [path, words, kinds] of [
    ['supply.fuse', ['none', 'not measured'], null],
    ['supply.cutOut', ['none', 'not measured'], null],
    ['supply.suppression', ['none', 'not measured'], ['diode', 'diode and resistor', 'zener']],
    ['supply.command', ['held by hand', 'not measured'], null],
    ['layout.overTravel', ['none'], null],
  ] as const) {
    const form = formAt(path);
    assert.equal(form.kind, 'word or group', path);
    assert.deepEqual(form.words, words, path);
    const { part } = form;
    assert.deepEqual(part.kind === 'kinds' ? part.kinds.map(({ name }) => name) : null, kinds, path);
    const values = [
      ...words,
      ...(part.kind === 'kinds' ? part.kinds.map(({ name }) => switchedTo(part, 'none', name)) : [blank(part)]),
    ];
    for (const value of values) {
      const reading = readDocument(apply(railcar, [change(railcar, path, value)]));
      assert.ok(reading.ok, `${path} ${JSON.stringify(value)}: ${JSON.stringify(reading)}`);
    }
  }
});

test('what a choice leaves unknown counts as missing, and what is known does not', () => {
  const unknown = apply(railcar, [
    change(railcar, 'supply.fuse', 'not measured'),
    change(railcar, 'supply.suppression', { kind: 'diode', polarity: 'not measured' }),
    change(railcar, 'means.body.thermalClass', 'not measured'),
  ]);
  assert.deepEqual(notMeasured(unknown, '').sort(), [
    'means.body.thermalClass',
    'supply.fuse',
    'supply.suppression.polarity',
  ]);
});

test('switched away and back, a part has again what was entered in it', () => {
  const suppression = formAt('supply.suppression');
  assert.ok(suppression.kind === 'word or group' && suppression.part.kind === 'kinds');
  const { part } = suppression;
  let document: unknown = railcar;
  let steps: Steps = noSteps;
  const put = (path: string, to: unknown) => {
    const changes = [change(document, path, to)];
    document = apply(document, changes);
    steps = addStep(steps, { name: path, changes, gesture: null });
  };
  const isKind = (name: string) => (value: unknown) => valueAt(value, 'kind') === name;
  const resistor = { kind: 'diode and resistor', polarity: 'cathode to plus', resistance: '47 Ω' };
  put('supply.suppression', resistor);
  put('supply.suppression', switchedTo(part, resistor, 'zener'));
  assert.deepEqual(valueAt(document, 'supply.suppression'), { kind: 'zener', voltage: NOT_MEASURED });
  put('supply.suppression', 'none');
  const before = stoodBefore(steps, 'supply.suppression', isKind('diode and resistor'));
  assert.deepEqual(switchedTo(part, 'none', 'diode and resistor', before), resistor);
  // From one kind to another, what both have now goes before what stood there once.
  const diode = { kind: 'diode', polarity: 'anode to plus' };
  assert.deepEqual(switchedTo(part, diode, 'diode and resistor', before), { ...resistor, polarity: 'anode to plus' });
  assert.equal(stoodBefore({ ...steps, done: 0 }, 'supply.suppression', isKind('zener')), undefined);
});

test('when rows were added or taken away, what stood under a number before is another row’s', () => {
  const spring = { by: 'rate', rate: '2 N/mm' };
  const steps = [
    { path: 'return.springs[0].spring', from: spring, to: 'other' },
    { path: 'return.springs', from: [1, 2], to: [2] },
  ].reduce<Steps>((all, one) => addStep(all, { name: '', changes: [one], gesture: null }), noSteps);
  const fits = (value: unknown) => valueAt(value, 'by') === 'rate';
  assert.equal(stoodBefore(steps, 'return.springs[0].spring', fits), undefined);
  assert.deepEqual(stoodBefore({ ...steps, done: 1 }, 'return.springs[0].spring', fits), spring);
});

/** Every quantity that may be left out, with one row in each list. */
function optional(form: Form, path: string): string[] {
  if (form.kind === 'list') return optional(form.item, `${path}[0]`);
  return groupsOf(form)
    .flatMap(({ fields }) => fields)
    .flatMap((field) => {
      const at = path === '' ? field.key : `${path}.${field.key}`;
      return [...(field.optional && field.form.kind === 'quantity' ? [at] : []), ...optional(field.form, at)];
    });
}

test('a field that is left out says its default; those that have none are known', () => {
  const isOwn = (path: string) => !/^(considered|handStop)\b/.test(path); // of one form with the means, layout and springs
  const without = optional(jobForm(), '').filter((path) => isOwn(path) && defaultOf(path, railcar) === undefined);
  assert.deepEqual([...new Set(without)].sort(), [
    'layout.connection.sideFreedom', // from the clearance
    'means.body.mountingTemperature', // the hottest surroundings
    'means.coil.turnsRatio',
    'means.deadVolume', // a tenth of the swept volume
    'means.dropOut',
    'means.friction', // by the lining
    'means.handle.allowed', // from published limits
    'means.leverEnd.conduitDirection', // the middle of the swing
    'means.leverEnd.swing', // by the fitting
    'means.openInductance',
    'means.readings.travel',
    'means.route[0].radius', // of no use at both ends
    'means.sealDrag', // by the bore
    'means.secondStation.joins', // not told
    'means.secondStation.route[0].radius',
    'return.springs[0].spring.freeLength', // of two readings: where their line meets no force
    'supply.backFeed',
    'supply.contacts[0].breaks', // its rating
    'supply.contacts[0].rating',
    'supply.stations[0].contacts[0].breaks',
    'supply.stations[0].contacts[0].rating',
    'survey.lever.bears', // not judged
    'survey.run.bendTotal', // of hand cables alone
  ]);
});

test('volts of the source are those of a supply of this nominal voltage', () => {
  const on = (nominal: number) => apply(railcar, [change(railcar, 'supply.nominal', nominal)]);
  assert.deepEqual(
    [12, 24, 32].map((nominal) => defaultOf('supply.low', on(nominal))?.text),
    ['10.5 V', '22 V', '28 V'],
  );
  assert.equal(defaultOf('supply.stations[1].contacts[2].ageing', railcar)?.text, '2');
  assert.equal(defaultOf('wanted.return', railcar)?.text, '0.3');
  const toRun = apply(railcar, [change(railcar, 'means.works', 'energise to run')]);
  assert.equal(defaultOf('wanted.return', toRun)?.text, '0.5');
});

test('every field has words of its own, and its help leaves out what the field itself shows', () => {
  for (const path of [...leaves(blankJob(), ''), ...leaves(railcar, '')])
    assert.match(labelOf(path), /^[A-Z][^A-Z_]*$/, path);
  for (const path of optional(jobForm(), '')) {
    const form = formAt(path);
    assert.ok(form.kind === 'quantity' && !/as typed|left out\)/.test(form.help), path);
  }
});
