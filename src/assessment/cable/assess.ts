/** From a job whose means is a hand cable to its two answers. */
import type { HandCable, Job } from '../../job/schema.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { answersOf } from '../answers.ts';
import { findingsOf, type Check } from '../check.ts';
import { fuelOffBeforeStop, leverComesBack } from '../checks/lever-alone.ts';
import { CAUTION, worstFirst, worstVerdict, type Assessment } from '../finding.ts';
import { DefaultReader } from '../readings.ts';
import { wordsIn } from '../words.ts';
import { comesBackOnCable } from './checks/back.ts';
import { coreStrength, mayBePushed, pushHolds } from './checks/strength.ts';
import { bendRadius, bendsFit, coreFits } from './checks/course.ts';
import { handlePull, handleTravel, wornCable } from './checks/hand.ts';
import { staysOnAxis, turnsTowardsStop } from './checks/lever-end.ts';
import { comesBackOnBoth, secondPlaceWorks } from './checks/second.ts';
import { cableContext, type CableContext } from './context.ts';
import { effortPaths } from './needs.ts';
import { remarksOnCable } from './remarks.ts';

export type CableJob = Job & { readonly means: HandCable };

export function isByHand(job: Job): job is CableJob {
  return job.means.kind === 'hand cable';
}

export function assessCable(job: CableJob, units: DisplayUnits): Assessment {
  const context = cableContext(job, job.means, wordsIn(units));
  const findings = findingsOf(checksOfCable(context), job).sort(worstFirst);
  return {
    version: 1,
    job: job.name,
    works: 'by hand',
    verdict: worstVerdict(findings),
    // A cable has nothing that burns.
    answers: answersOf(findings, true).filter(({ question }) => question !== 'burns'),
    findings,
    sweep: null,
    travel: null,
    currents: [],
    assumed: context.rig.assumed,
    remarks: remarksOnCable(context),
    caution: CAUTION,
  };
}

/** Every question that is asked of a hand cable that is the means of a job. */
function checksOfCable(context: CableContext): Check[] {
  const { rig, say } = context;
  // Its own list of what was assumed: the rig has told all of it already.
  const reader = new DefaultReader();
  const bothBack = comesBackOnBoth(context);
  return [
    fuelOffBeforeStop(rig.job, rig.lever, reader, say),
    leverComesBack(rig.job, rig.lever, reader, effortPaths(rig.job)),
    comesBackOnCable(context),
    ...(bothBack === null ? [] : [bothBack]),
    ...checksOfCableItself(context),
  ];
}

/** What is asked of the cable alone, be it the means of a job or the hand stop beside another. */
export function checksOfCableItself(context: CableContext): Check[] {
  return [
    handlePull(context),
    handleTravel(context),
    turnsTowardsStop(context),
    staysOnAxis(context),
    bendsFit(context),
    bendRadius(context),
    coreFits(context),
    coreStrength(context),
    mayBePushed(context),
    pushHolds(context),
    wornCable(context),
    ...secondPlaceWorks(context),
  ].filter((check) => check !== null);
}
