/** Which readings the questions of a hand cable rest on, as paths; a test takes every one of them away in turn. */
import type { HandCable, Job } from '../../job/schema.ts';
import { springPaths } from '../spring-paths.ts';
import { valueOf } from '../readings.ts';
import { prefixOf } from './rig.ts';

export interface CableNeeds {
  /** Angles between which the lever swings. */
  readonly swing: readonly string[];
  readonly noFuel: readonly string[];
  readonly lash: readonly string[];
  /** Effort of the lever and of the springs on it. */
  readonly load: readonly string[];
  readonly geometry: readonly string[];
  readonly course: readonly string[];
  readonly core: readonly string[];
  readonly bore: readonly string[];
  /** What the play in the bends rests on: nothing where the core is kept taut. */
  readonly play: readonly string[];
  readonly way: readonly string[];
  /** Friction and drag of the core. */
  readonly friction: readonly string[];
  readonly limit: readonly string[];
  readonly slack: readonly string[];
  readonly handleTravel: readonly string[];
  readonly swingAllowed: readonly string[];
  readonly second: readonly string[];
  /** Everything that a pull towards stop rests on, and everything that the way back does. */
  readonly pull: readonly string[];
  readonly back: readonly string[];
  /** Everything that an idle cable on the lever rests on. */
  readonly idle: readonly string[];
}

export function cableNeeds(job: Job, cable: HandCable): CableNeeds {
  const prefix = prefixOf(job, cable);
  const own = (...names: string[]) => names.map((name) => `${prefix}.${name}`);
  const lever = (...names: string[]) => names.map((name) => `survey.lever.${name}`);
  const swing = lever('runAngle', 'noFuelAngle', 'hardStopAngle');
  const load = [...effortPaths(job), ...leverSpringPaths(job)];
  const { firstPull } = job.survey.effort;
  const breakaway = firstPull === undefined ? [] : ['survey.effort.firstPull.radius', 'survey.effort.firstPull.pull'];
  const geometry = own('leverEnd.conduitEnd.x', 'leverEnd.conduitEnd.y', 'leverEnd.radius', 'leverEnd.angle');
  const course = coursePaths(job, cable, prefix);
  const core = own('core.construction', 'core.diameter');
  const way = own('towardsStop');
  const bore = own('conduit.bore');
  // The room that a core has decides how it lies down when it is pushed.
  const pushed = cable.towardsStop === 'pulled' ? [] : bore;
  const base = [...swing, ...geometry, ...course, ...core, ...way, ...pushed];
  const friction =
    cable.readings !== undefined
      ? own('readings.free', 'readings.connected')
      : cable.friction !== undefined
        ? []
        : own('conduit.lining');
  // Friction out of readings at the handle rests on all that the pull rests on.
  const frictionAll = cable.readings === undefined ? friction : [...friction, ...load];
  const limit = cable.handle.allowed !== undefined ? [] : [...own('handle.kind', 'handle.posture'), ...way];
  const second =
    typeof cable.secondStation === 'string'
      ? own('secondStation')
      : secondPaths(cable.secondStation, `${prefix}.secondStation`);
  return {
    swing,
    noFuel: swing,
    lash: lever('lash'),
    load,
    geometry,
    course,
    core,
    bore,
    play: valueOf(cable.leverEnd.slack, 'length') === 0 ? [] : bore,
    way,
    friction,
    limit,
    slack: own('leverEnd.slack'),
    handleTravel: own('handle.travel'),
    swingAllowed: cable.leverEnd.swing !== undefined ? [] : own('leverEnd.fitting'),
    second,
    pull: unique([...base, ...frictionAll, ...load, ...breakaway]),
    back: unique([...base, ...frictionAll, ...load]),
    idle: unique([...base, ...bore, ...frictionAll, ...own('leverEnd.slack'), ...second]),
  };
}

/** Effort of the lever itself. */
export function effortPaths(job: Job): string[] {
  const { readings } = job.survey.effort;
  if (readings.length === 0) return ['survey.effort.readings'];
  return readings.flatMap((_, i) =>
    ['angle', 'radius', 'pull', 'easingBack'].map((name) => `survey.effort.readings[${i}].${name}`),
  );
}

/** Springs on the plunger belong to a solenoid: a cable has none. */
function leverSpringPaths(job: Job): string[] {
  return job.return.springs.flatMap((spring, i) =>
    spring.on === 'plunger' ? [] : springPaths(spring, `return.springs[${i}]`),
  );
}

function coursePaths(job: Job, { route }: HandCable, prefix: string): string[] {
  if (route.length > 0) return routePaths(route, `${prefix}.route`);
  const { bends, bendTotal } = job.survey.run;
  return ['survey.run.distance', ...(bends > 0 && bendTotal !== undefined ? ['survey.run.bendTotal'] : [])];
}

function secondPaths({ by, route, crank }: Exclude<HandCable['secondStation'], string>, path: string): string[] {
  const drawn = routePaths(route, `${path}.route`);
  if (by === 'second cable') return drawn;
  const arms = by === 'tee' || crank === undefined ? [] : [`${path}.crank.mainArm`, `${path}.crank.secondArm`];
  return [...drawn, `${path}.joins`, ...arms];
}

function routePaths(route: HandCable['route'], path: string): string[] {
  return route.flatMap(({ radius }, i) => [
    ...['x', 'y', 'z'].map((name) => `${path}[${i}].${name}`),
    ...(i > 0 && i < route.length - 1 && radius !== undefined ? [`${path}[${i}].radius`] : []),
  ]);
}

function unique(paths: readonly string[]): readonly string[] {
  return [...new Set(paths)];
}
