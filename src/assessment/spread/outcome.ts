/** What the draws say, as plain data. */
import { oneRunIndices } from '../../numerics/sensitivity-one-run.ts';
import { shareAcrossScrambles, type Estimate } from '../../numerics/statistics-scrambles.ts';
import {
  addToMoments,
  coverageInterval,
  histogram,
  noMoments,
  sorted,
  standardDeviation,
  type CoverageInterval,
  type Histogram,
} from '../../numerics/statistics.ts';
import type { Question } from '../finding.ts';
import { MOST_WEIGHED, nearestToFailing } from './influence.ts';
import type { SpreadInput } from './inputs.ts';
import type { SpreadFinding } from './margins.ts';
import { scrambleSeed, type SpreadPlan } from './plan.ts';
import { drawnValues } from './task.ts';

export interface SpreadOutcome {
  /** Draws that were reckoned; fewer than asked for where the study was stopped. */
  readonly draws: number;
  readonly asked: number;
  readonly scrambles: number;
  readonly seed: number;
  readonly inputs: readonly SpreadInput[];
  readonly atBothEnds: readonly string[];
  readonly exact: number;
  readonly chances: readonly Chance[];
  readonly findings: readonly FindingSpread[];
  readonly notKnown: readonly Pick<SpreadFinding, 'id' | 'title' | 'missing'>[];
  readonly remarks: readonly string[];
}

/** Chance that several findings hold at once. */
export interface Chance {
  readonly name: 'full home' | 'return' | 'within class' | Question;
  readonly words: string;
  readonly chance: Estimate;
  /** Findings that it rests on, by id. */
  readonly findings: readonly string[];
  /** Draws in which one of them could not be decided and none failed; they count neither way. */
  readonly undecided: number;
}

export interface FindingSpread {
  readonly id: string;
  readonly title: string;
  readonly question: Question;
  readonly marginUnit: string;
  readonly wanted: number;
  readonly nominal: number;
  /** Chance of a margin below zero. */
  readonly failing: Estimate;
  /** Chance of a margin from zero to what is wanted. */
  readonly thin: Estimate;
  readonly undecided: number;
  readonly mean: number | null;
  readonly standardDeviation: number | null;
  /** The shortest that holds 95 % of the draws. */
  readonly interval: CoverageInterval | null;
  readonly histogram: Histogram | null;
  /** What its margin hangs on, most first: share of its variance. Only of the findings nearest to failing. */
  readonly influences: readonly Influence[];
}

export interface Influence {
  readonly path: string;
  readonly share: Estimate;
}

/** Margins by scramble, each `draws` rows of all findings. */
export type MarginRows = readonly Float64Array[];

const MOST_INFLUENCES = 6;
/** Findings nearest to failing, for which influences are reckoned. */
const MOST_WEIGHED_FINDINGS = 6;
/** An influence below this share of the variance is not listed. */
const LEAST_SHARE = 0.01;

/** @param weigh whether influences are reckoned, which takes about as long as a thousand draws */
export function spreadOutcome(plan: SpreadPlan, rows: MarginRows, draws: number, weigh = true): SpreadOutcome {
  const { request, inputs, findings, notKnown, atBothEnds, exact } = plan;
  const columns = findings.map((_, f) => rows.map((row) => columnOf(row, f, findings.length, draws)));
  const weighed = Math.min(draws, MOST_WEIGHED);
  const values =
    draws < 64 || !weigh ? [] : rows.map((_, r) => drawnValues(plan, scrambleSeed(request.seed, r, 'draws'), weighed));
  const spreads = findings.map((finding, f) => spreadOf(finding, columns[f], draws));
  // Weighing all inputs on all findings would take longer than drawing them.
  const near = new Set(nearestToFailing(spreads, MOST_WEIGHED_FINDINGS).map(({ id }) => id));
  return {
    draws: draws * rows.length,
    asked: plan.drawsPerScramble * request.scrambles,
    scrambles: rows.length,
    seed: request.seed,
    inputs,
    atBothEnds,
    exact,
    chances: chancesOf(plan, columns, draws),
    findings: spreads.map((one, f) =>
      near.has(one.id) && values.length > 0
        ? {
            ...one,
            influences: influencesOf(
              plan,
              columns[f].map((column) => column.subarray(0, weighed)),
              values,
            ),
          }
        : one,
    ),
    notKnown: notKnown.map(({ id, title, missing }) => ({ id, title, missing })),
    remarks: remarksOn(plan),
  };
}

function columnOf(row: Float64Array, finding: number, width: number, draws: number): Float64Array {
  const column = new Float64Array(draws);
  for (let i = 0; i < draws; i++) column[i] = row[i * width + finding];
  return column;
}

