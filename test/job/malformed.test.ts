/**
 * Documents and their text damaged in every way: the reader answers in time, throws nothing, and repairs nothing.
 * STOPWRIGHT_ROUNDS raises the number of rounds: 2,000 in the suite, 10⁶ before a release.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { demoJobs } from '../../src/job/demos.ts';
import { readDocument, readJob, writeJob, type JobReading } from '../../src/job/read.ts';
import { randomJob } from './random-job.ts';

const rounds = Number(process.env['STOPWRIGHT_ROUNDS'] ?? 2000);
const MOST_TIME = 1000; // ms

function answered(read: () => JobReading): JobReading {
  const before = process.cpuUsage(); // what else the machine does has no say
  const reading = read();
  const { user, system } = process.cpuUsage(before);
  const took = (user + system) / 1000;
  assert.ok(took < MOST_TIME, `${took} ms`);
  if (!reading.ok) {
    assert.ok(reading.problems.length > 0);
    for (const { path, read: shown, problem } of reading.problems) {
      assert.ok(typeof path === 'string' && typeof shown === 'string' && problem.length > 0);
      assert.ok(shown.length <= 60, `shown in full: ${shown.length} characters`);
    }
  }
  return reading;
}

const scraps: readonly unknown[] = [
  null,
  true,
  0,
  -0,
  1e308,
  -1,
  2.5,
  '',
  ' ',
  'not measured',
  '62°',
  '5 mm',
  '1e999 mm',
  '<svg onload=alert(1)>',
  'x'.repeat(300),
  [],
  {},
  [[[[]]]],
  { kind: 'solenoid' },
  { kind: '__proto__' },
  { by: 'rate' },
  { constructor: { prototype: 1 } },
  [null, 1, 'a'],
  ['not measured'],
];

type Holder = Record<PropertyKey, unknown>;

/** Every place of a document, as the part that holds it and the key. */
function places(value: unknown): (readonly [Holder, string])[] {
  if (typeof value !== 'object' || value === null) return [];
  const holder = value as Holder;
  return Object.keys(holder).flatMap((key) => [[holder, key] as const, ...places(holder[key])]);
}

const damages = fc.array(
  fc.record({
    place: fc.nat(100_000),
    kind: fc.constantFrom('replace', 'remove', 'add', 'exchange', 'repeat', 'text'),
    scrap: fc.oneof(fc.constantFrom(...scraps), fc.jsonValue({ maxDepth: 2 })),
    other: fc.nat(100_000),
    key: fc.oneof(
      fc.constantFrom('__proto__', 'constructor', 'kind', 'by', '0', 'length'),
      fc.string({ maxLength: 6 }),
    ),
  }),
  { minLength: 1, maxLength: 5 },
);

type Damage = ReturnType<typeof damages.generate>['value'][number];

function damaged(document: unknown, list: readonly Damage[]): unknown {
  const copy: unknown = structuredClone(document);
  for (const { place, kind, scrap, other, key } of list) {
    const all = places(copy);
    const [holder, at] = all[place % all.length] ?? [];
    const [from, there] = all[other % all.length] ?? [];
    if (holder === undefined || at === undefined || from === undefined || there === undefined) break;
    const value = holder[at];
    if (kind === 'replace') holder[at] = structuredClone(scrap);
    else if (kind === 'remove') delete holder[at];
    else if (kind === 'add' && !Array.isArray(holder))
      Object.defineProperty(holder, key, { value: scrap, enumerable: true, configurable: true, writable: true });
    else if (kind === 'exchange') holder[at] = structuredClone(from[there]);
    else if (kind === 'repeat' && Array.isArray(value)) value.push(...structuredClone(value));
    else if (kind === 'text' && typeof value === 'string')
      holder[at] = value.slice(0, other % (value.length + 1)) + key;
  }
  return copy;
}

const anyDemo = fc.constantFrom(...demoJobs.map(({ document }) => document));

test('a damaged document is refused with its problems or reads as what it says', () => {
  let [refused, read] = [0, 0];
  fc.assert(
    fc.property(anyDemo, damages, (document, list) => {
      const broken = damaged(document, list);
      const before = JSON.stringify(broken);
      const reading = answered(() => readDocument(broken));
      assert.equal(JSON.stringify(broken), before, 'the document was altered');
      if (reading.ok) {
        read++;
        assert.equal(
          JSON.stringify(sorted(reading.job)),
          JSON.stringify(sorted(broken)),
          'something was repaired or lost',
        );
      } else refused++;
    }),
    { seed: 61, numRuns: rounds },
  );
  assert.ok(refused > rounds / 2 && read > rounds / 100, `${refused} refused, ${read} read`);
});

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, sorted(inner)]),
  );
}

test('damaged text is answered in time', () => {
  const texts = demoJobs.map(({ document }) => JSON.stringify(document, null, 2));
  const cuts = fc.array(
    fc.record({
      at: fc.nat(100_000),
      length: fc.nat(60),
      put: fc.oneof(
        fc.string({ maxLength: 5, unit: 'binary' }),
        fc.constantFrom('"', '{', '[', ',', '\\', '\u0000', '}'),
      ),
    }),
    { minLength: 1, maxLength: 4 },
  );
  fc.assert(
    fc.property(fc.constantFrom(...texts), cuts, (text, list) => {
      let broken = text;
      for (const { at, length, put } of list) {
        const from = at % broken.length;
        broken = broken.slice(0, from) + put + broken.slice(from + length);
      }
      answered(() => readJob(broken));
    }),
    { seed: 62, numRuns: rounds },
  );
});

test('any JSON value is answered', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      assert.equal(answered(() => readDocument(value)).ok, false);
    }),
    { seed: 63, numRuns: rounds },
  );
});

test('random documents of every kind are written, read and written byte for byte the same', () => {
  const kinds = new Map<string, number>();
  fc.assert(
    fc.property(randomJob, (job) => {
      const text = writeJob(job);
      const reading = answered(() => readJob(text));
      assert.ok(reading.ok);
      assert.equal(writeJob(reading.job), text);
      assert.deepEqual(reading.job, job);
      for (const kind of kindsIn(job)) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
    }),
    { seed: 64, numRuns: rounds },
  );
  for (const kind of everyKind) assert.ok((kinds.get(kind) ?? 0) >= 5, `${kind}: ${kinds.get(kind) ?? 0}`);
});

const everyKind = [
  '"kind":"solenoid"',
  '"kind":"hand cable"',
  '"kind":"air cylinder"',
  '"kind":"slotted lever"',
  '"kind":"pinned link"',
  '"kind":"short chain"',
  '"kind":"plain pin"',
  '"kind":"extension"',
  '"kind":"compression"',
  '"stages":"single coil"',
  '"stages":"pull-in and hold windings"',
  '"stages":"series resistor"',
  '"stages":"timed economiser"',
  '"by":"voltage"',
  '"by":"current"',
  '"by":"rate"',
  '"by":"dimensions"',
  '"by":"conductor"',
  '"by":"earth"',
  '"on":"lever"',
  '"on":"plunger"',
  '"overTravel":"none"',
  '"overTravel":{',
  '"adjuster":"none"',
  '"endSwitch":"none"',
  '"endSwitch":{',
  '"wanted":{',
  '"firstPull":{',
  '"friction":{',
  '"not measured"',
];

function kindsIn(job: unknown): string[] {
  const text = JSON.stringify(job);
  return everyKind.filter((kind) => text.includes(kind));
}
