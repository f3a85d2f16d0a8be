/**
 * The ONE place where a job document becomes inputs of physics: base SI, radians, plain data. (Its springs: springs-of.ts.)
 *
 * A rig does not depend on the corner; where friction, supply or coil temperature have two ends, both are here. Readings
 * that were not taken are NaN.
 *
 * Longer than 300 lines: one reason, that the whole crossing from document to physics is read in one place.
 */
import { defaults } from '../job/defaults.ts';
import type { Coil, Connection, Job, Solenoid } from '../job/schema.ts';
import type { CoilOhms, Loop } from '../physics/circuit.ts';
import { copperResistance } from '../physics/coil.ts';
import { conductorResistance } from '../physics/conductor.ts';
import type { Guide } from '../physics/guide.ts';
import { defaultSideFreedom, linkBranch, pinBranch, type Linkage, type LineOfPull } from '../physics/linkage.ts';
import type { Friction } from '../physics/plunger.ts';
import { forceTable, type ForceLevel, type ForceTable } from '../physics/solenoid/table.ts';
import type { Assumption } from './finding.ts';
import { leverWithHandStop } from './hand-stop/hung-lever.ts';
import { leverOf, type Lever } from './lever.ts';
import { DefaultReader, valueOf, type Band } from './readings.ts';
import { springsOf, type RigSprings } from './springs-of.ts';

export type SolenoidJob = Job & { readonly means: Solenoid };

export interface OverTravel {
  readonly preload: number;
  readonly rate: number;
  readonly travel: number;
}

export interface EndSwitch {
  readonly worksAtGap: number;
  readonly operatingForce: number;
  /** Amps that it may break. */
  readonly rating: number;
  /** Further out than it works. */
  readonly reclosesAtGap: number;
}

export interface Wanted {
  readonly pull: number;
  readonly hold: number;
  readonly return: number;
  readonly lockRatio: number;
  readonly noFuel: number;
  readonly hardStop: number;
  readonly run: number;
  readonly endSwitch: number;
  readonly sideShare: number;
  readonly holdDrop: number;
  /** Speed borne at landing, m/s; time from switching off to rest, s. */
  readonly landingSpeed: number;
  readonly releaseTime: number;
}

/** What is moved home, by whatever force: the plunger of a solenoid, the rod of an air cylinder. */
export interface Mover {
  readonly name: 'plunger' | 'rod';
  /** Whether home is stop; else home is run. */
  readonly toStop: boolean;
  readonly guide: Guide;
  /** Mass that moves along, kg. */
  readonly mass: number;
  /** What holds it back on the way out: at home in full, N, and a quarter of it this far from home, m. */
  readonly sticking: number;
  readonly stickingGap: number;
  readonly endSwitch: EndSwitch | null;
  /** Spring inside, away from home: force at the outer stop, N, and rate, N/m. */
  readonly inside: { readonly preload: number; readonly rate: number } | null;
}

/** Lever, connection, guide and springs: what any mover meets. */
export interface MechanicalRig extends RigSprings {
  readonly job: Job;
  readonly mover: Mover['name'];
  readonly lever: Lever;
  /** +1: the lever turns counter-clockwise towards home. */
  readonly sense: 1 | -1;
  readonly toStop: boolean;
  readonly linkage: Linkage;
  readonly guide: Guide;
  readonly stroke: number;
  /** Shaft angle of the lever's own stop on the home side, and on the other. */
  readonly homeStop: number;
  readonly outStop: number;
  readonly friction: { readonly low: Friction; readonly high: Friction };
  readonly overTravel: OverTravel | null;
  readonly bracketGive: number;
  /** Angle that a pin may be turned inside its slot before it drives, rad × m. */
  readonly slotClearance: number;
  readonly weightAlong: number;
  readonly weightAcross: number;
  /** Share of gravity along the pull: 1 where it points down, -1 up, 0 level. */
  readonly downwards: number;
  readonly vibration: number;
  readonly sticking: number;
  readonly stickingGap: number;
  readonly endSwitch: EndSwitch | null;
  readonly inside: Mover['inside'];
  /** Mass on the plunger or rod, kg, and inertia of lever and rack about the shaft, kg m². */
  readonly plungerMass: number;
  readonly leverInertia: number;
  readonly engineMoves: number;
  readonly adjusterWear: number;
  /** A spring tried in thought, where a window is looked for: its moment that resists the way home, N m, and force on the plunger, N. */
  readonly trial: { readonly moment: number; readonly force: number };
  readonly wanted: Wanted;
  readonly assumed: readonly Assumption[];
}

