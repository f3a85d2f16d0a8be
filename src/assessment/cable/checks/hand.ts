/** What is asked at the handle: pull, travel, and how much the cable may wear before it is too much. */
import { inMillimetres, unique, type Judgement } from '../../check.ts';
import { turnedBy } from '../../../physics/cable/route.ts';
import { bendWords, placeAt, type CableContext } from '../context.ts';
import { frictionThatFails, noFuelTaken, travelTo, type TravelUsed } from '../reckon.ts';
import type { Friction, Limit } from '../rig.ts';
import { bendCosts } from '../study.ts';
import { findingUnit, nothingKnown, type Check } from './shape.ts';

/** Travel that should be left at the handle: common practice, no source. */
export const SPARE_TRAVEL_MM = 10;

export function handlePull(context: CableContext): Check {
  const { rig, needs, say, known, worn, unread } = context;
  const { limit, ratio, isPulled } = rig;
  const verb = isPulled === false ? 'Push' : 'Pull';
  return {
    ...findingUnit('handle-pull', `${verb} at the handle is acceptable`, 'stops', 'N', 'share'),
    wanted: limit?.wanted ?? rig.wanted.pull,
    how:
      'Effort that may be asked over the effort at the handle, minus one: the hardest place of the swing, lever with cold oil, '
      + 'friction at the high end of its range times ageing, drag at the handle added. '
      + (limit === null
        ? 'The limit follows from handle and posture.'
        : `Limit: ${limit.source}.${limit.momentary === null ? '' : ` Once, in alarm, adults of the weaker group can do ${say.force(limit.momentary)}.`}`),
    needs: unique([...needs.pull, ...needs.limit]),
    unread,
    judge() {
      const hardest = context.hardest();
      if (hardest === null || limit === null || known === null || worn === null) return nothingKnown;
      const effort = hardest.atHandle / ratio;
      if (!Number.isFinite(effort)) {
        return {
          value: NaN,
          limit: limit.avoidBeyond,
          margin: -1,
          at: placeAt(hardest.pose.shaftAngle),
          because: noForce(context, hardest.pose.turning),
        };
      }
      if (hardest.atHandle > known.core.breakingLoad) {
        return {
          value: NaN,
          limit: limit.avoidBeyond,
          margin: limit.avoidBeyond / effort - 1,
          at: placeAt(hardest.pose.shaftAngle),
          because: `The core would part, at ${say.force(known.core.breakingLoad)}, before it turned the lever when worn and cold: its bends add up to ${say.angle(turnedBy(known.course.pieces))}.`,
        };
      }
      const nowEffort = (context.hardestNow()?.atHandle ?? NaN) / ratio;
      return {
        value: effort,
        limit: limit.avoidBeyond,
        margin: limit.avoidBeyond / effort - 1,
        at: placeAt(hardest.pose.shaftAngle),
        because:
          `${say.force(effort)} at the handle when worn and cold, ${say.force(nowEffort)} as it is now; the core bears `
          + `${say.force(hardest.atLever)} at the lever, with the shaft at ${say.angle(hardest.pose.shaftAngle)}. `
          + dearestWords(context, hardest, worn.friction)
          + `More than ${say.force(limit.avoidBeyond)} is to be avoided${limit.recommended < limit.avoidBeyond ? `, up to ${say.force(limit.recommended)} is recommended` : ''}.`,
      };
    },
  };
}

function noForce({ rig: { isPulled } }: CableContext, turning: number): string {
  return turning > 0
    ? 'Nothing gets through: pushed as hard as the lever asks, the core lies down in its conduit and jams.'
    : `The core stands in line with the arm, or beyond: no ${isPulled === false ? 'push' : 'pull'} turns the lever towards stop from there.`;
}

function dearestWords(context: CableContext, hardest: Parameters<typeof bendCosts>[1], friction: number): string {
  const { known, rig, say } = context;
  const costs = known === null ? [] : bendCosts(known, hardest, friction);
  if (costs.length === 0) return '';
  const most = costs.reduce((best, cost, i) => (cost > costs[best] ? i : best), 0);
  const bend = known!.course.pieces.filter(({ kind }) => kind === 'bend')[most];
  return `Of the bends, ${bendWords(rig, most)} (${say.angle(bend.angle)}) costs most: ${say.force(costs[most] / rig.ratio)}. `;
}

