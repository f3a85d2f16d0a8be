/**
 * The field of a solenoid as a picture over its section: lines of flux (contours of radius × vector potential, an equal
 * flux between each and the next) on both sides of the axis, and above it the flux density as shaded bands with their
 * legend, hatched where the steel is saturated. Draws a solution; computes none.
 */
import type { SolenoidDimensions } from '../../physics/solenoid/field/dimensions.ts';
import { metricUnits, type DisplayUnits } from '../../units/display.ts';
import { hatch, line, part, polygon, polyline, type Drawing, type Element, type Part } from '../drawing.ts';
import { point, type Point } from '../plane.ts';
import { roundStep, scaleBar } from '../scale.ts';
import {
  areaAbove,
  clippedLine,
  clippedRing,
  contour,
  curvedSurface,
  plainTriangles,
  simplified,
  type Surface,
} from './contours.ts';
import { legend } from './flux-legend.ts';
import { fitSection, onSection, sectionOutlines, size, type SectionFrame } from './section.ts';

/** One solution of the field, as plain data. Lengths in metres, flux density in tesla. */
export interface FieldPicture {
  readonly solenoid: SolenoidDimensions;
  readonly gap: number;
  readonly ampereTurns: number;
  /** Radius and height of each node. */
  readonly coordinates: ArrayLike<number>;
  /** Six nodes per element. */
  readonly triangles: ArrayLike<number>;
  /** 1 where the element is of steel. */
  readonly isSteel: ArrayLike<number>;
  /** Radius × vector potential at the nodes, Wb/rad. */
  readonly potential: ArrayLike<number>;
  /** Mean of the flux density over each element. */
  readonly fluxDensity: ArrayLike<number>;
  /** Flux density from which the steel counts as saturated, and how that is meant, in words. */
  readonly saturated: { readonly from: number; readonly words: string };
}

export interface FluxOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
  /** Widest gap that will be shown, metres: the scale stays while the plunger moves. */
  readonly reach?: number;
}

const MOST_LINES = 14;
const MOST_BANDS = 8;
/** Points of a line closer to it than this are left out, mm. */
const TOLERANCE = 0.05;
/** Round the can, in its own lengths and radii. */
const ROUND = { before: 0.18, beyond: 0.08, outside: 1.4 };

export function drawFlux(field: FieldPicture, options: FluxOptions = {}): Drawing {
  const { width = 180, height = 130, units = metricUnits, reach = field.gap } = options;
  const { solenoid, gap } = field;
  const { can, seat, plunger, residualShim = 0 } = solenoid;
  const legendBelow = width < 130;
  const tail = seat.faceHeight + residualShim + Math.max(gap, reach) + plunger.length;
  const extent = {
    radius: can.outerRadius * ROUND.outside,
    from: -can.length * ROUND.before,
    to: Math.max(tail, can.length) + can.length * ROUND.beyond,
  };
  const margins = legendBelow ? { left: 2, right: 2, top: 2, bottom: 40 } : { left: 2, right: 41, top: 2, bottom: 9 };
  const frame = fitSection(extent, { width, height }, margins);
  const [lowest, highest] = [onSection(frame, -extent.radius, extent.from), onSection(frame, extent.radius, extent.to)];
  const window = { left: lowest.x, bottom: lowest.y, right: highest.x, top: highest.y };
  const upper = { ...window, bottom: frame.axis };
  const bands = bandsOf(field, frame, upper);
  const lines = linesOfFlux(field, frame, window);
  const bar = scaleBar(point(6, 3), frame.scale / 1000, Math.min(40, width * 0.3), units);
  return {
    title: 'Field of the solenoid',
    width,
    height,
    parts: [
      ...bands.parts,
      lines.part,
      outlines(field, frame),
      part('axis', 'mechanism', [line('centre', point(window.left, frame.axis), point(window.right, frame.axis))]),
      ...legend(
        field,
        bands.levels,
        lines.words,
        legendBelow ? point(4, 32) : point(width - 39, height - 6),
        legendBelow,
        units,
      ),
      part('scale', 'words', bar.elements),
    ],
    sentences: [
      `The field at ${size(gap, units)} from home and ${Math.round(field.ampereTurns)} ampere-turns.`,
      `Between two lines flow ${lines.words}; ${lines.count} lines are drawn.`,
      `Bands of flux density from ${bands.levels[0] ?? 0} T in steps of ${bands.step} T.`,
      bands.saturatedShare > 0
        ? `Saturated, which is ${field.saturated.words}: ${percent(bands.saturatedShare)} of the section of the steel.`
        : 'No steel is saturated.',
    ],
  };
}

