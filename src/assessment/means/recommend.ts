/** Which means to take, and why. The reasons are read from the columns; a person may overrule them. */
import type { Verdict } from '../finding.ts';
import type { MeansColumn, MeansComparison } from './comparison.ts';

const rank: Record<Verdict, number> = { holds: 0, thin: 1, 'not known': 2, fails: 3 };
/** Among those that hold alike: what needs no energy comes first, then what was surveyed before what has starting values. */
const energy: Record<MeansColumn['kind'], number> = { 'hand cable': 0, solenoid: 1, 'air cylinder': 1 };

export function recommend(columns: readonly MeansColumn[]): MeansComparison['recommended'] {
  const able = columns.filter(({ notPossible, verdict }) => notPossible === null && verdict !== null);
  const [best, next] = able.toSorted((a, b) => order(a) - order(b));
  if (best === undefined || best.verdict === 'fails')
    return {
      column: null,
      words: 'None of these means works as it is described.',
      reasons: able.map(reasonAgainst),
    };
  return {
    column: columns.indexOf(best),
    words: best.origin === 'chosen' ? `Keep the ${lower(best.name)}.` : `Take the ${lower(best.name)}.`,
    reasons: [
      reasonFor(best),
      energy[best.kind] === 0
        ? 'It needs no energy but the hand, and somebody must be there to pull it.'
        : `It needs ${best.kind === 'solenoid' ? 'current' : 'air'}: a hand stop that works without stays fitted beside it.`,
      ...(best.origin === 'starting values' ? ['It rests on starting values: describe it before it is bought.'] : []),
      ...able.filter((column) => column !== best && order(column) > order(best)).map(reasonAgainst),
      ...(next !== undefined && rank[next.verdict!] === rank[best.verdict!] ? [`${next.name} would do as well.`] : []),
    ],
  };
}

function order({ verdict, kind, origin }: MeansColumn): number {
  return (
    100 * rank[verdict!]
    + 10 * (origin === 'starting values' ? 1 : 0)
    + 2 * energy[kind]
    + (origin === 'chosen' ? 0 : 1)
  );
}

const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1);

function reasonFor({ name, verdict, cells }: MeansColumn): string {
  const [first] = cells.stops.lines;
  return verdict === 'holds'
    ? `${name}: every check holds. ${first}`
    : `${name}: ${verdict}, the best of those that can be had. ${first}`;
}

function reasonAgainst({ name, verdict, answers, cells }: MeansColumn): string {
  if (verdict === 'holds') return `${name}: it holds too.`;
  const deciding = answers.find((answer) => answer.verdict === verdict);
  const row =
    deciding?.question === 'runs' ? cells['comes back'] : deciding?.question === 'burns' ? cells.heat : cells.stops;
  return `${name}: ${verdict}. ${row.lines[0] ?? ''}`.trim();
}
