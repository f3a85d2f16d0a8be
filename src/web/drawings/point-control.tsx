/**
 * A place on a sheet that can be dragged, or moved with the arrow keys. One gesture is one undo step; Escape, or a second
 * finger, takes it back as if nothing had been.
 */
import { useEffect, useRef, useState, type KeyboardEvent, type PointerEvent } from 'react';
import { endOfGesture } from '../desk/proposals.ts';
import type { SheetPoint } from './dragging.ts';

/** What a drag does from the moment that it is taken. */
export interface Grasp {
  readonly moveTo: (place: SheetPoint) => void;
  /** What was moved stays. */
  readonly letGo: () => void;
  readonly takeBack: () => Promise<void>;
}

interface PointProps {
  readonly label: string;
  readonly className: string;
  /** Where the control lies, as shares of the sheet: beside its place where that would be under another. */
  readonly left: number;
  readonly top: number;
  /** The place that it stands for, mm of the sheet, y up. */
  readonly at: SheetPoint;
  readonly width: number;
  readonly height: number;
  readonly grasp: () => Grasp;
  /** To the right and up by the arrow keys: 1 mm, with shift 10, with alt 0.1. A key held down is one gesture. */
  readonly nudge: (right: number, up: number, isRepeat: boolean) => void;
  readonly choose: () => void;
}

interface Drag {
  readonly pointer: number;
  readonly grasp: Grasp;
  /** Where the sheet lay when it was taken: answers that grow by a line push it down, and the reading must not follow that. */
  readonly sheet: DOMRect;
  /** From the place to the finger that took it, mm of the sheet. */
  readonly grip: SheetPoint;
}

let gestures = 0;

export function newGesture(name: string): string {
  gestures += 1;
  return `move ${gestures} ${name}`;
}

export function PointControl(props: PointProps) {
  const { label, className, left, top, at, width, height, grasp, nudge, choose } = props;
  const drag = useRef<Drag | null>(null);
  const [isHeld, setHeld] = useState(false);
  const onSheet = (event: PointerEvent<HTMLElement>, sheet: DOMRect): SheetPoint => ({
    x: ((event.clientX - sheet.left) / sheet.width) * width,
    y: height - ((event.clientY - sheet.top) / sheet.height) * height,
  });
  const begin = (event: PointerEvent<HTMLElement>) => {
    if (drag.current !== null) return cancel();
    if (event.button !== 0 || !event.isPrimary) return;
    choose();
    event.currentTarget.setPointerCapture(event.pointerId);
    const sheet = event.currentTarget.parentElement!.getBoundingClientRect();
    const { x, y } = onSheet(event, sheet);
    drag.current = { pointer: event.pointerId, sheet, grasp: grasp(), grip: { x: x - at.x, y: y - at.y } };
    setHeld(true);
  };
  const move = (event: PointerEvent<HTMLElement>) => {
    const held = drag.current;
    if (held === null || event.pointerId !== held.pointer) return;
    const { x, y } = onSheet(event, held.sheet);
    held.grasp.moveTo({ x: x - held.grip.x, y: y - held.grip.y });
  };
  const end = (how: 'letGo' | 'takeBack') => {
    const held = drag.current;
    if (held === null) return;
    drag.current = null;
    setHeld(false);
    if (how === 'letGo') held.grasp.letGo();
    else void held.grasp.takeBack();
  };
  const cancel = () => end('takeBack');
  useEffect(() => {
    if (!isHeld) return;
    const escape = (event: globalThis.KeyboardEvent) => {
      if (event.key === 'Escape') cancel();
    };
    const secondFinger = (event: globalThis.PointerEvent) => {
      if (!event.isPrimary) cancel();
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
      className={`handle ${className}${isHeld ? ' is-held' : ''}`}
      aria-label={label}
      style={{ left: `${left * 100}%`, top: `${top * 100}%` }}
      onPointerDown={begin}
      onPointerMove={move}
      onPointerUp={() => end('letGo')}
      onPointerCancel={cancel}
      onFocus={choose}
      onKeyDown={(event) => arrow(event, nudge)}
      onKeyUp={(event) => {
        if (event.key.startsWith('Arrow')) void endOfGesture();
      }}
    />
  );
}

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

function arrow(event: KeyboardEvent, nudge: PointProps['nudge']): void {
  const way = arrows[event.key];
  if (way === undefined || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  const size = event.shiftKey ? 10 : event.altKey ? 0.1 : 1;
  nudge(way[0] * size, way[1] * size, event.repeat);
}
