/**
 * A plunger solenoid to true scale from its dimensions, the plunger at any gap: half in section, half from outside
 * (ISO 128-3:2022, half section of a turned part; hatching after the same standard, each part at its own angle).
 *
 * Dimensions that cannot be built are drawn as far as they can be, the parts that clash marked and the reason written.
 */
import type { SolenoidDimensions } from '../../physics/solenoid/field/dimensions.ts';
import { metricUnits, type DisplayUnits } from '../../units/display.ts';
import { known } from '../amounts.ts';
import { hatch, lettering, line, part, polygon, text, type Drawing, type Element, type Part } from '../drawing.ts';
import { boxAround, point, type Box, type Point } from '../plane.ts';
import { scaleBar } from '../scale.ts';
import { linesOf } from '../text-width.ts';
import { drawLabels, sentences } from './cutaway-words.ts';
import { besideDimension, levelDimension, uprightDimension, type DimensionLine } from './dimension-lines.ts';
import {
  fitSection,
  misfit,
  onSection,
  sectionExtent,
  sectionOutlines,
  size,
  type SectionFrame,
  type SectionOutlines,
  type SectionPart,
} from './section.ts';

export interface CutawayOptions {
  /** Sheet, mm. */
  readonly width?: number;
  readonly height?: number;
  readonly units?: DisplayUnits;
  /** Where the plunger stands, metres from home. */
  readonly gap: number;
  /** The widest gap that will be shown, metres: the scale stays while the plunger moves. */
  readonly reach?: number;
}

export interface CutawayDrawing extends Drawing {
  readonly frame: SectionFrame | null;
  /** Why this solenoid cannot be built; null where it can. */
  readonly misfit: string | null;
}

const hatchings: Readonly<Record<SectionPart, { readonly angle: number; readonly apart: number } | null>> = {
  can: { angle: Math.PI / 4, apart: 2 },
  bottomPlate: { angle: (3 * Math.PI) / 4, apart: 2 },
  topPlate: { angle: (3 * Math.PI) / 4, apart: 2 },
  seat: { angle: Math.PI / 4, apart: 1.5 },
  plunger: { angle: (3 * Math.PI) / 4, apart: 2.6 },
  guideTube: { angle: Math.PI / 3, apart: 0.9 },
  shim: { angle: Math.PI / 6, apart: 0.7 },
  coil: null,
};

export function drawCutaway(solenoid: SolenoidDimensions, options: CutawayOptions): CutawayDrawing {
  const { width = 180, height = 130, units = metricUnits, gap, reach = gap } = options;
  const title = 'Solenoid, cut open';
  const wrong = misfit(solenoid, units);
  const notice = wrong === null ? [] : linesOf(`Does not fit: ${wrong.words}.`, width - 8, lettering.small, true);
  const extent = sectionExtent(solenoid, gap, Math.max(gap, reach));
  if (extent === null) {
    const words = 'Nothing to draw yet: dimensions are missing.';
    return {
      title,
      width,
      height,
      parts: [part('notice', 'notice', [text(point(width / 2, height / 2), words, { align: 'middle' })])],
      sentences: [words],
      frame: null,
      misfit: wrong?.words ?? null,
    };
  }
  const foot = 9 + notice.length * 4;
  // Words that stand outside their dimension lines need room at the left.
  const { bottomPlate, topPlate, seat } = solenoid;
  const roomFor = (length: number): number => besideDimension(Number.isFinite(length) ? size(length, units) : '') + 2;
  const left = Math.max(18, Math.min(width / 3, Math.max(roomFor(bottomPlate.thickness), roomFor(seat.faceHeight))));
  const right = extent.to > solenoid.can.length * 1.15 ? 15 : Math.max(15, roomFor(topPlate.thickness));
  const frame = fitSection(extent, { width, height }, { left, right, top: 19, bottom: foot + 17 });
  const rings = sectionOutlines(solenoid, gap);
  const body = drawBody(frame, rings, wrong?.parts ?? []);
  const dimensions = drawDimensions(frame, solenoid, gap, extent, units);
  const bar = scaleBar(point(6, 3), frame.scale / 1000, Math.min(40, width * 0.3), units);
  const foots: Part[] = [part('scale', 'words', bar.elements)];
  if (notice.length > 0)
    foots.push(
      part(
        'misfit',
        'fails',
        notice.map((words, i) => text(point(4, foot - 1 - 4 * (i + 0.5)), words, { bold: true })),
      ),
    );
  const drawn = [...body, ...dimensions.parts];
  const labels = drawLabels(frame, solenoid, rings, wrong?.parts ?? [], [...drawn, ...foots], dimensions.boxes, {
    width,
    height,
    foot,
    units,
  });
  return {
    title,
    width,
    height,
    parts: [...drawn, ...foots, ...labels],
    sentences: sentences(solenoid, gap, units, wrong?.words ?? null),
    frame,
    misfit: wrong?.words ?? null,
  };
}

const onSheet = (frame: SectionFrame, ring: readonly (readonly [number, number])[]): Point[] =>
  ring.map(([r, z]) => onSection(frame, r, z));

