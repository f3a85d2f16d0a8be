/** A study as the panel shows it: sentences and sheets. */
import { nearestToFailing } from '../../assessment/spread/influence.ts';
import type { SpreadOutcome } from '../../assessment/spread/outcome.ts';
import type { SpreadProblem } from '../../assessment/spread/request.ts';
import type { SpreadStudy } from '../../assessment/spread/study.ts';
import { chanceErrorWords, chanceWords, tighteningWords } from '../../assessment/spread/words.ts';
import { drawHistograms } from '../../sheets/spread/histograms.ts';
import { drawInfluences } from '../../sheets/spread/influences.ts';
import { svgTree, type SvgNode } from '../../sheets/svg.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { placeName as fieldName } from '../survey/labels.ts';

export interface SpreadView {
  readonly problems: readonly SpreadProblem[];
  readonly draws: number;
  readonly asked: number;
  readonly quantities: { readonly written: number; readonly byInstrument: number; readonly exact: number };
  readonly chances: readonly { readonly name: string; readonly words: string; readonly chance: string }[];
  /** Findings that fail or are thin in some draws, worst first. */
  readonly atRisk: readonly { readonly id: string; readonly title: string; readonly words: string }[];
  readonly held: number;
  readonly notKnown: readonly { readonly title: string; readonly missing: readonly string[] }[];
  readonly histograms: SvgNode | null;
  readonly influences: readonly SvgNode[];
  readonly tightening: readonly { readonly title: string; readonly lines: readonly string[] }[];
  readonly remarks: readonly string[];
}

/** Several tables of pulls have the same rows, so the table is named first. */
function placeName(path: string): string {
  const table = /^means\.force\[(\d+)\]/.exec(path);
  const name = fieldName(path);
  return table === null ? name : `Pull table ${Number(table[1]) + 1}, ${name.charAt(0).toLowerCase()}${name.slice(1)}`;
}

const MOST_HISTOGRAMS = 4;
const MOST_BARS = 6;
const LEAST_SHOWN = 0.02;

export function refused(problems: readonly SpreadProblem[]): SpreadView {
  return {
    problems,
    draws: 0,
    asked: 0,
    quantities: { written: 0, byInstrument: 0, exact: 0 },
    chances: [],
    atRisk: [],
    held: 0,
    notKnown: [],
    histograms: null,
    influences: [],
    tightening: [],
    remarks: [],
  };
}

export function viewOf(
  outcome: SpreadOutcome,
  study: Pick<SpreadStudy, 'sensitivity' | 'tightening'> | null,
  width: number,
  units: DisplayUnits,
): SpreadView {
  const atRisk = outcome.findings
    .filter(({ failing, thin }) => failing.value + thin.value > 0)
    .sort((a, b) => b.failing.value - a.failing.value || b.thin.value - a.thin.value);
  const nearest = nearestToFailing(outcome.findings, MOST_HISTOGRAMS);
  const written = outcome.inputs.filter(({ from }) => from === 'written').length;
  const titleOf = (id: string) => outcome.findings.find((one) => one.id === id)?.title ?? id;
  return {
    problems: [],
    draws: outcome.draws,
    asked: outcome.asked,
    quantities: { written, byInstrument: outcome.inputs.length - written, exact: outcome.exact },
    chances: outcome.chances
      .filter(({ name }) => name === 'full home' || name === 'return' || name === 'within class')
      .map(({ name, words, chance }) => ({
        name,
        words,
        chance: `${chanceWords(chance)}${chanceErrorWords(chance)}`,
      })),
    atRisk: atRisk.map(({ id, title, failing, thin }) => ({
      id,
      title,
      words: `fails ${chanceWords(failing)}, thin ${chanceWords(thin)}`,
    })),
    held: outcome.findings.length - atRisk.length,
    notKnown: outcome.notKnown.map(({ title, missing }) => ({ title, missing })),
    histograms:
      nearest.length === 0 ? null : svgTree(drawHistograms(nearest, { width }), { idPrefix: 'spread-histograms-' }),
    influences: influenceSheets(outcome, study, width, titleOf),
    tightening: (study?.tightening ?? []).map(({ finding, options }) => ({
      title: titleOf(finding),
      lines: options.map((option) => tighteningWords(option, outcome.inputs, placeName, units)),
    })),
    remarks: outcome.remarks.map((remark) =>
      outcome.inputs.reduce((words, { path }) => words.replaceAll(path, placeName(path)), remark),
    ),
  };
}

/** From the whole study where there is one, else from the draws that are there. */
function influenceSheets(
  outcome: SpreadOutcome,
  study: Pick<SpreadStudy, 'sensitivity'> | null,
  width: number,
  titleOf: (id: string) => string,
): SvgNode[] {
  const rows =
    study?.sensitivity?.findings.map(({ id, factors }) => ({
      id,
      bars: (factors ?? []).map(({ paths, total }) => ({ words: paths.map(placeName).join(', '), share: total })),
    }))
    ?? nearestToFailing(outcome.findings, 2).map(({ id, influences }) => ({
      id,
      bars: influences.map(({ path, share }) => ({ words: placeName(path), share })),
    }));
  return rows.map(({ id, bars }, i) =>
    svgTree(
      drawInfluences(titleOf(id), bars.filter(({ share }) => share.value >= LEAST_SHOWN).slice(0, MOST_BARS), {
        width,
      }),
      { idPrefix: `spread-influences-${i}-` },
    ),
  );
}
