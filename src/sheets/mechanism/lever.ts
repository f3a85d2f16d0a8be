/**
 * The lever on its shaft, its angles and its stops. Slot, hole and radii are to scale; the outline around them is not
 * measured and drawn by proportion.
 */
import type { DrawnConnection } from '../../assessment/picture.ts';
import { known } from '../amounts.ts';
import {
  arc,
  arrowHead,
  centreCross,
  circle,
  hatch,
  line,
  polygon,
  roundBar,
  taperedBar,
  type Element,
} from '../drawing.ts';
import { along, plus, polar, quarter, times, type Point } from '../plane.ts';
import { lengthOnSheet, type Frame } from './view.ts';

/** Sizes of the lever, m. */
export interface LeverShape {
  /** Centre of the rounded end. */
  readonly reach: number;
  readonly endRadius: number;
  readonly hubRadius: number;
  readonly hole:
    | { readonly kind: 'slot'; readonly from: number; readonly to: number; readonly width: number }
    | { readonly kind: 'round'; readonly radius: number }
    | null;
}

/** The lever's shape, or null while neither slot nor hole is known. `fallback` stands for its reach, m. */
export function leverShape(connection: DrawnConnection, fallback: number | null): LeverShape | null {
  if (connection.kind === 'slotted lever') {
    const [from, to, pin] = [known(connection.slotFrom), known(connection.slotTo), known(connection.pinDiameter)];
    if (from === null || to === null || to <= from) return plain(fallback);
    const width = Math.min((pin ?? (to - from) / 4) + (known(connection.sideClearance) ?? 0), to - from);
    const endRadius = width / 2 + Math.max(0.4 * width, 0.05 * to);
    return {
      reach: to - width / 2,
      endRadius,
      hubRadius: Math.min(Math.max(0.17 * to, endRadius), Math.max(0.1 * to, from - 0.2 * width)),
      hole: { kind: 'slot', from: from + width / 2, to: to - width / 2, width },
    };
  }
  const reach = known(connection.armRadius);
  if (reach === null || reach <= 0) return plain(fallback);
  const hole =
    connection.kind === 'plain pin'
      ? known(connection.holeDiameter)
      : connection.kind === 'pinned link'
        ? known(connection.pinDiameter)
        : 0.12 * reach;
  const radius = Math.min((hole ?? 0.12 * reach) / 2, 0.4 * reach);
  const endRadius = radius + Math.max(0.6 * radius, 0.06 * reach);
  return {
    reach,
    endRadius,
    hubRadius: Math.min(Math.max(0.17 * reach, endRadius), 0.5 * reach),
    hole: { kind: 'round', radius },
  };
}

function plain(reach: number | null): LeverShape | null {
  return reach === null || reach <= 0 ? null : { reach, endRadius: 0.1 * reach, hubRadius: 0.17 * reach, hole: null };
}

/** The lever at an arm angle, as it stands or, dashed, where it will stand. */
export function drawLever(frame: Frame, shape: LeverShape, armAngle: number, as: 'outline' | 'ghost'): Element[] {
  const mm = (length: number): number => lengthOnSheet(frame, length);
  const at = (radius: number): Point => plus(frame.origin, polar(mm(radius), armAngle));
  const fill = as === 'outline' ? 'paper' : 'none';
  const body = taperedBar(as, frame.origin, mm(shape.hubRadius), at(shape.reach), mm(shape.endRadius), fill);
  if (as === 'ghost') return [body];
  const { hole } = shape;
  return [
    body,
    ...(hole === null
      ? []
      : hole.kind === 'slot'
        ? [roundBar('outline', at(hole.from), at(hole.to), mm(hole.width / 2), 'paper')]
        : [circle('outline', at(shape.reach), mm(hole.radius), 'paper')]),
  ];
}

/** The shaft with its centre lines, drawn above the lever. */
export function drawShaft(frame: Frame, shape: LeverShape): Element[] {
  const radius = lengthOnSheet(frame, shape.hubRadius) * 0.55;
  return [
    circle('outline', frame.origin, radius, 'paper'),
    hatch([ring(frame.origin, radius)], 1.2),
    ...centreCross(frame.origin, radius / 0.55 + 2.5),
  ];
}

