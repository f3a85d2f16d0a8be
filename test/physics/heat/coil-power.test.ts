/** Heat in a coil against the circuit's own currents, and its slope against differences. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { holdCurrents, pullInCurrents } from '../../../src/physics/circuit.ts';
import {
  chopped,
  coilHeat,
  coilHeatSlope,
  windingsInParallel,
  type CoilOnVolts,
  type CoilPower,
} from '../../../src/physics/heat/coil-power.ts';
import { anyPower, celsius, holdWinding, pullWinding, stalled } from './bodies.ts';

const loop = { source: 14, resistance: 0.05 };
const same = (a: number, b: number, what: string): void =>
  assert.ok(Math.abs(a - b) <= 1e-9 * Math.abs(b), `${what}: ${a} and ${b}`);

test('every stage of the circuit is a power of the same form', () => {
  const volts = (resistance: number, more = 0): CoilOnVolts => ({
    drive: 'volts',
    source: loop.source,
    loopResistance: loop.resistance + more,
    winding: { resistance, at: celsius(20) },
  });
  const both = { stages: 'pull-in and hold windings', pullIn: 0.25, hold: 12.2 } as const;
  const parallel = windingsInParallel(pullWinding, holdWinding);
  same(
    coilHeat(volts(parallel.resistance), celsius(20)),
    pullInCurrents(loop, both).coilPower,
    'pull-in, both windings',
  );
  same(coilHeat(volts(12.2), celsius(20)), holdCurrents(loop, both).coilPower, 'hold');
  const resistor = { stages: 'series resistor', resistance: 1.2, resistor: 9 } as const;
  same(coilHeat(volts(1.2, 9), celsius(20)), holdCurrents(loop, resistor).coilPower, 'series resistor');
  const economiser = { stages: 'timed economiser', resistance: 1.2, holdShare: 0.3 } as const;
  same(coilHeat(chopped(volts(1.2), 0.3), celsius(20)), holdCurrents(loop, economiser).coilPower, 'economiser');
  assert.equal(coilHeat({ drive: 'off' }, 300), 0);
});

test('windings read at two temperatures are put side by side at one', () => {
  const { resistance, at } = windingsInParallel(
    { resistance: 2, at: celsius(20) },
    { resistance: 2 * (274.5 / 254.5), at: celsius(40) },
  );
  same(resistance, 1, 'two equal windings are half of one');
  assert.equal(at, celsius(20));
});

test('the slope is that of the power', () => {
  const drives = fc.oneof(
    anyPower,
    anyPower.map((power): CoilPower => ({ drive: 'current', current: power.source / 5, winding: power.winding })),
  );
  fc.assert(
    fc.property(drives, fc.double({ min: celsius(-20), max: celsius(200), noNaN: true }), (power, at) => {
      const difference = (coilHeat(power, at + 0.01) - coilHeat(power, at - 0.01)) / 0.02;
      const slope = coilHeatSlope(power, at);
      assert.ok(Math.abs(slope - difference) < 1e-6 * (1 + coilHeat(power, at)), `${slope} and ${difference} W/K`);
    }),
    { seed: 6030, numRuns: 200 },
  );
  assert.equal(coilHeatSlope({ drive: 'off' }, 300), 0);
});

test('a share that is none is refused', () => {
  assert.throws(() => chopped(stalled, 0), /SW-D053 .* 0 of the time/);
  assert.throws(() => chopped(stalled, 1.1), /SW-D053 .* 1.1 of the time/);
});
