/** A cylinder's stroke: what is asked, and the piston with its two chambers as rates of change between two events. */
import type { OdeSystem } from '../../numerics/ode.ts';
import { loadCurve, type LoadCurve, type LoadState, type MotionLoad } from '../motion/load-curve.ts';
import { areasOf, pistonFriction, volumesAt, type Areas, type Cylinder, type Way } from './cylinder.ts';
import { massFlow, type AirState, type FlowCurve } from './flow.ts';
import { ATMOSPHERE, GAS_CONSTANT, HEAT_CAPACITY_RATIO, massIn } from './gas.ts';

export type Process = 'isothermal' | 'adiabatic';

export interface StrokeAsk {
  readonly cylinder: Cylinder;
  /** What the piston feels beside air and seals: springs inside included. */
  readonly load: MotionLoad;
  readonly way: Way;
  readonly towards: 'home' | 'out';
  /** Air as it stands before the valve, and around. Gauge pressure, Pa. */
  readonly supply: number;
  /** K */
  readonly temperature: number;
  /** From the supply into a chamber, and from a chamber to the open, the pipe in both. */
  readonly inlet: FlowCurve;
  readonly exhaust: FlowCurve;
  /** Volume of the pipes that counts with the chamber that drives home and with the other, m³; none where left out. */
  readonly pipes?: Areas;
  /** Whether air is let into the other chamber for the way out. */
  readonly returnsByAir: boolean;
  readonly process: Process;
  /** How long it is followed, s. */
  readonly duration: number;
  /** Whether it is followed no further than its arrival. */
  readonly untilArrival?: boolean;
  /** Gaps whose passing is asked for, m. */
  readonly marks?: readonly number[];
  /** Relative error of a step; 1e-6 where left out. */
  readonly tolerance?: number;
  /** How many points of a trace are kept; none where left out. */
  readonly tracePoints?: number;
}

/** Order of the state: gap, speed towards home, then pressure (absolute) and mass of either chamber, and what was taken. */
export const STATE = { gap: 0, speed: 1, home: 2, homeMass: 3, out: 4, outMass: 5, taken: 6 } as const;
export const STATES = 7;
/** Order of the events, while moving and while at rest. */
export const MOVING = { stands: 0, stop: 1, step: 2 } as const;
export const RESTING = { home: 0, out: 1 } as const;
const NEVER = 1;

/** Piston and both chambers as rates of change between two events. */
export class PistonSystem implements OdeSystem {
  readonly size = STATES;
  readonly integrals = 1;
  readonly events = 3;
  /** +1 moving home, -1 moving out, 0 at rest. */
  direction = 0;
  piece = 0;
  private readonly ask: StrokeAsk;
  private readonly areas: Areas;
  private readonly curve: LoadCurve;
  private readonly load: LoadState = { home: 0, out: 0, mass: 1, massSlope: 0 };
  private movesHomeAbove = Infinity;
  private movesOutBelow = -Infinity;
  private readonly around: AirState;
  private readonly source: AirState;
  private readonly viscous: number;

  constructor(ask: StrokeAsk) {
    this.ask = ask;
    this.areas = areasOf(ask.cylinder);
    this.curve = loadCurve(ask.load);
    this.viscous = ask.load.viscous;
    this.around = { pressure: ATMOSPHERE, temperature: ask.temperature };
    this.source = { pressure: ATMOSPHERE + ask.supply, temperature: ask.temperature };
  }

  /** At rest at the end from which it starts, the other way's air still in. */
  begin(): Float64Array {
    const { way, towards, returnsByAir, temperature } = this.ask;
    const gap = towards === 'home' ? way.outGap : way.homeGap;
    const full = this.source.pressure;
    const home = towards === 'out' ? full : ATMOSPHERE;
    const out = towards === 'home' && returnsByAir ? full : ATMOSPHERE;
    const volumes = this.volumes(gap);
    const state = new Float64Array(STATES);
    state[STATE.gap] = gap;
    state[STATE.home] = home;
    state[STATE.homeMass] = massIn(volumes.home, home, temperature);
    state[STATE.out] = out;
    state[STATE.outMass] = massIn(volumes.out, out, temperature);
    return state;
  }

  private volumes(gap: number): Areas {
    const { home, out } = volumesAt(this.ask.cylinder, this.areas, gap);
    const { pipes } = this.ask;
    return pipes === undefined ? { home, out } : { home: home + pipes.home, out: out + pipes.out };
  }

