import { DomainError } from '../domain-error.ts';

export interface MotionWinding {
  readonly turns: number;
  /** At its temperature, ohm. */
  readonly resistance: number;
}

export type MotionStages =
  | { readonly kind: 'single coil'; readonly winding: MotionWinding }
  /** The end switch opens the pull-in winding. */
  | { readonly kind: 'pull-in and hold windings'; readonly pullIn: MotionWinding; readonly hold: MotionWinding }
  /** The end switch puts the resistor in, between the terminals and the winding. */
  | { readonly kind: 'series resistor'; readonly winding: MotionWinding; readonly resistor: number }
  /** Full volts for `delay` seconds, then chopped to a share of them. */
  | {
      readonly kind: 'timed economiser';
      readonly winding: MotionWinding;
      readonly holdShare: number;
      readonly delay: number;
    };

/** What carries the current on when the switch opens; across the terminals, except the arc, which is in the switch. */
export type Suppression =
  | { readonly kind: 'none'; readonly arcVolts: number }
  | { readonly kind: 'diode'; readonly drop: number }
  | { readonly kind: 'diode and resistor'; readonly drop: number; readonly resistance: number }
  | { readonly kind: 'zener'; readonly volts: number };

export interface MotionCircuit {
  /** Open-circuit volts. */
  readonly source: number;
  /** Source, conductors, contacts and earth path together, ohm. */
  readonly loopResistance: number;
  readonly stages: MotionStages;
  readonly suppression: Suppression;
}

/** Numbers of a circuit at one moment, written anew for each state of the magnet. */
export interface CircuitFlow {
  /** Rate of change of the flux per turn, V per turn. */
  fluxRate: number;
  /** Through the terminals, A. */
  terminalCurrent: number;
  /** Drawn from the source, A. */
  supplyCurrent: number;
  /** In the winding that pulls in (or the only one) and in the hold winding, A. */
  mainCurrent: number;
  holdCurrent: number;
  /** At the terminals of the solenoid, V. */
  terminalVolts: number;
  /** Across the end switch's open contact, V; 0 while it is closed. */
  endSwitchVolts: number;
  /** W: from the source; in copper; in loop and resistor; in what suppresses. */
  sourcePower: number;
  copperPower: number;
  resistorPower: number;
  suppressionPower: number;
}

/**
 * The circuit in one state of its switches. All windings share the flux φ per turn, so there is one magnetic state:
 *
 *     N_k φ' = v - R_k i_k,      Σ N_k i_k = Θ(φ, g)
 *
 * With A = Σ N/R, B = Σ N²/R, C = Σ 1/R over the windings that are connected, Θ = v A - B φ' and the terminal current is
 * v C - A φ'. Whatever feeds the terminals is an electromotive force E' behind a resistance R': the source behind the
 * loop; the same less an arc; or, switched off, the drop of the suppression, reversed, behind its resistor. Then
 *
 *     v (1 + R' (C - A²/B)) = E' - R' A Θ/B
 *
 * A diode, a zener or an arc carries current one way only: where the terminal current would reverse it is none, and two
 * windings go on driving a current round between themselves, φ' (B - A²/C) = -Θ. One winding alone is then dead.
 *
 * A chopping economiser of share s is reckoned by means over its cycle: E' = s E, R' = s² R, and the source gives s i.
 */
export class MotionCircuitState {
  isOn: boolean;
  /** Has the end switch worked, or the economiser's time run out? */
  isHolding: boolean;
  /** No current can flow any more. */
  isDead = false;
  readonly flow: CircuitFlow = {
    fluxRate: 0, terminalCurrent: 0, supplyCurrent: 0, mainCurrent: 0, holdCurrent: 0, terminalVolts: 0, endSwitchVolts: 0,
    sourcePower: 0, copperPower: 0, resistorPower: 0, suppressionPower: 0,
  }; // prettier-ignore
  private readonly circuit: MotionCircuit;
  // Of the state set last: share of the source's volts, E', R', the windings and their sums.
  private share = 1;
  private emf = 0;
  private behind = 0;
  private mainTurns = 0;
  private mainConductance = 0;
  private holdTurns = 0;
  private holdConductance = 0;
  private copperMain = 0;
  private copperHold = 0;
  private series = 0;
  private A = 0;
  private B = 0;
  private C = 0;
  /** R' A/B, and 1/(1 + R' (C - A²/B)). */
  private sag = 0;
  private divided = 1;
  private readonly greatest: number;

