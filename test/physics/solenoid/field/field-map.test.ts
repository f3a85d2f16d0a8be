import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { MagnetisationCurve } from '../../../../src/physics/magnetics/magnetisation-curve.ts';
import { lowCarbonPlate, steelTables } from '../../../../src/physics/magnetics/steel.ts';
import { surfaceAt } from '../../../../src/physics/solenoid/field/co-energy-surface.ts';
import { fieldMap, fieldMapSteps, spreadGaps } from '../../../../src/physics/solenoid/field/field-map.ts';
import { referenceCases } from '../../../published/solenoid-reference.ts';

const steel = new MagnetisationCurve(lowCarbonPlate);
const [flat] = referenceCases;

const map = fieldMap(flat.solenoid, steel, {
  gaps: spreadGaps(0.1e-3, 12e-3),
  ampereTurns: [15, 75, 300, 1000, 2400],
  tolerance: 0.005,
});

test('the map follows a dense reference map of 575 points to 2 % at worst and 0.5 % in the mean', () => {
  // Source: the reference of data/plunger-solenoid-field.json, its own 23 × 25 map of the first case.
  const dense = JSON.parse(
    readFileSync(new URL('../../../published/data/plunger-solenoid-map.json', import.meta.url), 'utf8'),
  ) as {
    gaps_mm: number[];
    ampere_turns: number[];
    force_N: number[][];
    flux_linkage_per_turn_Wb: number[][];
  };
  let [worstForce, worstFlux, sum, count] = [0, 0, 0, 0];
  dense.gaps_mm.forEach((gap, j) =>
    dense.ampere_turns.forEach((level, i) => {
      const { force, fluxLinkage } = surfaceAt(map.surface, gap * 1e-3, level);
      const forceError = Math.abs(force / dense.force_N[j][i] - 1);
      worstForce = Math.max(worstForce, forceError);
      worstFlux = Math.max(worstFlux, Math.abs(fluxLinkage / dense.flux_linkage_per_turn_Wb[j][i] - 1));
      sum += forceError;
      count++;
    }),
  );
  assert.equal(count, 575);
  assert.ok(worstForce < 0.02, `force off by ${worstForce}`);
  assert.ok(worstFlux < 0.015, `flux linkage off by ${worstFlux}`);
  assert.ok(sum / count < 0.005, `mean ${sum / count}`);
  // The map's own word on its error is of the right size.
  const { mesh, fit } = map.estimatedError;
  assert.ok(mesh.force + fit.force > worstForce, `said ${mesh.force} and ${fit.force}, found ${worstForce}`);
  assert.ok(mesh.force + fit.force < 0.06);
});

test('the map meets every solved point, and is rising and attracting', () => {
  assert.ok(map.rising && map.attracting && map.nodes > 5000);
  for (const { gap, ampereTurns, coEnergy, fluxLinkage, force } of map.points) {
    const found = surfaceAt(map.surface, gap, ampereTurns);
    for (const [value, expected] of [
      [found.coEnergy, coEnergy],
      [found.fluxLinkage, fluxLinkage],
      [found.force, force],
    ])
      assert.ok(Math.abs(value / expected - 1) < 1e-9, `gap ${gap}, ${ampereTurns} ampere-turns`);
  }
});

test('force and flux linkage are the slopes of one co-energy, which is continuous across the solved gaps', () => {
  for (const gap of [0.13e-3, map.surface.gaps[3], 2.9e-3, map.surface.gaps[9], 11e-3])
    for (const level of [0.4, 12, 75, 430, 1999]) {
      const [dg, dn] = [gap * 1e-5, level * 1e-5];
      const { force, fluxLinkage } = surfaceAt(map.surface, gap, level);
      const energy = (g: number, n: number): number => surfaceAt(map.surface, g, n).coEnergy;
      assert.ok(Math.abs((energy(gap - dg, level) - energy(gap + dg, level)) / (2 * dg) / force - 1) < 1e-3);
      assert.ok(Math.abs((energy(gap, level + dn) - energy(gap, level - dn)) / (2 * dn) / fluxLinkage - 1) < 1e-5);
      const mirrored = surfaceAt(map.surface, gap, -level);
      assert.deepEqual([mirrored.force, mirrored.fluxLinkage], [force, -fluxLinkage]);
    }
  assert.deepEqual(surfaceAt(map.surface, 1e-3, 0), { coEnergy: 0, fluxLinkage: 0, force: 0 });
});

test('progress is told gap by gap, and the caller may stop', () => {
  const steps = fieldMapSteps(flat.solenoid, steel, {
    gaps: [1e-3, 2e-3, 4e-3],
    ampereTurns: [100, 1000],
    elementLength: 2,
    tolerance: 1,
    checks: 1,
  });
  assert.deepEqual(steps.next().value, { done: 1, all: 4 });
  assert.deepEqual(steps.next().value, { done: 2, all: 4 });
  assert.equal(steps.return(map).done, true);
});

test('each built-in steel gives a map', () => {
  for (const table of steelTables) {
    const { rising, attracting } = fieldMap(flat.solenoid, table, {
      gaps: [0.2e-3, 1e-3, 4e-3],
      ampereTurns: [50, 500, 3000],
      elementLength: 1.5,
      tolerance: 0.05,
      checks: 0,
    });
    assert.ok(rising && attracting, table.name);
  }
});

test('requests without meaning and places outside the map are refused', () => {
  const refused = (code: string, build: () => unknown): void => assert.throws(build, { name: 'DomainError', code });
  refused('SW-M041', () => fieldMap(flat.solenoid, steel, { gaps: [1e-3], ampereTurns: [1, 2] }));
  refused('SW-M041', () => fieldMap(flat.solenoid, steel, { gaps: [2e-3, 1e-3], ampereTurns: [1, 2] }));
  refused('SW-M041', () => fieldMap(flat.solenoid, steel, { gaps: [1e-3, 2e-3], ampereTurns: [0, 2] }));
  refused('SW-M041', () => fieldMap(flat.solenoid, steel, { gaps: [1e-3, 2e-3], ampereTurns: [1, Number.NaN] }));
  refused('SW-M041', () => fieldMap(flat.solenoid, steel, { gaps: [1e-3, 2e-3], ampereTurns: [1, 2], tolerance: 0 }));
  refused('SW-M041', () => spreadGaps(2e-3, 1e-3));
  refused('SW-M041', () => spreadGaps(1e-3, 2e-3, 1));
  refused('SW-M032', () => fieldMap(flat.solenoid, steel, { gaps: [0, 2e-3], ampereTurns: [1, 2] }));
  for (const [gap, level] of [
    [0.05e-3, 100],
    [13e-3, 100],
    [1e-3, 2500],
    [Number.NaN, 100],
    [1e-3, Number.NaN],
  ])
    refused('SW-M040', () => surfaceAt(map.surface, gap, level));
});
