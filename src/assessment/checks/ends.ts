/** Are the ends of the travel where they must be: home, no-fuel, run, the end switch? */
import {
  decided,
  inDegrees,
  inMillimetres,
  placeOf,
  type Check,
  type Context,
  type Judgement,
  type MechanicalContext,
} from '../check.ts';
import type { Place } from '../finding.ts';
import type { MechanicalScene } from '../scene.ts';
import { rigidPose, stationAt, type Station } from '../travel.ts';
import type { MechanicalRig } from '../rig.ts';

/** The scene in which `marginOf` is least; a NaN wins. */
function leastScene(
  scenes: readonly MechanicalScene[],
  marginOf: (scene: MechanicalScene) => number,
): { scene: MechanicalScene; margin: number } {
  let worst = { scene: scenes[0], margin: marginOf(scenes[0]) };
  for (let i = 1; i < scenes.length; i++) {
    const margin = marginOf(scenes[i]);
    if (!(Number.isNaN(worst.margin) || worst.margin <= margin)) worst = { scene: scenes[i], margin };
  }
  return worst;
}

/** Where the mover ends up at home. */
export function atHome(rig: MechanicalRig, { travel }: MechanicalScene): Station {
  return stationAt(rig, travel, travel.homeGap);
}

/** Lash of the lever and play of the pin in its slot, rad, at a station near home or rest. */
export function lostAngle(rig: MechanicalRig, radius: number): number {
  return rig.lever.lash + rig.slotClearance / radius;
}

/** Shaft angle that is surely reached on the home side, the bracket giving, rad, before lash. */
function shaftAtHome(rig: MechanicalRig, { travel }: MechanicalScene): { angle: number; radius: number } {
  const { shaftAngle, pose } = stationAt(
    rig,
    travel,
    Math.min(travel.homeGap + rig.bracketGive, Math.max(travel.homeGap, travel.startGap)),
  );
  return { angle: shaftAngle, radius: pose.radius };
}

/** Shaft angle that the connection leaves free at full stroke, rad, the lever's own stop not counted. */
function shaftAtRest(rig: MechanicalRig, { travel }: MechanicalScene): { angle: number; radius: number } {
  const pose = rigidPose(rig, travel.linkage, rig.stroke);
  return { angle: pose.armAngle - rig.lever.armMinusShaft, radius: pose.radius };
}

/** @param then what comes of it where it is stopped short */
export function comesHome(context: MechanicalContext, then = 'the full current stays on'): Check {
  const { rig, needs, say } = context;
  const stop = rig.toStop ? 'hard stop' : 'stop on the run side';
  const frame = { id: 'comes-home', title: `Comes fully home before the ${stop}`, question: 'burns' as const };
  const { overTravel } = rig;
  if (overTravel !== null) {
    const given = (scene: MechanicalScene) => atHome(context.rig, scene).stretch ?? 0;
    const find = () => {
      const travel = context.rig.overTravel?.travel ?? NaN;
      const { scene, margin } = leastScene(context.scenes, (one) => travel - given(one));
      return { scene, margin: inMillimetres(margin) };
    };
    return {
      ...frame,
      title: 'Over-travel spring has travel enough',
      unit: 'mm',
      marginUnit: 'mm',
      wanted: 0.5,
      how: `Free travel of the over-travel spring minus what it gives with the ${rig.mover} home and the lever on its stop.`,
      needs: [...needs.travel, 'layout.overTravel.travel'],
      ...decided(find, ({ scene }) => {
        return {
          value: inMillimetres(given(scene)),
          limit: inMillimetres(overTravel.travel),
          at: placeOf(atHome(rig, scene), scene),
          because: `With the ${rig.mover} home and the lever on its stop the over-travel spring gives ${say.length(given(scene))} of its ${say.length(overTravel.travel)}.`,
        };
      }),
    };
  }
  const shaftHome = ({ travel }: MechanicalScene) =>
    rigidPose(context.rig, travel.linkage, 0).armAngle - context.rig.lever.armMinusShaft;
  const find = () => leastAngle(context.scenes, (one) => context.rig.sense * (context.rig.homeStop - shaftHome(one)));
  return {
    ...frame,
    unit: '°',
    marginUnit: '°',
    wanted: inDegrees(rig.wanted.hardStop),
    how: `Angle of the lever's stop minus shaft angle with the ${rig.mover} at home, as the connection stands rigid.`,
    needs: [...needs.geometry, `survey.lever.${rig.toStop ? 'hardStopAngle' : 'runStopAngle'}`],
    ...decided(find, ({ scene, angle }) => {
      const short = scene.travel.leverStopGap;
      const words =
        short === null
          ? `With the ${rig.mover} home the lever stands ${say.angle(angle)} short of its ${stop}.`
          : `The lever meets its ${stop} with the ${rig.mover} still ${say.length(short)} from home: the ${rig.mover} is stopped short and ${then}.`;
      return angleTold(angle, placeOf(atHome(rig, scene), scene), words, `${rig.mover} home`);
    }),
  };
}

