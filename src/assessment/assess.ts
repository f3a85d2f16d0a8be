/** From a job to its three answers: the one function that the screen, the command line and every search call. */
import type { Job } from '../job/schema.ts';
import { metricUnits, type DisplayUnits } from '../units/quantity.ts';
import { assessAir, timedAirFindings } from './air/assess.ts';
import type { AirJob } from './air/air-rig.ts';
import { findingsOf, type Check, type Context, type Reach } from './check.ts';
import { holdHeat, pullInCurrent, resistorHeat, voltsAtCoil } from './checks/current.ts';
import { adjusterRange } from './checks/adjuster.ts';
import { comesHome, endSwitchWorked, freeToReachRun, reachesNoFuel } from './checks/ends.ts';
import { everyStationWorks, letsGoInSpiteOfBackFeed, noSneakPath } from './checks/stations.ts';
import { conductorsCarry, contactsBreak, diodeLiesRight } from './checks/wiring.ts';
import { fuseFits } from './checks/fuse.ts';
import { coilHeatOf, heatChecks } from './checks/heat.ts';
import { motionRemarks, motionsOf, timeChecks } from './checks/time.ts';
import { doesNotBind, doesNotCock, turnsTheRightWay } from './checks/binding.ts';
import { chainStaysTaut, connectionRange, overTravelStaysShut, sideLoad } from './checks/connection.ts';
import { holdsAtHome } from './checks/hold.ts';
import { fullCurrentEnds, pullsInEverywhere, pullsInFromFullStroke } from './checks/pull.ts';
import { lockRatio, returnsFromEveryGap, returnsFromHome } from './checks/return.ts';
import { springsWithinLimits } from './checks/spring.ts';
import { answersOf } from './answers.ts';
import { assessCable, type CableJob } from './cable/assess.ts';
import { CAUTION, worstFirst, worstVerdict, type Assessment, type Finding } from './finding.ts';
import { handStopChecks } from './hand-stop/checks.ts';
import { needsOf } from './needs.ts';
import { remarksOn } from './remarks.ts';
import { rigOf, type SolenoidJob } from './rig.ts';
import { electricCorners, scenesOf } from './scene.ts';
import { currentsOf, sweepOf, travelFigures } from './sweep.ts';
import { wordsIn } from './words.ts';

/**
 * Assesses one installation.
 *
 * @param units units of the numbers inside sentences; the numbers of the result keep the units that their names say
 */
export function assess(job: Job, units: DisplayUnits = metricUnits, reach: Reach = 'in time'): Assessment {
  if (isSolenoid(job)) return assessSolenoid(job, units, reach);
  return isAir(job) ? assessAir(job, units, reach) : assessCable(job as CableJob, units);
}

export function isAir(job: Job): job is AirJob {
  return job.means.kind === 'air cylinder';
}

export function isSolenoid(job: Job): job is SolenoidJob {
  return job.means.kind === 'solenoid';
}

function assessSolenoid(job: SolenoidJob, units: DisplayUnits, reach: Reach): Assessment {
  const rig = rigOf(job);
  const electric = electricCorners(rig);
  const scenes = scenesOf(rig, electric);
  const context: Context = { rig, scenes, electric, needs: needsOf(job), say: wordsIn(units) };
  const checks = [
    ...checksOf(context),
    ...handStopChecks(context),
    ...(reach === 'in time' ? timedChecks(context) : []),
  ];
  const findings = findingsOf(checks, job).sort(worstFirst);
  const [asSurveyed] = scenes;
  return {
    version: 1,
    job: job.name,
    works: job.means.works,
    verdict: worstVerdict(findings),
    answers: answersOf(findings, rig.toStop),
    findings,
    sweep: Number.isFinite(asSurveyed.travel.startGap) ? sweepOf(rig, asSurveyed, electric) : null,
    travel: travelFigures(rig, asSurveyed),
    currents: currentsOf(electric),
    assumed: rig.assumed,
    remarks: [...remarksOn(context), ...(reach === 'in time' ? motionRemarks(context) : [])],
    caution: CAUTION,
  };
}

const timed: ReadonlySet<string> = new Set([
  'held-off-home',
  'class-in-hold',
  'home-in-time',
  'landing-speed',
  'release-time',
  'command-lasts',
  'time-to-no-fuel',
  'time-to-run',
  'fuse',
]);

/** Whether a finding is left out of an assessment at rest. */
export function isTimed(id: string): boolean {
  return timed.has(id);
}

/** The timed findings of these names alone, where a search asks for one of them at a thousand settings. */
export function timedFindings(job: Job, ids: ReadonlySet<string>, units: DisplayUnits = metricUnits): Finding[] {
  if (isAir(job)) return timedAirFindings(job, ids, units);
  if (!isSolenoid(job)) return [];
  const rig = rigOf(job);
  const electric = electricCorners(rig);
  const context: Context = {
    rig,
    electric,
    scenes: scenesOf({ ...rig, engineMoves: 0 }, electric),
    needs: needsOf(job),
    say: wordsIn(units),
  };
  return findingsOf(
    timedChecks(context).filter(({ id }) => ids.has(id)),
    job,
  );
}

/** Questions of the first second and the next hour: some milliseconds of work. */
function timedChecks(context: Context): Check[] {
  const motions = motionsOf(context);
  const heat = coilHeatOf(context);
  return [...heatChecks(context, heat), ...timeChecks(context, motions), fuseFits(context, motions, heat)];
}

/** Every other question that is asked of an installation with a solenoid. */
export function checksOf(context: Context): Check[] {
  const start = pullsInFromFullStroke(context);
  const way = pullsInEverywhere(context);
  return [
    start,
    way,
    fullCurrentEnds(context, [start, way]),
    holdsAtHome(context),
    comesHome(context),
    reachesNoFuel(context),
    freeToReachRun(context),
    returnsFromEveryGap(context),
    returnsFromHome(context),
    lockRatio(context),
    turnsTheRightWay(context),
    doesNotBind(context),
    doesNotCock(context),
    connectionRange(context),
    chainStaysTaut(context),
    overTravelStaysShut(context),
    sideLoad(context),
    endSwitchWorked(context),
    adjusterRange(context),
    pullInCurrent(context),
    holdHeat(context),
    resistorHeat(context),
    voltsAtCoil(context),
    conductorsCarry(context),
    contactsBreak(context),
    diodeLiesRight(context),
    everyStationWorks(context),
    noSneakPath(context),
    letsGoInSpiteOfBackFeed(context),
    ...springsWithinLimits(context),
  ].filter((check) => check !== null);
}
