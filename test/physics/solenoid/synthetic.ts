/** Synthetic solenoids with known truth, and a seeded source of normal numbers. */
import { type FieldSolution, prepareField } from '../../../src/physics/magnetics/field.ts';
import { MagnetisationCurve, type MagnetisationTable } from '../../../src/physics/magnetics/magnetisation-curve.ts';
import { checkDimensions, type SolenoidDimensions } from '../../../src/physics/solenoid/field/dimensions.ts';
import { COIL, solenoidProblem } from '../../../src/physics/solenoid/field/solenoid-problem.ts';
import type { TrimDrive } from '../../../src/physics/solenoid/trim.ts';
import { scaledTable, trimValues, type TrimPriors } from '../../../src/physics/solenoid/trim-unknowns.ts';

/** Uniform and normal numbers from a seed (a 32-bit multiply and add with output mixing). */
export function random(seed: number): { uniform: () => number; normal: () => number } {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let x = state;
    x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
    x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
    return ((x ^ (x >>> 15)) >>> 0) / 2 ** 32 + 2 ** -33;
  };
  return { uniform, normal: () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform()) };
}

/** The solenoid that the scores describe, built anew: dimensions with the residual gap as shim, and its steel. */
export function solenoidWithScores(
  guess: SolenoidDimensions,
  steel: MagnetisationTable,
  priors: TrimPriors,
  z: readonly number[],
): { solenoid: SolenoidDimensions; steel: MagnetisationCurve; turnsFactor: number } {
  const v = trimValues(priors, z);
  return {
    solenoid: {
      ...guess,
      residualShim: v.residualGap,
      radialClearance: guess.radialClearance * v.clearanceFactor,
      seat: { ...guess.seat, faceHeight: guess.seat.faceHeight + v.faceOffset },
    },
    steel: new MagnetisationCurve(scaledTable(steel, v.saturation, v.fieldStrength)),
    turnsFactor: v.turnsFactor,
  };
}

/** The same with every other dimension off by a normal share of itself, as far as the parts still fit. */
export function withOtherDimensionsOff(s: SolenoidDimensions, share: number, normal: () => number): SolenoidDimensions {
  for (;;) {
    const off = (value: number): number => value * (1 + share * normal());
    const other: SolenoidDimensions = {
      ...s,
      can: { ...s.can, wall: off(s.can.wall) },
      bottomPlate: { thickness: Math.min(off(s.bottomPlate.thickness), s.coil.bottom) },
      topPlate: { thickness: Math.min(off(s.topPlate.thickness), s.can.length - s.coil.top) },
      plunger: { ...s.plunger, length: off(s.plunger.length) },
      coil: { ...s.coil, innerRadius: off(s.coil.innerRadius), outerRadius: off(s.coil.outerRadius) },
    };
    try {
      checkDimensions(other);
      return other;
    } catch {
      // Parts that do not fit each other: draw again.
    }
  }
}

/** Pull of a solenoid by one field solve of its own. */
export function solvedPull(
  { solenoid, steel, turnsFactor }: ReturnType<typeof solenoidWithScores>,
  gap: number,
  drive: TrimDrive,
  elementLength: number,
): FieldSolution {
  const solution = prepareField(solenoidProblem(solenoid, gap, steel), elementLength).solve({
    [COIL]: drive.ampereTurns * (drive.byTurns ? turnsFactor : 1),
  });
  if (!solution.convergence.converged) throw new Error(`no field at gap ${gap}`);
  return solution;
}
