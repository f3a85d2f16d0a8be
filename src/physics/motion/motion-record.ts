import type { MotionCircuitState } from './motion-circuit.ts';
import { SAMPLE, SAMPLE_NUMBERS, TraceRecorder } from './motion-trace.ts';
import type { MotionEvent, MotionEventKind } from './motion.ts';
import { STATE, type PlungerSystem } from './plunger-system.ts';

interface Moment {
  readonly time: number;
  readonly current: number;
}

const START: Moment = { time: 0, current: 0 };

/** What is kept of a course as it goes: events, extremes, the dip, and the trace. */
export class MotionRecord {
  readonly events: MotionEvent[] = [];
  readonly trace: TraceRecorder;
  /** Drawn from the source while switched on, A. */
  peakCurrent = 0;
  peakAmpereTurns = 0;
  readonly peakVolts = { terminals: 0, contact: 0, endSwitch: 0 };
  /** Is the plunger still on its first way home, with nothing switched? */
  isDipOpen: boolean;
  dipPeak = START;
  dipLeast = START;
  private readonly system: PlungerSystem;
  private readonly circuit: MotionCircuitState;
  private readonly mainTurns: number;
  private readonly sample = new Float64Array(SAMPLE_NUMBERS);

  constructor(system: PlungerSystem, mainTurns: number, spacing: number, isDipOpen: boolean) {
    this.system = system;
    this.circuit = system.circuit;
    this.mainTurns = mainTurns;
    this.trace = new TraceRecorder(spacing);
    this.isDipOpen = isDipOpen;
  }

  note(kind: MotionEventKind, time: number, state: Float64Array): void {
    const current = this.circuit.flow.supplyCurrent;
    this.events.push({ kind, time, gap: state[STATE.gap], current, speed: state[STATE.speed] });
    if (kind === 'comes home' || kind === 'stage change' || kind === 'current off') this.isDipOpen = false;
  }

  /** Looks at a state that the system has just settled at. Marked ones always come into the trace. */
  look(time: number, state: Float64Array, isMarked: boolean): void {
    const { system, circuit, sample, peakVolts } = this;
    const { flow } = circuit;
    const current = flow.supplyCurrent;
    if (circuit.isOn) this.peakCurrent = Math.max(this.peakCurrent, current);
    this.peakAmpereTurns = Math.max(this.peakAmpereTurns, Math.abs(system.field.ampereTurns));
    peakVolts.terminals = Math.max(peakVolts.terminals, Math.abs(flow.terminalVolts));
    peakVolts.contact = Math.max(peakVolts.contact, circuit.contactVolts());
    peakVolts.endSwitch = Math.max(peakVolts.endSwitch, flow.endSwitchVolts);
    if (this.isDipOpen) {
      if (current >= this.dipPeak.current) this.dipLeast = this.dipPeak = { time, current };
      else if (current < this.dipLeast.current) this.dipLeast = { time, current };
    }
    if (!isMarked && !this.trace.isDue(time)) return;
    sample[SAMPLE.time] = time;
    sample[SAMPLE.supply] = current;
    sample[SAMPLE.main] = flow.mainCurrent;
    sample[SAMPLE.hold] = flow.holdCurrent;
    sample[SAMPLE.gap] = state[STATE.gap];
    sample[SAMPLE.speed] = state[STATE.speed];
    sample[SAMPLE.volts] = flow.terminalVolts;
    sample[SAMPLE.force] = system.force;
    sample[SAMPLE.flux] = this.mainTurns * state[STATE.flux];
    this.trace.add(sample, isMarked);
  }

  count(kind: MotionEventKind): number {
    return this.events.filter((event) => event.kind === kind).length;
  }
}
