/** Does the connection stay in its range, taut, shut until it must give, and gentle on the plunger's sides? */
import { linkToArm, linkToPull } from '../../physics/linkage.ts';
import { inDegrees, inMillimetres, placeOf, type Check, type Context } from '../check.ts';
import { valueOf } from '../readings.ts';
import type { Rig } from '../rig.ts';
import { leverMoments, neededAt, worstIn, type Scene } from '../scene.ts';
import type { Station, Travel } from '../travel.ts';

/** A slot must hold the pin at every gap; a link must stay away from its dead points. */
export function connectionRange(context: Context): Check | null {
  const { rig, needs, say } = context;
  const { connection } = rig.job.layout;
  const { linkage } = rig;
  const frame = { id: 'connection-range', question: rig.toStop ? ('stops' as const) : ('runs' as const) };
  if (connection.kind === 'slotted lever') {
    return {
      ...frame,
      title: 'Slot holds the pin over the whole travel',
      unit: 'mm',
      marginUnit: 'mm',
      wanted: 1,
      how: 'Distance of the pin from the ends of the slot, its own radius taken off, the least over the travel.',
      needs: [
        ...needs.travel,
        'layout.connection.slotFrom',
        'layout.connection.slotTo',
        'layout.connection.pinDiameter',
      ],
      judge() {
        const half = valueOf(connection.pinDiameter, 'length') / 2;
        const inner = valueOf(connection.slotFrom, 'length') + half;
        const outer = valueOf(connection.slotTo, 'length') - half;
        const { station, scene, margin } = worstIn(
          rig,
          context.scenes,
          () =>
            ({ pose }) =>
              Math.min(pose.radius - inner, outer - pose.radius),
        );
        const { radius } = station.pose;
        const end = radius - inner < outer - radius ? 'inner' : 'outer';
        return {
          value: inMillimetres(radius),
          limit: inMillimetres(end === 'inner' ? inner : outer),
          margin: inMillimetres(margin),
          at: placeOf(station, scene),
          because: `The pin comes ${margin >= 0 ? `within ${say.length(margin)} of` : `${say.length(-margin)} past`} the ${end} end of the slot, ${say.length(station.gap)} from home.`,
        };
      },
    };
  }
  if (linkage.kind === 'slot' || linkage.kind === 'pin') return null;
  return {
    ...frame,
    title: `${linkage.kind === 'chain' ? 'Chain' : 'Link'} keeps clear of its dead points`,
    unit: '°',
    marginUnit: '°',
    wanted: 5,
    how: 'The lesser of the angle between link and arm, and 90° less the lean of the link off the plunger, against 40°.',
    needs: needs.travel,
    judge() {
      // 40 to 45° between link and arm is the usual rule for a good transmission angle; the same share of the pull
      // reaches the link when it leans 50° off the plunger.
      const least = ({ pose }: Station) =>
        pose.assembled ? Math.min(linkToArm(linkage, pose), Math.PI / 2 - linkToPull(linkage, pose)) : 0;
      const { station, scene, margin } = worstIn(rig, context.scenes, () => (one) => inDegrees(least(one)) - 40);
      const { pose } = station;
      return {
        value: margin + 40,
        limit: 40,
        margin,
        at: placeOf(station, scene),
        because: pose.assembled
          ? `${say.length(station.gap)} from home the ${linkage.kind} stands at ${inDegrees(linkToArm(linkage, pose)).toFixed(0)}° to the arm (best 90°) and leans ${inDegrees(linkToPull(linkage, pose)).toFixed(0)}° off the plunger (best 0°).`
          : `The ${linkage.kind} does not reach ${say.length(station.gap)} from home.`,
      };
    },
  };
}

/** A chain cannot push: outward the lever must drive, everywhere, against its own friction. */
export function chainStaysTaut(context: Context): Check | null {
  const { rig, needs, say } = context;
  if (rig.linkage.kind !== 'chain') return null;
  return {
    id: 'chain-stays-taut',
    title: 'Chain stays taut on the way out',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N m',
    marginUnit: 'share',
    wanted: rig.wanted.return,
    how: 'Moment that brings the lever back over its friction with cold oil, minus one: a chain cannot push.',
    needs: [...needs.travel, ...needs.load, ...needs.springs],
    judge() {
      const share = ({ shaftAngle }: Station) => {
        const { steady, friction } = leverMoments(rig, shaftAngle, 'high', 'out');
        return friction > 0 ? steady / friction - 1 : steady >= 0 ? Infinity : -1;
      };
      const { station, scene, margin } = worstIn(rig, context.scenes, () => share);
      const { steady, friction } = leverMoments(rig, station.shaftAngle, 'high', 'out');
      return {
        value: steady,
        limit: friction,
        margin,
        at: placeOf(station, scene, { friction: 'high' }),
        because:
          margin >= 0
            ? `The lever itself drives the chain out with ${steady.toFixed(2)} N m against ${friction.toFixed(2)} N m of its own friction, ${say.length(station.gap)} from home.`
            : `The chain goes slack ${say.length(station.gap)} from home: the lever does not come back by itself, and a chain cannot push it.`,
      };
    },
  };
}

