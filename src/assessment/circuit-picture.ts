/**
 * The stop circuit in one state of the source, one stage and one warmth: which parts the current passes, in what order, and
 * the volts and amps at each. Plain data, the form and the reckoning; `src/sheets/circuit.ts` draws it.
 *
 * Base SI: V, A, ohm, m, m². Volts are against the minus of the source. A null stands where a reading is missing; no NaN
 * and no infinite number. Hot goes with hot wiring and contacts as they become, cold with cold wiring and contacts as read,
 * as in the corners of the assessment.
 */
import type { Job } from '../job/schema.ts';
import {
  holdCurrents,
  nodesOf,
  pullInCurrents,
  shortCircuitCurrent,
  type Loop,
  type LoopPart as PhysicalPart,
  type StageCurrents,
} from '../physics/circuit.ts';
import { isSolenoid } from './assess.ts';
import { loadOf, type CircuitLoad } from './circuit-load.ts';
import type { Assumption } from './finding.ts';
import { missingReadings, needsOf } from './needs.ts';
import { DefaultReader, valueOf } from './readings.ts';
import {
  coilOhms,
  loopParts,
  partResistance,
  sourceVolts,
  type LoopPart,
  type SolenoidJob,
  type SourceState,
} from './rig.ts';
import type { Warmth } from './scene.ts';
import { orNull } from './sweep.ts';

export type CircuitStage = 'off' | 'pull-in' | 'hold';

export interface CircuitCondition {
  readonly state: SourceState;
  readonly stage: CircuitStage;
  readonly coil: Warmth;
  /** Which further station works it; left out: the first place of control. Of no meaning where it is energised to run. */
  readonly station?: number;
}

export interface CircuitPicture extends Required<Pick<CircuitCondition, 'state' | 'stage' | 'coil'>> {
  readonly job: string;
  readonly works: 'energise to stop' | 'energise to run';
  readonly nominal: number;
  /** Place of control that works it now; null for the first. */
  readonly station: string | null;
  /** Drawn from the source. */
  readonly amps: number | null;
  /** The source with what it loses inside. */
  readonly source: CircuitPart;
  /** From the source to the solenoid, in order. */
  readonly out: readonly CircuitPart[];
  readonly load: CircuitLoad;
  /** From the solenoid to the source. */
  readonly back: readonly CircuitPart[];
  /** The other places of control, which are not at work now. */
  readonly others: readonly CircuitBranch[];
  /** Readings without which no volts can be told. */
  readonly missing: readonly string[];
  readonly assumed: readonly Assumption[];
  /** What should be known when looking at it. */
  readonly remarks: readonly string[];
}

export type CircuitPartKind =
  | 'source'
  | 'switch'
  | 'relay'
  | 'fuse'
  | 'connector'
  | 'earth strap'
  | 'other'
  | 'conductor'
  | 'earth';

export interface CircuitPart {
  readonly kind: CircuitPartKind;
  readonly name: string;
  /** Field that it rests on. */
  readonly path: string;
  readonly resistance: number | null;
  /** False for what the document names without a resistance: it is drawn, and loses nothing here. */
  readonly isCounted: boolean;
  readonly isOpen: boolean;
  readonly fromVolts: number | null;
  readonly toVolts: number | null;
  readonly drop: number | null;
  readonly amps: number | null;
  readonly section: number | null;
  readonly length: number | null;
  /** Of a fuse or contact. */
  readonly rating: number | null;
}

/** A place of control that stands open beside the one at work. */
export interface CircuitBranch {
  readonly path: string;
  readonly name: string;
  readonly parts: readonly CircuitPart[];
  readonly hasDiode: boolean;
  /** What else hangs on its wire; empty where nothing does. */
  readonly alsoFeeds: string;
  /** Volts that come back along its wire to whatever hangs there; null where a diode stops them or a reading is missing. */
  readonly backVolts: number | null;
}

/** Null where the job has no solenoid, and so no circuit. */
export function circuitPicture(job: Job, condition: CircuitCondition): CircuitPicture | null {
  return isSolenoid(job) ? pictureOf(job, condition) : null;
}

function pictureOf(job: SolenoidJob, condition: CircuitCondition): CircuitPicture {
  const { state, coil: warmth } = condition;
  const toRun = job.means.works === 'energise to run';
  const station = toRun ? undefined : condition.station;
  const reader = new DefaultReader();
  const [inside, ...outside] = loopParts(job, reader, station);
  const isBack = (part: LoopPart) => part.path === 'supply.back' || part.kind === 'earth strap';
  const out = outside.filter((part) => !isBack(part));
  const back = outside.filter(isBack);
  const ohms = ohmsAt(job, warmth);
  const physical = [inside, ...out, ...back].map((part): PhysicalPart => {
    const resistance = ohms(part);
    const kind = part === inside ? 'source' : part.kind === 'conductor' ? 'conductor' : 'contact';
    return { name: part.path, kind, side: isBack(part) ? 'back' : 'out', fresh: resistance, aged: resistance };
  });
  const loop: Loop = {
    source: sourceVolts(job, state, reader),
    resistance: physical.reduce((sum, { fresh }) => sum + fresh, 0),
  };
  const flow = flowOf(job, condition, loop, reader);
  const volts = voltsAround(loop.source, physical, flow?.supply ?? NaN);
  const make = (part: LoopPart): CircuitPart => {
    const drop = flow === null ? 0 : (flow.supply ?? NaN) * ohms(part);
    const to = volts.after(part.path);
    return drawnPart(job, part, { resistance: ohms(part), toVolts: to, drop, amps: flow === null ? 0 : flow.supply });
  };
  const isOff = condition.stage === 'off';
  const source: CircuitPart = {
    ...make(inside),
    kind: 'source',
    name: 'Source',
    fromVolts: orNull(loop.source),
    toVolts: isOff ? orNull(loop.source) : orNull(volts.after(inside.path)),
  };
  const way = chained(withUnlisted(job, out.map(make)), source.toVolts, isOff);
  const plus = isOff ? 0 : orNull(volts.plus);
  const minus = isOff ? 0 : orNull(volts.minus);
  const needs = needsOf(job);
  const rests = isOff ? [] : warmth === 'hot' ? [...needs.pullInLow, ...needs.holdLow] : [...needs.pullInHigh, ...needs.holdHigh];
  const missing = missingReadings(job);
  return {
    job: job.name,
    works: job.means.works,
    nominal: job.supply.nominal,
    state,
    stage: condition.stage,
    coil: warmth,
    station: station === undefined ? null : (job.supply.stations[station]?.name ?? null),
    amps: flow === null ? 0 : orNull(flow.supply),
    source,
    out: way,
    load: loadOf(job, condition.stage, ohms0(job, warmth, reader), { plus, minus }, flow),
    back: chained(back.map(make), minus, false),
    others: toRun ? [] : othersOf(job, station, ohms, { source: source.toVolts, plus, isOff }),
    missing: [...new Set(rests)].filter((path) => missing.has(path)),
    assumed: reader.assumed,
    remarks: remarksOn(job, condition.stage),
  };
}

function ohmsAt(job: Job, warmth: Warmth): (part: LoopPart) => number {
  const { coldest, hottest } = job.surroundings;
  const temperature = valueOf(warmth === 'hot' ? hottest : coldest, 'temperature');
  return (part) => partResistance(part, temperature, warmth === 'hot' ? 'old' : 'as read');
}
