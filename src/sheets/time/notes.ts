/**
 * Words at places of a plot. They stand beside their places where there is room; where there is not, a number stands there
 * and the words in a list below the plots, so that nothing has to be small and no curve is covered.
 */
import { part, text, textBox, type Part, type Role } from '../drawing.ts';
import { Ground, placeLabels, type WantedLabel } from '../placing.ts';
import { crosses, grown, point, type Box, type Point } from '../plane.ts';
import { moved } from '../title-block.ts';
import { linesOf } from '../text-width.ts';

export interface Note {
  readonly name: string;
  readonly role: Role;
  /** At the place itself. */
  readonly words: string;
  /** In the list, where nothing beside it says what it belongs to. */
  readonly listed: string;
  /** Long words go to the list together, and at once on a narrow sheet; short ones each by itself. */
  readonly isLong: boolean;
  readonly anchor: Point;
  readonly orAt?: readonly Point[];
  readonly towards?: number;
  readonly room: Box;
}

export interface PlacedNotes {
  readonly parts: readonly Part[];
  /** Those whose words belong in the list, in the order of their numbers. */
  readonly numbered: readonly Note[];
}

/** A curve may be covered only where the alternative is to leave the words out. */
const WEIGHT_OF_CURVES = 6;

/** @param drawn what is on the sheet already; grids may be covered */
export function placedNotes(
  notes: readonly Note[],
  drawn: readonly Part[],
  sheet: { width: number; height: number },
  isNarrow: boolean,
): PlacedNotes {
  let numbered = notes.filter(({ isLong }) => isLong && isNarrow);
  for (;;) {
    const parts = placed(notes, drawn, sheet, numbered);
    const failed = notes.filter((note) => !numbered.includes(note) && !isClear(note, parts, drawn));
    if (failed.length === 0) return { parts, numbered };
    const longToo = failed.some(({ isLong }) => isLong);
    numbered = notes.filter((note) => numbered.includes(note) || failed.includes(note) || (longToo && note.isLong));
  }
}

function placed(
  notes: readonly Note[],
  drawn: readonly Part[],
  sheet: { width: number; height: number },
  numbered: readonly Note[],
): Part[] {
  const ground = new Ground(sheet.width, sheet.height);
  const boxes: Box[] = [];
  for (const { name, elements } of drawn) {
    if (name.endsWith('grid')) continue;
    for (const element of elements) {
      ground.element(element, WEIGHT_OF_CURVES);
      if (element.kind === 'text') boxes.push(textBox(element));
    }
  }
  // Notes of one room keep clear of one another and of what is written there.
  const rooms = [...new Set(notes.map(({ room }) => room))];
  return rooms.flatMap((room) => {
    const wanted = notes
      .filter((note) => note.room === room)
      .map((note): WantedLabel => {
        const number = numbered.indexOf(note) + 1;
        return { ...note, words: number > 0 ? String(number) : note.words, bold: number > 0, leaderBeyond: 2 };
      });
    return placeLabels(wanted, room, ground, boxes).map((label) => label.part);
  });
}

/** Whether the words of a note are there and lie on no curve. */
function isClear({ name }: Note, parts: readonly Part[], drawn: readonly Part[]): boolean {
  const said = parts.find((one) => one.name === name)?.elements.find((element) => element.kind === 'text');
  if (said === undefined) return false;
  const box = grown(textBox(said), -0.2);
  return !drawn.some(({ elements }) =>
    elements.some(
      (element) =>
        element.kind === 'polyline'
        && element.fill === 'none'
        && !element.closed
        && element.points.some((to, i) => i > 0 && crosses(element.points[i - 1] ?? to, to, box)),
    ),
  );
}

const STEP = 4.6;
const INDENT = 6;
/** Least width of a column. */
const COLUMN = 64;

function columns(
  listed: readonly string[],
  width: number,
): { lines: readonly (readonly string[])[]; count: number; perColumn: number } {
  const count = Math.max(1, Math.floor(width / COLUMN));
  const lines = listed.map((words) => linesOf(words, width / count - INDENT - 2, 2.5));
  return { lines, count, perColumn: Math.ceil(listed.length / count) };
}

/** The sheet, made taller at its foot by the list of what is numbered. */
export function withList(
  parts: readonly Part[],
  height: number,
  { numbered }: PlacedNotes,
  width: number,
): { parts: Part[]; height: number } {
  if (numbered.length === 0) return { parts: [...parts], height };
  const [left, right] = [4, width - 4];
  const { lines, count, perColumn } = columns(
    numbered.map(({ listed }) => listed),
    right - left,
  );
  const rows = Array.from({ length: count }, (_, i) =>
    lines.slice(i * perColumn, (i + 1) * perColumn).reduce((sum, one) => sum + one.length, 0),
  );
  const taller = 3 + STEP * Math.max(...rows);
  let y = taller;
  const list = numbered.map(({ name, role }, i) => {
    if (i % perColumn === 0) y = taller - 0.5;
    const x = left + Math.floor(i / perColumn) * ((right - left) / count);
    const elements = (lines[i] ?? []).flatMap((words, k) => {
      y -= STEP;
      const said = text(point(x + INDENT, y), words);
      return k === 0 ? [text(point(x, y), String(i + 1), { bold: true }), said] : [said];
    });
    return part(`listed-${name}`, role, elements);
  });
  return { parts: [...moved({ parts }, point(0, taller), ''), ...list], height: height + taller };
}
