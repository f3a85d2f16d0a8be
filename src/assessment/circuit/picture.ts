/**
 * The stop circuit in one state of the source, one stage and one warmth: which parts the current passes, in what order, and
 * the volts and amps at each. Plain data; `src/sheets/circuit.ts` draws it.
 *
 * Base SI: V, A, ohm, m, m². Volts are against the minus of the source. A null stands where a reading is missing; no NaN
 * and no infinite number. Hot goes with hot wiring and contacts as they become, cold with cold wiring and contacts as read,
 * as in the corners of the assessment. Parts stand in the order in which the document lists them, earth straps in the way
 * back; the order changes no current.
 */
import { valueAt } from '../../job/path.ts';
import type { Job } from '../../job/schema.ts';
import { isSolenoid } from '../assess.ts';
import { loadOf, type CircuitLoad, type Flow } from './load.ts';
import { remarksOn } from './remarks.ts';
import { flowIn, isBack, isSwitch, resistanceOf, voltsAround, type Around, type Span } from './volts.ts';
import type { Assumption } from '../finding.ts';
import { missingReadings, needsOf } from '../needs.ts';
import { DefaultReader, valueOf } from '../readings.ts';
import {
  loopParts,
  partResistance,
  rigOf,
  sourceVolts,
  type LoopPart,
  type SolenoidJob,
  type SourceState,
} from '../rig.ts';
import type { Warmth } from '../scene.ts';
import { orNull } from '../sweep.ts';

export type { SourceState } from '../rig.ts';
export type { Warmth } from '../scene.ts';
export type CircuitStage = 'off' | 'pull-in' | 'hold';

export interface CircuitCondition {
  readonly state: SourceState;
  readonly stage: CircuitStage;
  readonly coil: Warmth;
  /** Which further station works it; left out: the first place of control. Energise to run, all stand in one loop. */
  readonly station?: number;
}

export interface CircuitPicture {
  readonly job: string;
  readonly works: 'energise to stop' | 'energise to run';
  readonly nominal: number;
  readonly state: SourceState;
  readonly stage: CircuitStage;
  readonly coil: Warmth;
  /** Name of the further station that works it now; null for the first place of control. */
  readonly station: string | null;
  /** Drawn from the source. */
  readonly amps: number | null;
  /** The source, with what it loses inside. */
  readonly source: CircuitPart;
  /** From the source to the solenoid, in order. */
  readonly out: readonly CircuitPart[];
  readonly load: CircuitLoad;
  /** From the solenoid to the source. */
  readonly back: readonly CircuitPart[];
  /** The other places of control, which stand open now. */
  readonly others: readonly CircuitBranch[];
  /** Readings without which no volts can be told here. */
  readonly missing: readonly string[];
  readonly assumed: readonly Assumption[];
  /** What should be known when looking at it. */
  readonly remarks: readonly string[];
}

export type CircuitPartKind = 'source' | LoopPart['kind'];

export interface CircuitPart {
  readonly kind: CircuitPartKind;
  readonly name: string;
  /** The field that it rests on. */
  readonly path: string;
  readonly resistance: number | null;
  /** False for what the document names without a resistance: it is drawn, and loses nothing here. */
  readonly isCounted: boolean;
  readonly isOpen: boolean;
  readonly fromVolts: number | null;
  readonly toVolts: number | null;
  readonly drop: number | null;
  readonly amps: number | null;
  /** Of a conductor. */
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
  /** Volts that come back along its wire to whatever hangs there; null where a diode stops them or nothing is known. */
  readonly backVolts: number | null;
}

/** Null where the job has no solenoid, and so no circuit. */
export function circuitPicture(job: Job, condition: CircuitCondition): CircuitPicture | null {
  return isSolenoid(job) ? pictureOf(job, condition) : null;
}

function pictureOf(job: SolenoidJob, { state, stage, coil: warmth, station: asked }: CircuitCondition): CircuitPicture {
  const { supply, means } = job;
  const toRun = means.works === 'energise to run';
  const station = toRun || asked === undefined || supply.stations[asked] === undefined ? undefined : asked;
  const reader = new DefaultReader();
  const [inside, ...outside] = loopParts(job, reader, station);
  const out = withUnlisted(
    job,
    outside.filter((part) => !isBack(part)),
  );
  const back = outside
    .filter(isBack)
    .sort((a, b) => Number(b.kind === 'earth strap') - Number(a.kind === 'earth strap'));
  const ohms = ohmsAt(job, warmth);
  const source = sourceVolts(job, state, reader);
  const resistances = [inside, ...out, ...back].map((part) => resistanceOf(part, ohms(part), part === inside));
  const coil = rigOf(job).coilAt[warmth];
  const flow = flowIn(job, stage, source, resistances, coil);
  const around = voltsAround(source, inside, out, back, resistances, flow);
  const draw = (part: LoopPart): CircuitPart => drawn(job, part, ohms(part), around.at(part), flow, stage);
  const missing = missingReadings(job);
  return {
    job: job.name,
    works: means.works,
    nominal: supply.nominal,
    state,
    stage,
    coil: warmth,
    station: station === undefined ? null : supply.stations[station].name,
    amps: orNull(flow.supply),
    source: { ...draw(inside), kind: 'source', name: 'Source', path: 'supply.internalResistance', isOpen: false },
    out: out.map(draw),
    load: loadOf(job, coil, flow, { plus: around.plus, minus: around.minus }),
    back: back.map(draw),
    others: toRun ? [] : othersOf(job, station, ohms, around),
    missing: restsOn(job, stage, warmth, station).filter((path) => missing.has(path)),
    assumed: reader.assumed,
    remarks: remarksOn(job, stage, flow),
  };
}

