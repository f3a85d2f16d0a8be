/**
 * Steady currents of a stop circuit: one source, one loop of resistances, one coil in pull-in or in hold.
 *
 * Ohm's and Kirchhoff's laws; inductance plays no part once the current is steady.
 *
 * [1] ISO 10133:2012: 3 % of the nominal volts for what is vital to safety, 10 % for the rest (a public excerpt names the
 *     circuits; that a stop circuit belongs to the first is our reading)
 */
import { findRoot } from '../numerics/roots.ts';
import { copperResistance } from './coil.ts';
import {
  conductorResistance,
  smallestSection,
  type SectionChoice,
  type StandardSection,
  type Stranding,
} from './conductor.ts';
import { DomainError, requireAboveZero } from './domain-error.ts';

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

export type Stage = 'pull-in' | 'hold';

const currentsIn: Readonly<Record<Stage, (loop: Loop, coil: CoilOhms) => StageCurrents>> = {
  'pull-in': pullInCurrents,
  hold: holdCurrents,
};

/** One resistance of the loop, by age: contacts corrode, and a conductor at work is warmer than on the bench. */
export interface LoopPart {
  readonly name: string;
  /** `source` is the internal resistance: it is no part of the drop that rules speak of. */
  readonly kind: 'source' | 'conductor' | 'contact';
  /** Before the solenoid, or after it. */
  readonly side: 'out' | 'back';
  /** Ohm. */
  readonly fresh: number;
  readonly aged: number;
}

export type Age = 'fresh' | 'aged';

/** The loop that parts make together. */
export function loopOf(source: number, parts: readonly LoopPart[], age: Age): Loop {
  return { source, resistance: sum(parts.map((part) => part[age])) };
}

/** A place on the loop where a voltmeter can be held, its other lead on the return of the source. */
export interface CircuitNode {
  readonly place: 'source' | 'after a part' | 'terminal in' | 'terminal out';
  /** The part just passed, going round from the source; null at the source and at the terminals. */
  readonly part: string | null;
  readonly volts: number;
  /** Volts lost in the part just passed; at `terminal out` those across the solenoid. */
  readonly drop: number;
}

/**
 * Volts round the loop at a current drawn from the source: source, after each part on the way out, both terminals of the
 * solenoid (its series resistor counted with it), after each part on the way back, which ends at zero.
 *
 * @throws DomainError SW-D067 a current below zero, or more than the source drives through the parts alone
 */
export function nodesOf(
  loop: { readonly source: number; readonly parts: readonly LoopPart[]; readonly age: Age },
  current: number,
): readonly CircuitNode[] {
  const { source, parts, age } = loop;
  const ohms = (side: LoopPart['side']) => parts.filter((part) => part.side === side);
  const nodes: CircuitNode[] = [{ place: 'source', part: null, volts: source, drop: 0 }];
  let volts = source;
  for (const part of ohms('out')) {
    volts -= current * part[age];
    nodes.push({ place: 'after a part', part: part.name, volts, drop: current * part[age] });
  }
  // From the other end, so that the return comes out as zero and not as what rounding leaves.
  const back = ohms('back');
  let rest = sum(back.map((part) => part[age]));
  const across = volts - current * rest;
  if (!(current >= 0 && across >= -1e-9 * source))
    throw new DomainError('SW-D067', `${current} A is not what ${source} V drives round this loop`);
  nodes.push({ place: 'terminal in', part: null, volts, drop: 0 });
  nodes.push({ place: 'terminal out', part: null, volts: current * rest, drop: Math.max(0, across) });
  for (const [i, part] of back.entries()) {
    rest = sum(back.slice(i + 1).map((other) => other[age]));
    nodes.push({ place: 'after a part', part: part.name, volts: current * rest, drop: current * part[age] });
  }
  return nodes;
}

/** Shares of the nominal volts that may be lost between source and solenoid and back [1], closest first. */
export const dropClasses = [0.03, 0.1] as const;

export interface Drop {
  /** Volts lost in the loop, the source's internal resistance left out. */
  readonly volts: number;
  /** Of the nominal volts. */
  readonly share: number;
  /** The closest class that holds, or null. */
  readonly within: (typeof dropClasses)[number] | null;
}

/**
 * Drop in the loop at a current. State beside it: current, coil temperature, and that the base is the nominal voltage.
 *
 * @throws DomainError SW-D067 the nominal voltage is not finite and above zero
 */
export function dropIn(parts: readonly LoopPart[], age: Age, current: number, nominal: number): Drop {
  requireAboveZero('SW-D067', 'nominal voltage', nominal);
  const volts = current * sum(parts.filter((part) => part.kind !== 'source').map((part) => part[age]));
  const share = volts / nominal;
  return { volts, share, within: dropClasses.find((limit) => share <= limit * (1 + 1e-12)) ?? null };
}

