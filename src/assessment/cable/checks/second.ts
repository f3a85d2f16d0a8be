/** Another place of control on the same lever: what each adds to the other. */
import { unique } from '../../check.ts';
import { placeAt, type CableContext } from '../context.ts';
import { fromOther, hardestPull, withOther } from '../reckon.ts';
import { findingUnit, nothingKnown, type Check } from './shape.ts';

/** Only where there is another place, or may be. */
export function bothPlacesWork(context: CableContext): Check | null {
  const { rig, needs, say, known, worn, unread } = context;
  const { limit, cable, second, ratio, prefix } = rig;
  const { secondStation } = cable;
  if (secondStation === 'none') return null;
  const name = typeof secondStation === 'string' ? 'the other place' : secondStation.name;
  return {
    ...findingUnit(
      'second-station',
      'Both places of control work, each with the other hanging on',
      'stops',
      'N',
      'share',
    ),
    wanted: limit?.wanted ?? rig.wanted.pull,
    how:
      'Effort that may be asked over the harder of both handles, minus one: worn and cold, with the idle core of the other place '
      + 'driven along at the lever. It is drawn out or pushed in with its drag and bends; pushed, it bows out at the latest '
      + 'under the load that its free length bears. Handle, core and conduit of the other place are taken to be the same.',
    needs: unique([...needs.pull, ...needs.limit, ...needs.second, ...needs.bore]),
    unread:
      typeof secondStation !== 'string' && second === null
        ? {
            because: 'The route of the other place of control is not drawn.',
            readings: [`${prefix}.secondStation.route`],
          }
        : unread,
    judge() {
      if (known === null || worn === null || limit === null || second === null || second.pieces.length === 0)
        return nothingKnown;
      if (rig.lever.efforts === null || rig.course === null) return nothingKnown;
      const alone = hardestPull(known, worn);
      const first = hardestPull(known, worn, withOther(known, second, worn));
      const other = fromOther(known, second);
      const far = hardestPull(other, worn, withOther(known, rig.course, worn));
      const isFar = far.atHandle > first.atHandle;
      const hardest = isFar ? far : first;
      const effort = hardest.atHandle / ratio;
      const added = (first.atHandle - alone.atHandle) / ratio;
      if (!(hardest.atHandle <= known.core.breakingLoad)) {
        return {
          value: NaN,
          limit: limit.avoidBeyond,
          margin: -1,
          at: placeAt(hardest.pose.shaftAngle),
          because: 'From one of the two places no effort that the core bears turns the lever to stop.',
        };
      }
      return {
        value: effort,
        limit: limit.avoidBeyond,
        margin: limit.avoidBeyond / effort - 1,
        at: placeAt(hardest.pose.shaftAngle),
        because:
          `${say.force(first.atHandle / ratio)} at the first handle, of which the idle core of "${name}" makes ${say.force(added)}; `
          + `${say.force(far.atHandle / ratio)} at "${name}".`,
      };
    },
  };
}
