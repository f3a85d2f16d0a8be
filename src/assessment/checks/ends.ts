/** Are the ends of the travel where they must be: home, no-fuel, run, the end switch, the adjuster? */
import { inDegrees, inMillimetres, placeOf, type Check, type Context, type Judgement } from '../check.ts';
import type { Place } from '../finding.ts';
import type { Scene } from '../scene.ts';
import { poseAtHome, rigidPose, stationAt, type Station } from '../travel.ts';
import { valueOf } from '../readings.ts';
import type { Rig } from '../rig.ts';

/** The scene in which `marginOf` is least; a NaN wins. */
function leastScene(scenes: readonly Scene[], marginOf: (scene: Scene) => number): { scene: Scene; margin: number } {
  return scenes
    .map((scene) => ({ scene, margin: marginOf(scene) }))
    .reduce((worst, next) => (Number.isNaN(worst.margin) || worst.margin <= next.margin ? worst : next));
}

/** Where the plunger ends up with current on. */
function atHome(rig: Rig, { travel }: Scene): Station {
  return stationAt(rig, travel, travel.homeGap);
}

/** Lash of the lever and play of the pin in its slot, rad, at a station near home or rest. */
function lostAngle(rig: Rig, radius: number): number {
  return rig.lever.lash + rig.slotClearance / radius;
}

/** Shaft angle that is surely reached on the home side, the bracket giving, rad, before lash. */
function shaftAtHome(rig: Rig, { travel }: Scene): { angle: number; radius: number } {
  const { shaftAngle, pose } = stationAt(
    rig,
    travel,
    Math.min(travel.homeGap + rig.bracketGive, Math.max(travel.homeGap, travel.startGap)),
  );
  return { angle: shaftAngle, radius: pose.radius };
}

/** Shaft angle that the connection leaves free at full stroke, rad, the lever's own stop not counted. */
function shaftAtRest(rig: Rig, { travel }: Scene): { angle: number; radius: number } {
  const pose = rigidPose(rig, travel.linkage, rig.stroke);
  return { angle: pose.armAngle - rig.lever.armMinusShaft, radius: pose.radius };
}

export function comesHome(context: Context): Check {
  const { rig, needs, say } = context;
  const stop = rig.toStop ? 'hard stop' : 'stop on the run side';
  const frame = { id: 'comes-home', title: `Comes fully home before the ${stop}`, question: 'burns' as const };
  const { overTravel } = rig;
  if (overTravel !== null) {
    return {
      ...frame,
      title: 'Over-travel spring has travel enough',
      unit: 'mm',
      marginUnit: 'mm',
      wanted: 0.5,
      how: 'Free travel of the over-travel spring minus what it gives with the plunger home and the lever on its stop.',
      needs: [...needs.travel, 'layout.overTravel.travel'],
      judge() {
        const given = (scene: Scene) => atHome(rig, scene).stretch ?? 0;
        const { scene, margin } = leastScene(context.scenes, (one) => overTravel.travel - given(one));
        return {
          value: inMillimetres(given(scene)),
          limit: inMillimetres(overTravel.travel),
          margin: inMillimetres(margin),
          at: placeOf(atHome(rig, scene), scene),
          because: `With the plunger home and the lever on its stop the over-travel spring gives ${say.length(given(scene))} of its ${say.length(overTravel.travel)}.`,
        };
      },
    };
  }
  return {
    ...frame,
    unit: '°',
    marginUnit: '°',
    wanted: inDegrees(rig.wanted.hardStop),
    how: "Angle of the lever's stop minus shaft angle with the plunger at home, as the connection stands rigid.",
    needs: [...needs.geometry, `survey.lever.${rig.toStop ? 'hardStopAngle' : 'runStopAngle'}`],
    judge() {
      const shaftHome = ({ travel }: Scene) => rigidPose(rig, travel.linkage, 0).armAngle - rig.lever.armMinusShaft;
      const { scene, margin } = leastScene(context.scenes, (one) => rig.sense * (rig.homeStop - shaftHome(one)));
      const short = scene.travel.leverStopGap;
      const words =
        short === null
          ? `With the plunger home the lever stands ${say.angle(margin)} short of its ${stop}.`
          : `The lever meets its ${stop} with the plunger still ${say.length(short)} from home: the plunger is stopped short and the full current stays on.`;
      return angleLeft(margin, placeOf(atHome(rig, scene), scene), words, 'home');
    },
  };
}

