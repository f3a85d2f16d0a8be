/**
 * The smallest single change that mends a finding, computed: every knob is turned, the whole installation is assessed at
 * each setting, and the first setting that lifts the finding to its wanted margin is narrowed down and rounded up to what
 * a fitter can set. A remedy says which other findings it worsens.
 */
import { assess, isTimed, type Reach } from '../assessment/assess.ts';
import {
  relativeMargin,
  type Assessment,
  type Finding,
  type Remedy,
  type Verdict,
  type Worsening,
} from '../assessment/finding.ts';
import { apply } from '../job/change.ts';
import { readDocument } from '../job/read.ts';
import type { Job } from '../job/schema.ts';
import { metricUnits, type DisplayUnits } from '../units/quantity.ts';
import type { Knob, Setting } from './knobs/knob.ts';
import { knobsOf } from './knobs.ts';

/** How many remedies a finding keeps. */
const MOST_REMEDIES = 4;
const HALVINGS = 5;

/** The assessment with remedies on every finding that is thin or fails. Some 0.2 s of work: not for a drag. */
export function withRemedies(job: Job, assessment: Assessment, units: DisplayUnits = metricUnits): Assessment {
  const ailing = assessment.findings.filter(({ verdict }) => verdict === 'fails' || verdict === 'thin');
  if (ailing.length === 0) return assessment;
  // Following heat and motion in time costs ten times as much as the rest: only where a finding asks for it.
  const reach: Reach = ailing.some(({ id }) => isTimed(id)) ? 'in time' : 'at rest';
  const knobs = knobsOf(job, units);
  const trials = knobs.map((knob) => tryOut(job, knob, reach));
  return {
    ...assessment,
    findings: assessment.findings.map((finding) =>
      ailing.includes(finding)
        ? { ...finding, remedies: remediesFor(job, assessment, finding, trials, reach) }
        : finding,
    ),
  };
}

/** One setting of a knob, and what the whole installation is then like. */
interface Trial {
  readonly amount: number;
  readonly setting: Setting;
  readonly findings: ReadonlyMap<string, Finding>;
}

interface Trials {
  readonly knob: Knob;
  readonly rows: readonly Trial[];
}

function tryOut(job: Job, knob: Knob, reach: Reach): Trials {
  return { knob, rows: knob.ladder.map((amount) => trial(job, knob, amount, reach)).filter((one) => one !== null) };
}

function trial(job: Job, knob: Knob, amount: number, reach: Reach): Trial | null {
  const setting = knob.settingAt(amount);
  if (setting === null) return null;
  const { findings } = assess(apply(job, setting.changes), metricUnits, reach);
  return { amount, setting, findings: new Map(findings.map((finding) => [finding.id, finding])) };
}

function mends(id: string, one: Trial): boolean {
  return one.findings.get(id)?.verdict === 'holds';
}

function remediesFor(
  job: Job,
  before: Assessment,
  finding: Finding,
  trials: readonly Trials[],
  reach: Reach,
): Remedy[] {
  const found = trials.flatMap(({ knob, rows }) => {
    const first = rows.findIndex((row) => mends(finding.id, row));
    if (first < 0) return [];
    const smallest = narrowed(job, finding.id, knob, first === 0 ? 0 : rows[first - 1].amount, rows[first], reach);
    const remedy = remedyOf(job, before, finding.id, smallest);
    return remedy === null ? [] : [remedy];
  });
  // Remedies that leave nothing else short of its wanted margin come first; the order of the knobs decides the rest.
  return found
    .map((remedy, i) => ({ remedy, i, harm: remedy.worsens.filter(({ to }) => to.verdict !== 'holds').length }))
    .sort((a, b) => a.harm - b.harm || a.i - b.i)
    .slice(0, MOST_REMEDIES)
    .map(({ remedy }) => remedy);
}

/** Halves the step between a setting that does not mend and one that does, then rounds up to what can be set. */
function narrowed(job: Job, id: string, knob: Knob, from: number, good: Trial, reach: Reach): Trial {
  if (knob.step === 0) return good;
  let low = from;
  let best = good;
  for (let i = 0; i < HALVINGS && best.amount - low > knob.step; i++) {
    const middle = trial(job, knob, (low + best.amount) / 2, reach);
    if (middle !== null && mends(id, middle)) best = middle;
    else low = (low + best.amount) / 2;
  }
  const steps = Math.ceil(best.amount / knob.step - 1e-9);
  for (const candidate of [steps, steps + 1]) {
    const settable = trial(job, knob, Number((candidate * knob.step).toPrecision(6)), reach);
    if (settable !== null && mends(id, settable)) return settable;
  }
  return best;
}

/** Null where the changed document could not be kept. */
function remedyOf(job: Job, before: Assessment, id: string, { setting, findings }: Trial): Remedy | null {
  if (!readDocument(apply(job, setting.changes)).ok) return null;
  const marginAfter = findings.get(id)?.margin;
  if (marginAfter === undefined || marginAfter === null) return null;
  return { words: setting.words, changes: setting.changes, marginAfter, worsens: worsened(before, findings, id) };
}

/** A loss of a hundredth of the wanted margin counts as worse; a verdict that drops always does. */
const WORTH_NAMING = 0.01;
const rank: Record<Verdict, number> = { holds: 3, thin: 2, 'not known': 1, fails: 0 };

function worsened(before: Assessment, after: ReadonlyMap<string, Finding>, mended: string): Worsening[] {
  return [...after.values()].flatMap((now) => {
    const then = before.findings.find(({ id }) => id === now.id);
    const from =
      then === undefined ? { verdict: 'holds' as const, margin: null } : { verdict: then.verdict, margin: then.margin };
    const isWorse =
      now.id !== mended
      && (rank[now.verdict] < rank[from.verdict]
        || (then !== undefined
          && then.margin !== null
          && now.margin !== null
          && relativeMargin(then) - relativeMargin(now) > WORTH_NAMING));
    return isWorse ? [{ id: now.id, title: now.title, from, to: { verdict: now.verdict, margin: now.margin } }] : [];
  });
}
