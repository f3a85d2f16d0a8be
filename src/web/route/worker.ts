/** Draws the run of a cable and its effort, away from the page. */
import { expose } from 'comlink';
import type { CableStudy } from '../../assessment/cable/data.ts';
import { cableStudy } from '../../assessment/cable/study.ts';
import type { Job } from '../../job/schema.ts';
import { drawEffort } from '../../sheets/route/effort.ts';
import { drawRoute, type RouteFrame } from '../../sheets/route/route.ts';
import { svgTree, type SvgNode } from '../../sheets/svg.ts';
import type { DisplayUnits } from '../../units/quantity.ts';
import { cableOf } from './cable.ts';

/** Sheets as they fit the screen, mm. */
export interface RouteSizes {
  readonly width: number;
  readonly routeHeight: number;
  readonly effortHeight: number;
}

export interface DrawnRoute {
  readonly route: SvgNode;
  readonly effort: SvgNode;
  readonly frame: RouteFrame | null;
  readonly sizes: RouteSizes;
  readonly study: Pick<CableStudy, 'run' | 'worst' | 'now' | 'limit' | 'calibrated'>;
}

const work = {
  /** @param held scale and place to keep; null fits the sheet */
  draw(document: Job, sizes: RouteSizes, held: RouteFrame | null, units: DisplayUnits): DrawnRoute | null {
    const found = cableOf(document);
    if (found === null) return null;
    const study = cableStudy(document, found.cable);
    const { run, worst, now, limit, calibrated } = study;
    const { width, routeHeight, effortHeight } = sizes;
    const route = drawRoute(run, {
      width,
      height: routeHeight,
      units,
      scales: 'free',
      hasHandles: true,
      ...(held !== null && { frame: held }),
    });
    const effort = drawEffort(study, { width, height: effortHeight, units });
    return {
      route: svgTree(route, { idPrefix: 'route-' }),
      effort: svgTree(effort, { idPrefix: 'route-effort-' }),
      frame: route.frame,
      sizes,
      study: { run, worst, now, limit, calibrated },
    };
  },
};

export type RouteWork = typeof work;

expose(work);
