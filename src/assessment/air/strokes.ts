/**
 * What a cylinder does in time, once air is let in or out: the one place where a job meets the physics of a stroke.
 *
 * The slow way: lowest pressure (out: highest, for it takes longest to leave), coldest air, stiff, at one temperature. The hard
 * way: highest pressure, warmest air, easy, no heat from the walls. The time of a wave through the pipe is added.
 */
import { inSeries, shareOfPipe, type Restriction } from '../../physics/air/flow.ts';
import { stroke, type Process, type Stroke } from '../../physics/air/stroke.ts';
import { once } from '../check.ts';
import type { End } from '../lever-moments.ts';
import { mechanicalSceneOf, type MechanicalScene } from '../scene.ts';
import { loadOf } from '../time/load-of.ts';
import type { AirContext } from './air-context.ts';
import type { AirRig, AirWay } from './air-rig.ts';

export interface StrokeCorner {
  readonly towards: 'home' | 'out';
  readonly pressure: End;
  readonly friction: End;
  readonly process: Process;
  readonly air: 'coldest' | 'hottest';
}

export const SLOW_HOME: StrokeCorner = {
  towards: 'home',
  pressure: 'low',
  friction: 'high',
  process: 'isothermal',
  air: 'coldest',
};
export const HARD_HOME: StrokeCorner = {
  towards: 'home',
  pressure: 'high',
  friction: 'low',
  process: 'adiabatic',
  air: 'hottest',
};
/** By a spring the highest pressure takes longest to leave; by air the lowest pushes least. */
export const slowOut = ({ returnsByAir }: AirRig): StrokeCorner => ({
  ...SLOW_HOME,
  towards: 'out',
  pressure: returnsByAir ? 'low' : 'high',
});

export interface StrokeFound {
  readonly stroke: Stroke;
  /** Of the wave through the pipe, s; to be added to every time. */
  readonly delay: number;
}

export interface StrokeAskMore {
  readonly way?: AirWay;
  readonly marks?: readonly number[];
  readonly tracePoints?: number;
  readonly duration?: number;
  readonly untilArrival?: boolean;
}

/** What arrives at all has arrived by then, s; what has not is followed on. */
const FIRST_LOOK = 0.5;
export const WATCHED = 8;
/** Times come out within a thousandth. */
const TOLERANCE = 1e-5;

/** Null where a reading is missing, or where the connection is held fast or comes apart on the way. */
export function followed(context: AirContext, corner: StrokeCorner, more: StrokeAskMore = {}): StrokeFound | null {
  const { air, scenes } = context;
  const { cylinder, pipeVolume } = air;
  const way = more.way ?? air.way;
  const supply = air[corner.pressure];
  const temperature = air[corner.air];
  if (cylinder === null || way === null || Number.isNaN(supply + temperature)) return null;
  const [scene] = scenes;
  const load = loadOf(
    air.mechanical,
    withoutSeals(air, scene),
    corner.friction,
    corner.towards === 'home' ? 'pull-in' : 'release',
  );
  if (load === null) return null;
  const { homeGap, startGap } = scene.travel;
  const fed = pipeVolume * shareOfPipe(way.valve, way.pipe);
  const emptied = pipeVolume * shareOfPipe(way.exhaust, way.pipe);
  const ask = {
    cylinder,
    load,
    way: { homeGap, outGap: startGap },
    towards: corner.towards,
    supply,
    temperature,
    inlet: inSeries([way.valve, way.pipe]),
    exhaust: inSeries([way.pipe, way.exhaust]),
    pipes: corner.towards === 'home' ? { home: fed, out: emptied } : { home: emptied, out: fed },
    returnsByAir: air.returnsByAir,
    process: corner.process,
    tolerance: TOLERANCE,
    marks: more.marks ?? [],
    tracePoints: more.tracePoints ?? 0,
    untilArrival: more.untilArrival ?? true,
  };
  const first = stroke({ ...ask, duration: more.duration ?? FIRST_LOOK });
  const isOver = more.duration !== undefined || first.arrivesAt !== null;
  return { stroke: isOver ? first : stroke({ ...ask, duration: WATCHED }), delay: air.delay };
}

/** The stroke reckons the friction of the seals by its pressures; the load must not hold it too. */
function withoutSeals({ mechanical }: AirRig, { travel }: MechanicalScene): MechanicalScene {
  return mechanicalSceneOf({ ...mechanical, sticking: 0 }, null, travel);
}

export type Piece = 'valve' | 'pipe' | 'exhaust';
export const pieceWords: Record<Piece, string> = { valve: 'the valve', pipe: 'the pipe', exhaust: 'the way out' };

/** How much wider a piece is thought to be, to see what it costs. */
const WIDE = 30;

/** The piece of the way that costs most time: what would be saved with a wide one, s. */
export function dearest(
  context: AirContext,
  corner: StrokeCorner,
  timeIn: (found: StrokeFound) => number,
  marks: readonly number[],
): { readonly piece: Piece; readonly saves: number } | null {
  const { way } = context.air;
  if (way === null) return null;
  const now = followed(context, corner, { marks });
  if (now === null) return null;
  const time = timeIn(now);
  const wide = (one: Restriction): Restriction => ({ ...one, conductance: WIDE * one.conductance });
  return (['valve', 'pipe', 'exhaust'] as const)
    .map((piece) => {
      const found = followed(context, corner, { way: { ...way, [piece]: wide(way[piece]) }, marks });
      return { piece, saves: found === null ? 0 : time - timeIn(found) };
    })
    .reduce((most, next) => (next.saves > most.saves ? next : most));
}

/** The strokes that findings rest on, each followed once. */
export interface Strokes {
  readonly slowHome: () => StrokeFound | null;
  readonly hardHome: () => StrokeFound | null;
  readonly slowOut: () => StrokeFound | null;
}

export function strokesOf(
  context: AirContext,
  marks: { readonly home: readonly number[]; readonly out: readonly number[] },
): Strokes {
  return {
    slowHome: once(() => followed(context, SLOW_HOME, { marks: marks.home })),
    hardHome: once(() => followed(context, HARD_HOME)),
    slowOut: once(() => followed(context, slowOut(context.air), { marks: marks.out })),
  };
}