export function reachesNoFuel(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    id: 'reaches-no-fuel',
    title: 'Reaches no-fuel with allowance',
    question: 'stops',
    unit: '°',
    marginUnit: '°',
    wanted: inDegrees(rig.wanted.noFuel),
    how: "Shaft angle reached, less lash, play in the slot and the bracket's give, minus the no-fuel angle.",
    needs: [
      ...(rig.toStop ? needs.travel : [...needs.geometry, 'survey.lever.hardStopAngle']),
      ...needs.lash,
      ...(rig.toStop ? needs.give : []),
    ],
    judge(): Judgement {
      const { noFuel } = rig.lever;
      if (!rig.toStop) return restAngle(context, noFuel, 'no-fuel');
      return homeAngle(
        context,
        noFuel,
        (past) =>
          `With the plunger ${rig.overTravel === null ? 'as far home as it goes' : 'home'} the shaft stands ${say.angle(past)} past no-fuel, lash and give of the bracket taken off.`,
      );
    },
  };
}

export function freeToReachRun(context: Context): Check {
  const { rig, needs, say } = context;
  return {
    id: 'free-to-reach-run',
    title: rig.toStop ? 'Lever is free to reach run' : 'Brings the lever to run',
    question: 'runs',
    unit: '°',
    marginUnit: '°',
    wanted: inDegrees(rig.wanted.run),
    how: 'Shaft angle that the connection allows, less lash, against the run angle.',
    needs: [...(rig.toStop ? needs.geometry : needs.travel), ...needs.lash, ...(rig.toStop ? [] : needs.give)],
    judge(): Judgement {
      const { run } = rig.lever;
      if (rig.toStop) return restAngle(context, run, 'run');
      return homeAngle(
        context,
        run,
        (past) =>
          `With the plunger home the shaft stands ${say.angle(past)} past run, lash and give of the bracket taken off.`,
      );
    },
  };
}

/** How far past `wanted` the shaft comes on the home side. */
function homeAngle({ rig, scenes }: Context, wanted: number, words: (past: number) => string): Judgement {
  const pastIn = (scene: Scene) => {
    const { angle, radius } = shaftAtHome(rig, scene);
    return rig.sense * (angle - wanted) - lostAngle(rig, radius);
  };
  const { scene, margin } = leastScene(scenes, pastIn);
  const short = `The shaft stays ${inDegrees(-margin).toFixed(1)}° short, lash and give of the bracket taken off.`;
  return angleLeft(margin, placeOf(atHome(rig, scene), scene), margin >= 0 ? words(margin) : short, 'home');
}

/** How far past `wanted` the connection lets the lever go on the rest side. */
function restAngle({ rig, scenes, say }: Context, wanted: number, name: string): Judgement {
  const pastIn = (scene: Scene) => {
    const { angle, radius } = shaftAtRest(rig, scene);
    const free = rig.toStop ? angle : rig.sense * (angle - rig.outStop) < 0 ? rig.outStop : angle;
    return rig.sense * (wanted - free) - lostAngle(rig, radius);
  };
  const { scene, margin } = leastScene(scenes, pastIn);
  const words =
    margin >= 0
      ? `With the plunger at its outer stop the shaft may go ${say.angle(margin)} past ${name}, lash taken off.`
      : `The plunger at its outer stop holds the shaft ${say.angle(-margin)} short of ${name}, lash taken off.`;
  return angleLeft(margin, placeOf(stationAt(rig, scene.travel, rig.stroke), scene), words, 'at its outer stop');
}

