/** The loop laid out wide: source at the left, out along the top, solenoid at the right, back along the bottom. */
import type { CircuitPicture } from '../../assessment/circuit/picture.ts';
import { point } from '../plane.ts';
import { linesOf } from '../text-width.ts';
import { LETTERS, LINE_STEP, nameLines, type Board } from './board.ts';
import type { CircuitItems, Item, StationItems } from './items.ts';
import { drawLoad, loadColumns, loadHeight } from './load.ts';
import { amps, branchSentence, volts } from './words.ts';

const SOURCE = 12;
/** Where the first part begins: the words of the source stand before it. */
const START = 46;
const LEAST_PITCH = 30;
const MOST_PITCH = 46;
const ABOVE = 17;
const BELOW = 16;
/** The plunger that works the end switch reaches out to the left. */
const BEFORE_LOAD = 10;

interface Plan {
  /** From one part to the next, mm. */
  readonly pitch: number;
  readonly end: number;
  readonly load: number;
  readonly loadPitch: number;
}

/** Null where the parts do not fit beside each other. */
export function planLoop(items: CircuitItems, width: number): Plan | null {
  const columns = loadColumns(items.load);
  const count = Math.max(items.out.length, items.back.length);
  for (const loadPitch of [30, 26, 23]) {
    const load = width - 2 - columns * loadPitch;
    const end = load - BEFORE_LOAD;
    const pitch = (end - START) / count;
    const fits = items.stations.every((station) => (station.items.length + 1) * LEAST_PITCH <= width - START);
    if (pitch >= LEAST_PITCH && fits) return { pitch: Math.min(MOST_PITCH, pitch), end, load, loadPitch };
  }
  return null;
}

/** @returns the lowest y that is taken */
export function drawLoop(
  board: Board,
  picture: CircuitPicture,
  items: CircuitItems,
  plan: Plan,
  width: number,
  from: number,
): number {
  const hasOthers = items.stations.length > 0;
  const isLive = items.source[0].isLive;
  const top = from - ABOVE;
  const height = Math.max(48, loadHeight(items.load));
  const bottom = top - height;
  const node = (name: string, x: number, y: number, value: number | null, letter = ''): void =>
    board.node(name, point(x, y), `${letter}${volts(value)}`, point(x, y + 1.7), 'middle', isLive);

  items.source.forEach((item, i) => {
    const middle = bottom + (height / 4) * (2 * i + 1);
    board.symbol(item, point(SOURCE, middle), Math.PI / 2, height / 4, 1);
    const room = START - SOURCE - 8;
    const count = nameLines(item.name, room).length + item.details.length;
    board.words(item, point(SOURCE + 5, middle + ((count - 1) * LINE_STEP) / 2 - 1.25), room, 'start');
    board.target(item, { left: SOURCE - 5, right: START - 3, top: middle + 9, bottom: middle - 9 });
  });
  board.wire(point(SOURCE, top), point(START, top), isLive);
  if (isLive) board.arrow(point(SOURCE + 20, top), 0);
  board.amps('source', amps(picture.amps), point(SOURCE + 1, top + 1.7));

  node('source', START, top, picture.source.toVolts, hasOthers ? 'A ' : '');
  items.out.forEach((item, i) => {
    const x = START + plan.pitch * (i + 0.5);
    drawCell(board, item, x, top, plan.pitch, 0);
    const letter = hasOthers && i === items.out.length - 1 ? 'B ' : '';
    node(item.id, x + plan.pitch / 2, top, picture.out[i].toVolts, letter);
  });
  board.wire(point(START + plan.pitch * items.out.length, top), point(plan.load, top), isLive);

  drawLoad(board, items.load, { x: plan.load, top, height, pitch: plan.loadPitch });

  board.wire(point(plan.load, bottom), point(plan.end, bottom), isLive);
  node('minus', plan.end, bottom, picture.load.minusVolts);
  items.back.forEach((item, i) => {
    const x = plan.end - plan.pitch * (i + 0.5);
    drawCell(board, item, x, bottom, plan.pitch, Math.PI);
    node(item.id, x - plan.pitch / 2, bottom, picture.back[i].toVolts);
  });
  board.wire(point(plan.end - plan.pitch * items.back.length, bottom), point(SOURCE, bottom), isLive);

  let y = bottom - BELOW;
  for (const station of items.stations) y = drawStation(board, station, plan.pitch, y, width);
  return y;
}

/** A part on a level wire: name above, details below. */
function drawCell(board: Board, item: Item, x: number, y: number, pitch: number, heading: number): void {
  const room = pitch - 3;
  const names = nameLines(item.name, room).length;
  board.symbol(item, point(x, y), heading, pitch / 2, heading === 0 ? 1 : -1);
  board.words({ ...item, details: [] }, point(x, y + 9.6 + (names - 1) * LINE_STEP), room, 'middle');
  board.details(item, point(x, y - 7), room);
  board.target(item, {
    left: x - pitch / 2 + 1,
    right: x + pitch / 2 - 1,
    top: y + 16,
    bottom: y - 7 - item.details.length * LINE_STEP,
  });
}

/** A strip of its own between the places A and B of the loop. */
function drawStation(
  board: Board,
  { id, name, path, items, branch }: StationItems,
  pitch: number,
  from: number,
  width: number,
): number {
  const y = from - ABOVE;
  const step = Math.min(pitch, (width - START - 8) / items.length);
  const room = START - 14;
  const names = nameLines(name, room);
  board.lines(`name-${id}`, 'words', names, point(4, y + 2));
  board.target({ id, name, path }, { left: 2, right: START - 8, top: y + 8, bottom: y - 8 });
  board.reference(`${id}-from`, 'A', point(START - 2.1, y - 1.25));
  items.forEach((item, i) => drawCell(board, item, START + step * (i + 0.5), y, step, 0));
  board.reference(`${id}-to`, 'B', point(START + step * items.length + 2.1, y - 1.25));
  const said = linesOf(branchSentence(branch), width - START - 4, LETTERS);
  board.lines(`said-${id}`, 'notice', said, point(START, y - BELOW));
  return y - BELOW - said.length * LINE_STEP;
}
