/** What the first second decides: does it come home before the current is cut, how hard does it land, does it let go in time? */
import type { Motion } from '../../physics/motion/motion.ts';
import { LARGEST_MARGIN, once, placeOf, pullInSupply, unique, type Check, type Context } from '../check.ts';
import type { Place } from '../finding.ts';
import { magnetOf } from '../time/magnet-of.ts';
import {
  HARDEST,
  LATEST,
  letGo,
  pullIn,
  RELEASE_WATCHED,
  SLOWEST,
  type MotionCorner,
  type MotionFound,
} from '../time/motion-of.ts';
import { valueOf } from '../readings.ts';
import type { Rig } from '../rig.ts';

/** Time that there is over time that it takes, minus one: eddy currents, left out, make it slower. Common practice, no source. */
const TIME_MARGIN = 1;
/** Share by which the command should outlast way home and run-down. Common practice, no source. */
export const COMMAND_MARGIN = 0.25;
/** Relative error of a step: times and speeds come out within a thousandth. */
const TOLERANCE = 1e-5;
/** What comes home at all is home by then, s; what is not, is followed on. */
const FIRST_LOOK = 0.4;

/** The motions that findings rest on, each followed once. */
export interface Motions {
  readonly slowest: () => MotionFound;
  readonly hardest: () => MotionFound;
  readonly latest: () => MotionFound;
}

export function motionsOf({ rig, scenes: [scene] }: Context): Motions {
  const home = (corner: MotionCorner) =>
    once(() => {
      const first = pullIn(rig, scene, corner, { tolerance: TOLERANCE, duration: FIRST_LOOK });
      return !first.known || first.motion.timeToHome !== null
        ? first
        : pullIn(rig, scene, corner, { tolerance: TOLERANCE });
    });
  return {
    slowest: home(SLOWEST),
    hardest: home(HARDEST),
    latest: once(() => letGo(rig, scene, LATEST, { tolerance: TOLERANCE })),
  };
}

/** Longest time from switching on to home, s: NaN where it is not known, Infinity where it does not come home. */
export function slowestHome({ slowest }: Motions): number {
  return timeIn(slowest(), ({ timeToHome }) => timeToHome);
}

/** Infinity where it never comes to that. */
function timeIn(found: MotionFound, timeOf: (motion: Motion) => number | null): number {
  if (!found.known) return found.isHeldFast ? Infinity : NaN;
  return timeOf(found.motion) ?? Infinity;
}

/** What should be known of an inductance that was read and does not agree with the pulls. */
export function motionRemarks({ rig }: Context): string[] {
  if (rig.job.means.openInductance === undefined) return [];
  const found = magnetOf(rig);
  return found.known && found.magnet.approximation !== null ? [found.magnet.approximation] : [];
}

export function timeChecks(context: Context, motions: Motions): Check[] {
  return [
    comesHomeInTime(context, motions),
    landsSoftly(context, motions),
    letsGoInTime(context, motions),
    commandLastsLongEnough(context, motions),
  ].filter((check) => check !== null);
}

/** Where the plunger does not come home at all, another finding says so; this one then has no margin. */
const NEVER = -1;

function unreadOf(found: () => MotionFound): NonNullable<Check['unread']> {
  const why = () => {
    const one = found();
    return one.known ? { because: 'There is no time to tell.', readings: [] } : one;
  };
  return {
    get because() {
      return why().because;
    },
    get readings() {
      return why().readings;
    },
  };
}

/** How the magnet is known, for those who ask how a time is reckoned. */
function magnetWords({ job }: Rig): string {
  return job.means.map === undefined
    ? 'The flux of the magnet is estimated from its pulls, and eddy'
    : 'The magnet is the one that was solved from its dimensions; eddy';
}

/** Where a motion is followed. */
export function placeIn(rig: Rig, { supply, coil, friction }: MotionCorner): Place {
  return placeOf(null, null, { supply: pullInSupply(rig, supply), coil, friction });
}

function comesHomeInTime(context: Context, motions: Motions): Check | null {
  const { rig, say } = context;
  const { means, supply } = rig.job;
  const isTimed = means.coil.stages === 'timed economiser';
  if (typeof supply.cutOut === 'string' && !isTimed) return null;
  const paths = typeof supply.cutOut === 'string' ? [] : ['supply.cutOut.after'];
  return {
    id: 'home-in-time',
    title: 'Comes home before the pull-in current is cut',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 's',
    marginUnit: 'share',
    wanted: TIME_MARGIN,
    how: `Time of the cut-out or economiser over the time to home, minus one: circuit, magnet and plunger followed in time from rest, weakest supply, hot coil, high friction. ${magnetWords(rig)} currents in solid steel are left out: measured times are longer, so twice the time is wanted.`,
    needs: unique([...context.needs.motion, ...paths]),
    unread: unreadOf(motions.slowest),
    judge() {
      const takes = slowestHome(motions);
      const cut = Math.min(
        typeof supply.cutOut === 'string' ? Infinity : valueOf(supply.cutOut.after, 'time'),
        means.coil.stages === 'timed economiser' ? valueOf(means.coil.delay, 'time') : Infinity,
      );
      return {
        value: takes,
        limit: cut,
        margin: takes === Infinity ? NEVER : cut / takes - 1,
        at: placeIn(rig, SLOWEST),
        because:
          takes === Infinity
            ? `The plunger does not come home at all; the current is cut after ${say.time(cut)}.`
            : `It comes home in ${say.time(takes)}; the pull-in current is cut after ${say.time(cut)}.`,
      };
    },
  };
}

