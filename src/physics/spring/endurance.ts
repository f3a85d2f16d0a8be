/**
 * Springs that move often: is the swing of stress within what the wire bears for ever?
 *
 * The diagrams of EN 13906-1 are not at hand. In their place stands Zimmerli's finding, that springs of patented and alloyed
 * wire under 10 mm bear the same swing whatever their strength and size, under a straight line of Goodman.
 *
 * [1] F. P. Zimmerli, Human failures in spring applications, The Mainspring 17 (1957), as quoted in [2]
 * [2] J. E. Shigley, C. R. Mischke, R. G. Budynas, Mechanical Engineering Design, 8th to 10th ed., 10-9
 */
import { correctedShearStress, type HelicalSpring } from './helical.ts';

export type Surface = 'plain' | 'shot peened';

/** Amplitude borne together with a mean stress, Pa [1]. */
export const zimmerli = {
  plain: { amplitude: 241e6, mean: 379e6 },
  'shot peened': { amplitude: 398e6, mean: 534e6 },
} as const;

/** Shear strength over tensile strength [2] eq. 10-30. */
export const SHEAR_SHARE = 0.67;

/** Amplitude borne about no mean stress, Pa: where Goodman's line through Zimmerli's point meets the axis, a/(1 - m/(0.67 Rm)). */
export function enduranceAmplitude(strength: number, surface: Surface): number {
  const { amplitude, mean } = zimmerli[surface];
  return amplitude / (1 - mean / (SHEAR_SHARE * strength));
}

/**
 * Share of endurance that a swing between two forces uses; at 1 it just lasts for ever (10⁷ times and more).
 *
 *     τa/Se + τm/(0.67 Rm),   both with correction for curvature
 *
 * Coils only: the hooks of an extension spring break first. Not for wire of 10 mm and more, rust, heat, or surging coils.
 * Found for steel wire at room temperature; for 1.4310 it is common practice, no source.
 *
 * @param strength least tensile strength, Pa
 */
export function enduranceUsed(
  spring: HelicalSpring,
  leastForce: number,
  greatestForce: number,
  strength: number,
  surface: Surface,
): number {
  const amplitude = correctedShearStress(spring, (greatestForce - leastForce) / 2);
  const mean = correctedShearStress(spring, (greatestForce + leastForce) / 2);
  return amplitude / enduranceAmplitude(strength, surface) + mean / (SHEAR_SHARE * strength);
}