export interface Rig extends MechanicalRig {
  readonly job: SolenoidJob;
  readonly pullInTable: ForceTable | null;
  readonly holdTable: ForceTable | null;
  readonly coilAt: { readonly cold: CoilOhms; readonly hot: CoilOhms };
  /** Source and loop by stage: weakest with hot wiring and old contacts, strongest with cold wiring and contacts as read. */
  readonly loopAt: {
    readonly 'pull-in': { readonly low: Loop; readonly high: Loop };
    readonly hold: { readonly low: Loop; readonly high: Loop };
  };
  /** Further places of control: the weakest loop by way of each. Energise to run they stand in the one loop, in series. */
  readonly stations: readonly { readonly path: string; readonly name: string; readonly low: Loop }[];
  /** Volts that remain at the coil with the switch off, and those at which it lets go; NaN where they were not read. */
  readonly backFeed: number;
  readonly dropOut: number;
  /** Which state of the source is the weakest while it must pull in. */
  readonly weakestPullIn: 'low' | 'cranking';
  /** Share of the loop's resistance that lies inside the source, ohm. */
  readonly sourceResistance: number;
  readonly continuousPower: number;
  /** How far above its surroundings the coil is taken to run in hold, and its hottest place over its mean, K. */
  readonly riseInHold: number;
  readonly hotSpot: number;
  /** From no-fuel until the engine stands still, s. */
  readonly runDown: number;
  /** Temperature that the insulation of the conductors bears, K. */
  readonly insulation: number;
}

const GRAVITY = 9.80665;

export function rigOf(job: SolenoidJob): Rig {
  return rigReadBy(job, new DefaultReader());
}

export function rigReadBy(job: SolenoidJob, reader: DefaultReader): Rig {
  const { means } = job;
  const mechanical = mechanicalRigOf(job, plungerOf(means, reader), reader);
  const { toStop } = mechanical;
  const coldest = valueOf(job.surroundings.coldest, 'temperature');
  const hottest = valueOf(job.surroundings.hottest, 'temperature');
  const rise = reader.value('means.riseInHold', means.riseInHold, 'temperatureDifference');
  const tables = forceTables(means);
  const charging = sourceVolts(job, 'charging', reader);
  const low = sourceVolts(job, 'low', reader);
  const loop = loopParts(job, reader);
  const weakest = loopResistance(loop, hottest, 'old');
  const strongest: Loop = { source: charging, resistance: loopResistance(loop, coldest, 'as read') };
  const electrical: Omit<Rig, Exclude<keyof MechanicalRig, 'job'>> = {
    job,
    pullInTable: tables.pullIn,
    holdTable: tables.hold,
    coilAt: { cold: coilOhms(means.coil, coldest), hot: coilOhms(means.coil, hottest + rise) },
    loopAt: {
      'pull-in': {
        low: { source: toStop ? low : sourceVolts(job, 'cranking', reader), resistance: weakest },
        high: strongest,
      },
      hold: { low: { source: low, resistance: weakest }, high: strongest },
    },
    stations: toStop
      ? job.supply.stations.map(({ name }, i) => ({
          path: `supply.stations[${i}]`,
          name,
          low: { source: low, resistance: loopResistance(loopParts(job, new DefaultReader(), i), hottest, 'old') },
        }))
      : [],
    backFeed: job.supply.backFeed === undefined ? NaN : valueOf(job.supply.backFeed, 'voltage'),
    dropOut: means.dropOut === undefined ? NaN : valueOf(means.dropOut, 'voltage'),
    weakestPullIn: toStop ? 'low' : 'cranking',
    sourceResistance: valueOf(job.supply.internalResistance, 'resistance'),
    riseInHold: rise,
    hotSpot: reader.value('means.body.hotSpot', means.body.hotSpot, 'temperatureDifference'),
    runDown: reader.value('survey.runDown', job.survey.runDown, 'time'),
    insulation: reader.value('supply.insulation', job.supply.insulation, 'temperature'),
    continuousPower: valueOf(means.continuousPower, 'power'),
  };
  // Into the one object: a study of spread makes a rig at every draw, and copying forty fields takes longer than reading them.
  return Object.assign(mechanical, electrical);
}

