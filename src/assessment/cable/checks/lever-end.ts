/** Where the core takes hold of the lever: does it turn it the right way, and does it stay near the axis of its conduit? */
import { pressOnMouth } from '../../../physics/cable/lever-end.ts';
import { inDegrees, inMillimetres, unique } from '../../check.ts';
import { placeAt, type CableContext } from '../context.ts';
import { poseOnLever } from '../force.ts';
import { pullAt, swingAngles } from '../reckon.ts';
import { findingUnit, nothingKnown, type Check } from './shape.ts';

/** Of the radius, the least arm that should be left at the ends of the swing: half, as at 30° off the line; common practice, no source. */
const LEAST_ARM = 0.5;

export function turnsTowardsStop(context: CableContext): Check {
  const { rig, needs, say, unread } = context;
  const { end, isPulled, lever } = rig;
  return {
    ...findingUnit(
      'core-turns-lever',
      'Core turns the lever towards stop over the whole swing',
      'stops',
      'mm',
      'share',
    ),
    wanted: LEAST_ARM,
    how:
      'Arm on which the core turns the lever towards stop over the radius at which it is fastened, the least over the swing; at '
      + 'or below nought it pulls in line with the arm, or the wrong way.',
    needs: unique([...needs.swing, ...needs.geometry, ...needs.way]),
    unread,
    judge() {
      if (end === null || isPulled === null || !rig.isClear) return nothingKnown;
      const bare = { rig, end, isPulled } as Parameters<typeof poseOnLever>[0];
      const worst = swingAngles(rig)
        .map((angle) => poseOnLever(bare, angle))
        .reduce((least, next) => (next.turning < least.turning ? next : least));
      const share = worst.turning / end.radius;
      const word = isPulled ? 'pull' : 'push';
      return {
        value: inMillimetres(worst.turning),
        limit: 0,
        margin: share,
        at: placeAt(worst.shaftAngle, null),
        because:
          share > 0
            ? `At ${say.angle(worst.shaftAngle)} the ${word} turns the lever on an arm of ${say.length(worst.turning)}, the least of the swing; fastened at ${say.length(end.radius)}.`
            : share < -LEAST_ARM
              ? `The ${word} turns the lever towards run: the conduit ends on the wrong side of the lever.`
              : `At ${say.angle(worst.shaftAngle)} the core stands in line with the arm, or beyond: a ${word} does not turn the lever${lever.toStop === 1 ? ' counter-clockwise' : ' clockwise'} from there.`,
      };
    },
  };
}

export function staysOnAxis(context: CableContext): Check {
  const { rig, needs, say, unread } = context;
  const { end, isPulled, swingAllowed, cable } = rig;
  return {
    ...findingUnit('core-on-axis', 'Core stays near the axis of the conduit end', 'stops', '°', '°'),
    wanted: 1,
    how:
      'How far the core may stand off the axis of the conduit end minus how far it does, the most over the swing. '
      + (cable.leverEnd.swing === undefined
        ? 'By fitting: nipple 8°, clamp 4°, swivel 12°; common practice, no source. '
        : '')
      + (cable.leverEnd.conduitDirection === undefined
        ? 'The conduit end is taken to point at the middle of the swing.'
        : ''),
    needs: unique([...needs.swing, ...needs.geometry, ...needs.swingAllowed]),
    unread,
    judge() {
      if (end === null || !rig.isClear) return nothingKnown;
      const bare = { rig, end, isPulled: isPulled ?? true } as Parameters<typeof poseOnLever>[0];
      const worst = swingAngles(rig)
        .map((angle) => poseOnLever(bare, angle))
        .reduce((most, next) => (next.offAxis > most.offAxis ? next : most));
      return {
        value: inDegrees(worst.offAxis),
        limit: inDegrees(swingAllowed),
        margin: inDegrees(swingAllowed - worst.offAxis),
        at: placeAt(worst.shaftAngle, null),
        because: `At ${say.angle(worst.shaftAngle)} the core stands ${say.angle(worst.offAxis)} off the axis of the conduit end; it may stand ${say.angle(swingAllowed)} off.`,
      };
    },
  };
}

/** The press of the core on the mouth at its worst, for a remark; null where it is not known. */
export function pressAtMouth({ known, worn, rig }: CableContext): number | null {
  if (known === null || worn === null || rig.lever.efforts === null) return null;
  const presses = swingAngles(rig).map((angle) => {
    const { atLever, pose } = pullAt(known, angle, worn);
    return pressOnMouth(atLever, pose.offAxis);
  });
  const most = Math.max(...presses);
  return Number.isFinite(most) ? most : null;
}