  constructor(circuit: MotionCircuit, isHolding: boolean) {
    checkCircuit(circuit);
    this.circuit = circuit;
    this.isOn = true;
    this.isHolding = false;
    this.connect();
    this.greatest = this.steadyAmpereTurns();
    this.isHolding = isHolding;
    this.connect();
  }

  /** Works out the sums after a switch has changed. */
  connect(): void {
    const { stages, suppression, source, loopResistance } = this.circuit;
    this.share = stages.kind === 'timed economiser' && this.isHolding && this.isOn ? stages.holdShare : 1;
    const both = stages.kind === 'pull-in and hold windings';
    const main = both ? stages.pullIn : stages.winding;
    this.series = stages.kind === 'series resistor' && this.isHolding ? stages.resistor : 0;
    this.mainTurns = main.turns;
    this.copperMain = main.resistance;
    this.mainConductance = both && this.isHolding ? 0 : 1 / (main.resistance + this.series);
    this.holdTurns = both ? stages.hold.turns : 0;
    this.copperHold = both ? stages.hold.resistance : 0;
    this.holdConductance = both ? 1 / stages.hold.resistance : 0;
    if (this.isOn) {
      this.emf = this.share * source;
      this.behind = this.share * this.share * loopResistance;
    } else {
      switch (suppression.kind) {
        case 'none':
          [this.emf, this.behind] = [source - suppression.arcVolts, loopResistance];
          break;
        case 'diode':
          [this.emf, this.behind] = [-suppression.drop, 0];
          break;
        case 'diode and resistor':
          [this.emf, this.behind] = [-suppression.drop, suppression.resistance];
          break;
        case 'zener':
          [this.emf, this.behind] = [-suppression.volts, 0];
          break;
      }
    }
    const { mainTurns: N1, mainConductance: G1, holdTurns: N2, holdConductance: G2 } = this;
    this.A = N1 * G1 + N2 * G2;
    this.B = N1 * N1 * G1 + N2 * N2 * G2;
    this.C = G1 + G2;
    this.sag = (this.behind * this.A) / this.B;
    this.divided = 1 / (1 + this.behind * (this.C - (this.A * this.A) / this.B));
  }

  /** Can the current round the terminals come to an end? Then it ends for good when the terminal current reaches zero. */
  get endsAtZero(): boolean {
    return !this.isOn && !this.isDead && !(this.mainConductance > 0 && this.holdConductance > 0);
  }

  /**
   * Falls through zero when the current is over: where it ends at once, the terminal current; where two windings let it die
   * away between them, what the ampere-turns are above a ten-thousandth of the greatest steady ones, whose force is 1e-8.
   */
  leftOf(ampereTurns: number): number {
    if (this.isOn || this.isDead) return 1;
    return this.endsAtZero ? this.flow.terminalCurrent : ampereTurns - 1e-4 * this.greatest;
  }

  /** Ampere-turns once the current is steady, in the present state of the switches. */
  steadyAmpereTurns(): number {
    return (this.emf / (1 + this.behind * this.C)) * this.A;
  }

