/** How soon is fuel off, how soon is the lever back, and how hard does the rod land? */
import { findRoot } from '../../../numerics/roots.ts';
import { LARGEST_MARGIN, placeOf, unique, type Check } from '../../check.ts';
import type { Travel } from '../../travel.ts';
import { stationAt } from '../../travel.ts';
import type { AirContext } from '../air-context.ts';
import {
  dearest,
  pieceWords,
  SLOW_HOME,
  slowOut,
  strokesOf,
  WATCHED,
  type StrokeCorner,
  type StrokeFound,
  type Strokes,
} from '../strokes.ts';

/** Where it does not get there at all. */
const NEVER = -1;
/** Time that there is over time that it takes, minus one, that counts as enough: supply and seals are never as new. Common practice, no source. */
const TIME_MARGIN = 0.25;
/** A piece of the way is named where a wide one would save this share of the time. */
const WORTH_NAMING = 0.2;
/** Cylinders are made for two fifths of what a plunger's seat bears, or less. Common practice, no source. */
const LANDING_MARGIN = 1.5;

/** Gap at which the shaft passes an angle, m; NaN where it does not between home and rest. */
export function gapAtAngle({ rig }: AirContext, travel: Travel, angle: number): number {
  const past = (gap: number) => stationAt(rig, travel, gap).shaftAngle - angle;
  const { homeGap, startGap } = travel;
  const [near, far] = [past(homeGap), past(startGap)];
  if (near === 0) return homeGap;
  return near * far > 0 || Number.isNaN(near * far) ? NaN : findRoot(past, homeGap, startGap, 1e-9).at;
}

interface Ends {
  /** Gaps where the shaft passes no-fuel and run. */
  readonly noFuel: number;
  readonly run: number;
}

/** A lever whose connection brings it a hair past run, or just to it, is at run when the rod has arrived. */
function endsOf(context: AirContext): Ends {
  const { rig, scenes } = context;
  const [{ travel }] = scenes;
  const { noFuel, run } = rig.lever;
  const atRun = gapAtAngle(context, travel, run);
  const runEnd = rig.toStop ? travel.startGap : travel.homeGap;
  return { noFuel: gapAtAngle(context, travel, noFuel), run: Number.isNaN(atRun) ? runEnd : atRun };
}

export interface Timed {
  readonly strokes: Strokes;
  readonly ends: Ends;
}

export function timedOf(context: AirContext): Timed {
  const ends = endsOf(context);
  const marks = [ends.noFuel, ends.run];
  return { strokes: strokesOf(context, { home: marks, out: marks }), ends };
}

export function airTimeChecks(context: AirContext, timed: Timed = timedOf(context)): Check[] {
  return [timeTo(context, timed, 'no-fuel'), timeTo(context, timed, 'run'), landsSoftly(context, timed)];
}

/** From letting air in, or out, until the shaft is there, s; Infinity where it does not come there. */
export function timeOf({ ends }: Timed, found: StrokeFound | null, to: 'no-fuel' | 'run'): number {
  if (found === null) return Infinity;
  const { stroke, delay } = found;
  const gap = to === 'no-fuel' ? ends.noFuel : ends.run;
  const passed = Number.isNaN(gap) ? null : stroke.passesAt[to === 'no-fuel' ? 0 : 1];
  // A mark at the very end is passed by arriving.
  const isEnd = passed === null && stroke.arrivesAt !== null && Math.abs(stroke.gapAtEnd - gap) < 1e-6;
  const at = isEnd ? stroke.arrivesAt : passed;
  return at === null ? Infinity : at + delay;
}

