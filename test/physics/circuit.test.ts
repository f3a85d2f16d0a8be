/** Kirchhoff and Ohm on every stage of the coil: nothing gets lost between source, loop, resistor and winding. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  holdCurrents,
  pullInCurrents,
  type CoilOhms,
  type Loop,
  type StageCurrents,
} from '../../src/physics/circuit.ts';
import { copperResistance } from '../../src/physics/coil.ts';

const share = fc.nat(1_000_000).map((n) => n / 1_000_000);
const loops: fc.Arbitrary<Loop> = fc.record({
  source: share.map((n) => 8 + 24 * n),
  resistance: share.map((n) => 0.001 + n),
});
const ohms = (low: number, high: number) => share.map((n) => low * (high / low) ** n);
const coils: fc.Arbitrary<CoilOhms> = fc.oneof(
  fc.record({ stages: fc.constant('single coil' as const), resistance: ohms(0.2, 50) }),
  fc.record({ stages: fc.constant('pull-in and hold windings' as const), pullIn: ohms(0.1, 3), hold: ohms(5, 80) }),
  fc.record({ stages: fc.constant('series resistor' as const), resistance: ohms(0.2, 20), resistor: ohms(1, 80) }),
  fc.record({
    stages: fc.constant('timed economiser' as const),
    resistance: ohms(0.2, 20),
    holdShare: share.map((n) => 0.05 + 0.95 * n),
  }),
);

const relative = (a: number, b: number) => Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));

function balances(loop: Loop, state: StageCurrents): void {
  const { supply, volts, coilPower, resistorPower } = state;
  const given = loop.source * supply;
  const spent = coilPower + resistorPower + supply * supply * loop.resistance;
  assert.ok(relative(given, spent), `source gives ${given} W, ${spent} W are spent`);
  assert.ok(relative(loop.source - supply * loop.resistance, volts), 'volts round the loop');
  assert.ok(volts <= loop.source && volts > 0, `${volts} V at the terminals of ${loop.source} V`);
}

test('what the source gives is spent in loop, resistor and winding, in pull-in and in hold', () => {
  fc.assert(
    fc.property(loops, coils, (loop, coil) => {
      balances(loop, pullInCurrents(loop, coil));
      balances(loop, holdCurrents(loop, coil));
    }),
    { numRuns: 500, seed: 1 },
  );
});

/** Ohms of the winding that the force belongs to, and volts across it, by stage. */
function winding(coil: CoilOhms, stage: 'pull-in' | 'hold', state: StageCurrents): [ohms: number, volts: number] {
  switch (coil.stages) {
    case 'single coil':
      return [coil.resistance, state.volts];
    case 'pull-in and hold windings':
      return [stage === 'hold' ? coil.hold : coil.pullIn, state.volts];
    case 'series resistor':
      return [coil.resistance, stage === 'hold' ? state.volts - state.supply * coil.resistor : state.volts];
    case 'timed economiser':
      return [coil.resistance, stage === 'hold' ? coil.holdShare * state.volts : state.volts];
  }
}

test('the current that makes the force obeys Ohm in its own winding', () => {
  fc.assert(
    fc.property(loops, coils, (loop, coil) => {
      for (const stage of ['pull-in', 'hold'] as const) {
        const state = stage === 'hold' ? holdCurrents(loop, coil) : pullInCurrents(loop, coil);
        const [ohmsOf, volts] = winding(coil, stage, state);
        assert.equal(
          relative(state.coil * ohmsOf, volts) || Math.abs(state.coil * ohmsOf - volts) < 1e-12 * loop.source,
          true,
        );
      }
      // Both windings draw in pull-in: the source sees them side by side.
      if (coil.stages === 'pull-in and hold windings') {
        const { supply, volts } = pullInCurrents(loop, coil);
        assert.equal(relative(supply, volts / coil.pullIn + volts / coil.hold), true);
      }
    }),
    { numRuns: 300, seed: 2 },
  );
});

function at(coil: CoilOhms, temperature: number): CoilOhms {
  const warm = (value: number) => copperResistance(value, 293.15, temperature);
  return coil.stages === 'pull-in and hold windings'
    ? { ...coil, pullIn: warm(coil.pullIn), hold: warm(coil.hold) }
    : { ...coil, resistance: warm(coil.resistance) };
}

test('a hotter coil, a longer loop or a lower source never carries more current; hold never more than pull-in', () => {
  fc.assert(
    fc.property(loops, coils, share, (loop, coil, more) => {
      for (const stage of [pullInCurrents, holdCurrents]) {
        const now = stage(loop, coil).coil;
        const slack = now * (1 + 1e-12);
        assert.ok(stage(loop, at(coil, 293.15 + 120 * more)).coil <= slack, 'hotter');
        assert.ok(stage({ ...loop, resistance: loop.resistance + more }, coil).coil <= slack, 'longer');
        assert.ok(stage({ ...loop, source: loop.source - 5 * more }, coil).coil <= slack, 'lower');
      }
      assert.equal(holdCurrents(loop, coil).supply <= pullInCurrents(loop, coil).supply * (1 + 1e-12), true);
    }),
    { numRuns: 300, seed: 3 },
  );
});

test('limits: an economiser that is always on is a plain coil, a resistor of nothing is none', () => {
  fc.assert(
    fc.property(loops, ohms(0.2, 20), (loop, resistance) => {
      const plain = holdCurrents(loop, { stages: 'single coil', resistance });
      for (const other of [
        holdCurrents(loop, { stages: 'timed economiser', resistance, holdShare: 1 }),
        holdCurrents(loop, { stages: 'series resistor', resistance, resistor: 0 }),
      ]) {
        for (const part of ['supply', 'coil', 'volts', 'coilPower'] as const)
          assert.equal(relative(other[part], plain[part]), true);
      }
    }),
    { numRuns: 100, seed: 4 },
  );
});
