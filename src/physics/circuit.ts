/**
 * Steady currents of a stop circuit: one source, one loop of resistances, one coil in pull-in or in hold.
 *
 * Ohm's and Kirchhoff's laws; inductance plays no part once the current is steady.
 */
export interface Loop {
  /** Open-circuit volts of the source. */
  readonly source: number;
  /** Source, conductors, contacts and earth path together, ohm. */
  readonly resistance: number;
}

export type CoilOhms =
  | { readonly stages: 'single coil'; readonly resistance: number }
  | { readonly stages: 'pull-in and hold windings'; readonly pullIn: number; readonly hold: number }
  | { readonly stages: 'series resistor'; readonly resistance: number; readonly resistor: number }
  | { readonly stages: 'timed economiser'; readonly resistance: number; readonly holdShare: number };

/** Steady state of one stage. */
export interface StageCurrents {
  /** Drawn from the source, A. */
  readonly supply: number;
  /** In the winding that the force tables are stated for, A: the pull-in winding in pull-in, the hold winding in hold. */
  readonly coil: number;
  /** At the terminals of the solenoid, V. */
  readonly volts: number;
  /** Heat in the windings, W. */
  readonly coilPower: number;
  /** Heat in the series resistor, W. */
  readonly resistorPower: number;
}

/** Both windings in parallel in pull-in: the end switch has not yet opened the heavy one. */
export function pullInCurrents(loop: Loop, coil: CoilOhms): StageCurrents {
  if (coil.stages !== 'pull-in and hold windings') return across(loop, coil.resistance);
  const both = across(loop, (coil.pullIn * coil.hold) / (coil.pullIn + coil.hold));
  return { ...both, coil: both.volts / coil.pullIn };
}

/** After the end switch or the timer has reduced the current. A single coil goes on as it was. */
export function holdCurrents(loop: Loop, coil: CoilOhms): StageCurrents {
  switch (coil.stages) {
    case 'single coil':
      return across(loop, coil.resistance);
    case 'pull-in and hold windings':
      return across(loop, coil.hold);
    case 'series resistor': {
      const whole = across(loop, coil.resistance + coil.resistor);
      const heat = whole.coil * whole.coil;
      return { ...whole, coilPower: heat * coil.resistance, resistorPower: heat * coil.resistor };
    }
    case 'timed economiser': {
      // Chopped: the coil sees a share s of the terminal volts; power in equals power out, so the source gives s × coil amps.
      const { holdShare: s, resistance } = coil;
      const supply = (s * s * loop.source) / (resistance + s * s * loop.resistance);
      const volts = loop.source - supply * loop.resistance;
      const amps = (s * volts) / resistance;
      return { supply, coil: amps, volts, coilPower: amps * amps * resistance, resistorPower: 0 };
    }
  }
}

function across(loop: Loop, resistance: number): StageCurrents {
  const amps = loop.source / (loop.resistance + resistance);
  return { supply: amps, coil: amps, volts: amps * resistance, coilPower: amps * amps * resistance, resistorPower: 0 };
}