  /** Everything that flows at the ampere-turns of this moment, into `flow`. */
  write(ampereTurns: number): void {
    const { flow, A, B, C, share, isOn } = this;
    let v = 0;
    let fluxRate = 0;
    let current = 0;
    let conducts = false;
    if (!this.isDead) {
      v = (this.emf - this.sag * ampereTurns) * this.divided;
      fluxRate = (v * A - ampereTurns) / B;
      current = v * C - A * fluxRate;
      // Where the current ends at zero, rates go on smoothly beyond: the end is an event, not a kink within a step.
      conducts = isOn || current > 0 || this.endsAtZero;
      if (!conducts) {
        fluxRate = -ampereTurns / (B - (A * A) / C);
        v = (A * fluxRate) / C;
        current = 0;
      }
    }
    const main = this.isDead ? 0 : (v - this.mainTurns * fluxRate) * this.mainConductance;
    const hold = this.isDead ? 0 : (v - this.holdTurns * fluxRate) * this.holdConductance;
    const { suppression, source, loopResistance, stages } = this.circuit;
    const arcs = !isOn && suppression.kind === 'none' && conducts;
    const supply = isOn ? share * current : arcs ? current : 0;
    flow.fluxRate = fluxRate;
    flow.terminalCurrent = current;
    flow.supplyCurrent = supply;
    flow.mainCurrent = main;
    flow.holdCurrent = hold;
    flow.terminalVolts = v / share;
    flow.endSwitchVolts = !this.isHolding
      ? 0
      : stages.kind === 'pull-in and hold windings'
        ? Math.abs(v - this.mainTurns * fluxRate)
        : Math.abs(main * this.series);
    flow.sourcePower = source * supply;
    flow.copperPower = main * main * this.copperMain + hold * hold * this.copperHold;
    flow.resistorPower = supply * supply * loopResistance + main * main * this.series;
    flow.suppressionPower =
      !conducts || isOn ? 0 : arcs ? (source - supply * loopResistance - v) * current : -v * current;
  }

  /** Across the contact of the switch that opened, V; 0 while it is closed. */
  contactVolts(): number {
    if (this.isOn) return 0;
    const { source, loopResistance } = this.circuit;
    return Math.abs(source - this.flow.supplyCurrent * loopResistance - this.flow.terminalVolts);
  }
}

/** Greatest ampere-turns that a circuit can drive once its current is steady: what a magnet must be known for. */
export function mostAmpereTurnsOf(circuit: MotionCircuit): number {
  return Math.max(...[false, true].map((holds) => new MotionCircuitState(circuit, holds).steadyAmpereTurns()));
}

function checkCircuit({ source, loopResistance, stages, suppression }: MotionCircuit): void {
  const above = (name: string, value: number): void => {
    if (!(value > 0 && value < Infinity))
      throw new DomainError('SW-M072', `${name} must be finite and above zero, not ${value}`);
  };
  const notBelow = (name: string, value: number): void => {
    if (!(value >= 0 && value < Infinity))
      throw new DomainError('SW-M072', `${name} must be finite and not below zero, not ${value}`);
  };
  above('source volts', source);
  notBelow('loop resistance', loopResistance);
  const windings = stages.kind === 'pull-in and hold windings' ? [stages.pullIn, stages.hold] : [stages.winding];
  for (const { turns, resistance } of windings) {
    above('turns', turns);
    above('winding resistance', resistance);
  }
  if (stages.kind === 'series resistor') notBelow('series resistor', stages.resistor);
  if (stages.kind === 'timed economiser') {
    notBelow('delay of the economiser', stages.delay);
    if (!(stages.holdShare > 0 && stages.holdShare <= 1))
      throw new DomainError(
        'SW-M072',
        `an economiser holds with a share of 0 to 1 of the volts, not ${stages.holdShare}`,
      );
  }
  switch (suppression.kind) {
    case 'none':
      if (!(suppression.arcVolts > source && suppression.arcVolts < Infinity))
        throw new DomainError(
          'SW-M072',
          `an arc of ${suppression.arcVolts} V never goes out on a source of ${source} V`,
        );
      break;
    case 'zener':
      above('zener volts', suppression.volts);
      break;
    case 'diode and resistor':
      notBelow('resistor beside the diode', suppression.resistance);
      notBelow('drop of the diode', suppression.drop);
      break;
    case 'diode':
      notBelow('drop of the diode', suppression.drop);
      break;
  }
}
