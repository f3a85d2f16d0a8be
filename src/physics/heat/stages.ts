/**
 * What happens to a coil, as a row of stages: pull-in, stall, hold, pause, the hot engine after it has stopped.
 */
import { DomainError } from '../domain-error.ts';
import type { CoilBody } from './coil-body.ts';
import { requirePower, type CoilPower } from './coil-power.ts';
import type { Scene, Surroundings } from './nodes.ts';

/** Mean temperature of the winding, K, where a run ends: above the highest class, nothing that is reckoned here still exists. */
export const CEILING = 573.15;
/** Surroundings and starts are taken from -63 °C, K. */
export const COLDEST = 210;
/** Warmest air, 122 °C, K: with the ceiling the film stays below 500 K, where air's properties end. */
export const WARMEST_AIR = 395;

/** [seconds since the stage began, K], times rising from 0; straight lines between, the last value holds on. */
export type BracketCourse = readonly (readonly [seconds: number, temperature: number])[];

/** A time during which nothing is switched. */
export interface HeatStage {
  readonly duration: number;
  readonly power: CoilPower;
  readonly surroundings: Surroundings;
  /** Takes the place of the bracket's one temperature. */
  readonly bracketCourse?: BracketCourse;
}

/** A stage cut at the corners of its bracket's course. */
export function scenesOf(body: CoilBody, stage: HeatStage): { scene: Scene; duration: number }[] {
  const { power, surroundings, duration, bracketCourse } = stage;
  if (bracketCourse === undefined) return [{ scene: { body, power, surroundings, bracketSlope: 0 }, duration }];
  return bracketCourse.flatMap(([from, bracket], i) => {
    const next = bracketCourse[i + 1];
    const until = Math.min(duration, next?.[0] ?? Infinity);
    if (until <= from) return [];
    const bracketSlope = next === undefined ? 0 : (next[1] - bracket) / (next[0] - from);
    const scene: Scene = { body, power, surroundings: { ...surroundings, bracket }, bracketSlope };
    return [{ scene, duration: until - from }];
  });
}

/** @throws DomainError SW-D053, SW-D054 */
export function requireStages(stages: readonly HeatStage[]): void {
  if (stages.length === 0) throw new DomainError('SW-D054', 'heating needs a stage at least, not none');
  for (const { duration, power, surroundings, bracketCourse } of stages) {
    if (!(duration > 0 && duration < Infinity)) throw new DomainError('SW-D054', `a stage cannot last ${duration} s`);
    requirePower(power);
    requireSurroundings(surroundings);
    if (bracketCourse === undefined) continue;
    if (bracketCourse[0]?.[0] !== 0)
      throw new DomainError('SW-D054', `a bracket's course begins at 0 s, not at ${bracketCourse[0]?.[0]} s`);
    bracketCourse.forEach(([seconds, temperature], i) => {
      if (i > 0 && !(seconds > bracketCourse[i - 1][0] && seconds < Infinity))
        throw new DomainError(
          'SW-D054',
          `a bracket's course goes on at ${seconds} s after ${bracketCourse[i - 1][0]} s`,
        );
      requireTemperature('bracket', temperature, CEILING);
    });
  }
}

/** @throws DomainError SW-D054 */
export function requireSurroundings({ air, walls = air, bracket }: Surroundings): void {
  requireTemperature('air', air, WARMEST_AIR);
  requireTemperature('walls', walls, CEILING);
  requireTemperature('bracket', bracket, CEILING);
}

/** @throws DomainError SW-D054 a temperature that the surroundings of a coil do not have */
export function requireTemperature(name: string, value: number, highest: number): void {
  if (!(value >= COLDEST && value <= highest))
    throw new DomainError(
      'SW-D054',
      `temperature of ${name} must lie from ${COLDEST} K to ${highest} K, not at ${value} K`,
    );
}
