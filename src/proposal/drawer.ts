/**
 * Which springs of a drawer fit an installation, and how to mount each: every spring in every mount is screened against the
 * window, none is left out; every one that fits is assessed at rest, the best of them in all.
 */
import { assess } from '../assessment/assess.ts';
import { relativeMargin, type Assessment, type Finding, type Verdict } from '../assessment/finding.ts';
import type { SolenoidJob } from '../assessment/rig.ts';
import { windowChecks, type SpringWindow, type WindowQuestion } from '../assessment/window/kinds.ts';
import { apply, type Change } from '../job/change.ts';
import type { Drawer, DrawerSpring } from '../job/drawer/schema.ts';
import { readDocument } from '../job/read.ts';
import { metricUnits, type DisplayUnits } from '../units/quantity.ts';
import type { Mount, Target } from './drawer-mount.ts';
import { fitted, springIn, targetsOf } from './drawer-mounts.ts';
import { rowsOf, screen, type Closing, type Screened } from './drawer-screen.ts';

/** A margin of a fit, as `assess` gives it. */
export interface FitMargin {
  readonly id: string;
  readonly title: string;
  readonly verdict: Verdict;
  readonly margin: number | null;
  readonly marginUnit: string;
  readonly wanted: number;
}

/** A spring that fits, in its best mount. */
export interface Fit {
  /** Index in the drawer's list. */
  readonly spring: number;
  readonly name: string;
  readonly mount: Mount;
  readonly changes: readonly Change[];
  /** The smallest margin over its wanted one among the findings that a spring decides: 1 is just enough. */
  readonly least: number;
  readonly decidedBy: string;
  readonly margins: readonly FitMargin[];
  /** Findings that come out with a worse verdict than with the present spring. */
  readonly worsens: readonly {
    readonly id: string;
    readonly title: string;
    readonly from: Verdict;
    readonly to: Verdict;
  }[];
  /** Verdict on the whole installation with it; at rest only where heat and motion were not followed. */
  readonly verdict: Verdict;
  readonly isWhole: boolean;
}

/** A spring that does not, and what comes nearest to being right. */
export interface Misfit {
  readonly spring: number;
  readonly name: string;
  readonly mount: Mount | null;
  /** The smallest margin over the wanted one, minus one, in the mount that comes nearest; null where it cannot be said. */
  readonly short: number | null;
  readonly closing: Closing;
}

export interface Fitting {
  readonly targets: readonly {
    readonly question: WindowQuestion;
    readonly window: SpringWindow;
    readonly mounts: number;
  }[];
  readonly springs: number;
  readonly screened: number;
  /** The best first, as many as were assessed. */
  readonly fits: readonly Fit[];
  /** How many more pass the screen, none of them with a greater least margin than the last of those assessed. */
  readonly furtherFits: number;
  /** The nearest first. */
  readonly misfits: readonly Misfit[];
  readonly isComplete: boolean;
}

export interface FittingProgress {
  readonly stage: 'screening' | 'assessing';
  readonly done: number;
  readonly of: number;
  /** What is known so far, ranked. */
  readonly soFar: () => Fitting;
}

/** How many of the best are shown, and how many of those followed in time too. */
const SHOWN = 30;
const SHOWN_SO_FAR = 10;
const WHOLE = 8;
const BLOCK = 250;

/** All at once. */
export function fitting(job: SolenoidJob, drawer: Drawer, question: WindowQuestion | null = null): Fitting {
  const steps = fittingSteps(job, drawer, question);
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}

interface Candidate {
  readonly spring: number;
  readonly target: number;
  readonly screened: Screened;
}

/** Block by block, so that a caller may show how far it is, and stop with the best so far. */
export function* fittingSteps(
  job: SolenoidJob,
  drawer: Drawer,
  question: WindowQuestion | null = null,
  units: DisplayUnits = metricUnits,
): Generator<FittingProgress, Fitting> {
  const targets = targetsOf(job, drawer, question);
  const rows = targets.map(rowsOf);
  const before = assess(job, units);
  const best: (Candidate | null)[] = [];
  const fits: Fit[] = [];
  const outside: Misfit[] = [];
  let further = 0;
  const soFar = (isComplete: boolean, known: readonly Fit[] = fits): Fitting => ({
    targets: targets.map((one) => ({ question: one.question, window: one.window, mounts: one.mounts.length })),
    springs: drawer.springs.length,
    screened: best.length,
    fits: [...known].sort(byMargin),
    furtherFits: further,
    misfits: [...outside, ...misfitsOf(drawer, targets, best)].sort(byShortness),
    isComplete,
  });
  const atRest = (one: Candidate) => fitOf(job, drawer, targets, one, before, 'at rest', units);
  /** While the screen still runs: the best that it has let through, assessed only when somebody asks. */
  const screenedSoFar = (): Fitting => {
    const through = fittingOnes(best);
    const known = through
      .slice(0, SHOWN_SO_FAR)
      .map(atRest)
      .filter((one) => one !== null)
      .filter(isEnough);
    return { ...soFar(false, known), furtherFits: Math.max(0, through.length - SHOWN_SO_FAR) };
  };
  for (let i = 0; i < drawer.springs.length; i++) {
    best.push(bestOf(drawer, targets, rows, i));
    if ((i + 1) % BLOCK === 0)
      yield { stage: 'screening', done: i + 1, of: drawer.springs.length, soFar: screenedSoFar };
  }
  const candidates = fittingOnes(best);
  // What the screen says is the most that an assessment can find: other findings only take from it. So once enough are known
  // to be no worse than the next can be, the rest need no assessing.
  for (const [i, one] of candidates.entries()) {
    const most = one.screened.score + 1;
    if (fits.length >= SHOWN && fits.filter(({ least }) => least >= most).length >= SHOWN) {
      further = candidates.length - i;
      break;
    }
    const fit = atRest(one);
    if (fit !== null && isEnough(fit)) fits.push(fit);
    else if (fit !== null) outside.push(shortOf(fit));
    further = candidates.length - i - 1;
    if (i % 50 === 49) yield { stage: 'assessing', done: i + 1, of: candidates.length, soFar: () => soFar(false) };
  }
  fits.sort(byMargin);
  for (let i = 0; i < Math.min(WHOLE, fits.length); i++) {
    const candidate = candidates.find(({ spring }) => spring === fits[i].spring)!;
    fits[i] = fitOf(job, drawer, targets, candidate, before, 'in time', units) ?? fits[i];
    yield { stage: 'assessing', done: candidates.length, of: candidates.length, soFar: () => soFar(false) };
  }
  return soFar(true);
}

