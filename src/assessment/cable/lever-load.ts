/** What the lever asks of whatever turns it, and what it has left to come back with, springs of the installation included. */
import { frictionMoment, steadyMoment } from '../../physics/load.ts';
import { shaftSpringMoment } from '../../physics/spring/torsion.ts';
import { leverSpringMoment } from '../../physics/spring/working.ts';
import type { Lever } from '../lever.ts';
import type { RigSprings } from '../springs-of.ts';

/** At one shaft angle, N m, both above zero where they are what one expects. */
export interface LeverLoad {
  /** To be overcome on the way to stop, friction included: the state of the engine that resists most. */
  readonly towardsStop: number;
  /** What drives back to run before friction, and the friction: the state that drives least. */
  readonly drive: number;
  readonly friction: number;
}

/** @param frictionFactor friction over friction as read */
export function leverLoad(lever: Lever, springs: RigSprings, shaftAngle: number, frictionFactor: number): LeverLoad {
  const { efforts, readTowards, toStop } = lever;
  if (efforts === null) return { towardsStop: NaN, drive: NaN, friction: NaN };
  let added = 0;
  for (const { lever: onLever } of springs.springs)
    if (onLever !== null) added -= toStop * leverSpringMoment(onLever, shaftAngle);
  for (const { onShaft } of springs.shaftSprings) added -= toStop * shaftSpringMoment(onShaft, shaftAngle);
  let [towardsStop, drive, friction] = [-Infinity, Infinity, 0];
  for (const curve of efforts) {
    const steady = readTowards * steadyMoment(curve, shaftAngle) + added;
    const rubs = frictionFactor * frictionMoment(curve, shaftAngle);
    towardsStop = Math.max(towardsStop, steady + rubs);
    if (steady - rubs < drive - friction) [drive, friction] = [steady, rubs];
  }
  return { towardsStop, drive, friction };
}
