/** Where the core stands off the lever over its whole swing. */
import { leverPose, type LeverEnd, type LeverPose } from '../../physics/cable/lever-end.ts';
import type { Lever } from '../lever.ts';

/** Places between run and the hard stop at which the swing is looked at. */
export const SWING_PLACES = 49;

/** Null where the lever's angles are not known, or it would swing through the mouth of the conduit. */
export function swingOf(end: LeverEnd, { run, hardStop }: Lever): LeverPose[] | null {
  if (Number.isNaN(run + hardStop)) return null;
  const angles = Array.from({ length: SWING_PLACES }, (_, i) => run + ((hardStop - run) * i) / (SWING_PLACES - 1));
  return angles.every((angle) => isClear(end, angle)) ? angles.map((angle) => leverPose(end, angle)) : null;
}

function isClear({ conduitX, conduitY, radius, angle }: LeverEnd, shaftAngle: number): boolean {
  const away = Math.hypot(
    conduitX - radius * Math.cos(shaftAngle + angle),
    conduitY - radius * Math.sin(shaftAngle + angle),
  );
  return away > 1e-3 * radius;
}
