/** The published JSON Schema is the one that the program's own schema gives, and says what the reader says of the form. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { demoJobs } from '../../src/job/demos.ts';
import { jobJsonSchema, type JsonSchema } from '../../src/job/json-schema.ts';
import { altered, demo } from './jobs.ts';

const published = readFileSync(new URL('../../schema/job.schema.json', import.meta.url), 'utf8');

test('the published file is what the schema gives, byte for byte', () => {
  assert.equal(
    published,
    `${JSON.stringify(jobJsonSchema(), null, 2)}\n`,
    'write it anew: npx stopwright schema > schema/job.schema.json',
  );
});

test('every demonstration keeps to the published schema', () => {
  for (const { name, document } of demoJobs) assert.deepEqual(faults(JSON.parse(published), document), [], name);
});

test('the published schema refuses what has another form', () => {
  const schema: JsonSchema = JSON.parse(published);
  const railcar = demo('railcar');
  const broken: readonly (readonly [place: string, path: string, to: unknown])[] = [
    ['$.colour', 'colour', 'green'],
    ['$.survey.lever.runAngle', 'survey.lever.runAngle', 62],
    ['$.survey.lever', 'survey.lever.lash', undefined],
    ['$.survey.lever.hubPositions', 'survey.lever.hubPositions', 2.5],
    ['$.survey.lever.hubPositions', 'survey.lever.hubPositions', 361],
    ['$.means', 'means.kind', 'rope'],
    ['$.means', 'means.coil.stages', 'three'],
    ['$.supply.nominal', 'supply.nominal', 13],
    ['$.name', 'name', ''],
    ['$.name', 'name', 'x'.repeat(121)],
    ['$.return.springs', 'return.springs', Array.from({ length: 9 }, () => railcar.return.springs[0])],
    ['$.version', 'version', 1],
    ['$.layout.overTravel', 'layout.overTravel', 'some'],
  ];
  for (const [place, path, to] of broken) {
    const places = faults(schema, altered(railcar, { [path]: to })).map((fault) => fault.split(':')[0]);
    assert.deepEqual([...new Set(places)], [place], `${path} = ${JSON.stringify(to)}`);
  }
});

type Schema = JsonSchema;

/** Keywords that say nothing about a value. */
const words = new Set(['$schema', '$id', '$comment', 'title', 'description']);

/**
 * What is wrong with a value by JSON Schema (draft 2020-12, sections 6 and 10 of its two parts, read for the keywords
 * that occur here). A keyword that this does not know is an error, so that none is passed over.
 */
function faults(schema: Schema, value: unknown, path = '$'): string[] {
  return Object.entries(schema).flatMap(([keyword, wanted]): string[] => {
    if (words.has(keyword)) return [];
    const check = keywords[keyword];
    if (check === undefined) throw new Error(`the keyword ${keyword} is not known here`);
    return check(wanted as never, value, path, schema);
  });
}

/** What stands behind the keyword, the value, where it stands, and the whole schema that the keyword belongs to. */
type Keyword = (wanted: never, value: unknown, path: string, schema: Schema) => string[];

const unless = (holds: boolean, path: string, what: string): string[] => (holds ? [] : [`${path}: ${what}`]);
const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function typeOf(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'array';
  return typeof value === 'object' ? 'object' : typeof value;
}

const keywords: Readonly<Record<string, Keyword>> = {
  type: (type: string, value, path) =>
    unless(type === 'integer' ? Number.isInteger(value) : typeOf(value) === type, path, `is no ${type}`),
  const: (wanted: unknown, value, path) => unless(value === wanted, path, 'is another word'),
  enum: (wanted: readonly unknown[], value, path) => unless(wanted.includes(value), path, 'is none of the words'),
  minimum: (least: number, value, path) => unless(typeof value !== 'number' || value >= least, path, 'is too small'),
  maximum: (most: number, value, path) => unless(typeof value !== 'number' || value <= most, path, 'is too large'),
  minLength: (least: number, value, path) =>
    unless(typeof value !== 'string' || value.length >= least, path, 'is too short'),
  maxLength: (most: number, value, path) =>
    unless(typeof value !== 'string' || value.length <= most, path, 'is too long'),
  minItems: (least: number, value, path) =>
    unless(!Array.isArray(value) || value.length >= least, path, 'has too few rows'),
  maxItems: (most: number, value, path) =>
    unless(!Array.isArray(value) || value.length <= most, path, 'has too many rows'),
  items: (item: Schema, value, path) =>
    Array.isArray(value) ? value.flatMap((one, i) => faults(item, one, `${path}[${i}]`)) : [],
  required: (names: readonly string[], value, path) =>
    isObject(value) ? names.flatMap((name) => unless(Object.hasOwn(value, name), path, `lacks ${name}`)) : [],
  properties: (fields: Readonly<Record<string, Schema>>, value, path) =>
    isObject(value)
      ? Object.entries(fields).flatMap(([name, field]) =>
          Object.hasOwn(value, name) ? faults(field, value[name], `${path}.${name}`) : [],
        )
      : [],
  additionalProperties: (wanted: unknown, value, path, { properties }) => {
    if (wanted !== false) throw new Error('only additionalProperties: false is known here');
    return isObject(value)
      ? Object.keys(value).flatMap((name) =>
          unless(Object.hasOwn(Object(properties), name), `${path}.${name}`, 'is unknown'),
        )
      : [];
  },
  oneOf: (options: readonly Schema[], value, path) =>
    unless(options.filter((one) => faults(one, value).length === 0).length === 1, path, 'fits not one kind'),
  anyOf: (options: readonly Schema[], value, path) =>
    unless(
      options.some((one) => faults(one, value).length === 0),
      path,
      'fits no kind',
    ),
};
