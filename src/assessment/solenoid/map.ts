/**
 * The co-energy map of a solenoid on the bench as a job keeps it: what its motion is reckoned from without another solve.
 *
 * Without pulls it is the field of the dimensions as they were read. With pulls, what they leave of the unknowns (turns,
 * residual gap, clearance, steel, height of the seat) is put into the dimensions, and the field is solved for those. Gaps
 * are as they are read, from home; ampere-turns are those that flow, and flux linkage is that of one turn. Left out is what
 * the force curve allows each pull for itself beyond the fitted solenoid (`Discrepancy`): it belongs to places, and no one
 * co-energy has it.
 */
import type { Solenoid } from '../../job/schema.ts';
import type { MagnetisationTable } from '../../physics/magnetics/magnetisation-curve.ts';
import { fieldKey } from '../../physics/solenoid/field-key.ts';
import type { SolenoidDimensions } from '../../physics/solenoid/field/dimensions.ts';
import {
  fieldMapSteps,
  spreadGaps,
  type FieldMap,
  type MapProgress,
  type MapRequest,
} from '../../physics/solenoid/field/field-map.ts';
import { fitTrim } from '../../physics/solenoid/trim.ts';
import type { TrimMaps } from '../../physics/solenoid/trim-maps.ts';
import { scaledTable, TRIM_UNKNOWNS, trimValues } from '../../physics/solenoid/trim-unknowns.ts';
import type { SolenoidBench } from './bench.ts';

export type CoEnergyMap = NonNullable<Solenoid['map']>;

/** Plain data. */
export interface SolvedMap {
  readonly lines: CoEnergyMap['lines'];
  /** Turns of the winding on the bench, as the pulls leave them; null where they are not known. */
  readonly turns: number | null;
  /** Largest relative error of force and flux linkage, by the mesh and by the surface between its gaps and levels. */
  readonly estimatedError: { readonly force: number; readonly fluxLinkage: number };
}

/** What is to be solved. */
export interface MapPlan {
  /** Equal for equal solves. */
  readonly key: string;
  readonly dimensions: SolenoidDimensions;
  readonly steel: MagnetisationTable;
  readonly request: MapRequest;
  readonly turns: number | null;
}

const GAPS = 12;
/** Levels to begin with, as shares of the strongest current. */
const LEVELS = [0.05, 0.15, 0.4, 1];
/** Twice the usual: within 1 % of force where it was compared, with half the numbers. */
const TOLERANCE = 0.02;

/**
 * For a bench that has none of `whyNoMaps`.
 *
 * @param maps needed where pulls were read, for they are fitted with these
 */
export function mapPlan(bench: SolenoidBench, maps: TrimMaps | null): MapPlan {
  const { priors, readings, winding } = bench;
  const scores = maps === null ? new Float64Array(TRIM_UNKNOWNS.length) : fitTrim(maps, priors, readings).scores;
  const { turnsFactor, residualGap, clearanceFactor, saturation, fieldStrength, faceOffset } = trimValues(
    priors,
    scores,
  );
  const read = bench.dimensions!;
  const dimensions: SolenoidDimensions = {
    ...read,
    radialClearance: read.radialClearance * clearanceFactor,
    residualShim: residualGap,
    seat: { ...read.seat, faceHeight: read.seat.faceHeight + faceOffset },
  };
  const steel = scaledTable(bench.steel, saturation, fieldStrength);
  // More turns than reckoned make more ampere-turns of the same current.
  const most = bench.mostAmpereTurns! * Math.max(1, turnsFactor);
  const request: MapRequest = {
    gaps: spreadGaps(0, bench.stroke!, GAPS),
    ampereTurns: LEVELS.map((share) => share * most),
    tolerance: TOLERANCE,
  };
  return {
    key: fieldKey({ what: 'co-energy map', dimensions, steel, request: { ...request } }),
    dimensions,
    steel,
    request,
    turns: winding === null ? null : Number((winding.turns * turnsFactor).toPrecision(6)),
  };
}

/**
 * Solves a plan, with progress at every gap.
 *
 * @throws DomainError SW-M042 a solve did not converge; SW-M031 fitted parts that do not fit each other
 */
export function* mapSteps({ dimensions, steel, request, turns }: MapPlan): Generator<MapProgress, SolvedMap> {
  const map = yield* fieldMapSteps(dimensions, steel, request);
  const { mesh, fit } = map.estimatedError;
  return {
    lines: linesOf(map),
    turns,
    estimatedError: {
      force: Math.max(mesh.force, fit.force),
      fluxLinkage: Math.max(mesh.fluxLinkage, fit.fluxLinkage),
    },
  };
}

function linesOf({ lines }: FieldMap): CoEnergyMap['lines'] {
  return lines.map(({ gap, ampereTurns, points }) => ({
    gap_m: gap,
    ampereTurns,
    coEnergy_J: points.map(({ coEnergy }) => coEnergy),
    fluxLinkage_Wb: points.map(({ fluxLinkage }) => fluxLinkage),
    force_N: points.map(({ force }) => force),
  }));
}
