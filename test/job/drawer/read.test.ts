/** Drawers are read whole or refused with every problem and its path. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { drawerJsonSchema } from '../../../src/job/drawer/json-schema.ts';
import { readDrawer, readDrawerDocument, writeDrawer } from '../../../src/job/drawer/read.ts';

const text = readFileSync(new URL('../../../examples/drawer.json', import.meta.url), 'utf8');
const example = () => JSON.parse(text);

test('the example is read, and written as it was', () => {
  const read = readDrawer(text);
  assert.ok(read.ok, JSON.stringify(read));
  assert.deepEqual(JSON.parse(writeDrawer(read.drawer)), example());
});

test('the published form is what the schema gives, byte for byte', () => {
  const published = readFileSync(new URL('../../../schema/drawer.schema.json', import.meta.url), 'utf8');
  assert.equal(published, `${JSON.stringify(drawerJsonSchema(), null, 2)}\n`);
});

test('every problem is told, each with its path', () => {
  const drawer = example();
  drawer.springs[0].spring.wireDiameter = '1.2';
  drawer.springs[1].colour = 'red';
  drawer.solenoids[0].pulls.rows[1].force = '-3 N';
  delete drawer.cables[0].length;
  const read = readDrawerDocument(drawer);
  assert.ok(!read.ok, 'refused');
  assert.deepEqual(read.problems.map(({ path }) => path).sort(), [
    'cables[0].length',
    'solenoids[0].pulls.rows[1].force',
    'springs[0].spring.wireDiameter',
    'springs[1].colour',
  ]);
});

test('what contradicts itself is told with its path', () => {
  const drawer = example();
  drawer.springs[0].spring.ends = 'closed';
  drawer.springs[3].spring.limitLength = '30 mm';
  drawer.springs[5].spring.second.force = '1 kgf';
  drawer.springs[6].spring.outsideDiameter = '3 mm';
  drawer.solenoids[0].pulls.rows[1].gap = '0.5 mm';
  const read = readDrawerDocument(drawer);
  assert.ok(!read.ok, 'refused');
  assert.deepEqual(read.problems.map(({ path }) => path).sort(), [
    'solenoids[0].pulls.rows[1].gap',
    'springs[0].spring.ends',
    'springs[3].spring.limitLength',
    'springs[5].spring.second.force',
    'springs[6].spring.outsideDiameter',
  ]);
});

test('ten thousand springs are read, more than a drawer may hold are refused', () => {
  const drawer = example();
  const [one] = drawer.springs;
  drawer.springs = Array.from({ length: 10_000 }, (_, i) => ({ ...one, name: `Spring ${i}` }));
  const read = readDrawer(JSON.stringify(drawer));
  assert.ok(read.ok && read.drawer.springs.length === 10_000, 'read');
  drawer.springs = Array.from({ length: 20_001 }, () => one);
  assert.equal(readDrawerDocument(drawer).ok, false);
});

test('what is no drawer is refused in words', () => {
  for (const [value, path] of [
    ['[]', ''],
    ['{"format":"stopwright job","version":2}', 'format'],
    ['{"format":"stopwright drawer","version":7}', 'version'],
    ['nonsense', ''],
  ] as const) {
    const read = readDrawer(value);
    assert.ok(!read.ok, value);
    assert.equal(read.problems[0].path, path, value);
  }
});
