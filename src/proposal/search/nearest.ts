/**
 * The nearest answer to what is there: one change, else two, after which every margin that the search can move is as
 * large as wanted. Of those that do, the one that costs least, then the smallest change.
 */
import { assess, isSolenoid } from '../../assessment/assess.ts';
import { apply, type Change } from '../../job/change.ts';
import { readDocument } from '../../job/read.ts';
import { metricUnits } from '../../units/quantity.ts';
import { knobsOf } from '../knobs.ts';
import { costOf } from './cost.ts';
import { isAllowed, type Problem } from './problem.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';

export interface Near {
  readonly words: readonly string[];
  readonly changes: readonly Change[];
  readonly value: number;
  readonly cost: number;
}

export interface NearestState {
  /** Settings tried so far, of single changes and then of pairs. */
  readonly tried: number;
  readonly isDone: boolean;
  readonly share: number;
  readonly found: Near | null;
  /** The best setting of each knob, by its name. */
  readonly singles: readonly (Near & { readonly knob: string })[];
  /** How many of them have been paired. */
  readonly paired: number;
  readonly phase: 'singles' | 'pairs';
}

const PAIRED = 8;
const ENOUGH = 1 - 1e-9;

export function beginNearest(): NearestState {
  return { tried: 0, isDone: false, share: 0, found: null, singles: [], paired: 0, phase: 'singles' };
}

/** One knob, or one knob's partners. */
export function nearestOn(problem: Problem, state: NearestState): NearestState {
  if (state.phase === 'singles') {
    if (problem.judge.valueOf(problem.judge.before) >= ENOUGH) return { ...state, isDone: true, share: 1 };
    const knobs = knobsOf(problem.job, metricUnits);
    const from = state.tried;
    const until = Math.min(knobs.length, from + 4);
    const tried = settingsOf(problem, problem.job, from, until);
    const singles = [...state.singles, ...bestOfEach(tried)];
    const found = cheapest([state.found, ...tried]);
    const isLast = until >= knobs.length;
    return {
      ...state,
      tried: until,
      singles: isLast ? singles.sort((a, b) => b.value - a.value).slice(0, PAIRED) : singles,
      found,
      isDone: isLast && (found !== null || singles.length === 0),
      phase: isLast ? 'pairs' : 'singles',
      share: (0.2 * until) / knobs.length,
    };
  }
  const first = state.singles[state.paired];
  if (first === undefined) return { ...state, isDone: true, share: 1 };
  const job = apply(problem.job, first.changes);
  const partners = settingsOf(problem, job, 0, Infinity)
    .filter(({ knob }) => axisOf(knob) !== axisOf(first.knob))
    .map((one) => together(first, one));
  const paired = state.paired + 1;
  return {
    ...state,
    found: cheapest([state.found, ...partners]),
    paired,
    isDone: paired >= state.singles.length,
    share: 0.2 + (0.8 * paired) / state.singles.length,
  };
}

/** A knob and its opposite turn the same thing. */
const axisOf = (name: string): string => name.replace(/ (up|down|back|-?1)$/, '');

function together(first: Near, second: Near): Near {
  const changes = [...first.changes, ...second.changes];
  return { words: [...first.words, ...second.words], changes, value: second.value, cost: costOf(changes) };
}

function settingsOf(
  problem: Problem,
  job: SolenoidJob,
  from: number,
  until: number,
): (Near & { readonly knob: string })[] {
  return knobsOf(job, metricUnits)
    .slice(from, until)
    .flatMap((knob) =>
      knob.ladder.flatMap((amount) => {
        const setting = knob.settingAt(amount);
        if (setting === null) return [];
        const read = readDocument(apply(job, setting.changes));
        if (!read.ok || !isSolenoid(read.job) || !isAllowed(problem, read.job)) return [];
        const value = problem.judge.valueOf(assess(read.job, metricUnits, 'at rest').findings);
        return [
          { knob: knob.name, words: [setting.words], changes: setting.changes, value, cost: costOf(setting.changes) },
        ];
      }),
    );
}

function bestOfEach<T extends Near & { readonly knob: string }>(tried: readonly T[]): T[] {
  const best = new Map<string, T>();
  for (const one of tried) if (one.value > (best.get(one.knob)?.value ?? -Infinity)) best.set(one.knob, one);
  return [...best.values()];
}

/** Of equal cost the first stays, and ladders go from small to large. */
function cheapest(list: readonly (Near | null)[]): Near | null {
  return list.reduce<Near | null>(
    (best, one) => (one !== null && one.value >= ENOUGH && (best === null || one.cost < best.cost) ? one : best),
    null,
  );
}
