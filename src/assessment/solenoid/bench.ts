/**
 * The ONE place where a solenoid document becomes inputs of physics: base SI, radians, plain data.
 *
 * What was not measured is null, never a number; what was taken instead is listed in `assumed` with its source. A ± is
 * read as two standard deviations; where none was written, the table of instruments below stands in.
 *
 * Longer than 300 lines: one reason, that the whole crossing from document to physics is read in one place.
 */
import { quantityIn } from '../../job/quantity-text.ts';
import type { Problem } from '../../job/opening.ts';
import { contradictions } from '../../job/solenoid/contradictions.ts';
import type { PullDrive, SolenoidDocument } from '../../job/solenoid/schema.ts';
import { copperResistance } from '../../physics/coil.ts';
import { DomainError } from '../../physics/domain-error.ts';
import { MagnetisationCurve, type MagnetisationTable } from '../../physics/magnetics/magnetisation-curve.ts';
import { steelTables } from '../../physics/magnetics/steel.ts';
import { checkDimensions, type SolenoidDimensions } from '../../physics/solenoid/field/dimensions.ts';
import type { PullReading } from '../../physics/solenoid/trim.ts';
import type { TrimPriors } from '../../physics/solenoid/trim-unknowns.ts';
import {
  turnsFromResistance,
  windingFill,
  windingFromCopperShare,
  type WindingFill,
  type WindingWindow,
} from '../../physics/winding.ts';
import type { Dimension } from '../../units/quantity.ts';
import type { Assumption } from '../finding.ts';
import { windingWords } from './words.ts';

export interface SolenoidBench {
  readonly name: string;
  /** Null where a dimension was not measured (see `missing`) or the parts do not fit each other (see `problems`). */
  readonly dimensions: SolenoidDimensions | null;
  readonly stroke: number | null;
  readonly steel: MagnetisationTable & { readonly name: string; readonly source: string };
  readonly problems: readonly Problem[];
  /** Readings without which there is no field, no turns, or a pull of no use. */
  readonly missing: readonly { readonly path: string; readonly words: string }[];
  readonly winding: BenchWinding | null;
  /** What is odd about the winding, in words; empty where nothing is. */
  readonly findings: readonly { readonly path: string; readonly words: string }[];
  readonly priors: TrimPriors;
  /** The pulls that can be used, with where they stand in the document. */
  readonly readings: readonly BenchReading[];
  /** Largest ampere-turns worth a map: the highest volts on a cold coil, or the strongest reading; null where unknown. */
  readonly mostAmpereTurns: number | null;
  readonly assumed: readonly Assumption[];
}

export interface BenchWinding {
  readonly turns: number;
  /** Standard deviation of ln(turns). */
  readonly spread: number;
  readonly from: 'counted' | 'ohms and wire' | 'ohms and a usual fill';
  readonly wireDiameter: number | null;
  /** Null where neither wire nor window is known. */
  readonly fill: WindingFill | null;
  readonly resistance: number | null;
  readonly readAt: number | null;
}

export interface BenchReading extends PullReading {
  readonly path: string;
}

/** What drives the coil, SI. */
export type BenchDrive =
  | { readonly by: 'voltage'; readonly voltage: number; readonly coilTemperature: number }
  | { readonly by: 'current'; readonly current: number }
  | { readonly by: 'ampere-turns'; readonly ampereTurns: number };

const practice = 'common practice, no source';
const project = 'starting value of this program, no source';

