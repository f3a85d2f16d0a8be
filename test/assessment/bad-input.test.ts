/** What cannot be, or lies beyond what is known: refused where it is read, not known, or remarked on, and never an exception. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { assess } from '../../src/assessment/assess.ts';
import { readDocument } from '../../src/job/read.ts';
import { altered, changed, demo } from '../job/jobs.ts';
import { assertConsistent } from './plain-data.ts';

test('no volts are refused where they are read', () => {
  for (const [path, text] of [
    ['supply.low', '0 V'],
    ['supply.charging', '0 V'],
    ['supply.suppression', { kind: 'zener', voltage: '0 V' }],
  ] as const) {
    const read = readDocument(altered(demo('railcar'), { [path]: text }));
    assert.ok(!read.ok, path);
    assert.match(read.problems[0].problem, /above 0 V/);
  }
});

test('air hotter than the physics of heat knows: what rests on it is not known, and says why', () => {
  for (const path of ['surroundings.hottest', 'means.body.mountingTemperature']) {
    const assessment = assess(changed(demo('railcar'), { [path]: path.startsWith('means') ? '400 °C' : '140 °C' }));
    assertConsistent(assessment);
    for (const id of ['held-off-home', 'class-in-hold', 'fuse']) {
      const one = assessment.findings.find((found) => found.id === id);
      assert.deepEqual([one?.verdict, one?.missing], ['not known', [path]], id);
      assert.match(
        one?.because ?? '',
        /^Heat is reckoned for (air|a mounting) from .* to .*, not at (140|400) °C\.$/,
        id,
      );
    }
  }
});

test('a body lighter than its own copper is not believed', () => {
  const one = assess(changed(demo('railcar'), { 'means.body.mass': '0.1 kg' })).findings.find(
    ({ id }) => id === 'held-off-home',
  );
  assert.deepEqual([one?.verdict, one?.missing], ['not known', ['means.body.mass', 'means.body.wireDiameter']]);
  assert.match(one?.because ?? '', /weigh less than its own copper/);
});

test('a conductor of more than a kilometre, and an inductance that the pulls contradict, are remarked on', () => {
  const far = assess(changed(demo('railcar'), { 'supply.out.length': '4200 m' }));
  assert.ok(
    far.remarks.some((remark) => /4200 m is more than a kilometre/.test(remark)),
    far.remarks.join(' | '),
  );
  const low = assess(changed(demo('railcar'), { 'means.openInductance': '1 μH' }));
  assert.ok(
    low.remarks.some((remark) => /inductance read is less than the pulls ask for, and was not used/.test(remark)),
    low.remarks.join(' | '),
  );
  assert.ok(!assess(demo('railcar')).remarks.some((remark) => /kilometre|inductance/.test(remark)));
});

test('where the connection is held fast nothing comes home, comes back or lands, and each finding says so', () => {
  const { findings } = assess(demo('binding-pin'));
  const verdicts = Object.fromEntries(findings.map(({ id, verdict }) => [id, verdict]));
  assert.equal(verdicts['home-in-time'], 'fails');
  assert.equal(verdicts['release-time'], 'fails');
  assert.equal(verdicts['command-lasts'], 'fails');
  assert.match(findings.find(({ id }) => id === 'landing-speed')?.because ?? '', /nothing lands/);
});
