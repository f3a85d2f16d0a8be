import { DormandPrince, type OdeResult, type OdeStep } from '../../numerics/ode.ts';
import { loadCurve, type LoadCurve } from './load-curve.ts';
import { MotionCircuitState } from './motion-circuit.ts';
import { MotionRecord } from './motion-record.ts';
import { standingOf } from './motion-result.ts';
import type { MotionEventKind, MotionOutcome, MotionRequest } from './motion.ts';
import { howExactly, MOST_STEPS, MOVING, PlungerSystem, RESTING, STATE, STATES } from './plunger-system.ts';

/** Slower rebounds than this are no rebound, m/s. */
const REST_SPEED = 2e-3;

/** Events and steps before a course is given up: some hundred landings. */
const MOST_EVENTS = 4000;
/** Points of the trace within one step. */
const MOST_POINTS = 50;

/**
 * One course of a motion, from event to event. Between two events `PlungerSystem` is integrated; at each, this decides what
 * changes. Everything discrete (direction, piece of the load, switches) stands here and in the system, and nowhere else.
 */
export class Course {
  readonly request: MotionRequest;
  readonly curve: LoadCurve;
  readonly circuit: MotionCircuitState;
  readonly system: PlungerSystem;
  readonly record: MotionRecord;
  readonly state = new Float64Array(STATES);
  readonly steps = { accepted: 0, rejected: 0 };
  /** Energy in the field at the beginning, and what impacts have cost, J. */
  readonly fieldBefore: number;
  /** What the steady current amounts to at home, J: the measure for energies too small to matter. */
  readonly energyScale: number;
  landings = 0;
  residual = 0;
  converged = true;
  /** How it stood when it was switched off. */
  outcomeAtOff: MotionOutcome | null = null;
  private readonly solver: DormandPrince;
  private readonly between = new Float64Array(STATES);
  private time = 0;
  private hasEndSwitchWorked: boolean;

  constructor(request: MotionRequest) {
    const { magnet, circuit, load, homeGap, outGap, endSwitch, startAt, startGap, duration } = request;
    const { tolerance = 1e-6, tracePoints = 300 } = request;
    const { stages } = circuit;
    const { state } = this;
    this.request = request;
    this.curve = loadCurve(load);
    const isHeld = startAt === 'held at home';
    const gap = isHeld ? homeGap : startGap;
    this.hasEndSwitchWorked = endSwitch !== null && gap <= endSwitch.worksAtGap;
    const holds =
      stages.kind === 'timed economiser' ? isHeld : stages.kind !== 'single coil' && this.hasEndSwitchWorked;
    this.circuit = new MotionCircuitState(circuit, holds);
    this.system = new PlungerSystem(magnet, this.circuit, this.curve, load.viscous);
    this.system.piece = this.curve.pieceAt(gap);
    state[STATE.gap] = gap;
    state[STATE.flux] = this.system.start(gap, isHeld ? this.circuit.steadyAmpereTurns() : 0);
    this.system.settle(state);
    this.fieldBefore = this.system.fieldEnergy;
    const steady = this.circuit.steadyAmpereTurns();
    const { fluxLinkage } = magnet.at(homeGap, steady);
    this.energyScale = steady * fluxLinkage;
    this.solver = new DormandPrince(
      this.system,
      howExactly(tolerance, fluxLinkage, this.energyScale, outGap - homeGap),
    );
    const main = stages.kind === 'pull-in and hold windings' ? stages.pullIn : stages.winding;
    const spacing = tracePoints > 0 ? duration / tracePoints : Infinity;
    this.record = new MotionRecord(this.system, main.turns, spacing, !isHeld);
  }

