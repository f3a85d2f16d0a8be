/** What the highest pressure lays on rod, lever and stop. */
import { connectionForceInto, linkToPull, newForce } from '../../../physics/linkage.ts';
import { valueOf } from '../../readings.ts';
import { decided, placeOf, unique, type Check } from '../../check.ts';
import { curveOf, worstOf } from '../../least.ts';
import type { MechanicalScene } from '../../scene.ts';
import { stationAt, type Station } from '../../travel.ts';
import type { AirContext } from '../air-context.ts';
import { givenHome } from '../air-rig.ts';

const force = newForce();
const ends = ['high', 'low'] as const;

/** What is left of the rod's force for the connection at a gap, the spring inside and weight taken off, N. */
function leftAt({ air, rig }: AirContext, gap: number): number {
  const inside = rig.inside === null ? 0 : rig.inside.preload + rig.inside.rate * (rig.stroke - gap);
  return Math.max(0, givenHome(air, air.high) - inside + rig.weightAlong);
}

/** The lever held fast at a gap with the highest pressure on: moment on the lever, N m, and side force on the rod, N. */
function blocked(context: AirContext, scene: MechanicalScene, station: Station, friction: 'low' | 'high') {
  const along = leftAt(context, station.gap);
  connectionForceInto(scene.travel.linkage, station.pose, 1, 1, context.rig.friction[friction], force);
  return force.along === Infinity
    ? { along, moment: 0, side: Infinity }
    : { along, moment: along / force.along, side: (along * Math.abs(force.across)) / Math.abs(force.along) };
}

/** Wherever the lever is held fast the whole of the air presses: so much of it must not press the rod sideways. */
export function sideForceBlocked(context: AirContext): Check {
  const { rig, needs, airNeeds, say } = context;
  const curves = ends.map((friction) => ({
    friction,
    ...curveOf((scene, station) => {
      if (!station.pose.assembled) return -1;
      const { along, side } = blocked(context, scene, station, friction);
      return side === Infinity ? -1 : side === 0 ? Infinity : (context.rig.wanted.sideShare * along) / side - 1;
    }),
  }));
  return {
    id: 'side-load',
    title: 'Side force on the rod is small at the highest pressure',
    question: rig.toStop ? 'runs' : 'stops',
    unit: 'N',
    marginUnit: 'share',
    wanted: 0,
    how: 'Allowed share of the force along the rod, over the side force on its pin, minus one, with the lever held fast anywhere on the way and the highest pressure on.',
    needs: unique([
      ...needs.travel,
      ...needs.pins,
      ...needs.springs.filter((path) => path.startsWith('means.')),
      ...airNeeds.forceHigh,
    ]),
    ...decided(
      () => worstOf(context.rig, context.scenes, curves),
      ({ scene, station, curve: { friction } }) => {
        const { along, side } = blocked(context, scene, station, friction);
        const isFast = side === Infinity || !station.pose.assembled;
        return {
          value: side,
          limit: rig.wanted.sideShare * along,
          at: placeOf(station, scene, { friction }),
          because: isFast
            ? `The connection is held fast ${say.length(station.gap)} from home, and presses sideways without limit.`
            : `With the lever held fast ${say.length(station.gap)} from home ${say.force(side)} presses the rod sideways at ${say.pressure(context.air.high)}, ${say.percent(side / along)} of what goes along it.`,
        };
      },
    ),
  };
}

/** Moment on the lever's stop at the highest pressure, N m, where the rod is stopped short of its own end; else none. */
export function momentOnStop(context: AirContext): number {
  const { rig } = context;
  return Math.max(
    ...context.scenes.map((scene) => {
      const { travel } = scene;
      if (travel.leverStopGap === null) return 0;
      const onStop = stationAt(rig, travel, travel.leverStopGap, false);
      const whole = blocked(context, scene, onStop, 'low').moment;
      if (rig.overTravel === null) return whole;
      // The spring gives before the whole of the air can press.
      const { preload, rate } = rig.overTravel;
      const inLine = preload + rate * (stationAt(rig, travel, travel.homeGap).stretch ?? 0);
      const { linkage } = travel;
      const isLink = linkage.kind === 'link' || linkage.kind === 'chain';
      const along = isLink ? inLine * Math.cos(linkToPull(linkage, onStop.pose)) : inLine;
      connectionForceInto(linkage, onStop.pose, 1, 1, context.rig.friction.low, force);
      return Math.min(whole, along / force.along);
    }),
  );
}

/** Only where the maker of the pump was asked what its lever bears. */
export function leverBears(context: AirContext): Check | null {
  const { rig, needs, airNeeds, say } = context;
  const { bears } = rig.job.survey.lever;
  if (bears === undefined) return null;
  const find = () => {
    const limit = valueOf(context.rig.job.survey.lever.bears ?? '', 'torque');
    const moment = momentOnStop(context);
    return { moment, limit, margin: moment > 0 ? limit / moment - 1 : Number.isNaN(moment) ? NaN : Infinity };
  };
  return {
    id: 'lever-bears',
    title: 'Lever and stop bear the highest pressure',
    question: 'burns',
    unit: 'N m',
    marginUnit: 'share',
    wanted: 0.25,
    how: 'Moment that the lever bears over the moment that the rod lays on its stop at the highest pressure, minus one; a rod that ends on its own stop lays none on it.',
    needs: unique([
      ...needs.travel,
      ...needs.pins,
      ...needs.overTravel,
      ...needs.springs.filter((path) => path.startsWith('means.')),
      ...airNeeds.forceHigh,
    ]),
    ...decided(find, ({ moment, limit }) => ({
      value: moment,
      limit,
      at: null,
      because:
        moment > 0
          ? `At ${say.pressure(context.air.high)} the rod lays ${say.torque(moment)} on the lever's stop, which bears ${say.torque(limit)}.`
          : 'The rod ends on its own stop before the lever meets its own.',
    })),
  };
}
