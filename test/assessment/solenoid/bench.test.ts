/** From the document to base SI, and what is missing or odd, in words. */
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { ampereTurnsOf, solenoidBench } from '../../../src/assessment/solenoid/bench.ts';
import { readSolenoidDocument, unmeasured } from '../../../src/job/solenoid/read.ts';
import type { SolenoidDocument } from '../../../src/job/solenoid/schema.ts';
import { checkDimensions } from '../../../src/physics/solenoid/field/dimensions.ts';
import { changed, example, exampleNames, referenceDocument } from '../../job/solenoid/documents.ts';
import { referenceCases } from '../../published/solenoid-reference.ts';

const bench = (document: unknown) => solenoidBench(document as SolenoidDocument);
const railcar = example('railcar');

function near(a: unknown, b: unknown, path = ''): void {
  if (typeof b === 'object' && b !== null)
    for (const [key, value] of Object.entries(b)) near((a as Record<string, unknown>)[key], value, `${path}.${key}`);
  else if (typeof b === 'number')
    assert.ok(Math.abs((a as number) - b) < 1e-12 + 1e-9 * Math.abs(b), `${path}: ${String(a)} ${b}`);
  else assert.equal(a, b, path);
}

test('the reference geometries come back from their documents', () => {
  for (const one of referenceCases) {
    const { dimensions, problems, missing, mostAmpereTurns } = bench(referenceDocument(one));
    near(dimensions, one.solenoid);
    assert.deepEqual(problems, []);
    // No coil was read: there is a field, but volts and amps say nothing.
    assert.deepEqual(
      missing.map(({ path }) => path),
      ['coil.turns'],
    );
    assert.ok(mostAmpereTurns !== null && mostAmpereTurns > 100 && mostAmpereTurns < 20_000);
  }
});

test('every example is whole: dimensions, winding, and all its pulls', () => {
  for (const name of exampleNames) {
    const document = example(name);
    const { dimensions, problems, missing, findings, readings, winding } = solenoidBench(document);
    checkDimensions(dimensions!);
    assert.deepEqual([problems, missing, findings], [[], [], []], name);
    assert.equal(readings.length, document.pulls.length);
    assert.ok(winding !== null && winding.turns > 500 && winding.turns < 2000, name);
  }
});

describe('a dimension that was not measured is named, and there is no field', () => {
  const dimensionPaths =
    'can.outsideDiameter can.wall can.length plates.bottom plates.top plunger.diameter'
    + ' plunger.length radialClearance seat.diameter seat.faceBelowTop seat.shape.includedAngle seat.shape.tipDiameter'
    + ' coil.insideDiameter coil.outsideDiameter coil.bottomCheek coil.topCheek guideTube.insideDiameter guideTube.outsideDiameter';
  for (const path of dimensionPaths.split(' '))
    test(path, () => {
      const document = changed(railcar, { [path]: 'not measured' });
      assert.ok(readSolenoidDocument(document).ok);
      const { dimensions, missing } = bench(document);
      assert.equal(dimensions, null);
      assert.ok(missing.some((one) => one.path === path));
      assert.ok(unmeasured(document as SolenoidDocument).includes(path));
    });
  test('the shim is taken instead, and said', () => {
    const { dimensions, assumed } = bench(changed(railcar, { 'seat.residualShim': 'not measured' }));
    assert.ok(dimensions!.residualShim! > 0 && assumed.some(({ path }) => path === 'seat.residualShim'));
  });
});

test('what only the field solver sees is turned into a problem of a field', () => {
  const { problems, dimensions } = bench(changed(railcar, { 'seat.shape.includedAngle': '180°' }));
  assert.equal(dimensions, null);
  assert.equal(problems[0].path, 'seat.shape');
  assert.doesNotMatch(problems[0].problem, /SW-|NaN/);
});

