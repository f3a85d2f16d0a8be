import { DomainError } from '../../domain-error.ts';
import { MagnetisationCurve, type MagnetisationTable } from '../../magnetics/magnetisation-curve.ts';
import type { FieldProblem } from '../../magnetics/problem.ts';
import { checkDimensions, type SolenoidDimensions, solenoidOutlines } from './dimensions.ts';

/** The winding's name in the field problem of a solenoid. */
export const COIL = 'coil';

/**
 * The field problem of a plunger solenoid with its plunger at a gap from home, metres. A residual shim adds to the gap;
 * a non-magnetic guide tube is air to the field.
 *
 * @throws DomainError SW-M030, SW-M031 (dimensions), SW-M032 (the gap), SW-M020 to SW-M022 (the table)
 */
export function solenoidProblem(
  solenoid: SolenoidDimensions,
  gap: number,
  steel: MagnetisationTable | MagnetisationCurve,
): FieldProblem {
  checkDimensions(solenoid);
  const magneticGap = gap + (solenoid.residualShim ?? 0);
  const smallest = SMALLEST_GAP * solenoid.can.length;
  if (!(gap >= 0 && magneticGap >= smallest && gap < 20 * solenoid.can.length))
    throw new DomainError(
      'SW-M032',
      `gap ${gap} m with a residual shim of ${solenoid.residualShim ?? 0} m: together they must be ${smallest} m or more, for no two faces meet without any gap`,
    );
  const material = steel instanceof MagnetisationCurve ? steel : new MagnetisationCurve(steel);
  const outlines = solenoidOutlines(solenoid, magneticGap);
  return {
    surroundings: { kind: 'open' },
    regions: [
      { name: 'can', outline: outlines.can, material },
      { name: 'top plate', outline: outlines.topPlate, material },
      { name: 'bottom plate', outline: outlines.bottomPlate, material },
      { name: 'seat', outline: outlines.seat, material },
      { name: 'coil', outline: outlines.coil, material: 'air', winding: COIL },
      { name: 'plunger', outline: outlines.plunger, material, moving: true },
    ],
  };
}

/** Smallest magnetic gap, as a share of the can's length. */
const SMALLEST_GAP = 1e-4;
