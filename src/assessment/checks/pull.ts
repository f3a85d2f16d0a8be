/** Does the pull carry the lever home? At the start, everywhere on the way, and in hold. */
import { connectionForce, heldForce } from '../../physics/linkage.ts';
import { newNeeded } from '../../physics/plunger.ts';
import { tableForce } from '../../physics/solenoid/table.ts';
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
import { neededInto } from '../forces.ts';
import { leastOver, leastStation, type MarginCurve } from '../least.ts';
import type { Rig } from '../rig.ts';
import { leverMoments, type End } from '../lever-moments.ts';
import { neededAt, plungerSpringForce } from '../forces.ts';
import { pullAt, type Scene } from '../scene.ts';
import { stationAt } from '../travel.ts';

interface Decided {
  readonly scene: Scene;
  readonly friction: End;
  /** Of the electric corner. */
  readonly row: number;
  readonly margin: number;
}

/** All rows of a scene are worked out only where one is asked for that is not the weakest. */
function pullIn(scene: Scene, row: number): ArrayLike<number> {
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

const share = (available: number, needed: number): number =>
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

const isLesser = (one: number, other: number): boolean => Number.isNaN(one) || one <= other;

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

/**
 * Static: nothing slides in hold, so no friction is counted on to help. Where the plunger stops too far from home for the
 * end switch to be worked, the full current goes on and it is that which holds (and burns: another question).
 */
export function holdsAtHome(context: Context): Check {
  const { rig, needs, say } = context;
  const bySwitch = isEndedBySwitch(rig);
  const isEverFull = context.scenes.some(({ travel }) => !isReducedAt(rig, travel.homeGap));
  const holdCurrent = context.electric[weakestCorner(context)].hold.coil;
  const find = () => {
    const judged = context.scenes.map((scene) => {
      const needed = holdNeeded(context.rig, scene);
      const held = holdGiven(context, scene);
      return { scene, needed, held, margin: share(held, needed) };
    });
    return judged.reduce((least, next) => (isLesser(least.margin, next.margin) ? least : next));
  };
  return {
    id: 'holds-at-home',
    title: 'Holds at home',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'N',
    marginUnit: 'share',
    wanted: rig.wanted.hold,
    how: 'Pull at home at the hold current of a low battery with a hot coil, over springs, weight and vibration there, minus one. No friction is counted on to help.',
    needs: unique([
      ...needs.travel,
      ...needs.load,
      ...needs.springs,
      ...needs.weight,
      ...needs.overTravel,
      ...needs.holdLow,
      ...needs.holdTable,
      ...(isEverFull ? needs.pullAvailable : []),
      ...(bySwitch ? needs.switchForce : []),
    ]),
    unread: {
      because: `No pull was read at home within a factor 1.5 of the hold current, ${say.current(holdCurrent)}: hang a weight on the plunger at home at hold current.`,
      readings: ['means.force'],
    },
    ...decided(find, ({ scene, needed, held }) => {
      const reduced = isReducedAt(rig, scene.travel.homeGap);
      const asks = `${say.force(needed)} that springs, weight and vibration ask`;
      const words = reduced
        ? `${say.force(held)} of hold at ${say.current(holdCurrent)} against ${asks}.`
        : `The end switch is not worked, so the full current goes on and holds with ${say.force(held)} against ${asks}.`;
      return {
        value: held,
        limit: needed,
        at: placeOf(scene.travel.stations[0], scene, { supply: 'low', coil: 'hot' }),
        because:
          needed === Infinity ? 'The connection is held fast at home, so nothing can be said of holding there.' : words,
      };
    }),
  };
}

function isEndedBySwitch({ job }: Rig): boolean {
  const { stages } = job.means.coil;
  return stages === 'pull-in and hold windings' || stages === 'series resistor';
}

/** Whether the current at home is that of hold. */
function isReducedAt(rig: Rig, gap: number): boolean {
  return !isEndedBySwitch(rig) || (rig.endSwitch !== null && !(gap > rig.endSwitch.worksAtGap));
}

const weakestCorner = ({ electric }: Pick<Context, 'electric'>) =>
  electric.findIndex(({ supply, coil }) => supply === 'low' && coil === 'hot');

/** Pull at home of a low battery with a hot coil, N; NaN where it is not known. */
export function holdGiven({ rig, electric }: Pick<Context, 'rig' | 'electric'>, scene: Scene): number {
  const { travel } = scene;
  const weakest = weakestCorner({ electric });
  if (!isReducedAt(rig, travel.homeGap)) return pullIn(scene, weakest)[0];
  return rig.holdTable === null ? NaN : tableForce(rig.holdTable, travel.homeGap, electric[weakest].hold.coil, 'least');
}

/** What must be held at home, N. */
export function holdNeeded(rig: Rig, { travel }: Pick<Scene, 'travel'>): number {
  const station = stationAt(rig, travel, travel.homeGap);
  const frictionless = { slot: 0, pins: 0 };
  const force =
    station.stretch !== null && rig.overTravel !== null
      ? heldForce(travel.linkage, station.pose, rig.overTravel.preload + rig.overTravel.rate * station.stretch)
      : connectionForce(
          travel.linkage,
          station.pose,
          leverMoments(rig, station.shaftAngle, 'low', 'home').steady,
          1,
          frictionless,
        );
  const push = rig.endSwitch !== null && station.gap <= rig.endSwitch.worksAtGap ? rig.endSwitch.operatingForce : 0;
  return force.along + plungerSpringForce(rig, station.gap) - rig.weightAlong + rig.vibration + push;
}
