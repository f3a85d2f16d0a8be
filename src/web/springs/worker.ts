/** The window of the return spring, the drawer held against it, and a spring to order, reckoned and drawn away from the page. */
import { expose } from 'comlink';
import { isSolenoid } from '../../assessment/assess.ts';
import type { Verdict } from '../../assessment/finding.ts';
import { rigOf, type SolenoidJob } from '../../assessment/rig.ts';
import { usualQuestion, windowOf } from '../../assessment/window/window.ts';
import { windowData, type WindowData } from '../../assessment/window/data.ts';
import type { SpringWindow } from '../../assessment/window/kinds.ts';
import { lineAt, lineIn, stretches } from '../../assessment/window/line.ts';
import { lineSentences, stretchSentences, windowSentences } from '../../assessment/window/words.ts';
import { apply, type Change } from '../../job/change.ts';
import { readDrawer } from '../../job/drawer/read.ts';
import type { Drawer } from '../../job/drawer/schema.ts';
import type { Problem } from '../../job/opening.ts';
import type { Job } from '../../job/schema.ts';
import { fittingSteps, type AssessedFit, type Fit, type Fitting } from '../../proposal/drawer.ts';
import type { ItemTried } from '../../proposal/drawer-item.ts';
import { itemTasks, tryItem } from '../../proposal/drawer-others.ts';
import { openings } from '../../proposal/drawer-opens.ts';
import { springToOrder } from '../../proposal/drawer-order.ts';
import { closedWords, closingWords, mountWords, specificationRows } from '../../proposal/drawer-words.ts';
import { svgTree, type SvgNode } from '../../sheets/svg.ts';
import { drawWindow } from '../../sheets/window/window.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { itemsSummary, type ItemsSummary } from './items-summary.ts';

export interface NamedChange {
  readonly words: string;
  readonly changes: readonly Change[];
}

export interface WindowSummary {
  readonly isSolenoid: boolean;
  /** What the spring in question is called; null where one more is asked for. */
  readonly spring: string | null;
  readonly sentences: readonly string[];
  readonly floor: readonly string[];
  readonly ceiling: readonly string[];
  readonly missing: readonly string[];
  readonly openedBy: readonly NamedChange[];
}

export interface FitRow {
  readonly spring: number;
  readonly name: string;
  readonly place: string;
  readonly mount: string;
  readonly least: string;
  readonly verdict: Verdict;
  readonly worsens: readonly string[];
  readonly changes: readonly Change[];
}

export interface DrawerSummary {
  readonly name: string;
  readonly springs: number;
  readonly screened: number;
  readonly fits: readonly FitRow[];
  readonly moreFits: number;
  readonly out: readonly { readonly spring: number; readonly name: string; readonly because: string }[];
  readonly moreOut: number;
  readonly isComplete: boolean;
}

export interface OrderSummary {
  readonly offers: readonly {
    readonly rows: readonly (readonly [string, string])[];
    readonly mount: string;
    readonly least: string;
    readonly verdict: Verdict;
    readonly worsens: readonly string[];
    readonly changes: readonly Change[];
  }[];
  readonly closed: string | null;
}

export interface FittingWord {
  readonly share: number;
  readonly words: string;
  readonly soFar: DrawerSummary;
}

const MOST_ROWS = 12;
const MOST_LINES = 6;
/** The best so far is told so often, ms. */
const OFTEN_MS = 300;

let window: SpringWindow | null = null;
let data: WindowData | null = null;
let others: { name: string; values: readonly (number | null)[] }[] = [];