function drawBody(frame: SectionFrame, rings: SectionOutlines, wrong: readonly SectionPart[]): Part[] {
  const parts: Part[] = [];
  parts.push(part('outside', 'mechanism', outsideView(frame, rings)));
  for (const name of ['can', 'bottomPlate', 'topPlate', 'seat', 'coil', 'guideTube', 'shim', 'plunger'] as const) {
    const ring = rings[name];
    if (ring === undefined) continue;
    const outline = onSheet(frame, ring);
    const isWrong = wrong.includes(name);
    const elements: Element[] = [polygon(isWrong ? 'heavy' : 'outline', outline, 'paper')];
    elements.push(...(name === 'coil' ? winding(outline) : hatched(outline, name)));
    if (isWrong) elements.push(...crossedOut(outline));
    parts.push(part(`part-${name}`, isWrong ? 'fails' : 'mechanism', elements));
  }
  const ends = Object.values(rings).flat();
  const box = boxAround(onSheet(frame, ends));
  if (box !== null)
    parts.push(
      part('axis', 'mechanism', [line('centre', point(box.left - 5, frame.axis), point(box.right + 5, frame.axis))]),
    );
  return parts;
}

function hatched(outline: readonly Point[], name: SectionPart): Element[] {
  const hatching = hatchings[name];
  return hatching === null ? [] : [hatch([outline], hatching.apart, hatching.angle)];
}

/** A winding: its window crosshatched, with the diagonals that mark a coil. */
function winding(outline: readonly Point[]): Element[] {
  const [a, b, c, d] = outline as [Point, Point, Point, Point];
  return [
    hatch([outline], 3.2, Math.PI / 4),
    hatch([outline], 3.2, (3 * Math.PI) / 4),
    line('outline', a, c),
    line('outline', b, d),
  ];
}

/** Two strokes through a part that does not fit. */
function crossedOut(outline: readonly Point[]): Element[] {
  const box = boxAround(outline);
  if (box === null) return [];
  return [
    line('heavy', point(box.left, box.bottom), point(box.right, box.top)),
    line('heavy', point(box.left, box.top), point(box.right, box.bottom)),
  ];
}

/** Below the axis: the can from outside, and what of the plunger stands out of it. */
function outsideView(frame: SectionFrame, rings: SectionOutlines): Element[] {
  const below = (ring: readonly (readonly [number, number])[]): Point[] => {
    const radius = Math.max(...ring.map(([r]) => r));
    const [from, to] = [Math.min(...ring.map(([, z]) => z)), Math.max(...ring.map(([, z]) => z))];
    return [
      onSection(frame, 0, from),
      onSection(frame, 0, to),
      onSection(frame, -radius, to),
      onSection(frame, -radius, from),
    ];
  };
  const { plunger, can } = rings;
  // The can lies nearer to the eye than what is inside it.
  return [
    ...(plunger === undefined ? [] : [polygon('outline', below(plunger), 'paper')]),
    ...(can === undefined ? [] : [polygon('outline', below(can), 'paper')]),
  ];
}

interface Extent {
  readonly radius: number;
  readonly from: number;
  readonly to: number;
}

function drawDimensions(
  frame: SectionFrame,
  solenoid: SolenoidDimensions,
  gap: number,
  extent: Extent,
  units: DisplayUnits,
): { parts: Part[]; boxes: Box[] } {
  const { can, bottomPlate, topPlate, plunger, seat, coil, residualShim } = solenoid;
  const x = (height: number): number => onSection(frame, 0, height).x;
  const y = (radius: number): number => onSection(frame, radius, 0).y;
  const [top, bottom] = [y(extent.radius), y(-extent.radius)];
  const shoulder = seat.faceHeight + gap + Math.max(0, known(residualShim) ?? 0);
  const tail = shoulder + plunger.length;
  const parts: Part[] = [];
  const boxes: Box[] = [];
  const add = (name: string, values: readonly number[], drawn: () => DimensionLine): void => {
    // Numbers that have no place on a sheet have no dimension line either.
    if (!values.every((value) => Number.isFinite(value)) || values[0] === values[1]) return;
    const { elements, box } = drawn();
    parts.push(part(`dimension-${name}`, 'words', elements));
    boxes.push(box);
  };
  const level = (
    name: string,
    from: number,
    to: number,
    row: number,
    start: readonly [number, number],
    outside: 'left' | 'right',
    words = size(to - from, units),
  ): void => add(name, [from, to, ...start], () => levelDimension(x(from), x(to), row, start, words, outside));
  const rim: readonly [number, number] = [y(can.outerRadius), y(can.outerRadius)];
  const windingRim: readonly [number, number] = [y(coil.outerRadius), y(coil.outerRadius)];
  level('bottom-plate', 0, bottomPlate.thickness, top + 5, rim, 'left');
  level('top-plate', can.length - topPlate.thickness, can.length, top + 5, rim, 'right');
  level('winding', coil.bottom, coil.top, top + 5, windingRim, 'right');
  level('can-length', 0, can.length, top + 12, rim, 'right');
  const underside: readonly [number, number] = [y(-can.outerRadius), y(-can.outerRadius)];
  level('seat-height', 0, seat.faceHeight, bottom - 7, [underside[0], frame.axis], 'left');
  const faces: readonly [number, number] = [frame.axis, frame.axis];
  if (shoulder - seat.faceHeight > 1e-9)
    level('gap', seat.faceHeight, shoulder, bottom - 7, faces, 'right', `gap ${size(gap, units)}`);
  level('plunger-length', shoulder, tail, bottom - 14, [frame.axis, y(-plunger.radius)], 'right');
  const diameter = (name: string, radius: number, at: number, start: number): void =>
    add(name, [radius, at, start], () =>
      uprightDimension(y(-radius), y(radius), at, [start, start], `Ø ${size(2 * radius, units)}`),
    );
  diameter('can', can.outerRadius, x(0) - 8, x(0));
  diameter('plunger', plunger.radius, x(tail) + 8, x(tail));
  return { parts, boxes };
}