/** The plunger of a solenoid. */
function plungerOf(means: Solenoid, reader: DefaultReader): Mover {
  const { plunger, endSwitch } = means;
  return {
    name: 'plunger',
    toStop: means.works === 'energise to stop',
    guide: {
      action: means.action,
      lengthAtHome: valueOf(plunger.guideLength, 'length'),
      overhang: valueOf(plunger.overhang, 'length'),
      stroke: valueOf(plunger.stroke, 'length'),
      diameter: valueOf(plunger.diameter, 'length'),
      boreClearance: valueOf(plunger.boreClearance, 'length'),
      planeOffset: reader.value('means.plunger.planeOffset', plunger.planeOffset, 'length'),
    },
    mass: valueOf(plunger.mass, 'mass'),
    sticking: valueOf(means.stickingForce, 'force'),
    stickingGap: reader.value('means.stickingGap', means.stickingGap, 'length'),
    endSwitch:
      endSwitch === 'none'
        ? null
        : {
            worksAtGap: valueOf(endSwitch.worksAtGap, 'length'),
            operatingForce: valueOf(endSwitch.operatingForce, 'force'),
            rating: valueOf(endSwitch.rating, 'current'),
            reclosesAtGap:
              valueOf(endSwitch.worksAtGap, 'length')
              + reader.value('means.endSwitch.recloses', endSwitch.recloses, 'length'),
          },
    inside: null,
  };
}

/** Lever, connection and springs round a mover. */
export function mechanicalRigOf(job: Job, mover: Mover, reader: DefaultReader): MechanicalRig {
  const { layout } = job;
  const { toStop, guide, mass } = mover;
  const lever = leverWithHandStop(job, leverOf(job, reader));
  const sense = toStop ? lever.toStop : lever.toStop === 1 ? -1 : 1;
  const slot = layout.connection.kind === 'slotted lever' ? frictionBand(layout, 'slot', reader) : none;
  const pins =
    layout.connection.kind === 'pinned link' || layout.connection.kind === 'plain pin'
      ? frictionBand(layout, 'pins', reader)
      : none;
  const bore = frictionBand(layout, 'guide', reader);
  const direction = valueOf(layout.pullDirection, 'angle');
  const down = reader.value('layout.down', layout.down, 'angle');
  const tilt = reader.value('layout.tilt', layout.tilt, 'angle');
  const inPlane = mass * GRAVITY * Math.cos(tilt);
  return {
    job,
    mover: mover.name,
    lever,
    sense,
    toStop,
    linkage: linkageOf(job, lever, sense, toStop, direction),
    guide,
    stroke: guide.stroke,
    homeStop: toStop ? lever.hardStop : lever.runStop,
    outStop: toStop ? lever.runStop : lever.hardStop,
    friction: {
      low: frictionOf(slot.low, pins.low, bore.low),
      high: frictionOf(slot.high, pins.high, bore.high),
    },
    overTravel:
      layout.overTravel === 'none'
        ? null
        : {
            preload: valueOf(layout.overTravel.preload, 'force'),
            rate: valueOf(layout.overTravel.rate, 'springRate'),
            travel: valueOf(layout.overTravel.travel, 'length'),
          },
    bracketGive: valueOf(layout.bracketGive, 'length'),
    slotClearance: layout.connection.kind === 'slotted lever' ? valueOf(layout.connection.sideClearance, 'length') : 0,
    weightAlong: inPlane * Math.cos(down - direction),
    weightAcross: Math.hypot(inPlane * Math.sin(down - direction), mass * GRAVITY * Math.sin(tilt)),
    downwards: Math.cos(tilt) * Math.cos(down - direction),
    vibration: mass * valueOf(job.surroundings.vibration, 'acceleration'),
    sticking: mover.sticking,
    stickingGap: mover.stickingGap,
    endSwitch: mover.endSwitch,
    inside: mover.inside,
    ...springsOf(job.return.springs, lever.toStop, reader),
    plungerMass: mass,
    leverInertia:
      reader.value('survey.lever.mass', job.survey.lever.mass, 'mass')
      * reader.value('survey.lever.massRadius', job.survey.lever.massRadius, 'length') ** 2,
    engineMoves: valueOf(job.surroundings.engineMoves, 'length'),
    adjusterWear: reader.value('layout.adjuster.wear', undefined, 'length'),
    trial: { moment: 0, force: 0 },
    wanted: wantedOf(job, toStop, reader),
    assumed: reader.assumed,
  };
}

