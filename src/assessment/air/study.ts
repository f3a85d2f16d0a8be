/** The air cylinder of a job as plain data: force over the gap, the course of a stop and of the way back, air and its loss. */
import { fromSI, metricUnits, type DisplayUnits } from '../../units/quantity.ts';
import { inDegrees, inMillimetres } from '../check.ts';
import { missingReadings } from '../needs.ts';
import { orNull } from '../sweep.ts';
import { stationAt } from '../travel.ts';
import { wordsIn } from '../words.ts';
import { airContextOf, type AirContext } from './air-context.ts';
import { addedOut, givenHome, type AirJob } from './air-rig.ts';
import { lostWords, whenAirIsLost } from './checks/back.ts';
import { airTimeChecks, timedOf, timeOf, type Timed } from './checks/time.ts';
import { stopsPerVessel, useOf } from './checks/use.ts';
import { carriesHome, movesFromRest } from './checks/force.ts';
import type { AirEvent, AirForces, AirLost, AirRun, AirRunName, AirStudy, AirUse } from './picture.ts';
import { followed, HARD_HOME, SLOW_HOME, slowOut, type StrokeCorner } from './strokes.ts';

/** Points of a course. */
const POINTS = 241;
/** How much longer than the way itself a course is drawn: the pressures are still on their way. */
const AFTERMATH = 1.6;

export function airStudy(job: AirJob, units: DisplayUnits = metricUnits): AirStudy {
  const context = airContextOf(job, wordsIn(units));
  const gone = missingReadings(job);
  const timed = timedOf(context);
  const lost = whenAirIsLost(context);
  const stops = stopsPerVessel(context);
  const [noFuel, run, landing] = airTimeChecks(context, timed);
  const forces = [movesFromRest(context), carriesHome(context), lost];
  const isKnown = ({ needs }: { readonly needs: readonly string[] }) => needs.every((path) => !gone.has(path));
  const all = [...forces, stops, noFuel, run, landing].flatMap(({ needs }) => needs);
  const areRunsKnown = [noFuel, run, landing].every(isKnown);
  return {
    missing: [...new Set(all)].filter((path) => gone.has(path)),
    force: Number.isFinite(context.scenes[0].travel.startGap) ? forcesOf(context) : null,
    runs: areRunsKnown ? runsOf(context, timed) : [],
    use: isKnown(stops) ? usePlain(context) : null,
    whenLost: isKnown(lost) ? lostPlain(context, lost.judge().margin >= 0) : null,
  };
}

function forcesOf(context: AirContext): AirForces {
  const { air, scenes } = context;
  const [{ travel, needed, out }] = scenes;
  const { stations } = travel;
  const each = (value: (i: number) => number) => stations.map((_, i) => orNull(value(i)));
  const [low, high] = [givenHome(air, air.low), givenHome(air, air.high)];
  const back = addedOut(air).net;
  return {
    gap_mm: stations.map(({ gap }) => inMillimetres(gap)),
    atLow_N: each(() => low),
    atHigh_N: each(() => high),
    needed_N: each((i) => needed.high.needed[i]),
    neededLowFriction_N: each((i) => needed.low.needed[i]),
    returnDrive_N: each((i) => out.high.drive[i]),
    returnForce_N: each((i) => out.high.net[i]),
    returnForceByAir_N: air.returnsByAir ? each((i) => out.high.net[i] + back) : null,
  };
}

function runsOf(context: AirContext, timed: Timed): AirRun[] {
  const corners: readonly (readonly [AirRunName, StrokeCorner])[] = [
    ['home, slowest', SLOW_HOME],
    ['home, hardest', HARD_HOME],
    ['out, slowest', slowOut(context.air)],
  ];
  return corners.map(([name, corner]) => runOf(context, timed, name, corner)).filter((one) => one !== null);
}

function runOf(context: AirContext, timed: Timed, name: AirRunName, corner: StrokeCorner): AirRun | null {
  const { rig, scenes } = context;
  const marks = [timed.ends.noFuel, timed.ends.run];
  const first = followed(context, corner, { marks });
  if (first === null) return null;
  const span = AFTERMATH * (first.stroke.arrivesAt ?? 1);
  const found = followed(context, corner, { marks, duration: span, untilArrival: false, tracePoints: POINTS });
  const trace = found?.stroke.trace;
  if (found === null || trace === null || trace === undefined) return null;
  const { stroke, delay } = found;
  const ms = (seconds: number) => fromSI(seconds + delay, 'ms');
  const bar = (pascals: number) => fromSI(pascals, 'bar');
  const events: AirEvent[] = [
    { kind: corner.towards === 'home' ? 'air reaches the cylinder' : 'air begins to leave', time_ms: ms(0) },
  ];
  const add = (kind: AirEvent['kind'], at: number | null) => {
    if (at !== null && Number.isFinite(at)) events.push({ kind, time_ms: ms(at) });
  };
  add('starts moving', stroke.startsAt);
  const isTowardsStop = (corner.towards === 'home') === rig.toStop;
  add(isTowardsStop ? 'passes no-fuel' : 'passes run', timeOf(timed, found, isTowardsStop ? 'no-fuel' : 'run') - delay);
  add('arrives', stroke.arrivesAt);
  return {
    name,
    corner: cornerWords(corner),
    time_ms: trace.time_s.map(ms),
    gap_mm: trace.gap_m.map(inMillimetres),
    shaftAngle_deg: trace.gap_m.map((gap) => orNull(inDegrees(stationAt(rig, scenes[0].travel, gap).shaftAngle))),
    home_bar: trace.home_Pa.map(bar),
    out_bar: trace.out_Pa.map(bar),
    events: events.toSorted((a, b) => a.time_ms - b.time_ms),
    gapAtEnd_mm: inMillimetres(stroke.gapAtEnd),
  };
}

function cornerWords({ pressure, friction, process, air }: StrokeCorner): string {
  const heat = process === 'isothermal' ? 'chambers at one temperature' : 'no heat from the walls';
  return `${pressure === 'low' ? 'lowest' : 'highest'} pressure, ${air} air, ${friction} friction, ${heat}`;
}

function usePlain(context: AirContext): AirUse {
  const { perStop, fromHigh, fromLow, just, enough } = useOf(context);
  const bar = (pascals: number) => orNull(fromSI(pascals, 'bar'));
  return {
    perStop_L: fromSI(perStop, 'L'),
    stopsFromHigh: fromHigh,
    stopsFromLow: fromLow,
    enough_bar: bar(enough),
    just_bar: bar(just),
  };
}

/** Both chambers open: what the springs do from either end. */
function lostPlain({ rig, scenes }: AirContext, comesOut: boolean): AirLost {
  const [{ out }] = scenes;
  const leaves = out.high.net[0] > 0;
  const fromHome = comesOut ? 'goes' : leaves ? 'stays on the way' : 'stays';
  return {
    fromStop: rig.toStop
      ? fromHome === 'goes'
        ? 'goes to run'
        : fromHome === 'stays'
          ? 'stays at stop'
          : 'stays on the way'
      : 'stays at stop',
    fromRun: rig.toStop
      ? 'stays at run'
      : fromHome === 'goes'
        ? 'goes to stop'
        : fromHome === 'stays'
          ? 'stays at run'
          : 'stays on the way',
    because: lostWords(rig.toStop, comesOut),
  };
}
