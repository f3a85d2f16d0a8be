/** What a spring to order has to do, and what comes back: plain data, base SI. */
import type { CompressionEnds, Seating } from '../compression.ts';
import type { Surface } from '../endurance.ts';
import type { Grade } from '../tolerance.ts';
import type { SpringWire, WireCaution } from '../wire.ts';

/** The force wanted at a length: between least and most. */
export interface ForceWindow {
  readonly length: number;
  readonly least: number;
  readonly most: number;
}

export interface SpringQuestion {
  readonly kind: 'extension' | 'compression';
  /** Where it is drawn or pressed less, and where more. */
  readonly first: ForceWindow;
  readonly second: ForceWindow;
  readonly wires: readonly SpringWire[];
  readonly space: {
    /** Least bore of a hole, or free width: the coil with its tolerance and growth goes in. */
    readonly outsideMost: number | null;
    /** Rod or plunger that must pass through the coil. */
    readonly insideLeast: number | null;
    /** Longest that it may be with nothing on it (extension: inside the hooks). */
    readonly freeLengthMost: number | null;
  };
  readonly grade: Grade;
  /** Whether the windows hold the drawing's forces, or those of every spring within its grade. */
  readonly windowsHold: 'nominal' | 'with tolerance';
  /** How the ends of a compression spring are seated. Guided along its length on a rod or in a hole it does not buckle. */
  readonly seating: Seating | 'guided along its length';
  /** Where it moves often: its surface. Null for static duty. */
  readonly moving: Surface | null;
  /** Share of every stress that stays unused: 0.1 keeps a tenth. */
  readonly reserve: number;
  /** Hottest place that it works in, K. */
  readonly hottest: number;
}

/** Limits a spring meets, each as used over allowed: at most 1. */
export type Limit =
  /** No stocked wire of the series gives the rate between index 4 and 16 with a number of turns that can be wound. */
  | 'rate'
  | 'forces'
  | 'static stress'
  | 'stress when solid'
  | 'stress of the hooks'
  | 'initial tension'
  | 'length of the hooks'
  | 'travel before the coils touch'
  | 'buckling'
  | 'outside diameter'
  | 'inside diameter'
  | 'free length'
  | 'endurance';

export interface StatedLoad {
  readonly name: 'F1' | 'F2';
  readonly length: number;
  readonly force: number;
  /** ± by the grade, N. */
  readonly tolerance: number;
  /** Shear stress without and with correction for curvature, Pa. */
  readonly stress: number;
  readonly correctedStress: number;
}

/** All that a spring-maker has to be told. */
export interface Specification {
  readonly kind: 'extension' | 'compression';
  readonly wire: SpringWire;
  readonly wireDiameter: number;
  /** Least tensile strength of that wire, Pa. */
  readonly strength: number;
  readonly outsideDiameter: number;
  readonly diameterTolerance: number;
  readonly meanCoilDiameter: number;
  readonly insideDiameter: number;
  readonly activeTurns: number;
  readonly totalTurns: number;
  readonly direction: 'right-hand' | 'left-hand';
  readonly ends: CompressionEnds | 'full hooks' | 'full hooks drawn out';
  /** From the body to the inside of the hook, m; null for compression. */
  readonly hookLength: number | null;
  readonly freeLength: number;
  readonly loads: readonly [StatedLoad, StatedLoad];
  readonly grade: Grade;
  /** Coils on each other, m; for an extension spring the length of its body. */
  readonly solidLength: number;
  /** Shortest working length of a compression spring, m; null for extension. */
  readonly shortestLength: number | null;
  readonly rate: number;
  readonly rateTolerance_share: number;
  readonly initialTension: number;
  readonly mass: number;
  readonly naturalFrequency: number;
  readonly surface: string;
}

export interface Offer {
  readonly specification: Specification;
  readonly used: Readonly<Partial<Record<Limit, number>>>;
  /** Whether every spring within the grade keeps both windows. */
  readonly keepsWindowsInGrade: boolean;
  readonly cautions: readonly WireCaution[];
}

export interface Closed {
  /** The limit that stops the spring that comes nearest, and all that stop it. */
  readonly limit: Limit;
  readonly limits: readonly Limit[];
  readonly used: number;
  /** Null where no coil has the rate at all. */
  readonly nearest: Offer | null;
  /** How many springs each limit stops alone: what would open if it were moved. */
  readonly aloneStops: Readonly<Partial<Record<Limit, number>>>;
}

export interface SpringAnswer {
  /** The best first. */
  readonly offers: readonly Offer[];
  readonly considered: number;
  /** Null where there are offers. */
  readonly closed: Closed | null;
}