const none: Band = { low: 0, value: 0, high: 0 };

function frictionBand({ friction }: Job['layout'], name: 'slot' | 'pins' | 'guide', reader: DefaultReader): Band {
  return reader.band(`layout.friction.${name}`, friction?.[name], 'ratio');
}

function frictionOf(slot: number, pins: number, guide: number): Friction {
  return { slot: Math.max(0, slot), pins: Math.max(0, pins), guide: Math.max(0, guide) };
}

function linkageOf(job: Job, lever: Lever, sense: 1 | -1, toStop: boolean, direction: number): Linkage {
  const { layout } = job;
  const line: LineOfPull = {
    homeX: valueOf(layout.homePin.x, 'length'),
    homeY: valueOf(layout.homePin.y, 'length'),
    directionX: Math.cos(direction),
    directionY: Math.sin(direction),
  };
  const armAngleExpected = (toStop ? lever.noFuel : lever.run) + lever.armMinusShaft;
  return connectionOf(layout.connection, line, sense, armAngleExpected);
}

function connectionOf(connection: Connection, line: LineOfPull, sense: 1 | -1, armAngleExpected: number): Linkage {
  if (connection.kind === 'slotted lever') return { kind: 'slot', ...line, sense, armAngleExpected };
  const armRadius = valueOf(connection.armRadius, 'length');
  if (connection.kind === 'plain pin') {
    const pinRadius = valueOf(connection.pinDiameter, 'length') / 2;
    const holeRadius = valueOf(connection.holeDiameter, 'length') / 2;
    const clearance = holeRadius - pinRadius;
    return {
      kind: 'pin',
      ...line,
      sense,
      armAngleExpected,
      armRadius,
      length: clearance,
      armRubRadius: holeRadius,
      pinRubRadius: pinRadius,
      sideFreedom:
        connection.sideFreedom === undefined
          ? defaultSideFreedom(clearance)
          : valueOf(connection.sideFreedom, 'length'),
      branch: pinBranch(sense),
    };
  }
  const length = valueOf(connection.length, 'length');
  const rub = connection.kind === 'pinned link' ? valueOf(connection.pinDiameter, 'length') / 2 : 0;
  return {
    kind: connection.kind === 'pinned link' ? 'link' : 'chain',
    ...line,
    sense,
    armAngleExpected,
    armRadius,
    length,
    armRubRadius: rub,
    pinRubRadius: rub,
    sideFreedom: 0,
    branch: linkBranch(line, armRadius, length, armAngleExpected, sense),
  };
}

/** Tables by stage. A coil with one winding may use every table in either stage; two windings each have their own. */
function forceTables({ coil, force }: Solenoid): {
  readonly pullIn: ForceTable | null;
  readonly hold: ForceTable | null;
} {
  const levels = force.map((table) => levelOf(table, coil));
  if (coil.stages !== 'pull-in and hold windings') {
    const table = tableOf(levels);
    return { pullIn: table, hold: table };
  }
  const ofStage = (stage: 'pull-in' | 'hold') => tableOf(levels.filter((_, i) => force[i].stage === stage));
  return { pullIn: ofStage('pull-in'), hold: ofStage('hold') };
}

/** Not known while one of its levels is not. */
function tableOf(levels: readonly (ForceLevel | null)[]): ForceTable | null {
  const known = levels.filter((level) => level !== null);
  return levels.length === 0 || known.length < levels.length ? null : forceTable(known);
}

