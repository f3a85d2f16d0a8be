/** What "Route" shows, as one immutable value, and how it follows the desk. The newest wish is what gets drawn. */
import { wrap, type Remote } from 'comlink';
import { create } from 'zustand';
import type { RouteFrame } from '../../sheets/route/route.ts';
import { desk, useDesk } from '../desk/desk.ts';
import { showSheet } from '../drawings/sheet-view.ts';
import { newestOnly } from '../panels/newest.ts';
import { displayUnits, useUnits } from '../show/units.ts';
import type { DrawnRoute, RouteSizes, RouteWork } from './worker.ts';
import { workerFor } from '../hands/work.ts';

interface Route {
  readonly drawn: DrawnRoute | null;
  readonly trouble: string | null;
  /** Index of the corner whose fields stand open. */
  readonly chosen: number;
}

export const useRoute = create<Route>()(() => ({ drawn: null, trouble: null, chosen: 0 }));

const put = useRoute.setState;

/** Where the sheets are shown. */
const hosts: { route: Element | null; effort: Element | null } = { route: null, effort: null };
let remote: Remote<RouteWork> | null = null;
let sizes: RouteSizes | null = null;
let held: RouteFrame | null = null;

export function choose(corner: number): void {
  put({ chosen: corner });
}

export function setSheetSizes(next: RouteSizes): void {
  if (JSON.stringify(next) === JSON.stringify(sizes)) return;
  sizes = next;
  wish();
}

/** From now on the sheet is shown in this element; null takes it away. */
export function showSheetIn(which: keyof typeof hosts, host: Element | null): void {
  hosts[which] = host;
  if (host !== null) wish();
}

/** Keeps scale and place while something is dragged; null lets the run fill the sheet again. */
export function holdFrame(frame: RouteFrame | null): void {
  held = frame;
  if (frame === null) wish();
}

const wish = newestOnly(draw, (trouble) => put({ trouble }));

async function draw(): Promise<void> {
  const { document } = desk();
  if (sizes === null || document === null) return;
  remote ??= wrap<RouteWork>(workerFor('route'));
  const drawn = await remote.draw(document, sizes, held, displayUnits());
  if (drawn !== null && hosts.route !== null) showSheet(hosts.route, drawn.route);
  if (drawn !== null && hosts.effort !== null) showSheet(hosts.effort, drawn.effort);
  put({ drawn, trouble: null });
}

/** Draws anew whenever the document or the units change, while the panel is open. */
export function followDesk(): () => void {
  const leave = [
    useDesk.subscribe((now, before) => {
      if (now.document !== before.document) wish();
    }),
    useUnits.subscribe(wish),
  ];
  wish();
  return () => leave.forEach((stop) => stop());
}
