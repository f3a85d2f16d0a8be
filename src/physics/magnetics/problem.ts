import type { MagnetisationCurve } from './magnetisation-curve.ts';
import type { Surroundings } from './mesh.ts';
import type { Point } from './outline.ts';

/** What fills a region: air or anything as unmagnetic, a fixed relative permeability, or a magnetisation curve. */
export type Material = 'air' | { readonly relativePermeability: number } | MagnetisationCurve;

/** A solid of revolution, by its section in the half-plane. */
export interface FieldRegion {
  readonly name: string;
  /** Corners in order, either way round; radius ≥ 0 and height, metres. */
  readonly outline: readonly Point[];
  readonly material: Material;
  /** Name of the winding that fills it with uniform current density. */
  readonly winding?: string;
  /** Part of the body whose axial force is wanted. */
  readonly moving?: boolean;
}

export interface FieldProblem {
  /** Regions may share edges but not overlap; what they leave free is air. */
  readonly regions: readonly FieldRegion[];
  readonly surroundings: Surroundings;
}

/** Ampere-turns of each winding by name; a winding not named carries none. */
export type AmpereTurns = Readonly<Record<string, number>>;
