/** Does the pull carry the lever home, at the start and everywhere on the way? (Hold: hold.ts.) */
import { newNeeded } from '../../physics/plunger.ts';
import {
  decided,
  MM,
  oncePer,
  placeOf,
  pullInSupply,
  unique,
  type Check,
  type Context,
  type DecidedCheck,
} from '../check.ts';
import { leastOver, leastStation, type MarginCurve } from '../least.ts';
import type { Rig } from '../rig.ts';
import { neededAt, neededInto } from '../forces.ts';
import type { End } from '../lever-moments.ts';
import { pullAt, type Scene } from '../scene.ts';

interface Decided {
  readonly scene: Scene;
  readonly friction: End;
  /** Of the electric corner. */
  readonly row: number;
  readonly margin: number;
}

/** All rows of a scene are worked out only where one is asked for that is not the weakest. */
export function pullIn(scene: Scene, row: number): ArrayLike<number> {
  return scene.weakest?.corner === row ? scene.weakest.pull : scene.pull[row];
}

/**
 * Low supply with a hot coil must be known; a corner with more current is left out where nothing was read for it.
 *
 * @param leastIn by scene and friction: the least in the electric corner of a row
 */
function decidingCorner(
  { scenes, electric }: Context,
  leastIn: (scene: Scene, friction: End, row: number) => number,
): Decided {
  let worst: Decided | null = null;
  for (const scene of scenes) {
    for (const friction of ['high', 'low'] as const) {
      for (let row = 0; row < electric.length; row++) {
        if (scene.weakest !== null && row !== scene.weakest.corner) continue;
        const margin = leastIn(scene, friction, row);
        const mustBeKnown = electric[row].supply === 'low' && electric[row].coil === 'hot';
        if (Number.isNaN(margin) && !mustBeKnown) continue;
        if (worst === null || Number.isNaN(margin) || margin < worst.margin) worst = { scene, friction, row, margin };
        if (Number.isNaN(margin)) return worst;
      }
    }
  }
  return worst!;
}

export const share = (available: number, needed: number): number =>
  needed === Infinity ? -1 : needed <= 0 ? Infinity : available / needed - 1;

// Written over at every place: read at once or not at all.
const asked = newNeeded();

export function pullsInFromFullStroke(context: Context): DecidedCheck {
  const { rig, needs, say } = context;
  const find = oncePer(context, () =>
    decidingCorner(context, (scene, friction, row) => {
      const { travel } = scene;
      const last = travel.stations.length - 1;
      neededInto(context.rig, travel, travel.stations[last], friction, context.rig.lever.breakaway, asked);
      return share(pullIn(scene, row)[last], asked.needed);
    }),
  );
  return {
    id: 'pulls-in-from-full-stroke',
    title: rig.toStop ? 'Pulls in from full stroke' : 'Pulls in from full stroke while cranking',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.pull,
    how: `Pull at the gap where the lever is taken along, at the terminal volts of ${rig.toStop ? 'a low battery' : 'a battery that turns the starter'} with a hot coil, over the pull needed there, minus one. Needed: connection and guide friction by statics at the high friction, the plunger's springs, its weight along the axis, vibration, the end switch, and the extra friction of the first movement.`,
    needs: [...needs.pullNeeded, ...needs.pullAvailable, ...needs.firstPull],
    unread: unreadPull(context),
    ...decided(find, ({ scene, friction, row }) => {
      const { travel } = scene;
      const last = travel.stations.length - 1;
      const station = travel.stations[last];
      const { needed } = neededAt(rig, travel, station, friction, rig.lever.breakaway);
      const { supply, coil } = context.electric[row];
      const value = pullIn(scene, row)[last];
      return {
        value,
        limit: needed,
        at: placeOf(station, scene, { supply: pullInSupply(rig, supply), coil, friction }),
        because: `${say.force(value)} of pull at ${say.length(station.gap)} from home, where the first movement after standing asks ${needWords(needed, say)}.`,
      };
    }),
  };
}

/** Pull over need in one corner, minus one, over the travel. */
function pullCurve(context: Context, friction: End, row: number): MarginCurve<Scene> {
  return {
    over(scene, into) {
      const { travel, needed } = scene;
      const available = pullIn(scene, row);
      const need = needed[friction].needed;
      for (let i = 0; i < travel.stations.length; i++) into[i] = share(available[i], need[i]);
    },
    at({ travel }, station) {
      neededInto(context.rig, travel, station, friction, 0, asked);
      return share(pullAt(context.rig, station.gap, context.electric[row], 'least'), asked.needed);
    },
  };
}

