/** What a check is, and how a number becomes a verdict. One file per question lies in `checks/`. */
import type { Job } from '../job/schema.ts';
import { converterFromSI, fromSI, toSI } from '../units/quantity.ts';
import type { Finding, Place, Question, Verdict } from './finding.ts';
import { missingReadings, type MechanicalNeeds, type Needs } from './needs.ts';
import type { MechanicalRig, Rig } from './rig.ts';
import type { ElectricCorner, MechanicalScene, Scene, Warmth } from './scene.ts';
import type { End } from './lever-moments.ts';
import type { Station } from './travel.ts';
import type { Words } from './words.ts';

/** Whether the findings that follow heat and motion in time are asked for too; a search that tries thousands leaves them. */
export type Reach = 'at rest' | 'in time';

/** What a check of lever, connection and springs may look at, whatever moves them. */
export interface MechanicalContext {
  readonly rig: MechanicalRig;
  readonly scenes: readonly MechanicalScene[];
  readonly needs: MechanicalNeeds;
  readonly say: Words;
}

/**
 * Everything a check may look at. A study of spread puts one rig after another into the same context and asks the same checks
 * again: what hangs on a reading is looked up when it is judged, and only what the parts are when the check is made.
 */
export interface Context extends MechanicalContext {
  readonly rig: Rig;
  readonly scenes: readonly Scene[];
  readonly electric: readonly ElectricCorner[];
  readonly needs: Needs;
}

/** The number behind a finding. */
export interface Judgement {
  readonly value: number;
  readonly limit: number | null;
  readonly margin: number;
  readonly at: Place | null;
  readonly because: string;
}

export interface Check {
  readonly id: string;
  readonly title: string;
  readonly question: Question;
  readonly unit: string;
  /** 'share' for available over needed minus one, else the unit of the difference. */
  readonly marginUnit: string;
  readonly wanted: number;
  /** How the number is reckoned, in words. */
  readonly how: string;
  /** Paths of the readings that it rests on. */
  readonly needs: readonly string[];
  /** Called only when no needed reading is missing. A NaN margin means that the readings do not reach so far. */
  judge(): Judgement;
  /** The margin of `judge` alone, without a word. A study of spread asks nothing else, a hundred thousand times. */
  readonly margin?: () => number;
  /** What to say, and which readings to take, when the margin is NaN. */
  readonly unread?: { readonly because: string; readonly readings: readonly string[] };
}

/** A check that gives its margin alone where nothing else is asked. */
export type DecidedCheck = Check & Required<Pick<Check, 'margin'>>;

/** A check finds its number first, and says what it found only where somebody reads it. */
export function decided<Found extends { readonly margin: number }>(
  find: () => Found,
  told: (found: Found) => Omit<Judgement, 'margin'>,
): Pick<DecidedCheck, 'judge' | 'margin'> {
  return {
    margin: () => find().margin,
    judge() {
      const found = find();
      return { ...told(found), margin: found.margin };
    },
  };
}

/** Largest margin that is printed, either way: beyond it a number says no more. */
export const LARGEST_MARGIN = 99;

export function findingOf(check: Check, missingReadings: ReadonlySet<string>): Finding {
  const missing = missingReadings.size === 0 ? nothing : check.needs.filter((path) => missingReadings.has(path));
  if (missing.length > 0) return notKnown(check, untaken(missing.length), missing);
  const { value, limit, margin, at, because } = check.judge();
  if (Number.isNaN(margin)) {
    return check.unread === undefined
      ? notKnown(check, 'The readings do not reach far enough to decide this.', nothing)
      : notKnown(check, check.unread.because, check.unread.readings);
  }
  const capped = Math.max(-LARGEST_MARGIN, Math.min(LARGEST_MARGIN, margin));
  return {
    id: check.id,
    title: check.title,
    question: check.question,
    verdict: verdictOf(capped, check.wanted),
    value: Number.isFinite(value) ? value : null,
    limit: limit !== null && Number.isFinite(limit) ? limit : null,
    unit: check.unit,
    margin: capped,
    marginUnit: check.marginUnit,
    wanted: rounded(check.wanted),
    at,
    because,
    how: check.how,
    missing,
    needs: check.needs,
    remedies: [],
  };
}

