/**
 * What would make a failing finding sure: for the inputs that matter most, the ± at which the chance of failing falls
 * below one in a hundred. Found by drawing anew with a smaller ±, over the same points, and halving the interval; never
 * by a formula. It is said for the case that the new reading comes out at the same value.
 */
import { shareAcrossScrambles, type Estimate } from '../../numerics/statistics-scrambles.ts';
import { scrambleSeed, type SpreadPlan } from './plan.ts';
import type { SpreadTask } from './task.ts';

export const WANTED_CHANCE = 0.01;

export interface Tightening {
  readonly finding: string;
  /** Chance of failing as things are, over the same points. */
  readonly before: Estimate;
  readonly options: readonly TighteningOption[];
}

export interface TighteningOption {
  /** All of these at once. */
  readonly inputs: readonly {
    readonly path: string;
    readonly remedy: 'measure' | 'hold';
    readonly plusMinus_SI: number;
    /** What it would have to be; 0 where even an exact value would not do. */
    readonly needed_SI: number;
  }[];
  readonly isEnough: boolean;
  /** Chance of failing then. */
  readonly after: Estimate;
}

const POINTS = 256;
const STEPS = 5;

/** Runs pieces of work in order; null where it was stopped. */
export type RunTasks = (tasks: readonly SpreadTask[]) => Promise<readonly Float64Array[] | null>;

export async function tightened(
  plan: SpreadPlan,
  finding: string,
  paths: readonly string[],
  run: RunTasks,
): Promise<Tightening | null> {
  const { inputs, findings, request } = plan;
  const at = findings.findIndex(({ id }) => id === finding);
  const known = paths.map((path) => inputs.findIndex((one) => one.path === path)).filter((i) => i >= 0);
  const sets = [...known.map((i) => [i]), ...(known.length > 1 ? [known] : [])];

  /** Chances of failing, one for each row of factors on the ± of each set. */
  const chances = async (factors: readonly number[]): Promise<readonly Estimate[] | null> => {
    const tasks = factors.flatMap((factor, s) =>
      Array.from({ length: request.scrambles }, (_, r): SpreadTask => ({
        kind: 'draws',
        seed: scrambleSeed(request.seed, r, 'tighten'),
        first: 0,
        count: POINTS,
        wanted: [at],
        scales: inputs.map((_, i) => (sets[s]?.includes(i) ? factor : 1)),
      })),
    );
    const results = await run(tasks);
    if (results === null) return null;
    return factors.map((_, s) =>
      shareAcrossScrambles(
        results.slice(s * request.scrambles, (s + 1) * request.scrambles).map((margins) => {
          let hits = 0;
          for (let i = at; i < margins.length; i += findings.length) if (margins[i] < 0) hits += 1;
          return hits;
        }),
        POINTS,
      ),
    );
  };

  const asIs = await chances([1]);
  const exact = asIs === null ? null : await chances(sets.map(() => 0));
  if (asIs === null || exact === null) return null;
  const isEnough = exact.map(({ value }) => value < WANTED_CHANCE);
  const low = sets.map(() => 0);
  const high = sets.map(() => 1);
  for (let step = 0; step < STEPS; step++) {
    const middle = sets.map((_, s) => (low[s] + high[s]) / 2);
    const found = await chances(middle.map((factor, s) => (isEnough[s] ? factor : 0)));
    if (found === null) return null;
    middle.forEach((factor, s) => {
      if (found[s].value < WANTED_CHANCE) low[s] = factor;
      else high[s] = factor;
    });
  }
  const factors = sets.map((_, s) => (isEnough[s] ? low[s] : 0));
  const after = await chances(factors);
  if (after === null) return null;
  return {
    finding,
    before: asIs[0],
    options: sets.map((members, s) => ({
      inputs: members.map((i) => ({
        path: inputs[i].path,
        remedy: inputs[i].remedy,
        plusMinus_SI: inputs[i].plusMinus_SI,
        needed_SI: factors[s] * inputs[i].plusMinus_SI,
      })),
      isEnough: isEnough[s],
      after: after[s],
    })),
  };
}
