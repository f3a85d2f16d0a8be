/** What an assessment says: plain data, ready for JSON. */
import type { Change } from '../job/change.ts';

/**
 * holds: at least the wanted margin. thin: some margin, less than wanted. fails: none.
 * not known: a reading is missing, and the finding says which.
 */
export type Verdict = 'holds' | 'thin' | 'fails' | 'not known';

/** Which of the three questions a finding answers. */
export type Question = 'stops' | 'runs' | 'burns';

/** Where a finding is decided. */
export interface Place {
  readonly gap_mm: number | null;
  readonly shaftAngle_deg: number | null;
  readonly supply: 'low' | 'cranking' | 'high' | null;
  readonly coil: 'cold' | 'hot' | null;
  readonly friction: 'low' | 'high' | null;
  /** Set where the engine has moved on its mounts: "engine moved 3 mm towards home". */
  readonly moved: string | null;
}

export interface Finding {
  readonly id: string;
  readonly title: string;
  readonly question: Question;
  readonly verdict: Verdict;
  /** The deciding number, in `unit`; null where it is not known. */
  readonly value: number | null;
  /** What the value is held against, in `unit`; null where there is no single number. */
  readonly limit: number | null;
  readonly unit: string;
  /** A share (available over needed, minus one), or a difference in `marginUnit`. */
  readonly margin: number | null;
  readonly marginUnit: string;
  /** The margin that counts as enough. */
  readonly wanted: number;
  readonly at: Place | null;
  /** The reason, one sentence. */
  readonly because: string;
  /** How the number is reckoned, in words. */
  readonly how: string;
  /** Paths of readings that must be taken before this can be known. */
  readonly missing: readonly string[];
  /** Paths of all readings that this finding rests on. */
  readonly needs: readonly string[];
  readonly remedies: readonly Remedy[];
}

/** A change to the document that lifts its finding to the wanted margin. */
export interface Remedy {
  /** "Move the bracket 1.8 mm towards the lever", in the imperative. */
  readonly words: string;
  readonly changes: readonly Change[];
  readonly marginAfter: number;
  /** Findings that come out worse, by id, with their verdict and margin before and after. */
  readonly worsens: readonly Worsening[];
}

export interface Worsening {
  readonly id: string;
  readonly title: string;
  readonly from: { readonly verdict: Verdict; readonly margin: number | null };
  readonly to: { readonly verdict: Verdict; readonly margin: number | null };
}

/** One of the three lines that are read first. */
export interface Answer {
  readonly question: Question;
  /** "Will it stop?" */
  readonly words: string;
  readonly verdict: Verdict;
  /** The finding that decides it. */
  readonly finding: string | null;
}

/** A default that was used because the document leaves the field out. */
export interface Assumption {
  readonly path: string;
  readonly text: string;
  readonly source: string;
}

/** Curves over the gap, all of one length, from home outwards. A null stands where a reading is missing. */
export interface Sweep {
  readonly gap_mm: readonly number[];
  readonly shaftAngle_deg: readonly (number | null)[];
  /** Weakest pull: low supply, hot coil. */
  readonly pullLeast_N: readonly (number | null)[];
  /** Strongest pull: high supply, cold coil. */
  readonly pullGreatest_N: readonly (number | null)[];
  /** Pull that the installation asks for, high friction. */
  readonly pullNeeded_N: readonly (number | null)[];
  /** The same with low friction. */
  readonly pullNeededLowFriction_N: readonly (number | null)[];
  /** Side force on the plunger pin, greatest of both directions, high friction. */
  readonly sideForce_N: readonly (number | null)[];
  /** Force left over to bring the plunger out, high friction; below zero it stays. */
  readonly returnForce_N: readonly (number | null)[];
  /** What drives the return, before anything holds it back. */
  readonly returnDrive_N: readonly (number | null)[];
  /** Distance of the pin from the shaft centre. */
  readonly slotRadius_mm: readonly (number | null)[];
  /** True where the lever stands on its stop and the over-travel spring gives. */
  readonly overTravel: readonly boolean[];
}

