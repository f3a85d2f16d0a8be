/**
 * The stop circuit with the symbols of IEC 60617, the volts at every node and the amps in every branch.
 *
 * A schematic: nothing is to scale. What carries current is drawn heavy, the rest thin; volts are against the minus of the
 * source. Wide sheets show the loop as a loop, narrow ones fold it into a column; the height comes out of what is shown.
 */
import type { CircuitPicture } from '../assessment/circuit/picture.ts';
import { CAUTION } from '../assessment/finding.ts';
import { metricUnits, type DisplayUnits } from '../units/display.ts';
import { Board, LETTERS, LINE_STEP, type CircuitTarget } from './circuit/board.ts';
import { drawColumn } from './circuit/column.ts';
import { itemsOf } from './circuit/items.ts';
import { drawLoop, planLoop } from './circuit/loop.ts';
import { missingWords, sentencesOf, titleOf } from './circuit/words.ts';
import { part, text, type Drawing } from './drawing.ts';
import { point } from './plane.ts';
import { linesOf } from './text-width.ts';
import { moved, sheetBorder, titleBlock, type TitleFields } from './title-block.ts';

export type { CircuitTarget } from './circuit/board.ts';

export interface CircuitOptions {
  /** Of the sheet, mm; the height follows. */
  readonly width?: number;
  readonly units?: DisplayUnits;
}

export interface CircuitDrawing extends Drawing {
  /** What can be tapped, and the field that it leads to. */
  readonly targets: readonly CircuitTarget[];
}

/** Below this the branches of the solenoid have no room for their words, mm. */
export const LEAST_WIDTH = 84;

const NOTE = 'Schematic, not to scale. Volts against the minus of the source; heavy where current flows.';

export function drawCircuit(picture: CircuitPicture, options: CircuitOptions = {}): CircuitDrawing {
  const { units = metricUnits } = options;
  const width = Math.max(LEAST_WIDTH, options.width ?? 260);
  const items = itemsOf(picture, units);
  const board = new Board();
  const title = titleOf(picture);
  const titleLines = linesOf(title, width - 6, 3.5, true);
  let y = -5.5;
  board.title(titleLines, point(3, y));
  y -= titleLines.length * 5.2;
  const note = linesOf(NOTE, width - 6, LETTERS);
  board.lines('note', 'quiet', note, point(3, y));
  y -= note.length * LINE_STEP;
  const plan = planLoop(items, width);
  y = plan === null ? drawColumn(board, picture, items, width, y) : drawLoop(board, picture, items, plan, width, y);
  const said = [...(picture.missing.length > 0 ? [missingWords(picture.missing.length)] : []), ...picture.remarks];
  said.forEach((one, i) => {
    const lines = linesOf(one, width - 8, LETTERS);
    y -= LINE_STEP;
    board.lines(`remark-${i}`, 'notice', lines, point(4, y));
    y -= (lines.length - 1) * LINE_STEP;
  });
  const { parts, height, targets } = board.finish(width, y - 4);
  return { title, width, height, parts, targets, sentences: sentencesOf(picture, units) };
}

/** A4 across, ISO 216. */
export const CIRCUIT_SHEET = { width: 297, height: 210 } as const;

/**
 * The circuit on paper, with caution and title block. Upright A4 where the loop must be folded.
 *
 * A loop too long for one sheet is drawn smaller nowhere: it runs on over the caution, and `fits` is false.
 */
export function drawCircuitSheet(
  picture: CircuitPicture,
  fields: Omit<TitleFields, 'sheet' | 'sheets' | 'part' | 'scale'>,
  units: DisplayUnits = metricUnits,
): Drawing & { readonly fits: boolean } {
  const across = planLoop(itemsOf(picture, units), CIRCUIT_SHEET.width - 32) !== null;
  const { width, height } = across ? CIRCUIT_SHEET : { width: CIRCUIT_SHEET.height, height: CIRCUIT_SHEET.width };
  const border = sheetBorder(width, height);
  const { inside } = border;
  const caution = linesOf(CAUTION, inside.right - inside.left - 6, LETTERS);
  const drawing = drawCircuit(picture, { width: inside.right - inside.left - 2, units });
  const floor = inside.bottom + caution.length * 3.6 + 5;
  const bottom = inside.top - 2 - drawing.height;
  const title: TitleFields = { ...fields, part: drawing.title, scale: 'none', sheet: 1, sheets: 1 };
  return {
    title: `${fields.job}: ${drawing.title}`,
    width,
    height,
    fits: bottom >= floor,
    parts: [
      ...moved(drawing, point(inside.left + 1, bottom), ''),
      part(
        'caution',
        'words',
        caution.map((words, row) =>
          text(point(inside.left + 3, inside.bottom + 2 + (caution.length - 1 - row) * 3.6), words),
        ),
      ),
      titleBlock(title, border.titleAt),
      border.part,
    ],
    sentences: [...drawing.sentences, CAUTION],
  };
}
