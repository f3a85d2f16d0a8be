/** What the core must bear: somebody who pulls in alarm, and a push. */
import { momentary } from '../../../physics/cable/human-force.ts';
import { NOT_MEASURED } from '../../../job/quantity-text.ts';
import { unique } from '../../check.ts';
import { placeAt, type CableContext } from '../context.ts';
import { bearsPush, poseOnLever } from '../force.ts';
import { pullAt, swingAngles } from '../reckon.ts';
import { findingUnit, nothingKnown, type Check } from './shape.ts';

/** What an end holds of the strength of its core: common practice, no source. */
const endHolds = { nipple: 0.8, clamp: 0.5, swivel: 0.8 } as const;
/** A leg in alarm, N: common practice, no source. */
const LEG_IN_ALARM = 1000;

export function coreStrength({ rig, say }: CableContext): Check {
  const { core, cable, prefix, ratio } = rig;
  return {
    ...findingUnit('core-strength', 'Core bears a pull in alarm', 'stops', 'N', 'share'),
    wanted: 1,
    how:
      'Breaking load of the core, less what its end fitting costs, over the strongest momentary pull at the handle, minus one. '
      + 'Breaking load by EN 12385 factors from memory; nipple and swivel hold 0.8 of it, a clamp 0.5: common practice, no source.',
    needs: unique([
      `${prefix}.core.construction`,
      `${prefix}.core.diameter`,
      `${prefix}.handle.kind`,
      `${prefix}.leverEnd.fitting`,
    ]),
    judge() {
      const { fitting } = cable.leverEnd;
      if (core === null || fitting === NOT_MEASURED) return nothingKnown;
      const hand = cable.handle.kind === 'pedal' ? LEG_IN_ALARM : momentary.pull.strongest;
      const bears = core.breakingLoad * endHolds[fitting];
      const pull = hand * ratio;
      return {
        value: bears,
        limit: pull,
        margin: bears / pull - 1,
        at: null,
        because: `The core with its ${fitting} bears ${say.force(bears)}; a strong ${cable.handle.kind === 'pedal' ? 'leg' : 'hand'} in alarm puts ${say.force(pull)} on it.`,
      };
    },
  };
}

/** Only where a push is asked, or may be. */
export function mayBePushed({ rig, needs }: CableContext): Check | null {
  const { isPulled, mayPush, prefix } = rig;
  if (isPulled === true) return null;
  return {
    ...findingUnit('may-be-pushed', 'Core may be pushed as it is asked to', 'stops', '', 'share'),
    wanted: 0,
    how: 'A core that works by pulling only cannot push the lever to stop.',
    needs: unique([...needs.way, `${prefix}.core.moves`]),
    judge() {
      const can = mayPush === true;
      return {
        value: NaN,
        limit: null,
        margin: can ? Infinity : -1,
        at: null,
        because: can
          ? 'This core may be pushed.'
          : 'This core works by pulling only, and is asked to push the lever to stop: bring the conduit to the other side of the lever, so that it pulls, or fit a core that may be pushed.',
      };
    },
  };
}

/** Only where a push is asked, or may be. */
export function pushHolds(context: CableContext): Check | null {
  const { rig, needs, say, known, worn, unread } = context;
  if (rig.isPulled === true) return null;
  return {
    ...findingUnit('push-holds', 'Pushed core does not bow out', 'stops', 'N', 'share'),
    wanted: 1,
    how:
      'Push under which the free core between conduit and lever bows out (Euler, held at the conduit, pinned at the lever) over '
      + 'the push at the lever, minus one, the least over the swing, cold oil; -1 where the core jams inside its conduit first.',
    needs: unique(needs.pull),
    unread,
    judge() {
      if (known === null || worn === null || rig.lever.efforts === null) return nothingKnown;
      let worst = { margin: Infinity, bears: NaN, push: NaN, angle: rig.lever.run, isJammed: false };
      for (const angle of swingAngles(rig)) {
        const { atLever, atHandle } = pullAt(known, angle, worn);
        const bears = bearsPush(known, poseOnLever(known, angle));
        const isJammed = !Number.isFinite(atHandle);
        const margin = isJammed ? -1 : atLever > 0 ? bears / atLever - 1 : Infinity;
        if (Number.isNaN(margin)) return nothingKnown;
        if (margin < worst.margin) worst = { margin, bears, push: atLever, angle, isJammed };
      }
      return {
        value: worst.bears,
        limit: worst.push,
        margin: worst.margin,
        at: placeAt(worst.angle),
        because: worst.isJammed
          ? `At ${say.angle(worst.angle)} no push gets through: the core jams in its conduit, or stands in line with the arm.`
          : `At ${say.angle(worst.angle)} the free core bows out under ${say.force(worst.bears)}; the lever asks ${say.force(worst.push)}.`,
      };
    },
  };
}