const work = {
  window(job: Job, units: DisplayUnits): WindowSummary {
    [window, data, others] = [null, null, []];
    if (!isSolenoid(job))
      return { isSolenoid: false, spring: null, sentences: [], floor: [], ceiling: [], missing: [], openedBy: [] };
    const question = usualQuestion(job);
    window = windowOf(job, question);
    const line = lineIn(job, window);
    data = windowData(window, line);
    const spring =
      question.index === null ? null : job.return.springs[question.index].name || `Spring ${question.index + 1}`;
    return {
      isSolenoid: true,
      spring,
      sentences: [...windowSentences(window, units), ...lineSentences(line, window, units)],
      floor: stretchSentences(stretches(window, 'floor'), units),
      ceiling: stretchSentences(stretches(window, 'ceiling'), units),
      missing: window.missing,
      openedBy: [],
    };
  },
  /** Changes that open a window that is shut: some seconds of work. */
  openings(job: Job, units: DisplayUnits): readonly NamedChange[] {
    if (!isSolenoid(job) || window === null || window.tightest === null || window.isOpen) return [];
    return openings(job, window.question, units);
  },
  sheet(width: number, units: DisplayUnits): SvgNode | null {
    if (data === null) return null;
    return svgTree(drawWindow({ window: data, others }, { width, units }), { idPrefix: 'spring-window-' });
  },
  /** What a drawer file holds, or its problems. */
  read(text: string): { readonly problems: readonly Problem[]; readonly name: string; readonly springs: number } {
    const read = readDrawer(text);
    return read.ok
      ? { problems: [], name: read.drawer.name, springs: read.drawer.springs.length }
      : { problems: read.problems.slice(0, 20), name: '', springs: 0 };
  },
  async fit(
    job: Job,
    text: string,
    units: DisplayUnits,
    tell: (word: FittingWord) => Promise<void>,
  ): Promise<DrawerSummary | null> {
    const read = readDrawer(text);
    if (!read.ok || !isSolenoid(job)) return null;
    const { drawer } = read;
    const steps = fittingSteps(job, drawer, null, units);
    let last = performance.now();
    for (;;) {
      const { done, value } = steps.next();
      if (done === true) {
        others = linesOf(job, value);
        return summaryOf(drawer, value, units);
      }
      if (performance.now() - last < OFTEN_MS) continue;
      last = performance.now();
      // oxlint-disable-next-line no-await-in-loop -- a page that is told one by one stays in step
      await tell({
        share: value.done / Math.max(1, value.of),
        words: `${value.stage} ${value.done} of ${value.of}`,
        soFar: summaryOf(drawer, value.soFar(), units),
      });
    }
  },
  /** Solenoids and cables, one by one. @returns null where the drawer does not read */
  async items(
    job: Job,
    text: string,
    units: DisplayUnits,
    tell: (soFar: ItemsSummary) => Promise<void>,
  ): Promise<ItemsSummary | null> {
    const read = readDrawer(text);
    if (!read.ok) return null;
    const { drawer } = read;
    const tasks = itemTasks(job, drawer);
    const results: ItemTried[] = [];
    for (const task of tasks) {
      results.push(tryItem(job, drawer, task, units));
      // oxlint-disable-next-line no-await-in-loop -- a page that is told one by one stays in step
      await tell(itemsSummary(job, drawer, tasks, results));
    }
    return itemsSummary(job, drawer, tasks, results);
  },
  order(job: Job, text: string | null, units: DisplayUnits): OrderSummary | null {
    if (!isSolenoid(job)) return null;
    const read = text === null ? null : readDrawer(text);
    const places = read?.ok === true ? read.drawer.places : null;
    const { offers, closed } = springToOrder(job, places, null, units);
    return {
      offers: offers.map(({ offer, mount, fit }) => ({
        rows: specificationRows(offer.specification, units),
        mount: mountWords(mount, units),
        least: leastWords(fit),
        verdict: fit.verdict,
        worsens: worsenings(fit),
        changes: fit.changes,
      })),
      closed: closedWords(closed),
    };
  },
};

function summaryOf(drawer: Drawer, fitting: Fitting, units: DisplayUnits): DrawerSummary {
  const { fits, misfits, furtherFits, springs, screened, isComplete } = fitting;
  return {
    name: drawer.name,
    springs,
    screened,
    fits: fits.slice(0, MOST_ROWS).map((fit) => rowOf(drawer, fit, units)),
    moreFits: Math.max(0, fits.length - MOST_ROWS) + furtherFits,
    out: misfits.slice(0, MOST_ROWS).map(({ spring, name, mount, closing }) => ({
      spring,
      name,
      because: closingWords(closing, mount?.on === 'plunger' ? 'force' : (window?.acts ?? 'moment'), units),
    })),
    moreOut: Math.max(0, misfits.length - MOST_ROWS),
    isComplete,
  };
}

function rowOf(drawer: Drawer, fit: Fit, units: DisplayUnits): FitRow {
  return {
    spring: fit.spring,
    name: fit.name,
    place: drawer.springs[fit.spring].place ?? '',
    mount: mountWords(fit.mount, units),
    least: leastWords(fit),
    verdict: fit.verdict,
    worsens: worsenings(fit),
    changes: fit.changes,
  };
}

function leastWords({ least, decidedBy, margins }: AssessedFit): string {
  const title = margins.find(({ id }) => id === decidedBy)?.title ?? decidedBy;
  return `Least margin ${least.toFixed(2)} times what is wanted: ${title}`;
}

const worsenings = ({ worsens }: AssessedFit) =>
  worsens.map(({ title, from, to }) => `${title}: from ${from} to ${to}`);

/** The best that take the place of the spring in question, over the gaps of the window. */
function linesOf(job: SolenoidJob, { fits }: Fitting): typeof others {
  const { question, scenes } = window ?? { question: null, scenes: [] };
  const [first] = scenes;
  if (question === null || first === undefined) return [];
  return fits
    .filter(({ mount }) => mount.index === question.index && mount.on === question.on)
    .slice(0, MOST_LINES)
    .map(({ name, changes }) => {
      const rig = rigOf(apply(job, changes));
      const values = first.stations.map((station) => lineAt(rig, question, station));
      return { name, values: values.map((value) => (Number.isFinite(value) ? value : null)) };
    });
}

export type SpringsWork = typeof work;

expose(work);
