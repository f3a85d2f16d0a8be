/** Holds the means side by side on one survey: each is put into the job and judged by the one assessment. */
import { change, type Change } from '../../job/change.ts';
import type { Job } from '../../job/schema.ts';
import { metricUnits, type DisplayUnits } from '../../units/quantity.ts';
import { assess } from '../assess.ts';
import { CAUTION, type Assessment, type Assumption } from '../finding.ts';
import { hasHandStop, togetherStates } from '../hand-stop/states.ts';
import { wordsIn, type Words } from '../words.ts';
import { askedOf } from './asked.ts';
import { cellsOf, emptyCells } from './cells.ts';
import type { MeansColumn, MeansComparison } from './comparison.ts';
import { recommend } from './recommend.ts';
import { usualCable } from './usual-cable.ts';
import { usualName, variantsOf, withMeans, type MeansKind, type Variant } from './variants.ts';

const kinds: readonly MeansKind[] = ['hand cable', 'solenoid', 'air cylinder'];

/**
 * Every means that the document describes; of a kind that it does not describe, the hand cable with starting values, and
 * for the others what would have to be described.
 */
export function compareMeans(job: Job, units: DisplayUnits = metricUnits): MeansComparison {
  const say = wordsIn(units);
  const described = variantsOf(job).map((variant) => columnOf(job, variant, units));
  const others = kinds
    .filter((kind) => described.every((column) => column.kind !== kind))
    .map((kind) => (kind === 'hand cable' ? startingCable(job, units) : undescribed(job, kind, say)));
  const columns = [...described, ...others];
  return {
    version: 1,
    job: job.name,
    asked: askedWords(job, say),
    columns,
    together: hasHandStop(job) ? togetherStates(job, assess, units) : null,
    recommended: recommend(columns),
    caution: CAUTION,
  };
}

function columnOf(job: Job, variant: Variant, units: DisplayUnits, told: readonly Assumption[] = []): MeansColumn {
  const assessment = assess(variant.job, units);
  const { kind } = variant.job.means;
  return {
    name: variant.name,
    kind,
    index: variant.index,
    origin: variant.origin,
    notPossible: noAirHere(variant.job),
    verdict: assessment.verdict,
    answers: assessment.answers,
    cells: cellsOf(variant.job, assessment, units),
    assumed: [...told, ...assumedOfMeans(assessment)],
    take: variant.origin === 'considered' ? takeChanges(job, variant.index!) : [],
  };
}

function startingCable(job: Job, units: DisplayUnits): MeansColumn {
  const { means, assumed } = usualCable(job);
  const variant: Variant = {
    name: usualName('hand cable'),
    index: null,
    origin: 'starting values',
    job: withMeans(job, { means, springs: [] }),
  };
  return { ...columnOf(job, variant, units, assumed), take: takeNew(job, means) };
}

function undescribed(job: Job, kind: MeansKind, say: Words): MeansColumn {
  const { force, travel, radius } = askedOf(job);
  const isKnown = Number.isFinite(force + travel);
  const must = isKnown
    ? `It must give ${say.force(force)} over ${say.length(travel)} at an arm of ${say.length(radius)}, and a quarter more to hold.`
    : 'What it must give rests on readings of the lever that have not been taken.';
  return {
    name: usualName(kind),
    kind,
    index: null,
    origin: 'not described',
    notPossible:
      kind === 'air cylinder' && job.survey.air === 'none'
        ? 'There is no compressed air here.'
        : `No ${kind} is described under other means. ${must}`,
    verdict: null,
    answers: [],
    cells: emptyCells(),
    assumed: [],
    take: [],
  };
}

function noAirHere({ means, survey }: Job): string | null {
  return means.kind === 'air cylinder' && survey.air === 'none' ? 'There is no compressed air here.' : null;
}

function askedWords(job: Job, say: Words): string {
  const { force, travel, radius } = askedOf(job);
  return Number.isFinite(force + travel)
    ? `The lever asks up to ${say.force(force)} at an arm of ${say.length(radius)}, over ${say.length(travel)} from run to no-fuel, with cold oil and the first movement counted.`
    : 'What the lever asks is not known: its effort has not been read.';
}

/** Defaults of the survey are the same in every column. */
function assumedOfMeans({ assumed }: Assessment): Assumption[] {
  return assumed.filter(({ path }) => /^(means|layout)\b/.test(path));
}

/** The means of row `index` becomes the chosen one, and the chosen one takes its row. */
function takeChanges(job: Job, index: number): Change[] {
  const considered = job.considered ?? [];
  const taken = considered[index];
  const kept = { name: usualName(job.means.kind), means: job.means, layout: job.layout, springs: job.return.springs };
  return [
    change(job, 'means', taken.means),
    ...(taken.layout === undefined ? [] : [change(job, 'layout', taken.layout)]),
    ...(taken.springs === undefined ? [] : [change(job, 'return', { springs: taken.springs })]),
    change(job, `considered[${index}]`, kept),
  ];
}

/** A means that stood nowhere becomes the chosen one, and the chosen one is kept among the others. */
function takeNew(job: Job, means: Job['means']): Change[] {
  const kept = { name: usualName(job.means.kind), means: job.means, layout: job.layout, springs: job.return.springs };
  return [change(job, 'means', means), change(job, 'considered', [...(job.considered ?? []), kept])];
}
