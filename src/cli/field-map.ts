/** `stopwright field --map`: the co-energy map of a solenoid as a job keeps it under "means", "map". */
import { setImmediate } from 'node:timers/promises';
import type { SolenoidBench } from '../assessment/solenoid/bench.ts';
import { trimmedCurve, trimSteps, whyNoMaps } from '../assessment/solenoid/curve.ts';
import { mapPlan, mapSteps, type CoEnergyMap, type SolvedMap } from '../assessment/solenoid/map.ts';
import type { TrimMaps } from '../physics/solenoid/trim-maps.ts';

export type MapFound =
  | {
      readonly ok: true;
      readonly map: CoEnergyMap;
      /** What to know before it is relied on. */ readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly why: string };

/** A map whose numbers may be off by more than this is said to be. */
const ROUGH = 0.1;

/**
 * Solves the map, fitted to the pulls where there are any.
 *
 * @param tell how far it is, in words
 * @returns null where `isStopped` says so in between
 * @throws DomainError SW-M042 a solve did not converge
 */
export async function mapForJob(
  bench: SolenoidBench,
  tell: (words: string) => void,
  isStopped: () => boolean,
): Promise<MapFound | null> {
  const why = whyNoMaps(bench);
  if (why !== null) return { ok: false, why };
  if (bench.winding === null)
    return { ok: false, why: 'the turns are not known: count them, or measure the ohms and the wire' };
  const run = async <T>(what: string, steps: Generator<{ readonly done: number; readonly all: number }, T>) => {
    for (;;) {
      await setImmediate(); // lets Ctrl-C in
      if (isStopped()) return null;
      const step = steps.next();
      if (step.done === true) return { value: step.value };
      tell(`${what}: ${step.value.done} of ${step.value.all}`);
    }
  };
  const maps = bench.readings.length === 0 ? null : await run('fit to the pulls', trimSteps(bench));
  if (maps === null && bench.readings.length > 0) return null;
  const solved = await run('map', mapSteps(mapPlan(bench, maps?.value ?? null)));
  if (solved === null) return null;
  const { lines, turns } = solved.value;
  return { ok: true, map: { turns: [turns!], lines }, notes: notesOn(bench, maps?.value ?? null, solved.value) };
}

function notesOn(bench: SolenoidBench, maps: TrimMaps | null, { estimatedError }: SolvedMap): string[] {
  const rough = Math.max(estimatedError.force, estimatedError.fluxLinkage);
  const curve =
    maps === null ? null : trimmedCurve(bench, maps, { by: 'ampere-turns', ampereTurns: bench.mostAmpereTurns! });
  const fit = curve?.ok === true ? [...curve.contradictions, ...(curve.converged ? [] : [NOT_SETTLED])] : [];
  return [
    ...bench.findings.map(({ path, words }) => `${path}: ${words}`),
    ...fit,
    ...(rough > ROUGH ? [`numbers of this map may be off by ${Math.round(100 * rough)} %`] : []),
  ];
}

const NOT_SETTLED = 'the fit to the pulls did not settle: do not rely on this map';
