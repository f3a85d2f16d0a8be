/** Does the connection stay in its range, taut, shut until it must give, and gentle on the plunger's sides? */
import { linkToArm, linkToPull } from '../../physics/linkage.ts';
import { newNeeded } from '../../physics/plunger.ts';
import { decided, inDegrees, inMillimetres, placeOf, type Check, type MechanicalContext } from '../check.ts';
import { leverMoments } from '../lever-moments.ts';
import { neededAt, neededInto } from '../forces.ts';
import { curveOf, worstIn, type MarginCurve } from '../least.ts';
import { valueOf } from '../readings.ts';
import type { MechanicalRig } from '../rig.ts';
import type { Station, Travel } from '../travel.ts';

// Written over at every place: read at once or not at all.
const asked = newNeeded();

/** A slot must hold the pin at every gap; a link must stay away from its dead points. */
export function connectionRange(context: MechanicalContext): Check | null {
  const { rig, needs, say } = context;
  const { connection } = rig.job.layout;
  const { linkage } = rig;
  const frame = { id: 'connection-range', question: rig.toStop ? ('stops' as const) : ('runs' as const) };
  if (connection.kind === 'slotted lever') {
    let inner = NaN;
    let outer = NaN;
    const room: MarginCurve = {
      over({ travel: { stations } }, into) {
        for (let i = 0; i < stations.length; i++) {
          const { radius } = stations[i].pose;
          into[i] = Math.min(radius - inner, outer - radius);
        }
      },
      at: (_, { pose }) => Math.min(pose.radius - inner, outer - pose.radius),
    };
    const find = () => {
      const slot = context.rig.job.layout.connection;
      if (slot.kind !== 'slotted lever') throw new TypeError('the connection has changed under this check');
      const half = valueOf(slot.pinDiameter, 'length') / 2;
      inner = valueOf(slot.slotFrom, 'length') + half;
      outer = valueOf(slot.slotTo, 'length') - half;
      const least = worstIn(context.rig, context.scenes, room);
      return { ...least, beyond: least.margin, margin: inMillimetres(least.margin), inner, outer };
    };
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
      ...decided(find, ({ station, scene, beyond: margin, inner, outer }) => {
        const { radius } = station.pose;
        const end = radius - inner < outer - radius ? 'inner' : 'outer';
        return {
          value: inMillimetres(radius),
          limit: inMillimetres(end === 'inner' ? inner : outer),
          at: placeOf(station, scene),
          because: `The pin comes ${margin >= 0 ? `within ${say.length(margin)} of` : `${say.length(-margin)} past`} the ${end} end of the slot, ${say.length(station.gap)} from home.`,
        };
      }),
    };
  }
  if (linkage.kind === 'slot' || linkage.kind === 'pin') return null;
  // 40 to 45° between link and arm is the usual rule for a good transmission angle; the same share of the pull
  // reaches the link when it leans 50° off the plunger.
  const clear = curveOf(({ travel }, { pose }) =>
    pose.assembled && travel.linkage.kind !== 'slot'
      ? inDegrees(Math.min(linkToArm(travel.linkage, pose), Math.PI / 2 - linkToPull(travel.linkage, pose))) - 40
      : -40,
  );
  return {
    ...frame,
    title: `${linkage.kind === 'chain' ? 'Chain' : 'Link'} keeps clear of its dead points`,
    unit: '°',
    marginUnit: '°',
    wanted: 5,
    how: `The lesser of the angle between link and arm, and 90° less the lean of the link off the ${rig.mover}, against 40°.`,
    needs: needs.travel,
    ...decided(
      () => worstIn(context.rig, context.scenes, clear),
      ({ station, scene, margin }) => {
        const { pose } = station;
        return {
          value: margin + 40,
          limit: 40,
          at: placeOf(station, scene),
          because: pose.assembled
            ? `${say.length(station.gap)} from home the ${linkage.kind} stands at ${inDegrees(linkToArm(linkage, pose)).toFixed(0)}° to the arm (best 90°) and leans ${inDegrees(linkToPull(linkage, pose)).toFixed(0)}° off the ${rig.mover} (best 0°).`
            : `The ${linkage.kind} does not reach ${say.length(station.gap)} from home.`,
        };
      },
    ),
  };
}

