/** Kirchhoff and Ohm on every stage of the coil: nothing gets lost between source, loop, resistor and winding. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import {
  coilAt,
  dropIn,
  holdCurrents,
  loopOf,
  nodesOf,
  pullInCurrents,
  settledCircuit,
  shortCircuitCurrent,
  smallestSectionFor,
  type CoilOhms,
  type Loop,
  type LoopPart,
  type StageCurrents,
} from '../../src/physics/circuit.ts';
import { conductorResistance, standardSections } from '../../src/physics/conductor.ts';
import { DomainError } from '../../src/physics/domain-error.ts';

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

const at = (coil: CoilOhms, temperature: number) => coilAt(coil, 293.15, temperature);

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

const parts: fc.Arbitrary<readonly LoopPart[]> = fc.array(
  fc.record({
    name: fc.constantFrom('run', 'key', 'relay', 'fuse', 'strap'),
    kind: fc.constantFrom('source' as const, 'conductor' as const, 'contact' as const),
    side: fc.constantFrom('out' as const, 'back' as const),
    fresh: share.map((n) => 0.05 * n),
    aged: share.map((n) => 0.05 + 0.1 * n),
  }),
  { maxLength: 8 },
);

test('volts round the loop: down all the way, the solenoid gets what the stage says, and the return ends at zero', () => {
  fc.assert(
    fc.property(parts, coils, fc.constantFrom(12, 24), (loopParts, coil, source) => {
      for (const age of ['fresh', 'aged'] as const) {
        for (const stage of [pullInCurrents, holdCurrents]) {
          const { supply, volts } = stage(loopOf(source, loopParts, age), coil);
          const nodes = nodesOf({ source, parts: loopParts, age }, supply);
          assert.equal(nodes.length, loopParts.length + 3);
          for (const [i, node] of nodes.entries()) {
            const before = i === 0 ? source : nodes[i - 1].volts;
            assert.ok(Math.abs(before - node.volts - node.drop) < 1e-9, `${node.place} ${node.part}`);
            assert.ok(node.volts <= source && node.volts >= 0 && node.drop >= 0, `${node.place} ${node.volts} V`);
          }
          const [terminalIn, terminalOut] = [nodes.findIndex(({ place }) => place === 'terminal in'), 1];
          const across = nodes[terminalIn + terminalOut];
          assert.equal(across.place, 'terminal out');
          assert.ok(Math.abs(across.drop - volts) < 1e-9, `${across.drop} V across, ${volts} V by the stage`);
          const last = nodes[nodes.length - 1];
          if (loopParts.some(({ side }) => side === 'back')) assert.equal(last.volts, 0);
          else assert.ok(Math.abs(last.volts) < 1e-9, `${last.volts} V`);
          // The drop of the rules leaves the battery's own out.
          const inside = loopParts.filter(({ kind }) => kind === 'source').reduce((ohms, part) => ohms + part[age], 0);
          const drop = dropIn(loopParts, age, supply, source);
          assert.ok(Math.abs(source - volts - supply * inside - drop.volts) < 1e-9, `${drop.volts} V`);
        }
      }
    }),
    { numRuns: 200, seed: 5 },
  );
});

test('coil temperature and terminal volts settle together', () => {
  const kelvin = fc.integer({ min: 253, max: 353 });
  fc.assert(
    fc.property(loops, coils, kelvin, share, fc.constantFrom('pull-in' as const, 'hold' as const), (...all) => {
      const [loop, coil, ambient, part, stage] = all;
      const thermalResistance = 0.05 * 200 ** part;
      const settled = settledCircuit({ loop, coil, readAt: 293.15, stage, ambient, thermalResistance });
      assert.equal(settled.converged, true);
      const { temperature, currents } = settled;
      assert.ok(currents.volts <= loop.source && temperature > ambient, `${currents.volts} V at ${temperature} K`);
      // Heat made is heat lost, and the volts are those of a coil at that temperature.
      const left = ambient + thermalResistance * currents.coilPower - temperature;
      assert.ok(Math.abs(left) < 1e-6 * (temperature - ambient) + 1e-8, `${left} K left over`);
      const again = (stage === 'hold' ? holdCurrents : pullInCurrents)(loop, coilAt(coil, 293.15, temperature));
      assert.ok(relative(again.volts, currents.volts), 'volts of the coil at that temperature');
      // Warming up from ambient in small steps of time ends at the same place: it is the only one.
      let warm = ambient;
      for (let n = 0; n < 4000; n++) {
        const { coilPower } = (stage === 'hold' ? holdCurrents : pullInCurrents)(loop, coilAt(coil, 293.15, warm));
        warm += 0.02 * (ambient + thermalResistance * coilPower - warm);
      }
      assert.ok(Math.abs(warm / temperature - 1) < 1e-6, `${warm} K by warming up, ${temperature} K solved`);
    }),
    { numRuns: 60, seed: 6 },
  );
});

test('without loop resistance the temperature is the root of a quadratic', () => {
  fc.assert(
    fc.property(ohms(0.5, 50), share, (R20, part) => {
      const [U, Rth, Ta] = [12, 0.1 + 10 * part, 333.15];
      const coil = { stages: 'single coil', resistance: R20 } as const;
      const loop = { source: U, resistance: 0 };
      const settled = settledCircuit({
        loop,
        coil,
        readAt: 293.15,
        stage: 'hold',
        ambient: Ta,
        thermalResistance: Rth,
      });
      // (T - Ta)(T - T0) R20/254.5 = Rth U², T0 = 38.65 K.
      const [T0, c] = [38.65, (Rth * U * U * 254.5) / R20];
      const T = (Ta + T0 + Math.sqrt((Ta - T0) ** 2 + 4 * c)) / 2;
      assert.ok(Math.abs(settled.temperature / T - 1) < 1e-10, `${settled.temperature} K, ${T} K`);
    }),
    { numRuns: 200, seed: 7 },
  );
});

test('a longer run never leaves more volts and a thicker conductor never fewer; no coil sees more than the source', () => {
  fc.assert(
    fc.property(loops, coils, share, share, (loop, coil, first, second) => {
      const lengths = [1 + 30 * first, 1 + 30 * second].sort((a, b) => a - b);
      for (const system of ['metric', 'gauge'] as const) {
        let before = 0;
        for (const { section_m2, label } of standardSections.filter((section) => section.system === system)) {
          const volts = lengths.map((length) => {
            const resistance = loop.resistance + conductorResistance(section_m2, length, 333.15);
            return pullInCurrents({ ...loop, resistance }, coil).volts;
          });
          assert.ok(volts[1] <= volts[0] && volts[0] <= loop.source, `${label}: ${volts.join(' and ')} V`);
          assert.ok(volts[1] >= before, `${label}: ${volts[1]} V, ${before} V with the size below`);
          before = volts[1];
        }
      }
    }),
    { numRuns: 100, seed: 8 },
  );
});

test('the smallest section keeps the volts wanted, and the next smaller one does not', () => {
  fc.assert(
    fc.property(loops, coils, share, share, fc.boolean(), (loop, coil, far, want, asDrop) => {
      const run = {
        source: loop.source, sourceResistance: 0.01, otherResistance: 0.02, length: 2 + 30 * far, temperature: 333.15,
        stranding: 'class 5 tinned', coil, stage: 'pull-in',
      } as const; // prettier-ignore
      const wanted = asDrop ? { drop: 0.01 + 2 * want } : { terminalVolts: loop.source * (0.7 + 0.3 * want) };
      const { section, best, bestMargin } = smallestSectionFor(run, 'metric', wanted);
      const margin = (section_m2: number) => {
        const outside = 0.02 + conductorResistance(section_m2, run.length, 333.15, 'class 5 tinned');
        const { volts, supply } = pullInCurrents({ source: loop.source, resistance: 0.01 + outside }, coil);
        return asDrop
          ? (wanted.drop ?? NaN) - (loop.source - supply * 0.01 - volts)
          : volts - (wanted.terminalVolts ?? NaN);
      };
      assert.equal(best.label, '95 mm²', 'the thickest always has most');
      assert.ok(Math.abs(bestMargin - margin(best.section_m2)) < 1e-9, `${bestMargin} V`);
      if (section === null) assert.ok(bestMargin < 0, `${bestMargin} V`);
      else {
        assert.ok(margin(section.section_m2) > -1e-9, section.label);
        const smaller = standardSections.findLast(
          (one) => one.system === 'metric' && one.section_m2 < section.section_m2 * 0.99,
        );
        if (smaller !== undefined) assert.ok(margin(smaller.section_m2) < 1e-9, `${smaller.label} would do`);
      }
    }),
    { numRuns: 200, seed: 9 },
  );
});

test('what has no meaning is refused', () => {
  const refused = (code: string, call: () => unknown) =>
    assert.throws(call, (error) => error instanceof DomainError && error.code === code);
  const part = { name: 'run', kind: 'conductor', side: 'back', fresh: 0.1, aged: 0.2 } as const;
  refused('SW-D067', () => nodesOf({ source: 12, parts: [part], age: 'fresh' }, 121));
  refused('SW-D067', () => nodesOf({ source: 12, parts: [part], age: 'fresh' }, -1));
  refused('SW-D067', () => nodesOf({ source: 12, parts: [part], age: 'fresh' }, NaN));
  refused('SW-D067', () => dropIn([part], 'aged', 1, 0));
  refused('SW-D067', () => shortCircuitCurrent({ source: 12, resistance: 0 }));
  const warm = {
    loop: { source: 12, resistance: 0 },
    coil: { stages: 'single coil', resistance: 3 },
    readAt: 293.15,
  } as const;
  refused('SW-D068', () => settledCircuit({ ...warm, stage: 'hold', ambient: 293.15, thermalResistance: 0 }));
  refused('SW-D068', () => settledCircuit({ ...warm, stage: 'hold', ambient: NaN, thermalResistance: 6 }));
  assert.equal(shortCircuitCurrent({ source: 12, resistance: 0.05 }), 240);
});
