/** What the parts of "Springs" are made of. */
import type { Verdict } from '../../assessment/finding.ts';
import type { Change } from '../../job/change.ts';
import { propose } from '../desk/proposals.ts';
import { VerdictMark } from '../show/verdict-mark.tsx';
import { verdictWords } from '../show/words.ts';

export function Try({ name, changes }: { readonly name: string; readonly changes: readonly Change[] }) {
  return (
    <button
      type="button"
      className="small"
      aria-label={`Try it: ${name}`}
      onClick={() => void propose({ name, changes })}
    >
      Try it
    </button>
  );
}

export function Verdicted({
  verdict,
  name,
  beside,
}: {
  readonly verdict: Verdict;
  readonly name: string;
  readonly beside: string;
}) {
  return (
    <p className="springs-name">
      <VerdictMark verdict={verdict} size={18} /> <b>{name}</b>{' '}
      <span className="quiet">
        {beside === '' ? '' : `${beside}, `}the whole installation then: {verdictWords[verdict].toLowerCase()}
      </span>
    </p>
  );
}
