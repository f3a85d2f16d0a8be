/** Does the lever come back to run with the cable hanging on it? */
import { unique, type Judgement } from '../../check.ts';
import { placeAt, type CableContext } from '../context.ts';
import type { Returning } from '../force.ts';
import { returnMargin } from '../reckon.ts';
import { findingUnit, nothingKnown, type Check } from './shape.ts';

/** Times of what is left beyond which a figure of what is needed says no more. */
const MOST_SAID = 50;

export function comesBackOnCable(context: CableContext): Check {
  const { rig, needs, known, unread } = context;
  return {
    ...findingUnit('comes-back-on-cable', 'Lever comes back against the cable', 'runs', 'N', 'share'),
    wanted: rig.wanted.return,
    how:
      'Moment that drives the lever back over its own friction with cold oil plus the core carried along, minus one, the least '
      + 'over the swing. Carrying the core back takes the drag at the handle, multiplied by the worn bends, and its weight.',
    needs: unique(needs.back),
    unread,
    judge() {
      const back = context.worstBack();
      if (back === null || known === null) return nothingKnown;
      return backJudged(context, back, 'core and handle');
    },
  };
}

/** @param carried what the lever takes along, in words */
export function backJudged(
  { say }: CableContext,
  back: Returning,
  carried: 'core and handle' | 'cores and both handles',
): Judgement {
  const { left, needed, pose } = back;
  const isFar = needed > MOST_SAID * Math.max(left, 1);
  return {
    value: left,
    limit: isFar ? null : needed,
    margin: returnMargin(back),
    at: placeAt(pose.shaftAngle),
    because: isFar
      ? `At ${say.angle(pose.shaftAngle)} the lever has ${say.force(left)} left for the core, far less than it takes to carry ${carried} back when worn and cold.`
      : left > 0
        ? `At ${say.angle(pose.shaftAngle)} the lever has ${say.force(left)} left for the core, and ${say.force(needed)} carry ${carried} back when worn and cold.`
        : `At ${say.angle(pose.shaftAngle)} the lever has nothing left for the core: cold oil alone holds it.`,
  };
}
