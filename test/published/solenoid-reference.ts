import { readFileSync } from 'node:fs';
import type { SolenoidDimensions } from '../../src/physics/solenoid/field/dimensions.ts';

/** The reference's own words for the parts, millimetres and degrees. */
interface PrintedGeometry {
  readonly name: string;
  readonly can: { readonly outer_radius: number; readonly wall: number; readonly length: number };
  readonly bottom_plate: { readonly thickness: number };
  readonly top_plate: { readonly thickness: number };
  readonly plunger: { readonly radius: number; readonly length: number };
  readonly radial_clearance: number;
  readonly seat: {
    readonly face_z: number;
    readonly radius: number;
    readonly cone_included_angle_deg?: number;
    readonly cone_tip_radius?: number;
  };
  readonly coil: {
    readonly r_inner: number;
    readonly r_outer: number;
    readonly z_bottom: number;
    readonly z_top: number;
  };
  readonly gaps_mm: readonly number[];
  readonly ampere_turns: readonly number[];
}

/** One computed point of the reference, with its own error estimates in per cent. */
export interface ReferencePoint {
  readonly gap: number;
  readonly ampereTurns: number;
  readonly force: number;
  readonly fluxLinkage: number;
  readonly coEnergy: number;
  readonly forceErrorPercent: number;
}

export interface ReferenceCase {
  readonly name: string;
  readonly solenoid: SolenoidDimensions;
  readonly gaps: readonly number[];
  readonly ampereTurns: readonly number[];
  readonly points: readonly ReferencePoint[];
}

/** What the reference file holds besides the cases; as printed. */
export interface Printed {
  readonly bh: { readonly knots_used_B_T: number[]; readonly knots_used_H_A_per_m: number[] };
  readonly cases: readonly { readonly geometry: PrintedGeometry; readonly results: readonly (readonly number[])[] }[];
  readonly linear_checks: {
    readonly thick_coils: {
      readonly self_L: readonly {
        readonly r1: number;
        readonly r2: number;
        readonly h: number;
        readonly L_per_N2_H: number;
      }[];
      readonly pairs: readonly {
        readonly c1: readonly number[];
        readonly c2: readonly number[];
        readonly centre_distance: number;
        readonly M_per_N1N2: number;
        readonly F_per_NI1NI2: number;
      }[];
    };
    readonly nagaoka: { readonly K: Readonly<Record<string, number>> };
    readonly sphere: {
      readonly linear: readonly { readonly mur: number; readonly Bin_over_B0: number }[];
      readonly nonlinear: readonly { readonly B0_T: number; readonly Bin_T: number }[];
    };
    readonly uniform_gap: {
      readonly values: readonly {
        readonly NI: number;
        readonly gap_m: number;
        readonly R1_m: number;
        readonly R2_m: number;
        readonly lambda_per_turn_Wb: number;
        readonly force_core_only_N: number;
      }[];
    };
    readonly rod_nonlinear: {
      readonly values: readonly {
        readonly NI: number;
        readonly length_m: number;
        readonly rod_radius_m: number;
        readonly sheet_radius_m: number;
        readonly B_T: number;
      }[];
    };
  };
}

export const printed = JSON.parse(
  readFileSync(new URL('data/plunger-solenoid-field.json', import.meta.url), 'utf8'),
) as Printed;

const mm = 1e-3;

function dimensionsOf(g: PrintedGeometry): SolenoidDimensions {
  const { cone_included_angle_deg: angle, cone_tip_radius: tip } = g.seat;
  return {
    can: { outerRadius: g.can.outer_radius * mm, wall: g.can.wall * mm, length: g.can.length * mm },
    bottomPlate: { thickness: g.bottom_plate.thickness * mm },
    topPlate: { thickness: g.top_plate.thickness * mm },
    plunger: { radius: g.plunger.radius * mm, length: g.plunger.length * mm },
    radialClearance: g.radial_clearance * mm,
    seat: {
      radius: g.seat.radius * mm,
      faceHeight: g.seat.face_z * mm,
      ...(angle !== undefined && tip !== undefined
        ? { cone: { includedAngle: (angle * Math.PI) / 180, tipRadius: tip * mm } }
        : {}),
    },
    coil: {
      innerRadius: g.coil.r_inner * mm,
      outerRadius: g.coil.r_outer * mm,
      bottom: g.coil.z_bottom * mm,
      top: g.coil.z_top * mm,
    },
  };
}

/** The open cases, metres. */
export const referenceCases: readonly ReferenceCase[] = printed.cases.map(({ geometry, results }) => ({
  name: geometry.name,
  solenoid: dimensionsOf(geometry),
  gaps: geometry.gaps_mm.map((g) => g * mm),
  ampereTurns: geometry.ampere_turns,
  points: results.map(([gap, ampereTurns, force, fluxLinkage, coEnergy, forceErrorPercent]) => ({
    gap: gap * mm,
    ampereTurns,
    force,
    fluxLinkage,
    coEnergy,
    forceErrorPercent,
  })),
}));
