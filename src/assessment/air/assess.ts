/** From a job with an air cylinder to its answers. */
import { answersOf } from '../answers.ts';
import { findingsOf, type Check, type Reach } from '../check.ts';
import { adjusterRange } from '../checks/adjuster.ts';
import { doesNotBind, doesNotCock, turnsTheRightWay } from '../checks/binding.ts';
import { chainStaysTaut, connectionRange, overTravelStaysShut } from '../checks/connection.ts';
import { comesHome, freeToReachRun, reachesNoFuel } from '../checks/ends.ts';
import { lockRatio, returnsFromEveryGap, returnsFromHome } from '../checks/return.ts';
import { springsWithinLimits } from '../checks/spring.ts';
import { CAUTION, worstFirst, worstVerdict, type Assessment, type Finding } from '../finding.ts';
import { mechanicalSweepOf, travelFigures } from '../sweep.ts';
import { wordsIn } from '../words.ts';
import { metricUnits, type DisplayUnits } from '../../units/quantity.ts';
import { airContextOf, type AirContext } from './air-context.ts';
import { addedOut, givenHome, type AirJob } from './air-rig.ts';
import { returnsByAir, returnsFromHomeByAir, whenAirIsLost } from './checks/back.ts';
import { carriesHome, movesFromRest } from './checks/force.ts';
import { leverBears, sideForceBlocked } from './checks/load.ts';
import { handStopChecks } from '../hand-stop/checks.ts';
import { airTimeChecks } from './checks/time.ts';
import { stopsPerVessel } from './checks/use.ts';
import { airRemarks } from './remarks.ts';

export function assessAir(job: AirJob, units: DisplayUnits, reach: Reach): Assessment {
  const context = airContextOf(job, wordsIn(units));
  const { air, rig, scenes } = context;
  const checks = [
    ...airChecks(context),
    ...handStopChecks(context),
    ...(reach === 'in time' ? airTimeChecks(context) : []),
  ];
  const findings = findingsOf(checks, job).sort(worstFirst);
  const [asSurveyed] = scenes;
  const [least, greatest] = [givenHome(air, air.low), givenHome(air, air.high)];
  return {
    version: 1,
    job: job.name,
    works: 'by air',
    verdict: worstVerdict(findings),
    answers: answersOf(findings, rig.toStop, 'air'),
    findings,
    sweep: Number.isFinite(asSurveyed.travel.startGap)
      ? mechanicalSweepOf(
          asSurveyed,
          () => least,
          () => greatest,
          addedOut(air),
        )
      : null,
    travel: travelFigures(rig, asSurveyed),
    currents: [],
    assumed: air.assumed,
    remarks: airRemarks(context),
    caution: CAUTION,
  };
}

/** Every question that does not follow the rod in time. */
function airChecks(context: AirContext): Check[] {
  const { air } = context;
  return [
    movesFromRest(context),
    carriesHome(context),
    stopsPerVessel(context),
    comesHome(context, 'its stop takes all that the air gives'),
    reachesNoFuel(context),
    freeToReachRun(context),
    ...(air.returnsByAir
      ? [returnsByAir(context), returnsFromHomeByAir(context)]
      : [returnsFromEveryGap(context), returnsFromHome(context), lockRatio(context)]),
    whenAirIsLost(context),
    turnsTheRightWay(context),
    doesNotBind(context),
    doesNotCock(context),
    connectionRange(context),
    chainStaysTaut(context),
    overTravelStaysShut(context),
    sideForceBlocked(context),
    leverBears(context),
    adjusterRange(context),
    ...springsWithinLimits(context),
  ].filter((check) => check !== null);
}

/** The findings in time of these names alone, where a search asks for one of them at a thousand settings. */
export function timedAirFindings(job: AirJob, ids: ReadonlySet<string>, units: DisplayUnits = metricUnits): Finding[] {
  const context = airContextOf(job, wordsIn(units));
  return findingsOf(
    airTimeChecks(context).filter(({ id }) => ids.has(id)),
    job,
  );
}
