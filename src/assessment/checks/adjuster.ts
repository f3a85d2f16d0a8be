/** Has the adjuster range enough for what is set and taken up on the job? */
import { decided, inMillimetres, placeOf, type Check, type MechanicalContext } from '../check.ts';
import { valueOf } from '../readings.ts';
import { poseAtHome } from '../travel.ts';
import { atHome, lostAngle } from './ends.ts';

/** What the adjuster must still be able to take up, against what it has left. */
export function adjusterRange(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  const { adjuster } = rig.job.layout;
  const find = () => {
    const fitted = context.rig.job.layout.adjuster;
    if (fitted === 'none') return { margin: -1, range: 0, needed: Infinity, halfTurn: 0 };
    const range = valueOf(fitted.range, 'length');
    const pitch = valueOf(fitted.pitch, 'length');
    const { bracketGive, adjusterWear } = context.rig;
    const pose = poseAtHome(context.rig, context.scenes[0]);
    const lash = pose.rate > 0 ? lostAngle(context.rig, pose.radius) / pose.rate : NaN;
    const needed = Number.isNaN(lash) ? Infinity : lash + bracketGive + adjusterWear + pitch / 2;
    return { margin: range / needed - 1, range, needed, halfTurn: (pose.rate * pitch) / 2 };
  };
  return {
    id: 'adjuster-range',
    title: 'Adjuster has range enough',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'mm',
    marginUnit: 'share',
    wanted: 0.25,
    how: 'Range left, over what must be taken up, minus one: lash as travel, give of the bracket, wear, half a turn.',
    needs:
      adjuster === 'none'
        ? []
        : ['layout.adjuster.range', 'layout.adjuster.pitch', ...needs.travelUnmoved, ...needs.lash, ...needs.give],
    ...decided(find, ({ range, needed, halfTurn }) =>
      adjuster === 'none'
        ? {
            value: 0,
            limit: null,
            at: null,
            because: 'There is no adjuster: the last half millimetre cannot be set on the job.',
          }
        : {
            value: inMillimetres(range),
            limit: inMillimetres(needed),
            at: placeOf(atHome(rig, context.scenes[0]), context.scenes[0]),
            because:
              needed === Infinity
                ? 'Turning the adjuster does not turn the lever the wanted way at home.'
                : `Lash, give of the bracket, wear and half a turn take ${say.length(needed)} of ${say.length(range)}; half a turn moves the shaft ${say.angle(halfTurn)} at home.`,
          },
    ),
  };
}
