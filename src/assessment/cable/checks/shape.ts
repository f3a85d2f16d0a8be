/** What is the same in every check of a cable. */
import type { Check } from '../../check.ts';

export type { Check };

export function findingUnit(
  id: string,
  title: string,
  question: Check['question'],
  unit: string,
  marginUnit: string,
): Pick<Check, 'id' | 'title' | 'question' | 'unit' | 'marginUnit'> {
  return { id, title, question, unit, marginUnit };
}

/** A margin that is not known although no reading is missing: the check's `unread` says why. */
export const nothingKnown = { value: NaN, limit: null, margin: NaN, at: null, because: '' } as const;