/** Standard deviations of readings written without ±, absolute (SI) or as a share. */
const INSTRUMENTS = {
  seatFace: 0.25e-3,
  clearance: 0.05e-3,
  leastClearanceShare: 0.15,
  shim: 0.02e-3,
  windingDiameter: 0.25e-3,
  wire: 0.005e-3,
  resistance: 0.01,
  temperature: 3,
  pullShare: 0.02,
  pullAmount: 0.2,
  gap: 0.05e-3,
  voltage: 0.005,
  current: 0.01,
};
/** Share of copper in a layered winding, and the standard deviation of its logarithm. */
const USUAL_COPPER = { share: 0.52, spread: 0.15 };
/** Faces never meet: scale, roughness and tilt. */
const CONTACT = { gap: 0.05e-3, spread: 0.04e-3, unmeasured: 0.1e-3, unmeasuredSpread: 0.6 };
/** Volts of a charging battery over rated, and a cold coil (K), for the strongest current. */
const STRONGEST = { overRated: 1.25, coldest: 253.15, density: 12e6 };

export function solenoidBench(document: SolenoidDocument): SolenoidBench {
  const missing: { path: string; words: string }[] = [];
  const findings: { path: string; words: string }[] = [];
  const assumed: Assumption[] = [];
  const problems: Problem[] = contradictions(document);
  const stroke = si(document.plunger.stroke, 'length');
  const steel = steelOf(document);
  let dimensions = dimensionsOf(document, missing);
  if (problems.length === 0)
    try {
      checkTable(steel);
      if (dimensions !== null) checkDimensions(dimensions);
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      problems.push(problemOf(error));
    }
  if (problems.length > 0) dimensions = null;
  const winding = windingOf(document, problems, missing, findings, assumed);
  const priors = priorsOf(document, winding, assumed);
  const readings = document.pulls.flatMap((_, i) => readingOf(document, i, winding, missing));
  return {
    name: document.name,
    dimensions,
    stroke,
    steel,
    problems,
    missing,
    winding,
    findings,
    priors,
    readings,
    mostAmpereTurns: strongest(document, dimensions, winding, readings),
    assumed,
  };
}

/** Ampere-turns of a drive, or null where turns or ohms are not known. */
export function ampereTurnsOf(
  winding: BenchWinding | null,
  drive: BenchDrive,
): { ampereTurns: number; byTurns: boolean } | null {
  if (drive.by === 'ampere-turns') return { ampereTurns: drive.ampereTurns, byTurns: false };
  if (winding === null) return null;
  if (drive.by === 'current') return { ampereTurns: winding.turns * drive.current, byTurns: true };
  const { resistance, readAt, turns } = winding;
  if (resistance === null || readAt === null) return null;
  return {
    ampereTurns: (turns * drive.voltage) / copperResistance(resistance, readAt, drive.coilTemperature),
    byTurns: true,
  };
}

/** @throws DomainError SW-M020 to SW-M022 */
function checkTable(table: MagnetisationTable): MagnetisationCurve {
  return new MagnetisationCurve(table);
}

const si = (text: string, dimension: Dimension): number | null => quantityIn(text, dimension)?.value ?? null;

/** Standard deviation: half of what stands behind ±, or the instrument's. */
function spreadOf(text: string, dimension: Dimension, instrument: number): number {
  const plusMinus = quantityIn(text, dimension)?.plusMinus ?? null;
  return plusMinus === null ? instrument : plusMinus / 2;
}

function steelOf({ steel }: SolenoidDocument): SolenoidBench['steel'] {
  if (steel.by === 'table') return steelTables.find(({ name }) => name === steel.table)!;
  return {
    name: 'own readings',
    source: steel.source,
    fluxDensity: steel.rows.map((row) => si(row.fluxDensity, 'magneticFluxDensity') ?? Number.NaN),
    fieldStrength: steel.rows.map((row) => si(row.fieldStrength, 'magneticFieldStrength') ?? Number.NaN),
  };
}