export function handleTravel(context: CableContext): Check {
  const { rig, needs, say, known, worn, now, unread } = context;
  return {
    ...findingUnit('handle-travel', 'Handle has travel enough', 'stops', 'mm', 'mm'),
    wanted: SPARE_TRAVEL_MM,
    how:
      'Travel that the handle has minus travel until no-fuel and the lash of the lever are taken: core drawn in, slack, stretch '
      + 'of the core and shortening of the conduit under the tension that each place has (worn and cold), and play in the bends '
      + 'where the core starts slack. A travel that was read at the handle counts before, with what wear and cold add.',
    needs: unique([...needs.back, ...needs.lash, ...needs.slack, ...needs.play, ...needs.handleTravel]),
    unread,
    judge() {
      if (known === null || worn === null || now === null || rig.lever.efforts === null) return nothingKnown;
      const used = travelTo(known, noFuelTaken(rig), worn);
      const available = rig.handleTravel;
      const isWhole = Number.isFinite(used.handle) && used.force <= known.core.breakingLoad;
      // A travel that was read counts before one that was reckoned; only what wear and cold add to it is reckoned.
      const more = used.handle - travelTo(known, noFuelTaken(rig), now).handle;
      const whole = rig.travelRead === null ? used.handle : rig.travelRead + more;
      return {
        value: isWhole ? inMillimetres(whole) : NaN,
        limit: inMillimetres(available),
        margin: isWhole ? inMillimetres(available - whole) : -inMillimetres(available),
        at: placeAt(noFuelTaken(rig)),
        because: isWhole
          ? rig.travelRead === null
            ? reckonedWords(context, used)
            : `Fuel was off after ${say.length(rig.travelRead)} at the handle; worn and cold it takes ${say.length(whole)} of the ${say.length(available)} that the handle has.`
          : Number.isFinite(used.force)
            ? `No-fuel is not reached: the core would part, at ${say.force(known.core.breakingLoad)}.`
            : 'No-fuel is not reached: no force in the core turns the lever that far.',
      };
    },
  };
}

function reckonedWords(context: CableContext, used: TravelUsed): string {
  const { rig, say } = context;
  return `No-fuel is reached after ${say.length(used.handle)} of the ${say.length(rig.handleTravel)} that the handle has: ${partsOfTravel(context, used)}.`;
}

export function partsOfTravel({ rig, say }: CableContext, used: TravelUsed): string {
  return [
    `${say.length(used.core)} of core`,
    `${say.length(used.slack)} slack`,
    `${say.length(used.stretch)} stretch`,
    `${say.length(used.shortening)} of conduit`,
    ...(used.play > 0 ? [`${say.length(used.play)} play in the bends`] : []),
    ...(rig.ratio === 1 ? [] : [`times ${Number(rig.ratio.toPrecision(3))}`]),
  ].join(', ');
}

export function wornCable(context: CableContext): Check {
  const { rig, needs, known, unread } = context;
  const { friction, limit, ageing } = rig;
  return {
    ...findingUnit('worn-cable', 'Cable still works when it is worn', 'stops', '', 'share'),
    wanted: ageing - 1,
    how:
      'Friction of the core at which the hand is asked more than may be, or the lever no longer comes back, over the friction '
      + 'now at the high end of its range, minus one. Wanted: friction when worn over friction now, minus one.',
    needs: unique([...needs.pull, ...needs.limit]),
    unread,
    judge() {
      if (known === null || friction === null || limit === null || rig.lever.efforts === null) return nothingKnown;
      return wornJudged(context, friction, limit, frictionThatFails(known, limit.avoidBeyond));
    },
  };
}

/** @param fails friction at which the hand is asked too much, and at which the lever no longer comes back */
export function wornJudged(
  { rig: { ageing }, say }: CableContext,
  friction: Friction,
  limit: Limit,
  { pull, back }: { readonly pull: number; readonly back: number },
): Judgement {
  const fails = Math.min(pull, back);
  const now = friction.high;
  const what = pull <= back ? 'the hand is asked more than may be' : 'the lever no longer comes back';
  const said = (value: number) => `${Number(value.toPrecision(2))}`;
  return {
    value: fails,
    limit: now * ageing,
    margin: fails === 0 ? -1 : now > 0 ? fails / now - 1 : Infinity,
    at: null,
    because: Number.isFinite(fails)
      ? fails === 0
        ? `Even without friction ${what}.`
        : `At a friction of ${said(fails)} ${what}; now it is up to ${said(now)} by ${friction.from}, worn ${said(now * ageing)}.`
      : `No friction makes it fail: neither hand nor return spring is asked more than they have (${say.force(limit.avoidBeyond)}).`,
  };
}
