/**
 * Extension springs with hooks: initial tension, length of body and hooks, turns that give way, stress in body and hooks.
 *
 * [1] EN 13906-2:2013 Cylindrical helical springs made from round wire and bar, extension springs
 * [2] J. E. Shigley, C. R. Mischke, R. G. Budynas, Mechanical Engineering Design, 8th to 10th ed., 10-11
 */
import { correctedShearStress, shearStress, springRate, type HelicalSpring } from './helical.ts';
import { helicalOfWire } from './compression.ts';
import { elasticModulus, shearModulus, wireStrength, type SpringWire } from './wire.ts';

/**
 * Shear stress by initial tension that is readily wound, Pa: least and most [2] eq. 10-41.
 *
 *     231 e^(-0.105 w) ± 6.9 (4 - (w - 3)/6.5)  MPa, w from 4 to 16
 */
export function usualInitialStress(springIndex: number): readonly [least: number, most: number] {
  const middle = 231 * Math.exp(-0.105 * springIndex);
  const half = 6.9 * (4 - (springIndex - 3) / 6.5);
  return [1e6 * (middle - half), 1e6 * (middle + half)];
}

/**
 * Most shear stress by initial tension, Pa [1], from memory: (0.135 - 0.00625 w) Rm wound on a lathe, (0.075 - 0.00375 w) Rm
 * on an automatic machine.
 */
export function mostInitialStress(springIndex: number, strength: number, wound: 'on a lathe' | 'by machine'): number {
  const share = wound === 'on a lathe' ? 0.135 - 0.00625 * springIndex : 0.075 - 0.00375 * springIndex;
  return Math.max(0, share) * strength;
}

/** Least and most initial tension that is readily wound, N; the stress of `usualInitialStress`, without correction. */
export function usualInitialTension(spring: HelicalSpring): readonly [least: number, most: number] {
  const [least, most] = usualInitialStress(spring.meanCoilDiameter / spring.wireDiameter);
  const perNewton = shearStress(spring, 1);
  return [least / perNewton, most / perNewton];
}

/**
 * Turns that give way: those of the body, and what two full hooks bend, as turns [2] eq. 10-40.
 *
 *     n = n_body + G/E
 */
export function activeTurnsWithHooks(bodyTurns: number, wire: SpringWire): number {
  return bodyTurns + shearModulus(wire) / elasticModulus(wire);
}

/** Length of the closed body, m: (n_body + 1) d [1]. */
export function bodyLength(bodyTurns: number, wireDiameter: number): number {
  return (bodyTurns + 1) * wireDiameter;
}

/**
 * From the body to the inside of a full hook over the inside diameter of the coil [1], from memory: 0.8 to 1.1 is one turn
 * bent up; more is a hook drawn out.
 */
export const hookReach = { least: 0.8, usual: 1, most: 1.1 } as const;

/** Free length inside the hooks, m: body and two hooks. With a reach of 1 it is [2] eq. 10-39, (2 w - 1 + n_body) d. */
export function extensionFreeLength(
  bodyTurns: number,
  wireDiameter: number,
  meanCoilDiameter: number,
  reach: number = hookReach.usual,
): number {
  return bodyLength(bodyTurns, wireDiameter) + 2 * reach * (meanCoilDiameter - wireDiameter);
}

export interface HookStress {
  /** Bending where the hook is bent furthest from the axis, Pa. */
  readonly bending: number;
  /** Twist where the hook is bent up from the body, Pa. */
  readonly twist: number;
}

/**
 * Stress in the hooks of an extension spring [2] eqs. 10-34 to 10-37.
 *
 *     σ = F (K 16 D/(π d³) + 4/(π d²)),  K = (4 c² - c - 1) / (4 c (c - 1)),  c = 2 r1/d
 *     τ = (4 c - 1)/(4 c - 4) 8 F D/(π d³),                                   c = 2 r2/d
 *
 * @param hookRadius r1, mean radius of the hook, m; a full hook has that of the coil
 * @param bendRadius r2, mean radius of the bend between body and hook, m
 */
export function hookStress(spring: HelicalSpring, force: number, hookRadius: number, bendRadius: number): HookStress {
  const { wireDiameter: d, meanCoilDiameter: D } = spring;
  const c1 = (2 * hookRadius) / d;
  const c2 = (2 * bendRadius) / d;
  const inBending = (4 * c1 * c1 - c1 - 1) / (4 * c1 * (c1 - 1));
  const inTwist = (4 * c2 - 1) / (4 * c2 - 4);
  return {
    bending: force * ((inBending * 16 * D) / (Math.PI * d ** 3) + 4 / (Math.PI * d * d)),
    twist: (inTwist * 8 * force * D) / (Math.PI * d ** 3),
  };
}

/** Permissible static stress over tensile strength [2] table 10-7, patented wire: body and hook in twist, hook in bending. */
export const extensionShares = { body: 0.45, hookTwist: 0.4, hookBending: 0.75 } as const;

/** Bend between body and hook that is taken where it is not told, over the wire's diameter: common practice, no source. */
export const usualBend = 2.5;

export interface ExtensionSpring {
  readonly kind: 'extension';
  readonly wire: SpringWire;
  readonly wireDiameter: number;
  readonly meanCoilDiameter: number;
  readonly activeTurns: number;
  readonly freeLength: number;
  readonly initialTension: number;
}

export interface ExtensionUse {
  readonly force: number;
  /** Pa, without and with correction for curvature. */
  readonly stress: number;
  readonly correctedStress: number;
  /** Corrected stress over what is allowed in the body; NaN where the strength is not known. */
  readonly stressUsed: number;
  /** The worse of bending and twist in the hooks over what is allowed there. */
  readonly hookUsed: number;
}

/** What an extension spring has used at a length. At or below its free length nothing but its initial tension. */
export function extensionUse(spring: ExtensionSpring, length: number): ExtensionUse {
  const helical = helicalOfWire(spring);
  const { wire, wireDiameter: d, meanCoilDiameter: D, freeLength, initialTension } = spring;
  const force = initialTension + springRate(helical) * Math.max(0, length - freeLength);
  const strength = wireStrength(wire, d);
  const corrected = correctedShearStress(helical, force);
  const { bending, twist } = hookStress(helical, force, D / 2, usualBend * d);
  return {
    force,
    stress: shearStress(helical, force),
    correctedStress: corrected,
    stressUsed: corrected / (extensionShares.body * strength),
    hookUsed: Math.max(
      bending / (extensionShares.hookBending * strength),
      twist / (extensionShares.hookTwist * strength),
    ),
  };
}
