/** What a check of an air cylinder may look at. */
import type { MechanicalContext } from '../check.ts';
import { mechanicalScenesOf } from '../scene.ts';
import type { Words } from '../words.ts';
import { airNeedsOf, type AirNeeds } from './air-needs.ts';
import { airRigOf, type AirJob, type AirRig } from './air-rig.ts';

export interface AirContext extends MechanicalContext {
  readonly air: AirRig;
  readonly airNeeds: AirNeeds;
}

export function airContextOf(job: AirJob, say: Words): AirContext {
  const air = airRigOf(job);
  const airNeeds = airNeedsOf(air);
  return {
    air,
    airNeeds,
    rig: air.mechanical,
    scenes: mechanicalScenesOf(air.mechanical),
    needs: airNeeds.mechanical,
    say,
  };
}