  /** From switching on, or from being held, to the end. */
  run(): void {
    const { state, system, record, circuit } = this;
    const { duration } = this.request;
    for (;;) {
      this.switchWhatIsDue();
      this.endCurrentIfSpent();
      if (system.direction === 0) this.startIfMoved();
      else this.aim();
      this.mark();
      if (this.time >= duration) return;
      if (system.direction === 0 && circuit.isDead) {
        this.time = duration;
        return this.mark();
      }
      const result = this.solver.run(this.time, this.nextTimed(), state, (step) => this.watch(step));
      this.time = result.time;
      this.count(result);
      this.mark();
      const isShort = result.reason !== 'end' && result.reason !== 'event';
      if (isShort || record.events.length > MOST_EVENTS || this.steps.accepted > MOST_STEPS) {
        this.converged = false;
        return;
      }
      if (result.reason === 'event') this.happen(result.event);
    }
  }

  /** Timed switches whose time has come, and the end switch by where the plunger is. */
  private switchWhatIsDue(): void {
    const { circuit, state, system } = this;
    const { offAt, endSwitch, circuit: { stages } } = this.request; // prettier-ignore
    if (offAt !== null && circuit.isOn && this.time >= offAt) {
      system.settle(state);
      this.outcomeAtOff = standingOf(this);
      this.note('current off');
      circuit.isOn = false;
      circuit.connect();
      this.solver.forgetStep();
    }
    if (stages.kind === 'timed economiser' && circuit.isOn && !circuit.isHolding && this.time >= stages.delay)
      this.changeStage(true);
    if (endSwitch === null) return;
    const gap = state[STATE.gap];
    const works = !this.hasEndSwitchWorked && gap <= endSwitch.worksAtGap;
    const recloses = this.hasEndSwitchWorked && gap >= endSwitch.reclosesAtGap;
    if (!works && !recloses) return;
    this.hasEndSwitchWorked = works;
    this.note(works ? 'end switch works' : 'end switch recloses');
    if (stages.kind === 'pull-in and hold windings' || stages.kind === 'series resistor') this.changeStage(works);
  }

  /** After a switch has changed, there may be next to no current to carry on. */
  private endCurrentIfSpent(): void {
    const { circuit, system, state } = this;
    system.settle(state);
    if (!(circuit.leftOf(system.field.ampereTurns) > 0)) this.endCurrent();
  }

  private changeStage(holds: boolean): void {
    this.note('stage change');
    this.circuit.isHolding = holds;
    this.circuit.connect();
    this.solver.forgetStep();
  }

  private nextTimed(): number {
    const { duration, offAt, circuit: { stages } } = this.request; // prettier-ignore
    const { isOn, isHolding } = this.circuit;
    let next = duration;
    if (isOn && offAt !== null) next = Math.min(next, offAt);
    if (isOn && !isHolding && stages.kind === 'timed economiser') next = Math.min(next, stages.delay);
    return next;
  }

  /** Which way the force moves it from rest; 0 where it stays. */
  private wayFromRest(): number {
    const { system, state, request } = this;
    const gap = state[STATE.gap];
    system.settle(state);
    system.restAt(gap, gap <= request.homeGap, gap >= request.outGap);
    if (system.force > system.movesHomeAbove) return 1;
    return system.force < system.movesOutBelow ? -1 : 0;
  }

  private startIfMoved(): void {
    const way = this.wayFromRest();
    if (way !== 0) this.start(way);
  }

  private start(direction: number): void {
    const isHome = this.state[STATE.gap] <= this.request.homeGap;
    this.note(isHome ? 'leaves home' : 'starts moving');
    this.head(direction);
  }

  /** Sets the system off in a direction, in the piece of the load that lies that way. */
  private head(direction: number): void {
    const { system, curve, state } = this;
    const gap = state[STATE.gap];
    system.direction = direction;
    if (direction > 0 && system.piece > 0 && gap <= curve.from[system.piece]) system.piece--;
    if (direction < 0 && system.piece + 1 < curve.pieces && gap >= curve.to[system.piece]) system.piece++;
    this.aim();
  }

  /** Which stop and which change of the end switch lie ahead. */
  private aim(): void {
    const { system, request } = this;
    const { endSwitch } = request;
    const goesHome = system.direction > 0;
    system.stopGap = goesHome ? request.homeGap : request.outGap;
    system.switchGap = NaN;
    if (endSwitch === null) return;
    if (goesHome && !this.hasEndSwitchWorked) system.switchGap = endSwitch.worksAtGap;
    if (!goesHome && this.hasEndSwitchWorked) system.switchGap = endSwitch.reclosesAtGap;
  }

