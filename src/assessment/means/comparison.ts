/** What a comparison of the means says: plain data, the same rows for every column. */
import type { Change } from '../../job/change.ts';
import type { Answer, Assumption, Verdict } from '../finding.ts';
import type { TogetherState } from '../hand-stop/states.ts';
import type { MeansKind } from './variants.ts';

export const rowNames = [
  'stops',
  'comes back',
  'effort or power',
  'time to stop',
  'energy lost',
  'heat',
  'parts',
  'to be made',
  'upkeep',
] as const;
export type RowName = (typeof rowNames)[number];

export const rowTitles: Record<RowName, string> = {
  stops: 'Will it stop?',
  'comes back': 'Will it run when told?',
  'effort or power': 'Effort or power',
  'time to stop': 'Time to no-fuel',
  'energy lost': 'When its energy is lost',
  heat: 'Heat or overload',
  parts: 'Parts',
  'to be made': 'To be made',
  upkeep: 'Upkeep',
};

export interface Cell {
  /** null where the row is no judgement. */
  readonly verdict: Verdict | null;
  /** Lines; the first one stands alone in a narrow table. */
  readonly lines: readonly string[];
  /** The finding that it rests on, by id. */
  readonly finding: string | null;
}

export interface MeansColumn {
  readonly name: string;
  readonly kind: MeansKind;
  /** Place in the document's list of other means; null for the chosen one and for what the document does not describe. */
  readonly index: number | null;
  readonly origin: 'chosen' | 'considered' | 'starting values' | 'not described';
  /** Why it cannot be had here, or what would have to be described first; empty where it can be judged. */
  readonly notPossible: string | null;
  readonly verdict: Verdict | null;
  readonly answers: readonly Answer[];
  readonly cells: Record<RowName, Cell>;
  readonly assumed: readonly Assumption[];
  /** Puts this means in the place of the chosen one, which is kept among the others; empty where there is nothing to take. */
  readonly take: readonly Change[];
}

export interface MeansComparison {
  readonly version: 1;
  readonly job: string;
  /** What the lever asks of any means. */
  readonly asked: string;
  readonly columns: readonly MeansColumn[];
  /** The chosen means and the hand stop on one lever, state by state; null where there is no hand stop beside it. */
  readonly together: readonly TogetherState[] | null;
  readonly recommended: {
    /** Place among the columns; null where none can be recommended. */
    readonly column: number | null;
    readonly words: string;
    readonly reasons: readonly string[];
  };
  readonly caution: string;
}