function dimensionsOf(
  document: SolenoidDocument,
  missing: { path: string; words: string }[],
): SolenoidDimensions | null {
  const { can, plates, plunger, seat, coil, guideTube, radialClearance } = document;
  let isComplete = true;
  const need = (path: string, text: string, dimension: Dimension = 'length'): number => {
    const value = si(text, dimension);
    if (value !== null) return value;
    missing.push({ path, words: 'without it there is no field to solve' });
    isComplete = false;
    return 0;
  };
  const length = need('can.length', can.length);
  const bottom = need('plates.bottom', plates.bottom);
  const top = need('plates.top', plates.top);
  const dimensions: SolenoidDimensions = {
    can: {
      outerRadius: need('can.outsideDiameter', can.outsideDiameter) / 2,
      wall: need('can.wall', can.wall),
      length,
    },
    bottomPlate: { thickness: bottom },
    topPlate: { thickness: top },
    plunger: {
      radius: need('plunger.diameter', plunger.diameter) / 2,
      length: need('plunger.length', plunger.length),
      ...(plunger.bore === 'none'
        ? {}
        : {
            bore: {
              from: plunger.bore.from,
              radius: need('plunger.bore.diameter', plunger.bore.diameter) / 2,
              depth: need('plunger.bore.depth', plunger.bore.depth),
            },
          }),
    },
    radialClearance: need('radialClearance', radialClearance),
    seat: {
      radius: need('seat.diameter', seat.diameter) / 2,
      faceHeight: length - need('seat.faceBelowTop', seat.faceBelowTop),
      ...(seat.shape.kind === 'flat'
        ? {}
        : {
            cone: {
              includedAngle: need('seat.shape.includedAngle', seat.shape.includedAngle, 'angle'),
              tipRadius: need('seat.shape.tipDiameter', seat.shape.tipDiameter) / 2,
            },
          }),
    },
    coil: {
      innerRadius: need('coil.insideDiameter', coil.insideDiameter) / 2,
      outerRadius: need('coil.outsideDiameter', coil.outsideDiameter) / 2,
      bottom: bottom + need('coil.bottomCheek', coil.bottomCheek),
      top: length - top - need('coil.topCheek', coil.topCheek),
    },
    ...(guideTube === 'none'
      ? {}
      : {
          guideTube: {
            innerRadius: need('guideTube.insideDiameter', guideTube.insideDiameter) / 2,
            outerRadius: need('guideTube.outsideDiameter', guideTube.outsideDiameter) / 2,
          },
        }),
    residualShim: si(seat.residualShim, 'length') ?? CONTACT.unmeasured,
  };
  return isComplete ? dimensions : null;
}

/** The field of the document behind the name that a refusal of the field solver begins with. */
const FIELDS: readonly (readonly [name: string, path: string])[] = [
  ['can outer radius', 'can.outsideDiameter'],
  ['can wall', 'can.wall'],
  ['can length', 'can.length'],
  ['bottom plate', 'plates.bottom'],
  ['top plate', 'plates.top'],
  ['both plates', 'plates.top'],
  ['plunger bore', 'plunger.bore'],
  ['plunger length', 'plunger.length'],
  ['plunger', 'plunger.diameter'],
  ['radial clearance', 'radialClearance'],
  ['bore of the top plate', 'radialClearance'],
  ['seat face height', 'seat.faceBelowTop'],
  ['seat', 'seat.diameter'],
  ['cone', 'seat.shape'],
  ['recess of the seat', 'seat.shape'],
  ['coil', 'coil'],
  ['guide tube', 'guideTube'],
  ['residual shim', 'seat.residualShim'],
];

function problemOf(error: DomainError): Problem {
  const problem = error.message.replace(`${error.code} `, '');
  const path = FIELDS.find(([name]) => problem.startsWith(name))?.[1] ?? (problem.includes('table') ? 'steel' : '');
  return { path, read: 'the parts as reckoned from the readings', problem };
}

