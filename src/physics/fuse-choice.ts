/**
 * Which fuse lets a stop solenoid pull and still opens before anything burns. [PHYSICS 5]
 *
 * A fuse is asked two things that fight each other. It must not open in a pull, with the coil cold, the source full and the
 * fuse hot in its box; and when the plunger sticks it must open before the coil's insulation is lost, with the coil hot,
 * the source low and the fuse cold. Between those lies a factor of two or three in current, and a fuse is not that sharp:
 * often no rating does both, and a timer or a thermal cut-out has to. That is said here in data.
 *
 * Left out: pulls that follow each other before the fuse has cooled, vibration, age. Local rules and the maker's curves
 * go before this choice.
 */
import { adiabaticConstant, adiabaticTime } from './conductor.ts';
import { DomainError, requireAboveZero } from './domain-error.ts';
import {
  breakingCapacity,
  fuseDerating,
  fusesOf,
  opensNotAfter,
  opensNotBefore,
  type Fuse,
  type FuseSeries,
} from './fuse.ts';

/** Share of its rating that a fuse carries for good: three quarters; common practice, no source. */
export const lastingShare = 0.75;

export interface FuseQuestion {
  /** Greatest, A: coil cold, source charging. */
  readonly pullInCurrent: number;
  /** Longest, s. Infinity where the pull-in current flows as long as the solenoid is on. */
  readonly pullTime: number;
  /** Greatest that flows for good after the pull, A; 0 for none. */
  readonly holdCurrent: number;
  /** Least with the plunger stuck and the coil hot, A. */
  readonly hotStallCurrent: number;
  /** Time until the coil's class is reached at that current, s. Infinity where it never is. */
  readonly coilLimitTime: number;
  /** Least for a short at the far end of the run, A. */
  readonly shortCircuitCurrent: number;
  /** Greatest for a short at the fuse, A, where it is known. */
  readonly greatestShortCircuit?: number;
  readonly section_m2: number;
  /** Conductor at the moment of the short, and what its insulation stands, K. */
  readonly conductorBefore: number;
  readonly conductorLimit: number;
  /** Lasting current of the conductor where it lies, A, where it is to be counted. */
  readonly ampacity?: number;
  /** Air round the fuse, K. */
  readonly hottest: number;
  readonly coldest: number;
  /** Series to choose from; both unless said. */
  readonly series?: readonly FuseSeries[];
}

export const fuseDemands = [
  'outlasts the pull',
  'carries the hold current',
  'spares the coil',
  'spares the conductor',
  'within the ampacity',
  'breaks the short circuit',
] as const;

export type FuseDemand = (typeof fuseDemands)[number];

export interface DemandMargin {
  /** What there is and what is needed: seconds for outlasting and sparing, amperes for the rest. */
  readonly available: number;
  readonly needed: number;
  /** available/needed - 1; holds at zero and above. Infinity where nothing is needed. */
  readonly margin: number;
  /** The gates of the standard alone promise it, without a curve drawn between them. */
  readonly assured: boolean;
}

export interface FuseVerdict {
  readonly fuse: Fuse;
  /** Null for a demand that was not asked. */
  readonly demands: Readonly<Record<FuseDemand, DemandMargin | null>>;
  readonly fails: readonly FuseDemand[];
  /** The least of the margins. */
  readonly margin: number;
}

export type FuseRemedy =
  /** Let something else end the pull: later than the pull takes, sooner than the coil is lost, s. */
  | { readonly code: 'timer or thermal cut-out'; readonly longerThan: number; readonly shorterThan: number }
  /** The coil does not survive its own longest pull: no protection can help. */
  | { readonly code: 'coil lost within its pull' }
  /** At least this section at the same short-circuit current, m², and this lasting current, A; null where not needed. */
  | { readonly code: 'thicker conductor'; readonly section_m2: number | null; readonly ampacity: number | null }
  /** Where the fuse sits at 20 °C, a rating does it all. */
  | { readonly code: 'cooler place for the fuse' }
  /** More current than these series carry or break. */
  | { readonly code: 'another kind of fuse' };

