/** What should be known when a result is read, beside the findings. */
import type { Job } from '../job/schema.ts';
import { outsideReadings } from '../physics/load.ts';
import type { Context, MechanicalContext } from './check.ts';
import { farRuns } from './supply/remarks.ts';

/** What concerns any mover of the lever. */
export function mechanicalRemarks({ rig, scenes, say }: MechanicalContext): string[] {
  const remarks: string[] = [];
  const { job, lever, linkage } = rig;
  const [{ travel }] = scenes;
  if (linkage.kind === 'slot' || linkage.kind === 'chain') {
    remarks.push(
      linkage.kind === 'chain'
        ? `The chain leaves the lever free for the hand stop while the ${rig.mover} is out.`
        : `The hand stop moves the ${rig.mover} with the lever: the slot follows in both directions.`,
    );
  } else
    remarks.push(
      `The hand stop drags the ${rig.mover} along: the ${linkage.kind === 'link' ? 'link' : 'pin'} is rigid.`,
    );
  if (lever.efforts !== null) {
    const angles = [travel.stations[0].shaftAngle, travel.stations[travel.stations.length - 1].shaftAngle];
    const outside = Math.max(...lever.efforts.flatMap((curve) => angles.map((angle) => outsideReadings(curve, angle))));
    if (outside > 1e-6)
      remarks.push(
        `The lever swings ${say.angle(outside)} past the furthest effort reading; there the last reading is carried on.`,
      );
  }
  const states = new Set(job.survey.effort.readings.map(({ engine }) => engine));
  if (states.size === 1 && states.has('standing')) {
    remarks.push(
      'Effort was read with the engine standing only; the governor may ask more when it runs. Read it idling too.',
    );
  }
  if (travel.startGap < rig.stroke - 1e-6) {
    remarks.push(
      linkage.kind === 'chain'
        ? `The ${rig.mover} runs free for ${say.length(rig.stroke - travel.startGap)} before the chain takes the lever along.`
        : `The lever on its own stop keeps the ${rig.mover} ${say.length(rig.stroke - travel.startGap)} short of its outer stop; the stroke begins there.`,
    );
  }
  return remarks;
}

export function vapourRemarks({ surroundings }: Job): string[] {
  return surroundings.vapour === 'none'
    ? []
    : ['Flammable vapour may gather here: whether this equipment may be fitted is for a competent person to decide.'];
}

export function remarksOn(context: Context): string[] {
  const { job } = context.rig;
  const remarks = [...mechanicalRemarks(context), ...farRuns(job)];
  if (job.means.coil.stages === 'timed economiser') {
    remarks.push(
      'A timed economiser reduces the current after its delay whether or not the plunger has come home: if it has not, it will not get there.',
    );
  }
  if (job.means.force.some(({ source }) => source === 'field solve')) {
    remarks.push(
      'Some pulls come from a field solve, not from a balance: hang a weight or read one pull at home and one at full stroke before trusting them.',
    );
  }
  return [...remarks, ...vapourRemarks(job)];
}
