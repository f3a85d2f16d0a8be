/**
 * The section of a plunger solenoid on the sheet: the axis lies level, home at the left, the plunger comes in from the
 * right, so that its gap grows the way the curves below it run. Shared by the cutaway and the picture of the field.
 */
import {
  checkDimensions,
  recessDepth,
  solenoidOutlines,
  type SolenoidDimensions,
} from '../../physics/solenoid/field/dimensions.ts';
import { formatQuantity } from '../../units/format.ts';
import type { DisplayUnits } from '../../units/display.ts';
import { known } from '../amounts.ts';
import { point, type Point } from '../plane.ts';
import { freeScale } from '../scale.ts';

/** Where metres of the solenoid stand on the sheet. */
export interface SectionFrame {
  /** Sheet millimetres per metre. */
  readonly scale: number;
  /** Height 0 (the outer face of the bottom plate) and the axis, mm. */
  readonly left: number;
  readonly axis: number;
}

/** Radius and height in metres, on the upper half of the sheet. */
export const onSection = ({ scale, left, axis }: SectionFrame, radius: number, height: number): Point =>
  point(left + height * scale, axis + radius * scale);

export const sectionParts = ['can', 'bottomPlate', 'topPlate', 'seat', 'coil', 'guideTube', 'plunger', 'shim'] as const;
export type SectionPart = (typeof sectionParts)[number];

/** Corners in metres: radius, height. */
type Ring = readonly (readonly [number, number])[];

export type SectionOutlines = Partial<Record<SectionPart, Ring>>;

/** Outlines of what can be drawn: a part with a missing or impossible number is left out, the others stay. */
export function sectionOutlines(given: SolenoidDimensions, gap: number): SectionOutlines {
  const solenoid = withDrawableCone(given);
  const { plunger, seat, guideTube, can, bottomPlate, residualShim } = solenoid;
  const shim = Math.max(0, known(residualShim) ?? 0);
  const rings: SectionOutlines = solenoidOutlines(solenoid, gap + shim);
  if (guideTube) {
    // The tube is as long as the bore it lines: from the bottom plate to the mouth.
    const [inner, outer] = [guideTube.innerRadius, guideTube.outerRadius];
    const [from, to] = [bottomPlate.thickness, can.length];
    rings.guideTube = [
      [inner, from],
      [outer, from],
      [outer, to],
      [inner, to],
    ];
  }
  if (shim > 0) rings.shim = shimRing(solenoid, shim, Math.min(plunger.radius, seat.radius));
  return Object.fromEntries(Object.entries(rings).filter(([, ring]) => ring.flat().every(Number.isFinite)));
}

/** The shim lies on the seat: on the face, or on the flank and floor of the recess. */
function shimRing(solenoid: SolenoidDimensions, thickness: number, radius: number): Ring {
  const { faceHeight, cone } = solenoid.seat;
  const face: [number, number][] =
    cone === undefined
      ? [
          [0, faceHeight],
          [radius, faceHeight],
        ]
      : [
          [0, faceHeight - recessDepth(solenoid)],
          [cone.tipRadius, faceHeight - recessDepth(solenoid)],
          [radius, faceHeight],
        ];
  return [...face, ...face.map(([r, z]): [number, number] => [r, z + thickness]).reverse()];
}

/** A cone that has no shape is left out, so that the rest of its parts is still seen. */
function withDrawableCone(solenoid: SolenoidDimensions): SolenoidDimensions {
  const { cone, ...seat } = solenoid.seat;
  if (cone === undefined) return solenoid;
  const deep = recessDepth(solenoid);
  return deep > 0 && deep < 100 * Math.abs(solenoid.can.length) ? solenoid : { ...solenoid, seat };
}

/** How far the section reaches, metres; null where nothing of it can be drawn. */
export function sectionExtent(
  solenoid: SolenoidDimensions,
  gap: number,
  reach: number,
): { readonly radius: number; readonly from: number; readonly to: number } | null {
  const corners = [gap, reach].flatMap((at) => Object.values(sectionOutlines(solenoid, at)).flat());
  const radius = Math.max(0, ...corners.map(([r]) => Math.abs(r)));
  const [from, to] = [Math.min(0, ...corners.map(([, z]) => z)), Math.max(0, ...corners.map(([, z]) => z))];
  return radius > 0 && to > from ? { radius, from, to } : null;
}

/** Room round the body, mm of the sheet. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Fits a section into a sheet, both halves or the upper alone. */
export function fitSection(
  extent: { readonly radius: number; readonly from: number; readonly to: number },
  sheet: { readonly width: number; readonly height: number },
  margins: Margins,
): SectionFrame {
  const [across, up] = [sheet.width - margins.left - margins.right, sheet.height - margins.top - margins.bottom];
  const length = extent.to - extent.from;
  const scale = freeScale(Math.min(Math.max(10, across) / length, Math.max(10, up) / (2 * extent.radius)));
  return {
    scale,
    left: margins.left + (across - length * scale) / 2 - extent.from * scale,
    axis: margins.bottom + up / 2,
  };
}

/** What does not fit, in the reader's units, and the parts that it names; null where all fits. */
export function misfit(
  solenoid: SolenoidDimensions,
  units: DisplayUnits,
): { readonly words: string; readonly parts: readonly SectionPart[] } | null {
  try {
    checkDimensions(solenoid);
    return null;
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return {
      words: inReadersUnits(message, units),
      parts: sectionParts.filter((part) => namesOfParts[part].test(message)),
    };
  }
}

/** What the solver says of lengths in metres, as this reader measures them; without its code. */
export function inReadersUnits(message: string, units: DisplayUnits): string {
  return message
    .replace(/^SW-\w+:? /, '')
    .replaceAll(/\(([^() ]+) m\)/g, (_, value: string) => `(${size(Number(value), units)})`)
    .replaceAll(/(-?\d[\d.e+-]*) m\b/g, (_, value: string) => size(Number(value), units))
    .replaceAll(/, not (NaN|-?Infinity)/g, ' and is not known');
}

/** How `checkDimensions` calls the parts. */
const namesOfParts: Readonly<Record<SectionPart, RegExp>> = {
  can: /\bcan\b/,
  bottomPlate: /bottom plate|both plates/,
  topPlate: /top plate|both plates|radial clearance/,
  seat: /seat|cone/,
  coil: /\bcoil\b/,
  guideTube: /guide tube/,
  plunger: /plunger|cone/,
  shim: /shim/,
};

/** A length to four figures, with its unit. */
export const size = (metres: number, units: DisplayUnits): string =>
  formatQuantity(metres, 'length', units.length, { significantDigits: 4 });
