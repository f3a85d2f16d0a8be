/** The air cylinder of a job as plain data for drawings, tables and comparisons. Nulls stand where a reading is missing. */

export interface AirStudy {
  /** Paths of readings without which a part of this is not known. */
  readonly missing: readonly string[];
  readonly force: AirForces | null;
  /** Stop and way back, the slow way and the quick way; empty where they cannot be followed. */
  readonly runs: readonly AirRun[];
  readonly use: AirUse | null;
  readonly whenLost: AirLost | null;
}

/** Over the gap, from home outwards. */
export interface AirForces {
  readonly gap_mm: readonly number[];
  /** What the rod gives towards home at the lowest and the highest pressure, friction of its seals taken off. */
  readonly atLow_N: readonly (number | null)[];
  readonly atHigh_N: readonly (number | null)[];
  /** What the installation asks on the way home, the spring inside with it. */
  readonly needed_N: readonly (number | null)[];
  readonly neededLowFriction_N: readonly (number | null)[];
  /** What drives the rod out without air, and what is left of it with everything that holds it back taken off. */
  readonly returnDrive_N: readonly (number | null)[];
  readonly returnForce_N: readonly (number | null)[];
  /** The same with air in the other chamber at the lowest pressure; null where a spring brings it back. */
  readonly returnForceByAir_N: readonly (number | null)[] | null;
}

export type AirRunName = 'home, slowest' | 'home, hardest' | 'out, slowest';

export interface AirRun {
  readonly name: AirRunName;
  /** "lowest pressure, high friction, at one temperature". */
  readonly corner: string;
  readonly time_ms: readonly number[];
  readonly gap_mm: readonly number[];
  readonly shaftAngle_deg: readonly (number | null)[];
  /** Above atmosphere: the chamber that drives home, and the other. */
  readonly home_bar: readonly number[];
  readonly out_bar: readonly number[];
  readonly events: readonly AirEvent[];
  /** Where it stands at the end of the time it was followed. */
  readonly gapAtEnd_mm: number;
}

export interface AirEvent {
  readonly kind:
    | 'air reaches the cylinder'
    | 'air begins to leave'
    | 'starts moving'
    | 'passes no-fuel'
    | 'passes run'
    | 'arrives';
  readonly time_ms: number;
}

export interface AirUse {
  /** Free air of one stop with its way back, at the highest pressure. */
  readonly perStop_L: number;
  /** Stops that the vessel gives from the highest and from the lowest pressure, nothing pumping. */
  readonly stopsFromHigh: number;
  readonly stopsFromLow: number;
  /** Lowest pressure that still carries the lever home with the wanted margin, and that which just does. */
  readonly enough_bar: number | null;
  readonly just_bar: number | null;
}

/** What the lever does when there is no air. */
export interface AirLost {
  /** With the lever at stop, and with it at run: whether the lever goes to stop, to run, or stays where it is. */
  readonly fromStop: 'goes to run' | 'stays at stop' | 'stays on the way';
  readonly fromRun: 'goes to stop' | 'stays at run' | 'stays on the way';
  /** One sentence. */
  readonly because: string;
}
