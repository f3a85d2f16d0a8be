/** The solenoid in a picture of the circuit: windings, end switch, resistor or economiser, and what lies across them. */
import type { CoilOhms, StageCurrents } from '../../physics/circuit.ts';
import { valueOf } from '../readings.ts';
import type { SolenoidJob } from '../rig.ts';
import { orNull } from '../sweep.ts';

/** What flows, and in which stage the coil really is. */
export interface Flow {
  readonly stage: 'off' | 'pull-in' | 'hold';
  /** Drawn from the source; NaN where a reading is missing. */
  readonly supply: number;
  /** Null when off, and where a diode the wrong way round takes all. */
  readonly currents: StageCurrents | null;
  readonly isShort: boolean;
}

/** Base SI: V, A, ohm, W, s. A null stands where a reading is missing. */
export interface CircuitLoad {
  readonly stages: CoilOhms['stages'];
  /** The stage in which the coil is: without an end switch, pull-in for good. */
  readonly stage: Flow['stage'];
  readonly plusVolts: number | null;
  readonly minusVolts: number | null;
  /** Between the terminals. */
  readonly volts: number | null;
  /** The pull-in winding first. */
  readonly windings: readonly CircuitWinding[];
  /** Null where none is fitted. */
  readonly endSwitch: {
    readonly path: string;
    readonly isOpen: boolean;
    /** Whether it lies in the circuit; a timed economiser and a single coil do without. */
    readonly isWired: boolean;
    readonly amps: number | null;
    readonly rating: number | null;
  } | null;
  readonly resistor: {
    readonly path: string;
    readonly resistance: number | null;
    readonly isBridged: boolean;
    readonly volts: number | null;
    readonly amps: number | null;
    readonly power: number | null;
  } | null;
  readonly economiser: {
    readonly path: string;
    /** Mean coil volts over terminal volts in hold. */
    readonly share: number | null;
    readonly delay: number | null;
    readonly isReducing: boolean;
  } | null;
  readonly suppression: CircuitSuppression;
}

export interface CircuitWinding {
  readonly name: 'Pull-in winding' | 'Hold winding' | 'Coil';
  readonly path: string;
  /** At the temperature of the picture. */
  readonly resistance: number | null;
  readonly volts: number | null;
  readonly amps: number | null;
}

export interface CircuitSuppression {
  readonly path: string;
  readonly kind: 'none' | 'not measured' | 'diode' | 'diode and resistor' | 'zener';
  readonly polarity: 'cathode to plus' | 'anode to plus' | 'not measured' | null;
  readonly resistance: number | null;
  /** Of a zener. */
  readonly voltage: number | null;
  /** Current that it draws while the coil is on. */
  readonly amps: number | null;
}

interface Terminals {
  readonly plus: number | null;
  readonly minus: number | null;
}

export function loadOf(job: SolenoidJob, coil: CoilOhms, flow: Flow, { plus, minus }: Terminals): CircuitLoad {
  const { means } = job;
  const isOff = flow.stage === 'off';
  const { currents } = flow;
  // Nothing flows in the coil where it is off, or where a diode takes all.
  const zero = isOff || flow.isShort ? 0 : NaN;
  const amps = currents?.coil ?? zero;
  const bySwitch = coil.stages === 'pull-in and hold windings' || coil.stages === 'series resistor';
  const isOpen = bySwitch && flow.stage === 'hold';
  return {
    stages: coil.stages,
    stage: flow.stage,
    plusVolts: plus,
    minusVolts: minus,
    volts: orNull(currents?.volts ?? zero),
    windings: windingsOf(coil, flow, zero),
    endSwitch:
      means.endSwitch === 'none'
        ? null
        : {
            path: 'means.endSwitch.worksAtGap',
            isOpen,
            isWired: bySwitch,
            amps: bySwitch ? orNull(isOpen ? 0 : amps) : 0,
            rating: orNull(valueOf(means.endSwitch.rating, 'current')),
          },
    resistor:
      coil.stages === 'series resistor'
        ? {
            path: 'means.coil.resistor',
            resistance: orNull(coil.resistor),
            isBridged: !isOpen,
            volts: orNull(
              isOpen && currents !== null
                ? currents.resistorPower / currents.coil
                : zero === 0 || currents !== null
                  ? 0
                  : NaN,
            ),
            amps: orNull(isOpen ? amps : currents === null ? zero : 0),
            power: orNull(currents?.resistorPower ?? zero),
          }
        : null,
    economiser:
      means.coil.stages === 'timed economiser'
        ? {
            path: 'means.coil.holdShare',
            share: orNull(valueOf(means.coil.holdShare, 'ratio')),
            delay: orNull(valueOf(means.coil.delay, 'time')),
            isReducing: flow.stage === 'hold',
          }
        : null,
    suppression: suppressionOf(job, flow),
  };
}

function windingsOf(coil: CoilOhms, { stage, currents }: Flow, zero: number): CircuitWinding[] {
  if (coil.stages === 'pull-in and hold windings') {
    const inHold = stage === 'hold';
    const volts = currents?.volts ?? zero;
    return [
      {
        name: 'Pull-in winding',
        path: 'means.coil.pullInResistance',
        resistance: orNull(coil.pullIn),
        volts: orNull(inHold ? 0 : volts),
        amps: orNull(inHold ? 0 : (currents?.coil ?? zero)),
      },
      {
        name: 'Hold winding',
        path: 'means.coil.holdResistance',
        resistance: orNull(coil.hold),
        volts: orNull(volts),
        // What the source gives and the pull-in winding does not take.
        amps: orNull(currents === null ? zero : inHold ? currents.coil : currents.supply - currents.coil),
      },
    ];
  }
  const volts = currents === null ? zero : currents.coilPower / currents.coil;
  return [
    {
      name: 'Coil',
      path: 'means.coil.resistance',
      resistance: orNull(coil.resistance),
      volts: orNull(volts),
      amps: orNull(currents?.coil ?? zero),
    },
  ];
}

function suppressionOf({ supply }: SolenoidJob, { isShort, supply: amps }: Flow): CircuitSuppression {
  const { suppression } = supply;
  const path = 'supply.suppression';
  if (typeof suppression === 'string')
    return { path, kind: suppression, polarity: null, resistance: null, voltage: null, amps: 0 };
  return {
    path,
    kind: suppression.kind,
    polarity: suppression.kind === 'zener' ? null : suppression.polarity,
    resistance:
      suppression.kind === 'diode and resistor' ? orNull(valueOf(suppression.resistance, 'resistance')) : null,
    voltage: suppression.kind === 'zener' ? orNull(valueOf(suppression.voltage, 'voltage')) : null,
    amps: isShort ? orNull(amps) : 0,
  };
}
