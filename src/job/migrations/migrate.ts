/**
 * Brings an older document up to the present version, one numbered step after another, JSON to JSON.
 *
 * A step is a pure function in its own file, `0002-what-is-now-true.ts` leading from version 1 to 2; the suite fails when
 * a step is not exercised by a kept document of the version before it (`test/job/past/`).
 */
import { supplyStatesAndHeat } from './0002-supply-states-and-heat.ts';
import { cableAndAir } from './0003-cable-and-air.ts';

export type Migration = (document: Readonly<Record<string, unknown>>) => Record<string, unknown>;

/** `migrations[0]` leads from version 1 to 2, and so on. */
export const migrations: readonly Migration[] = [supplyStatesAndHeat, cableAndAir];

/** @param version the version that the document says it has, at most one more than the number of migrations */
export function migrate(document: unknown, version: number, steps: readonly Migration[] = migrations): unknown {
  return steps
    .slice(version - 1)
    .reduce<unknown>(
      (older, step, i) => ({ ...step(older as Record<string, unknown>), version: version + i + 1 }),
      document,
    );
}