/** Steady currents of one stage in one corner. */
export interface Currents {
  readonly stage: 'pull-in' | 'hold';
  readonly supply: 'low' | 'high';
  readonly coil: 'cold' | 'hot';
  readonly current_A: number | null;
  readonly coilVolts_V: number | null;
  readonly coilPower_W: number | null;
}

/** Where the parts come to rest. */
export interface Travel {
  /** Gap at which the plunger ends up with current on; above zero the lever stopped it short. */
  readonly homeGap_mm: number | null;
  /** Gap from which the lever is moved when current comes on. */
  readonly startGap_mm: number | null;
  /** Gap at which the lever meets its stop on the home side, where it does inside the stroke. */
  readonly leverStopGap_mm: number | null;
  readonly shaftAtHome_deg: number | null;
  readonly shaftAtRest_deg: number | null;
  /** What half a turn of the adjuster does to the shaft angle at home. */
  readonly halfTurn_deg: number | null;
}

export interface Assessment {
  /** Version of this form of output. */
  readonly version: 1;
  readonly job: string;
  readonly works: 'energise to stop' | 'energise to run' | 'by hand' | 'by air';
  /** The verdict on the whole: the worst of the findings. */
  readonly verdict: Verdict;
  readonly answers: readonly Answer[];
  /** Worst first. */
  readonly findings: readonly Finding[];
  readonly sweep: Sweep | null;
  readonly travel: Travel | null;
  readonly currents: readonly Currents[];
  readonly assumed: readonly Assumption[];
  /** What should be known when reading this: extrapolated readings, a switch that was not modelled, the hand stop. */
  readonly remarks: readonly string[];
  /** The short caution that stands wherever results are shown. */
  readonly caution: string;
}

const severity: Record<Verdict, number> = { fails: 0, 'not known': 1, thin: 2, holds: 3 };

/** Worst first: fails, not known, thin, holds; then the smaller share of the wanted margin. */
export function worstFirst(a: Finding, b: Finding): number {
  return severity[a.verdict] - severity[b.verdict] || relativeMargin(a) - relativeMargin(b);
}

/** Margin over wanted margin, so that findings of different kinds can be compared: 1 is just enough, 0 is none. */
export function relativeMargin(finding: Pick<Finding, 'margin' | 'wanted'>): number {
  return finding.margin === null
    ? -Infinity
    : finding.wanted > 0
      ? finding.margin / finding.wanted
      : finding.margin + 1;
}

/** The worst verdict of some findings; "holds" where there are none. */
export function worstVerdict(findings: readonly Pick<Finding, 'verdict'>[]): Verdict {
  return findings.reduce<Verdict>(
    (worst, { verdict }) => (severity[verdict] < severity[worst] ? verdict : worst),
    'holds',
  );
}

export const CAUTION =
  'Isolate fuel and battery before hands go near the lever. A hand stop that works without electricity stays fitted. '
  + "This supports, and never replaces, the engine maker's data, local codes and a competent person's judgement.";

const supplyWords = { low: 'low battery', cranking: 'cranking', high: 'charging' };

/**
 * "4.2 mm from home, low battery, hot coil, high friction".
 *
 * @param say a length in millimetres as the reader's instruments have it
 */
export function placeWords(
  { gap_mm, supply, coil, friction, moved }: Place,
  say: (millimetres: number) => string,
): string {
  return [
    gap_mm === null ? null : gap_mm < 0.005 ? 'at home' : `${say(gap_mm)} from home`,
    supply === null ? null : supplyWords[supply],
    coil === null ? null : `${coil} coil`,
    friction === null ? null : `${friction} friction`,
    moved,
  ]
    .filter((part) => part !== null)
    .join(', ');
}