export function pullsInEverywhere(context: Context): DecidedCheck {
  const { rig, needs, say } = context;
  const curvesAt = (friction: End) => context.electric.map((_, row) => pullCurve(context, friction, row));
  const curves = { low: curvesAt('low'), high: curvesAt('high') };
  const find = oncePer(context, () => {
    // The corners are compared at the stations; only the one that decides is refined between them.
    const corner = decidingCorner(context, (scene, friction, row) => leastStation(scene, curves[friction][row]).margin);
    return { ...corner, ...leastOver(context.rig, corner.scene, curves[corner.friction][corner.row]) };
  });
  return {
    id: 'pulls-in-everywhere',
    title: rig.toStop ? 'Pulls in everywhere on the way home' : 'Pulls in everywhere on the way home while cranking',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.pull,
    how: 'Pull over need, minus one, at 65 gaps and refined between them, in every corner of supply, coil temperature and friction; at the step of an over-travel spring on both sides.',
    needs: [...needs.pullNeeded, ...needs.pullAvailable],
    unread: unreadPull(context),
    ...decided(find, ({ station, scene, friction, row }) => {
      const corner = context.electric[row];
      const pull = pullAt(rig, station.gap, corner, 'least');
      const { needed } = neededAt(rig, scene.travel, station, friction);
      return {
        value: pull,
        limit: needed,
        at: placeOf(station, scene, { supply: pullInSupply(rig, corner.supply), coil: corner.coil, friction }),
        because: `The margin is least ${say.length(station.gap)} from home: ${say.force(pull)} of pull against ${needWords(needed, say)}.`,
      };
    }),
  };
}

/**
 * Where only the end switch at home ends the full current, a plunger that stalls on the way burns its coil.
 *
 * @param pulls the two findings that say whether it stalls, at the start and on the way
 */
export function fullCurrentEnds(context: Context, pulls: readonly [DecidedCheck, DecidedCheck]): Check | null {
  const { rig, say } = context;
  if (!isEndedBySwitch(rig)) return null;
  const [start, way] = pulls;
  return {
    id: 'full-current-ends',
    title: 'Full current ends: the plunger does not stall',
    question: 'burns',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.pull,
    how: 'The lesser of the two pull-in margins: only the end switch at home ends the full current, so a stall leaves it on.',
    needs: unique([...start.needs, ...way.needs]),
    unread: unreadPull(context),
    margin() {
      const [atStart, onTheWay] = [start.margin(), way.margin()];
      return isLesser(atStart, onTheWay) ? atStart : onTheWay;
    },
    judge() {
      const [atStart, onTheWay] = [start.judge(), way.judge()];
      const worst = isLesser(atStart.margin, onTheWay.margin) ? atStart : onTheWay;
      const gap = say.length((worst.at?.gap_mm ?? NaN) * MM);
      const weakest = context.electric.find(({ supply, coil }) => supply === 'low' && coil === 'hot')!;
      const current = say.current(weakest.pullIn.supply);
      return {
        ...worst,
        because:
          worst.margin >= 0
            ? `Nearest to a stall it is ${gap} from home; there the full current of ${current} would stay on.`
            : `The plunger stalls ${gap} from home, and the full current of ${current} stays on until something burns.`,
      };
    },
  };
}

export const isLesser = (one: number, other: number): boolean => Number.isNaN(one) || one <= other;

function needWords(needed: number, say: Context['say']): string {
  return needed === Infinity ? 'more than any pull can give, the connection being held fast' : say.force(needed);
}

function unreadPull({ rig, say }: Context): NonNullable<Check['unread']> {
  const stroke = say.length(rig.stroke);
  return {
    because: `The pulls that were read do not cover every gap from 0 to ${stroke} at a current within a factor 1.5 of what flows here.`,
    readings: ['means.force'],
  };
}

export function isEndedBySwitch({ job }: Rig): boolean {
  const { stages } = job.means.coil;
  return stages === 'pull-in and hold windings' || stages === 'series resistor';
}
