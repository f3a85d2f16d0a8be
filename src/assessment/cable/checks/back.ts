/** Does the lever come back to run with the cable hanging on it? */
import { unique } from '../../check.ts';
import { placeAt, type CableContext } from '../context.ts';
import { bearsPush, type KnownCable } from '../force.ts';
import { returnMargin } from '../reckon.ts';
import { findingUnit, nothingKnown, type Check } from './shape.ts';

export function comesBackOnCable(context: CableContext): Check {
  const { rig, needs, say, known, unread } = context;
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
      const margin = returnMargin(back);
      const { left, needed, pose } = back;
      const says =
        left > 0
          ? `At ${say.angle(pose.shaftAngle)} the lever has ${say.force(left)} left for the core, and ${say.force(needed)} carry core and handle back when worn and cold.`
          : `At ${say.angle(pose.shaftAngle)} the lever has nothing left for the core: cold oil alone holds it.`;
      return {
        value: left,
        limit: needed,
        margin,
        at: placeAt(pose.shaftAngle),
        because: margin < 0 && rig.mayPush === true ? `${says} ${pushWords(known, context)}` : says,
      };
    },
  };
}

/** A core that may be pushed can be pushed back by hand; that is no return by itself. */
function pushWords({ isPulled }: KnownCable, { known, say, worstBack }: CableContext): string {
  const back = worstBack();
  if (known === null || back === null) return '';
  const bears = bearsPush(known, back.pose);
  return isPulled
    ? `The hand can push it home, as long as the free core bears it: up to ${say.force(bears)} at the lever.`
    : 'The hand can pull it home.';
}
