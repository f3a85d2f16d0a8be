/**
 * A hand stop beside another means, both on one lever: the hand stop with the means at rest, and either of them with the
 * other stuck where the engine runs. That the means works with the hand stop at rest, and with both let go comes back, its own
 * checks say: the cable hangs on its lever.
 */
import type { HandStop, Job } from '../../job/schema.ts';
import { cableContext, type CableContext } from '../cable/context.ts';
import { checksOfCableItself } from '../cable/assess.ts';
import { poseOnLever } from '../cable/force.ts';
import { decided, inDegrees, unique, type Check, type MechanicalContext } from '../check.ts';
import { leverOf } from '../lever.ts';
import { DefaultReader } from '../readings.ts';
import { turnWhile, turnWithMoverStuck } from './free-turn.ts';
import { hungLever } from './hung-lever.ts';
import { carriedAlong, carriedAt } from './means-at-rest.ts';

/** Checks of a cable in which the way back has a say. */
const CABLE_WEAR = ['worn-cable', 'second-worn'];

/** Nothing where no hand cable stands beside the means. */
export function handStopChecks(context: MechanicalContext): Check[] {
  const { handStop } = context.rig.job;
  if (handStop === undefined) return [];
  const beside = besideMeans(context, handStop);
  // Energised to run the lever is brought back by the means: how the cable wears has no say in that.
  const asked = checksOfCableItself(beside).filter(({ id }) => context.rig.toStop || !CABLE_WEAR.includes(id));
  return [
    ...asked.map((check) => ({
      ...check,
      id: `hand-stop-${check.id}`,
      title: `Hand stop: ${check.title.charAt(0).toLowerCase()}${check.title.slice(1)}`,
      needs: unique([...check.needs, ...carriedPaths(context)]),
    })),
    worksWithMeansStuck(context),
    worksWithHandStopStuck(context, beside),
  ];
}

/** The cable on a lever that carries plunger or rod along. */
function besideMeans({ rig, scenes, say }: MechanicalContext, handStop: HandStop): CableContext {
  const carried = carriedAlong(rig, scenes[0]);
  const lever = leverOf(rig.job, new DefaultReader());
  const hung = hungLever(lever, (angle) => carriedAt(carried, lever.toStop * (angle - lever.run)));
  return cableContext(rig.job, handStop, say, hung);
}

function carriedPaths({ rig, needs }: MechanicalContext): readonly string[] {
  return rig.toStop && rig.linkage.kind !== 'chain' ? needs.pullNeeded : [];
}

/** How far an over-travel spring can still give where the mover is stuck with the lever at run. */
function givingPaths({ rig }: MechanicalContext): readonly string[] {
  return rig.toStop || rig.overTravel === null ? [] : ['layout.overTravel.travel'];
}

function worksWithMeansStuck(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  const stuck = `${rig.mover} stuck ${rig.toStop ? 'out' : 'at home'}`;
  return {
    id: 'hand-stop-means-stuck',
    title: `Hand stop works with the ${stuck}`,
    question: 'stops',
    unit: '°',
    marginUnit: '°',
    wanted: inDegrees(rig.wanted.noFuel),
    how: `How far the lever can be turned towards stop while the ${rig.mover} stays where it is, minus what no-fuel asks, lash taken off.`,
    needs: unique([...needs.travelUnmoved, ...needs.lash, ...givingPaths(context)]),
    ...decided(
      () => {
        const { rig: now, scenes } = context;
        const { from, turn } = turnWithMoverStuck(now, scenes[0]);
        const asked = now.lever.toStop * (now.lever.noFuel - from) + now.lever.lash;
        return { turn, asked, margin: inDegrees(turn - asked) };
      },
      ({ turn, asked, margin }) => ({
        value: inDegrees(turn),
        limit: inDegrees(asked),
        at: null,
        because:
          margin < 0
            ? `With the ${stuck} the ${rig.linkage.kind} leaves the lever ${say.angle(turn)} of the ${say.angle(asked)} that no-fuel asks: ${rig.toStop ? 'a short chain' : 'an over-travel spring with more travel'}, or a joint that can be pulled apart by hand, would leave it free.`
            : `With the ${stuck} the ${rig.linkage.kind} leaves the lever ${say.angle(turn)}; no-fuel asks ${say.angle(asked)}.`,
      }),
    ),
  };
}

function worksWithHandStopStuck(
  { rig, say }: MechanicalContext,
  { known, needs, rig: cable, unread }: CableContext,
): Check {
  const { lever } = rig;
  return {
    id: 'means-hand-stop-stuck',
    title: 'Stops by its means with the hand stop stuck at rest',
    question: 'stops',
    unit: '°',
    marginUnit: '°',
    wanted: inDegrees(rig.wanted.noFuel),
    how: 'How far the lever can be turned towards stop while the core stays where it is, minus what no-fuel asks, lash taken off.',
    needs: unique([...needs.idle, ...needs.lash]),
    unread,
    judge() {
      const asked = lever.toStop * (lever.noFuel - lever.run) + lever.lash;
      const most = lever.toStop * (lever.hardStop - lever.run);
      if (known === null) return { value: NaN, limit: null, margin: NaN, at: null, because: '' };
      const rest = poseOnLever(known, lever.run).freeLength;
      const bows = isSoft(cable.cable) && cable.isPulled === true;
      // Pulled the core is on its way to stop: a lever that runs ahead of it makes it bow out, if it is soft enough to.
      const isFree = (at: number) => {
        const taken = rest - poseOnLever(known, lever.run + lever.toStop * at).freeLength;
        return Math.abs(taken) <= cable.slack + 1e-9 || (bows && taken > 0);
      };
      const free = Math.min(turnWhile(isFree, most), most);
      return {
        value: inDegrees(free),
        limit: inDegrees(asked),
        margin: inDegrees(free - asked),
        at: null,
        because: bows
          ? `The core is a strand: where the lever runs ahead of a stuck cable it bows out, and the lever is free for ${say.angle(free)}.`
          : `A stuck cable leaves the lever ${say.angle(free)} by its slack of ${say.length(cable.slack)}; no-fuel asks ${say.angle(asked)}.`,
      };
    },
  };
}

/** Strands bow out sideways before they push anything; a solid wire does not. */
function isSoft({ core }: HandStop | Extract<Job['means'], { kind: 'hand cable' }>): boolean {
  return core.construction.startsWith('strand');
}