export interface FuseChoice {
  /** Every rating, with its margins. */
  readonly verdicts: readonly FuseVerdict[];
  /** Those that do all, in the order of the series; the best has the greatest least margin. */
  readonly fitting: readonly FuseVerdict[];
  readonly best: FuseVerdict | null;
  /**
   * Where none does all: each demand without which some rating would do; if there is no such, the demands that the rating
   * with the fewest failures fails. Empty where a rating fits.
   */
  readonly closedBy: readonly FuseDemand[];
  readonly remedies: readonly FuseRemedy[];
}

/**
 * Judges every rating of the series by its own curves.
 *
 * @throws DomainError SW-D070 a current, time or section of the question without meaning; SW-D061, SW-D069 temperatures
 */
export function chooseFuse(question: FuseQuestion): FuseChoice {
  check(question);
  const verdicts = verdictsOf(question);
  const fitting = verdicts.filter(({ fails }) => fails.length === 0);
  if (fitting.length > 0) {
    const best = fitting.reduce((most, one) => (one.margin > most.margin ? one : most));
    return { verdicts, fitting, best, closedBy: [], remedies: [] };
  }
  const single = fuseDemands.filter((demand) => verdicts.some(({ fails }) => fails.every((other) => other === demand)));
  const nearest = verdicts.reduce((most, one) =>
    one.fails.length < most.fails.length || (one.fails.length === most.fails.length && one.margin > most.margin)
      ? one
      : most,
  );
  const closedBy = single.length > 0 ? single : nearest.fails;
  return { verdicts, fitting, best: null, closedBy, remedies: remediesFor(question, verdicts, closedBy) };
}

/**
 * One fuse, the fitted one for example, against every demand.
 *
 * @throws DomainError as `chooseFuse`, and SW-D069 where its rating is above those of its series
 */
export function judgeFuse(question: FuseQuestion, fuse: Fuse): FuseVerdict {
  check(question);
  return judge(question, fuse);
}

function verdictsOf(question: FuseQuestion): readonly FuseVerdict[] {
  const series = question.series ?? (['blade', 'large blade'] as const);
  return series.flatMap((name) => fusesOf(name).map((fuse) => judge(question, fuse)));
}

function judge(question: FuseQuestion, fuse: Fuse): FuseVerdict {
  const whenHot = fuseDerating(question.hottest);
  const whenCold = fuseDerating(question.coldest);
  const lasting = lastingShare * fuse.rating * whenHot;
  const { pullInCurrent, pullTime, holdCurrent, hotStallCurrent, shortCircuitCurrent } = question;

  const soonest = opensNotBefore(fuse, pullInCurrent, whenHot);
  const stalled = opensNotAfter(fuse, hotStallCurrent, whenCold);
  const shorted = opensNotAfter(fuse, shortCircuitCurrent, whenCold);
  const { section_m2, conductorBefore, conductorLimit, ampacity, greatestShortCircuit } = question;
  const stands = adiabaticTime(section_m2, shortCircuitCurrent, conductorBefore, conductorLimit);

  const demands: Record<FuseDemand, DemandMargin | null> = {
    'outlasts the pull':
      pullTime === Infinity
        ? marginOf(lasting, pullInCurrent)
        : marginOf(soonest.seconds, pullTime, soonest.assured >= pullTime),
    'carries the hold current': holdCurrent === 0 ? null : marginOf(lasting, holdCurrent),
    'spares the coil':
      question.coilLimitTime === Infinity
        ? null
        : marginOf(question.coilLimitTime, stalled.seconds, stalled.assured <= question.coilLimitTime),
    'spares the conductor': marginOf(stands, shorted.seconds, shorted.assured <= stands),
    'within the ampacity': ampacity === undefined ? null : marginOf(ampacity, fuse.rating),
    'breaks the short circuit':
      greatestShortCircuit === undefined ? null : marginOf(breakingCapacity, greatestShortCircuit),
  };
  const fails = fuseDemands.filter((demand) => (demands[demand]?.margin ?? 0) < 0);
  const margin = Math.min(...fuseDemands.map((demand) => demands[demand]?.margin ?? Infinity));
  return { fuse, demands, fails, margin };
}

