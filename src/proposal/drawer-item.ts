/** What is said of a solenoid or a cable of the drawer that was put into the job: plain data. */
import { assess } from '../assessment/assess.ts';
import { relativeMargin, type Finding, type Verdict } from '../assessment/finding.ts';
import { apply, type Change } from '../job/change.ts';
import { readDocument } from '../job/read.ts';
import type { Job } from '../job/schema.ts';
import type { DisplayUnits } from '../units/quantity.ts';
import type { FitMargin } from './drawer.ts';

export interface ItemFit {
  readonly fits: true;
  /** Index in its list of the drawer. */
  readonly item: number;
  readonly name: string;
  readonly place: string;
  /** How it must be mounted or laid. */
  readonly words: readonly string[];
  readonly changes: readonly Change[];
  /** The smallest margin over its wanted one among the findings that rest on it: 1 is just enough. */
  readonly least: number;
  readonly decidedBy: FitMargin;
  readonly margins: readonly FitMargin[];
  /** Findings that are not known with it, and the readings that would tell. */
  readonly notKnown: readonly { readonly title: string; readonly missing: readonly string[] }[];
  /** On the whole installation with it. */
  readonly verdict: Verdict;
}

export interface ItemOut {
  readonly fits: false;
  readonly item: number;
  readonly name: string;
  readonly because: string;
  /** As of a fit; null where it cannot be said. */
  readonly least: number | null;
}

export type ItemTried = ItemFit | ItemOut;

/** Best first, those of which everything is known before the others; then what is kept out, the nearest first. */
export function ranked(tried: readonly ItemTried[]): ItemTried[] {
  const value = ({ least }: ItemTried) => least ?? -Infinity;
  const sort = (one: ItemTried) => (one.fits ? (one.notKnown.length === 0 ? 2 : 1) : 0);
  return [...tried].sort((a, b) => sort(b) - sort(a) || value(b) - value(a) || a.item - b.item);
}

interface Asked {
  readonly item: number;
  readonly name: string;
  readonly place?: string | undefined;
  readonly words: readonly string[];
  readonly changes: readonly Change[];
  /** Whether a finding rests on what was put in. */
  readonly restsOnIt: (finding: Finding) => boolean;
}

/** The job with the changes assessed in all: it fits where nothing that rests on it fails. */
export function itemTried(
  job: Job,
  { item, name, place, words, changes, restsOnIt }: Asked,
  units: DisplayUnits,
): ItemTried {
  // prettier-ignore
  const read = readDocument(apply(job, changes));
  const out = (because: string, least: number | null = null): ItemOut => ({ fits: false, item, name, because, least });
  if (!read.ok) return out(`the job with it cannot be kept: ${read.problems[0]?.problem ?? ''}`);
  const { findings, verdict } = assess(read.job, units);
  const own = findings.filter(restsOnIt);
  const known = own.filter((one) => one.verdict !== 'not known' && one.margin !== null);
  const notKnown = own.filter((one) => one.verdict === 'not known').map(({ title, missing }) => ({ title, missing }));
  const [first] = known;
  if (first === undefined)
    return out(`nothing is known of it yet; take this reading first: ${notKnown[0]?.missing[0] ?? 'its own'}`);
  const deciding = known.reduce((worst, one) => (relativeMargin(one) < relativeMargin(worst) ? one : worst), first);
  const least = relativeMargin(deciding);
  if (deciding.verdict === 'fails') return out(`"${deciding.title}" fails: ${deciding.because}`, least);
  return {
    fits: true,
    item,
    name,
    place: place ?? '',
    words,
    changes,
    least,
    decidedBy: marginOf(deciding),
    margins: findings.map(marginOf),
    notKnown,
    verdict,
  };
}

const marginOf = ({ id, title, verdict, margin, marginUnit, wanted }: Finding): FitMargin => ({ id, title, verdict, margin, marginUnit, wanted }); // prettier-ignore
