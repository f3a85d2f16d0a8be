/** Stops in a row, against the plain way: one stop after another until nothing changes. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as fc from 'fast-check';
import { OFF, type CoilPower } from '../../../src/physics/heat/coil-power.ts';
import { heating } from '../../../src/physics/heat/heating.ts';
import { repeatedStops } from '../../../src/physics/heat/repeated-stops.ts';
import type { HeatStage } from '../../../src/physics/heat/stages.ts';
import { anyBody, anyPower, anySurroundings, celsius, engineSpace, held, stalled, usual } from './bodies.ts';

const stopEvery = (pause: number, pull = 1, power: CoilPower = stalled): HeatStage[] => [
  { duration: pull, power, surroundings: engineSpace },
  { duration: 5, power: held, surroundings: engineSpace },
  { duration: pause, power: OFF, surroundings: engineSpace },
];
const cold = { winding: celsius(50), can: celsius(50) };

test('counts and settles as one stop after another does', () => {
  for (const stop of [stopEvery(60), stopEvery(60, 2), stopEvery(600, 4)]) {
    const found = repeatedStops(usual, stop, cold);
    assert.ok(found.converged, 'converged');
    const counted: (number | null)[] = found.stopsUntil.map(() => null);
    let last = heating(usual, stop, cold, { tolerance: 1e-3 });
    for (let n = 1; n < 600; n++) {
      last.passed.forEach(({ time }, i) => {
        if (time !== null) counted[i] ??= n;
      });
      if (last.ended === 'ceiling') break;
      last = heating(usual, stop, last.end, { tolerance: 1e-3 });
    }
    assert.deepEqual(
      found.stopsUntil.map(({ stops }) => stops),
      counted,
    );
    assert.equal(found.settled === null, last.ended === 'ceiling');
    if (found.settled === null) continue;
    for (const node of ['winding', 'can'] as const) {
      const [settled, waited] = [found.settled.greatest[node].temperature, last.greatest[node].temperature];
      assert.ok(Math.abs(settled - waited) < 0.05, `${node}: ${settled} K found, ${waited} K waited`);
    }
  }
});

test('stops with no pause to speak of burn the coil, and it is said in which', () => {
  const found = repeatedStops(usual, stopEvery(3, 4), cold);
  assert.equal(found.settled, null);
  assert.ok(found.converged, 'converged');
  const stops = found.stopsUntil.map((one) => one.stops ?? NaN);
  stops.forEach((n, i) => assert.ok(n >= 1 && (i === 0 || n >= stops[i - 1]), `${stops.join(', ')} stops`));
});

test('a longer pause never allows fewer stops nor settles hotter, and any row ends', () => {
  let compared = 0;
  fc.assert(
    fc.property(anyBody, anyPower, anySurroundings, fc.integer({ min: 5, max: 300 }), (body, power, around, pause) => {
      const row = (rest: number) =>
        repeatedStops(
          body,
          [
            { duration: 2, power, surroundings: around },
            { duration: rest, power: OFF, surroundings: around },
          ],
          { winding: around.air, can: around.air },
          { mostStops: 300 },
        );
      const [short, long] = [row(pause), row(pause * 2)];
      if (!short.converged || !long.converged) return;
      // Where the bracket is hotter than the air, a pause warms: leave those out.
      if (around.bracket > around.air) return;
      compared++;
      const hottest = (one: typeof short): number => one.settled?.greatest.winding.temperature ?? Infinity;
      assert.ok(hottest(long) <= hottest(short) + 0.05, `${hottest(short)} K became ${hottest(long)} K`);
      short.stopsUntil.forEach(({ thermalClass, stops }, i) => {
        const after = long.stopsUntil[i].stops ?? Infinity;
        assert.ok(after >= (stops ?? Infinity), `class ${thermalClass}: ${stops} stops became ${after}`);
      });
    }),
    { seed: 6020, numRuns: 80 },
  );
  assert.ok(compared > 10, `${compared} rows compared`);
});

test('too few stops to pass what will be passed is said', () => {
  assert.equal(repeatedStops(usual, stopEvery(60), cold, { mostStops: 10 }).converged, false);
});

test('a row in frost starts below nothing that is refused', () => {
  const frost = { air: celsius(-60), bracket: celsius(-60) };
  const stop: HeatStage[] = [
    { duration: 1, power: stalled, surroundings: frost },
    { duration: 120, power: OFF, surroundings: frost },
  ];
  const found = repeatedStops(usual, stop, { winding: celsius(-60), can: celsius(-60) });
  assert.ok(found.converged && found.settled !== null, 'settled');
});
