import assert from 'node:assert/strict';
import { test } from 'node:test';
import { evenFieldLines, fieldLines } from '../../../src/physics/magnetics/field-lines.ts';
import { prepareField } from '../../../src/physics/magnetics/field.ts';

const ring = (inner: number, outer: number, bottom: number, top: number): [number, number][] => [
  [inner, bottom],
  [outer, bottom],
  [outer, top],
  [inner, top],
];

test('in a uniform field the lines run straight up and enclose equal flux', () => {
  const B0 = 0.2;
  const field = prepareField(
    {
      regions: [{ name: 'nothing', outline: ring(0.01, 0.02, 0, 0.02), material: 'air' }],
      surroundings: { kind: 'uniform field', fluxDensity: B0 },
    },
    0.5,
  );
  const { potential } = field.solve({});
  for (const radius of [0.005, 0.015, 0.03]) {
    const [line] = fieldLines(field.mesh, potential, [(B0 * radius * radius) / 2]);
    assert.ok(line.length >= 4 * 10);
    // Linear on a quarter of an element, whose length grows away from the ring: checked near it.
    for (let k = 0; k < line.length; k += 2)
      if (Math.abs(line[k + 1] - 0.01) < 0.02)
        assert.ok(Math.abs(line[k] / radius - 1) < 0.05, `${line[k]} m instead of ${radius} m`);
  }
});

test('lines of a coil close: every end but those on the edge of the field is met by another', () => {
  const field = prepareField({
    regions: [{ name: 'coil', outline: ring(0.01, 0.02, 0, 0.02), material: 'air', winding: 'coil' }],
    surroundings: { kind: 'open' },
  });
  const { potential } = field.solve({ coil: 100 });
  const values = evenFieldLines(potential, 8);
  assert.equal(values.length, 8);
  for (const line of fieldLines(field.mesh, potential, values.slice(3))) {
    const ends = new Map<string, number>();
    for (let k = 0; k < line.length; k += 2) {
      const key = `${line[k]} ${line[k + 1]}`;
      ends.set(key, (ends.get(key) ?? 0) + 1);
    }
    assert.ok(ends.size >= 3);
    for (const [where, count] of ends) assert.equal(count % 2, 0, `open end at ${where}`);
  }
});