test('turns come from what is known, each with its spread', () => {
  // 6.1 ohm of 0.56 mm at 20 °C: R A/(ρ π d) by hand = 6.1 × 0.24630e-6/(1.7241e-8 × π × 0.0325) = 853.5.
  const fromWire = bench(railcar).winding!;
  assert.ok(Math.abs(fromWire.turns - 853.5) < 0.3 && fromWire.from === 'ohms and wire');
  const fromFill = bench(changed(railcar, { 'coil.wireDiameter': 'not measured' })).winding!;
  assert.equal(fromFill.from, 'ohms and a usual fill');
  assert.ok(fromFill.spread > 2 * fromWire.spread && Math.abs(fromFill.fill!.copperShare - 0.52) < 1e-9);
  const counted = bench(changed(railcar, { 'coil.turns': 860 }));
  assert.ok(counted.winding!.turns === 860 && counted.winding!.spread < 0.01 && counted.findings.length === 0);
  const finer = bench(changed(railcar, { 'coil.wireDiameter': '0.56 ± 0.002 mm' })).winding!;
  assert.ok(finer.spread < fromWire.spread);
});

test('a winding that does not fit, is tight, half empty or contradicts its count is said in numbers', () => {
  const words = (edits: Record<string, unknown>): string =>
    bench(changed(railcar, edits))
      .findings.map((f) => f.words)
      .join('; ');
  assert.match(words({ 'coil.wireDiameter': '0.7 mm' }), /take \d+ % of the window|would take 1?\d\d % of the window/);
  assert.match(words({ 'coil.wireDiameter': '0.8 mm' }), /would take \d+ % of the window; round wire fills 91 %/);
  assert.match(words({ 'coil.wireDiameter': '0.4 mm' }), /less than 35 %/);
  assert.match(words({ 'coil.wireDiameter': '0.15 mm' }), /enamel of 0.15 mm wire is estimated/);
  assert.match(words({ 'coil.turns': 1100 }), /1100 turns are said, but ohms and wire give 853 \(give or take 5 %\)/);
});

test('volts and amps become ampere-turns at the temperature of the coil', () => {
  const { winding } = bench(railcar);
  const cold = ampereTurnsOf(winding, { by: 'voltage', voltage: 24, coilTemperature: 293.15 })!;
  const hot = ampereTurnsOf(winding, { by: 'voltage', voltage: 24, coilTemperature: 373.15 })!;
  assert.ok(Math.abs(cold.ampereTurns - (winding!.turns * 24) / 6.1) < 1e-6 && cold.byTurns);
  // IEC 60028: copper has 1.3143 times its resistance of 20 °C at 100 °C.
  assert.ok(Math.abs(cold.ampereTurns / hot.ampereTurns - 1.3143) < 5e-5);
  assert.equal(ampereTurnsOf(null, { by: 'current', current: 2 }), null);
  assert.deepEqual(ampereTurnsOf(null, { by: 'ampere-turns', ampereTurns: 700 }), { ampereTurns: 700, byTurns: false });
});

test('a pull that lacks a reading, or the turns behind its volts, is left out and said', () => {
  const gone = bench(changed(railcar, { 'pulls.0.pull': 'not measured' }));
  assert.deepEqual([gone.readings.length, gone.readings[0].path], [1, 'pulls[1]']);
  assert.ok(gone.missing.some(({ path }) => path === 'pulls[0].pull'));
  const noTurns = bench(changed(railcar, { 'coil.resistance': 'not measured' }));
  assert.equal(noTurns.readings.length, 0);
  assert.ok(noTurns.missing.some(({ path }) => path === 'pulls[1].drive') && noTurns.dimensions !== null);
  const exact = bench(changed(railcar, { 'pulls.0.pull': '12.6 ± 0 N', 'pulls.0.gap': '10 ± 0.4 mm' })).readings[0];
  assert.ok(exact.pullSpread > 0 && Math.abs(exact.gapSpread - 0.2e-3) < 1e-12);
});
