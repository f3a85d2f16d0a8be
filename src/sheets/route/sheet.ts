/** The run of a cable with the picture of its effort under it, on one sheet. */
import type { CableStudy } from '../../assessment/cable/data.ts';
import type { Drawing } from '../drawing.ts';
import { point } from '../plane.ts';
import { moved } from '../title-block.ts';
import { drawEffort } from './effort.ts';
import { drawRoute, type RouteOptions } from './route.ts';

/** Of the height, what the effort takes. */
const EFFORT = 0.4;

export function drawRouteAndEffort(study: CableStudy, options: RouteOptions = {}): Drawing {
  const { width = 180, height = 210 } = options;
  const low = Math.round(height * EFFORT);
  const effort = drawEffort(study, { ...options, width, height: low });
  const route = drawRoute(study.run, { ...options, width, height: height - low });
  return {
    title: route.title,
    width,
    height,
    parts: [...moved(route, point(0, low), 'run-'), ...moved(effort, point(0, 0), 'effort-')],
    sentences: [...route.sentences, ...effort.sentences],
  };
}
