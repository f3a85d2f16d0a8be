/** Jobs with a narrow space, so that a search of them is a matter of a moment. */
import { isSolenoid } from '../../../src/assessment/assess.ts';
import type { SolenoidJob } from '../../../src/assessment/rig.ts';
import { layoutOf } from '../../../src/proposal/search/layout.ts';
import { beginRun, problemOf, runOn, type Problem, type Run } from '../../../src/proposal/search/search.ts';
import { fromSI } from '../../../src/units/quantity.ts';
import type { Job } from '../../../src/job/schema.ts';
import { altered, demo, readable } from '../../job/jobs.ts';

export function solenoidJob(job: Job): SolenoidJob {
  if (!isSolenoid(job)) throw new Error(`${job.name} has no solenoid`);
  return job;
}

export interface Narrow {
  readonly millimetres: number;
  readonly degrees: number;
  readonly connections?: readonly string[];
  readonly holes?: readonly string[];
  readonly links?: readonly string[];
  readonly keepOut?: readonly unknown[];
}

/** The same job with a space round what is there. */
export function narrowed(job: Job, { millimetres, degrees, connections, holes, links, keepOut }: Narrow): SolenoidJob {
  const layout = layoutOf(solenoidJob(job));
  if (layout === null) throw new Error('the layout is not known');
  const x = fromSI(layout.x, 'mm');
  const y = fromSI(layout.y, 'mm');
  const direction = fromSI(layout.direction, '°');
  const space = {
    bracket: {
      x: { from: `${x - millimetres} mm`, to: `${x + millimetres} mm` },
      y: { from: `${y - millimetres} mm`, to: `${y + millimetres} mm` },
    },
    direction: { from: `${direction - degrees}°`, to: `${direction + degrees}°` },
    ...(connections === undefined ? {} : { connections }),
    ...(holes === undefined ? {} : { armHoles: holes }),
    ...(links === undefined ? {} : { links }),
    ...(keepOut === undefined ? {} : { keepOut }),
  };
  return solenoidJob(readable(altered(job, { space })));
}

export const narrowDemo = (name: string, narrow: Narrow): SolenoidJob => narrowed(demo(name), narrow);

export function problemFor(job: SolenoidJob, seed = 1): Problem {
  const problem = problemOf(job, { seed });
  if (problem === null) throw new Error('the job cannot be searched');
  return problem;
}

export function finished(problem: Problem, run: Run = beginRun(problem)): Run {
  let now = run;
  while (now.phase !== 'done') now = runOn(problem, now);
  return now;
}

/** Looked at, assessed, refined and held against every step: what is best, without the nearest answer and what closes the space. */
export function searched(problem: Problem): Run {
  let now = beginRun(problem);
  while (now.phase !== 'nearest') now = runOn(problem, now);
  return now;
}
