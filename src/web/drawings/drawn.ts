/**
 * The drawings as they stand now. The newest wish is what gets drawn: while one is being worked out, later ones replace
 * each other.
 */
import { create } from 'zustand';
import type { Frame, Handle } from '../../sheets/mechanism.ts';
import { desk, put, useDesk } from '../desk/desk.ts';
import { newestOnly } from '../panels/newest.ts';
import { reckoner } from '../reckoning/reckoner.ts';
import type { Drawn, SheetSizes } from '../reckoning/worker.ts';
import { useUnits } from '../show/units.ts';
import { reachOf } from './reach.ts';
import { showSheet } from './sheet-view.ts';

export const useDrawn = create<{ readonly drawn: Drawn | null; readonly trouble: string | null }>()(() => ({
  drawn: null,
  trouble: null,
}));

type Sizes = Pick<SheetSizes, 'mechanism' | 'load'>;

/** Where the sheets are shown. */
const hosts: { mechanism: Element | null; load: Element | null } = { mechanism: null, load: null };
let isWhole = true;
let sizes: Sizes | null = null;
let frame: Frame | null = null;

export function setSheetSizes(next: Sizes): void {
  if (JSON.stringify(next) === JSON.stringify(sizes)) return;
  sizes = next;
  wish();
}

/** From now on the sheet is shown in this element; null takes it away. */
export function showSheetIn(which: keyof typeof hosts, host: Element | null): void {
  hosts[which] = host;
  isWhole = true;
  if (host !== null) wish();
}

/** Keeps scale and place of the mechanism while something is dragged; null lets it fit itself again. */
export function holdFrame(held: Frame | null): void {
  frame = held;
  if (held === null) wish();
}

export const wish = newestOnly(draw, (trouble) => {
  isWhole = true;
  useDrawn.setState({ trouble });
});

async function draw(): Promise<void> {
  if (sizes === null || desk().document === null) return;
  const asked = { ...sizes, frame, isWhole };
  isWhole = false;
  const drawn = await reckoner.draw(desk().gap_mm, asked);
  if (drawn !== null) show(drawn);
}

function show(drawn: Drawn): void {
  if (hosts.mechanism !== null) showSheet(hosts.mechanism, drawn.mechanism);
  if (hosts.load !== null) showSheet(hosts.load, drawn.load);
  const before = useDrawn.getState().drawn;
  const handles = sameHandles(drawn.handles, before?.handles ?? []);
  const frame =
    before !== null && JSON.stringify(before.frame) === JSON.stringify(drawn.frame) ? before.frame : drawn.frame;
  useDrawn.setState({ drawn: { ...drawn, handles, frame }, trouble: null });
}

/** Handles that did not move stay the same objects, so that nothing is done about them. */
function sameHandles(now: readonly Handle[], before: readonly Handle[]): readonly Handle[] {
  return now.map((handle, i) => {
    const old = before[i];
    return old !== undefined && JSON.stringify(handle) === JSON.stringify(old) ? old : handle;
  });
}

/** From now on, what changes on the desk is drawn. */
export function followDesk(): void {
  useDesk.subscribe((now, before) => {
    const reach_mm = now.assessment === before.assessment ? null : reachOf(now);
    if (reach_mm !== null && now.gap_mm > reach_mm) put({ gap_mm: reach_mm });
    else if (now.gap_mm !== before.gap_mm || now.document !== before.document) wish();
  });
  useUnits.subscribe(wish);
}
