/**
 * A drawing as plain data: what is on the sheet, in millimetres of the sheet, origin at its lower left corner, y up.
 *
 * The screen and every writer (`svg.ts`) render the same drawing. A part is one thing that a person would name, and is
 * drawn in the order given. Lines are named and weighted after ISO 128-2:2020 (line group 0.5: wide 0.5 mm, narrow
 * 0.25 mm); lettering heights are those of ISO 3098-1:2015, the height of a capital.
 */
import {
  along,
  angleOf,
  crossings,
  direction,
  minus,
  plus,
  point,
  polar,
  quarter,
  times,
  type Box,
  type Point,
} from './plane.ts';
import { textWidth } from './text-width.ts';

export interface Drawing {
  readonly title: string;
  /** Sheet, mm. */
  readonly width: number;
  readonly height: number;
  readonly parts: readonly Part[];
  /** The drawing in sentences, for whoever cannot see it. */
  readonly sentences: readonly string[];
}

export interface Part {
  /** Unique in its drawing, the same from one gap to the next: letters, digits and hyphens. */
  readonly name: string;
  readonly role: Role;
  readonly elements: readonly Element[];
}

/** What a part is; its colour follows from it. No meaning hangs on the colour alone. */
export type Role =
  | 'sheet'
  | 'mechanism'
  | 'quiet'
  | 'pull'
  | 'need'
  | 'return'
  | 'side'
  | 'fails'
  | 'now'
  | 'words'
  | 'grid'
  | 'notice';

/**
 * ISO 128-2: outline = continuous wide (01.2), thin = continuous narrow (01.1), hidden = dashed narrow (02.1), centre =
 * long-dashed dotted narrow (04.1), ghost = long-dashed double-dotted narrow (05.1, extreme positions of movable parts).
 * heavy = continuous extra wide, for curves and arrows of force, outside the standard's mechanical line types. dashed =
 * dashed wide (02.2) and chain = long-dashed dotted wide (04.2), for curves beside a heavy one.
 */
export type LineStyle = 'outline' | 'thin' | 'hidden' | 'centre' | 'ghost' | 'heavy' | 'dashed' | 'chain' | 'none';

export type Fill = 'none' | 'paper' | 'solid' | 'tint';

export type Element =
  | { readonly kind: 'line'; readonly style: LineStyle; readonly from: Point; readonly to: Point }
  | {
      readonly kind: 'polyline';
      readonly style: LineStyle;
      readonly points: readonly Point[];
      readonly closed: boolean;
      readonly fill: Fill;
    }
  | {
      readonly kind: 'circle';
      readonly style: LineStyle;
      readonly centre: Point;
      readonly radius: number;
      readonly fill: Fill;
    }
  /** Counter-clockwise where `to` is greater than `from`. */
  | {
      readonly kind: 'arc';
      readonly style: LineStyle;
      readonly centre: Point;
      readonly radius: number;
      readonly from: number;
      readonly to: number;
    }
  /** Lines and arcs, one joining the next; a straight line joins an arc to what comes before it. */
  | {
      readonly kind: 'path';
      readonly style: LineStyle;
      readonly start: Point;
      readonly segments: readonly Segment[];
      readonly closed: boolean;
      readonly fill: Fill;
    }
  /** Parallel thin lines, already cut to the outline that they fill. */
  | { readonly kind: 'hatch'; readonly lines: readonly (readonly [Point, Point])[] }
  | {
      readonly kind: 'text';
      /** On the base line. */
      readonly at: Point;
      readonly text: string;
      /** Of a capital, mm. */
      readonly height: number;
      readonly align: 'start' | 'middle' | 'end';
      /** Base line, counter-clockwise. */
      readonly angle: number;
      readonly bold: boolean;
    };

export type Segment =
  | { readonly to: Point }
  | { readonly centre: Point; readonly radius: number; readonly from: number; readonly to: number };

export type TextElement = Extract<Element, { kind: 'text' }>;

/** ISO 3098-1 heights, mm. */
export const lettering = { small: 2.5, middle: 3.5, large: 5 } as const;

export const part = (name: string, role: Role, elements: readonly Element[]): Part => ({ name, role, elements });

export const line = (style: LineStyle, from: Point, to: Point): Element => ({ kind: 'line', style, from, to });

export const polyline = (style: LineStyle, points: readonly Point[], fill: Fill = 'none'): Element => ({
  kind: 'polyline',
  style,
  points,
  closed: false,
  fill,
});

export const polygon = (style: LineStyle, points: readonly Point[], fill: Fill = 'none'): Element => ({
  kind: 'polyline',
  style,
  points,
  closed: true,
  fill,
});