function windingOf(
  document: SolenoidDocument,
  problems: readonly Problem[],
  missing: { path: string; words: string }[],
  findings: { path: string; words: string }[],
  assumed: Assumption[],
): BenchWinding | null {
  const { coil, can, plates } = document;
  const [inside, outside] = [si(coil.insideDiameter, 'length'), si(coil.outsideDiameter, 'length')];
  const parts = [can.length, plates.bottom, plates.top, coil.bottomCheek, coil.topCheek].map((text) =>
    si(text, 'length'),
  );
  const [over, bottom, top, lower, upper] = parts;
  const window: WindingWindow | null =
    problems.length > 0 || inside === null || outside === null || parts.includes(null)
      ? null
      : { innerRadius: inside / 2, outerRadius: outside / 2, length: over! - bottom! - top! - lower! - upper! };
  const [resistance, readAt] = [si(coil.resistance, 'resistance'), si(coil.readAt, 'temperature')];
  const wire = si(coil.wireDiameter, 'length');
  const common = { wireDiameter: wire, resistance, readAt };
  const ohmsSpread = Math.hypot(
    resistance === null ? 0 : spreadOf(coil.resistance, 'resistance', INSTRUMENTS.resistance * resistance) / resistance,
    0.0039 * spreadOf(coil.readAt, 'temperature', INSTRUMENTS.temperature),
  );
  let winding: BenchWinding | null = null;
  if (window !== null && resistance !== null && readAt !== null) {
    const turnSpread =
      Math.hypot(
        spreadOf(coil.insideDiameter, 'length', INSTRUMENTS.windingDiameter),
        spreadOf(coil.outsideDiameter, 'length', INSTRUMENTS.windingDiameter),
      )
      / (2 * (window.innerRadius + window.outerRadius));
    if (wire !== null) {
      const turns = turnsFromResistance(window, wire, resistance, readAt);
      const wireSpread = (2 * spreadOf(coil.wireDiameter, 'length', INSTRUMENTS.wire)) / wire;
      const spread = Math.max(0.01, Math.hypot(ohmsSpread, turnSpread, wireSpread));
      winding = { ...common, turns, spread, from: 'ohms and wire', fill: windingFill(window, wire, turns) };
    } else {
      const { turns, wireDiameter } = windingFromCopperShare(window, USUAL_COPPER.share, resistance, readAt);
      const spread = Math.hypot(ohmsSpread / 2, turnSpread, USUAL_COPPER.spread / 2);
      winding = {
        ...common,
        turns,
        spread,
        from: 'ohms and a usual fill',
        fill: windingFill(window, wireDiameter, turns),
      };
      if (coil.turns === 'not measured')
        assumed.push({
          path: 'coil.wireDiameter',
          text: `copper fills ${USUAL_COPPER.share} of the window`,
          source: practice,
        });
    }
  }
  if (coil.turns === 'not measured') {
    if (winding === null)
      missing.push({
        path: 'coil.turns',
        words: 'without turns, or ohms, temperature and window, volts and amps say nothing of the pull',
      });
    else findings.push(...windingWords(winding, null));
    return winding;
  }
  const counted: BenchWinding = {
    ...common,
    turns: coil.turns,
    spread: 0.003,
    from: 'counted',
    fill: window === null || wire === null ? null : windingFill(window, wire, coil.turns),
  };
  findings.push(...windingWords(counted, winding));
  return counted;
}

function priorsOf(
  { radialClearance, seat }: SolenoidDocument,
  winding: BenchWinding | null,
  assumed: Assumption[],
): TrimPriors {
  const clearance = si(radialClearance, 'length') ?? INSTRUMENTS.clearance;
  const shim = si(seat.residualShim, 'length');
  if (shim === null)
    assumed.push({ path: 'seat.residualShim', text: '0.1 mm between the faces at home', source: project });
  const median = shim === null ? CONTACT.unmeasured : shim + CONTACT.gap;
  const shimSpread = Math.hypot(spreadOf(seat.residualShim, 'length', INSTRUMENTS.shim), CONTACT.spread) / median;
  return {
    turns: winding?.spread ?? 0.003,
    residualGap: { median, spread: shim === null ? CONTACT.unmeasuredSpread : Math.min(0.6, shimSpread) },
    radialClearance: Math.min(
      0.45,
      Math.max(INSTRUMENTS.leastClearanceShare, spreadOf(radialClearance, 'length', INSTRUMENTS.clearance) / clearance),
    ),
    saturation: 0.04,
    fieldStrength: 0.2,
    seatFaceHeight: spreadOf(seat.faceBelowTop, 'length', INSTRUMENTS.seatFace),
  };
}