/** A chain cannot push: outward the lever must drive, everywhere, against its own friction. */
export function chainStaysTaut(context: MechanicalContext): Check | null {
  const { rig, needs, say } = context;
  if (rig.linkage.kind !== 'chain') return null;
  const share = curveOf((_, { shaftAngle }) => {
    const { steady, friction } = leverMoments(context.rig, shaftAngle, 'high', 'out');
    return friction > 0 ? steady / friction - 1 : steady >= 0 ? Infinity : -1;
  });
  return {
    id: 'chain-stays-taut',
    title: 'Chain stays taut on the way out',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N m',
    marginUnit: 'share',
    wanted: rig.wanted.return,
    how: 'Moment that brings the lever back over its friction with cold oil, minus one: a chain cannot push.',
    needs: [...needs.travel, ...needs.load, ...needs.springs],
    ...decided(
      () => worstIn(context.rig, context.scenes, share),
      ({ station, scene, margin }) => {
        const { steady, friction } = leverMoments(rig, station.shaftAngle, 'high', 'out');
        return {
          value: steady,
          limit: friction,
          at: placeOf(station, scene, { friction: 'high' }),
          because:
            margin >= 0
              ? `The lever itself drives the chain out with ${steady.toFixed(2)} N m against ${friction.toFixed(2)} N m of its own friction, ${say.length(station.gap)} from home.`
              : `The chain goes slack ${say.length(station.gap)} from home: the lever does not come back by itself, and a chain cannot push it.`,
        };
      },
    ),
  };
}

export function sideLoad(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  const isStuck = ({ pose }: Station, along: number) => along === Infinity || !pose.assembled;
  const margin = (station: Station, side: number, along: number): number => {
    const force = Math.abs(side);
    const allowed = context.rig.wanted.sideShare * Math.abs(along);
    return isStuck(station, along) ? -1 : force === 0 ? Infinity : allowed / force - 1;
  };
  const curve: MarginCurve = {
    over({ travel, needed: { high } }, into) {
      const { stations } = travel;
      for (let i = 0; i < stations.length; i++) into[i] = margin(stations[i], high.side[i], high.along[i]);
    },
    at({ travel }, station) {
      neededInto(context.rig, travel, station, 'high', 0, asked);
      return margin(station, asked.side, asked.along);
    },
  };
  return {
    id: 'side-load',
    title: `Side force on the ${rig.mover} is small`,
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: 0,
    how: 'Allowed share of the force along the axis, over the side force on the pin, minus one.',
    needs: [...needs.travel, ...needs.load, ...needs.springs, ...needs.pins, ...needs.overTravel],
    ...decided(
      () => worstIn(context.rig, context.scenes, curve),
      ({ station, scene }) => {
        const found = neededAt(rig, scene.travel, station, 'high');
        const side = Math.abs(found.side);
        const allowed = rig.wanted.sideShare * Math.abs(found.along);
        return {
          value: side,
          limit: allowed,
          at: placeOf(station, scene, { friction: 'high' }),
          because: isStuck(station, found.along)
            ? `The connection is held fast ${say.length(station.gap)} from home, and presses sideways without limit.`
            : `${say.force(side)} presses the ${rig.mover} sideways ${say.length(station.gap)} from home, ${say.percent(side / (allowed / rig.wanted.sideShare))} of what it carries along its axis.`,
        };
      },
    ),
  };
}

/** Preload over the force in its line, minus one, that counts as enough. Common practice, no source. */
export const SHUT_WANTED = 0.25;

/**
 * The connection's force in the over-travel spring's own line, N, before the lever is on its stop: along the link, or along
 * the plunger for a pin in a slot or hole. Cold oil and first movement counted.
 */
export function forceInLine(rig: MechanicalRig, travel: Travel, station: Station): number {
  if (station.stretch !== null) return 0;
  if (!station.pose.assembled) return Infinity;
  const { along } = neededAt(rig, travel, station, 'high', rig.lever.breakaway);
  const { linkage } = travel;
  return linkage.kind === 'link' || linkage.kind === 'chain'
    ? along / Math.cos(linkToPull(linkage, station.pose))
    : along;
}

/** An over-travel spring must not give before the lever stands on its stop. */
export function overTravelStaysShut(context: MechanicalContext): Check | null {
  const { rig, needs, say } = context;
  const { overTravel } = rig;
  if (overTravel === null) return null;
  const curve = curveOf(({ travel }, station) => {
    const force = forceInLine(context.rig, travel, station);
    const preload = context.rig.overTravel?.preload ?? NaN;
    return force === Infinity ? -1 : force <= 0 ? Infinity : preload / force - 1;
  });
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
    ...decided(
      () => worstIn(context.rig, context.scenes, curve),
      ({ station, scene }) => {
        const force = forceInLine(rig, scene.travel, station);
        return {
          value: overTravel.preload,
          limit: force,
          at: placeOf(station, scene, { friction: 'high' }),
          because:
            force === Infinity
              ? `The connection is held fast ${say.length(station.gap)} from home, so the spring would give there.`
              : `Its preload of ${say.force(overTravel.preload)} meets up to ${say.force(force)} in the connection, ${say.length(station.gap)} from home, cold oil and first movement counted.`,
        };
      },
    ),
  };
}
