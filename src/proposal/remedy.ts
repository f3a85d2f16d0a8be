/**
 * The smallest single change that mends a finding, computed: every knob is turned, the whole installation is assessed at
 * each setting, and the first setting that lifts the finding to its wanted margin is narrowed down and rounded up to what
 * a fitter can set. A remedy says which other findings it worsens.
 */
import { assess, isTimed, timedFindings } from '../assessment/assess.ts';
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

/** The assessment with remedies on every finding that is thin or fails. Up to a second of work: not for a drag. */
export function withRemedies(job: Job, assessment: Assessment, units: DisplayUnits = metricUnits): Assessment {
  const ailing = assessment.findings.filter(({ verdict }) => verdict === 'fails' || verdict === 'thin');
  if (ailing.length === 0) return assessment;
  const trials = knobsOf(job, units).map((knob) => new Trials(job, knob));
  const readings = new Set(assessment.findings.flatMap(({ needs }) => needs));
  return {
    ...assessment,
    findings: assessment.findings.map((finding) =>
      ailing.includes(finding) ? { ...finding, remedies: remediesFor(assessment, finding, trials, readings) } : finding,
    ),
  };
}

export type Findings = ReadonlyMap<string, Finding>;

export const byId = (findings: readonly Finding[]): Findings =>
  new Map(findings.map((finding) => [finding.id, finding]));

/** A knob at its settings. Following heat and motion in time costs ten times the rest, so nothing is asked before it is wanted. */
class Trials {
  readonly knob: Knob;
  private readonly job: Job;
  private readonly settings = new Map<number, Setting | null>();
  private readonly known = new Map<string, Findings>();

  constructor(job: Job, knob: Knob) {
    this.job = job;
    this.knob = knob;
  }

  settingAt(amount: number): Setting | null {
    const known = this.settings.get(amount);
    if (known !== undefined) return known;
    const setting = this.knob.settingAt(amount);
    this.settings.set(amount, setting);
    return setting;
  }

  canBeKept(setting: Setting): boolean {
    return readDocument(apply(this.job, setting.changes)).ok;
  }

  /** How one finding comes out at a setting. */
  verdictOf(id: string, amount: number, setting: Setting): Verdict | undefined {
    return (isTimed(id) ? this.timed(id, amount, setting) : this.atRest(amount, setting)).get(id)?.verdict;
  }

  /** Every finding that does not follow heat or motion in time. */
  atRest(amount: number, setting: Setting): Findings {
    return this.remembered(
      `${amount}`,
      () => assess(apply(this.job, setting.changes), metricUnits, 'at rest').findings,
    );
  }

  /** Every finding. */
  whole(amount: number, setting: Setting): Findings {
    return this.remembered(`${amount} in time`, () => assess(apply(this.job, setting.changes)).findings);
  }

  private timed(id: string, amount: number, setting: Setting): Findings {
    return this.remembered(`${amount} ${id}`, () => timedFindings(apply(this.job, setting.changes), new Set([id])));
  }

  private remembered(key: string, reckon: () => readonly Finding[]): Findings {
    const known = this.known.get(key) ?? byId(reckon());
    this.known.set(key, known);
    return known;
  }
}

/** The smallest setting of a knob that mends a finding. */
interface Found {
  readonly trials: Trials;
  readonly amount: number;
  readonly setting: Setting;
  /** Findings at rest that come out short of what is wanted: the whole assessment can only add to them. */
  readonly harmAtRest: number;
}

function remediesFor(
  before: Assessment,
  finding: Finding,
  trials: readonly Trials[],
  readings: ReadonlySet<string>,
): Remedy[] {
  // Remedies that leave nothing else short of its wanted margin come first; the order of the knobs decides the rest.
  const found = trials
    .map((one) => smallest(before, finding, one, readings))
    .filter((one) => one !== null)
    .map((one, i) => ({ ...one, i }))
    .sort((a, b) => a.harmAtRest - b.harmAtRest || a.i - b.i);
  const kept: { readonly remedy: Remedy; readonly harm: number; readonly i: number }[] = [];
  for (const one of found) {
    if (kept.filter(({ harm }) => harm < one.harmAtRest).length >= MOST_REMEDIES) break;
    const remedy = remedyOf(before, finding.id, one);
    if (remedy !== null) kept.push({ remedy, harm: harmOf(remedy.worsens), i: one.i });
  }
  return kept
    .sort((a, b) => a.harm - b.harm || a.i - b.i)
    .slice(0, MOST_REMEDIES)
    .map(({ remedy }) => remedy);
}

const harmOf = (worsens: readonly Worsening[]): number => worsens.filter(({ to }) => to.verdict !== 'holds').length;

function smallest(before: Assessment, finding: Finding, trials: Trials, readings: ReadonlySet<string>): Found | null {
  const { ladder } = trials.knob;
  const mends = (amount: number): Setting | null => {
    const setting = trials.settingAt(amount);
    return setting !== null
      && mayConcern(finding, setting, readings)
      && trials.verdictOf(finding.id, amount, setting) === 'holds'
      ? setting
      : null;
  };
  const rows = ladder.filter((amount) => trials.settingAt(amount) !== null);
  const first = rows.findIndex((amount) => mends(amount) !== null);
  if (first < 0) return null;
  const amount = narrowed(trials.knob, mends, first === 0 ? 0 : rows[first - 1], rows[first]);
  const setting = trials.settingAt(amount)!;
  const harmAtRest = harmOf(worsened(before, trials.atRest(amount, setting), finding.id));
  return { trials, amount, setting, harmAtRest };
}

const isOfHandStop = (path: string): boolean => path === 'handStop' || path.startsWith('handStop.');

/**
 * A reading that other findings rest on, and this one does not, cannot mend it; nor can anything of the hand stop's cable mend
 * what rests on none of its readings.
 */
function mayConcern({ needs }: Finding, { changes }: Setting, readings: ReadonlySet<string>): boolean {
  if (changes.every(({ path }) => isOfHandStop(path)) && !needs.some(isOfHandStop)) return false;
  return changes.some(({ path }) => !readings.has(path) || needs.includes(path));
}

/** Halves the step between a setting that does not mend and one that does, then rounds up to what can be set. */
function narrowed(knob: Knob, mends: (amount: number) => Setting | null, from: number, good: number): number {
  if (knob.step === 0) return good;
  let low = from;
  let best = good;
  for (let i = 0; i < HALVINGS && best - low > knob.step; i++) {
    const middle = (low + best) / 2;
    if (mends(middle) === null) low = middle;
    else best = middle;
  }
  const steps = Math.ceil(best / knob.step - 1e-9);
  for (const candidate of [steps, steps + 1]) {
    const settable = Number((candidate * knob.step).toPrecision(6));
    if (mends(settable) !== null) return settable;
  }
  return best;
}

/** Null where the changed document could not be kept. */
function remedyOf(before: Assessment, id: string, { trials, amount, setting }: Found): Remedy | null {
  if (!trials.canBeKept(setting)) return null;
  const findings = trials.whole(amount, setting);
  const marginAfter = findings.get(id)?.margin;
  if (marginAfter === undefined || marginAfter === null) return null;
  return { words: setting.words, changes: setting.changes, marginAfter, worsens: worsened(before, findings, id) };
}

/** A loss of a hundredth of the wanted margin counts as worse; a verdict that drops always does. */
const WORTH_NAMING = 0.01;
const rank: Record<Verdict, number> = { holds: 3, thin: 2, 'not known': 1, fails: 0 };

export function worsened(before: Pick<Assessment, 'findings'>, after: Findings, mended: string): Worsening[] {
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
