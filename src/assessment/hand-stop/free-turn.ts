/**
 * How far the lever can still be turned towards stop by something else while plunger or rod is stuck where the engine runs.
 *
 * A chain falls slack and leaves the lever free until it is stretched again; a slot gives the play of its pin, a plain pin
 * that of its hole, a link nothing. An over-travel spring gives way where plunger or rod is stuck at home with the lever at
 * run; how hard it must be pulled for that is not counted here.
 */
import type { MechanicalRig } from '../rig.ts';
import type { MechanicalScene } from '../scene.ts';
import { stationAt } from '../travel.ts';

export interface FreeTurn {
  /** Where the lever stands while the mover is stuck, rad. */
  readonly from: number;
  /** How far it can be turned towards stop from there, rad; as far as the hard stop at the most. */
  readonly turn: number;
}

const STEP = Math.PI / 720;

/** How far something can be turned while it is free, rad, in steps of a quarter of a degree; about `most` at the most. */
export function turnWhile(isFree: (turn: number) => boolean, most: number): number {
  let turn = 0;
  while (turn < most && isFree(turn + STEP)) turn += STEP;
  return turn;
}

/** Numbers are NaN where a reading is missing. */
export function turnWithMoverStuck(rig: MechanicalRig, { travel }: MechanicalScene): FreeTurn {
  const { lever, linkage, overTravel } = rig;
  const gap = rig.toStop ? travel.startGap : travel.homeGap;
  const { shaftAngle: from, pose, stretch } = stationAt(rig, travel, gap);
  // Parts that do not reach each other leave nothing to be said of their play.
  if (!pose.assembled) return { from: lever.run, turn: 0 };
  const most = lever.toStop * (lever.hardStop - from);
  if (Number.isNaN(from + most)) return { from, turn: NaN };
  const play = (): number => {
    switch (linkage.kind) {
      case 'slot':
        return rig.slotClearance / pose.radius;
      case 'pin':
        return (2 * linkage.length) / linkage.armRadius;
      case 'link':
        return 0;
      case 'chain': {
        // The pin stays where it is; the hole in the arm comes nearer to it, and then may go past.
        const pinX = linkage.homeX - gap * linkage.directionX;
        const pinY = linkage.homeY - gap * linkage.directionY;
        const isSlack = (turn: number) => {
          const arm = from + lever.toStop * turn + lever.armMinusShaft;
          const away = Math.hypot(linkage.armRadius * Math.cos(arm) - pinX, linkage.armRadius * Math.sin(arm) - pinY);
          return away <= linkage.length * (1 + 1e-9);
        };
        return turnWhile(isSlack, most);
      }
    }
  };
  const given = overTravel === null || rig.toStop ? 0 : (overTravel.travel - (stretch ?? 0)) / pose.leverage;
  return { from, turn: Math.min(most, play() + given) };
}