export function reachesNoFuel(context: MechanicalContext): Check {
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
    ...(rig.toStop
      ? homeAngle(
          context,
          () => context.rig.lever.noFuel,
          (past) =>
            `With the ${rig.mover} ${rig.overTravel === null ? 'as far home as it goes' : 'home'} the shaft stands ${say.angle(past)} past no-fuel, lash and give of the bracket taken off.`,
        )
      : restAngle(context, () => context.rig.lever.noFuel, 'no-fuel')),
  };
}

export function freeToReachRun(context: MechanicalContext): Check {
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
    ...(rig.toStop
      ? restAngle(context, () => context.rig.lever.run, 'run')
      : homeAngle(
          context,
          () => context.rig.lever.run,
          (past) =>
            `With the ${rig.mover} home the shaft stands ${say.angle(past)} past run, lash and give of the bracket taken off.`,
        )),
  };
}

/** How far past `wanted` the shaft comes on the home side. */
function homeAngle(context: MechanicalContext, wanted: () => number, words: (past: number) => string) {
  const pastIn = (scene: MechanicalScene) => {
    const { rig } = context;
    const { angle, radius } = shaftAtHome(rig, scene);
    return rig.sense * (angle - wanted()) - lostAngle(rig, radius);
  };
  return decided(
    () => leastAngle(context.scenes, pastIn),
    ({ scene, angle }) => {
      const short = `The shaft stays ${inDegrees(-angle).toFixed(1)}° short, lash and give of the bracket taken off.`;
      return angleTold(
        angle,
        placeOf(atHome(context.rig, scene), scene),
        angle >= 0 ? words(angle) : short,
        `${context.rig.mover} home`,
      );
    },
  );
}

/** How far past `wanted` the connection lets the lever go on the rest side. */
function restAngle(context: MechanicalContext, wanted: () => number, name: string) {
  const { say } = context;
  const pastIn = (scene: MechanicalScene) => {
    const { rig } = context;
    const { angle, radius } = shaftAtRest(rig, scene);
    const free = rig.toStop ? angle : rig.sense * (angle - rig.outStop) < 0 ? rig.outStop : angle;
    return rig.sense * (wanted() - free) - lostAngle(rig, radius);
  };
  return decided(
    () => leastAngle(context.scenes, pastIn),
    ({ scene, angle }) => {
      const { rig } = context;
      const words =
        angle >= 0
          ? `With the ${rig.mover} at its outer stop the shaft may go ${say.angle(angle)} past ${name}, lash taken off.`
          : `The ${rig.mover} at its outer stop holds the shaft ${say.angle(-angle)} short of ${name}, lash taken off.`;
      return angleTold(
        angle,
        placeOf(stationAt(rig, scene.travel, rig.stroke), scene),
        words,
        `${rig.mover} at its outer stop`,
      );
    },
  );
}

/** The least angle to spare, rad; where it is NaN the parts cannot reach each other, which is a failure and no missing reading. */
function leastAngle(scenes: readonly MechanicalScene[], angleIn: (scene: MechanicalScene) => number) {
  const { scene, margin: angle } = leastScene(scenes, angleIn);
  return { scene, angle, margin: Number.isNaN(angle) ? -Infinity : inDegrees(angle) };
}

function angleTold(angle: number, at: Place, words: string, where: string): Omit<Judgement, 'margin'> {
  return {
    value: inDegrees(angle),
    limit: 0,
    at,
    because: Number.isNaN(angle) ? `The parts cannot reach each other with the ${where}.` : words,
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
    ...decided(
      () => {
        const worksAtGap = context.rig.endSwitch?.worksAtGap;
        if (worksAtGap === undefined) return { scene: context.scenes[0], margin: -1 };
        const { scene, margin } = leastScene(context.scenes, ({ travel }) => worksAtGap - travel.homeGap);
        return { scene, margin: inMillimetres(margin) };
      },
      ({ scene, margin }) => {
        if (endSwitch === null)
          return {
            value: 0,
            limit: 0,
            at: null,
            because: 'This coil needs an end switch to reduce its current at home, and there is none.',
          };
        const { homeGap } = scene.travel;
        return {
          value: inMillimetres(homeGap),
          limit: inMillimetres(endSwitch.worksAtGap),
          at: placeOf(atHome(rig, scene), scene),
          because:
            margin >= 0
              ? `The switch changes over ${say.length(endSwitch.worksAtGap)} from home and the plunger goes on to ${say.length(homeGap)}.`
              : `The plunger stops ${say.length(homeGap)} from home but the switch changes over only at ${say.length(endSwitch.worksAtGap)}: the heavy current stays on until something burns.`,
        };
      },
    ),
  };
}
