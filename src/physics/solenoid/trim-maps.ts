/**
 * A row of field maps from which the co-energy of a slightly different solenoid is read off without another solve.
 *
 * Turns, residual gap and one of the two numbers of the steel need no maps of their own: ampere-turns and gap are the
 * axes of every map, and with polarisation s J(H/h) all fields scale,
 *
 *     W'(Θ; s, h) = h² W'(Θ/h; s/h, 1).
 *
 * Radial clearance c, the steel's ratio s/h and the height of the seat's face are varied: c and ln(s/h) on a grid of
 * 3 × 3, the face up and down. Between those maps the reluctance Θ²/2W' is a polynomial of second degree in each, which
 * fits because reluctances in series add. The maps are coarse; only the change from the middle one is taken from them,
 * on top of one map of the usual fineness. Force and flux linkage are slopes of the outcome, so energy stays conserved.
 */
import { DomainError } from '../domain-error.ts';
import { type FieldSolution, prepareField } from '../magnetics/field.ts';
import { MagnetisationCurve, type MagnetisationTable } from '../magnetics/magnetisation-curve.ts';
import {
  type CoEnergySurface,
  coEnergySurface,
  type GridLine,
  surfaceAt,
  type SurfacePoint,
} from './field/co-energy-surface.ts';
import { checkDimensions, type SolenoidDimensions } from './field/dimensions.ts';
import { COIL, solenoidProblem } from './field/solenoid-problem.ts';
import { USUAL_NEWTON } from '../magnetics/newton.ts';
import { scaledTable, type TrimPriors } from './trim-unknowns.ts';

export interface TrimMapRequest {
  /** Largest read gap that the curve is wanted for, m. */
  readonly stroke: number;
  /** Largest ampere-turns that the curve is wanted for, by the guess of the turns. */
  readonly mostAmpereTurns: number;
  /** Element lengths relative to the usual of the one fine map and of the coarse ones; 1.2 and 2.5 if left out. */
  readonly elementLength?: number;
  readonly coarseLength?: number;
}

/** Plain data; gaps are magnetic, that is from face to face. */
export interface TrimMaps {
  readonly fine: CoEnergySurface;
  /** Over clearance (outer) and ln(s/h) (inner), then the face at its lowest and at its highest, if it is varied. */
  readonly coarse: readonly CoEnergySurface[];
  /** Values that the maps stand at, one or three: radial clearance over the guess, ln(s/h), and offset of the face (m). */
  readonly clearances: readonly number[];
  readonly steelRatios: readonly number[];
  readonly faceOffsets: readonly number[];
  readonly nodes: number;
  readonly solves: number;
}

export interface TrimProgress {
  readonly done: number;
  readonly all: number;
}

/** Maps stand this many standard deviations from the guess. */
const REACH = 2;
/** The wanted ampere-turns are exceeded by this many standard deviations of turns and field strength. */
const LEVEL_REACH = 2.5;

/**
 * Solves the maps. A generator: it yields after each gap of each map, so that the caller can show progress or stop.
 *
 * @throws DomainError SW-M041 a stroke or ampere-turns that are not above zero; SW-M042 a solve did not converge; and
 *   what `solenoidProblem` throws
 */
