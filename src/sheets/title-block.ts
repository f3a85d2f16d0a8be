/**
 * Title block with the data fields of ISO 7200:2004, 180 mm wide, and the sheet that carries it.
 *
 * Sheet, border and filing margin after ISO 5457:1999 (20 mm at the left, 10 mm elsewhere). One set of fields for every
 * writer, so that screen, paper and file can never disagree.
 */
import { line, part, polygon, text, type Drawing, type Element, type Part } from './drawing.ts';
import { plus, point, type Box, type Point } from './plane.ts';
import { fitted } from './text-width.ts';

export interface TitleFields {
  /** Legal owner. */
  readonly owner: string;
  /** What the installation is called; the title of the sheet stands below it. */
  readonly job: string;
  readonly part: string;
  /** Identification number: digest of the document that the sheet was drawn from. */
  readonly digest: string;
  readonly revision: string;
  /** Date of issue, as it is to be printed. */
  readonly date: string;
  readonly scale: string;
  readonly drawnBy: string;
  readonly checkedBy: string;
  readonly sheet: number;
  readonly sheets: number;
}

export const TITLE_BLOCK = { width: 180, height: 27 } as const;

/** Height of the small heading of a field, the least of ISO 3098. */
const HEADING = 1.8;

/** @param at lower left corner, mm */
export function titleBlock(fields: TitleFields, at: Point): Part {
  const rows: readonly (readonly { heading: string; value: string; from: number; to: number; large?: boolean }[])[] = [
    [
      { heading: 'Owner', value: fields.owner, from: 0, to: 50 },
      { heading: 'Job', value: fields.job, from: 50, to: 130, large: true },
      { heading: 'Revision', value: fields.revision, from: 130, to: 155 },
      { heading: 'Date of issue', value: fields.date, from: 155, to: 180 },
    ],
    [
      { heading: 'Drawn by', value: fields.drawnBy, from: 0, to: 50 },
      { heading: 'Part', value: fields.part, from: 50, to: 130 },
      { heading: 'Scale', value: fields.scale, from: 130, to: 155 },
      { heading: 'Sheet', value: `${fields.sheet} of ${fields.sheets}`, from: 155, to: 180 },
    ],
    [
      { heading: 'Checked by', value: fields.checkedBy, from: 0, to: 50 },
      { heading: 'Identification', value: fields.digest, from: 50, to: 180 },
    ],
  ];
  const rowHeight = TITLE_BLOCK.height / rows.length;
  const elements: Element[] = [polygon('outline', corners(at, TITLE_BLOCK.width, TITLE_BLOCK.height), 'paper')];
  rows.forEach((row, i) => {
    const bottom = at.y + TITLE_BLOCK.height - (i + 1) * rowHeight;
    if (i < rows.length - 1) elements.push(line('thin', point(at.x, bottom), point(at.x + TITLE_BLOCK.width, bottom)));
    for (const { heading, value, from, to, large } of row) {
      const left = at.x + from;
      if (from > 0) elements.push(line('thin', point(left, bottom), point(left, bottom + rowHeight)));
      const height = large === true ? 3.5 : 2.5;
      elements.push(text(point(left + 1, bottom + rowHeight - 2.4), heading, { height: HEADING }));
      const shown = fitted(value, to - from - 2.5, height, large);
      elements.push(text(point(left + 1, bottom + 1.3), shown, { height, bold: large === true }));
    }
  });
  return part('title-block', 'words', elements);
}

function corners(at: Point, width: number, height: number): Point[] {
  return [at, plus(at, point(width, 0)), plus(at, point(width, height)), plus(at, point(0, height))];
}

/** Border of a sheet, mm, and what it leaves free above the title block. */
export function sheetBorder(width: number, height: number): { part: Part; inside: Box; titleAt: Point } {
  const inside = { left: 20, right: width - 10, bottom: 10, top: height - 10 };
  const outline = corners(point(inside.left, inside.bottom), inside.right - inside.left, inside.top - inside.bottom);
  return {
    part: part('border', 'sheet', [polygon('heavy', outline)]),
    inside: { ...inside, bottom: inside.bottom + TITLE_BLOCK.height },
    titleAt: point(inside.right - TITLE_BLOCK.width, inside.bottom),
  };
}

/** The parts of a drawing, moved by `by` mm, their names with a prefix so that two drawings can share a sheet. */
export function moved(drawing: Pick<Drawing, 'parts'>, by: Point, prefix: string): Part[] {
  return drawing.parts.map(({ name, role, elements }) =>
    part(
      `${prefix}${name}`,
      role,
      elements.map((element) => movedElement(element, by)),
    ),
  );
}

function movedElement(element: Element, by: Point): Element {
  const to = (p: Point): Point => plus(p, by);
  switch (element.kind) {
    case 'line':
      return { ...element, from: to(element.from), to: to(element.to) };
    case 'polyline':
      return { ...element, points: element.points.map(to) };
    case 'circle':
    case 'arc':
      return { ...element, centre: to(element.centre) };
    case 'path':
      return {
        ...element,
        start: to(element.start),
        segments: element.segments.map((segment) =>
          'centre' in segment ? { ...segment, centre: to(segment.centre) } : { to: to(segment.to) },
        ),
      };
    case 'hatch':
      return { ...element, lines: element.lines.map(([from, end]) => [to(from), to(end)] as const) };
    case 'text':
      return { ...element, at: to(element.at) };
  }
}