const percent = (share: number): string => (share < 0.01 ? 'less than 1 %' : `${Math.round(share * 100)} %`);

/** Where the nodes stand on the sheet, upper half. */
function onSheet(field: FieldPicture, { scale, left, axis }: SectionFrame): Float64Array {
  const found = new Float64Array(field.coordinates.length);
  for (let n = 0; 2 * n < found.length; n++) {
    found[2 * n] = left + field.coordinates[2 * n + 1] * scale;
    found[2 * n + 1] = axis + field.coordinates[2 * n] * scale;
  }
  return found;
}

interface Window {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

function linesOfFlux(
  field: FieldPicture,
  frame: SectionFrame,
  window: Window,
): { part: Part; words: string; count: number } {
  const { potential, triangles } = field;
  const coordinates = onSheet(field, frame);
  let most = 0;
  for (let n = 0; n < potential.length; n++) most = Math.max(most, Math.abs(potential[n]));
  const flux = most > 0 ? roundUp((2 * Math.PI * most) / MOST_LINES) : 0;
  const surface = curvedSurface(coordinates, triangles, Float64Array.from(potential, Math.abs));
  const elements: Element[] = [];
  const mirrored = ({ x, y }: Point): Point => point(x, 2 * frame.axis - y);
  const upper = { ...window, bottom: frame.axis };
  const levels = flux > 0 ? Math.ceil((2 * Math.PI * most) / flux - 0.5) : 0;
  for (let count = 0; count < levels; count++) {
    const level = ((count + 0.5) * flux) / (2 * Math.PI);
    for (const whole of contour(surface, level))
      for (const piece of clippedLine(whole, upper)) {
        const points = simplified(piece, TOLERANCE);
        elements.push(polyline('thin', points), polyline('thin', points.map(mirrored)));
      }
  }
  return { part: part('flux-lines', 'quiet', elements), words: fluxWords(flux), count: levels };
}

/** 1, 2 or 5 times a power of ten, no smaller than `least`. */
function roundUp(least: number): number {
  const below = roundStep(least);
  return below >= least * (1 - 1e-9) ? below : roundStep(below * 2.5);
}

function fluxWords(weber: number): string {
  const [value, unit] = weber >= 1e-3 ? [weber * 1e3, 'mWb'] : [weber * 1e6, 'µWb'];
  return `${Number(value.toPrecision(3))} ${unit}`;
}

interface Bands {
  readonly parts: Part[];
  readonly levels: readonly number[];
  readonly step: number;
  /** Of the area of the steel's section. */
  readonly saturatedShare: number;
}

/** Each band lies on those below it, so that the shade deepens step by step. */
function bandsOf(field: FieldPicture, frame: SectionFrame, window: Window): Bands {
  const { triangles, isSteel, saturated } = field;
  const coordinates = onSheet(field, frame);
  const surfaceOf = (steel: 0 | 1): Surface => ({
    coordinates,
    values: nodalFluxDensity(field, steel),
    triangles: plainTriangles(triangles, (e) => isSteel[e] === steel),
  });
  const [air, steel] = [surfaceOf(0), surfaceOf(1)];
  const most = usualMost(field);
  const step = [0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1].find((one) => most / one <= MOST_BANDS) ?? 2;
  const levels = Array.from({ length: Math.max(1, Math.floor(most / step)) }, (_, k) =>
    Number(((k + 1) * step).toFixed(3)),
  );
  const ringsAbove = (surface: Surface, level: number): Point[][] =>
    areaAbove(surface, level)
      .map((ring) => clippedRing(simplified(ring, TOLERANCE), window))
      .filter((ring) => ring.length > 2);
  const parts = levels.map((level, k) =>
    part(
      `band-${k + 1}`,
      'pull',
      [steel, air].flatMap((surface) => {
        const rings = ringsAbove(surface, level);
        return rings.length === 0 ? [] : [polygon('none', joined(rings), 'tint')];
      }),
    ),
  );
  const rings = ringsAbove(steel, saturated.from);
  parts.push(part('saturated', 'need', rings.length === 0 ? [] : [hatch(rings, 1.3, Math.PI / 4)]));
  return { parts, levels, step, saturatedShare: shareAbove(field, saturated.from) };
}

/**
 * Rings as one polygon: it goes to each, round it, and back the way it came. The ways there and back enclose nothing, so
 * that a fill by winding number is that of the rings, with the holes of those that run clockwise.
 */
function joined(rings: readonly (readonly Point[])[]): Point[] {
  const home = rings[0][0];
  return rings.flatMap((ring) => [...ring, ring[0], home]);
}

/** Flux density at the nodes of steel or of all else: the mean over the elements of that kind round each node. */
function nodalFluxDensity({ triangles, isSteel, fluxDensity, potential }: FieldPicture, steel: 0 | 1): Float64Array {
  const sum = new Float64Array(potential.length);
  const count = new Float64Array(potential.length);
  for (let e = 0; e < fluxDensity.length; e++) {
    if (isSteel[e] !== steel) continue;
    for (let k = 0; k < 6; k++) {
      sum[triangles[6 * e + k]] += fluxDensity[e];
      count[triangles[6 * e + k]] += 1;
    }
  }
  return sum.map((value, n) => (count[n] > 0 ? value / count[n] : 0));
}

const area = ({ coordinates: c, triangles: t }: FieldPicture, e: number): number => {
  const [a, b, d] = [t[6 * e], t[6 * e + 1], t[6 * e + 2]];
  return (
    Math.abs(
      (c[2 * b] - c[2 * a]) * (c[2 * d + 1] - c[2 * a + 1]) - (c[2 * d] - c[2 * a]) * (c[2 * b + 1] - c[2 * a + 1]),
    ) / 2
  );
};

function shareAbove(field: FieldPicture, level: number): number {
  let [all, above] = [0, 0];
  for (let e = 0; e < field.fluxDensity.length; e++) {
    if (field.isSteel[e] !== 1) continue;
    all += area(field, e);
    if (field.fluxDensity[e] >= level) above += area(field, e);
  }
  return all > 0 ? above / all : 0;
}

/** Flux density that 199 of 200 parts of the steel's section stay below: sharp corners do not set the scale. */
function usualMost(field: FieldPicture): number {
  const elements = Array.from(field.fluxDensity, (b, e) => ({ b, area: field.isSteel[e] === 1 ? area(field, e) : 0 }));
  elements.sort((one, other) => one.b - other.b);
  const whole = elements.reduce((sum, one) => sum + one.area, 0);
  let below = 0;
  for (const one of elements) {
    below += one.area;
    if (below >= 0.995 * whole) return one.b;
  }
  return 0;
}

function outlines({ solenoid, gap }: FieldPicture, frame: SectionFrame): Part {
  const elements: Element[] = [];
  for (const ring of Object.values(sectionOutlines(solenoid, gap)))
    for (const side of [1, -1])
      elements.push(
        polygon(
          'outline',
          ring.map(([r, z]) => onSection(frame, side * r, z)),
        ),
      );
  return part('outlines', 'mechanism', elements);
}