  /** Before a phase: the piece of the load that is entered, or the forces between which the piston rests. */
  settleAt(state: Float64Array): void {
    const { curve, load, ask } = this;
    const gap = state[STATE.gap];
    if (this.direction !== 0) {
      // A motion that begins on a step is in the piece that lies ahead.
      if (state[STATE.speed] === 0) this.piece = this.ahead(gap, this.direction);
      return;
    }
    curve.write(this.ahead(gap, 1), gap, load);
    const resists = load.home;
    curve.write(this.ahead(gap, -1), gap, load);
    const slack = 1e-6 * (Math.abs(resists) + Math.abs(load.out)) + 1e-9;
    this.movesHomeAbove = gap <= ask.way.homeGap ? Infinity : resists + slack;
    this.movesOutBelow = gap >= ask.way.outGap ? -Infinity : load.out - slack;
  }

  private ahead(gap: number, direction: number): number {
    const { curve } = this;
    const piece = curve.pieceAt(gap);
    return direction < 0 && piece + 1 < curve.pieces && gap === curve.to[piece] ? piece + 1 : piece;
  }

  /** Of the air, towards home, N. */
  private push(state: Float64Array): number {
    const { areas } = this;
    return (state[STATE.home] - ATMOSPHERE) * areas.home - (state[STATE.out] - ATMOSPHERE) * areas.out;
  }

  private rub(state: Float64Array): number {
    return pistonFriction(this.ask.cylinder, this.areas, state[STATE.home] - ATMOSPHERE, state[STATE.out] - ATMOSPHERE);
  }

  rates(_time: number, state: Float64Array, rates: Float64Array): void {
    const { ask, areas, direction, load } = this;
    const gap = state[STATE.gap];
    const speed = direction === 0 ? 0 : state[STATE.speed];
    rates.fill(0);
    if (direction !== 0) {
      this.curve.write(this.piece, gap, load);
      const against = (direction > 0 ? load.home + this.rub(state) : load.out - this.rub(state)) + this.viscous * speed;
      rates[STATE.gap] = -speed;
      rates[STATE.speed] = (this.push(state) - against + 0.5 * load.massSlope * speed * speed) / load.mass;
    }
    const volumes = this.volumes(gap);
    const isHome = ask.towards === 'home';
    const taken = this.fill(state, rates, STATE.home, volumes.home, areas.home * speed, isHome);
    rates[STATE.taken] = isHome ? taken : 0;
    if (!ask.returnsByAir) return;
    const back = this.fill(state, rates, STATE.out, volumes.out, -areas.out * speed, !isHome);
    if (!isHome) rates[STATE.taken] = back;
  }

  /** One chamber: rates of its pressure and mass. Returns what flows into it, kg/s. */
  private fill(
    state: Float64Array,
    rates: Float64Array,
    at: number,
    volume: number,
    growth: number,
    isFed: boolean,
  ): number {
    const { ask } = this;
    const p = state[at];
    const isIsothermal = ask.process === 'isothermal';
    const T = isIsothermal ? ask.temperature : (p * volume) / (state[at + 1] * GAS_CONSTANT);
    const other = isFed ? this.source : this.around;
    const flow = massFlow(isFed ? ask.inlet : ask.exhaust, other, { pressure: p, temperature: T });
    rates[at + 1] = flow;
    rates[at] = isIsothermal
      ? (GAS_CONSTANT * T * flow - p * growth) / volume
      : (HEAT_CAPACITY_RATIO * (GAS_CONSTANT * (flow > 0 ? other.temperature : T) * flow - p * growth)) / volume;
    return flow;
  }

  eventValues(_time: number, state: Float64Array, values: Float64Array): void {
    const { direction, ask, curve, piece } = this;
    values.fill(NEVER);
    if (direction === 0) {
      values[RESTING.home] = this.movesHomeAbove + this.rub(state) - this.push(state);
      values[RESTING.out] = this.push(state) - this.movesOutBelow + this.rub(state);
      return;
    }
    const gap = state[STATE.gap];
    values[MOVING.stands] = state[STATE.speed] * direction;
    values[MOVING.stop] = direction > 0 ? gap - ask.way.homeGap : ask.way.outGap - gap;
    if (direction > 0 && piece > 0) values[MOVING.step] = gap - curve.from[piece];
    if (direction < 0 && piece + 1 < curve.pieces) values[MOVING.step] = curve.to[piece] - gap;
  }
}
