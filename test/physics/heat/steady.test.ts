/** Where a coil comes to rest: the balance itself, a long wait, a quadratic, and no rest at all. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { coilHeat, OFF, type CoilPower } from '../../../src/physics/heat/coil-power.ts';
import { heating } from '../../../src/physics/heat/heating.ts';
import { heatLost } from '../../../src/physics/heat/nodes.ts';
import { CEILING } from '../../../src/physics/heat/stages.ts';
import { steadyState } from '../../../src/physics/heat/steady.ts';
import { anyBody, anyPower, anySurroundings, celsius, engineSpace, held, holdWinding, usual } from './bodies.ts';

test('every rest balances, and a coil left alone for two days is there', () => {
  let rests = 0;
  fc.assert(
    fc.property(anyBody, anyPower, anySurroundings, (body, power, surroundings) => {
      const rest = steadyState(body, power, surroundings);
      const start = surroundings.air;
      // On the very ceiling a hundredth decides: leave that strip out.
      if (rest.kind === 'steady' && rest.winding > CEILING - 0.1) return;
      const run = heating(body, [{ duration: 172800, power, surroundings }], { winding: start, can: start });
      assert.equal(run.ended, rest.kind === 'steady' ? 'duration' : 'ceiling');
      if (rest.kind !== 'steady') return;
      rests++;
      const made = coilHeat(power, rest.winding);
      assert.ok(Math.abs(made - heatLost(body, surroundings, rest.can)) < 1e-5, `${made} W made and not all lost`);
      assert.ok(Math.abs(made - body.windingToCan * (rest.winding - rest.can)) < 1e-5, `${made} W do not all cross`);
      assert.ok(
        Math.abs(run.end.winding - rest.winding) < 0.05,
        `${run.end.winding} K waited, ${rest.winding} K found`,
      );
      assert.ok(Math.abs(run.end.can - rest.can) < 0.05, `${run.end.can} K waited, ${rest.can} K found`);
    }),
    { seed: 6010, numRuns: 100 },
  );
  assert.ok(rests > 30, `${rests} of a hundred come to rest`);
});

test('without current the winding has its can’s temperature, between air and bracket', () => {
  const rest = steadyState(usual, OFF, engineSpace);
  assert.ok(rest.kind === 'steady', rest.kind);
  assert.ok(Math.abs(rest.winding - rest.can) < 1e-6, `${rest.winding} K and ${rest.can} K`);
  assert.ok(rest.can > celsius(50) && rest.can < celsius(80), `${rest.can} K`);
  assert.ok(rest.toBracket < 0, `the bracket warms the can: ${rest.toBracket} W`);
});

test('constant current runs away where volts come to rest', () => {
  const body = { ...usual, windingToCan: 0.05 };
  // I² r alone gains more per kelvin than 0.05 W/K carries off.
  const amps: CoilPower = { drive: 'current', current: 1.2, winding: holdWinding };
  assert.equal(steadyState(body, amps, engineSpace).kind, 'beyond the ceiling');
  assert.equal(steadyState(usual, held, engineSpace).kind, 'steady');
});

test('hotter surroundings and more volts never leave a cooler coil', () => {
  fc.assert(
    fc.property(anyBody, anyPower, anySurroundings, (body, power, surroundings) => {
      const at = (one: ReturnType<typeof steadyState>): number => (one.kind === 'steady' ? one.winding : Infinity);
      const before = at(steadyState(body, power, surroundings));
      const hotter = at(steadyState(body, power, { ...surroundings, air: surroundings.air + 5 }));
      const stronger = at(steadyState(body, { ...power, source: power.source * 1.05 }, surroundings));
      assert.ok(hotter >= before && stronger >= before, `${before} K became ${hotter} K and ${stronger} K`);
    }),
    { seed: 6011, numRuns: 200 },
  );
});