function readingOf(
  document: SolenoidDocument,
  i: number,
  winding: BenchWinding | null,
  missing: { path: string; words: string }[],
): BenchReading[] {
  const { gap: gapText, pull: pullText, drive } = document.pulls[i];
  const path = `pulls[${i}]`;
  const [gap, pull, driven] = [si(gapText, 'length'), si(pullText, 'force'), driveOf(drive)];
  const atDrive = driven === null ? null : ampereTurnsOf(winding, driven);
  if (gap === null || pull === null || atDrive === null) {
    const where = gap === null ? `${path}.gap` : pull === null ? `${path}.pull` : `${path}.drive`;
    missing.push({ path: where, words: 'without it this pull says nothing and is left out' });
    return [];
  }
  return [
    {
      path,
      gap,
      pull,
      ...atDrive,
      // However exact it is said to be, no balance reads to a thousandth.
      pullSpread: Math.max(
        pull / 1000,
        spreadOf(pullText, 'force', Math.hypot(INSTRUMENTS.pullShare * pull, INSTRUMENTS.pullAmount)),
      ),
      gapSpread: spreadOf(gapText, 'length', gap === 0 ? 0 : INSTRUMENTS.gap),
      driveSpread: driveSpread(drive),
    },
  ];
}

/** The drive of a pull in SI, or null where a reading is missing. */
function driveOf(drive: PullDrive): BenchDrive | null {
  if (drive.by === 'current') {
    const current = si(drive.current, 'current');
    return current === null ? null : { by: 'current', current };
  }
  if (drive.by === 'ampere-turns') {
    const ampereTurns = si(drive.ampereTurns, 'current');
    return ampereTurns === null ? null : { by: 'ampere-turns', ampereTurns };
  }
  const [voltage, coilTemperature] = [si(drive.voltage, 'voltage'), si(drive.coilTemperature, 'temperature')];
  return voltage === null || coilTemperature === null ? null : { by: 'voltage', voltage, coilTemperature };
}

function driveSpread(drive: PullDrive): number {
  const share = (text: string, dimension: Dimension, instrument: number): number => {
    const value = si(text, dimension)!;
    return spreadOf(text, dimension, instrument * value) / value;
  };
  if (drive.by === 'current') return share(drive.current, 'current', INSTRUMENTS.current);
  if (drive.by === 'ampere-turns') return share(drive.ampereTurns, 'current', INSTRUMENTS.current);
  const warm = 0.0039 * spreadOf(drive.coilTemperature, 'temperature', INSTRUMENTS.temperature);
  return Math.hypot(share(drive.voltage, 'voltage', INSTRUMENTS.voltage), warm);
}

function strongest(
  { coil }: SolenoidDocument,
  dimensions: SolenoidDimensions | null,
  winding: BenchWinding | null,
  readings: readonly BenchReading[],
): number | null {
  const rated = si(coil.ratedVoltage, 'voltage');
  const fed =
    rated === null
      ? null
      : ampereTurnsOf(winding, {
          by: 'voltage',
          voltage: STRONGEST.overRated * rated,
          coilTemperature: STRONGEST.coldest,
        });
  const known = [...(fed === null ? [] : [fed.ampereTurns]), ...readings.map(({ ampereTurns }) => 1.2 * ampereTurns)];
  if (known.length > 0) return Math.max(...known);
  // Neither volts nor a pull: as much as a winding stands for a moment.
  if (dimensions === null) return null;
  const { innerRadius, outerRadius, bottom, top } = dimensions.coil;
  return STRONGEST.density * USUAL_COPPER.share * (outerRadius - innerRadius) * (top - bottom);
}
