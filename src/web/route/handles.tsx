/** Handles over the route: every corner in both views, as long as there are not more than a hand can tell apart. */
import type { RouteFrame, ViewFrame } from '../../sheets/route/route.ts';
import { viewOf } from '../../sheets/route/views.ts';
import { put } from '../desk/desk.ts';
import { cancelGesture, endOfGesture, propose } from '../desk/proposals.ts';
import type { SheetPoint } from '../drawings/dragging.ts';
import { newGesture, PointControl, type Grasp } from '../drawings/point-control.tsx';
import { PIXELS_PER_MM } from '../drawings/scale.ts';
import { spread } from '../drawings/spread.ts';
import { movedBy, movedTo } from './moves.ts';
import { choose, holdFrame, useRoute } from './route.ts';

/** A finger's width, and a little between. */
const APART_PIXELS = 46;

/** With more corners than this only the chosen one has handles. */
const MOST_CORNERS = 12;

let arrowGesture = '';

interface CornerInView {
  readonly corner: number;
  readonly name: string;
  readonly view: ViewFrame;
  readonly frame: RouteFrame;
  readonly at: SheetPoint;
}

export function CornerHandles() {
  const drawn = useRoute((state) => state.drawn);
  const chosen = useRoute((state) => state.chosen);
  const run = drawn?.study.run ?? null;
  if (drawn === null || run === null || drawn.frame === null) return null;
  const { frame, sizes } = drawn;
  const [width, height] = [sizes.width, sizes.routeHeight];
  const isMany = run.corners.length > MOST_CORNERS;
  const handles = frame.views.flatMap((view) =>
    run.corners.flatMap((place, corner): CornerInView[] => {
      if (isMany && corner !== chosen) return [];
      const name = `${cornerName(corner, run.corners.length, place.name)}, in ${view.name}`;
      return [{ corner, name, view, frame, at: viewOf(view, frame.scale).at(place) }];
    }),
  );
  const places = spread(
    handles.map((handle) => ({ x: handle.at.x, y: handle.at.y, isFixed: false, handle })),
    APART_PIXELS / PIXELS_PER_MM,
    width,
    height,
  );
  return (
    <>
      <svg className="leaders" viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="none" aria-hidden="true">
        {places.map(({ handle: { name, at }, ...place }) => (
          <line key={name} x1={at.x} y1={height - at.y} x2={place.x} y2={height - place.y} />
        ))}
      </svg>
      <div className="handles">
        {places.map(({ handle, x, y }) => (
          <PointControl
            key={`${handle.view.name} ${handle.corner}`}
            label={`${handle.name}: arrow keys move it, or drag`}
            className={`handle-place${handle.corner === chosen ? ' is-chosen' : ''}`}
            left={x / width}
            top={1 - y / height}
            at={handle.at}
            width={width}
            height={height}
            grasp={() => graspOf(handle)}
            nudge={(right, up, isRepeat) => nudge(handle, right, up, isRepeat)}
            choose={() => choose(handle.corner)}
          />
        ))}
      </div>
    </>
  );
}

/** Counted from the handle, as the bends on the drawing are where every corner bends. */
export function cornerName(corner: number, corners: number, name: string | null | undefined): string {
  const place = corner === 0 ? 'handle end' : corner === corners - 1 ? 'lever end' : `corner ${corner}`;
  return name === null || name === undefined || name.trim() === '' ? place : `${place}, ${name}`;
}

function graspOf({ corner, name, view, frame }: CornerInView): Grasp {
  const gesture = newGesture(name);
  holdFrame(frame);
  return {
    moveTo: (to) =>
      void propose({
        name: `Moved: ${name}`,
        gesture,
        changes: (document) => movedTo(document, corner, view, frame.scale, to),
      }),
    letGo: () => void endOfGesture().then(() => holdFrame(null)),
    async takeBack() {
      await cancelGesture(gesture);
      put({ notice: { words: `${name}: left where it was` } });
      holdFrame(null);
    },
  };
}

function nudge({ corner, name, view }: CornerInView, right: number, up: number, isRepeat: boolean): void {
  if (!isRepeat) arrowGesture = newGesture(name);
  void propose({
    name: `Moved: ${name}`,
    gesture: arrowGesture,
    changes: (document) => movedBy(document, corner, view, right, up),
  });
}
