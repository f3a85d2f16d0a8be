/** What the study of a hand cable says: plain data, in the units that the names say. No NaN and no infinite number. */
import type { Assumption } from '../finding.ts';

export interface CableStudy {
  /** The course of the conduit; null where neither route nor length and bends are known. */
  readonly run: CableRun | null;
  readonly friction: CableFriction | null;
  /** What may be asked at the handle; null where handle or posture are not known. */
  readonly limit: HandleLimit | null;
  /** Over the swing of the lever; null where a reading is missing. */
  readonly swing: CableSwing | null;
  /** The hardest place of the swing, worn cable and cold oil: how the effort builds up from the lever to the handle. */
  readonly worst: CableEffort | null;
  /** The same cable as it is now, lever as read. */
  readonly now: CableEffort | null;
  readonly travel: CableTravel | null;
  /** Paths of readings without which a part of this is null. */
  readonly missing: readonly string[];
  /** Friction that comes out of two readings at the handle; null where they were not both taken. */
  readonly calibrated: Calibrated | null;
  readonly assumed: readonly Assumption[];
}

export interface CablePlace {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly z_mm: number;
}

export interface CableRun {
  /** False where only length and bends of the run were told: then it is taken as level, its bends spread evenly. */
  readonly isDrawn: boolean;
  readonly length_mm: number;
  readonly turned_deg: number;
  /** From the handle up to the lever. */
  readonly rise_mm: number;
  /** From the handle to the lever. Places are null where the route is not drawn. */
  readonly pieces: readonly CablePiece[];
  readonly bends: readonly CableBend[];
  /** Corners as surveyed, from the handle to the lever; empty where the route is not drawn. */
  readonly corners: readonly (CablePlace & { readonly name: string | null })[];
  /** Bends for which there is no room; everything else of the run is reckoned with the radii that fit. */
  readonly misfits: readonly CableMisfit[];
  /** Where a second place of control joins the run by tee or bell-crank; null where none does, or it is not known where. */
  readonly junction: CableJunction | null;
}

export interface CableJunction {
  readonly by: 'tee' | 'bell-crank';
  /** Who works it from there. */
  readonly name: string;
  /** From the handle, along the conduit. */
  readonly from_mm: number;
  /** Null where the route is not drawn. */
  readonly at: CablePlace | null;
}

export interface CablePiece {
  readonly kind: 'straight' | 'bend';
  readonly from: CablePlace | null;
  readonly to: CablePlace | null;
  /** Along the bend, ends included, no more than 5° apart; both ends of a straight. */
  readonly points: readonly CablePlace[];
  /** From the handle, along the conduit. */
  readonly from_mm: number;
  readonly to_mm: number;
  /** Index in `bends`; null for a straight. */
  readonly bend: number | null;
}

export interface CableBend {
  /** From the handle, beginning at 1. */
  readonly number: number;
  /** Index of its corner in the route; null where it is not drawn. */
  readonly corner: number | null;
  readonly name: string | null;
  readonly angle_deg: number;
  /** Null where the route is not drawn. */
  readonly radius_mm: number | null;
}

export interface CableMisfit {
  readonly corner: number;
  readonly name: string | null;
  readonly why: 'no room' | 'turns back' | 'same place';
  readonly radius_mm: number;
  /** With this radius it would fit; null where none does. */
  readonly radiusThatFits_mm: number | null;
}

export interface CableFriction {
  readonly from: 'readings at the handle' | 'a reading' | 'its lining';
  readonly low: number;
  readonly high: number;
  /** `high` × ageing. */
  readonly worn: number;
  /** At which the pull becomes more than the limit, or the lever no longer comes back; null where it never does, or is not known. */
  readonly fails: number | null;
}

export interface HandleLimit {
  /** Where it comes from, in words. */
  readonly source: string;
  /** What is recommended, and beyond what it is to be avoided; both the allowed effort where one is stated. */
  readonly recommended_N: number;
  readonly avoidBeyond_N: number;
  /** What the weaker of two groups of adults can do once, with one hand at the best height; null for a pedal. */
  readonly momentary_N: number | null;
}

/** Columns of one length, from run to the hard stop. A null is infinite, or does not exist at that angle. */
export interface CableSwing {
  readonly shaftAngle_deg: readonly number[];
  /** Core drawn in since the lever left run; below zero where it is pushed out. */
  readonly coreTravel_mm: readonly (number | null)[];
  /** Arm on which the core turns the lever towards stop. */
  readonly arm_mm: readonly (number | null)[];
  /** Force in the core at the lever, worn and cold; a push too is above zero. */
  readonly leverForce_N: readonly (number | null)[];
  /** At the handle towards stop: worn and cold, and as it is now. */
  readonly handleForce_N: readonly (number | null)[];
  readonly handleForceNow_N: readonly (number | null)[];
  /** Force with which the lever comes back on the core, and what the core asks to be carried along, worn and cold. */
  readonly returnForce_N: readonly (number | null)[];
  readonly returnNeeded_N: readonly (number | null)[];
  /** Core off the axis of the conduit end. */
  readonly offAxis_deg: readonly number[];
  readonly handleTravel_mm: readonly (number | null)[];
}

/** One pull, at one shaft angle. */
export interface CableEffort {
  readonly shaftAngle_deg: number;
  readonly friction: number;
  readonly leverForce_N: number;
  /** At the handle, in the core; null where a push does not get through. */
  readonly coreForce_N: number | null;
  /** In the hand. */
  readonly handleForce_N: number | null;
  /** Work that reaches the lever over work done at the handle, without stretch; null where nothing gets through. */
  readonly efficiency: number | null;
  /** From the lever to the handle, force in the core; where a drag acts, twice at one place. */
  readonly profile: readonly CableProfilePoint[];
  /** What each bend adds in the core at the handle, in the order of `run.bends`. */
  readonly bendCost_N: readonly (number | null)[];
  /** Of seals and stiff core, at the handle. */
  readonly drag_N: number;
}

export interface CableProfilePoint {
  readonly fromLever_mm: number;
  readonly force_N: number;
  /** Index in `run.pieces`. */
  readonly piece: number;
}

/** Travel from rest until fuel is off, at the handle unless said. */
export interface CableTravel {
  /** Core drawn in from run to no-fuel, at the lever. */
  readonly core_mm: number;
  readonly slack_mm: number;
  readonly stretch_mm: number;
  readonly shortening_mm: number;
  /** Lost in the bends; 0 for a core that is kept taut. */
  readonly play_mm: number;
  readonly ratio: number;
  readonly handle_mm: number;
  readonly available_mm: number | null;
}

export interface Calibrated {
  readonly drag_N: number;
  readonly friction: number;
  readonly frictionLow: number;
  readonly frictionHigh: number;
}

/** Moment that an idle cable lays on the lever, N m, against the way it turns. */
export interface CableDrag {
  /** As it is now, lining at its slickest; never below zero. */
  readonly least_Nm: number;
  /** Worn. */
  readonly most_Nm: number;
  /** True while the play before the core is taken along lasts: both are 0. */
  readonly isInSlack: boolean;
}
