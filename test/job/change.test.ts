/** Changes as plain data: what is put is there, what is taken back is as before, and nothing else moves. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { apply, change, inverse, type Change } from '../../src/job/change.ts';
import { pathSteps, pathText, valueAt } from '../../src/job/path.ts';
import { demo } from './jobs.ts';
import { quantitiesOf } from './quantities.ts';

const job = demo('railcar');

const steps = fc.array(fc.oneof(fc.constantFrom('survey', 'a', 'x1', 'pull-in', 'ÿ'), fc.nat(30)), { maxLength: 6 });

test('a path is written and read back', () => {
  assert.deepEqual(pathSteps('survey.effort.readings[2].pull'), ['survey', 'effort', 'readings', 2, 'pull']);
  assert.equal(pathText(['means', 'force', 0, 'rows', 12, 'gap']), 'means.force[0].rows[12].gap');
  assert.deepEqual([pathSteps(''), pathText([])], [[], '']);
  fc.assert(
    fc.property(steps, (list) => assert.deepEqual(pathSteps(pathText(list)), list)),
    { seed: 71, numRuns: 500 },
  );
});

test('what is put at a path stands there, and what lies beside it is shared', () => {
  for (const { path } of quantitiesOf(job)) {
    const one = change(job, path, '1 mm');
    assert.equal(one.from, valueAt(job, path));
    const after = apply(job, [one]);
    assert.equal(valueAt(after, path), '1 mm');
    assert.deepEqual(apply(after, inverse([one])), job);
    for (const part of ['survey', 'means', 'layout', 'supply', 'surroundings'] as const)
      if (!path.startsWith(part)) assert.equal(after[part], job[part], `${part} was copied by a change at ${path}`);
  }
});

test('a field that was not there is made, and taken away again', () => {
  const made = [
    change(job, 'layout.friction.slot', '0.2'),
    change(job, 'wanted.pull', '0.4'),
    change(job, 'return.springs[1]', { on: 'plunger' }),
    change(job, 'supply.contacts[3].rating', '5 A'),
  ];
  for (const one of made) {
    assert.equal(one.from, undefined);
    assert.deepEqual(valueAt(apply(job, [one]), one.path), one.to);
  }
  const after = apply(job, [made[2]]);
  assert.equal(after.return.springs.length, 2);
  assert.deepEqual(apply(after, inverse([made[2]])), job);
  const deep = apply(job, [change(job, 'wanted', { pull: '0.4' })]);
  assert.deepEqual(apply(deep, inverse([change(job, 'wanted', { pull: '0.4' })])), job);
});

test('taking a row out of a list moves the others up, and a field of nothing is refused', () => {
  const shorter = apply(job, [change(job, 'survey.effort.readings[0]', undefined)]);
  assert.deepEqual(shorter.survey.effort.readings, job.survey.effort.readings.slice(1));
  assert.throws(() => apply(job, [change(job, 'name.first', 'x')]), RangeError);
  assert.throws(() => apply(job, [{ path: 'survey.lever.runAngle.deeper', from: undefined, to: 1 }]), /runAngle/);
});

/** Changes to fields that are there, one after another. */
const changes = fc
  .array(fc.tuple(fc.nat(1000), fc.oneof(fc.constant('not measured'), fc.string(), fc.integer())), { maxLength: 12 })
  .map((list) => {
    const paths = quantitiesOf(job).map(({ path }) => path);
    const made: Change[] = [];
    for (const [at, to] of list) made.push(change(apply(job, made), paths[at % paths.length], to));
    return made;
  });

test('any row of changes is taken back by its inverse, and taking back twice gives the changes again', () => {
  const before = JSON.stringify(job);
  fc.assert(
    fc.property(changes, (list) => {
      const after = apply(job, list);
      assert.equal(JSON.stringify(apply(after, inverse(list))), before);
      assert.deepEqual(inverse(inverse(list)), list);
      assert.deepEqual(apply(apply(job, list.slice(0, 3)), list.slice(3)), after);
      assert.equal(JSON.stringify(job), before);
    }),
    { seed: 72, numRuns: 300 },
  );
});

test('a change cannot reach what is not the document', () => {
  for (const path of ['__proto__.polluted', 'constructor.prototype.polluted', 'survey.__proto__.polluted']) {
    let after: unknown = job;
    try {
      after = apply(job, [{ path, from: undefined, to: true }]);
    } catch (error) {
      assert.ok(error instanceof RangeError, path);
    }
    for (const reached of [{}, job, after, valueAt(after, 'survey')])
      assert.equal((reached as Record<string, unknown>)['polluted'], undefined, path);
  }
});
