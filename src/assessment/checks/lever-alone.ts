/** What is asked of the lever itself, whoever moves it: can it go past no-fuel, and does its own spring bring it back? */
import type { Job } from '../../job/schema.ts';
import { frictionMoment, steadyMoment } from '../../physics/load.ts';
import { inDegrees, type Check } from '../check.ts';
import type { Lever } from '../lever.ts';
import type { DefaultReader } from '../readings.ts';
import type { Words } from '../words.ts';

const leverAngles = ['survey.lever.runAngle', 'survey.lever.noFuelAngle', 'survey.lever.hardStopAngle'];
const PLACES = 33;

export function fuelOffBeforeStop(job: Job, lever: Lever, reader: DefaultReader, say: Words): Check {
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

/** @param effortPaths readings of the effort of the lever */
export function leverComesBack(job: Job, lever: Lever, reader: DefaultReader, effortPaths: readonly string[]): Check {
  return {
    id: 'lever-comes-back',
    title: 'Lever comes back by its own spring, nothing connected',
    question: 'runs',
    unit: 'N m',
    marginUnit: 'share',
    wanted: reader.value('wanted.return', job.wanted?.return, 'ratio'),
    how: 'Moment that brings the lever back over its friction with cold oil, minus one, the least over the readings.',
    needs: effortPaths,
    unread: {
      because: 'The readings of the effort lie too close together to draw a line through.',
      readings: effortPaths,
    },
    judge() {
      const states = lever.efforts!.flatMap((curve) =>
        Array.from({ length: PLACES }, (_, i) => {
          const angle = curve.from + ((curve.to - curve.from) * i) / (PLACES - 1);
          return {
            drive: lever.readTowards * steadyMoment(curve, angle),
            held: lever.frictionFactor.high * frictionMoment(curve, angle),
          };
        }),
      );
      const margin = ({ drive, held }: { drive: number; held: number }) =>
        Number.isNaN(drive + held) ? NaN : held > 0 ? drive / held - 1 : drive > 0 ? Infinity : -1;
      const worst = states.reduce((least, next) => (margin(next) >= margin(least) ? least : next));
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