export function sideLoad(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    id: 'side-load',
    title: 'Side force on the plunger is small',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: 0,
    how: 'Allowed share of the force along the axis, over the side force on the pin, minus one.',
    needs: [...needs.travel, ...needs.load, ...needs.springs, ...needs.pins, ...needs.overTravel],
    judge() {
      const forces = (scene: Scene) => (station: Station, i: number | null) => {
        const { side, along } = i === null ? neededAt(rig, scene.travel, station, 'high') : scene.needed.high[i];
        return {
          side: Math.abs(side),
          allowed: rig.wanted.sideShare * Math.abs(along),
          stuck: along === Infinity || !station.pose.assembled,
        };
      };
      const marginIn = (scene: Scene) => (station: Station, i: number | null) => {
        const { side, allowed, stuck } = forces(scene)(station, i);
        return stuck ? -1 : side === 0 ? Infinity : allowed / side - 1;
      };
      const { station, scene, margin } = worstIn(rig, context.scenes, marginIn);
      const { side, allowed, stuck } = forces(scene)(station, null);
      return {
        value: side,
        limit: allowed,
        margin,
        at: placeOf(station, scene, { friction: 'high' }),
        because: stuck
          ? `The connection is held fast ${say.length(station.gap)} from home, and presses sideways without limit.`
          : `${say.force(side)} presses the plunger sideways ${say.length(station.gap)} from home, ${say.percent(side / (allowed / rig.wanted.sideShare))} of what it carries along its axis.`,
      };
    },
  };
}

/** Preload over the force in its line, minus one, that counts as enough. Common practice, no source. */
export const SHUT_WANTED = 0.25;

/**
 * The connection's force in the over-travel spring's own line, N, before the lever is on its stop: along the link, or along
 * the plunger for a pin in a slot or hole. Cold oil and first movement counted.
 */
export function forceInLine(rig: Rig, travel: Travel, station: Station): number {
  if (station.stretch !== null) return 0;
  if (!station.pose.assembled) return Infinity;
  const { along } = neededAt(rig, travel, station, 'high', rig.lever.breakaway);
  const { linkage } = travel;
  return linkage.kind === 'link' || linkage.kind === 'chain'
    ? along / Math.cos(linkToPull(linkage, station.pose))
    : along;
}

/** An over-travel spring must not give before the lever stands on its stop. */
export function overTravelStaysShut(context: Context): Check | null {
  const { rig, needs, say } = context;
  const { overTravel } = rig;
  if (overTravel === null) return null;
  return {
    id: 'over-travel-stays-shut',
    title: 'Over-travel spring stays shut until the lever is on its stop',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'N',
    marginUnit: 'share',
    wanted: SHUT_WANTED,
    how: 'Preload of the over-travel spring over the greatest force in its line before the lever is on its stop, minus one.',
    needs: [
      ...needs.travel,
      ...needs.load,
      ...needs.springs,
      ...needs.pins,
      ...needs.firstPull,
      'layout.overTravel.preload',
    ],
    judge() {
      const inLine = (scene: Scene, station: Station) => forceInLine(rig, scene.travel, station);
      const marginIn = (scene: Scene) => (station: Station) => {
        const force = inLine(scene, station);
        return force === Infinity ? -1 : force <= 0 ? Infinity : overTravel.preload / force - 1;
      };
      const { station, scene, margin } = worstIn(rig, context.scenes, marginIn);
      const force = inLine(scene, station);
      return {
        value: overTravel.preload,
        limit: force,
        margin,
        at: placeOf(station, scene, { friction: 'high' }),
        because:
          force === Infinity
            ? `The connection is held fast ${say.length(station.gap)} from home, so the spring would give there.`
            : `Its preload of ${say.force(overTravel.preload)} meets up to ${say.force(force)} in the connection, ${say.length(station.gap)} from home, cold oil and first movement counted.`,
      };
    },
  };
}
