/**
 * Handles over the mechanism drawing. Each is a named control: it can be dragged, moved with the arrow keys, or put by
 * typing. One gesture is one undo step; Escape, or a second finger, takes it back as if nothing had been.
 */
import { memo, useEffect, useRef, useState, type KeyboardEvent, type PointerEvent } from 'react';
import type { Frame, Handle } from '../../sheets/mechanism.ts';
import { valueAt } from '../../job/path.ts';
import { cancelGesture, endOfGesture, propose } from '../desk/proposals.ts';
import { desk, goToField, put, useDesk } from '../desk/desk.ts';
import { dragged, nudged, type SheetPoint } from './dragging.ts';
import { holdFrame, useDrawn } from './drawn.ts';
import { reachOf } from './reach.ts';
import { PIXELS_PER_MM } from './scale.ts';
import { spread } from './spread.ts';

/** A finger's width, and a little between. */
const APART_PIXELS = 46;

let gestures = 0;
let arrowGesture = '';

function newGesture(name: string): string {
  gestures += 1;
  return `move ${gestures} ${name}`;
}

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

interface Drag {
  readonly pointer: number;
  readonly gesture: string;
  /** Where the sheet lay when it was taken: answers that grow by a line push it down, and the reading must not follow that. */
  readonly sheet: DOMRect;
  readonly frame: Frame;
  /** From the handle to the finger that took it, mm of the sheet. */
  readonly grip: SheetPoint;
  readonly gapBefore: number;
}

const HandlePoint = memo(function HandlePoint({ handle, left, top, frame, width, height, choose }: PointProps) {
  const drag = useRef<Drag | null>(null);
  const [isHeld, setHeld] = useState(false);
  const sheetOf = (event: PointerEvent<HTMLElement>): DOMRect =>
    event.currentTarget.parentElement!.getBoundingClientRect();
  const at = (event: PointerEvent<HTMLElement>, { left, top, width: w, height: h }: DOMRect): SheetPoint => {
    return { x: ((event.clientX - left) / w) * width, y: height - ((event.clientY - top) / h) * height };
  };
  const begin = (event: PointerEvent<HTMLElement>) => {
    if (drag.current !== null) return void cancel();
    if (event.button !== 0 || !event.isPrimary) return;
    choose(handle.name);
    event.currentTarget.setPointerCapture(event.pointerId);
    const sheet = sheetOf(event);
    const { x, y } = at(event, sheet);
    drag.current = {
      pointer: event.pointerId,
      sheet,
      gesture: newGesture(handle.name),
      frame,
      grip: { x: x - handle.x, y: y - handle.y },
      gapBefore: desk().gap_mm,
    };
    setHeld(true);
    if (handle.moves !== null) holdFrame(frame);
  };
  const move = (event: PointerEvent<HTMLElement>) => {
    const held = drag.current;
    if (held === null || event.pointerId !== held.pointer) return;
    const { x, y } = at(event, held.sheet);
    const to = { x: x - held.grip.x, y: y - held.grip.y };
    if (handle.kind === 'travel') return moveTravel(handle, held.frame, to);
    void propose({
      name: `Moved: ${handle.name}`,
      gesture: held.gesture,
      changes: (document) => dragged(document, handle, held.frame, to),
    });
  };
  const finish = () => {
    if (drag.current === null) return;
    drag.current = null;
    setHeld(false);
    void endOfGesture().then(() => holdFrame(null));
  };
  const cancel = async () => {
    const held = drag.current;
    if (held === null) return;
    drag.current = null;
    setHeld(false);
    if (handle.kind === 'travel') put({ gap_mm: held.gapBefore });
    await cancelGesture(held.gesture);
    put({ notice: { words: `${handle.name}: left where it was` } });
    holdFrame(null);
  };
  useEffect(() => {
    if (!isHeld) return;
    const escape = (event: globalThis.KeyboardEvent) => {
      if (event.key === 'Escape') void cancel();
    };
    const secondFinger = (event: globalThis.PointerEvent) => {
      if (!event.isPrimary) void cancel();
    };
    window.addEventListener('keydown', escape);
    window.addEventListener('pointerdown', secondFinger);
    return () => {
      window.removeEventListener('keydown', escape);
      window.removeEventListener('pointerdown', secondFinger);
    };
  });
  return (
    <button
      type="button"
      className={`handle handle-${handle.kind}${isHeld ? ' is-held' : ''}`}
      aria-label={`${handle.name}: arrow keys move it, or drag`}
      style={{ left: `${left * 100}%`, top: `${top * 100}%` }}
      onPointerDown={begin}
      onPointerMove={move}
      onPointerUp={finish}
      onPointerCancel={() => void cancel()}
      onFocus={() => choose(handle.name)}
      onKeyDown={(event) => arrow(event, handle)}
      onKeyUp={(event) => {
        if (event.key.startsWith('Arrow')) void endOfGesture();
      }}
    />
  );
});

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** 1 mm, with shift 10, with alt 0.1; of a direction, degrees. A key held down is one gesture. */
function arrow(event: KeyboardEvent, handle: Handle): void {
  const way = arrows[event.key];
  if (way === undefined || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  const size = event.shiftKey ? 10 : event.altKey ? 0.1 : 1;
  const [right, up] = [way[0] * size, way[1] * size];
  if (handle.kind === 'travel') {
    const { x, y } = handle.line ?? { x: -1, y: 0 };
    setTravel(desk().gap_mm - Math.sign(right * x + up * y) * size);
    return;
  }
  if (!event.repeat) arrowGesture = newGesture(handle.name);
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
