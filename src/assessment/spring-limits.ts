/** What a spring that is drawn or pressed bears, and how much of it is left at its furthest. */
import { bucklingDeflection, leastCoilGaps, seatingCoefficient, solidLength } from '../physics/spring/compression.ts';
import { correctedShearStress, permissibleShare, shearStress } from '../physics/spring/helical.ts';
import { elasticModulus, shearModulus, wireStrength } from '../physics/spring/wire.ts';
import { springForce, type WorkingSpring } from '../physics/spring/working.ts';
import type { RigSpring } from './springs-of.ts';

export type OwnLimit = 'stress' | 'length' | 'coils touch' | 'buckling';

export interface SpringLimits {
  /** Force at which the permissible stress is reached, N; infinite for a spring known by rate or readings, NaN for a wire that is not tabulated. */
  readonly force: number;
  /** How far it may be drawn or pressed from its free length, m, and what ends it. */
  readonly deflection: number;
  readonly end: 'length' | 'coils touch';
  /** How far it may be pressed before it buckles, m. */
  readonly buckling: number;
}

export function limitsOf({ working, helical, description, limitLength }: RigSpring): SpringLimits {
  const isExtension = working.kind === 'extension';
  if (helical === null || description.spring.by !== 'dimensions') {
    const deflection = isExtension ? limitLength - working.freeLength : working.freeLength - limitLength;
    return { force: Infinity, deflection, end: 'length', buckling: Infinity };
  }
  const { ends, wire } = description.spring;
  // Static duty: EN 13906-1 judges a compression spring without, EN 13906-2 an extension spring's body with correction.
  const stressOfOne = isExtension ? correctedShearStress(helical, 1) : shearStress(helical, 1);
  const force = (permissibleShare(working.kind) * wireStrength(wire, helical.wireDiameter)) / stressOfOne;
  if (isExtension) return { force, deflection: Infinity, end: 'length', buckling: Infinity };
  return {
    force,
    deflection: working.freeLength - shortestLength(helical, ends),
    end: 'coils touch',
    buckling: bucklingDeflection(
      working.freeLength,
      helical.meanCoilDiameter,
      shearModulus(wire) / elasticModulus(wire),
      seatingCoefficient[description.on === 'plunger' ? 'both ends held parallel' : 'both ends pivoted'],
    ),
  };
}

/** Length at which the coils of a pressed spring begin to touch, m. */
export function shortestLength(
  helical: NonNullable<RigSpring['helical']>,
  ends: 'closed and ground' | 'closed' | 'hooks',
): number {
  return (
    solidLength(helical.activeTurns, helical.wireDiameter, ends === 'closed and ground' ? ends : 'closed')
    + leastCoilGaps(helical)
  );
}

export interface LimitLeft {
  /** Allowed over used, minus one: the least. */
  readonly margin: number;
  readonly limit: OwnLimit;
}

/** The least margin of a spring at its longest (drawn) or shortest (pressed); NaN where its wire is not tabulated. */
export function leftAt(limits: SpringLimits, working: WorkingSpring, extreme: number): LimitLeft {
  const force = springForce(working, extreme);
  const deflection = working.kind === 'extension' ? extreme - working.freeLength : working.freeLength - extreme;
  const over = (allowed: number) => (deflection > 0 ? allowed / deflection - 1 : Infinity);
  const stress: LimitLeft = { margin: Number.isNaN(limits.force) ? NaN : force > 0 ? limits.force / force - 1 : Infinity, limit: 'stress' }; // prettier-ignore
  const isNone = limits.end === 'length' && limits.deflection <= 0;
  const end: LimitLeft = { margin: isNone ? -1 : over(limits.deflection), limit: limits.end };
  const buckles: LimitLeft = { margin: over(limits.buckling), limit: 'buckling' };
  return [end, buckles].reduce((least, one) => (one.margin < least.margin ? one : least), stress);
}
