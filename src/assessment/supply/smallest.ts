/** The smallest conductor of one system that does what is asked, and what keeps it from being smaller. */
import type { Verdict } from '../finding.ts';
import type { SourceState } from '../rig.ts';
import type { SectionRow } from './study.ts';
import type { Judged } from './fuse.ts';

/** What is asked of a conductor, in the words that name it. */
export const demands = {
  pull: 'the pull',
  hold: 'the hold',
  drop: 'the drop in hold',
  carries: 'the current it may carry for good',
  overload: 'the fuse against overload',
  short: 'the fuse in a short circuit',
} as const;

export type Demand = keyof typeof demands;

export const stateWords: Readonly<Record<SourceState, string>> = {
  resting: 'at rest',
  charging: 'charging',
  low: 'on a low battery',
  cranking: 'while cranking',
};

/** The smallest conductor that does what is asked. */
export interface SmallestSection {
  readonly system: 'metric' | 'gauge';
  /** Null for every state in which it must work. */
  readonly state: SourceState | null;
  readonly label: string | null;
  /** holds; thin where no size does better; not known where something that no size settles is open; fails where none does. */
  readonly verdict: Verdict;
  /** What the next smaller size does not do; where none does, what the thickest does not do. */
  readonly limitedBy: readonly Demand[];
  readonly words: string;
}

/** Demands of a size in these states that have one of these verdicts. */
function demandsOf(row: SectionRow, states: readonly SourceState[], verdicts: readonly Verdict[]): Demand[] {
  const all = [
    ...row.states.filter(({ state }) => states.includes(state)).flatMap((one) => Object.entries(one.demands)),
    ...Object.entries(row.demands),
  ] as [Demand, Judged][];
  return [...new Set(all.filter(([, { verdict }]) => verdicts.includes(verdict)).map(([demand]) => demand))];
}

/**
 * Of one system, from the smallest: the first that meets every demand with its margin, else the first that meets every one.
 * A demand that no size can settle, for want of a reading or of a fuse, chooses none; it is said beside the choice.
 *
 * @param rows   of one system, from the smallest
 * @param states in which it must work
 * @param hasFuse false where the document says that there is none
 */
export function smallestOf(
  rows: readonly SectionRow[],
  state: SourceState | null,
  states: readonly SourceState[],
  hasFuse: boolean,
): SmallestSection {
  const system = rows[0].system === 'gauge' ? 'gauge' : 'metric';
  const where = state === null ? 'in every state in which it must work' : stateWords[state];
  const unknown = rows
    .map((row) => demandsOf(row, states, ['not known']))
    .reduce((common, own) => common.filter((demand) => own.includes(demand)));
  const unsettled: readonly Demand[] = [...unknown, ...(hasFuse ? [] : (['overload', 'short'] as const))];
  const unmet = (row: SectionRow, verdicts: readonly Verdict[]) =>
    demandsOf(row, states, verdicts).filter((demand) => !unsettled.includes(demand));
  const nothing = { system, state, label: null } as const;
  if (unknown.includes('pull')) {
    const words = `Which conductor does ${where} is not known: ${listed(unknown)} cannot be told.`;
    return { ...nothing, verdict: 'not known', limitedBy: unknown, words };
  }
  for (const verdicts of [['fails', 'not known', 'thin'] as const, ['fails', 'not known'] as const]) {
    const at = rows.findIndex((row) => unmet(row, verdicts).length === 0);
    if (at < 0) continue;
    const isThin = verdicts.length === 2;
    const limitedBy = at === 0 ? [] : unmet(rows[at - 1], verdicts);
    const words = [
      `${rows[at].label} ${where}.`,
      at === 0 ? 'The thinnest of this list does.' : `One size smaller does not do for ${listed(limitedBy)}.`,
      ...(isThin ? ['No size has the wanted margin everywhere.'] : []),
      ...(unknown.length > 0 ? [`Not known at any size: ${listed(unknown)}.`] : []),
      ...(hasFuse ? [] : ['No fuse is fitted, and without one no conductor is safe.']),
    ].join(' ');
    const verdict = !hasFuse ? 'fails' : unknown.length > 0 ? 'not known' : isThin ? 'thin' : 'holds';
    return { system, state, label: rows[at].label, verdict, limitedBy, words };
  }
  const limitedBy = unmet(rows[rows.length - 1], ['fails', 'not known']);
  const words = `No conductor of this list does ${where}: even the thickest does not do for ${listed(limitedBy)}.`;
  return { ...nothing, verdict: 'fails', limitedBy, words };
}

function listed(these: readonly Demand[]): string {
  const words = these.map((demand) => demands[demand]);
  return words.length < 2 ? (words[0] ?? 'nothing') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}