/** The windings at another temperature, K. A series resistor is no copper and stays as it is. */
export function coilAt(coil: CoilOhms, from: number, to: number): CoilOhms {
  const warm = (ohms: number) => copperResistance(ohms, from, to);
  return coil.stages === 'pull-in and hold windings'
    ? { ...coil, pullIn: warm(coil.pullIn), hold: warm(coil.hold) }
    : { ...coil, resistance: warm(coil.resistance) };
}

export interface WarmCircuit {
  readonly loop: Loop;
  /** As read at `readAt`, K. */
  readonly coil: CoilOhms;
  readonly readAt: number;
  readonly stage: Stage;
  readonly ambient: number;
  /** Mean of the winding above ambient for each watt in it, K/W. */
  readonly thermalResistance: number;
}

export interface SettledCircuit {
  readonly converged: boolean;
  /** Mean temperature of the winding, K. */
  readonly temperature: number;
  /** Heat made less heat lost at that temperature, as kelvin: what the search left over. */
  readonly residual: number;
  readonly coil: CoilOhms;
  readonly currents: StageCurrents;
}

/**
 * Coil temperature and terminal volts that belong together after a long time on:
 *
 *     T = Ta + Rth P,  P = U² R(T)/(Rloop + R(T))²
 *
 * A quadratic in T where the loop has no resistance, a cubic where it has. One solution only: below R = Rloop the heat is
 * a concave function of R, above it falls, and the heat lost is a rising line. The thermal resistance is taken as constant
 * and the conductors keep their temperature; both windings of a pair share one temperature.
 *
 * @throws DomainError SW-D068 the thermal resistance is not finite and above zero, or a temperature is no number
 */
export function settledCircuit(circuit: WarmCircuit): SettledCircuit {
  const { loop, coil, readAt, stage, ambient, thermalResistance } = circuit;
  requireAboveZero('SW-D068', 'thermal resistance', thermalResistance);
  if (!Number.isFinite(ambient + readAt))
    throw new DomainError('SW-D068', `ambient ${ambient} K, coil read at ${readAt} K`);
  const at = (temperature: number) => currentsIn[stage](loop, coilAt(coil, readAt, temperature));
  const surplus = (temperature: number) => ambient + thermalResistance * at(temperature).coilPower - temperature;
  // Never hotter than with the whole voltage on windings that stayed at ambient.
  const cold = currentsIn[stage]({ ...loop, resistance: 0 }, coilAt(coil, readAt, ambient));
  const hottest = ambient + thermalResistance * loop.source * cold.supply;
  const { converged, at: temperature, residual } = findRoot(surplus, ambient, hottest, 1e-9);
  return { converged, temperature, residual, coil: coilAt(coil, readAt, temperature), currents: at(temperature) };
}

/**
 * Current of a dead short, A: all of the source over the resistance up to the fault.
 *
 * @throws DomainError SW-D067 volts or resistance not finite and above zero
 */
export function shortCircuitCurrent({ source, resistance }: Loop): number {
  requireAboveZero('SW-D067', 'source', source);
  requireAboveZero('SW-D067', 'resistance', resistance);
  return source / resistance;
}

/** A run to be sized, everything else being given. */
export interface RunToSize {
  readonly source: number;
  readonly sourceResistance: number;
  /** Contacts, fuse, earth path: all of the loop but source and run, ohm. */
  readonly otherResistance: number;
  /** Conductor out and back, m. */
  readonly length: number;
  readonly temperature: number;
  readonly stranding: Stranding;
  /** At the temperature in question: hot for what must be enough. */
  readonly coil: CoilOhms;
  readonly stage: Stage;
}

/**
 * Smallest standard section that leaves at least `terminalVolts` at the solenoid, or loses at most `drop` volts between
 * source and solenoid and back; null, with the best that can be had, where none does. The margin is in volts.
 */
export function smallestSectionFor(
  run: RunToSize,
  system: StandardSection['system'],
  wanted: { readonly terminalVolts: number } | { readonly drop: number },
): SectionChoice {
  return smallestSection(system, ({ section_m2 }) => {
    const outside = run.otherResistance + conductorResistance(section_m2, run.length, run.temperature, run.stranding);
    const loop = { source: run.source, resistance: run.sourceResistance + outside };
    const { volts, supply } = currentsIn[run.stage](loop, run.coil);
    return 'drop' in wanted ? wanted.drop - supply * outside : volts - wanted.terminalVolts;
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