export const circle = (style: LineStyle, centre: Point, radius: number, fill: Fill = 'none'): Element => ({
  kind: 'circle',
  style,
  centre,
  radius,
  fill,
});

export const arc = (style: LineStyle, centre: Point, radius: number, from: number, to: number): Element => ({
  kind: 'arc',
  style,
  centre,
  radius,
  from,
  to,
});

export function text(
  at: Point,
  words: string,
  options: { height?: number; align?: 'start' | 'middle' | 'end'; angle?: number; bold?: boolean } = {},
): TextElement {
  const { height = lettering.small, align = 'start', angle = 0, bold = false } = options;
  return { kind: 'text', at, text: words, height, align, angle, bold };
}

/** Short cross of centre lines. */
export function centreCross(centre: Point, reach: number, angle = 0): Element[] {
  const u = polar(reach, angle);
  const v = quarter(u);
  return [line('thin', minus(centre, u), plus(centre, u)), line('thin', minus(centre, v), plus(centre, v))];
}

/** Filled arrow head with its tip at `tip`. Included angle about 20°. */
export function arrowHead(tip: Point, pointing: Point, size: number): Element {
  const foot = along(tip, pointing, -size);
  const half = times(quarter(pointing), size * 0.19);
  return polygon('none', [tip, plus(foot, half), minus(foot, half)], 'solid');
}

/** A round-ended bar from a to b. */
export function roundBar(style: LineStyle, a: Point, b: Point, radius: number, fill: Fill): Element {
  const heading = angleOf(direction(a, b));
  const up = heading + Math.PI / 2;
  return {
    kind: 'path',
    style,
    start: plus(a, polar(radius, up)),
    segments: [
      { centre: a, radius, from: up, to: up + Math.PI },
      { centre: b, radius, from: up - Math.PI, to: up },
    ],
    closed: true,
    fill,
  };
}

/** A closed outline tangent to two circles. Where one lies inside the other, the larger alone. */
export function taperedBar(
  style: LineStyle,
  a: Point,
  radiusA: number,
  b: Point,
  radiusB: number,
  fill: Fill,
): Element {
  const apart = Math.hypot(b.x - a.x, b.y - a.y);
  if (apart <= Math.abs(radiusA - radiusB)) {
    return radiusA > radiusB ? circle(style, a, radiusA, fill) : circle(style, b, radiusB, fill);
  }
  const heading = angleOf(direction(a, b));
  const lean = Math.acos((radiusA - radiusB) / apart);
  return {
    kind: 'path',
    style,
    start: plus(a, polar(radiusA, heading + lean)),
    segments: [
      { centre: a, radius: radiusA, from: heading + lean, to: heading - lean + 2 * Math.PI },
      { centre: b, radius: radiusB, from: heading - lean, to: heading + lean },
    ],
    closed: true,
    fill,
  };
}

/** The box that a text needs, mm, with room for what hangs below the base line; upright texts only. */
export function textBox({ at, text: words, height, align, bold }: TextElement): Box {
  const width = textWidth(words, height, bold);
  const left = align === 'start' ? at.x : align === 'end' ? at.x - width : at.x - width / 2;
  return { left, bottom: at.y - 0.3 * height, right: left + width, top: at.y + 1.12 * height };
}

/**
 * Hatching of the area inside an odd number of rings: parallel lines `least` mm apart at `angle`. Lines of equal angle
 * and spacing run through from one area to the next.
 */
export function hatch(rings: readonly (readonly Point[])[], least = 1.6, angle = Math.PI / 4): Element {
  const u = polar(1, angle);
  const v = quarter(u);
  const inAxes = rings.map((ring) => ring.map((p) => point(p.x * u.x + p.y * u.y, p.x * v.x + p.y * v.y)));
  const heights = inAxes.flat().map(({ y }) => y);
  // An area far larger than a sheet is not filled with lines without end.
  const spacing = Math.max(least, (Math.max(...heights) - Math.min(...heights)) / 500);
  const lines: [Point, Point][] = [];
  const last = Math.floor(Math.max(...heights) / spacing);
  for (let k = Math.ceil(Math.min(...heights) / spacing); k <= last; k++) {
    const y = k * spacing;
    const cuts = inAxes.flatMap((ring) => crossings(ring, y)).sort((a, b) => a - b);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const ends = [cuts[i] ?? 0, cuts[i + 1] ?? 0].map((x) => point(x * u.x + y * v.x, x * u.y + y * v.y));
      const [from, to] = ends as [Point, Point];
      if (Math.hypot(to.x - from.x, to.y - from.y) > 0.05) lines.push([from, to]);
    }
  }
  return { kind: 'hatch', lines };
}
