/**
 * Installations without a solenoid: what the lever itself asks is reckoned, and readings taken at the handle are held
 * against their limits. How a cable or a cylinder would behave is not reckoned yet, and is said to be not known.
 */
import type { Job } from '../job/schema.ts';
import type { DisplayUnits } from '../units/quantity.ts';
import { findingOf, inDegrees, inMillimetres, type Check } from './check.ts';
import { CAUTION, worstFirst, worstVerdict, type Assessment, type Finding } from './finding.ts';
import { answersOf } from './answers.ts';
import { missingReadings } from './needs.ts';
import { DefaultReader, valueOf } from './readings.ts';
import { leverOf, type Lever } from './lever.ts';
import { frictionMoment, steadyMoment } from '../physics/load.ts';
import { wordsIn, type Words } from './words.ts';

export function assessByHand(job: Job, units: DisplayUnits): Assessment {
  const reader = new DefaultReader();
  const lever = leverOf(job, reader);
  const say = wordsIn(units);
  const missing = missingReadings(job);
  const checks = [
    fuelOffBeforeStop(job, lever, reader, say),
    leverComesBack(job, lever, reader),
    ...(job.means.kind === 'hand cable' ? handlePull(job.means, say) : [airNotReckoned()]),
  ];
  const findings: Finding[] = checks.map((check) => findingOf(check, missing)).sort(worstFirst);
  return {
    version: 1,
    job: job.name,
    works: job.means.kind === 'hand cable' ? 'by hand' : 'by air',
    verdict: worstVerdict(findings),
    answers: answersOf(findings, true).filter((answer) => answer.question !== 'burns'),
    findings,
    sweep: null,
    travel: null,
    currents: [],
    assumed: reader.assumed,
    remarks: [
      job.means.kind === 'hand cable'
        ? 'The friction, stretch and lost motion of the cable are not reckoned yet: the readings at the handle decide.'
        : 'The cylinder, its air and its line are not reckoned yet.',
    ],
    caution: CAUTION,
  };
}

const leverAngles = ['survey.lever.runAngle', 'survey.lever.noFuelAngle', 'survey.lever.hardStopAngle'];

function effortPaths(job: Job): string[] {
  const { readings } = job.survey.effort;
  if (readings.length === 0) return ['survey.effort.readings'];
  return readings.flatMap((_, i) =>
    ['angle', 'radius', 'pull', 'easingBack'].map((name) => `survey.effort.readings[${i}].${name}`),
  );
}

function fuelOffBeforeStop(job: Job, lever: Lever, reader: DefaultReader, say: Words): Check {
  return {
    id: 'reaches-no-fuel',
    title: 'Lever can go past no-fuel with allowance',
    question: 'stops',
    unit: '°',
    marginUnit: '°',
    wanted: inDegrees(reader.value('wanted.noFuel', job.wanted?.noFuel, 'angle')),
    how: 'Angle of the hard stop minus no-fuel angle, less lash.',
    needs: [...leverAngles, 'survey.lever.lash'],
    judge() {
      const past = lever.toStop * (lever.hardStop - lever.noFuel) - lever.lash;
      return {
        value: inDegrees(past),
        limit: 0,
        margin: inDegrees(past),
        at: null,
        because: `The hard stop lies ${say.angle(past)} past no-fuel, lash taken off.`,
      };
    },
  };
}

function leverComesBack(job: Job, lever: Lever, reader: DefaultReader): Check {
  return {
    id: 'lever-comes-back',
    title: 'Lever comes back by its own spring, nothing connected',
    question: 'runs',
    unit: 'N m',
    marginUnit: 'share',
    wanted: reader.value('wanted.return', job.wanted?.return, 'ratio'),
    how: 'Moment that brings the lever back over its friction with cold oil, minus one, the least over the readings.',
    needs: effortPaths(job),
    judge() {
      const states = lever.efforts!.flatMap((curve) => {
        const angles = Array.from({ length: 33 }, (_, i) => curve.from + ((curve.to - curve.from) * i) / 32);
        return angles.map((angle) => ({
          drive: lever.readTowards * steadyMoment(curve, angle),
          held: lever.frictionFactor.high * frictionMoment(curve, angle),
        }));
      });
      const margin = ({ drive, held }: { drive: number; held: number }) =>
        held > 0 ? drive / held - 1 : drive > 0 ? Infinity : -1;
      const worst = states.reduce((least, next) => (margin(next) < margin(least) ? next : least));
      return {
        value: worst.drive,
        limit: worst.held,
        margin: margin(worst),
        at: null,
        because: `Its spring drives it back with at least ${worst.drive.toFixed(2)} N m against ${worst.held.toFixed(2)} N m of friction with cold oil.`,
      };
    },
  };
}

function handlePull(cable: Extract<Job['means'], { kind: 'hand cable' }>, say: Words): Check[] {
  const { readings, handle } = cable;
  const allowed = handle.allowed === undefined ? NaN : valueOf(handle.allowed, 'force');
  const unread = { because: 'A reading that this rests on has not been taken.', readings: ['means.readings'] };
  return [
    {
      id: 'handle-pull',
      title: 'Pull at the handle is acceptable',
      question: 'stops',
      unit: 'N',
      marginUnit: 'share',
      wanted: 0.25,
      how: 'Acceptable pull over the pull read at the handle, minus one.',
      needs: readings === undefined ? [] : ['means.readings.connected'],
      unread,
      judge() {
        const pull = readings === undefined ? NaN : valueOf(readings.connected, 'force');
        return {
          value: pull,
          limit: allowed,
          margin: allowed / pull - 1,
          at: null,
          because: `${say.force(pull)} was read at the handle; ${say.force(allowed)} is acceptable there.`,
        };
      },
    },
    {
      id: 'handle-travel',
      title: 'Handle has travel enough',
      question: 'stops',
      unit: 'mm',
      marginUnit: 'mm',
      wanted: 10,
      how: 'Travel that the handle has minus travel used to reach no-fuel.',
      needs: ['means.handle.travel'],
      unread,
      judge() {
        const used = readings?.travel === undefined ? NaN : valueOf(readings.travel, 'length');
        const available = valueOf(handle.travel, 'length');
        return {
          value: inMillimetres(used),
          limit: inMillimetres(available),
          margin: inMillimetres(available - used),
          at: null,
          because: `No-fuel is reached after ${say.length(used)} of the ${say.length(available)} that the handle has.`,
        };
      },
    },
  ];
}

function airNotReckoned(): Check {
  return {
    id: 'air-force',
    title: 'Cylinder moves the lever',
    question: 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: 0.25,
    how: 'Not reckoned yet.',
    needs: [],
    unread: { because: 'Air cylinders are not reckoned yet.', readings: [] },
    judge: () => ({ value: NaN, limit: null, margin: NaN, at: null, because: '' }),
  };
}
