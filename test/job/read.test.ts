/** The reader: every problem with its path, none repaired, nothing that hangs, throws or is carried out. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { apply, change } from '../../src/job/change.ts';
import { NOT_MEASURED } from '../../src/job/quantity-text.ts';
import { readDocument, readJob, writeJob } from '../../src/job/read.ts';
import { MOST_CHARACTERS, type Problem } from '../../src/job/opening.ts';
import { VERSION, type Job } from '../../src/job/schema.ts';
import { altered, demo } from './jobs.ts';
import { exactly, quantitiesOf } from './quantities.ts';

const railcar = demo('railcar');

function problems(document: unknown): readonly Problem[] {
  const read = readDocument(document);
  assert.ok(!read.ok, 'it was read');
  return read.problems;
}

/** The one problem of the railcar with other values at some paths. */
function problemWith(places: Readonly<Record<string, unknown>>): Problem {
  const found = problems(altered(railcar, places));
  assert.equal(found.length, 1, JSON.stringify(found));
  return found[0];
}

test('all problems are told at once, each with its path, what was read and what would be right', () => {
  const found = problems(
    altered(railcar, {
      'survey.lever.runAngle': '62 mm',
      'survey.effort.readings[2].pull': 'heavy',
      'means.plunger.stroke': '-3 mm',
      'means.coil.holdResistance': 41,
      'layout.connection.slotFrom': undefined,
      'supply.nominal': 13,
      'supply.contacts[1].colour': 'red',
      'surroundings.vapour': 'maybe',
      'return.springs[0].spring.by': 'hand',
    }),
  );
  assert.deepEqual(found.map(({ path }) => path).sort(), [
    'layout.connection.slotFrom',
    'means.coil.holdResistance',
    'means.plunger.stroke',
    'return.springs[0].spring.by',
    'supply.contacts[1].colour',
    'supply.nominal',
    'surroundings.vapour',
    'survey.effort.readings[2].pull',
    'survey.lever.runAngle',
  ]);
  const said = Object.fromEntries(found.map(({ path, read, problem }) => [path, [read, problem]]));
  assert.deepEqual(said['survey.lever.runAngle']?.[0], '"62 mm"');
  assert.match(said['survey.lever.runAngle']?.[1] ?? '', /angle/);
  assert.match(said['survey.effort.readings[2].pull']?.[1] ?? '', /12 N/);
  assert.match(said['means.plunger.stroke']?.[1] ?? '', /must be above 0 mm/);
  assert.match(said['layout.connection.slotFrom']?.[1] ?? '', /missing; write "not measured"/);
  assert.match(said['supply.nominal']?.[1] ?? '', /12.*24.*32/);
  for (const { problem } of found) assert.doesNotMatch(problem, /undefined|\[object|NaN/);
});

test('an unknown field is refused at every depth, since it would be lost', () => {
  for (const place of [
    '',
    'survey.',
    'survey.lever.',
    'means.plunger.',
    'means.force[0].rows[1].',
    'supply.out.',
    'return.springs[0].spring.',
  ]) {
    const { path, problem } = problemWith({ [`${place}extra`]: 1 });
    assert.equal(path, `${place}extra`);
    assert.match(problem, /would be lost/);
  }
});

test('a quantity of another dimension is refused in every field', () => {
  for (const { path, rule } of quantitiesOf(railcar)) {
    const wrong = rule.dimension === 'voltage' ? '3 A' : '3 V';
    assert.equal(problemWith({ [path]: wrong }).path, path);
  }
});

test('bounds of every field are held and said', () => {
  for (const { path, rule } of quantitiesOf(railcar)) {
    const { above, least, most } = rule;
    if (above !== undefined || least !== undefined) {
      const text = rule.dimension === 'temperature' ? '-150 °C' : rule.dimension === 'angle' ? '-30 rad' : null;
      const low = text ?? exactly(-0.5, rule.dimension);
      if ((least ?? 0) <= -0.5 && text === null) continue;
      assert.match(problemWith({ [path]: low }).problem, /which must be (above|at least)/, path);
    }
    if (most === undefined) continue;
    assert.match(problemWith({ [path]: exactly(1e9, rule.dimension) }).problem, /which must be at most/, path);
  }
});

const contradictions: readonly (readonly [string, RegExp, Readonly<Record<string, unknown>>])[] = [
  [
    'survey.effort.readings[1].angle',
    /reading 1 already stands at this angle/,
    { 'survey.effort.readings[1].angle': '60.0 °' },
  ],
  [
    'survey.effort.readings[1].easingBack',
    /were the two exchanged/,
    { 'survey.effort.readings[1].easingBack': '13 N' },
  ],
  ['layout.connection.slotTo', /further out than its inner end/, { 'layout.connection.slotTo': '3.8 cm' }],
  ['layout.connection.slotTo', /further out than its inner end/, { 'layout.connection.slotTo': '30 mm' }],
  [
    'layout.connection.holeDiameter',
    /larger than its pin/,
    { 'layout.connection': { kind: 'plain pin', armRadius: '46 mm', pinDiameter: '8 mm', holeDiameter: '8 mm' } },
  ],
  ['layout.hubPosition', /36 positions, counted from 0/, { 'layout.hubPosition': 36 }],
  ['means.force[0].rows[2].gap', /already stands at this gap/, { 'means.force[0].rows[2].gap': '0.1 cm' }],
  ['survey.lever.noFuelAngle', /some way from run/, { 'survey.lever.noFuelAngle': '62°' }],
  ['survey.lever.noFuelAngle', /at most half a turn/, { 'survey.lever.noFuelAngle': '250°' }],
  ['survey.lever.hardStopAngle', /beyond run/, { 'survey.lever.hardStopAngle': '50°' }],
  ['survey.lever.runStopAngle', /before no-fuel/, { 'survey.lever.runStopAngle': '95°' }],
  ['supply.charging', /while charging cannot lie under those called low \(22 V\)/, { 'supply.charging': '21 V' }],
  [
    'survey.air.high',
    /cannot lie under the lowest/,
    { 'survey.air': { low: '6 bar', high: '80 psi', reservoir: '20 L' } },
  ],
  ['surroundings.hottest', /cannot lie under the coldest/, { 'surroundings.hottest': '0 °F' }],
  [
    'return.springs[0].spring.outsideDiameter',
    /over 2\.5 times the wire/,
    { 'return.springs[0].spring.outsideDiameter': '2.9 mm' },
  ],
];

test('readings that cannot all be true are told at the reading that contradicts', () => {
  for (const [path, words, places] of contradictions) {
    const found = problemWith(places);
    assert.equal(found.path, path);
    assert.match(found.problem, words);
  }
  const several = problems(
    altered(railcar, { 'survey.effort.readings[1].angle': '60°', 'layout.hubPosition': 40, 'supply.charging': '21 V' }),
  );
  assert.equal(several.length, 3);
});

test('engine states may be read at the same angle, and equal volts or temperatures are no contradiction', () => {
  for (const places of [
    { 'survey.effort.readings[1].engine': 'rated', 'survey.effort.readings[1].angle': '60°' },
    { 'supply.charging': '22 V' },
    { 'surroundings.hottest': '-10 °C' },
    { 'survey.effort.readings[1].easingBack': '11.5 N' },
  ])
    assert.equal(readDocument(altered(railcar, places)).ok, true, JSON.stringify(places));
});

test('"not measured" may stand for every reading and for nothing else', () => {
  const found = quantitiesOf(railcar).concat(
    quantitiesOf(altered(railcar, { 'layout.down': '270°', 'means.riseInHold': '50 K' })),
  );
  for (const { path, isOptional } of found) {
    const read = readDocument(altered(railcar, { [path]: NOT_MEASURED }));
    assert.equal(read.ok, !isOptional, path);
    if (!read.ok) assert.match(read.problems[0]?.problem ?? '', /leave this field out/);
  }
  for (const nearly of ['Not measured', 'not measured ', 'unknown', '', null])
    assert.equal(readDocument(altered(railcar, { 'survey.lever.lash': nearly })).ok, false, String(nearly));
  assert.equal(readDocument(altered(railcar, { 'supply.nominal': NOT_MEASURED })).ok, false);
  // Contradictions are looked for only among what was read.
  assert.equal(
    readDocument(altered(railcar, { 'survey.lever.runAngle': NOT_MEASURED, 'survey.lever.hardStopAngle': '1°' })).ok,
    true,
  );
});

test('a document of a newer program is not touched, and a wrong format or version is said', () => {
  const newer = problemWith({ version: 4 });
  assert.deepEqual([newer.path, newer.read], ['version', '4']);
  assert.match(newer.problem, /newer program/);
  for (const version of [0, -1, 1.5, '1', null, NaN, Infinity, undefined])
    assert.equal(problemWith({ version }).path, 'version', String(version));
  for (const format of ['other', undefined, 3]) assert.equal(problemWith({ format }).path, 'format');
});

test('what is no document at all gets one sentence', () => {
  for (const text of [
    '',
    'hello',
    '{',
    '[]',
    '3',
    'null',
    '"stopwright job"',
    '{"format":"stopwright job"}',
    '\u0000',
  ]) {
    const read = readJob(text);
    assert.ok(!read.ok, text);
    assert.equal(read.problems.length, 1);
    assert.ok((read.problems[0]?.problem.length ?? 0) > 20);
    assert.ok((read.problems[0]?.read.length ?? 0) <= 60);
  }
});

test('a byte order mark before the document is passed over', () => {
  assert.equal(readJob(`\ufeff${writeJob(railcar)}`).ok, true);
  assert.equal(readJob(`\ufeff\ufeff${writeJob(railcar)}`).ok, false);
});

test('10 MB of nonsense is refused at once', () => {
  const nonsense = [
    'x'.repeat(10_000_000),
    '['.repeat(10_000_000),
    `"${'y'.repeat(10_000_000)}"`,
    `{"format":"stopwright job","version":1,"notes":"${'z'.repeat(10_000_000)}"}`,
    '9'.repeat(MOST_CHARACTERS),
    '[['.repeat(MOST_CHARACTERS / 2),
    `${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`,
    writeJob(railcar).replace('"62° ± 0.5"', `"${'1'.repeat(1_900_000)}°"`),
    writeJob(railcar).replace('"62° ± 0.5"', `${'['.repeat(50_000)}${']'.repeat(50_000)}`),
    `{"format":"stopwright job","version":1${Array.from({ length: 100_000 }, (_, i) => `,"k${i}":${i}`).join('')}}`,
  ];
  for (const text of nonsense) {
    // Time of this process alone: what else the machine does has no say.
    const before = process.cpuUsage();
    const read = readJob(text);
    const { user, system } = process.cpuUsage(before);
    assert.ok(!read.ok, text.slice(0, 20));
    assert.ok(user + system < 1e6, `${(user + system) / 1000} ms for ${text.slice(0, 20)}`);
    for (const { problem, read: shown } of read.problems) assert.ok(problem.length < 400 && shown.length <= 60, shown);
  }
});

test('keys that mean something to a program are only unknown fields', () => {
  for (const key of ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty']) {
    const text = writeJob(railcar).replace('"survey": {', `"${key}": {"polluted": true}, "survey": {`);
    const read = readJob(text);
    assert.ok(!read.ok, key);
    assert.deepEqual(
      read.problems.map(({ path }) => path),
      [key],
    );
    assert.equal(Object.hasOwn(Object.prototype, 'polluted'), false);
    const inner = readJob(writeJob(railcar).replace('"lever": {', `"lever": {"${key}": "1°",`));
    assert.ok(!inner.ok, key);
    assert.deepEqual(
      inner.problems.map(({ path }) => path),
      [`survey.lever.${key}`],
    );
  }
});

test('markup, escapes and marks of direction in a name stay the text that they are', () => {
  for (const name of [
    '<script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    '\u001b[2J\u001b]0;title\u0007',
    '\u202egnidaer',
    '=cmd|calc',
    "Robert'); DROP TABLE jobs;--",
    '${1+1} {{2}} <%= 3 %>',
    '\ud800 lone',
  ]) {
    const named: Job = { ...railcar, name };
    const read = readJob(writeJob(named));
    assert.ok(read.ok, name);
    assert.equal(read.job.name, name);
    assert.equal(writeJob(read.job), writeJob(named));
  }
  assert.equal(problemWith({ name: 'x'.repeat(121) }).path, 'name');
  assert.equal(problemWith({ name: '' }).path, 'name');
});

test('writing gives text that reads to the same document, and reading alters nothing', () => {
  const frozen = deepFrozen(structuredClone(railcar));
  const read = readDocument(frozen);
  assert.ok(read.ok && read.from === VERSION);
  assert.deepEqual(read.job, railcar);
  assert.equal(writeJob(read.job), writeJob(railcar));
  const again = apply(railcar, [change(railcar, 'notes', 'other')]);
  assert.notEqual(writeJob(again), writeJob(railcar));
});

function deepFrozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.values(value).forEach(deepFrozen);
    Object.freeze(value);
  }
  return value;
}
