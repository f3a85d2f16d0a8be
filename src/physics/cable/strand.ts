/**
 * The core of a cable by its construction: how stiff, how heavy, how strong; and what it slides on.
 *
 * Modulus of a strand on its nominal circle, from the published factor G of stretch in percent = load × G / diameter²
 * (pounds-force and inches) [1]: E = 400/(π G) psi. Metal in the nominal circle by counting wires: 19 wires of one fifth of
 * the diameter, 49 of one ninth, 133 of one fifteenth. Its bending stiffness is taken as that of the wires one beside the
 * other: the least that it can be. Breaking load K d² R [2], with R the least strength of usual wire, 1570 N/mm².
 *
 * Left out: stretch that comes with bedding in (under 1 % once [1]), creep, wear and corrosion of the core.
 *
 * @throws DomainError SW-D091 a diameter that is not finite and above zero
 * [1] stretch factors of small strands on an open page of a wire-rope maker (seen; its name is withheld)
 * [2] EN 12385-4 and EN 12385-10, factors of breaking load, from memory
 */
import { requireAboveZero } from '../domain-error.ts';

export type Construction =
  | 'solid wire'
  | 'strand 1x19, stainless'
  | 'strand 7x7, stainless'
  | 'strand 7x19, stainless'
  | 'strand 1x19, galvanised'
  | 'strand 7x7, galvanised'
  | 'strand 7x19, galvanised';

/** Percent of stretch for one pound-force on a core of one inch, as printed [1]. */
export const stretchFactor: Readonly<Record<Exclude<Construction, 'solid wire'>, number>> = {
  'strand 1x19, stainless': 0.00000779,
  'strand 7x7, stainless': 0.000012,
  'strand 7x19, stainless': 0.0000162,
  'strand 1x19, galvanised': 0.00000698,
  'strand 7x7, galvanised': 0.0000107,
  'strand 7x19, galvanised': 0.000014,
};

/** Pascals in a pound-force per square inch: 0.45359237 kg × 9.80665 m/s² / (25.4 mm)². */
const PSI = (0.45359237 * 9.80665) / 0.0254 ** 2;

/** Steel wire, Pa and kg/m³: common practice. */
const WIRE_MODULUS = 200e9;
const DENSITY = 7900;
const GRAVITY = 9.80665;

/** Least strength of usual wire, Pa [2]. */
const WIRE_STRENGTH = 1570e6;

interface Make {
  readonly wires: number;
  /** Diameters of a wire across the core. */
  readonly across: number;
  /** K of the breaking load [2]; π/4 for one wire. */
  readonly strength: number;
}

const makes = {
  'solid wire': { wires: 1, across: 1, strength: Math.PI / 4 },
  '1x19': { wires: 19, across: 5, strength: 0.525 },
  '7x7': { wires: 49, across: 9, strength: 0.388 },
  '7x19': { wires: 133, across: 15, strength: 0.362 },
} as const satisfies Record<string, Make>;

function makeOf(construction: Construction): Make {
  if (construction === 'solid wire') return makes['solid wire'];
  return makes[construction.slice('strand '.length, construction.indexOf(',')) as '1x19' | '7x7' | '7x19'];
}

export interface Core {
  /** m */
  readonly diameter: number;
  /** E A, N. */
  readonly axialStiffness: number;
  /** E I, N m²: of the wires one beside the other. */
  readonly bendingStiffness: number;
  /** N/m */
  readonly weight: number;
  /** N */
  readonly breakingLoad: number;
}

/** Modulus on the nominal circle, Pa. */
export function coreModulus(construction: Construction): number {
  return construction === 'solid wire' ? WIRE_MODULUS : (400 / (Math.PI * stretchFactor[construction])) * PSI;
}

export function coreOf(construction: Construction, diameter: number): Core {
  requireAboveZero('SW-D091', 'the diameter of a core', diameter);
  const { wires, across, strength } = makeOf(construction);
  const d = diameter;
  const wire = d / across;
  return {
    diameter,
    axialStiffness: (coreModulus(construction) * Math.PI * d ** 2) / 4,
    bendingStiffness: (wires * WIRE_MODULUS * Math.PI * wire ** 4) / 64,
    weight: ((wires * Math.PI * wire ** 2) / 4) * DENSITY * GRAVITY,
    breakingLoad: strength * d ** 2 * WIRE_STRENGTH,
  };
}

export type Lining = 'PTFE' | 'plastic' | 'steel, greased' | 'steel, dry' | 'corroded or dirty';

/** Coefficient of friction of a steel core: usual range from handbooks, from memory; 0.06 on a clean new lining was seen. */
export const liningFriction: Readonly<Record<Lining, readonly [number, number]>> = {
  PTFE: [0.04, 0.1],
  plastic: [0.08, 0.15],
  'steel, greased': [0.1, 0.16],
  'steel, dry': [0.15, 0.3],
  'corroded or dirty': [0.3, 0.6],
};