function ring(centre: Point, radius: number): Point[] {
  return Array.from({ length: 48 }, (_, i) => plus(centre, polar(radius, (i * Math.PI) / 24)));
}

/** Rays of the shaft's angles on an arc outside the lever. All angles are arm angles. */
export interface AngleMarks {
  readonly radius: number;
  readonly run: number | null;
  readonly noFuel: number | null;
  readonly hardStop: number | null;
  readonly runStop: number | null;
}

/** +1 where turning towards stop is counter-clockwise; null while that cannot be told. */
export function stopSense({ run, runStop, noFuel, hardStop }: AngleMarks): 1 | -1 | null {
  const from = run ?? runStop;
  const to = hardStop ?? noFuel;
  return from === null || to === null || from === to ? null : to > from ? 1 : -1;
}

export function drawAngles(frame: Frame, marks: AngleMarks): { rays: Element[]; stops: Element[]; fuelOff: Element[] } {
  const { radius, noFuel, hardStop, runStop } = marks;
  const all = [marks.run, noFuel, hardStop, runStop].filter((angle) => angle !== null);
  if (all.length === 0) return { rays: [], stops: [], fuelOff: [] };
  const at = (r: number, angle: number): Point => plus(frame.origin, polar(r, angle));
  const rays: Element[] = [];
  if (all.length > 1) rays.push(arc('thin', frame.origin, radius, Math.min(...all), Math.max(...all)));
  for (const angle of [marks.run, noFuel]) {
    if (angle !== null) rays.push(line('thin', at(radius * 0.35, angle), at(radius + 4, angle)));
  }
  const sense = stopSense(marks);
  const fuelOff: Element[] = [];
  if (noFuel !== null && hardStop !== null && Math.abs(hardStop - noFuel) > 1e-6) {
    const band = [
      ...arcPoints(frame.origin, radius, noFuel, hardStop),
      ...arcPoints(frame.origin, radius + 2.4, hardStop, noFuel),
    ];
    fuelOff.push(hatch([band], 1, noFuel + Math.PI / 4), polygon('thin', band));
  }
  const stops: Element[] = [];
  for (const [angle, side] of [
    [hardStop, sense],
    [runStop, sense === null ? null : -sense],
  ] as const) {
    if (angle === null) continue;
    rays.push(line('thin', at(radius * 0.72, angle), at(radius - 3, angle)));
    const [inner, outer] = [at(radius - 3, angle), at(radius + 4, angle)];
    stops.push(line('outline', inner, outer));
    if (side !== null) stops.push(...groundStrokes(inner, polar(1, angle), 7, side));
  }
  return { rays, stops, fuelOff };
}

/** Short strokes on one side of a line: what stands fast. `side` +1 is to the left of `direction`. */
export function groundStrokes(from: Point, direction: Point, length: number, side: number): Element[] {
  const back = plus(times(quarter(direction), side * 1.3), times(direction, -0.9));
  const count = Math.max(2, Math.round(length / 1.4));
  return Array.from({ length: count }, (_, i) => {
    const foot = along(from, direction, ((i + 1) / count) * length);
    return line('thin', foot, plus(foot, back));
  });
}

function arcPoints(centre: Point, radius: number, from: number, to: number): Point[] {
  const count = Math.max(2, Math.min(90, Math.ceil(Math.abs(to - from) * 60)));
  return Array.from({ length: count + 1 }, (_, i) => plus(centre, polar(radius, from + ((to - from) * i) / count)));
}

/** A pointer on the arc at the lever's angle. */
export function drawPointer(frame: Frame, radius: number, armAngle: number): Element[] {
  const outward = polar(1, armAngle);
  const tip = plus(frame.origin, times(outward, radius));
  return [arrowHead(tip, outward, 3.2), line('thin', along(tip, outward, -3), along(tip, outward, -6))];
}
