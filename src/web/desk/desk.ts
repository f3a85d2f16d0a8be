/** Everything that is on the screen, as one immutable value; the acts beside this file change it. */
import { create } from 'zustand';
import type { Assessment } from '../../assessment/finding.ts';
import type { JobEntry, RevisionEntry } from '../../job/exchange.ts';
import type { Job } from '../../job/schema.ts';
import type { Keeping } from '../keeping/keeper.ts';
import type { Trouble } from '../keeping/api.ts';
import { noSteps, type Steps } from './steps.ts';

/** What somebody typed and what cannot be kept, with the reason. The document holds what stood there before. */
export interface Draft {
  readonly text: string;
  readonly problem: string;
}

export type Panel =
  | 'findings'
  | 'survey'
  | 'means'
  | 'route'
  | 'circuit'
  | 'time'
  | 'spread'
  | 'springs'
  | 'proposals'
  | 'versions';

export interface Notice {
  readonly words: string;
  readonly trouble?: Trouble;
  readonly act?: { readonly words: string; readonly run: () => void };
}

export interface Desk {
  readonly job: JobEntry | null;
  readonly document: Job | null;
  readonly assessment: Assessment | null;
  /** Whether the remedies in the assessment have been worked out yet. */
  readonly remedies: 'waiting' | 'there' | 'failed';
  /** Why nothing could be calculated. */
  readonly calculationTrouble: string | null;
  readonly steps: Steps;
  readonly drafts: Readonly<Record<string, Draft>>;
  readonly keeping: Keeping;
  /** Other heads of this job, which wait to be merged by a person. */
  readonly branches: readonly RevisionEntry[];
  /** The head that another window has kept since, made from what is on this screen. */
  readonly newer: string | null;
  readonly gap_mm: number;
  readonly panel: Panel;
  readonly isJobListOpen: boolean;
  /** The other head that is being merged. */
  readonly merging: string | null;
  /** The field that a link asked for; `at` makes each asking a new one. */
  readonly wantedField: { readonly path: string; readonly at: number } | null;
  /** Ids of the findings that stand open in the list. */
  readonly openFindings: readonly string[];
  readonly notice: Notice | null;
  readonly openingTrouble: Trouble | null;
}

export const useDesk = create<Desk>()(() => ({
  job: null,
  document: null,
  assessment: null,
  remedies: 'waiting',
  calculationTrouble: null,
  steps: noSteps,
  drafts: {},
  keeping: { word: 'kept' },
  branches: [],
  newer: null,
  gap_mm: 0,
  panel: 'findings',
  isJobListOpen: false,
  merging: null,
  wantedField: null,
  openFindings: [],
  notice: null,
  openingTrouble: null,
}));

export const desk = useDesk.getState;
export const put = useDesk.setState;

export function say(notice: Notice | null): void {
  put({ notice });
}

export function goToField(path: string): void {
  put({ panel: 'survey', wantedField: { path, at: Date.now() } });
}

export function toggleFinding(id: string): void {
  const { openFindings } = desk();
  put({ openFindings: openFindings.includes(id) ? openFindings.filter((open) => open !== id) : [...openFindings, id] });
}
