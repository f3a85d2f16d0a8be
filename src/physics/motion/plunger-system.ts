import type { OdeOptions, OdeSystem } from '../../numerics/ode.ts';
import { EnergyByFlux, energyByFlux, noFluxNumbers } from '../solenoid/energy-by-flux.ts';
import { ampereTurnsFor, noMagnetNumbers, type Magnet } from '../solenoid/magnet-form.ts';
import type { LoadCurve, LoadState } from './load-curve.ts';
import type { MotionCircuitState } from './motion-circuit.ts';

/** Order of the state: flux per turn (Wb), gap (m), speed towards home (m/s), then energies (J) summed up on the way. */
export const STATE = { flux: 0, gap: 1, speed: 2, source: 3, copper: 4, resistor: 5, suppression: 6, load: 7 } as const;
export const STATES = 8;

/** Order of the events. While moving: */
export const MOVING = { stands: 0, stop: 1, endSwitch: 2, loadStep: 3, currentGone: 4 } as const;
/** While at rest: */
export const RESTING = { home: 0, out: 1, currentGone: 4 } as const;
export const EVENTS = 5;
const NEVER = 1;

export const MOST_STEPS = 200_000;

/** Speeds well below this, m/s, need only be known to the tolerance of this. */
const SPEED_SCALE = 0.1;

/** Of the steady flux at home, the share that may change in a step: the bend of the steel is not jumped over. */
const FLUX_SHARE = 0.06;

/** How exactly the state is integrated, by the steady flux at home, the energy that goes with it, and the stroke. */
export function howExactly(tolerance: number, flux: number, energy: number, stroke: number): OdeOptions {
  const absolute = new Float64Array(STATES).fill(tolerance * energy);
  absolute[STATE.flux] = 0.1 * tolerance * flux;
  absolute[STATE.gap] = 0.1 * tolerance * stroke;
  absolute[STATE.speed] = tolerance * SPEED_SCALE;
  const longestChange = new Float64Array(STATES).fill(Infinity);
  longestChange[STATE.flux] = FLUX_SHARE * flux;
  return { relativeTolerance: tolerance, absoluteTolerance: absolute, longestChange, mostSteps: MOST_STEPS };
}

/**
 * Plunger, magnet and circuit as rates of change between two events:
 *
 *     φ' from the circuit,   g' = -v,   m v' = F - P - c v + ½ (dm/dg) v²
 *
 * with P the load of the direction in which the plunger moves. Coulomb friction is in P: moving home it is what resists,
 * friction in; moving out it is what drives, friction off. At rest the gap is held: the plunger moves home when F exceeds
 * the one and out when it falls below the other, so that nothing chatters in between.
 */
export class PlungerSystem implements OdeSystem {
  readonly size = STATES;
  /** The energies. */
  readonly integrals = STATES - STATE.source;
  readonly events = EVENTS;
  /** +1 moving home, -1 moving out, 0 at rest. */
  direction = 0;
  /** Piece of the load curve that the plunger is in. */
  piece = 0;
  /** Gap at which the next stop stands, in the direction of motion. */
  stopGap = 0;
  /** Gap at which the end switch changes next in this direction; NaN if it does not. */
  switchGap = NaN;
  /** At rest: forces beyond which it moves, N. */
  movesHomeAbove = Infinity;
  movesOutBelow = -Infinity;
  /** Ampere-turns, force and energy in the field at the state asked last. */
  readonly field = noFluxNumbers();
  readonly load: LoadState = { home: 0, out: 0, mass: 1, massSlope: 0 };
  readonly circuit: MotionCircuitState;
  private readonly magnet: Magnet;
  private readonly energy: EnergyByFlux;
  private readonly numbers = noMagnetNumbers();
  private readonly curve: LoadCurve;
  private readonly viscous: number;
  private atFlux = NaN;
  private atGap = NaN;

  constructor(magnet: Magnet, circuit: MotionCircuitState, curve: LoadCurve, viscous: number) {
    this.magnet = magnet;
    this.energy = energyByFlux(magnet);
    this.circuit = circuit;
    this.curve = curve;
    this.viscous = viscous;
  }

  /** Towards home, N. Within a step that goes on beyond the end of the current it falls on through zero, so that events show. */
  get force(): number {
    const { circuit, field } = this;
    if (circuit.isDead) return 0;
    return field.ampereTurns < 0 && circuit.endsAtZero ? -field.force : field.force;
  }