function timeTo(context: AirContext, timed: Timed, to: 'no-fuel' | 'run'): Check {
  const { rig, needs, airNeeds, say, air } = context;
  const isHome = rig.toStop === (to === 'no-fuel');
  const corner: StrokeCorner = isHome ? SLOW_HOME : slowOut(air);
  const limitOf = () => (to === 'no-fuel' ? air.stopTime : rig.wanted.releaseTime);
  const title = to === 'no-fuel' ? 'Fuel is off soon enough' : 'Lever is at run soon enough';
  const forces = corner.pressure === 'low' ? airNeeds.forceLow : airNeeds.forceHigh;
  return {
    id: to === 'no-fuel' ? 'time-to-no-fuel' : 'time-to-run',
    title,
    question: to === 'no-fuel' ? 'stops' : 'runs',
    unit: 's',
    marginUnit: 'share',
    wanted: TIME_MARGIN,
    how: `Time that is wanted over the time until the shaft is there, minus one: ${isHome ? 'air let in' : 'air let out'} at the ${corner.pressure === 'low' ? 'lowest' : 'highest'} pressure, coldest air, high friction, chambers at one temperature, a share of the pipe's volume with the cylinder's and its resistance with the valve's, and the time of a wave through the pipe.`,
    needs: unique([
      ...(isHome ? needs.pullNeeded : needs.returned),
      ...needs.sticking,
      ...needs.firstPull,
      ...forces,
      ...airNeeds.flow,
      ...airNeeds.coldest,
    ]),
    judge() {
      const found = isHome ? timed.strokes.slowHome() : timed.strokes.slowOut();
      const time = timeOf(timed, found, to);
      const limit = limitOf();
      const there = to === 'no-fuel' ? 'Fuel is off' : 'The lever is at run';
      const at = placeOf(null, null, { friction: 'high' });
      if (time === Infinity) {
        const never =
          found === null
            ? 'at all: the connection is held fast'
            : `in ${say.time(WATCHED)}: the rod stands ${say.length(found.stroke.gapAtEnd)} from home`;
        const because =
          air.hasAir || !isHome ? `The lever does not get there ${never}.` : 'There is no compressed air here.';
        return { value: NaN, limit, margin: NEVER, at, because };
      }
      const piece = dearest(context, corner, (one) => timeOf(timed, one, to), [timed.ends.noFuel, timed.ends.run]);
      const decides =
        piece !== null && piece.saves > WORTH_NAMING * time
          ? ` Of the way of the air ${pieceWords[piece.piece]} costs most: a wide one would save ${say.time(piece.saves)}.`
          : '';
      const wave = found!.delay > 0.1 * time ? `, ${say.time(found!.delay)} of it in the pipe` : '';
      return {
        value: time,
        limit,
        margin: limit / time - 1,
        at,
        because: `${there} ${say.time(time)} after air is let ${isHome ? 'in' : 'out'}${wave}.${decides}`,
      };
    },
  };
}

function landsSoftly(context: AirContext, { strokes }: Timed): Check {
  const { rig, needs, airNeeds, say } = context;
  return {
    id: 'landing-speed',
    title: 'Rod lands softly enough at home',
    question: 'burns',
    unit: 'm/s',
    marginUnit: 'share',
    wanted: LANDING_MARGIN,
    how: 'Speed that is borne at landing over the speed at which the rod arrives, minus one: highest pressure, warmest air, low friction, no heat from the walls. Cushions are not reckoned.',
    needs: unique([
      ...needs.pullNeeded,
      ...needs.sticking,
      ...airNeeds.forceHigh,
      ...airNeeds.flow,
      ...airNeeds.hottest,
    ]),
    judge() {
      const found = strokes.hardHome();
      const limit = rig.wanted.landingSpeed;
      const at = placeOf(null, null, { friction: 'low' });
      const speed = found?.stroke.landingSpeed ?? null;
      if (speed === null)
        return {
          value: NaN,
          limit,
          margin: LARGEST_MARGIN,
          at,
          because: 'The rod does not come home, so nothing lands.',
        };
      return {
        value: speed,
        limit,
        margin: limit / speed - 1,
        at,
        because: `At the highest pressure the rod meets its end at ${say.speed(speed)}; ${say.speed(limit)} is the most, and without a cushion under ${say.speed(limit / (1 + LANDING_MARGIN))} is wanted.`,
      };
    },
  };
}
