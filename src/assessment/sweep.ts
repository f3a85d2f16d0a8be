/** The curves over the gap, for people and pictures: display units of the JSON, null where a reading is missing. */
import type { Currents, Sweep, Travel as TravelFigures } from './finding.ts';
import type { MechanicalRig, Rig } from './rig.ts';
import { pullAt, type ElectricCorner, type MechanicalScene, type Scene } from './scene.ts';
import { poseAtHome, rigidPose } from './travel.ts';
import { inDegrees, inMillimetres } from './check.ts';
import { valueOf } from './readings.ts';

export function sweepOf(rig: Rig, scene: Scene, electric: readonly ElectricCorner[]): Sweep {
  const { stations } = scene.travel;
  const weakest = electric.findIndex(({ supply, coil }) => supply === 'low' && coil === 'hot');
  const strongest = electric.find(({ supply, coil }) => supply === 'high' && coil === 'cold')!;
  return mechanicalSweepOf(
    scene,
    (i) => scene.pull[weakest][i],
    (i) => pullAt(rig, stations[i].gap, strongest, 'greatest'),
  );
}

/** @param least what the mover gives at a station at its weakest, N; @param greatest at its strongest; @param back what it adds to the way out */
export function mechanicalSweepOf(
  { travel: { stations }, needed, out }: MechanicalScene,
  least: (i: number) => number,
  greatest: (i: number) => number,
  back: { readonly drive: number; readonly net: number } = { drive: 0, net: 0 },
): Sweep {
  const each = <T>(value: (i: number) => T) => stations.map((_, i) => value(i));
  return {
    gap_mm: each((i) => orNull(inMillimetres(stations[i].gap)) ?? 0),
    shaftAngle_deg: each((i) => orNull(inDegrees(stations[i].shaftAngle))),
    pullLeast_N: each((i) => orNull(least(i))),
    pullGreatest_N: each((i) => orNull(greatest(i))),
    pullNeeded_N: each((i) => orNull(needed.high.needed[i])),
    pullNeededLowFriction_N: each((i) => orNull(needed.low.needed[i])),
    sideForce_N: each((i) => orNull(Math.max(Math.abs(needed.high.side[i]), Math.abs(out.high.side[i])))),
    returnForce_N: each((i) => orNull(out.high.net[i] + back.net)),
    returnDrive_N: each((i) => orNull(out.high.drive[i] + back.drive)),
    slotRadius_mm: each((i) => orNull(inMillimetres(stations[i].pose.radius))),
    overTravel: each((i) => stations[i].stretch !== null),
  };
}

export function travelFigures(rig: MechanicalRig, scene: MechanicalScene): TravelFigures {
  const { travel } = scene;
  const { homeGap, startGap, leverStopGap, stations } = travel;
  const home = stations[0];
  const { adjuster } = rig.job.layout;
  const halfTurn = adjuster === 'none' ? NaN : (poseAtHome(rig, scene).rate * valueOf(adjuster.pitch, 'length')) / 2;
  const rest = rigidPose(rig, travel.linkage, startGap);
  return {
    homeGap_mm: orNull(inMillimetres(homeGap)),
    startGap_mm: orNull(inMillimetres(startGap)),
    leverStopGap_mm: leverStopGap === null ? null : orNull(inMillimetres(leverStopGap)),
    shaftAtHome_deg: orNull(inDegrees(home.shaftAngle)),
    shaftAtRest_deg: orNull(inDegrees(rest.armAngle - rig.lever.armMinusShaft)),
    halfTurn_deg: orNull(inDegrees(halfTurn)),
  };
}

export function currentsOf(electric: readonly ElectricCorner[]): Currents[] {
  return electric.flatMap(({ supply, coil, pullIn, hold }) =>
    (
      [
        ['pull-in', pullIn],
        ['hold', hold],
      ] as const
    ).map(([stage, state]) => ({
      stage,
      supply,
      coil,
      current_A: orNull(state.supply),
      coilVolts_V: orNull(state.volts),
      coilPower_W: orNull(state.coilPower),
    })),
  );
}

export function orNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