export function* trimMapSteps(
  solenoid: SolenoidDimensions,
  steel: MagnetisationTable,
  priors: TrimPriors,
  request: TrimMapRequest,
): Generator<TrimProgress, TrimMaps> {
  const { stroke, mostAmpereTurns, elementLength = 1.2, coarseLength = 2.5 } = request;
  for (const [name, value] of [
    ['stroke', stroke],
    ['ampere-turns', mostAmpereTurns],
  ] as const)
    if (!(value > 0 && value < Infinity))
      throw new DomainError('SW-M041', `the ${name} of a trim must be finite and above zero, not ${value}`);
  checkDimensions(solenoid);
  const { median, spread } = priors.residualGap;
  const smallest = Math.max(1.01e-4 * solenoid.can.length, median * Math.exp(-REACH * spread));
  const largest = stroke + median * Math.exp(1.5 * REACH * spread);
  const most = mostAmpereTurns * Math.exp(LEVEL_REACH * Math.hypot(priors.turns, priors.fieldStrength));

  const clearances = axis(0, REACH * priors.radialClearance).map((x) => Math.exp(Math.max(-0.9, Math.min(0.9, x))));
  const steelRatios = axis(0, REACH * Math.hypot(priors.saturation, priors.fieldStrength));
  const faceOffsets = axis(0, faceReach(solenoid, REACH * priors.seatFaceHeight));
  const variants = [
    ...clearances.flatMap((clearance) => steelRatios.map((ratio) => ({ clearance, ratio, face: 0 }))),
    ...(faceOffsets.length === 3 ? [faceOffsets[0], faceOffsets[2]] : []).map((face) => ({
      clearance: 1,
      ratio: 0,
      face,
    })),
  ];
  const fineGaps = spacedGaps(smallest, largest, FINE_GAPS);
  const coarseGaps = spacedGaps(smallest, largest, COARSE_GAPS);
  const all = fineGaps.length + variants.length * coarseGaps.length;
  let [done, nodes, solves] = [0, 0, 0];

  function* surfaceOf(
    { clearance, ratio, face }: (typeof variants)[number],
    gaps: readonly number[],
    shares: readonly number[],
    length: number,
  ): Generator<TrimProgress, CoEnergySurface> {
    const varied = withFace(solenoid, face, clearance);
    const curve = new MagnetisationCurve(scaledTable(steel, Math.exp(ratio), 1));
    const lines: GridLine[] = [];
    for (const gap of gaps) {
      const levels = [(most * shares[0]) / 1000, ...shares.map((share) => most * share)];
      const field = prepareField(solenoidProblem({ ...varied, residualShim: 0 }, gap, curve), length, NEWTON);
      let last: FieldSolution | undefined;
      const points = levels.map((level) => {
        last = field.solve({ [COIL]: level }, last);
        if (!last.convergence.converged)
          throw new DomainError(
            'SW-M042',
            `no field found at gap ${gap} m and ${level} ampere-turns: residual ${last.convergence.residual} after ${last.convergence.iterations} iterations`,
          );
        return { coEnergy: last.coEnergy, fluxLinkage: last.fluxLinkage[COIL], force: -last.force };
      });
      lines.push({ gap, ampereTurns: levels, points });
      nodes += field.mesh.nodes;
      solves += levels.length;
      done++;
      yield { done, all };
    }
    return coEnergySurface(lines);
  }

  const fine = yield* surfaceOf({ clearance: 1, ratio: 0, face: 0 }, fineGaps, FINE_LEVELS, elementLength);
  const coarse: CoEnergySurface[] = [];
  for (const variant of variants) coarse.push(yield* surfaceOf(variant, coarseGaps, COARSE_LEVELS, coarseLength));
  return { fine, coarse, clearances, steelRatios, faceOffsets, nodes, solves };
}

const FINE_GAPS = 13;
const COARSE_GAPS = 7;
/** Levels as shares of the highest. */
const FINE_LEVELS = [0.01, 0.025, 0.05, 0.085, 0.13, 0.19, 0.26, 0.35, 0.48, 0.65, 0.82, 1];
const COARSE_LEVELS = [0.01, 0.05, 0.12, 0.25, 0.5, 1];

/** The last step is still taken, so that the error is about the square of what is left before it: enough for a per cent. */
const NEWTON = { ...USUAL_NEWTON, decrement: 1e-6 };

/** Middle and both ends, or the middle alone where nothing varies. */
function axis(middle: number, reach: number): number[] {
  return reach > 0 ? [middle - reach, middle, middle + reach] : [middle];
}

