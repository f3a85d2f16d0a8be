/** The best layout of a job whose solenoid has just been exchanged: a short search, the present connection first. */
import { beginSearch, searchOn } from '../../numerics/discrete-search.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';
import type { Change } from '../../job/change.ts';
import { chosenAt, changesOf, problemOf, type Problem, type Rated } from './problem.ts';
import { refine } from './refine.ts';
import { spaceOf, type ConnectionKind } from './space.ts';
import { doTask } from './tasks.ts';

/** Kept of the quick look and assessed; and of those refined. */
const KEPT = 60;
const REFINED = 2;

export type Mounted =
  | { readonly changes: readonly Change[]; readonly value: number }
  /** Why there is none. */
  | { readonly because: string };

export function bestMounted(job: SolenoidJob): Mounted {
  const space = spaceOf(job);
  const present = job.layout.connection.kind;
  if (space === null) return { because: 'place and direction of the bracket, and its stroke, must be read first' };
  const tried = (connections: readonly ConnectionKind[]): Rated | Mounted => {
    const problem = problemOf(job, { space: { ...space, connections }, keep: KEPT });
    if (problem === null) return { because: 'the angles and the lash of the lever must be read first' };
    const best = bestIn(problem);
    return best === null
      ? { because: `no layout goes together${barrierWords(problem)}` }
      : { changes: changesOf(problem, best), value: best.value };
  };
  const others = space.connections.filter((kind) => kind !== present);
  const first = space.connections.includes(present) ? tried([present]) : null;
  if (first !== null && 'value' in first && first.value >= 1) return first as Mounted;
  const second = others.length === 0 ? null : tried(others);
  const found = [first, second].filter((one) => one !== null) as Mounted[];
  return found.reduce((best, one) =>
    'value' in one && (!('value' in best) || one.value > best.value + 1e-9) ? one : best,
  );
}

function bestIn(problem: Problem): Rated | null {
  const rated = problem.screens
    .flatMap((screen) => {
      const { kept } = searchOn(screen, beginSearch(screen), Infinity);
      const done = doTask(problem, { kind: 'assess', chosen: kept.map(({ choices }) => chosenAt(screen, choices)) });
      return done.kind === 'rated' ? done.rated : [];
    })
    .sort((a, b) => b.value - a.value);
  return [...rated.slice(0, REFINED).map((one) => refine(problem, one)), ...rated].reduce<Rated | null>(
    (best, one) => (best === null || one.value > best.value ? one : best),
    null,
  );
}

function barrierWords({ screens }: Problem): string {
  const [most] = screens.flatMap(({ turnedAway }) => [...turnedAway]).sort((a, b) => b[1] - a[1]);
  return most === undefined ? '' : `; most are turned away by ${most[0]}`;
}
