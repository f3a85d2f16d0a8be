/** A hand stop put beside the means of another job. */
import type { Job } from '../../../src/job/schema.ts';
import { altered, changed, demo, readable } from '../../job/jobs.ts';

const ferry = demo('ferry');
const ferryCable = ferry.means as Extract<Job['means'], { kind: 'hand cable' }>;

/** The ferry with its air cylinder as its means. */
export const ferryByAir = readable({
  ...ferry,
  means: ferry.considered![1].means,
  layout: ferry.considered![1].layout!,
});

const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** The ferry's cable, its readings at the handle left out, square to the lever of another job in the middle of its swing. */
export function beside(job: Job, more: Readonly<Record<string, unknown>> = {}): Job {
  const { readings: _, ...cable } = ferryCable;
  const [run, noFuel, offset] = [
    job.survey.lever.runAngle,
    job.survey.lever.noFuelAngle,
    job.survey.lever.armOffset,
  ].map((text) => parseFloat(text));
  const way = Math.sign(noFuel - run);
  const middle = radians((run + noFuel) / 2 + offset);
  const square = middle + (way * Math.PI) / 2;
  const mm = (value: number) => `${value.toFixed(3)} mm`;
  const handStop = {
    ...cable,
    leverEnd: {
      ...cable.leverEnd,
      radius: '45 mm',
      angle: `${offset}°`,
      conduitEnd: {
        x: mm(45 * Math.cos(middle) + 100 * Math.cos(square)),
        y: mm(45 * Math.sin(middle) + 100 * Math.sin(square)),
      },
    },
    whileEffortWasRead: 'apart',
  };
  return changed(altered(job, { handStop }), more);
}