function landsSoftly(context: Context, motions: Motions): Check {
  const { rig, say } = context;
  return {
    id: 'landing-speed',
    title: 'Lands softly enough at home',
    question: 'burns',
    unit: 'm/s',
    marginUnit: 'share',
    wanted: 0,
    how: 'Speed that is borne at landing over the speed at which the plunger meets its stop, minus one: charging, cold coil, low friction. A hard landing beats seat, pins and end switch to pieces and lets the switch chatter.',
    needs: context.needs.motion,
    unread: unreadOf(motions.hardest),
    judge() {
      const found = motions.hardest();
      const at = placeIn(rig, HARDEST);
      const limit = rig.wanted.landingSpeed;
      if (!found.known && !found.isHeldFast) return { value: NaN, limit, margin: NaN, at, because: '' };
      const speed = found.known ? found.motion.landingSpeed : null;
      if (speed === null)
        return {
          value: NaN,
          limit,
          margin: LARGEST_MARGIN,
          at,
          because: 'The plunger does not come home, so nothing lands.',
        };
      return {
        value: speed,
        limit,
        margin: limit / speed - 1,
        at,
        because: `The plunger meets its stop at ${say.speed(speed)}; ${say.speed(limit)} is borne.`,
      };
    },
  };
}

/** From switching off until everything is back at rest. */
function letsGoInTime(context: Context, motions: Motions): Check {
  const { rig, say } = context;
  const { suppression } = rig.job.supply;
  return {
    id: 'release-time',
    title: rig.toStop ? 'Goes back soon after the current ends' : 'Stops soon after the current ends',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 's',
    marginUnit: 'share',
    wanted: 0,
    how: `Time that is wanted over the time from switching off until the plunger is back at rest, minus one: held long at the highest volts with a cold coil, high friction, the current dying away through what is fitted across the coil. ${magnetWords(rig)} currents are left out: measured times are longer.`,
    needs: unique([
      ...context.needs.motion,
      'supply.suppression',
      ...(typeof suppression === 'string' || suppression.kind === 'diode'
        ? []
        : [suppression.kind === 'zener' ? 'supply.suppression.voltage' : 'supply.suppression.resistance']),
    ]),
    unread: unreadOf(motions.latest),
    judge() {
      const found = motions.latest();
      const limit = rig.wanted.releaseTime;
      const back = timeIn(found, ({ returnTime }) => returnTime);
      const left = timeIn(found, ({ releaseTime }) => releaseTime);
      const by = typeof suppression === 'string' ? 'nothing across the coil' : `a ${suppression.kind} across the coil`;
      const never = !found.known
        ? found.because
        : left === Infinity
          ? `With ${by} the plunger has not left home ${say.time(RELEASE_WATCHED)} after the current ends.`
          : `With ${by} the plunger leaves home, but is not back ${say.time(RELEASE_WATCHED)} after the current ends.`;
      return {
        value: back,
        limit,
        margin: back === Infinity ? NEVER : limit / back - 1,
        at: placeOf(null, null, { supply: 'high', coil: 'cold', friction: 'high' }),
        because:
          back === Infinity
            ? never
            : `With ${by} the plunger leaves home ${say.time(left)} after the current ends and is back after ${say.time(back)}.`,
      };
    },
  };
}

/** Energise to stop: let go before the engine stands still, the lever goes back to run and the engine may pick up again. */
function commandLastsLongEnough(context: Context, motions: Motions): Check | null {
  const { rig, say } = context;
  const { command } = rig.job.supply;
  if (!rig.toStop || command === 'held by hand') return null;
  return {
    id: 'command-lasts',
    title: 'Command lasts until the engine stands still',
    question: 'stops',
    unit: 's',
    marginUnit: 'share',
    wanted: COMMAND_MARGIN,
    how: 'Seconds for which the current stays on, over the slowest time to home and the run-down of the engine together, minus one. Let go before, the engine may pick up again.',
    needs: unique([
      ...context.needs.motion,
      'supply.command',
      ...(typeof command === 'string' ? [] : ['supply.command.holds']),
    ]),
    unread: unreadOf(motions.slowest),
    judge() {
      const takes = slowestHome(motions);
      const holds = typeof command === 'string' ? NaN : valueOf(command.holds, 'time');
      const needed = takes + rig.runDown;
      return {
        value: holds,
        limit: needed,
        margin: needed === Infinity ? NEVER : holds / needed - 1,
        at: placeIn(rig, SLOWEST),
        because:
          needed === Infinity
            ? 'The plunger does not come home, so no command lasts long enough.'
            : `The current stays on for ${say.time(holds)}; coming home takes ${say.time(takes)} and the engine ${say.time(rig.runDown)} to stand still.`,
      };
    },
  };
}
