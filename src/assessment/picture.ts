/**
 * What a drawing of the mechanism needs to know at one gap: plain data, the form only. `src/sheets/mechanism.ts` draws it.
 *
 * Base SI: m, rad, N. Frame of the job document: shaft centre at the origin, x right, y up, angles counter-clockwise.
 * A null stands where a reading is missing or a thing has no meaning; the drawing then leaves it out and says so. No
 * NaN and no infinite number.
 *
 * Everything but `now`, `forces` and the springs' moving ends is the same at every gap, so that a drawing that follows
 * the travel control keeps its scale and its labels in place.
 */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface MechanismPicture {
  readonly works: 'energise to stop' | 'energise to run' | 'by hand' | 'by air' | 'by air, to run';
  /** +1: the lever turns counter-clockwise towards home; -1: clockwise. */
  readonly sense: 1 | -1;
  /** Centre of the plunger pin at home. */
  readonly homePin: Point | null;
  /** Direction in which the plunger moves towards home. */
  readonly pullDirection: number | null;
  readonly stroke: number | null;
  /** Arm angle minus shaft angle: arm offset plus hub position. */
  readonly armMinusShaft: number | null;
  /** Angles of the shaft as surveyed; the arm's ray stands at shaft angle + `armMinusShaft`. */
  readonly shaftAngles: ShaftAngles;
  /** Direction of the ground; null where the plane of the lever lies flat. */
  readonly down: number | null;
  readonly connection: DrawnConnection;
  readonly actuator: DrawnActuator;
  /** Gap at which the end switch changes over. */
  readonly endSwitchGap: number | null;
  /** Where everything stands now. */
  readonly now: DrawnPosition;
  /** Where the plunger ends up with current on (not gap 0 where the lever stops it short). */
  readonly home: DrawnPosition | null;
  /** Where it comes to rest without current. */
  readonly rest: DrawnPosition | null;
  readonly springs: readonly DrawnSpring[];
  /** What stands in the way, of which place and size are known. */
  readonly keepOut: readonly DrawnKeepOut[];
  readonly forces: DrawnForces | null;
  /** One sentence where the parts cannot stand like this: "the link does not reach at 12.0 mm from home". */
  readonly trouble: string | null;
}

export interface ShaftAngles {
  readonly run: number | null;
  readonly noFuel: number | null;
  readonly hardStop: number | null;
  readonly runStop: number | null;
}

export type DrawnConnection =
  | {
      readonly kind: 'slotted lever';
      /** Ends of the slot from the shaft centre. */
      readonly slotFrom: number | null;
      readonly slotTo: number | null;
      readonly pinDiameter: number | null;
      /** Slot width minus pin diameter. */
      readonly sideClearance: number | null;
    }
  | {
      readonly kind: 'pinned link';
      readonly armRadius: number | null;
      readonly length: number | null;
      readonly pinDiameter: number | null;
    }
  | { readonly kind: 'short chain'; readonly armRadius: number | null; readonly length: number | null }
  | {
      readonly kind: 'plain pin';
      readonly armRadius: number | null;
      readonly pinDiameter: number | null;
      readonly holeDiameter: number | null;
    };

/** Only guide and plunger are measured; the rest of the outline is drawn by proportion and marked as schematic. */
export interface DrawnActuator {
  readonly kind: 'solenoid' | 'hand cable' | 'air cylinder';
  readonly action: 'pull' | 'push';
  /** Mouth of the guide (hand cable: end of the conduit), on the line of pull. */
  readonly mouth: Point | null;
  readonly guideLength: number | null;
  /** Plunger, core or piston rod. */
  readonly plungerDiameter: number | null;
  /** Bore of an air cylinder. */
  readonly bore: number | null;
}

export interface DrawnPosition {
  /** From home. */
  readonly gap: number | null;
  /** Plunger pin, B = homePin - gap × unit pull direction. */
  readonly pin: Point | null;
  readonly armAngle: number | null;
  /** How far the over-travel spring has given; 0 where there is none or it is still rigid. */
  readonly overTravel: number;
  /** Chain hangs, or the pin does not touch the wall of the slot that it drives. */
  readonly slack: boolean;
}

export interface DrawnSpring {
  readonly on: 'lever' | 'plunger';
  readonly name: string;
  readonly kind: 'extension' | 'compression';
  /** Fixed end; null for a spring on the plunger, which is drawn at the mouth of the guide. */
  readonly from: Point | null;
  /** Moving end, now; null for a spring on the plunger. */
  readonly to: Point | null;
  /** Length now. */
  readonly length: number | null;
  readonly coilDiameter: number | null;
  readonly turns: number | null;
  /** Now, N; 0 where slack. */
  readonly force: number | null;
  readonly slack: boolean;
  /** Index in `return.springs` of the job document, which a dragged anchor changes. */
  readonly index: number;
}

/** A shape that nothing may enter, m; `index` is its place in `space.keepOut` of the job document. */
export type DrawnKeepOut = { readonly index: number; readonly name: string } & (
  | { readonly shape: 'circle'; readonly centre: Point; readonly radius: number }
  | { readonly shape: 'rectangle'; readonly from: Point; readonly to: Point }
);

/** Forces at the gap of `now`, N. */
export interface DrawnForces {
  /** Pull available towards home: weakest and strongest corner. */
  readonly pullLeast: number | null;
  readonly pullGreatest: number | null;
  /** Pull needed towards home, high friction. */
  readonly pullNeeded: number | null;
  /** Side force on the plunger pin, above zero along v (pull direction turned a quarter counter-clockwise). */
  readonly side: number | null;
  /** Left over to bring the plunger out without current; below zero it stays. */
  readonly return: number | null;
  /** Force for which an arrow is drawn at full length, the same at every gap; say three times the greatest need. */
  readonly fullArrow: number;
}
