/** Mechanism and pull against load, side by side, on one travel control. */
import { useRef, useState, type PointerEvent } from 'react';
import { desk, put, useDesk } from '../desk/desk.ts';
import { setSheetSizes, showSheetIn, useDrawn } from './drawn.ts';
import { useFitting } from '../panels/fitting.ts';
import { Sheet } from '../panels/sheet.tsx';
import { Handles } from './handles.tsx';
import { PIXELS_PER_MM } from './scale.ts';
import { Numbers } from './numbers.tsx';
import { Travel } from './travel.tsx';

function fit(element: Element): void {
  const [first, second] = [...element.querySelectorAll('.sheet')];
  if (first !== undefined && second !== undefined) setSheetSizes({ mechanism: sizeOf(first), load: sizeOf(second) });
}

export function Drawings() {
  const box = useRef<HTMLDivElement>(null);
  const trouble = useDrawn((state) => state.trouble);
  const isByHand = useDesk((state) => state.document?.means.kind === 'hand cable');
  useFitting(box, fit);
  return (
    <section className="drawings" aria-label="Drawings">
      <div className="sheets" ref={box}>
        <figure>
          <figcaption>Mechanism, to scale</figcaption>
          <Sheet which="mechanism" showIn={showSheetIn}>
            <Handles />
          </Sheet>
        </figure>
        <figure>
          <figcaption>{isByHand ? 'Effort along the run' : 'Pull against load'}</figcaption>
          <LoadSheet />
        </figure>
      </div>
      {trouble !== null && <p className="field-error">The drawing could not be made: {trouble}</p>}
      {!isByHand && (
        <>
          <Travel />
          <Numbers />
        </>
      )}
    </section>
  );
}

function sizeOf(sheet: Element): { width: number; height: number } {
  const { width, height } = sheet.getBoundingClientRect();
  return {
    width: Math.max(60, Math.round(width / PIXELS_PER_MM)),
    height: Math.max(50, Math.round(height / PIXELS_PER_MM)),
  };
}

/** The cursor of the chart can be dragged as well as the travel control. */
function LoadSheet() {
  const [isDragging, setDragging] = useState(false);
  const toGap = (event: PointerEvent<HTMLDivElement>) => {
    const axis = useDrawn.getState().drawn?.gapAxis;
    const svg = event.currentTarget.querySelector('svg');
    if (axis === null || axis === undefined || svg === null) return;
    const { left, width } = svg.getBoundingClientRect();
    const onSheet = ((event.clientX - left) / width) * svg.viewBox.baseVal.width;
    const share = Math.min(1, Math.max(0, (onSheet - axis.left) / (axis.right - axis.left)));
    put({ gap_mm: Math.max(0, axis.from_mm + share * (axis.to_mm - axis.from_mm)) });
  };
  const before = useRef(0);
  const isThere = useDesk((state) => state.assessment?.sweep !== null);
  return (
    <div
      className={`sheet-drag${isThere ? ' can-drag' : ''}`}
      onPointerDown={(event) => {
        if (event.button !== 0 || !event.isPrimary) return;
        before.current = desk().gap_mm;
        event.currentTarget.setPointerCapture(event.pointerId);
        setDragging(true);
        toGap(event);
      }}
      onPointerMove={(event) => {
        if (isDragging && event.isPrimary) toGap(event);
      }}
      onPointerUp={() => setDragging(false)}
      onPointerCancel={() => {
        setDragging(false);
        put({ gap_mm: before.current });
      }}
    >
      <Sheet which="load" showIn={showSheetIn} />
    </div>
  );
}
