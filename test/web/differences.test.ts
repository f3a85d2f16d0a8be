import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import test from 'node:test';
import * as fc from 'fast-check';
import { apply, inverse } from '../../src/job/change.ts';
import type { RevisionEntry } from '../../src/job/exchange.ts';
import { commonAncestor } from '../../src/web/versions/ancestor.ts';
import { valueText } from '../../src/web/versions/difference-list.tsx';
import { placeName } from '../../src/web/survey/labels.ts';
import { choices, differences } from '../../src/web/versions/differences.ts';

const folder = new URL('../../src/job/demos/', import.meta.url);
const demos = readdirSync(folder).map((file) => JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as unknown);

const json = fc.letrec((tie) => ({
  value: fc.oneof(
    { depthSize: 'small' },
    fc.string(),
    fc.integer(),
    fc.array(tie('value'), { maxLength: 4 }),
    tie('fields'),
  ),
  fields: fc.dictionary(fc.constantFrom('a', 'b', 'kind', 'by', 'c'), tie('value'), {
    maxKeys: 4,
    noNullPrototype: true,
  }),
})).fields;

test('applying the differences of two documents to one gives the other, and back', () => {
  fc.assert(
    fc.property(json, json, (from, to) => {
      const changes = differences(from, to);
      assert.deepEqual(apply(from, changes), to);
      assert.deepEqual(apply(to, inverse(changes)), from);
    }),
    { seed: 7, numRuns: 2000 },
  );
});

test('every demo can become every other one by its differences', () => {
  for (const from of demos) for (const to of demos) assert.deepEqual(apply(from, differences(from, to)), to);
});

test('a field that only one side changed is ticked for that side; one that both changed is a person’s to choose', () => {
  const common = { a: 1, b: 2, c: 3, d: [1, 2] };
  const found = choices(common, { ...common, a: 10, c: 30, d: [1, 2, 3] }, { ...common, b: 20, c: 31 });
  assert.deepEqual(
    found.map(({ path, changedBy }) => [path, changedBy]),
    [
      ['a', 'ours'],
      ['b', 'theirs'],
      ['c', 'both'],
      ['d', 'ours'],
    ],
  );
});

const line = (gap_m: number, force: number) => ({
  gap_m,
  ampereTurns: [1, 400, 800],
  coEnergy_J: [1, 2, 3],
  fluxLinkage_Wb: [1, 2, 3],
  force_N: [force, 2, 3],
});
const solved = { turns: [800], lines: [line(0, 1), line(0.01, 1)] };

test('a co-energy map is one difference, however many numbers differ in it, and one line to read', () => {
  const other = { turns: [800], lines: [line(0, 5), line(0.01, 6)] };
  const [from, to] = [{ means: { kind: 'solenoid', map: solved } }, { means: { kind: 'solenoid', map: other } }];
  assert.deepEqual(differences(from, to), [{ path: 'means.map', from: solved, to: other }]);
  assert.deepEqual(differences(from, structuredClone(from)), []);
  assert.deepEqual(choices({ means: { kind: 'solenoid' } }, from, to), [
    { path: 'means.map', ours: solved, theirs: other, changedBy: 'both' },
  ]);
  assert.equal(valueText(solved), 'Co-energy map from a field solve: 2 gaps, 3 levels');
  // Inside a part that is shown as a whole, such as the means when they were exchanged.
  assert.equal(
    valueText({ kind: 'solenoid', stroke: '12 mm', map: solved }),
    'solenoid, 12 mm, Co-energy map from a field solve: 2 gaps, 3 levels',
  );
  assert.equal(placeName('means.map'), 'Co-energy map');
});

test('a list row changed by one side while the other side made the list longer is a choice between both', () => {
  const found = choices({ d: [1, 2] }, { d: [1, 5] }, { d: [1, 2, 3] });
  assert.deepEqual(
    found.map(({ path, changedBy }) => [path, changedBy]),
    [['d', 'both']],
  );
});

test('the common ancestor is the newest revision that both came from', () => {
  const made = (id: string, order: number, ...parents: string[]) =>
    ({ id, order, parents }) as unknown as RevisionEntry;
  const list = [
    made('a', 1),
    made('b', 2, 'a'),
    made('c', 3, 'b'),
    made('d', 4, 'b'),
    made('e', 5, 'c', 'd'),
    made('f', 6, 'd'),
  ];
  assert.equal(commonAncestor(list, 'c', 'd'), 'b');
  assert.equal(commonAncestor(list, 'e', 'f'), 'd');
  assert.equal(commonAncestor(list, 'c', 'nowhere'), null);
});