  get fieldEnergy(): number {
    return this.circuit.isDead ? 0 : this.field.fieldEnergy;
  }

  /** Begins anew at given ampere-turns, and returns the flux per turn there. */
  start(gap: number, ampereTurns: number): number {
    const { numbers } = this;
    this.magnet.evaluate(gap, ampereTurns, numbers);
    this.atFlux = NaN;
    return numbers.fluxLinkage;
  }

  /** Ampere-turns, force and all that flows at a state. */
  settle(state: Float64Array): void {
    const flux = state[STATE.flux];
    const gap = state[STATE.gap];
    if (this.circuit.isDead) {
      this.field.ampereTurns = 0;
    } else if (flux !== this.atFlux || gap !== this.atGap) {
      if (!this.energy.write(gap, flux, this.field)) this.search(gap, flux);
      this.atFlux = flux;
      this.atGap = gap;
    }
    this.circuit.write(this.field.ampereTurns);
  }

  /** Where the energy has no cells: past zero at the end of a current, past the most that the magnet is known for. */
  private search(gap: number, flux: number): void {
    const { field, numbers, magnet } = this;
    const guess = Number.isFinite(field.ampereTurns) ? field.ampereTurns : 0;
    field.ampereTurns = ampereTurnsFor(magnet, gap, flux, guess, numbers);
    field.force = numbers.force;
    field.fieldEnergy = field.ampereTurns * flux - numbers.coEnergy;
  }

  rates(_time: number, state: Float64Array, rates: Float64Array): void {
    this.settle(state);
    const { flow } = this.circuit;
    rates[STATE.flux] = flow.fluxRate;
    rates[STATE.source] = flow.sourcePower;
    rates[STATE.copper] = flow.copperPower;
    rates[STATE.resistor] = flow.resistorPower;
    rates[STATE.suppression] = flow.suppressionPower;
    if (this.direction === 0) {
      rates[STATE.gap] = 0;
      rates[STATE.speed] = 0;
      rates[STATE.load] = 0;
      return;
    }
    const { load, viscous } = this;
    const speed = state[STATE.speed];
    this.curve.write(this.piece, state[STATE.gap], load);
    const against = (this.direction > 0 ? load.home : load.out) + viscous * speed;
    rates[STATE.gap] = -speed;
    rates[STATE.speed] = (this.force - against + 0.5 * load.massSlope * speed * speed) / load.mass;
    rates[STATE.load] = against * speed;
  }

  eventValues(_time: number, state: Float64Array, values: Float64Array): void {
    const { direction, circuit, curve, piece } = this;
    const gap = state[STATE.gap];
    for (let e = 0; e < EVENTS; e++) values[e] = NEVER;
    const isGoing = !circuit.isOn && !circuit.isDead;
    if (direction === 0 || isGoing) this.settle(state);
    if (isGoing) values[MOVING.currentGone] = circuit.leftOf(this.field.ampereTurns);
    if (direction === 0) {
      values[RESTING.home] = this.movesHomeAbove - this.force;
      values[RESTING.out] = this.force - this.movesOutBelow;
      return;
    }
    values[MOVING.stands] = state[STATE.speed] * direction;
    values[MOVING.stop] = (gap - this.stopGap) * direction;
    if (!Number.isNaN(this.switchGap)) values[MOVING.endSwitch] = (gap - this.switchGap) * direction;
    if (direction > 0 && piece > 0) values[MOVING.loadStep] = gap - curve.from[piece];
    if (direction < 0 && piece + 1 < curve.pieces) values[MOVING.loadStep] = curve.to[piece] - gap;
  }

  /** Forces between which the plunger rests at a gap, in `movesHomeAbove` and `movesOutBelow`; a stop holds against any. */
  restAt(gap: number, isAtHome: boolean, isAtOut: boolean): void {
    const { curve, load } = this;
    const piece = curve.pieceAt(gap);
    curve.write(piece, gap, load);
    const resists = load.home;
    const outer = piece + 1 < curve.pieces && gap === curve.to[piece] ? piece + 1 : piece;
    curve.write(outer, gap, load);
    // A hair's breadth, so that a force just found equal is not asked about again at the same moment.
    const slack = 1e-6 * (Math.abs(resists) + Math.abs(load.out)) + 1e-9;
    this.movesHomeAbove = isAtHome ? Infinity : resists + slack;
    this.movesOutBelow = isAtOut ? -Infinity : load.out - slack;
  }
}
