/**
 * Which inputs a margin hangs on, by variance: first order and total, by picking and freezing. [numerics/sensitivity]
 * Inputs that share an error are one factor. Cost: points × (factors + 2) assessments for each scramble.
 */
import { oneRunIndices } from '../../numerics/sensitivity-one-run.ts';
import { sensitivityIndices, varianceParts, type VarianceParts } from '../../numerics/sensitivity.ts';
import type { Estimate } from '../../numerics/statistics-scrambles.ts';
import { mostDimensions } from '../../numerics/quasi-random.ts';
import type { FindingSpread, MarginRows } from './outcome.ts';
import { scrambleSeed, type SpreadPlan } from './plan.ts';
import { drawnValues, type SpreadTask } from './task.ts';

export interface Sensitivity {
  readonly findings: readonly FindingSensitivity[];
  /** Assessments that it took. */
  readonly runs: number;
  /** Inputs that were held still because there are too many: those that mattered least. */
  readonly held: readonly string[];
}

export interface FindingSensitivity {
  readonly id: string;
  /** Most first; null where some of its draws could not be decided. */
  readonly factors: readonly FactorSensitivity[] | null;
}

export interface FactorSensitivity {
  /** One input, or those that share an error. */
  readonly paths: readonly string[];
  /** Share of the variance that would go if this alone were known. */
  readonly first: Estimate;
  /** Share that would stay if all but this were known. */
  readonly total: Estimate;
}

const POINTS = 128;
const MOST_FACTORS = 12;
/** Draws of each scramble from which influences by binning are reckoned. */
export const MOST_WEIGHED = 256;
const CHUNK = 128;

/** The findings that are nearest to failing, of those that vary and were decided in every draw. */
export function nearestToFailing(findings: readonly FindingSpread[], most: number): readonly FindingSpread[] {
  const distance = ({ mean, standardDeviation: spread }: FindingSpread) => (mean ?? Infinity) / (spread ?? NaN);
  return findings
    .filter((one) => one.undecided === 0 && (one.standardDeviation ?? 0) > 1e-12)
    .sort((a, b) => b.failing.value - a.failing.value || distance(a) - distance(b))
    .slice(0, most);
}

export interface SensitivityStudy {
  readonly tasks: readonly SpreadTask[];
  outcome(results: readonly Float64Array[]): Sensitivity;
}

/** The pieces of work, and what is made of their results, in the same order. */
export function sensitivityStudy(
  plan: SpreadPlan,
  rows: MarginRows,
  draws: number,
  chosen: readonly FindingSpread[],
): SensitivityStudy | null {
  const { joint, inputs, findings, request } = plan;
  const at = chosen.map(({ id }) => findings.findIndex((one) => one.id === id));
  const weights = factorWeights(plan, rows, draws, at);
  const order = joint.factors.map((_, f) => f).sort((a, b) => weights[b] - weights[a] || a - b);
  const kept: number[] = [];
  let width = 0;
  for (const f of order) {
    const needed = joint.factors[f].columns.length;
    if (width + needed > mostDimensions / 2) continue;
    kept.push(f);
    width += needed;
  }
  const studied = kept.filter((f) => weights[f] > 0).slice(0, MOST_FACTORS);
  if (studied.length === 0) return null;
  const columns = kept.flatMap((f) => joint.factors[f].columns).sort((a, b) => a - b);
  const factors = studied.map((f) => joint.factors[f].columns.map((column) => columns.indexOf(column)));
  const perScramble = POINTS * (studied.length + 2);
  const tasks: SpreadTask[] = [];
  for (let r = 0; r < request.scrambles; r++) {
    const seed = scrambleSeed(request.seed, r, 'sensitivity');
    for (let from = 0; from < perScramble; from += CHUNK)
      tasks.push({
        kind: 'pick and freeze',
        seed,
        points: POINTS,
        columns,
        factors,
        from,
        to: Math.min(perScramble, from + CHUNK),
        wanted: at,
      });
  }
  const pathsOf = (f: number) => joint.factors[f].members.map((member) => inputs[member].path);
  return {
    tasks,
    outcome(results) {
      const chunks = tasks.length / request.scrambles;
      return {
        runs: perScramble * request.scrambles,
        held: joint.factors.flatMap((_, f) => (kept.includes(f) ? [] : pathsOf(f))),
        findings: at.map((finding) => {
          const parts: VarianceParts[] = [];
          for (let r = 0; r < request.scrambles; r++) {
            const column = results
              .slice(r * chunks, (r + 1) * chunks)
              .flatMap((one) =>
                Array.from({ length: one.length / findings.length }, (_, i) => one[i * findings.length + finding]),
              );
            if (column.some(Number.isNaN)) return { id: findings[finding].id, factors: null };
            parts.push(varianceParts(column, studied.length));
          }
          const indices = sensitivityIndices(parts);
          return {
            id: findings[finding].id,
            factors:
              indices === null
                ? []
                : studied
                    .map((f, i) => ({ paths: pathsOf(f), first: indices.first[i], total: indices.total[i] }))
                    .sort((a, b) => b.total.value - a.total.value),
          };
        }),
      };
    },
  };
}

/** By factor: the most that any of its inputs explains of any of these findings, from draws that are there. */
function factorWeights(
  { joint, findings, request }: SpreadPlan,
  rows: MarginRows,
  draws: number,
  at: readonly number[],
) {
  const weights = joint.factors.map(() => 0);
  const weighed = Math.min(draws, MOST_WEIGHED);
  const values = rows.map((_, r) => drawnValues({ joint }, scrambleSeed(request.seed, r, 'draws'), weighed));
  for (const finding of at) {
    const sets = rows.map((row, r) => ({
      inputs: values[r],
      results: Float64Array.from({ length: weighed }, (_, i) => row[i * findings.length + finding]),
    }));
    const indices = oneRunIndices(sets) ?? [];
    joint.factors.forEach(({ members }, f) => {
      for (const member of members) weights[f] = Math.max(weights[f], indices[member]?.value ?? 0);
    });
  }
  return weights;
}