/** Those that pass the screen, the best first. */
function fittingOnes(best: readonly (Candidate | null)[]): Candidate[] {
  return best
    .filter((one) => one !== null)
    .filter(({ screened }) => screened.fits)
    .sort((a, b) => b.screened.score - a.screened.score || a.spring - b.spring);
}

/** A wanted margin met to the last digits counts as met. */
const isEnough = ({ least }: Fit) => least >= 1 - 1e-6;

const rank: Record<Verdict, number> = { holds: 3, thin: 2, 'not known': 1, fails: 0 };

/** The screen knows the window; another finding that the spring decides may still come out short. */
function shortOf({ spring, name, mount, least, decidedBy, margins }: Fit): Misfit {
  const title = margins.find(({ id }) => id === decidedBy)?.title ?? decidedBy;
  return {
    spring,
    name,
    mount,
    short: Number.isFinite(least) ? least - 1 : null,
    closing: { by: 'finding', id: decidedBy, title },
  };
}

const byShortness = (a: Misfit, b: Misfit) => (b.short ?? -Infinity) - (a.short ?? -Infinity) || a.spring - b.spring;
const byMargin = (a: Fit, b: Fit) => b.least - a.least || a.spring - b.spring;

function bestOf(
  drawer: Drawer,
  targets: readonly Target[],
  rows: readonly ReturnType<typeof rowsOf>[],
  i: number,
): Candidate | null {
  const spring = drawer.springs[i];
  let best: Candidate | null = null;
  targets.forEach((target, t) => {
    const { on } = target.question;
    if (!mayServe(spring, on)) return;
    const screened = screen(target, rows[t], springIn(spring, on));
    if (best === null || screened.score > best.screened.score) best = { spring: i, target: t, screened };
  });
  return best;
}

/** Whether a spring of its kind has a place there. */
export function mayServe({ kind }: DrawerSpring, on: Mount['on']): boolean {
  if (kind === 'torsion' || on === 'shaft') return kind === 'torsion' && on === 'shaft';
  return on === 'lever' || kind === 'compression';
}

function fitOf(
  job: SolenoidJob,
  drawer: Drawer,
  targets: readonly Target[],
  { spring, target, screened }: Candidate,
  before: Assessment,
  reach: 'at rest' | 'in time',
  units: DisplayUnits,
): Fit | null {
  const mount = targets[target].mounts[screened.mount];
  const one = fitted(job, drawer.springs[spring], mount);
  if (one === null) return null;
  const fit = assessedFit(job, [one], mount.index ?? job.return.springs.length, before, reach, units);
  return fit === null ? null : { spring, name: drawer.springs[spring].name, mount, ...fit };
}

/** Findings that a return spring decides. */
const decidedBySprings: ReadonlySet<string> = new Set([...windowChecks, 'full-current-ends', 'side-load']);

export type AssessedFit = Omit<Fit, 'spring' | 'name' | 'mount'>;

/** A job with a change of spring, assessed: null where the changed document could not be kept. */
export function assessedFit(
  job: SolenoidJob,
  changes: readonly Change[],
  index: number,
  before: Assessment,
  reach: 'at rest' | 'in time',
  units: DisplayUnits,
): AssessedFit | null {
  const changed = apply(job, changes);
  if (reach === 'in time' && !readDocument(changed).ok) return null;
  const after = assess(changed, units, reach);
  const own = after.findings.filter(({ id }) => decidedBySprings.has(id) || id === `spring-${index + 1}`);
  const least = own.reduce((worst, one) => (relativeMargin(one) < relativeMargin(worst) ? one : worst));
  return {
    changes,
    least: relativeMargin(least),
    decidedBy: least.id,
    margins: own.map(marginOf),
    worsens: after.findings.flatMap(({ id, title, verdict }) => {
      const then = before.findings.find((one) => one.id === id);
      const isWorse = then !== undefined && rank[verdict] < rank[then.verdict];
      return isWorse ? [{ id, title, from: then.verdict, to: verdict }] : [];
    }),
    verdict: after.verdict,
    isWhole: reach === 'in time',
  };
}

const marginOf = ({ id, title, verdict, margin, marginUnit, wanted }: Finding): FitMargin => ({ id, title, verdict, margin, marginUnit, wanted }); // prettier-ignore

function misfitsOf(drawer: Drawer, targets: readonly Target[], best: readonly (Candidate | null)[]): Misfit[] {
  return best.flatMap((one, i): Misfit[] => {
    const { name } = drawer.springs[i];
    if (one === null) return [{ spring: i, name, mount: null, short: null, closing: { by: 'no place' } }];
    const { screened, target } = one;
    if (screened.closing === null) return [];
    const short = Number.isFinite(screened.score) && screened.score > -1e8 ? screened.score : null;
    return [
      { spring: i, name, mount: targets[target].mounts[screened.mount] ?? null, short, closing: screened.closing },
    ];
  });
}
