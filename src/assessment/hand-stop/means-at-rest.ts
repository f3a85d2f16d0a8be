/**
 * What plunger or rod at rest adds to the lever while something else turns it towards stop.
 *
 * By virtual work: the pull F that would move everything, over the rate at which it turns the lever, is a moment on the
 * lever; less what the lever asks by itself, it is what the means is carried along with. Friction of the guide is taken as
 * if the pull came along the axis. A chain is not carried along: it falls slack.
 */
import type { MechanicalRig } from '../rig.ts';
import type { MechanicalScene } from '../scene.ts';

/** Extra moment at rising angles from run towards stop, N m, never below zero; empty where nothing is carried along. */
export interface Carried {
  /** From run towards stop, rad, rising. */
  readonly turned: readonly number[];
  readonly moment: readonly number[];
}

const nothing: Carried = { turned: [], moment: [] };

/** Energised to run, plunger or rod stands at stop when it is at rest: it is let go there, and nothing is carried along. */
export function carriedAlong(rig: MechanicalRig, { travel, needed }: MechanicalScene): Carried {
  if (!rig.toStop || rig.linkage.kind === 'chain') return nothing;
  const turned: number[] = [];
  const moment: number[] = [];
  // Stations run from home outwards, the lever from stop to run.
  for (let i = travel.stations.length - 1; i >= 0; i--) {
    const { pose, shaftAngle, stretch } = travel.stations[i];
    const angle = rig.lever.toStop * (shaftAngle - rig.lever.run);
    if (stretch !== null || (turned.length > 0 && angle <= turned[turned.length - 1])) continue;
    turned.push(angle);
    moment.push(Math.max(0, needed.high.needed[i] / pose.rate - needed.high.moment[i]));
  }
  return { turned, moment };
}

/** Between the angles a straight line, beyond them the end value; nothing where nothing is carried along. */
export function carriedAt({ turned, moment }: Carried, angle: number): number {
  if (turned.length === 0) return 0;
  const after = turned.findIndex((at) => at >= angle);
  if (after <= 0) return after === 0 ? moment[0] : moment[moment.length - 1];
  const share = (angle - turned[after - 1]) / (turned[after] - turned[after - 1]);
  return moment[after - 1] + share * (moment[after] - moment[after - 1]);
}
