/** The loop folded into one column, for a phone or a side panel: down through everything, and back up at the left. */
import type { CircuitPicture } from '../../assessment/circuit/picture.ts';
import { point } from '../plane.ts';
import { fitted, linesOf } from '../text-width.ts';
import { LETTERS, LINE_STEP, nameLines, type Board } from './board.ts';
import type { CircuitItems, Item, StationItems } from './items.ts';
import { drawLoad, loadColumns, loadHeight } from './load.ts';
import { amps, branchSentence, volts } from './words.ts';

const SLOT = 18;
const DOWN = -Math.PI / 2;
const RETURN = 4;
const MOST_PITCH = 34;

/** @returns the lowest y that is taken */
export function drawColumn(
  board: Board,
  picture: CircuitPicture,
  items: CircuitItems,
  width: number,
  from: number,
): number {
  const hasOthers = items.stations.length > 0;
  const x = hasOthers ? 29 : 24;
  const isLive = items.source[0].isLive;
  const top = from - 5;
  const node = (name: string, y: number, value: number | null, letter = '', above = -1.25): void =>
    board.node(name, point(x, y), `${letter}${volts(value)}`, point(x - 2.2, y + above), 'end', isLive);
  let y = top;
  const slot = (item: Item): void => {
    drawSlot(board, item, x, y, width);
    y -= SLOT;
  };
  board.wire(point(RETURN, top), point(x, top), isLive);
  if (isLive) board.arrow(point(x - 6, top), 0);
  board.amps('source', amps(picture.amps), point(x + 5, top - 1.25));
  items.source.forEach(slot);
  node('source', y, picture.source.toVolts, hasOthers ? 'A ' : '');
  items.out.forEach((item, i) => {
    slot(item);
    const isLast = i === items.out.length - 1;
    node(item.id, y, picture.out[i].toVolts, isLast && hasOthers ? 'B ' : '');
  });
  const height = loadHeight(items.load);
  const pitch = Math.min(MOST_PITCH, (width - 2 - x) / loadColumns(items.load));
  drawLoad(board, items.load, { x, top: y, height, pitch });
  y -= height;
  node('minus', y, picture.load.minusVolts);
  items.back.forEach((item, i) => {
    slot(item);
    // The last one stands on the wire back to the source.
    node(item.id, y, picture.back[i].toVolts, '', i === items.back.length - 1 ? 1.7 : -1.25);
  });
  board.wire(point(x, y), point(RETURN, y), isLive);
  board.wire(point(RETURN, y), point(RETURN, top), isLive);
  y -= 6;
  for (const station of items.stations) y = drawStation(board, station, x, y, width);
  return y;
}

function drawSlot(board: Board, item: Item, x: number, top: number, width: number): void {
  const middle = top - SLOT / 2;
  const room = width - x - 7;
  const count = nameLines(item.name, room).length + item.details.length;
  board.symbol(item, point(x, middle), DOWN, SLOT / 2, -1);
  board.words(item, point(x + 5, middle + ((count - 1) * LINE_STEP) / 2 - 1.25), room, 'start');
  board.target(item, { left: x - 9, right: width - 1, top: top - 1.5, bottom: top - SLOT + 1.5 });
}

/** A strip of its own between the places A and B of the loop. */
function drawStation(
  board: Board,
  { id, name, path, items, branch }: StationItems,
  x: number,
  from: number,
  width: number,
): number {
  let y = from - 4;
  board.lines(`name-${id}`, 'words', [fitted(name, width - 6, LETTERS, true)], point(RETURN, y), true);
  board.target({ id, name, path }, { left: 2, right: width - 1, top: y + 6, bottom: y - 6 });
  y -= 8;
  board.reference(`${id}-from`, 'A', point(x, y - 1.25));
  y -= 2.1;
  for (const item of items) {
    drawSlot(board, item, x, y, width);
    y -= SLOT;
  }
  board.reference(`${id}-to`, 'B', point(x, y - 2.1 - 1.25));
  y -= 9;
  const said = linesOf(branchSentence(branch), width - 2 * RETURN, LETTERS);
  board.lines(`said-${id}`, 'notice', said, point(RETURN, y));
  return y - said.length * LINE_STEP - 3;
}
