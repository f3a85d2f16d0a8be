/** What should be known when a result is read, beside the findings. */
import { outsideReadings } from '../physics/load.ts';
import type { Context } from './check.ts';
import { farRuns } from './supply/remarks.ts';

export function remarksOn({ rig, scenes, say }: Context): string[] {
  const remarks: string[] = [];
  const { job, lever, linkage } = rig;
  const [{ travel }] = scenes;
  if (linkage.kind === 'slot' || linkage.kind === 'chain') {
    remarks.push(
      linkage.kind === 'chain'
        ? 'The chain leaves the lever free for the hand stop while the plunger is out.'
        : 'The hand stop moves the plunger with the lever: the slot follows in both directions.',
    );
  } else
    remarks.push(`The hand stop drags the plunger along: the ${linkage.kind === 'link' ? 'link' : 'pin'} is rigid.`);
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
        ? `The plunger runs free for ${say.length(rig.stroke - travel.startGap)} before the chain takes the lever along.`
        : `The lever on its own stop keeps the plunger ${say.length(rig.stroke - travel.startGap)} short of its outer stop; the stroke begins there.`,
    );
  }
  remarks.push(...farRuns(job));
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
  if (job.surroundings.vapour !== 'none') {
    remarks.push(
      'Flammable vapour may gather here: whether this equipment may be fitted is for a competent person to decide.',
    );
  }
  return remarks;
}