function levelOf(table: Solenoid['force'][number], coil: Coil): ForceLevel | null {
  const { drive } = table;
  let current: number;
  if (drive.by === 'current') current = valueOf(drive.current, 'current');
  else {
    const ohms = coilOhms(coil, valueOf(drive.coilTemperature, 'temperature'));
    const winding =
      ohms.stages === 'pull-in and hold windings'
        ? table.stage === 'hold'
          ? ohms.hold
          : ohms.pullIn
        : ohms.resistance;
    current = valueOf(drive.voltage, 'voltage') / winding;
  }
  const gaps = table.rows.map((row) => valueOf(row.gap, 'length'));
  const forces = table.rows.map((row) => valueOf(row.force, 'force'));
  const isWhole = current > 0 && !gaps.some(Number.isNaN) && !forces.some(Number.isNaN);
  if (!isWhole) return null;
  if (gaps.every((gap, i) => i === 0 || gap >= gaps[i - 1])) return { current, gaps, forces };
  const order = gaps.map((_, i) => i).sort((a, b) => gaps[a] - gaps[b]);
  return { current, gaps: order.map((i) => gaps[i]), forces: order.map((i) => forces[i]) };
}

export function coilOhms(coil: Coil, temperature: number): CoilOhms {
  const readAt = valueOf(coil.readAt, 'temperature');
  switch (coil.stages) {
    case 'single coil':
      return { stages: coil.stages, resistance: windingAt(coil.resistance, readAt, temperature) };
    case 'pull-in and hold windings':
      return {
        stages: coil.stages,
        pullIn: windingAt(coil.pullInResistance, readAt, temperature),
        hold: windingAt(coil.holdResistance, readAt, temperature),
      };
    case 'series resistor':
      return {
        stages: coil.stages,
        resistance: windingAt(coil.resistance, readAt, temperature),
        resistor: valueOf(coil.resistor, 'resistance'),
      };
    case 'timed economiser':
      return {
        stages: coil.stages,
        resistance: windingAt(coil.resistance, readAt, temperature),
        holdShare: valueOf(coil.holdShare, 'ratio'),
      };
  }
}

function windingAt(text: string, readAt: number, temperature: number): number {
  return Number.isNaN(readAt) ? NaN : copperResistance(valueOf(text, 'resistance'), readAt, temperature);
}

export type SourceState = 'resting' | 'charging' | 'low' | 'cranking';

/** Open-circuit volts of the source in one of its states. */
export function sourceVolts({ supply }: Job, state: SourceState, reader: DefaultReader): number {
  return reader.value(`supply.${state}`, supply[state], 'voltage', `supply.${state}.${supply.nominal}`);
}

/** One piece of the loop outside the coil. */
export interface LoopPart {
  /** Of the field or group that describes it. */
  readonly path: string;
  readonly name: string;
  readonly kind: 'conductor' | 'earth' | Job['supply']['contacts'][number]['kind'];
  /** Ohm, as read; conductors at 20 °C. */
  readonly resistance: number;
  /** Resistance when old over as read. */
  readonly ageing: number;
}

/** Section of the thinner of the conductors out and back, m². */
export function thinnestSection({ supply }: Job): number {
  const out = valueOf(supply.out.section, 'area');
  return supply.back.by === 'conductor' ? Math.min(out, valueOf(supply.back.section, 'area')) : out;
}

/**
 * The loop through the source to the coil and back, in order; the first part is the inside of the source.
 *
 * @param station index of a further place of control that stands in the place of the first; energise to run, the contacts
 *                and conductors of every station stand in the one loop
 */
