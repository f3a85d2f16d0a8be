/** Does the connection turn the lever the right way, without binding, and without the plunger standing askew? */
import type { LinkLinkage } from '../../physics/linkage.ts';
import { rock } from '../../physics/guide.ts';
import { newForceOut, newNeeded } from '../../physics/plunger.ts';
import { decided, inDegrees, inMillimetres, moverWord, placeOf, type Check, type MechanicalContext } from '../check.ts';
import { leverMoments } from '../lever-moments.ts';
import { neededInto, outInto } from '../forces.ts';
import { curveOf, worstIn, type MarginCurve } from '../least.ts';
import type { Station } from '../travel.ts';

// Written over at every place: read at once or not at all.
const inward = newNeeded();
const outward = newForceOut();

export function turnsTheRightWay(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  const perMillimetre = curveOf((_, { pose, stretch }) =>
    !pose.assembled ? -1 : stretch === null ? inDegrees(pose.rate) / 1000 : Infinity,
  );
  return {
    id: 'turns-the-right-way',
    title: 'Turns the lever the right way',
    question: rig.toStop ? 'stops' : 'runs',
    unit: '°/mm',
    marginUnit: '°/mm',
    wanted: 0.2,
    how: 'Shaft angle gained for each millimetre of travel towards home, the least over the travel.',
    needs: needs.travel,
    ...decided(
      () => worstIn(context.rig, context.scenes, perMillimetre),
      ({ station, scene, margin }) => {
        const words = !station.pose.assembled
          ? `The parts cannot reach each other ${say.length(station.gap)} from home.`
          : margin > 0
            ? `One millimetre of travel turns the shaft at least ${margin.toFixed(2)}°, ${say.length(station.gap)} from home.`
            : `The pull turns the lever the wrong way ${say.length(station.gap)} from home: past square, or on the wrong side of the shaft.`;
        return { value: margin, limit: 0, at: placeOf(station, scene), because: words };
      },
    ),
  };
}

/** A plain pin must have room for the rise of the arc; the others must not lose more than half to friction. */
export function doesNotBind(context: MechanicalContext): Check {
  return context.rig.linkage.kind === 'pin'
    ? plainPinHasRoom(context, () => context.rig.linkage as LinkLinkage)
    : efficientConnection(context);
}

const bind = { id: 'does-not-bind', title: 'Does not bind' } as const;

function plainPinHasRoom(context: MechanicalContext, pin: () => LinkLinkage): Check {
  const { rig, needs, say } = context;
  const freedom = (gap: number) => pin().sideFreedom + rock(context.rig.guide, gap);
  const room = ({ gap, pose }: Station) =>
    pose.assembled ? freedom(gap) - Math.abs(pose.rise) : -Math.abs(pin().length);
  const curve = curveOf((_, station) => room(station));
  const find = () => {
    const least = worstIn(context.rig, context.scenes, curve);
    return { ...least, margin: inMillimetres(least.margin) };
  };
  return {
    ...bind,
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'mm',
    marginUnit: 'mm',
    wanted: 0.1,
    how: `Sideways room of the pin (clearance × sin 45° unless measured, and the rock of the ${rig.mover} in its bore) minus the rise of the arc beside the line of pull.`,
    needs: needs.travel,
    ...decided(find, ({ station, scene }) => {
      const first = scene.travel.stations.filter((one) => room(one) < 0).at(-1);
      const words =
        first === undefined
          ? `The arc rises ${say.length(Math.abs(station.pose.rise))} beside the line of pull and the pin has ${say.length(freedom(station.gap))} to give.`
          : first.pose.assembled
            ? `The pin grips ${say.length(first.gap)} from home: the arc rises ${say.length(Math.abs(first.pose.rise))} there and the pin has only ${say.length(freedom(first.gap))} to give.`
            : `The pin cannot follow the arm ${say.length(first.gap)} from home.`;
      return {
        value: inMillimetres(Math.abs(station.pose.rise)),
        limit: inMillimetres(freedom(station.gap)),
        at: placeOf(station, scene),
        because: words,
      };
    }),
  };
}

