import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';
import { ampereTurnsOf, solenoidBench } from '../../../src/assessment/solenoid/bench.ts';
import { coarseCurve, drawnDimensions, fieldPicture, saturation } from '../../../src/assessment/solenoid/picture.ts';
import { readSolenoid } from '../../../src/job/solenoid/read.ts';
import type { SolenoidDocument } from '../../../src/job/solenoid/schema.ts';
import { steelTables } from '../../../src/physics/magnetics/steel.ts';
import { solenoidField } from '../../../src/physics/solenoid/field/solenoid-field.ts';

const examples = ['solenoid-railcar', 'solenoid-pump-house', 'solenoid-ferry-spare'].map((name): SolenoidDocument => {
  const reading = readSolenoid(readFileSync(new URL(`../../../examples/${name}.json`, import.meta.url), 'utf8'));
  assert.ok(reading.ok);
  return reading.solenoid;
});
const [railcar] = examples;

test('what is drawn is what is solved: the dimensions of the bench, wherever it has them', () => {
  for (const document of examples) {
    const { dimensions } = solenoidBench(document);
    assert.ok(dimensions);
    const drawn = drawnDimensions(document);
    // A shim that was not measured is not drawn; the bench takes one for granted.
    const { residualShim: ofBench, ...others } = dimensions;
    const { residualShim: ofDrawing, ...drawnOthers } = drawn;
    assert.deepEqual(drawnOthers, others);
    if (document.seat.residualShim !== 'not measured') assert.equal(ofDrawing, ofBench);
  }
});

test('what was not measured is not a number, and the rest is still there', () => {
  const drawn = drawnDimensions({ ...railcar, plates: { ...railcar.plates, top: 'not measured' } });
  assert.ok(Number.isNaN(drawn.topPlate.thickness) && Number.isNaN(drawn.coil.top));
  assert.equal(drawn.can.length, 0.07);
});

test('a coarse curve lies within 15 % of a solve of the usual fineness, and falls with the gap', () => {
  const bench = solenoidBench(railcar);
  const at = ampereTurnsOf(bench.winding, { by: 'voltage', voltage: 24, coilTemperature: 293.15 });
  assert.ok(at && bench.dimensions);
  const { gap_mm, force_N } = coarseCurve(bench, at.ampereTurns);
  assert.ok(gap_mm.length > 30);
  for (const i of [8, 20, 32]) {
    const solenoid = { ...bench.dimensions, residualShim: bench.priors.residualGap.median };
    const [row] = solenoidField(solenoid, bench.steel, gap_mm[i] / 1e3, [at.ampereTurns]).rows;
    assert.ok(Math.abs(force_N[i] / row.force - 1) < 0.15, `${force_N[i]} N is not ${row.force} N at ${gap_mm[i]} mm`);
  }
  force_N.forEach((force, i) => assert.ok(i === 0 || force < force_N[i - 1] * 1.02));
});

test('the picture of the field carries the flux of the solve, and marks steel as steel', () => {
  const bench = solenoidBench(railcar);
  const picture = fieldPicture(bench, 4e-3, 1500);
  assert.ok(picture);
  const n = picture.isSteel.length;
  assert.equal(picture.triangles.length, 6 * n);
  assert.equal(picture.fluxDensity.length, n);
  const steel = picture.isSteel.reduce((sum, is) => sum + is, 0);
  assert.ok(steel > n / 10 && steel < n);
  const most = picture.fluxDensity.reduce((a, b) => Math.max(a, b), 0);
  assert.ok(most > 0.5 && most < 3);
});

test('saturation is where the relative permeability of the table falls below 100', () => {
  for (const steel of steelTables) {
    const { from, words } = saturation(steel);
    assert.match(words, /μr below 100/);
    const k = steel.fluxDensity.findIndex((b) => b > from);
    const relative = (i: number): number => steel.fluxDensity[i] / (4e-7 * Math.PI * steel.fieldStrength[i]);
    assert.ok(relative(k - 1) >= 100 && relative(k) < 100, `${steel.name}: ${relative(k - 1)}, ${relative(k)}`);
  }
});
