/** Is the connection itself sound: does it turn the right way, bind, cock, stay in range, stay taut, press sideways? */
import { linkToArm, linkToPull, type LinkLinkage } from '../../physics/linkage.ts';
import { rock } from '../../physics/guide.ts';
import { inDegrees, inMillimetres, placeOf, type Check, type Context } from '../check.ts';
import { leastOver, leverMoments, neededAt, outAt, type Least, type Scene } from '../scene.ts';
import type { Station } from '../travel.ts';
import { valueOf } from '../readings.ts';

/** The scene and station in which a margin is least; a NaN wins. */
function worstIn({ rig, scenes }: Context, marginOf: (scene: Scene) => (station: Station, index: number | null) => number): Least & { scene: Scene } {
  let worst: (Least & { scene: Scene }) | null = null;
  for (const scene of scenes) {
    const found = leastOver(rig, scene, marginOf(scene));
    if (worst === null || Number.isNaN(found.margin) || found.margin < worst.margin) worst = { ...found, scene };
    if (Number.isNaN(found.margin)) return worst;
  }
  return worst!;
}

export function turnsTheRightWay(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    id: 'turns-the-right-way',
    title: 'Turns the lever the right way',
    question: rig.toStop ? 'stops' : 'runs',
    unit: '°/mm',
    marginUnit: '°/mm',
    wanted: 0.2,
    needs: needs.travel,
    judge() {
      const perMillimetre = (rate: number) => inDegrees(rate) / 1000;
      const found = worstIn(context, () => ({ pose, stretch }) => (!pose.assembled ? -1 : stretch === null ? perMillimetre(pose.rate) : Infinity));
      const { station, scene, margin } = found;
      const words = !station.pose.assembled
        ? `The parts cannot reach each other ${say.length(station.gap)} from home.`
        : margin > 0
          ? `One millimetre of travel turns the shaft at least ${margin.toFixed(2)}°, ${say.length(station.gap)} from home.`
          : `The pull turns the lever the wrong way ${say.length(station.gap)} from home: past square, or on the wrong side of the shaft.`;
      return { value: margin, limit: 0, margin, at: placeOf(station, scene), because: words };
    },
  };
}

/** A plain pin must have room for the rise of the arc; the others must not lose more than half to friction. */
export function doesNotBind(context: Context): Check {
  return context.rig.linkage.kind === 'pin' ? plainPinHasRoom(context, context.rig.linkage) : efficientConnection(context);
}

const bind = { id: 'does-not-bind', title: 'Does not bind' } as const;

function plainPinHasRoom(context: Context, pin: LinkLinkage): Check {
  const { rig, needs, say } = context;
  return {
    ...bind,
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'mm',
    marginUnit: 'mm',
    wanted: 0.1,
    needs: needs.travel,
    judge() {
      const freedom = (gap: number) => pin.sideFreedom + rock(rig.guide, gap);
      const room = ({ gap, pose }: Station) => (pose.assembled ? freedom(gap) - Math.abs(pose.rise) : -Math.abs(pin.length));
      const found = worstIn(context, () => room);
      const { station, scene, margin } = found;
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
        margin: inMillimetres(margin),
        at: placeOf(first ?? station, scene, { friction: 'high' }),
        because: words,
      };
    },
  };
}

/** A connection that loses more than half of what it is given cannot be driven backwards: the limit of self-locking. */
function efficientConnection(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    ...bind,
    question: rig.toStop ? 'stops' : 'runs',
    unit: '%',
    marginUnit: '%',
    wanted: 10,
    needs: [...needs.travel, ...needs.load, ...needs.springs, ...needs.guide, ...needs.pins],
    judge() {
      const efficiency = (scene: Scene) => (station: Station, i: number | null) => {
        if (station.stretch !== null) return 100;
        if (!station.pose.assembled) return 0;
        const { along, guideFriction } = i === null ? neededAt(rig, scene.travel, station, 'high') : scene.needed.high[i];
        const { steady, friction } = leverMoments(rig, station.shaftAngle, 'high', 'home');
        const ideal = (steady + friction) * station.pose.rate;
        if (Number.isNaN(ideal + along)) return NaN;
        return along === Infinity ? 0 : ideal <= 0 ? 100 : (100 * ideal) / (along + guideFriction);
      };
      const { station, scene, margin: least } = worstIn(context, efficiency);
      return {
        value: least,
        limit: 50,
        margin: least - 50,
        at: placeOf(station, scene, { friction: 'high' }),
        because: !station.pose.assembled
          ? `The parts cannot reach each other ${say.length(station.gap)} from home.`
          : least === 0
            ? `Friction holds the connection fast ${say.length(station.gap)} from home: it stands at a dead point.`
            : `${least.toFixed(0)} % of the pull reaches the lever ${say.length(station.gap)} from home; under half it could lock.`,
      };
    },
  };
}

