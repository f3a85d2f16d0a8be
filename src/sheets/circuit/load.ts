/** The solenoid between its two terminals: branches side by side, from plus above to minus below. */
import { point } from '../plane.ts';
import { LINE_STEP, nameLines, type Board } from './board.ts';
import type { Item, LoadBranch } from './items.ts';

/** Height for one thing in a branch, mm; more where a bridge stands beside it. */
const SLOT = 24;
const SLOT_WITH_BRIDGE = 30;
const DOWN = -Math.PI / 2;

export function loadColumns(branches: readonly LoadBranch[]): number {
  return branches.reduce((count, { bridge }) => count + (bridge === null ? 1 : 2), 0);
}

export function loadHeight(branches: readonly LoadBranch[]): number {
  return Math.max(...branches.map(({ items, bridge }) => items.length * (bridge === null ? SLOT : SLOT_WITH_BRIDGE)));
}

interface LoadPlace {
  /** Of the first branch. */
  readonly x: number;
  readonly top: number;
  readonly height: number;
  /** From one branch to the next, mm. */
  readonly pitch: number;
}

export function drawLoad(board: Board, branches: readonly LoadBranch[], { x, top, height, pitch }: LoadPlace): void {
  const bottom = top - height;
  let column = 0;
  branches.forEach(({ items, bridge, isLive }, b) => {
    const at = x + column * pitch;
    if (column > 0) {
      // The rails reach on as far as anything to the right of here takes current.
      const before = at - pitch * (branches[b - 1].bridge === null ? 1 : 2);
      const carries = branches.slice(b).some((one) => one.isLive);
      for (const y of [top, bottom]) board.wire(point(before, y), point(at, y), carries);
    }
    const slot = height / items.length;
    items.forEach((item, i) => {
      const middle = top - slot * (i + 0.5);
      // Dead beyond an open contact of its own branch, and where the branch takes nothing.
      const own = isLive ? item : { ...item, isLive: false };
      const reach = bridge?.over === i ? slot / 2 - 3 : slot / 2;
      board.symbol(own, point(at, middle), DOWN, reach, -1);
      besideItem(board, item, at, middle, pitch);
      if (bridge?.over !== i) return;
      const beside = at + pitch;
      for (const end of [1, -1]) {
        board.wire(point(at, middle + (end * slot) / 2), point(at, middle + end * reach), isLive);
        board.wire(point(at, middle + end * reach), point(beside, middle + end * reach), bridge.item.isLive);
      }
      board.symbol(bridge.item, point(beside, middle), DOWN, reach, 1);
      board.words(bridge.item, point(beside + 5, middle - 5), pitch - 6.5, 'start');
      board.target(bridge.item, {
        left: beside - 4.5,
        right: beside + pitch - 5,
        top: middle + reach,
        bottom: middle - slot / 2,
      });
    });
    column += bridge === null ? 1 : 2;
  });
}

function besideItem(board: Board, item: Item, x: number, middle: number, pitch: number): void {
  const width = pitch - 6.5;
  const count = nameLines(item.name, width).length + item.details.length;
  board.words(item, point(x + 5, middle + ((count - 1) * LINE_STEP) / 2 - 1.25), width, 'start');
  const half = Math.max(6, (count * LINE_STEP) / 2 + 0.5);
  board.target(item, { left: x - 4.5, right: x + pitch - 5, top: middle + half, bottom: middle - half });
}