function marginOf(available: number, needed: number, assured = available >= needed): DemandMargin {
  return { available, needed, margin: available / needed - 1, assured };
}

function remediesFor(
  question: FuseQuestion,
  verdicts: readonly FuseVerdict[],
  closedBy: readonly FuseDemand[],
): readonly FuseRemedy[] {
  const remedies: FuseRemedy[] = [];
  const closes = (demand: FuseDemand) => closedBy.includes(demand);
  const { pullTime, coilLimitTime, hottest, coldest } = question;
  if (closes('spares the coil')) {
    remedies.push(
      pullTime < coilLimitTime
        ? { code: 'timer or thermal cut-out', longerThan: pullTime, shorterThan: coilLimitTime }
        : { code: 'coil lost within its pull' },
    );
  }
  if (closes('spares the conductor') || closes('within the ampacity')) remedies.push(thicker(question, verdicts));
  // A fuse in the cold is slower both ways, so the whole question is asked again.
  const cool = { ...question, hottest: Math.min(hottest, 293.15), coldest: Math.min(coldest, 293.15) };
  if (hottest > 293.15 && verdictsOf(cool).some(({ fails }) => fails.length === 0))
    remedies.push({ code: 'cooler place for the fuse' });
  const beyond: readonly FuseDemand[] = ['outlasts the pull', 'carries the hold current', 'breaks the short circuit'];
  if (remedies.length === 0 || closedBy.every((demand) => beyond.includes(demand)))
    remedies.push({ code: 'another kind of fuse' });
  return remedies;
}

/** The least section and ampacity by which some rating that does all else would do these too. */
function thicker(question: FuseQuestion, verdicts: readonly FuseVerdict[]): FuseRemedy {
  const ofConductor: readonly FuseDemand[] = ['spares the conductor', 'within the ampacity'];
  const others = ({ fails }: FuseVerdict) => fails.filter((demand) => !ofConductor.includes(demand)).length;
  const fewest = Math.min(...verdicts.map(others));
  const candidates = verdicts.filter((verdict) => others(verdict) === fewest);
  const { fuse, demands, fails } = candidates.reduce((least, one) =>
    one.fuse.rating < least.fuse.rating ? one : least,
  );
  const opens = demands['spares the conductor']?.needed ?? 0;
  const k = adiabaticConstant(question.conductorBefore, question.conductorLimit);
  const section_m2 = (question.shortCircuitCurrent * Math.sqrt(opens)) / k;
  return {
    code: 'thicker conductor',
    section_m2: fails.includes('spares the conductor') && section_m2 < Infinity ? section_m2 : null,
    ampacity: fails.includes('within the ampacity') ? fuse.rating : null,
  };
}

function check(question: FuseQuestion): void {
  const { pullInCurrent, pullTime, holdCurrent, hotStallCurrent, coilLimitTime, shortCircuitCurrent } = question;
  requireAboveZero('SW-D070', 'pull-in current', pullInCurrent);
  requireAboveZero('SW-D070', 'hot stall current', hotStallCurrent);
  requireAboveZero('SW-D070', 'short-circuit current', shortCircuitCurrent);
  requireAboveZero('SW-D070', 'section', question.section_m2);
  if (!(pullTime > 0) || !(coilLimitTime > 0))
    throw new DomainError('SW-D070', `a pull of ${pullTime} s, a coil limit of ${coilLimitTime} s`);
  if (!(holdCurrent >= 0 && holdCurrent < Infinity))
    throw new DomainError('SW-D070', `a hold current of ${holdCurrent} A`);
  if (question.ampacity !== undefined) requireAboveZero('SW-D070', 'ampacity', question.ampacity);
  if (question.greatestShortCircuit !== undefined)
    requireAboveZero('SW-D070', 'greatest short-circuit current', question.greatestShortCircuit);
}
