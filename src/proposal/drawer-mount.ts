/** How a spring may be fitted, and what is known of it there: plain data for the screen. */
import type { SpringLimits } from '../assessment/spring-limits.ts';
import type { SpringWindow, WindowQuestion } from '../assessment/window/kinds.ts';
import type { WorkingSpring } from '../physics/spring/working.ts';

/** One way to fit a spring. */
export type Mount =
  | {
      readonly on: 'lever';
      readonly index: number;
      /** Name of the hole; null along the present spring. */
      readonly hole: string | null;
      /** How far the anchor is moved away from the lever, m; zero is the present place. Null for a hole. */
      readonly moved: number | null;
      readonly x: number;
      readonly y: number;
      /** Length of the spring with the plunger out, as hooked on, m. */
      readonly lengthAtRest: number;
    }
  | {
      readonly on: 'plunger';
      readonly index: number | null;
      readonly lengthAtHome: number;
      /** Packing under the seat, m. */
      readonly packing: number;
    }
  | {
      readonly on: 'shaft';
      readonly index: number | null;
      /** Shaft angle at which its legs are set to rest, rad. */
      readonly freeAngle: number;
      /** How far it is wound with the plunger out, rad. */
      readonly woundAtRest: number;
      /** +1: it drives the shaft counter-clockwise. */
      readonly drives: 1 | -1;
    };

/**
 * A place for a spring, its window, and the ways to fit one there, each with length and lever arm at every station; round
 * the shaft the "length" is how far the spring is wound, rad, and the arm is one.
 */
export interface Target {
  readonly question: WindowQuestion;
  readonly window: SpringWindow;
  readonly mounts: readonly Mount[];
  /** Rows by mount, columns by station of all scenes: length of the spring, m, and what one newton of draw (push on the plunger) gives. */
  readonly lengths: readonly Float64Array[];
  readonly arms: readonly Float64Array[];
  /** How many of the stations are those as surveyed, which come first: the springs' own limits are judged there. */
  readonly surveyed: number;
  /** Bore that a spring must go into, m; null where it is not limited, and the rod or shaft that must go through it. */
  readonly outsideMost: number | null;
  readonly insideLeast: number | null;
}

/** A spring as the screen has it, whatever the mount: its line, its limits, its size. */
export interface KnownSpring {
  /** Of a spring round the shaft "length" is how far it is wound, rad, and "force" its moment, N m. */
  readonly working: WorkingSpring;
  readonly limits: SpringLimits;
  /** Of the coil, m; null where it is not known. */
  readonly outside: number | null;
  /** What goes through it, at most, m, at its furthest: a coil that is wound grows narrower. */
  readonly insideAt: (extreme: number) => number | null;
}