/** An angle to spare, rad; NaN where the parts cannot reach each other there, which is a failure and no missing reading. */
function angleLeft(angle: number, at: Place, words: string, where: string): Judgement {
  const isApart = Number.isNaN(angle);
  return {
    value: inDegrees(angle),
    limit: 0,
    margin: isApart ? -Infinity : inDegrees(angle),
    at,
    because: isApart ? `The parts cannot reach each other with the plunger ${where}.` : words,
  };
}

/** Only where something must reduce the current at home. */
export function endSwitchWorked(context: Context): Check | null {
  const { rig, needs, say } = context;
  const { stages } = rig.job.means.coil;
  const { endSwitch } = rig;
  const isNeeded = stages === 'pull-in and hold windings' || stages === 'series resistor';
  if (!isNeeded && endSwitch === null) return null;
  return {
    id: 'end-switch',
    title: 'End switch is worked',
    question: 'burns',
    unit: 'mm',
    marginUnit: 'mm',
    wanted: inMillimetres(rig.wanted.endSwitch),
    how: 'Gap at which the switch changes over, minus the gap at which the plunger ends up.',
    needs:
      endSwitch === null
        ? []
        : [
            ...needs.geometry,
            `survey.lever.${rig.toStop ? 'hardStopAngle' : 'runStopAngle'}`,
            'means.endSwitch.worksAtGap',
          ],
    judge() {
      if (endSwitch === null) {
        return {
          value: 0,
          limit: 0,
          margin: -1,
          at: null,
          because: 'This coil needs an end switch to reduce its current at home, and there is none.',
        };
      }
      const { scene, margin } = leastScene(context.scenes, ({ travel }) => endSwitch.worksAtGap - travel.homeGap);
      const { homeGap } = scene.travel;
      return {
        value: inMillimetres(homeGap),
        limit: inMillimetres(endSwitch.worksAtGap),
        margin: inMillimetres(margin),
        at: placeOf(atHome(rig, scene), scene),
        because:
          margin >= 0
            ? `The switch changes over ${say.length(endSwitch.worksAtGap)} from home and the plunger goes on to ${say.length(homeGap)}.`
            : `The plunger stops ${say.length(homeGap)} from home but the switch changes over only at ${say.length(endSwitch.worksAtGap)}: the heavy current stays on until something burns.`,
      };
    },
  };
}

/** What the adjuster must still be able to take up, against what it has left. */
export function adjusterRange(context: Context): Check {
  const { rig, needs, say } = context;
  const { adjuster } = rig.job.layout;
  return {
    id: 'adjuster-range',
    title: 'Adjuster has range enough',
    question: rig.toStop ? 'stops' : 'runs',
    unit: 'mm',
    marginUnit: 'share',
    wanted: 0.25,
    how: 'Range left, over what must be taken up, minus one: lash as travel, give of the bracket, wear, half a turn.',
    needs:
      adjuster === 'none'
        ? []
        : ['layout.adjuster.range', 'layout.adjuster.pitch', ...needs.travelUnmoved, ...needs.lash, ...needs.give],
    judge() {
      if (adjuster === 'none')
        return {
          value: 0,
          limit: null,
          margin: -1,
          at: null,
          because: 'There is no adjuster: the last half millimetre cannot be set on the job.',
        };
      const range = valueOf(adjuster.range, 'length');
      const pitch = valueOf(adjuster.pitch, 'length');
      const pose = poseAtHome(rig, context.scenes[0]);
      const lash = pose.rate > 0 ? lostAngle(rig, pose.radius) / pose.rate : NaN;
      const needed = Number.isNaN(lash) ? Infinity : lash + rig.bracketGive + rig.adjusterWear + pitch / 2;
      const halfTurn = (pose.rate * pitch) / 2;
      return {
        value: inMillimetres(range),
        limit: inMillimetres(needed),
        margin: range / needed - 1,
        at: placeOf(atHome(rig, context.scenes[0]), context.scenes[0]),
        because:
          needed === Infinity
            ? 'Turning the adjuster does not turn the lever the wanted way at home.'
            : `Lash, give of the bracket, wear and half a turn take ${say.length(needed)} of ${say.length(range)}; half a turn moves the shaft ${say.angle(halfTurn)} at home.`,
      };
    },
  };
}