/** What all of these checks find in a job, in their own order. */
export function findingsOf(checks: readonly Check[], job: Job): Finding[] {
  const missing = missingReadings(job);
  return checks.map((check) => findingOf(check, missing));
}

const nothing: readonly string[] = [];

function untaken(count: number): string {
  return count === 1
    ? 'A reading that this rests on has not been taken.'
    : `${count} readings that this rests on have not been taken.`;
}

function notKnown(check: Check, because: string, missing: readonly string[]): Finding {
  return {
    id: check.id,
    title: check.title,
    question: check.question,
    verdict: 'not known',
    value: null,
    limit: null,
    unit: check.unit,
    margin: null,
    marginUnit: check.marginUnit,
    wanted: rounded(check.wanted),
    at: null,
    because,
    how: check.how,
    missing,
    needs: check.needs,
    remedies: [],
  };
}

/** A wanted margin met to the last digit counts as met. */
export function verdictOf(margin: number, wanted: number): Verdict {
  return margin >= wanted - 1e-9 ? 'holds' : margin >= 0 ? 'thin' : 'fails';
}

function rounded(value: number): number {
  return Math.round(value * 1e9) / 1e9;
}

export function placeOf(
  station: Station | null,
  scene: MechanicalScene | null,
  corner: { readonly supply?: NonNullable<Place['supply']>; readonly coil?: Warmth; readonly friction?: End } = {},
): Place {
  return {
    gap_mm: station === null ? null : finite(fromSI(station.gap, 'mm')),
    shaftAngle_deg: station === null ? null : finite(fromSI(station.shaftAngle, '°')),
    supply: corner.supply ?? null,
    coil: corner.coil ?? null,
    friction: corner.friction ?? null,
    moved: scene?.moved ?? null,
  };
}

/** The state of the source in which it must pull in at this end of the supply. */
export function pullInSupply(rig: Rig, supply: End): NonNullable<Place['supply']> {
  return supply === 'low' ? rig.weakestPullIn : supply;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** Reckons on the first call and remembers: for a judgement that two findings share. */
export function once<T>(reckon: () => T): () => T {
  let known: { readonly value: T } | null = null;
  return () => (known ??= { value: reckon() }).value;
}

/** `once` for each set of scenes that the context holds. */
export function oncePer<T>(context: Pick<MechanicalContext, 'scenes'>, reckon: () => T): () => T {
  let known: { readonly scenes: MechanicalContext['scenes']; readonly value: T } | null = null;
  return () => {
    if (known?.scenes !== context.scenes) known = { scenes: context.scenes, value: reckon() };
    return known.value;
  };
}

type Contact = Job['supply']['contacts'][number];

/** Contacts of every place of control, with their paths: each of them may have to carry and break the current of the coil. */
export function contactsOf({ supply }: Job): { readonly path: string; readonly contact: Contact }[] {
  const at = (list: readonly Contact[], path: string) => list.map((contact, i) => ({ path: `${path}[${i}]`, contact }));
  return [
    ...at(supply.contacts, 'supply.contacts'),
    ...supply.stations.flatMap(({ contacts }, i) => at(contacts, `supply.stations[${i}].contacts`)),
  ];
}

/** Paths, each once. */
export function unique(paths: readonly string[]): readonly string[] {
  return [...new Set(paths)];
}

/** What moves, at the head of a title. */
export const moverWord = ({ mover }: MechanicalRig): string => (mover === 'rod' ? 'Rod' : 'Plunger');

export const MM = toSI(1, 'mm');
export const inMillimetres = converterFromSI('mm');
export const inDegrees = converterFromSI('°');
