/**
 * An air cylinder as physics has it: the mechanics that any mover meets, the cylinder itself, and the way of the air.
 *
 * Pressures here are above atmosphere. Readings that were not taken are NaN, and what cannot be made without them is null.
 */
import type { AirCylinder, Job } from '../../job/schema.ts';
import { areasOf, forceHome, forceOutByAir, type Cylinder } from '../../physics/air/cylinder.ts';
import { pipe, type Restriction } from '../../physics/air/flow.ts';
import { delayInPipe } from '../../physics/air/gas.ts';
import { display, metricUnits } from '../../units/quantity.ts';
import type { Assumption } from '../finding.ts';
import { DefaultReader, valueOf } from '../readings.ts';
import { mechanicalRigOf, type MechanicalRig, type Mover } from '../rig.ts';

export type AirJob = Job & { readonly means: AirCylinder };

/** The pieces through which the air goes, each by itself. */
export interface AirWay {
  readonly valve: Restriction;
  readonly pipe: Restriction;
  readonly exhaust: Restriction;
}

export interface AirRig {
  readonly job: AirJob;
  readonly mechanical: MechanicalRig;
  /** Null where a reading that the force rests on is missing. */
  readonly cylinder: Cylinder | null;
  /** What the pipe holds, m³: each chamber that air is let into has one. */
  readonly pipeVolume: number;
  readonly returnsByAir: boolean;
  /** False where the survey says that there is none. */
  readonly hasAir: boolean;
  /** Pa */
  readonly low: number;
  readonly high: number;
  /** m³ */
  readonly vessel: number;
  /** Null where a reading that the flow rests on is missing. */
  readonly way: AirWay | null;
  /** Time that a wave takes through the pipe, s. */
  readonly delay: number;
  /** K */
  readonly coldest: number;
  readonly hottest: number;
  readonly stopTime: number;
  readonly assumed: readonly Assumption[];
}

export function airRigOf(job: AirJob): AirRig {
  const reader = new DefaultReader();
  const { means, survey } = job;
  const length = (text: string) => valueOf(text, 'length');
  const [bore, rod, stroke] = [length(means.bore), length(means.rod), length(means.stroke)];
  const area = (Math.PI / 4) * bore ** 2;
  const efficiency = reader.value('means.efficiency', means.efficiency, 'ratio');
  const drag = ownOr(means.sealDrag, 'force', DRAG_PRESSURE * area, 'means.sealDrag', reader);
  const left = ownOr(means.deadVolume, 'volume', DEAD_SHARE * area * stroke, 'means.deadVolume', reader);
  const line = { bore: length(means.line.bore), length: length(means.line.length) };
  const returnsByAir = means.returns === 'by air';
  const mechanical = mechanicalRigOf(job, rodOf(means, drag, reader), reader);
  const air = typeof survey.air === 'string' ? null : survey.air;
  const pressure = (text: string | undefined) =>
    text === undefined ? (survey.air === 'none' ? 0 : NaN) : valueOf(text, 'pressure');
  const coldest = valueOf(job.surroundings.coldest, 'temperature');
  const stopTime = reader.value('wanted.stopTime', job.wanted?.stopTime, 'time');
  return {
    job,
    mechanical,
    cylinder: Number.isNaN(bore + rod + stroke)
      ? null
      : {
          action: actionOf(means),
          bore,
          rod,
          stroke,
          efficiency,
          drag,
          deadVolume: left,
        },
    pipeVolume: (Math.PI / 4) * line.bore ** 2 * line.length,
    returnsByAir,
    hasAir: survey.air !== 'none',
    low: pressure(air?.low),
    high: pressure(air?.high),
    vessel: air === null ? NaN : valueOf(air.reservoir, 'volume'),
    way: wayOf(means, line, reader),
    delay: delayInPipe(line.length, coldest),
    coldest,
    hottest: valueOf(job.surroundings.hottest, 'temperature'),
    stopTime,
    assumed: reader.assumed.filter(({ path }) => !ofSolenoids.has(path)),
  };
}

/** Wanted margins that only a solenoid has. */
const ofSolenoids: ReadonlySet<string> = new Set(['wanted.hold', 'wanted.endSwitch', 'wanted.holdDrop']);