export function loopParts({ supply, means }: Job, reader: DefaultReader, station?: number): readonly LoopPart[] {
  const toRun = means.kind === 'solenoid' && means.works === 'energise to run';
  const out: LoopPart[] = [];
  let isAssumed = false;
  for (const { path, conductor, name, contacts, contactsPath } of stretchesOf(supply, toRun, station)) {
    for (const [i, { name: contact, kind, resistance, ageing }] of contacts.entries()) {
      const at = `${contactsPath}[${i}]`;
      const factor =
        ageing === undefined && isAssumed
          ? usualAgeing
          : reader.value(`${at}.ageing`, ageing, 'ratio', 'supply.contacts[].ageing');
      isAssumed ||= ageing === undefined;
      out.push({ path: at, name: contact, kind, resistance: valueOf(resistance, 'resistance'), ageing: factor });
    }
    out.push(conductorPart(conductor, path, name));
  }
  const back: LoopPart =
    supply.back.by === 'earth'
      ? {
          path: 'supply.back',
          name: 'Earth path',
          kind: 'earth',
          resistance: valueOf(supply.back.resistance, 'resistance'),
          ageing: usualAgeing,
        }
      : conductorPart(supply.back, 'supply.back', 'Conductor back');
  const inside: LoopPart = {
    path: 'supply.internalResistance',
    name: 'Source',
    kind: 'other',
    resistance: valueOf(supply.internalResistance, 'resistance'),
    ageing: 1,
  };
  return [inside, ...out, back];
}

type Conductor = Pick<Job['supply']['out'], 'section' | 'length'>;

function conductorPart({ section, length }: Conductor, path: string, name: string): LoopPart {
  const resistance = conductorResistance(valueOf(section, 'area'), valueOf(length, 'length'), REFERENCE);
  return { path, name, kind: 'conductor', resistance, ageing: 1 };
}

/** A place of control on the way out: its contacts, then its conductor. */
interface Stretch {
  readonly path: string;
  readonly name: string;
  readonly conductor: Conductor;
  readonly contacts: Job['supply']['contacts'];
  readonly contactsPath: string;
}

function stretchesOf(supply: Job['supply'], toRun: boolean, station: number | undefined): readonly Stretch[] {
  if (station !== undefined) return [stationStretch(supply, station)];
  const { out: conductor, contacts } = supply;
  const first = { path: 'supply.out', name: 'Conductor out', conductor, contacts, contactsPath: 'supply.contacts' };
  return toRun ? [first, ...supply.stations.map((_, i) => stationStretch(supply, i))] : [first];
}

function stationStretch({ stations }: Job['supply'], i: number): Stretch {
  const { name, out: conductor, contacts } = stations[i];
  const path = `supply.stations[${i}]`;
  return { path: `${path}.out`, name, conductor, contacts, contactsPath: `${path}.contacts` };
}

const REFERENCE = 293.15;
const usualAgeing = valueOf(defaults['supply.contacts[].ageing'].text, 'ratio');

/** Ohm, with the conductors at a temperature, K, and contacts as read or as they become. */
export function loopResistance(parts: readonly LoopPart[], temperature: number, age: 'as read' | 'old'): number {
  return parts.reduce((sum, part) => sum + partResistance(part, temperature, age), 0);
}

export function partResistance(
  { kind, resistance, ageing }: LoopPart,
  temperature: number,
  age: 'as read' | 'old',
): number {
  if (kind === 'conductor') return copperResistance(resistance, REFERENCE, temperature);
  return age === 'old' ? resistance * ageing : resistance;
}

function wantedOf(job: Job, toStop: boolean, reader: DefaultReader): Wanted {
  const { wanted } = job;
  return {
    pull: reader.value('wanted.pull', wanted?.pull, 'ratio'),
    hold: reader.value('wanted.hold', wanted?.hold, 'ratio'),
    return: reader.value('wanted.return', wanted?.return, 'ratio', toStop ? 'wanted.return' : 'wanted.returnToStop'),
    lockRatio: reader.value('wanted.lockRatio', wanted?.lockRatio, 'ratio'),
    noFuel: reader.value('wanted.noFuel', wanted?.noFuel, 'angle'),
    hardStop: reader.value('wanted.hardStop', wanted?.hardStop, 'angle'),
    run: reader.value('wanted.run', wanted?.run, 'angle'),
    endSwitch: reader.value('wanted.endSwitch', wanted?.endSwitch, 'length'),
    sideShare: reader.value('wanted.sideShare', wanted?.sideShare, 'ratio'),
    holdDrop: reader.value('wanted.holdDrop', wanted?.holdDrop, 'ratio'),
    landingSpeed: reader.value('wanted.landingSpeed', wanted?.landingSpeed, 'velocity'),
    releaseTime: reader.value('wanted.releaseTime', wanted?.releaseTime, 'time'),
  };
}