function spreadOf(
  { id, title, question, marginUnit, wanted, margin }: SpreadFinding,
  columns: readonly Float64Array[],
  draws: number,
): FindingSpread {
  const hits = (isHit: (value: number) => boolean) =>
    shareAcrossScrambles(
      columns.map((column) => column.reduce((count, value) => count + (isHit(value) ? 1 : 0), 0)),
      draws,
    );
  const decided = decidedOf(columns);
  const all = draws * columns.length;
  const ordered = decided.length > 0 ? sorted(decided) : null;
  const moments = addToMoments(noMoments, decided);
  return {
    id,
    title,
    question,
    marginUnit,
    wanted,
    nominal: margin ?? NaN,
    failing: hits((value) => value < 0),
    thin: hits((value) => value >= 0 && value < wanted - 1e-9),
    undecided: all - decided.length,
    mean: ordered === null ? null : moments.mean,
    standardDeviation: standardDeviation(moments),
    interval: ordered === null || ordered.length < 40 ? null : coverageInterval(ordered, 0.95, 'shortest'),
    histogram: ordered === null ? null : histogram(ordered, 48),
    influences: [],
  };
}

function decidedOf(columns: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(columns.reduce((sum, { length }) => sum + length, 0));
  let count = 0;
  for (const column of columns) for (const margin of column) if (!Number.isNaN(margin)) all[count++] = margin;
  return all.subarray(0, count);
}

function influencesOf(
  { inputs }: SpreadPlan,
  columns: readonly Float64Array[],
  values: readonly Float64Array[],
): readonly Influence[] {
  const indices = oneRunIndices(columns.map((results, r) => ({ inputs: values[r], results })));
  if (indices === null) return [];
  return indices
    .map((share, i) => ({ path: inputs[i].path, share }))
    .filter(({ share }) => share.value >= LEAST_SHARE && share.value > 2 * (share.standardError ?? 0))
    .sort((a, b) => b.share.value - a.share.value)
    .slice(0, MOST_INFLUENCES);
}

const together: readonly { readonly name: Chance['name']; readonly words: string; readonly ids: readonly string[] }[] =
  [
    {
      name: 'full home',
      words: 'comes fully home',
      ids: ['pulls-in-from-full-stroke', 'pulls-in-everywhere', 'comes-home', 'end-switch'],
    },
    { name: 'return', words: 'goes back without current', ids: ['returns-from-every-gap', 'returns-from-home'] },
    { name: 'within class', words: 'coil stays within its class in hold', ids: ['class-in-hold'] },
  ];

const questions: Readonly<Record<Question, string>> = {
  stops: 'nothing fails that the stop rests on',
  runs: 'nothing fails that running again rests on',
  burns: 'nothing burns',
};

function chancesOf(
  { findings }: SpreadPlan,
  columns: readonly (readonly Float64Array[])[],
  draws: number,
): readonly Chance[] {
  const of = (name: Chance['name'], words: string, wanted: (finding: SpreadFinding) => boolean): Chance[] => {
    const at = findings.flatMap((finding, f) => (wanted(finding) ? [f] : []));
    if (at.length === 0) return [];
    let undecided = 0;
    const hits = (columns[0] ?? []).map((_, r) => {
      let holding = 0;
      for (let i = 0; i < draws; i++) {
        const isIn = (is: (margin: number) => boolean) => at.some((f) => is(columns[f][r][i]));
        if (isIn((margin) => margin < 0)) continue;
        if (isIn(Number.isNaN)) undecided += 1;
        else holding += 1;
      }
      return holding;
    });
    return [
      { name, words, chance: shareAcrossScrambles(hits, draws), findings: at.map((f) => findings[f].id), undecided },
    ];
  };
  return [
    ...together.flatMap(({ name, words, ids }) => of(name, words, ({ id }) => ids.includes(id))),
    ...(['stops', 'runs', 'burns'] as const).flatMap((question) =>
      of(question, questions[question], (finding) => finding.question === question),
    ),
  ];
}

function remarksOn({ inputs, atBothEnds }: SpreadPlan): readonly string[] {
  const remarks = [
    'Supply, warmth of the coil, friction of the joints and an engine that moves are not drawn: every draw must bear the worst of them.',
  ];
  if (inputs.every(({ from }) => from === 'instrument'))
    remarks.push('No ± is written anywhere: all of this spread comes from what usual instruments may be off.');
  if (atBothEnds.length > 0)
    remarks.push('The ± of a friction is taken at both of its ends in every draw, as in the assessment.');
  const cut = inputs.filter(({ cut: share }) => share > 0);
  if (cut.length > 0)
    remarks.push(
      `Draws were kept out of what cannot be (a length below zero) for ${cut.length} ${cut.length === 1 ? 'quantity' : 'quantities'}, at most ${(100 * Math.max(...cut.map(({ cut: share }) => share))).toPrecision(2)} % of one: ${cut.map(({ path }) => path).join(', ')}.`,
    );
  return remarks;
}