/** Seals without air hold like this pressure on the piston, Pa. Common practice, no source. */
const DRAG_PRESSURE = 0.2e5;
/** What is left in the cylinder at its end, over what the piston sweeps. Common practice, no source. */
const DEAD_SHARE = 0.1;

/** A field whose default hangs on others: what it comes to is told with the other assumed values. */
function ownOr(
  text: string | undefined,
  dimension: 'force' | 'volume',
  otherwise: number,
  path: string,
  reader: DefaultReader,
): number {
  if (text !== undefined) return valueOf(text, dimension);
  if (!Number.isNaN(otherwise))
    reader.assumed.push({
      path,
      text: display(otherwise, dimension, metricUnits, 2),
      source: 'reckoned from bore and stroke; common practice, no source',
    });
  return otherwise;
}

/** A cylinder whose action was not looked at is drawn as one that pulls; everything that rests on it is not known. */
const actionOf = ({ action }: AirCylinder): 'pull' | 'push' => (action === 'push' ? 'push' : 'pull');

/** Steady over the whole travel: the seals hold everywhere alike. */
const EVERYWHERE = 1e9;
/** A spring whose force does not change is reckoned with this rate, N/m. */
const LEAST_RATE = 1e-6;

function rodOf(means: AirCylinder, drag: number, reader: DefaultReader): Mover {
  const length = (text: string) => valueOf(text, 'length');
  const { returns } = means;
  return {
    name: 'rod',
    toStop: means.works !== 'air to run',
    guide: {
      action: actionOf(means),
      isRod: true,
      lengthAtHome: length(means.guideLength),
      overhang: length(means.overhang),
      stroke: length(means.stroke),
      diameter: length(means.rod),
      boreClearance: length(means.rodClearance),
      planeOffset: 0,
    },
    mass: reader.value('means.movingMass', means.movingMass, 'mass'),
    sticking: drag,
    stickingGap: EVERYWHERE,
    endSwitch: null,
    inside:
      returns === 'by air'
        ? null
        : typeof returns === 'string'
          ? { preload: NaN, rate: NaN }
          : {
              preload: valueOf(returns.preload, 'force'),
              rate: Math.max(LEAST_RATE, valueOf(returns.rate, 'springRate')),
            },
  };
}

function wayOf(
  means: AirCylinder,
  line: { readonly bore: number; readonly length: number },
  reader: DefaultReader,
): AirWay | null {
  const criticalRatio = reader.value('means.criticalRatio', means.criticalRatio, 'ratio');
  const [valve, exhaust] = [means.valve, means.exhaust].map((text) => valueOf(text, 'sonicConductance'));
  if (Number.isNaN(valve + exhaust + line.bore + line.length)) return null;
  return {
    valve: { conductance: valve, criticalRatio },
    pipe: pipe(line.bore, line.length),
    exhaust: { conductance: exhaust, criticalRatio },
  };
}

/** The cylinder with what its pipe holds; null where that is not known. */
export function withPipe({ cylinder, pipeVolume }: AirRig): Cylinder | null {
  return cylinder === null || Number.isNaN(pipeVolume)
    ? null
    : { ...cylinder, deadVolume: cylinder.deadVolume + pipeVolume };
}

/** Force of the rod towards home, N; NaN where it is not known. */
export function givenHome({ cylinder }: AirRig, pressure: number): number {
  return cylinder === null || Number.isNaN(pressure) ? NaN : forceHome(cylinder, pressure);
}

/** What air in the other chamber adds to the way out at the lowest pressure, where it brings the rod back; the seals counted once, N. */
export function addedOut(air: AirRig): { readonly drive: number; readonly net: number } {
  if (!air.returnsByAir) return { drive: 0, net: 0 };
  const { drive, net } = givenOut(air, air.low);
  return { drive, net: net + air.mechanical.sticking };
}

/** Force of air in the other chamber, away from home: what drives, and what the seals leave of it, N. */
export function givenOut({ cylinder }: AirRig, pressure: number): { readonly drive: number; readonly net: number } {
  if (cylinder === null || Number.isNaN(pressure)) return { drive: NaN, net: NaN };
  return { drive: pressure * areasOf(cylinder).out, net: forceOutByAir(cylinder, pressure) };
}
