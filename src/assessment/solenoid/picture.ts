/**
 * What the drawings of a solenoid need: its dimensions as far as they were read, a coarse curve at once, and the field at
 * one gap. Plain data that passes between threads.
 */
import { quantityIn } from '../../job/quantity-text.ts';
import type { SolenoidDocument } from '../../job/solenoid/schema.ts';
import { pchip, pchipAt } from '../../numerics/pchip.ts';
import { prepareField } from '../../physics/magnetics/field.ts';
import { MAGNETIC_CONSTANT, type MagnetisationTable } from '../../physics/magnetics/magnetisation-curve.ts';
import type { SolenoidDimensions } from '../../physics/solenoid/field/dimensions.ts';
import { COIL, solenoidProblem } from '../../physics/solenoid/field/solenoid-problem.ts';
import type { SolenoidBench } from './bench.ts';
import { curveGaps } from './curve.ts';

/**
 * The dimensions in SI as they stand in the document, whether or not they fit each other; NaN where one was not measured.
 * For drawing only: what is solved is `solenoidBench`, and where that has dimensions these are the same (tested).
 */
export function drawnDimensions(document: SolenoidDocument): SolenoidDimensions {
  const { can, plates, plunger, seat, coil, guideTube, radialClearance } = document;
  const of = (text: string): number => quantityIn(text, 'length')?.value ?? Number.NaN;
  const [length, bottom, top] = [of(can.length), of(plates.bottom), of(plates.top)];
  const { bore } = plunger;
  const { shape } = seat;
  return {
    can: { outerRadius: of(can.outsideDiameter) / 2, wall: of(can.wall), length },
    bottomPlate: { thickness: bottom },
    topPlate: { thickness: top },
    plunger: {
      radius: of(plunger.diameter) / 2,
      length: of(plunger.length),
      ...(bore !== 'none' && { bore: { from: bore.from, radius: of(bore.diameter) / 2, depth: of(bore.depth) } }),
    },
    radialClearance: of(radialClearance),
    seat: {
      radius: of(seat.diameter) / 2,
      faceHeight: length - of(seat.faceBelowTop),
      ...(shape.kind === 'cone' && {
        cone: {
          includedAngle: quantityIn(shape.includedAngle, 'angle')?.value ?? Number.NaN,
          tipRadius: of(shape.tipDiameter) / 2,
        },
      }),
    },
    coil: {
      innerRadius: of(coil.insideDiameter) / 2,
      outerRadius: of(coil.outsideDiameter) / 2,
      bottom: bottom + of(coil.bottomCheek),
      top: length - top - of(coil.topCheek),
    },
    ...(guideTube !== 'none' && {
      guideTube: { innerRadius: of(guideTube.insideDiameter) / 2, outerRadius: of(guideTube.outsideDiameter) / 2 },
    }),
    residualShim: Number.isNaN(of(seat.residualShim)) ? 0 : of(seat.residualShim),
  };
}

/** The solenoid with the gap that its faces are believed to keep at home. */
function atHome(bench: SolenoidBench): SolenoidDimensions {
  return { ...bench.dimensions!, residualShim: bench.priors.residualGap.median };
}

/** Shares of the stroke, and an element length, with which eight solves are there within a tenth of a second. */
const COARSE_SHARES = [0, 0.02, 0.06, 0.13, 0.25, 0.42, 0.68, 1];
const COARSE_LENGTH = 4;

/** Force over the gap within about a tenth, for a curve that stands until the fine one is there. The bench has dimensions. */
export function coarseCurve(
  bench: SolenoidBench,
  ampereTurns: number,
): { readonly gap_mm: readonly number[]; readonly force_N: readonly number[] } {
  const stroke = bench.stroke!;
  const softening = 0.02 * stroke;
  const solved = COARSE_SHARES.map((share) => {
    const field = prepareField(solenoidProblem(atHome(bench), share * stroke, bench.steel), COARSE_LENGTH);
    const { force, convergence } = field.solve({ [COIL]: ampereTurns });
    return { gap: share * stroke, force: convergence.converged ? -force : Number.NaN };
  }).filter(({ force }) => force > 0);
  if (solved.length < 2) return { gap_mm: [], force_N: [] };
  const curve = pchip(
    solved.map(({ gap }) => Math.log(gap + softening)),
    solved.map(({ force }) => Math.log(force)),
  );
  const gaps = curveGaps(stroke).filter((gap) => gap >= solved[0].gap && gap <= solved[solved.length - 1].gap);
  return {
    gap_mm: gaps.map((gap) => gap * 1e3),
    force_N: gaps.map((gap) => Math.exp(pchipAt(curve, Math.log(gap + softening)))),
  };
}

/** Below this relative permeability steel counts as saturated here (common practice, no source). */
const SATURATED_PERMEABILITY = 100;

/** Flux density from which B / (μ0 H) of a table stays below `SATURATED_PERMEABILITY`. */
export function saturation({ fluxDensity: b, fieldStrength: h }: MagnetisationTable): {
  readonly from: number;
  readonly words: string;
} {
  const relative = (k: number): number => b[k] / (MAGNETIC_CONSTANT * h[k]);
  let k = b.length - 1;
  while (k > 1 && relative(k) < SATURATED_PERMEABILITY) k--;
  const words = `μr below ${SATURATED_PERMEABILITY}`;
  if (k === b.length - 1) return { from: b[k], words: 'beyond its table' };
  const share = (SATURATED_PERMEABILITY - relative(k)) / (relative(k + 1) - relative(k));
  return { from: b[k] + share * (b[k + 1] - b[k]), words };
}

/** The field at one gap (m), as data for its picture; lengths in metres, tesla, Wb/rad. */
export interface SolenoidFieldPicture {
  readonly solenoid: SolenoidDimensions;
  readonly gap: number;
  readonly ampereTurns: number;
  readonly coordinates: Float64Array;
  readonly triangles: Int32Array;
  readonly isSteel: Uint8Array;
  readonly potential: Float64Array;
  readonly fluxDensity: Float64Array;
  readonly saturated: { readonly from: number; readonly words: string };
}

/** @throws DomainError what `solenoidProblem` and the mesh throw. The bench has dimensions. */
export function fieldPicture(bench: SolenoidBench, gap: number, ampereTurns: number): SolenoidFieldPicture | null {
  const solenoid = atHome(bench);
  const problem = solenoidProblem(solenoid, gap, bench.steel);
  const field = prepareField(problem);
  const solution = field.solve({ [COIL]: ampereTurns });
  if (!solution.convergence.converged) return null;
  const { coordinates, triangles, region } = field.mesh;
  return {
    solenoid,
    gap,
    ampereTurns,
    coordinates,
    triangles,
    isSteel: Uint8Array.from(region, (r) => (r >= 0 && problem.regions[r].material !== 'air' ? 1 : 0)),
    potential: solution.potential,
    fluxDensity: Float64Array.from(region, (_, e) => field.fluxDensity(solution, e)),
    saturated: saturation(bench.steel),
  };
}
