/**
 * What a search has to offer, at any moment of it: a handful of really different answers, the one nearest to what is
 * there, and, where nothing works, what closes the space. Everything offered has been assessed in time; the margins it
 * claims are those of that assessment, digit for digit.
 */
import { assess, isSolenoid, isTimed } from '../../assessment/assess.ts';
import { CAUTION, relativeMargin, type Finding, type Verdict, type Worsening } from '../../assessment/finding.ts';
import { apply, type Change } from '../../job/change.ts';
import { readDocument } from '../../job/read.ts';
import { metricUnits, type DisplayUnits } from '../../units/quantity.ts';
import { byId, withRemedies, worsened } from '../remedy.ts';
import { closedOf, type Closed } from './closed.ts';
import { costOf } from './cost.ts';
import { hangsOnLayout } from './judge.ts';
import { changesOf, isAllowed, type Problem, type Rated } from './problem.ts';
import { bestOf, ratedOf, type Run } from './run-state.ts';
import { toLookAt } from './run.ts';
import { SAME_HOLE } from './starts.ts';
import { layoutWords, nameOf } from './words.ts';
import { specificationRows } from '../drawer-words.ts';
import type { SpringSetting } from './spring-choices.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';

export interface Margin {
  readonly id: string;
  readonly title: string;
  readonly verdict: Verdict;
  readonly margin: number | null;
  readonly marginUnit: string;
  readonly wanted: number;
}

export interface Offer {
  /** "Pinned link, arm hole 48 mm". */
  readonly name: string;
  readonly words: readonly string[];
  readonly changes: readonly Change[];
  readonly verdict: Verdict;
  /** Smallest margin as a share of what is wanted, over the findings that a layout moves; null where none is known. */
  readonly value: number | null;
  /** The finding that decides it. */
  readonly deciding: Margin | null;
  readonly margins: readonly Margin[];
  /** Points of work, common practice. */
  readonly cost: number;
  /** Findings that come out worse than they are. */
  readonly givesUp: readonly Worsening[];
  /** What a spring-maker must be told, line by line; null where no spring is to be ordered. */
  readonly order: readonly (readonly [string, string])[] | null;
}

export interface SingleChange {
  readonly id: string;
  readonly title: string;
  readonly verdict: Verdict;
  /** The smallest single change that mends it; null where none of those that are known does. */
  readonly words: string | null;
  readonly changes: readonly Change[];
  readonly worsens: readonly Worsening[];
}

export interface Proposals {
  readonly format: 'stopwright proposals';
  readonly version: 1;
  readonly job: string;
  readonly seed: number;
  /** False where it was stopped before the end: the best so far. */
  readonly finished: boolean;
  readonly counts: {
    readonly combinations: number;
    readonly lookedAt: number;
    readonly placed: number;
    readonly forced: number;
    readonly assessed: number;
  };
  /** Limits that the job does not state. */
  readonly assumed: readonly string[];
  readonly before: { readonly verdict: Verdict; readonly value: number | null; readonly deciding: Margin | null };
  readonly offers: readonly Offer[];
  readonly nearest: Offer | null;
  /** Why there is no nearest answer, in words; null where there is one. */
  readonly noNearest: string | null;
  readonly singles: readonly SingleChange[];
  /** Failing findings that no layout moves. */
  readonly untouched: readonly Margin[];
  /** Null where something works, or where the search has not come so far. */
  readonly closed: Closed | null;
  readonly caution: string;
}

/** Smallest margins that differ by less are taken as equal: then cost decides. */
const AS_GOOD = 0.1;
const MOST_ASSESSED_IN_TIME = 120;
/** Beyond three times what is wanted more is no better. */
const ENOUGH = 3;