  private happen(event: number): void {
    const { system, state } = this;
    if (event === MOVING.currentGone) return this.endCurrent();
    if (system.direction === 0) return this.start(event === RESTING.home ? 1 : -1);
    if (event === MOVING.stands) return this.stand();
    if (event === MOVING.stop) return this.land();
    if (event === MOVING.loadStep) return this.crossStep();
    // The end switch: where the plunger is decides what it does, at the beginning of the next stretch.
    state[STATE.gap] = system.switchGap;
  }

  private endCurrent(): void {
    this.note('current gone');
    this.circuit.isDead = true;
    this.state[STATE.flux] = 0;
  }

  /** Its speed has come to nothing: it goes on, turns back or stays. */
  private stand(): void {
    const { system, state, request } = this;
    const { direction } = system;
    state[STATE.speed] = 0;
    const way = this.wayFromRest();
    if (way === 0) return this.rest(direction > 0 && state[STATE.gap] > request.homeGap ? 'stalls' : 'at rest');
    if (way !== direction) this.note('turns back');
    this.head(way);
  }

  private rest(kind: MotionEventKind): void {
    this.state[STATE.speed] = 0;
    this.system.direction = 0;
    this.note(kind);
  }

  private land(): void {
    const { system, state, request, curve } = this;
    const isHome = system.direction > 0;
    const speed = state[STATE.speed];
    state[STATE.gap] = system.stopGap;
    curve.write(system.piece, system.stopGap, system.load);
    const energy = 0.5 * system.load.mass * speed * speed;
    if (isHome) this.note('comes home');
    const rebound = -request.restitution * speed;
    if (Math.abs(rebound) <= REST_SPEED) {
      this.landings += energy;
      return this.rest('at rest');
    }
    this.landings += energy * (1 - request.restitution ** 2);
    this.note('bounces');
    state[STATE.speed] = rebound;
    this.head(isHome ? -1 : 1);
  }

  /** Over a step of the load: what joins is picked up with its momentum kept, what leaves takes its energy along. */
  private crossStep(): void {
    const { system, state, curve } = this;
    const { direction, load } = system;
    const gap = direction > 0 ? curve.from[system.piece] : curve.to[system.piece];
    state[STATE.gap] = gap;
    curve.write(system.piece, gap, load);
    const before = load.mass;
    system.piece -= direction;
    curve.write(system.piece, gap, load);
    const { mass } = load;
    const speed = state[STATE.speed];
    const kept = Math.min(1, before / mass);
    state[STATE.speed] = speed * kept;
    this.landings += 0.5 * speed * speed * (before - mass * kept * kept);
    // So slow, and thrown back over the step from either side, it leans against the step.
    if (Math.abs(speed) > REST_SPEED || this.wayFromRest() !== 0) return;
    this.landings += 0.5 * mass * state[STATE.speed] ** 2;
    this.rest(direction > 0 ? 'stalls' : 'at rest');
  }

  private note(kind: MotionEventKind): void {
    this.record.note(kind, this.time, this.state);
  }

  private count(result: OdeResult): void {
    this.steps.accepted += result.accepted;
    this.steps.rejected += result.rejected;
    this.residual = Math.max(this.residual, result.residual);
  }

  private mark(): void {
    this.system.settle(this.state);
    this.record.look(this.time, this.state, true);
  }

  /** A step taken: points between for the trace, then its end. */
  private watch(step: OdeStep): void {
    const { record, between, system } = this;
    const length = step.to - step.from;
    const parts = Math.min(MOST_POINTS, Math.ceil(length / record.trace.spacing));
    for (let k = 1; k < parts; k++) {
      step.interpolate(k / parts, between);
      system.settle(between);
      record.look(step.from + (k * length) / parts, between, false);
    }
    system.settle(step.end);
    record.look(step.to, step.end, false);
  }
}
