/** The curve with its band as the screen gets it: plain data, no number that is none, and words where readings disagree. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { solenoidBench } from '../../../src/assessment/solenoid/bench.ts';
import {
  trimKey,
  trimmedCurve,
  trimSteps,
  whyNoMaps,
  type TrimmedCurve,
} from '../../../src/assessment/solenoid/curve.ts';
import type { SolenoidDocument } from '../../../src/job/solenoid/schema.ts';
import { fieldKey } from '../../../src/physics/solenoid/field-key.ts';
import { changed, example } from '../../job/solenoid/documents.ts';

const railcar = example('railcar');
const bench = (edits: Record<string, unknown> = {}) => solenoidBench(changed(railcar, edits) as SolenoidDocument);
const drive = { by: 'voltage', voltage: 24, coilTemperature: 353.15 } as const;
const [maps, told] = (() => {
  const steps = trimSteps(bench());
  const seen: { done: number; all: number }[] = [];
  for (;;) {
    const step = steps.next();
    if (step.done === true) return [step.value, seen];
    seen.push(step.value);
  }
})();

function curve(edits: Record<string, unknown> = {}): TrimmedCurve {
  const answer = trimmedCurve(bench(edits), maps, drive);
  if (!answer.ok) throw new Error(answer.words);
  return answer;
}

function assertFinite(value: unknown, path = 'answer'): void {
  if (typeof value === 'number') assert.ok(Number.isFinite(value), path);
  else if (typeof value === 'object' && value !== null)
    for (const [key, item] of Object.entries(value)) assertFinite(item, `${path}.${key}`);
}

test('the curve falls from home outwards inside its band, and passes by the pulls', () => {
  const { gap_mm, force_N, low95_N, high95_N, readings, contradictions, converged, next, untrimmed_N } = curve();
  assert.ok(converged);
  assert.deepEqual(contradictions, []);
  assert.equal(gap_mm[gap_mm.length - 1], 16);
  for (let i = 0; i < gap_mm.length; i++) {
    assert.ok(low95_N[i] < force_N[i] && force_N[i] < high95_N[i] && untrimmed_N[i] > 0);
    assert.ok(i === 0 || force_N[i] < force_N[i - 1]);
  }
  for (const { score, pullAtDrive_N, gap_mm: at } of readings) {
    const i = gap_mm.findIndex((gap) => gap >= at);
    assert.ok(Math.abs(score) < 3 && pullAtDrive_N > low95_N[i] * 0.9 && pullAtDrive_N < high95_N[i - 1] * 1.1);
  }
  assert.ok(next !== null && next.bandAfter < next.bandNow && next.drive.by === 'voltage');
});

test('everything passes between threads, and no number is none', () => {
  const answer = curve();
  assert.deepEqual(structuredClone(answer), answer);
  assertFinite(answer);
  assert.deepEqual(JSON.parse(JSON.stringify(answer)), answer);
  assert.deepEqual(trimmedCurve(bench(), structuredClone(maps), drive), answer);
});

test('progress climbs by one to the whole', () => {
  assert.deepEqual(
    told.map(({ done }) => done),
    Array.from({ length: told[0].all }, (_, k) => k + 1),
  );
});

test('pulls narrow the band, and say what they changed', () => {
  const width = ({ low95_N, high95_N }: TrimmedCurve): number =>
    high95_N.reduce((sum, high, i) => sum + Math.log(high / low95_N[i]), 0);
  const without = curve({ pulls: [] });
  assert.ok(width(curve()) < 0.8 * width(without));
  without.force_N.forEach((force, i) => assert.ok(Math.abs(force / without.untrimmed_N[i] - 1) < 1e-12));
  for (const { before, after } of without.unknowns)
    before.forEach((value, k) => assert.ok(Math.abs(value - after[k]) <= 1e-9 * Math.abs(value)));
  assert.ok(curve().unknowns.some(({ before, after }) => after[2] - after[0] < 0.95 * (before[2] - before[0])));
});

test('pulls that contradict are named with numbers, widen the band, and no next reading is made up', () => {
  const { contradictions, widened, readings, next, high95_N } = curve({ 'pulls.0.pull': '21 N' });
  assert.match(
    contradictions[0],
    /pulls\[0\] \(21 N at a gap of 10 mm\) lies \d+ % above what the dimensions and the other pulls lead/,
  );
  assert.match(contradictions[contradictions.length - 1], /nothing was left out.*times as wide/);
  assert.equal(next, null);
  assert.ok(widened > 1 && readings[0].score > 3 && high95_N[20] > curve().high95_N[20]);
});

test('what cannot be drawn is said', () => {
  const noCoil = bench({ 'coil.resistance': 'not measured', pulls: [] });
  const answer = trimmedCurve(noCoil, maps, drive);
  assert.ok(!answer.ok && answer.words.includes('not known'));
  const tooMuch = trimmedCurve(bench(), maps, { by: 'ampere-turns', ampereTurns: 1e5 });
  assert.ok(!tooMuch.ok && tooMuch.words.includes('100000 ampere-turns are more'));
  assert.ok(!trimmedCurve(bench(), maps, { by: 'current', current: 0 }).ok);
  assert.equal(whyNoMaps(bench()), null);
  assert.match(whyNoMaps(bench({ 'can.wall': 'not measured' }))!, /can\.wall/);
  assert.match(whyNoMaps(bench({ 'can.wall': '30 mm' }))!, /do not fit/);
  assert.match(whyNoMaps(bench({ 'plunger.stroke': 'not measured' }))!, /stroke/);
});

test('maps are kept under a key that changes with what they depend on, and with nothing else', () => {
  const key = trimKey(bench());
  assert.equal(trimKey(bench({ name: 'another', notes: 'x', 'pulls.0.pull': '13 N' })), key);
  assert.equal(trimKey(bench({ 'can.length': '0.07 m', 'can.wall': '3,5 mm' })), key);
  for (const edits of [
    { 'can.wall': '3.5001 mm' },
    { 'plunger.stroke': '15 mm' },
    { 'steel.table': 'structural steel' },
    { 'coil.ratedVoltage': '12 V' },
    { radialClearance: '0.35 ± 0.2 mm' },
  ])
    assert.notEqual(trimKey(bench(edits)), key, JSON.stringify(edits));
});

test('a key does not depend on the order of fields, and takes plain data only', () => {
  assert.equal(
    fieldKey({ a: 1, b: { d: [1, -0], c: 'x' } }),
    fieldKey({ b: { c: 'x', d: [1, 0] }, a: 1, e: undefined }),
  );
  assert.notEqual(fieldKey({ a: 1 }), fieldKey({ a: '1' }));
  assert.notEqual(fieldKey({ a: [1, 2] }), fieldKey({ a: [12] }));
  assert.equal(fieldKey({ a: Float64Array.of(0.1, 0.2) }), fieldKey({ a: [0.1, 0.2] }));
  for (const bad of [Number.NaN, Infinity, () => 1, new Map()])
    assert.throws(() => fieldKey({ a: bad }), { name: 'DomainError', code: 'SW-M060' });
});
