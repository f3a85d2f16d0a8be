/** What should be known when the result of an air cylinder is read, beside the findings. */
import { mechanicalRemarks, vapourRemarks } from '../remarks.ts';
import type { AirContext } from './air-context.ts';
import { momentOnStop } from './checks/load.ts';

export function airRemarks(context: AirContext): string[] {
  const { air, rig, say } = context;
  const remarks = mechanicalRemarks(context);
  const moment = momentOnStop(context);
  if (moment > 0 && rig.job.survey.lever.bears === undefined && air.hasAir)
    remarks.push(
      `At ${say.pressure(air.high)} the rod lays ${say.torque(moment)} on the lever's stop: ask the maker of the pump what it bears.`,
    );
  if (air.hasAir)
    remarks.push(
      'Shut off and empty the air before hands go near the lever: a cylinder moves without warning when its valve is worked or its vessel fills.',
    );
  if (rig.toStop)
    remarks.push('Without air this cannot stop the engine: a hand stop that works without air stays fitted.');
  remarks.push('Leaks, other users of the vessel, water and ice in the pipe are not reckoned.');
  return [...remarks, ...vapourRemarks(rig.job)];
}
