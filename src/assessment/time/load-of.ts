/** What a mover feels on its way, besides magnet or air: the load of a scene as the physics of motion takes it. */
import type { MotionLoad } from '../../physics/motion/load-curve.ts';
import { neededAt } from '../forces.ts';
import type { End } from '../lever-moments.ts';
import type { MechanicalRig } from '../rig.ts';
import type { MechanicalScene } from '../scene.ts';

/** How often a spring's own mass takes part in the motion of its end. */
const SPRING_SHARE = 1 / 3;
const STEEL_DENSITY = 7850;

/** Stands for a connection that is held fast the other way, N: no solenoid, no air and no spring moves it. */
const FAST = 1e5;

/**
 * What plunger or rod feels on its way, as the scene has it, but without vibration, which adds to either side; null where the
 * connection is held fast on the way that is followed, or comes apart.
 */
export function loadOf(
  rig: MechanicalRig,
  scene: MechanicalScene,
  friction: End,
  what: 'pull-in' | 'release',
): MotionLoad | null {
  const { travel, needed, out } = scene;
  const { vibration } = rig;
  const rows = travel.stations.flatMap(({ gap, stretch }, i, all) =>
    i === 0 || gap > all[i - 1].gap || (stretch === null) !== (all[i - 1].stretch === null) ? [i] : [],
  );
  const last = rows.length - 1;
  const resists = rows.map((i) => needed[friction].needed[i] - vibration);
  // The first movement after standing asks more; it is over within the first station.
  if (friction === 'high')
    resists[last] =
      neededAt(rig, travel, travel.stations[rows[last]], friction, rig.lever.breakaway).needed - vibration;
  const drives = rows.map((i) => out[friction].net[i] + vibration);
  const bounded = (force: number) => (Math.abs(force) === Infinity ? Math.sign(force) * FAST : force);
  const home = Float64Array.from(resists, what === 'release' ? bounded : (force) => force);
  // What drives out without friction is no more than what resists: rounding may say otherwise.
  const drive = Float64Array.from(drives, (force, i) => Math.min(what === 'pull-in' ? bounded(force) : force, home[i]));
  const mass = Float64Array.from(rows, (i) => {
    const { pose, stretch } = travel.stations[i];
    return massAt(rig, stretch === null ? pose.rate : 0);
  });
  const isWhole = [home, drive, mass].every((column) => column.every(Number.isFinite));
  return isWhole && travel.startGap > travel.homeGap
    ? { gaps: Float64Array.from(rows, (i) => travel.stations[i].gap), home, out: drive, mass, viscous: 0 }
    : null;
}

/** Mass as the mover feels it, kg, where the lever turns by `rate` rad/m. */
function massAt(rig: MechanicalRig, rate: number): number {
  let mass = rig.plungerMass + rig.leverInertia * rate * rate;
  for (const { helical, lever } of rig.springs) {
    if (helical === null) continue;
    const { wireDiameter: d, meanCoilDiameter: D, activeTurns: n } = helical;
    const own = STEEL_DENSITY * ((Math.PI * d * d) / 4) * Math.PI * D * n;
    mass += SPRING_SHARE * own * (lever === null ? 1 : (lever.radius * rate) ** 2);
  }
  return mass;
}
