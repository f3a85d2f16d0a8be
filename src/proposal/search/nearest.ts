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
import type { SpringSetting } from './spring-choices.ts';
import type { SolenoidJob } from '../../assessment/rig.ts';

export interface Near {
  readonly words: readonly string[];
  readonly changes: readonly Change[];
  readonly value: number;
  readonly cost: number;
  /** Of a spring that is to be ordered. */
  readonly order?: SpringSetting['order'];
}

/** A change that was tried, with the knob that makes it. */
export interface Tried extends Near {
  readonly knob: string;
}

/** The best single changes of so many knobs are tried with a second change. */
const PAIRED = 8;
const ENOUGH = 1 - 1e-9;

/** Whether there is anything to mend. */
export function isMending({ judge }: Problem): boolean {
  return judge.valueOf(judge.before) < ENOUGH;
}

export function knobCount({ job }: Problem): number {
  return knobsOf(job, metricUnits).length;
}

/** Every setting of knobs `from` to before `until`. */
export function singlesOf(problem: Problem, from: number, until: number): Tried[] {
  return settingsOf(problem, problem.job, from, until);
}

/** A change with a second one, where the two are enough. */
export function pairsOf(problem: Problem, first: Tried): Tried[] {
  return settingsOf(problem, apply(problem.job, first.changes), 0, Infinity)
    .filter(({ knob, value }) => value >= ENOUGH && axisOf(knob) !== axisOf(first.knob))
    .map((second) => ({ ...together(first, second), knob: second.knob }));
}

/** The best setting of each knob, the best knobs first. */
export function toPair(singles: readonly Tried[]): Tried[] {
  const best = new Map<string, Tried>();
  for (const one of singles) if (one.value > (best.get(one.knob)?.value ?? -Infinity)) best.set(one.knob, one);
  return [...best.values()].sort((a, b) => b.value - a.value).slice(0, PAIRED);
}

/** A knob and its opposite turn the same thing. */
const axisOf = (name: string): string => name.replace(/ (up|down|back|-?1)$/, '');

function together(first: Near, second: Near): Near {
  const changes = [...first.changes, ...second.changes];
  return { words: [...first.words, ...second.words], changes, value: second.value, cost: costOf(changes) };
}

function settingsOf(problem: Problem, job: SolenoidJob, from: number, until: number): Tried[] {
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

/** Of equal cost the first stays, and ladders go from small to large. */
export function cheapest(list: readonly (Near | null)[]): Near | null {
  return list.reduce<Near | null>(
    (best, one) => (one !== null && one.value >= ENOUGH && (best === null || one.cost < best.cost) ? one : best),
    null,
  );
}