/** Gaps spaced evenly in ln(g + an eightieth of the range). */
function spacedGaps(smallest: number, largest: number, count: number): number[] {
  const softening = (largest - smallest) / 80;
  const ratio = (largest + softening) / (smallest + softening);
  return Array.from({ length: count }, (_, i) =>
    i === 0 ? smallest : i === count - 1 ? largest : (smallest + softening) * ratio ** (i / (count - 1)) - softening,
  );
}

function withFace(solenoid: SolenoidDimensions, face: number, clearance: number): SolenoidDimensions {
  return {
    ...solenoid,
    radialClearance: solenoid.radialClearance * clearance,
    seat: { ...solenoid.seat, faceHeight: solenoid.seat.faceHeight + face },
  };
}

/** How far the face can be moved with the parts still fitting each other: halved until they do. */
function faceReach(solenoid: SolenoidDimensions, wanted: number): number {
  const fits = (offset: number): boolean => {
    try {
      checkDimensions(withFace(solenoid, offset, 1));
      return true;
    } catch (error) {
      if (error instanceof DomainError) return false;
      throw error;
    }
  };
  for (let reach = wanted, k = 0; k < 8; reach /= 2, k++) if (fits(-reach) && fits(reach)) return reach;
  return 0;
}

/**
 * Co-energy (J), flux linkage per turn (Wb) and force (N) at a magnetic gap (m) and ampere-turns, for a solenoid with
 * this clearance over the guess, this ln(s/h) and this offset of the face. What lies outside the maps' reach is taken
 * at its edge: a gap below the smallest as the smallest, a clearance further than a quarter beyond as that.
 *
 * @throws DomainError SW-M040 a gap or ampere-turns above what the maps cover
 */
export function trimMapAt(
  maps: TrimMaps,
  magneticGap: number,
  ampereTurns: number,
  clearance: number,
  steelRatio: number,
  faceOffset: number,
): SurfacePoint {
  const gap = Math.max(magneticGap, maps.fine.gaps[0]);
  const point = surfaceAt(maps.fine, gap, ampereTurns);
  if (!(point.coEnergy > 0)) return { coEnergy: 0, fluxLinkage: 0, force: 0 };
  const alongClearance = weights(maps.clearances, clearance);
  const alongRatio = weights(maps.steelRatios, steelRatio);
  const alongFace = weights(maps.faceOffsets, faceOffset);
  const middle =
    Math.floor(maps.clearances.length / 2) * maps.steelRatios.length + Math.floor(maps.steelRatios.length / 2);
  const weight = alongClearance.flatMap((a) => alongRatio.map((b) => a * b));
  if (alongFace.length === 3) {
    weight[middle] -= alongFace[0] + alongFace[2];
    weight.push(alongFace[0], alongFace[2]);
  }
  // 1/W' is combined; its slopes follow.
  const base = surfaceAt(maps.coarse[middle], gap, ampereTurns);
  let [inverse, inverseLinkage, inverseForce] = [0, 0, 0];
  weight.forEach((w, k) => {
    const { coEnergy, fluxLinkage, force } = k === middle ? base : surfaceAt(maps.coarse[k], gap, ampereTurns);
    inverse += w / coEnergy;
    inverseLinkage += (w * fluxLinkage) / coEnergy ** 2;
    inverseForce += (w * force) / coEnergy ** 2;
  });
  const coEnergy = point.coEnergy / (inverse * base.coEnergy);
  return {
    coEnergy,
    fluxLinkage:
      coEnergy * (point.fluxLinkage / point.coEnergy + inverseLinkage / inverse - base.fluxLinkage / base.coEnergy),
    force: coEnergy * (point.force / point.coEnergy + inverseForce / inverse - base.force / base.coEnergy),
  };
}

/** Lagrange weights of one or three nodes. */
function weights(nodes: readonly number[], value: number): number[] {
  if (nodes.length === 1) return [1];
  const quarter = (nodes[2] - nodes[0]) / 8;
  const x = Math.min(nodes[2] + quarter, Math.max(nodes[0] - quarter, value));
  return nodes.map((a, i) => nodes.reduce((product, b, j) => (j === i ? product : (product * (x - b)) / (a - b)), 1));
}