export function proposalsOf(problem: Problem, run: Run, most = 5, units: DisplayUnits = metricUnits): Proposals {
  const { job, judge, space, seed } = problem;
  const whole = assess(job, units);
  const offers = different(problem, ratedOf(run), most, (rated) =>
    offerOf(
      problem,
      whole.findings,
      changesOf(problem, rated),
      settingWords(problem, rated),
      units,
      springOf(problem, rated).order,
    ),
  ).sort(better);
  const nearest = nearestOf(problem, run, whole.findings, offers, units);
  const deciding = judge.decidingOf(judge.before);
  const best = bestOf(run);
  return {
    format: 'stopwright proposals',
    version: 1,
    job: job.name,
    seed,
    finished: run.phase === 'done',
    counts: {
      combinations: toLookAt(problem),
      lookedAt: run.lookedAt,
      placed: run.placed,
      forced: run.forced,
      assessed: run.assessed,
    },
    assumed: space.assumed,
    before: {
      verdict: whole.verdict,
      value: finite(judge.valueOf(judge.before)),
      deciding: deciding && marginOf(deciding),
    },
    offers,
    nearest,
    noNearest: nearest !== null ? null : noNearest(problem, run),
    singles: singlesOf(job, units),
    untouched: whole.findings.filter((one) => one.verdict !== 'holds' && !hangsOnLayout(one)).map(marginOf),
    closed: run.phase === 'done' && (best === null || best.value < 0) ? closedOf(problem, run, best) : null,
    caution: CAUTION,
  };
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

function marginOf({ id, title, verdict, margin, marginUnit, wanted }: Finding): Margin {
  return { id, title, verdict, margin, marginUnit, wanted };
}

/** Good enough, then cheap, then good. */
function better(a: Offer, b: Offer): number {
  return rankOf(b) - rankOf(a) || a.cost - b.cost || (b.value ?? -Infinity) - (a.value ?? -Infinity);
}

function rankOf({ value }: Pick<Offer, 'value'>): number {
  return value === null ? -Infinity : Math.floor(Math.min(ENOUGH, value) / AS_GOOD + 1e-9);
}

/**
 * The best of each kind of connection first, then further arm holes of each; no two alike in both. One that would make a
 * finding unknown, or fail in time, gives way to the next; where all do, the best stands as it is.
 */
function different(
  problem: Problem,
  rated: readonly Rated[],
  most: number,
  offerFor: (rated: Rated) => Offer | null,
): Offer[] {
  const works = rated.filter(({ value }) => value >= 0);
  const known = (works.length > 0 ? works : rated.filter(({ value }) => Number.isFinite(value)).slice(0, 1))
    .map((one) => ({ one, value: one.value, changes: changesOf(problem, one) }))
    // What is there is no proposal.
    .filter(({ changes }) => changes.length > 0)
    .map((all) => ({ ...all, cost: costOf(all.changes, springOf(problem, all.one).order !== undefined) }))
    .sort((a, b) => rankOf(b) - rankOf(a) || a.cost - b.cost || b.value - a.value)
    .map(({ one }) => one);
  const offers = new Map<Rated, Offer | null>();
  const offered = (one: Rated): Offer | null => {
    if (!offers.has(one)) offers.set(one, offers.size < MOST_ASSESSED_IN_TIME ? offerFor(one) : null);
    return offers.get(one) ?? null;
  };
  const choose = (isGood: (offer: Offer) => boolean): Offer[] => {
    const chosen: { readonly one: Rated; readonly offer: Offer }[] = [];
    for (let ofAKind = 1; ofAKind <= most && chosen.length < most; ofAKind++) {
      for (const one of known) {
        if (chosen.length >= most) break;
        const alike = chosen.filter(({ one: { layout } }) => layout.kind === one.layout.kind);
        if (alike.length >= ofAKind) continue;
        if (alike.some(({ one: { layout } }) => Math.abs(layout.radius - one.layout.radius) < SAME_HOLE)) continue;
        const offer = offered(one);
        if (offer === null || !isGood(offer)) continue;
        // Arms that differ may still be made alike: a slot is cut to whole millimetres.
        if (alike.some(({ offer: { name } }) => name === offer.name)) continue;
        chosen.push({ one, offer });
      }
    }
    return chosen.map(({ offer }) => offer);
  };
  const sound = choose(({ givesUp }) =>
    givesUp.every(({ to }) => to.verdict !== 'not known' && to.verdict !== 'fails'),
  );
  return sound.length > 0 ? sound : choose(() => true);
}

const springOf = ({ springs }: Problem, { spring, fitted }: Rated): SpringSetting => fitted ?? springs[spring];

function settingWords(problem: Problem, rated: Rated): string[] {
  return [springOf(problem, rated).words, problem.electrics[rated.electric].words].filter((words) => words !== '');
}

/** Null where the changed document could not be kept, or leaves the space. */
function offerOf(
  problem: Problem,
  before: readonly Finding[],
  changes: readonly Change[],
  ownWords: readonly string[],
  units: DisplayUnits,
  order?: SpringSetting['order'],
): Offer | null {
  const read = readDocument(apply(problem.job, changes));
  if (!read.ok || !isSolenoid(read.job) || !isAllowed(problem, read.job)) return null;
  const after: SolenoidJob = read.job;
  const { verdict, findings } = assess(after, units);
  const deciding = problem.judge.decidingOf(findings.filter((one) => isAsked(one, before)));
  const words = [...layoutWords(after, changes, units), ...ownWords];
  return {
    name: changes.length === 0 ? 'As it is' : nameOf(after, units),
    words,
    changes,
    verdict,
    value: deciding === null ? null : finite(problem.judge.marginOf(deciding) ?? Infinity),
    deciding: deciding && marginOf(deciding),
    margins: findings.map(marginOf),
    cost: costOf(changes, order !== undefined),
    givesUp: worsened({ findings: before }, byId(findings), ''),
    order: order === undefined ? null : specificationRows(order, units),
  };
}

/** A finding in time that comes out no worse says nothing of the layout: the fuse, above all. */
function isAsked(finding: Finding, before: readonly Finding[]): boolean {
  if (!isTimed(finding.id)) return true;
  const was = before.find(({ id }) => id === finding.id);
  return (
    finding.verdict !== 'not known'
    && (was === undefined || relativeMargin(finding) < relativeMargin(was) - SAME_MARGIN)
  );
}

/** Margins of a course followed in time repeat to about this much. */
const SAME_MARGIN = 1e-3;

/** The cheapest of what mends everything: one or two changes, else one of the offers. */
function nearestOf(
  problem: Problem,
  run: Run,
  before: readonly Finding[],
  offers: readonly Offer[],
  units: DisplayUnits,
): Offer | null {
  if (problem.judge.valueOf(problem.judge.before) >= 1 - 1e-9) return null;
  const near = run.nearest;
  const few = near === null ? null : offerOf(problem, before, near.changes, [], units, near.order);
  const candidates = [
    ...(few === null || near === null ? [] : [{ ...few, words: near.words }]),
    ...offers.filter(({ value }) => value !== null && value >= 1 - 1e-9),
  ];
  return candidates.reduce<Offer | null>((best, one) => (best === null || one.cost < best.cost ? one : best), null);
}

function noNearest({ judge }: Problem, { phase }: Run): string {
  if (judge.valueOf(judge.before) >= 1 - 1e-9)
    return 'What is there has every wanted margin that a layout decides: nothing needs to change.';
  return phase === 'done' || phase === 'closing'
    ? 'Nothing in the space that is allowed reaches every wanted margin.'
    : 'The search was stopped before it came to this.';
}

function singlesOf(job: SolenoidJob, units: DisplayUnits): SingleChange[] {
  return withRemedies(job, assess(job, units), units)
    .findings.filter(({ verdict }) => verdict === 'fails' || verdict === 'thin')
    .map(({ id, title, verdict, remedies: [first] }) => ({
      id,
      title,
      verdict,
      words: first?.words ?? null,
      changes: first?.changes ?? [],
      worsens: first?.worsens ?? [],
    }));
}