/** Readings that the volts of a stage rest on. */
function restsOn(job: SolenoidJob, stage: CircuitStage, warmth: Warmth, station: number | undefined): string[] {
  if (stage === 'off') return [];
  const needs = needsOf(job);
  const own =
    stage === 'pull-in'
      ? { hot: needs.pullInLow, cold: needs.pullInHigh }[warmth]
      : { hot: needs.holdLow, cold: needs.holdHigh }[warmth];
  if (station === undefined) return [...new Set(own)];
  const elsewhere = needs.stationLoops.filter(
    (path) => !path.startsWith('supply.stations') || path.startsWith(`supply.stations[${station}]`),
  );
  return [...own.filter((path) => !path.startsWith('supply.')), ...elsewhere];
}

/** A fuse and a switch that no contact stands for: they are there, with no resistance of their own. */
function withUnlisted({ supply }: Job, out: readonly LoopPart[]): readonly LoopPart[] {
  const unlisted = (path: string, name: string, kind: LoopPart['kind']): LoopPart => ({
    path,
    name,
    kind,
    resistance: 0,
    ageing: 1,
  });
  return [
    ...(typeof supply.fuse === 'object' && !out.some(({ kind }) => kind === 'fuse')
      ? [unlisted('supply.fuse', 'Fuse', 'fuse')]
      : []),
    ...(out.some(isSwitch) ? [] : [unlisted('supply.contacts', 'Switch', 'switch')]),
    ...out,
  ];
}

function ohmsAt(job: Job, warmth: Warmth): (part: LoopPart) => number {
  const temperature = valueOf(job.surroundings[warmth === 'hot' ? 'hottest' : 'coldest'], 'temperature');
  return (part) => partResistance(part, temperature, warmth === 'hot' ? 'old' : 'as read');
}

function drawn(job: Job, part: LoopPart, ohms: number, span: Span, flow: Flow, stage: CircuitStage): CircuitPart {
  const described = valueAt(job, part.path) as Readonly<Record<string, string | undefined>> | undefined;
  const isCounted = part.path !== 'supply.fuse' && part.path !== 'supply.contacts';
  const number = (text: unknown, dimension: 'area' | 'length' | 'current') =>
    typeof text === 'string' ? orNull(valueOf(text, dimension)) : null;
  const isConductor = part.kind === 'conductor';
  const fuse = part.kind === 'fuse' && typeof job.supply.fuse === 'object' ? job.supply.fuse.rating : undefined;
  return {
    kind: part.kind,
    name: part.name,
    path: fieldOf(part),
    resistance: isCounted ? orNull(ohms) : null,
    isCounted,
    isOpen: stage === 'off' && isSwitch(part),
    fromVolts: orNull(span.from ?? NaN),
    toVolts: orNull(span.to ?? NaN),
    drop: orNull(span.drop ?? NaN),
    amps: orNull(flow.supply),
    section: isConductor ? number(described?.['section'], 'area') : null,
    length: isConductor ? number(described?.['length'], 'length') : null,
    rating: isConductor ? null : number(fuse ?? described?.['rating'], 'current'),
  };
}

function fieldOf({ path, kind }: LoopPart): string {
  if (path === 'supply.fuse' || path === 'supply.contacts' || path === 'supply.internalResistance') return path;
  return kind === 'conductor' ? `${path}.section` : `${path}.resistance`;
}

/** Every place of control but the one at work, its contacts open. */
function othersOf(
  job: SolenoidJob,
  station: number | undefined,
  ohms: (part: LoopPart) => number,
  around: Around,
): CircuitBranch[] {
  const { stations } = job.supply;
  const open: Flow = { stage: 'off', supply: 0, currents: null, isShort: false };
  const branch = (at: number | undefined): CircuitBranch => {
    const described = at === undefined ? undefined : stations[at];
    const hasDiode = described?.diode === 'in series';
    const parts = loopParts(job, new DefaultReader(), at)
      .slice(1)
      .filter((part) => !isBack(part));
    const way = parts.some(isSwitch) ? parts : withUnlisted({ ...job, supply: { ...job.supply, fuse: 'none' } }, parts);
    const beyond = hasDiode ? null : around.plus;
    let volts = around.source;
    const placed = way.map((part) => {
      const to = isSwitch(part) ? beyond : volts;
      const span = { from: volts, to, drop: 0 };
      volts = to;
      return drawn(job, part, ohms(part), span, open, 'off');
    });
    return {
      path: at === undefined ? 'supply.contacts' : `supply.stations[${at}]`,
      name: described?.name ?? 'First place of control',
      parts: placed,
      hasDiode,
      alsoFeeds: described?.alsoFeeds.trim() ?? '',
      backVolts: beyond,
    };
  };
  const all = [undefined, ...stations.keys()].map((at) => (at === station ? null : branch(at)));
  return all.filter((one) => one !== null);
}
