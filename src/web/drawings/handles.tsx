/** Handles over the mechanism drawing. Each is a named control: it can be dragged, moved with the arrow keys, or put by typing. */
import { memo, useState } from 'react';
import type { Frame, Handle } from '../../sheets/mechanism.ts';
import { valueAt } from '../../job/path.ts';
import { cancelGesture, endOfGesture, propose } from '../desk/proposals.ts';
import { desk, goToField, put, useDesk } from '../desk/desk.ts';
import { dragged, nudged, type SheetPoint } from './dragging.ts';
import { holdFrame, useDrawn } from './drawn.ts';
import { newGesture, PointControl, type Grasp } from './point-control.tsx';
import { reachOf } from './reach.ts';
import { PIXELS_PER_MM } from './scale.ts';
import { spread } from './spread.ts';

/** A finger's width, and a little between. */
const APART_PIXELS = 46;

let arrowGesture = '';

export function Handles() {
  const drawn = useDrawn((state) => state.drawn);
  const [chosen, setChosen] = useState<string | null>(null);
  if (drawn === null) return null;
  const width = Number(drawn.mechanism.attributes['viewBox']?.split(' ')[2]);
  const height = Number(drawn.mechanism.attributes['viewBox']?.split(' ')[3]);
  const handle = drawn.handles.find(({ name }) => name === chosen);
  const places = spread(
    drawn.handles.map((handle) => ({ x: handle.x, y: handle.y, isFixed: handle.kind === 'travel', handle })),
    APART_PIXELS / PIXELS_PER_MM,
    width,
    height,
  );
  return (
    <>
      <svg className="leaders" viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="none" aria-hidden="true">
        {places.map(({ handle: { name, x, y }, ...place }) => (
          <line key={name} x1={x} y1={height - y} x2={place.x} y2={height - place.y} />
        ))}
      </svg>
      <div className="handles">
        {places.map((place) => (
          <HandlePoint
            key={place.handle.name}
            handle={place.handle}
            left={place.x / width}
            top={1 - place.y / height}
            frame={drawn.frame}
            width={width}
            height={height}
            choose={setChosen}
          />
        ))}
      </div>
      {handle !== undefined && handle.moves !== null && <HandleWords handle={handle} />}
    </>
  );
}

interface PointProps {
  readonly handle: Handle;
  /** Where the control lies, as shares of the sheet: beside its place where that would be under another. */
  readonly left: number;
  readonly top: number;
  readonly frame: Frame;
  readonly width: number;
  readonly height: number;
  readonly choose: (name: string) => void;
}

const HandlePoint = memo(function HandlePoint({ handle, left, top, frame, width, height, choose }: PointProps) {
  return (
    <PointControl
      label={`${handle.name}: arrow keys move it, or drag`}
      className={`handle-${handle.kind}`}
      left={left}
      top={top}
      at={handle}
      width={width}
      height={height}
      grasp={() => graspOf(handle, frame)}
      nudge={(right, up, isRepeat) => nudge(handle, right, up, isRepeat)}
      choose={() => choose(handle.name)}
    />
  );
});

function graspOf(handle: Handle, frame: Frame): Grasp {
  const gesture = newGesture(handle.name);
  const gapBefore = desk().gap_mm;
  if (handle.moves !== null) holdFrame(frame);
  return {
    moveTo(place) {
      if (handle.kind === 'travel') return moveTravel(handle, frame, place);
      void propose({
        name: `Moved: ${handle.name}`,
        gesture,
        changes: (document) => dragged(document, handle, frame, place),
      });
    },
    letGo: () => void endOfGesture().then(() => holdFrame(null)),
    async takeBack() {
      if (handle.kind === 'travel') put({ gap_mm: gapBefore });
      await cancelGesture(gesture);
      put({ notice: { words: `${handle.name}: left where it was` } });
      holdFrame(null);
    },
  };
}

/** By millimetres; of a direction, by degrees. */
function nudge(handle: Handle, right: number, up: number, isRepeat: boolean): void {
  if (handle.kind === 'travel') {
    const { x, y } = handle.line ?? { x: -1, y: 0 };
    setTravel(desk().gap_mm - Math.sign(right * x + up * y) * Math.max(Math.abs(right), Math.abs(up)));
    return;
  }
  if (!isRepeat) arrowGesture = newGesture(handle.name);
  void propose({
    name: `Moved: ${handle.name}`,
    gesture: arrowGesture,
    changes: (document) => nudged(document, handle, right, up),
  });
}

/** The plunger pin lies at home minus the gap along the line of pull. */
function moveTravel({ about, line }: Handle, { scale }: Frame, to: SheetPoint): void {
  const { x, y } = line ?? { x: -1, y: 0 };
  setTravel(-((to.x - about.x) * x + (to.y - about.y) * y) / scale);
}

function setTravel(gap_mm: number): void {
  const reach = reachOf(desk()) ?? 0;
  put({ gap_mm: Math.min(reach, Math.max(0, Math.round(gap_mm * 10) / 10)) });
}

/** What the chosen handle is and where it stands, with the way to type it. */
function HandleWords({ handle }: { readonly handle: Handle }) {
  const value = useDesk((state) => valueAt(state.document, handle.moves ?? ''));
  const words =
    typeof value === 'string'
      ? value
      : typeof value === 'object' && value !== null
        ? Object.entries(value)
            .map(([key, text]) => `${key} ${String(text)}`)
            .join(', ')
        : '';
  return (
    <p className="handle-words">
      <b>{handle.name}</b> {words}{' '}
      <button
        type="button"
        className="link"
        onClick={() => goToField(handle.kind === 'place' ? `${handle.moves}.x` : (handle.moves ?? ''))}
      >
        Type it
      </button>
    </p>
  );
}
