/**
 * An hour of heating with a trace, beside two plain integrations with fixed steps of the same balances: forward Euler, as one
 * would write it at first, and the classic rule of Runge and Kutta.
 *
 * Each is given the longest step of a row with which it errs no more than ours does anywhere on the trace; Euler also a step
 * of a second, for those who would take no care. Errors are against Euler's with 10 ms. No trace, classes, peaks or energy
 * are asked of the plain ones.
 */
import {
  canHeatCapacityFromSize,
  copperMass,
  windingHeatCapacity,
  windingToCanFromSize,
  type CoilBody,
} from '../src/physics/heat/coil-body.ts';
import { coilHeat, OFF, type CoilOnVolts } from '../src/physics/heat/coil-power.ts';
import { heating } from '../src/physics/heat/heating.ts';
import { heatLost, type Surroundings } from '../src/physics/heat/nodes.ts';
import { repeatedStops } from '../src/physics/heat/repeated-stops.ts';
import { steadyState } from '../src/physics/heat/steady.ts';

const GOAL_MS = 0.5;
const HOUR = 3600;
const can = { diameter: 0.05, length: 0.08, attitude: 'lying' } as const;
const winding = { resistance: 12.2, at: 293.15 };
const body: CoilBody = {
  windingHeatCapacity: windingHeatCapacity(copperMass(12.2, 293.15, 0.4e-3), 0.1),
  canHeatCapacity: canHeatCapacityFromSize(can),
  windingToCan: windingToCanFromSize(can),
  can,
  emissivity: 0.9,
  canToBracket: 0.05,
};
const surroundings: Surroundings = { air: 323.15, bracket: 353.15 };
const hold: CoilOnVolts = { drive: 'volts', source: 14, loopResistance: 0.05, winding };
const start = { winding: 323.15, can: 323.15 };
/** A small winding moulded into its can answers in two seconds: what fixed steps have to follow for the whole hour. */
const moulded: CoilBody = { ...body, windingHeatCapacity: 20, windingToCan: 8 };

export async function bench(print: (line: string) => void): Promise<void> {
  anHour('an hour of hold', body, print);
  anHour('an hour of hold, winding moulded in', moulded, print);
  print(`steady state by its root: ${(1e6 * median(() => steadyState(body, hold, surroundings))).toFixed(0)} μs`);
  const pull: CoilOnVolts = { ...hold, winding: { resistance: 0.25, at: 293.15 } };
  const row60 = () =>
    repeatedStops(
      body,
      [
        { duration: 1, power: pull, surroundings },
        { duration: 60, power: OFF, surroundings },
      ],
      start,
    );
  const { stopsUntil, settled } = row60();
  const stops = Math.max(...stopsUntil.map((one) => one.stops ?? 0));
  print(
    `a stop a minute until ${settled === null ? 'it burns' : 'it settles'}, ${stops} counted: ${(1000 * median(row60)).toFixed(1)} ms`,
  );
}

function anHour(what: string, coil: CoilBody, print: (line: string) => void): void {
  const hour = () => heating(coil, [{ duration: HOUR, power: hold, surroundings }], start);
  const { trace, steps, energy } = hour();
  const truth = follow(coil, euler, 0.01, trace.time);
  const worst = (values: readonly number[]): number =>
    Math.max(...values.map((value, i) => Math.abs(value - truth[i])));
  const ours = { time: median(hour), error: worst(trace.winding) };
  print(
    `${what}: ${(1000 * ours.time).toFixed(3)} ms (goal under ${GOAL_MS}: ${1000 * ours.time < GOAL_MS ? 'met' : 'missed'}), ${steps} steps, ${trace.time.length} points, `
      + `within ${ours.error.toFixed(3)} K, ${((100 * Math.abs(energy.rest)) / energy.made).toFixed(4)} % of the heat unaccounted for`,
  );
  const against = (name: string, rule: Rule, row: readonly number[]): void => {
    const errors = row.map((length) => ({ length, error: worst(follow(coil, rule, length, trace.time)) }));
    const fair = errors.find(({ error }) => error <= ours.error) ?? errors[errors.length - 1];
    for (const { length, error } of new Set(rule === euler ? [errors[0], fair] : [fair])) {
      const time = median(() => follow(coil, rule, length, [HOUR]));
      print(
        `  ${name}, steps of ${length} s: ${(1000 * time).toFixed(3)} ms within ${error.toFixed(3)} K, ${(time / ours.time).toFixed(1)} times as long`,
      );
    }
  };
  against('forward Euler', euler, [1, 0.5, 0.2, 0.1, 0.05, 0.02]);
  against('classic Runge-Kutta', rungeKutta, [60, 40, 30, 20, 15, 10, 5, 2, 1]);
}

type Pair = readonly [winding: number, can: number];
type Rule = (coil: CoilBody, at: Pair, h: number) => Pair;

const slopes = (coil: CoilBody, [w, c]: Pair): Pair => {
  const across = coil.windingToCan * (w - c);
  return [
    (coilHeat(hold, w) - across) / coil.windingHeatCapacity,
    (across - heatLost(coil, surroundings, c)) / coil.canHeatCapacity,
  ];
};
const along = ([w, c]: Pair, [dw, dc]: Pair, h: number): Pair => [w + h * dw, c + h * dc];

const euler: Rule = (coil, at, h) => along(at, slopes(coil, at), h);

const rungeKutta: Rule = (coil, at, h) => {
  const first = slopes(coil, at);
  const second = slopes(coil, along(at, first, h / 2));
  const third = slopes(coil, along(at, second, h / 2));
  const fourth = slopes(coil, along(at, third, h));
  return [
    at[0] + (h / 6) * (first[0] + 2 * second[0] + 2 * third[0] + fourth[0]),
    at[1] + (h / 6) * (first[1] + 2 * second[1] + 2 * third[1] + fourth[1]),
  ];
};

/** Winding temperatures at the given times, by steps no longer than `longest`. */
function follow(coil: CoilBody, rule: Rule, longest: number, times: readonly number[]): number[] {
  let at: Pair = [start.winding, start.can];
  let t = 0;
  return times.map((time) => {
    while (t < time - 1e-9) {
      const h = Math.min(longest, time - t);
      at = rule(coil, at, h);
      t += h;
    }
    return at[0];
  });
}

/** Seconds, median of eleven batches after a warm-up. */
function median(run: () => unknown): number {
  for (let i = 0; i < 20; i++) run();
  const times: number[] = [];
  for (let batch = 0; batch < 11; batch++) {
    const began = performance.now();
    let runs = 0;
    do {
      run();
      runs++;
    } while (performance.now() - began < 20);
    times.push((performance.now() - began) / runs / 1000);
  }
  return times.sort((a, b) => a - b)[5];
}
