/**
 * The screen that every spring of a drawer passes in every mount: does its line lie in the window at every gap, do its own
 * limits hold, and how much is left. Numbers only, so that ten thousand springs take a moment.
 */
import { WANTED_OF_SPRINGS } from '../assessment/checks/spring.ts';
import { leftAt, type OwnLimit } from '../assessment/spring-limits.ts';
import type { Edge, WindowStation } from '../assessment/window/kinds.ts';
import type { KnownSpring, Mount, Target } from './drawer-mount.ts';

/** What keeps a spring out. */
export type Closing =
  | { readonly by: 'floor' | 'ceiling'; readonly station: WindowStation; readonly edge: Edge; readonly value: number }
  /** Round the shaft the extreme is how far it is wound, rad. */
  | { readonly by: OwnLimit; readonly margin: number; readonly extreme: number; readonly on: Mount['on'] }
  | {
      readonly by: 'room';
      readonly what: 'outside' | 'inside';
      readonly size: number;
      readonly room: number;
      readonly on: Mount['on'];
    }
  | { readonly by: 'finding'; readonly id: string; readonly title: string }
  | { readonly by: 'not known' }
  | { readonly by: 'no place' };

/** A spring in its best mount. */
export interface Screened {
  readonly mount: number;
  readonly fits: boolean;
  /** The smallest margin over the wanted one, minus one: nought is just enough, below it something is short. */
  readonly score: number;
  readonly closing: Closing | null;
}

/** Edges of a target as plain rows, all scenes one after the other. */
export interface Rows {
  readonly stations: readonly WindowStation[];
  readonly floor: EdgeRows;
  readonly ceiling: EdgeRows;
}

interface EdgeRows {
  readonly n0: Float64Array;
  readonly n1: Float64Array;
  readonly d0: Float64Array;
  readonly d1: Float64Array;
  readonly wanted: Float64Array;
  /** Where no spring of this place can do it. */
  readonly isShut: boolean;
}

export function rowsOf({ window }: Target): Rows {
  const stations = window.scenes.flatMap((scene) => scene.stations);
  return { stations, floor: edgeRows(stations, 'floor'), ceiling: edgeRows(stations, 'ceiling') };
}

function edgeRows(stations: readonly WindowStation[], which: 'floor' | 'ceiling'): EdgeRows {
  const of = (key: 'n0' | 'n1' | 'd0' | 'd1' | 'wanted') => Float64Array.from(stations, (one) => one[which].line[key]);
  return {
    n0: of('n0'),
    n1: of('n1'),
    d0: of('d0'),
    d1: of('d1'),
    wanted: of('wanted'),
    isShut: stations.some((one) => one[which].value === (which === 'floor' ? Infinity : -Infinity)),
  };
}

/** Margin over wanted minus one of an edge at a station. */
function beyond({ n0, n1, d0, d1, wanted }: EdgeRows, j: number, value: number): number {
  const over = d0[j] + d1[j] * value;
  if (over <= 0) return Infinity;
  const margin = (n0[j] + n1[j] * value) / over;
  return wanted[j] > 0 ? margin / wanted[j] - 1 : margin;
}

/** The best mount of one spring at one place. */
export function screen(target: Target, rows: Rows, spring: KnownSpring | null): Screened {
  if (spring === null) return { mount: -1, fits: false, score: -Infinity, closing: { by: 'not known' } };
  const tight = roomFor(target, spring);
  if (tight !== null) return { mount: -1, fits: false, score: -Infinity, closing: tight };
  const shut = shutAt(target, rows);
  if (shut !== null) return { mount: -1, fits: false, score: -Infinity, closing: shut };
  let best: Screened | null = null;
  for (let m = 0; m < target.mounts.length; m++) {
    const one = inMount(target, rows, spring, m, best?.score ?? -Infinity);
    if (one !== null) best = one;
  }
  return best ?? { mount: -1, fits: false, score: -Infinity, closing: { by: 'no place' } };
}

/** A wanted margin met to the last digits counts as met. */
const JUST = 1e-7;

/** A window that no spring of this place can open. */
function shutAt({ window }: Target, { floor, ceiling }: Rows): Closing | null {
  if (window.tightest === null) return { by: 'not known' };
  if (!floor.isShut && !ceiling.isShut) return null;
  const { station } = window.tightest;
  const by = station.floor.value === Infinity ? 'floor' : 'ceiling';
  return { by, station, edge: station[by], value: NaN };
}

/** Null where the mount is no better than what is known already. */
function inMount(
  target: Target,
  { stations, floor, ceiling }: Rows,
  { working, limits, insideAt }: KnownSpring,
  m: number,
  toBeat: number,
): Screened | null {
  const { kind, rate, freeLength, initialTension } = working;
  const lengths = target.lengths[m];
  const arms = target.arms[m];
  const way = kind === 'extension' ? 1 : -1;
  let score = Infinity;
  let at = -1;
  let isFloor = false;
  let extreme = lengths[0];
  for (let j = 0; j < lengths.length; j++) {
    const length = lengths[j];
    if (j < target.surveyed && way * (length - extreme) > 0) extreme = length;
    const deflection = way * (length - freeLength);
    const value = deflection > 0 ? way * arms[j] * (initialTension + rate * deflection) : 0;
    const over = beyond(floor, j, value);
    const under = beyond(ceiling, j, value);
    if (over < score) {
      score = over;
      at = j;
      isFloor = true;
    }
    if (under < score) {
      score = under;
      at = j;
      isFloor = false;
    }
    // It only falls from here.
    if (score <= toBeat) return null;
  }
  const left = leftAt(limits, working, extreme);
  if (Number.isNaN(left.margin))
    return toBeat === -Infinity ? { mount: m, fits: false, score: -1e9, closing: { by: 'not known' } } : null;
  const own = left.margin / WANTED_OF_SPRINGS - 1;
  const { on } = target.question;
  const inside = target.insideLeast === null ? null : insideAt(extreme);
  if (inside !== null && target.insideLeast !== null && inside < target.insideLeast) {
    const tight = Math.min(score, own, inside / target.insideLeast - 1);
    const closing: Closing = { by: 'room', what: 'inside', size: inside, room: target.insideLeast, on };
    return tight <= toBeat ? null : { mount: m, fits: false, score: tight, closing };
  }
  if (own < score) {
    if (own <= toBeat) return null;
    return {
      mount: m,
      fits: own >= 0,
      score: own,
      closing: own >= 0 ? null : { by: left.limit, margin: left.margin, extreme, on },
    };
  }
  const station = stations[at];
  const deflection = way * (lengths[at] - freeLength);
  const value = deflection > 0 ? way * arms[at] * (initialTension + rate * deflection) : 0;
  const by = isFloor ? 'floor' : 'ceiling';
  return {
    mount: m,
    fits: score >= -JUST,
    score,
    closing: score >= -JUST ? null : { by, station, edge: station[by], value },
  };
}

/** What keeps it out in every mount. */
function roomFor(
  { outsideMost, insideLeast, question: { on } }: Target,
  { outside, insideAt }: KnownSpring,
): Closing | null {
  if (on === 'lever') return null;
  if (outside !== null && outsideMost !== null && outside > outsideMost)
    return { by: 'room', what: 'outside', size: outside, room: outsideMost, on };
  const inside = insideAt(0);
  if (inside !== null && insideLeast !== null && inside < insideLeast)
    return { by: 'room', what: 'inside', size: inside, room: insideLeast, on };
  return null;
}
