/**
 * The drawings as they stand now. The newest wish is what gets drawn: while one is being worked out, later ones replace
 * each other.
 */
import { create } from 'zustand';
import { desk, useDesk } from '../desk/desk.ts';
import type { Frame } from '../../sheets/mechanism.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import type { Drawn, SheetSizes } from '../reckoning/worker.ts';
import { useUnits } from '../show/units.ts';

export const useDrawn = create<{ readonly drawn: Drawn | null; readonly trouble: string | null }>()(() => ({
  drawn: null,
  trouble: null,
}));

let sizes: Omit<SheetSizes, 'frame'> | null = null;
let frame: Frame | null = null;
let isDrawing = false;
let isWished = false;

export function setSheetSizes(next: Omit<SheetSizes, 'frame'>): void {
  if (JSON.stringify(next) === JSON.stringify(sizes)) return;
  sizes = next;
  wish();
}

/** Keeps scale and place of the mechanism while something is dragged; null lets it fit itself again. */
export function holdFrame(held: Frame | null): void {
  frame = held;
  if (held === null) wish();
}

export function wish(): void {
  isWished = true;
  if (!isDrawing) void drawNewest();
}

async function drawNewest(): Promise<void> {
  isDrawing = true;
  try {
    while (isWished) {
      isWished = false;
      if (sizes === null || desk().document === null) break;
      const drawn = await reckoner.draw(desk().gap_mm, { ...sizes, frame });
      if (drawn !== null) useDrawn.setState({ drawn, trouble: null });
    }
  } catch (error) {
    useDrawn.setState({ trouble: error instanceof Error ? error.message : String(error) });
  } finally {
    isDrawing = false;
  }
}

/** From now on, what changes on the desk is drawn. */
export function followDesk(): void {
  useDesk.subscribe((now, before) => {
    if (now.gap_mm !== before.gap_mm || now.document !== before.document) wish();
  });
  useUnits.subscribe(wish);
}