/** A connection that loses more than half of what it is given cannot be driven backwards: the limit of self-locking. */
function efficientConnection(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  const efficiency = ({ pose, stretch }: Station, moment: number, along: number, guideFriction: number): number => {
    if (stretch !== null) return 100;
    if (!pose.assembled) return 0;
    const ideal = moment * pose.rate;
    if (Number.isNaN(ideal + along)) return NaN;
    return along === Infinity ? 0 : ideal <= 0 ? 100 : (100 * ideal) / (along + guideFriction);
  };
  const curve: MarginCurve = {
    over({ travel, needed: { high } }, into) {
      const { stations } = travel;
      for (let i = 0; i < stations.length; i++)
        into[i] = efficiency(stations[i], high.moment[i], high.along[i], high.guideFriction[i]);
    },
    at({ travel }, station) {
      neededInto(context.rig, travel, station, 'high', 0, inward);
      const { steady, friction } = leverMoments(context.rig, station.shaftAngle, 'high', 'home');
      return efficiency(station, steady + friction, inward.along, inward.guideFriction);
    },
  };
  const find = () => {
    const least = worstIn(context.rig, context.scenes, curve);
    return { ...least, share: least.margin, margin: least.margin - 50 };
  };
  return {
    ...bind,
    question: rig.toStop ? 'stops' : 'runs',
    unit: '%',
    marginUnit: '%',
    wanted: 10,
    how: 'Pull without friction over pull with it, the least over the travel. A joint that passes on less than half cannot be driven backwards.',
    needs: [...needs.travel, ...needs.load, ...needs.springs, ...needs.guide, ...needs.pins],
    ...decided(find, ({ station, scene, share: least }) => ({
      value: least,
      limit: 50,
      at: placeOf(station, scene, { friction: 'high' }),
      because: !station.pose.assembled
        ? `The parts cannot reach each other ${say.length(station.gap)} from home.`
        : least === 0
          ? `Friction holds the connection fast ${say.length(station.gap)} from home: it stands at a dead point.`
          : `${least.toFixed(0)} % of the pull reaches the lever ${say.length(station.gap)} from home; under half it could lock.`,
    })),
  };
}

/** The force along the guide over the guide friction that it causes: at 1 the plunger stands askew and stays. */
export function doesNotCock(context: MechanicalContext): Check {
  const { rig, needs, say } = context;
  const curve: MarginCurve = {
    over({ travel, needed, out }, into) {
      const [home, away] = [needed.high, out.high];
      const { stations } = travel;
      for (let i = 0; i < stations.length; i++)
        into[i] = !stations[i].pose.assembled
          ? -1
          : Math.min(
              cockingRatio(home.along[i], home.side[i], home.guideFriction[i]),
              cockingRatio(away.along[i], away.side[i], away.guideFriction[i]),
            ) - 1;
    },
    at({ travel }, station) {
      if (!station.pose.assembled) return -1;
      neededInto(context.rig, travel, station, 'high', 0, inward);
      outInto(context.rig, travel, station, 'high', 0, outward);
      return (
        Math.min(
          cockingRatio(inward.along, inward.side, inward.guideFriction),
          cockingRatio(outward.along, outward.side, outward.guideFriction),
        ) - 1
      );
    },
  };
  return {
    id: 'does-not-cock',
    title: `${moverWord(rig)} does not cock in its guide`,
    question: rig.toStop ? 'runs' : 'stops',
    unit: '',
    marginUnit: 'ratio',
    wanted: rig.wanted.lockRatio - 1,
    how: 'Force along the guide over the guide friction that it causes, both ways, the least over the travel.',
    needs: [...needs.travel, ...needs.load, ...needs.springs, ...needs.guide, ...needs.pins, ...needs.overTravel],
    ...decided(
      () => worstIn(context.rig, context.scenes, curve),
      ({ station, scene, margin }) => {
        const ratio = margin + 1;
        return {
          value: ratio,
          limit: 1,
          at: placeOf(station, scene, { friction: 'high' }),
          because: `The force along the guide is ${ratio > 99 ? 'more than 99' : ratio.toFixed(1)} times the guide friction that it causes, ${say.length(station.gap)} from home; at 1 the ${rig.mover} stands askew and stays.`,
        };
      },
    ),
  };
}

function cockingRatio(along: number, side: number, guideFriction: number): number {
  // A pin whose link stands square to the guide pushes it sideways without end.
  if (Math.abs(side) === Infinity) return 0;
  if (Number.isNaN(along + guideFriction)) return guideFriction === Infinity ? 0 : NaN;
  if (guideFriction === Infinity) return 0;
  return guideFriction === 0 ? Infinity : Math.abs(along) / guideFriction;
}
