/** Where nothing in the space works: what closes it, in words. */
import { assess } from '../../assessment/assess.ts';
import { apply } from '../../job/change.ts';
import { metricUnits } from '../../units/quantity.ts';
import type { Closing } from './closing.ts';
import { changesOf, type Problem, type Rated } from './problem.ts';
import type { Run } from './run-state.ts';

export interface Closed {
  readonly words: string;
  readonly limits: readonly Closing[];
}

export function closedOf(problem: Problem, run: Run, best: Rated | null): Closed {
  const { limits, turnedAway } = run;
  const opening = limits.filter(({ opens }) => opens).map(({ limit }) => limit);
  const barrier = best === null ? commonest(turnedAway) : null;
  const changed = best === null ? null : apply(problem.job, changesOf(problem, best));
  const deciding = changed === null ? null : problem.judge.decidingOf(assess(changed, metricUnits, 'at rest').findings);
  const reason =
    deciding !== null && best !== null
      ? `The best that was found still fails "${deciding.title}": ${deciding.because}`
      : barrier === null
        ? 'No layout goes together.'
        : `No layout goes together; most are turned away by ${barrier}.`;
  const words =
    opening.length > 0
      ? `Nothing in this space works. What closes it: ${opening.join('; or ')}. ${reason}`
      : `Nothing in this space works, and no single limit opens it. ${reason}`;
  return { words, limits };
}

function commonest(turnedAway: Run['turnedAway']): string | null {
  return [...turnedAway].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}
