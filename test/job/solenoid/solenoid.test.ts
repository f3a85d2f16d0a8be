/** Solenoid documents: what is read, what is refused and where, and the published form. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { describe, test } from 'node:test';
import { anything, assert as check, constantFrom, oneof, property, string } from 'fast-check';
import { solenoidJsonSchema } from '../../../src/job/solenoid/json-schema.ts';
import { readSolenoid, readSolenoidDocument, unmeasured, writeSolenoid } from '../../../src/job/solenoid/read.ts';
import { referenceCases } from '../../published/solenoid-reference.ts';
import { changed, example, exampleNames, exampleText, referenceDocument } from './documents.ts';

/** Paths of the problems with a document. */
function paths(value: unknown): string[] {
  const read = readSolenoidDocument(value);
  return read.ok ? [] : read.problems.map(({ path }) => path);
}

test('every example is read, and written back byte for byte', () => {
  for (const name of exampleNames) {
    assert.equal(writeSolenoid(example(name)), exampleText(name), name);
  }
});

test('the reference geometries are documents', () => {
  for (const one of referenceCases) assert.deepEqual(paths(referenceDocument(one)), [], one.name);
});

test('the published file is what the schema gives, byte for byte', () => {
  assert.equal(
    readFileSync(new URL('../../../schema/solenoid.schema.json', import.meta.url), 'utf8'),
    `${JSON.stringify(solenoidJsonSchema(), null, 2)}\n`,
    'write it anew: npx stopwright field --schema > schema/solenoid.schema.json',
  );
});

test('readings that were not taken are listed, and refused nowhere', () => {
  const railcar = example('railcar');
  const without = changed(railcar, { 'can.wall': 'not measured', 'pulls.0.gap': 'not measured' });
  assert.deepEqual(paths(without), []);
  assert.deepEqual(unmeasured(without as typeof railcar), ['can.wall', 'coil.turns', 'pulls[0].gap']);
});

describe('what cannot be true is refused with its path', () => {
  const own = example('ferry-spare');
  const railcar = example('railcar');
  const cases: readonly (readonly [what: string, document: unknown, path: string])[] = [
    ['no wall', changed(railcar, { 'can.wall': '0 mm' }), 'can.wall'],
    ['a wall thicker than the can', changed(railcar, { 'can.wall': '27 mm' }), 'can.wall'],
    ['plates thicker than the can', changed(railcar, { 'plates.bottom': '64 mm' }), 'plates.top'],
    ['a plunger larger than the winding', changed(railcar, { 'plunger.diameter': '22.5 mm' }), 'plunger.diameter'],
    ['a plunger larger than its tube', changed(railcar, { 'plunger.diameter': '18.5 mm' }), 'plunger.diameter'],
    ['a winding inside out', changed(railcar, { 'coil.insideDiameter': '44 mm' }), 'coil.insideDiameter'],
    ['a winding larger than the can', changed(railcar, { 'coil.outsideDiameter': '46 mm' }), 'coil.outsideDiameter'],
    ['cheeks that leave no room', changed(railcar, { 'coil.topCheek': '57 mm' }), 'coil.bottomCheek'],
    ['a seat wider than the winding', changed(railcar, { 'seat.diameter': '23 mm' }), 'seat.diameter'],
    ['a seat above the top plate', changed(railcar, { 'seat.faceBelowTop': '6 mm' }), 'plates.top'],
    ['a seat below the bottom plate', changed(railcar, { 'seat.faceBelowTop': '65 mm' }), 'seat.faceBelowTop'],
    [
      'a cone deeper than the seat',
      changed(railcar, { 'seat.shape.includedAngle': '20°' }),
      'seat.shape.includedAngle',
    ],
    [
      'a tip larger than the plunger',
      changed(railcar, { 'seat.shape.tipDiameter': '19 mm' }),
      'seat.shape.tipDiameter',
    ],
    ['a tube outside in', changed(railcar, { 'guideTube.outsideDiameter': '18.2 mm' }), 'guideTube.insideDiameter'],
    [
      'a tube larger than the winding',
      changed(railcar, { 'guideTube.outsideDiameter': '22.4 mm' }),
      'guideTube.outsideDiameter',
    ],
    [
      'a hole larger than the tip',
      changed(railcar, { 'plunger.bore': { from: 'tip', diameter: '6 mm', depth: '9 mm' } }),
      'plunger.bore.diameter',
    ],
    ['a clearance larger than the can', changed(railcar, { radialClearance: '14 mm' }), 'radialClearance'],
    ['a kilometre', changed(railcar, { 'can.length': '1 km' }), 'can.length'],
    ['a pull far out', changed(railcar, { 'pulls.0.gap': '30 mm' }), 'pulls[0].gap'],
    ['a pull of nothing', changed(railcar, { 'pulls.0.pull': '0 N' }), 'pulls[0].pull'],
    ['no unit', changed(railcar, { 'pulls.0.pull': '12' }), 'pulls[0].pull'],
    ['half a turn', changed(railcar, { 'coil.turns': 12.5 }), 'coil.turns'],
    ['an unknown field', changed(railcar, { 'can.colour': 'green' }), 'can.colour'],
    ['a missing field', changed(railcar, { 'coil.readAt': undefined }), 'coil.readAt'],
    ['a steel that is not built in', changed(railcar, { 'steel.table': 'cheese' }), 'steel.table'],
    ['a table that falls', changed(own, { 'steel.rows.3.fluxDensity': '0.2 T' }), 'steel.rows[3]'],
    ['a table that starts late', changed(own, { 'steel.rows.0.fieldStrength': '5 A/m' }), 'steel.rows[0]'],
    ['a table below air', changed(own, { 'steel.rows.12.fieldStrength': '900 kA/m' }), 'steel.rows[12]'],
    ['a table with a hole', changed(own, { 'steel.rows.4.fluxDensity': 'not measured' }), 'steel.rows[4]'],
    ['a newer version', changed(railcar, { version: 2 }), 'version'],
    ['a job document', changed(railcar, { format: 'stopwright job' }), 'format'],
    ['no name', changed(railcar, { name: '' }), 'name'],
  ];
  for (const [what, document, path] of cases)
    test(what, () => {
      const read = readSolenoidDocument(document);
      assert.ok(!read.ok, 'was read');
      assert.ok(
        read.problems.some((one) => one.path === path),
        `${path} is not among ${read.problems.map((one) => one.path).join(', ')}`,
      );
      for (const { problem } of read.problems) assert.doesNotMatch(problem, /NaN|undefined|Infinity/);
    });
});

test('text that is no document is refused in words', () => {
  for (const text of ['', '{', '[]', '7', 'null', '"x"', 'x'.repeat(2_000_001)]) {
    const read = readSolenoid(text);
    assert.ok(!read.ok && read.problems.length === 1 && read.problems[0].problem.length > 20);
  }
  assert.ok(readSolenoid(`\ufeff${exampleText('railcar')}`).ok);
});

test('nothing that is typed into a field throws or hangs', () => {
  const railcar = example('railcar');
  const fields = [
    'can.wall',
    'plunger.diameter',
    'seat.residualShim',
    'pulls.0.pull',
    'coil.turns',
    'steel',
    'guideTube',
  ];
  check(
    property(constantFrom(...fields), oneof(string(), anything()), (field, value) => {
      readSolenoidDocument(changed(railcar, { [field]: value }));
    }),
    { numRuns: 2000, seed: 8 },
  );
});
