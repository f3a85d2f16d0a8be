/** Readings of one return spring that cannot all be true together are told at the reading that contradicts. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readDocument } from '../../src/job/read.ts';
import { altered, changed, demo } from './jobs.ts';

const railcar = demo('railcar');

function problemsOf(spring: unknown) {
  const read = readDocument(altered(railcar, { 'return.springs[0]': spring }));
  return read.ok
    ? []
    : read.problems.map(({ path, problem }) => `${path.replace('return.springs[0].', '')}: ${problem}`);
}

const onLever = (
  kind: 'extension' | 'compression',
  first: [string, string],
  second: [string, string],
  free?: string,
) => ({
  ...railcar.return.springs[0],
  kind,
  spring: {
    by: 'two readings',
    first: { length: first[0], force: first[1] },
    second: { length: second[0], force: second[1] },
    ...(free === undefined ? {} : { freeLength: free }),
    limitLength: kind === 'extension' ? '120 mm' : '20 mm',
  },
});
const onShaft = (towards: 'run' | 'stop', spring: unknown) => ({
  on: 'shaft',
  name: 'Torsion',
  kind: 'torsion',
  towards,
  spring,
});
const twoMoments = (first: [string, string], second: [string, string]) => ({
  by: 'two readings',
  first: { angle: first[0], moment: first[1] },
  second: { angle: second[0], moment: second[1] },
  limitAngle: '140°',
});

test('springs that can be are read', () => {
  const good: readonly unknown[] = [
    onLever('extension', ['60 mm', '12 N'], ['85 mm', '40 N']),
    onLever('extension', ['85 mm', '40 N'], ['60 mm', '12 N ± 1'], '52 mm'),
    onLever('compression', ['60 mm', '10 N'], ['40 mm', '30 N'], '71 mm'),
    onLever('compression', ['60 mm', '10 N'], ['40 mm', 'not measured'], '55 mm'),
    onLever('extension', ['not measured', '12 N'], ['60 mm', '12 N']),
    onShaft('run', twoMoments(['62°', '0.2 N m'], ['97°', '0.45 N m'])),
    onShaft('stop', twoMoments(['62°', '0.45 N m'], ['97°', '0.2 N m'])),
    onShaft('stop', twoMoments(['62°', '0.45 N m'], ['97°', 'not measured'])),
    onShaft('run', { by: 'rate', rate: '15 N mm/°', freeAngle: '20°', limitAngle: 'not measured' }),
  ];
  for (const spring of good) assert.deepEqual(problemsOf(spring), [], JSON.stringify(spring));
});

const bad: readonly (readonly [string, RegExp, unknown])[] = [
  [
    'spring.second.length',
    /both readings stand at one length/,
    onLever('extension', ['60 mm', '12 N'], ['6 cm', '40 N']),
  ],
  [
    'spring.second.force',
    /an extension spring holds more: 40 N at 60 mm and 12 N/,
    onLever('extension', ['60 mm', '40 N'], ['85 mm', '12 N']),
  ],
  ['spring.second.force', /holds more/, onLever('extension', ['60 mm', '40 N'], ['85 mm', '40 N'])],
  [
    'spring.second.force',
    /a compression spring holds more/,
    onLever('compression', ['60 mm', '10 N'], ['85 mm', '40 N']),
  ],
  [
    'spring.freeLength',
    /no longer than at both readings/,
    onLever('extension', ['60 mm', '12 N'], ['85 mm', '40 N'], '62 mm'),
  ],
  [
    'spring.freeLength',
    /no shorter than at both readings/,
    onLever('compression', ['60 mm', '10 N'], ['40 mm', '30 N'], '58 mm'),
  ],
  [
    'spring.freeLength',
    /would hold nothing at 49\.3 mm already/,
    onLever('extension', ['60 mm', '12 N'], ['85 mm', '40 N'], '40 mm'),
  ],
  [
    'spring.freeLength',
    /would hold nothing at 70\.0 mm already/,
    onLever('compression', ['60 mm', '10 N'], ['40 mm', '30 N'], '90 mm'),
  ],
  [
    'spring.second.angle',
    /both readings stand at one angle/,
    onShaft('run', twoMoments(['62°', '0.2 N m'], ['62°', '0.3 N m'])),
  ],
  [
    'spring.second.moment',
    /towards run gives more the further the lever stands from run/,
    onShaft('run', twoMoments(['62°', '0.4 N m'], ['97°', '0.2 N m'])),
  ],
  [
    'spring.second.moment',
    /towards stop gives more/,
    onShaft('stop', twoMoments(['62°', '0.2 N m'], ['97°', '0.4 N m'])),
  ],
  [
    'spring.outsideDiameter',
    /over 2\.5 times the wire/,
    onShaft('run', {
      by: 'dimensions',
      wire: 'EN 10270-1 SH',
      wireDiameter: '3 mm',
      outsideDiameter: '7 mm',
      activeTurns: '5',
      freeAngle: '0°',
    }),
  ],
];

test('springs that cannot be are told, each with one sentence', () => {
  for (const [path, words, spring] of bad) {
    const found = problemsOf(spring);
    assert.equal(found.length, 1, `${path}: ${found.join(' | ')}`);
    assert.ok(found[0]?.startsWith(`${path}: `), found[0]);
    assert.match(found[0] ?? '', words);
  }
});

test('the ± of the readings is allowed for before a free length is called wrong', () => {
  const wrong = onLever('extension', ['60 mm', '12 N'], ['85 mm', '40 N'], '43 mm');
  assert.equal(problemsOf(wrong).length, 1);
  const rough = onLever('extension', ['60 mm ± 2', '12 N ± 6'], ['85 mm', '40 N'], '43 mm');
  assert.deepEqual(problemsOf(rough), []);
});

test('documents of before still read, and a wire drawn for moving springs may be named', () => {
  const job = changed(railcar, { 'return.springs[0].spring.wire': 'EN 10270-1 DH' });
  assert.equal(job.version, railcar.version);
});