/** The force along the guide over the guide friction that it causes: at 1 the plunger stands askew and stays. */
export function doesNotCock(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    id: 'does-not-cock',
    title: 'Plunger does not cock in its guide',
    question: rig.toStop ? 'runs' : 'stops',
    unit: '',
    marginUnit: 'ratio',
    wanted: rig.wanted.lockRatio - 1,
    needs: [...needs.travel, ...needs.load, ...needs.springs, ...needs.guide, ...needs.pins, ...needs.overTravel],
    judge() {
      const marginIn = (scene: Scene) => (station: Station, i: number | null) => {
        if (!station.pose.assembled) return -1;
        const inward = i === null ? neededAt(rig, scene.travel, station, 'high') : scene.needed.high[i];
        const outward = i === null ? outAt(rig, scene.travel, station, 'high') : scene.out.high[i];
        return Math.min(cockingRatio(inward), cockingRatio(outward)) - 1;
      };
      const { station, scene, margin } = worstIn(context, marginIn);
      const ratio = margin + 1;
      return {
        value: ratio,
        limit: 1,
        margin,
        at: placeOf(station, scene, { friction: 'high' }),
        because: `The force along the guide is ${ratio > 99 ? 'more than 99' : ratio.toFixed(1)} times the guide friction that it causes, ${say.length(station.gap)} from home; at 1 the plunger stands askew and stays.`,
      };
    },
  };
}

function cockingRatio({ along, guideFriction }: { readonly along: number; readonly guideFriction: number }): number {
  if (Number.isNaN(along + guideFriction)) return guideFriction === Infinity ? 0 : NaN;
  if (guideFriction === Infinity) return 0;
  return guideFriction === 0 ? Infinity : Math.abs(along) / guideFriction;
}

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
      needs: [...needs.travel, 'layout.connection.slotFrom', 'layout.connection.slotTo', 'layout.connection.pinDiameter'],
      judge() {
        const half = valueOf(connection.pinDiameter, 'length') / 2;
        const inner = valueOf(connection.slotFrom, 'length') + half;
        const outer = valueOf(connection.slotTo, 'length') - half;
        const { station, scene, margin } = worstIn(context, () => ({ pose }) => Math.min(pose.radius - inner, outer - pose.radius));
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
    needs: needs.travel,
    judge() {
      // 40 to 45° between link and arm is the usual rule for a good transmission angle; the same share of the pull
      // reaches the link when it leans 50° off the plunger.
      const least = ({ pose }: Station) => (pose.assembled ? Math.min(linkToArm(linkage, pose), Math.PI / 2 - linkToPull(linkage, pose)) : 0);
      const { station, scene, margin } = worstIn(context, () => (one) => inDegrees(least(one)) - 40);
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
    needs: [...needs.travel, ...needs.load, ...needs.springs],
    judge() {
      const share = ({ shaftAngle }: Station) => {
        const { steady, friction } = leverMoments(rig, shaftAngle, 'high', 'out');
        return friction > 0 ? steady / friction - 1 : steady >= 0 ? Infinity : -1;
      };
      const { station, scene, margin } = worstIn(context, () => share);
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
    needs: [...needs.travel, ...needs.load, ...needs.springs, ...needs.pins, ...needs.overTravel],
    judge() {
      const forces = (scene: Scene) => (station: Station, i: number | null) => {
        const { side, along } = i === null ? neededAt(rig, scene.travel, station, 'high') : scene.needed.high[i];
        return { side: Math.abs(side), allowed: rig.wanted.sideShare * Math.abs(along), stuck: along === Infinity || !station.pose.assembled };
      };
      const marginIn = (scene: Scene) => (station: Station, i: number | null) => {
        const { side, allowed, stuck } = forces(scene)(station, i);
        return stuck ? -1 : side === 0 ? Infinity : allowed / side - 1;
      };
      const { station, scene, margin } = worstIn(context, marginIn);
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
    wanted: 0.25,
    needs: [...needs.travel, ...needs.load, ...needs.springs, ...needs.pins, ...needs.firstPull, 'layout.overTravel.preload'],
    judge() {
      // The connection's force in the spring's own line: along the link, or along the plunger for a pin in a slot or hole.
      const inLine = (scene: Scene, station: Station) => {
        if (station.stretch !== null) return 0;
        const { along } = neededAt(rig, scene.travel, station, 'high', rig.lever.breakaway);
        const { linkage } = scene.travel;
        return linkage.kind === 'link' || linkage.kind === 'chain' ? along / Math.cos(linkToPull(linkage, station.pose)) : along;
      };
      const marginIn = (scene: Scene) => (station: Station) => {
        const force = inLine(scene, station);
        return force === Infinity ? -1 : force <= 0 ? Infinity : overTravel.preload / force - 1;
      };
      const { station, scene, margin } = worstIn(context, marginIn);
      const force = inLine(scene, station);
      return {
        value: overTravel.preload,
        limit: force,
        margin,
        at: placeOf(station, scene, { friction: 'high' }),
        because: `Its preload of ${say.force(overTravel.preload)} meets up to ${say.force(force)} in the connection, ${say.length(station.gap)} from home, cold oil and first movement counted.`,
      };
    },
  };
}
