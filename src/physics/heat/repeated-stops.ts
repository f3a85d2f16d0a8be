/**
 * One stop after another with the same pause: where it settles, and how many stops in a row it takes to pass each class.
 */
import type { ThermalClass } from '../thermal-class.ts';
import type { CoilBody } from './coil-body.ts';
import { heating, type HeatingOptions } from './heating.ts';
import type { Temperatures } from './nodes.ts';
import type { HeatingRun } from './run.ts';
import { CEILING, COLDEST, type HeatStage } from './stages.ts';

export interface RepeatedStops {
  /** In which stop of the row the mean of the winding first passes each class less the allowance; null: never, however many. */
  readonly stopsUntil: readonly { readonly thermalClass: ThermalClass; readonly stops: number | null }[];
  /** The stop after very many; null if the winding passes 300 °C on the way there. */
  readonly settled: {
    /** At the beginning of each stop. */
    readonly start: Temperatures;
    readonly greatest: HeatingRun['greatest'];
  } | null;
  /** False if the search for `settled` ended early, or a class was not passed within `mostStops` though it will be. */
  readonly converged: boolean;
}

export interface RepeatedStopsOptions extends HeatingOptions {
  readonly mostStops?: number;
}

/** The settled start is found to this, K. */
const NEAR = 0.02;
/** Errors of one stop add up over all the stops that the coil remembers: a closer look than for a single run. */
const TOLERANCE = 1e-3;

/**
 * A row of equal stops, each the given stages (pull, hold, pause), from a start.
 *
 * What a stop does to the temperatures at its beginning is nearly a straight line, so the stop that repeats itself is found
 * by Newton's rule in a few runs. Stops are counted one by one, only as long as a class remains that will be passed.
 *
 * @throws DomainError as `heating`
 */
export function repeatedStops(
  body: CoilBody,
  stop: readonly HeatStage[],
  start: Temperatures,
  options: RepeatedStopsOptions = {},
): RepeatedStops {
  const { mostStops = 1000, ...rest } = options;
  const run = (from: Temperatures): HeatingRun => heating(body, stop, from, { tolerance: TOLERANCE, ...rest });

  const first = run(start);
  const { start: repeated, run: repeating, converged } = settle(run, start, first);
  const stops: (number | null)[] = first.passed.map(({ time }) => (time === null ? null : 1));
  /** Is there a class that will be passed and has not been yet? */
  const open = (): boolean =>
    stops.some((stopped, i) => stopped === null && (repeating === null || repeating.passed[i].time !== null));
  let last = first;
  let count = 1;
  // It creeps up to the settled stop for ever: a class that only that one passes, by a hair, is passed in no countable stop.
  let creeps = false;
  while (open() && last.ended === 'duration' && !creeps && count < mostStops) {
    const before = last.end;
    last = run(before);
    count++;
    last.passed.forEach(({ time }, i) => {
      if (stops[i] === null && time !== null) stops[i] = count;
    });
    const near = repeating === null ? last.end : repeated;
    const away = (one: Temperatures): number =>
      Math.max(Math.abs(one.winding - near.winding), Math.abs(one.can - near.can));
    creeps = repeating === null ? away(before) < 1e-5 : away(last.end) < NEAR;
  }
  return {
    stopsUntil: first.passed.map(({ thermalClass }, i) => ({ thermalClass, stops: stops[i] })),
    settled: repeating === null ? null : { start: repeated, greatest: repeating.greatest },
    converged: converged && (last.ended === 'ceiling' || (creeps ? repeating !== null : !open())),
  };
}

/** The start that a stop leads back to, and the run from there; `run: null` where every way there passes the ceiling. */
function settle(
  run: (from: Temperatures) => HeatingRun,
  start: Temperatures,
  first: HeatingRun,
): { readonly start: Temperatures; readonly run: HeatingRun | null; readonly converged: boolean } {
  let at = start;
  let here = first;
  for (let turn = 0; turn < 30; turn++) {
    if (here.ended === 'ceiling') return { start: at, run: null, converged: true };
    const gw = here.end.winding - at.winding;
    const gc = here.end.can - at.can;
    const nudge = Math.min(at.winding, at.can) < COLDEST + 1 ? 1 : -1;
    const byWinding = run({ winding: at.winding + nudge, can: at.can });
    const byCan = run({ winding: at.winding, can: at.can + nudge });
    if (byWinding.ended === 'ceiling' || byCan.ended === 'ceiling') return { start: at, run: null, converged: true };
    // Slopes of (end - start) over the start, which was moved by one kelvin: downward, away from the ceiling, if it may.
    const a = nudge * (byWinding.end.winding - here.end.winding) - 1;
    const b = nudge * (byCan.end.winding - here.end.winding);
    const c = nudge * (byWinding.end.can - here.end.can);
    const d = nudge * (byCan.end.can - here.end.can) - 1;
    const determinant = a * d - b * c;
    let moveWinding = (b * gc - d * gw) / determinant;
    let moveCan = (c * gw - a * gc) / determinant;
    const far = Math.max(Math.abs(moveWinding), Math.abs(moveCan));
    if (!(far < Infinity)) return { start: at, run: here, converged: false };
    if (far < NEAR) return { start: at, run: here, converged: true };
    // Heat lost bends upward with temperature: Newton's rule overshoots. A hundred kelvins at once are enough.
    if (far > 100) [moveWinding, moveCan] = [(moveWinding * 100) / far, (moveCan * 100) / far];
    let next: HeatingRun | null = null;
    for (let share = 1; share > 0.01 && next === null; share /= 2) {
      const tried = { winding: at.winding + share * moveWinding, can: at.can + share * moveCan };
      if (Math.max(tried.winding, tried.can) > CEILING || Math.min(tried.winding, tried.can) < COLDEST) continue;
      const outcome = run(tried);
      if (outcome.ended === 'ceiling') continue;
      next = outcome;
      at = tried;
    }
    if (next === null) return { start: at, run: null, converged: true };
    here = next;
  }
  return { start: at, run: here, converged: false };
}
