/** A verdict as it is printed: a word and a mark, so that colour is never needed. */
import type { Verdict } from '../assessment/finding.ts';
import type { Paint } from './print.ts';

const marks: Record<Verdict, string> = { holds: '+', thin: '~', fails: 'X', 'not known': '?' };

/** Columns that a verdict takes: its mark, a space, and the longest word. */
export const VERDICT_WIDTH = 11;

export function verdictWord(verdict: Verdict, paint: Paint): string {
  const word = `${marks[verdict]} ${verdict.padEnd(VERDICT_WIDTH - 2)}`;
  return { holds: paint.good, thin: paint.warn, fails: paint.bad, 'not known': paint.warn }[verdict](word);
}
