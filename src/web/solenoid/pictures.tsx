/** The cutaway with the travel control that moves all three pictures, the field, and the curves. */
import { useCallback, useRef, useState, type PointerEvent } from 'react';
import type { SvgNode } from '../../sheets/svg.ts';
import { TravelPlaces } from '../drawings/travel-places.tsx';
import { useUnits } from '../show/units.ts';
import { amount } from '../show/words.ts';
import { setSheetSize, type Sheet } from './at-work.ts';
import { bench, putOnBench, useBench } from './bench.ts';
import { useFitting } from '../panels/fitting.ts';
import { useSheet } from '../panels/sheet-box.tsx';

/** Screen pixels per millimetre of the sheet. */
const PIXELS_PER_MM = 3.78;

export function Cutaway() {
  const cutaway = useBench((state) => state.cutaway);
  return (
    <figure className="solenoid-cutaway">
      <figcaption>Cut open, to scale</figcaption>
      <SheetBox sheet="cutaway" tree={cutaway} />
      <Travel />
    </figure>
  );
}

export function FieldPicture() {
  const flux = useBench((state) => state.flux);
  const trouble = useBench((state) => state.fluxTrouble);
  return (
    <figure>
      <figcaption>Field: lines of flux and flux density</figcaption>
      {trouble !== null && <p className="field-error solenoid-trouble">No field: {trouble}.</p>}
      <SheetBox sheet="flux" tree={trouble === null ? flux : null} isHidden={trouble !== null} />
    </figure>
  );
}

export function CurvePicture() {
  const chart = useBench((state) => state.chart);
  const isMissing = useBench((state) => state.outcome === null && state.solving.word !== 'waiting');
  const [isDragging, setDragging] = useState(false);
  const before = useRef(0);
  const toGap = (event: PointerEvent<HTMLDivElement>) => {
    const axis = bench().gapAxis;
    const svg = event.currentTarget.querySelector('svg');
    if (axis === null || svg === null) return;
    const { left, width } = svg.getBoundingClientRect();
    const onSheet = ((event.clientX - left) / width) * svg.viewBox.baseVal.width;
    const share = Math.min(1, Math.max(0, (onSheet - axis.left) / (axis.right - axis.left)));
    putOnBench({ gap_mm: (axis.from + share * (axis.to - axis.from)) * 1000 });
  };
  return (
    <figure className="solenoid-curves">
      <figcaption>Force over the gap</figcaption>
      <div
        className="sheet-drag can-drag"
        onPointerDown={(event) => {
          if (event.button !== 0 || !event.isPrimary) return;
          before.current = bench().gap_mm;
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
          putOnBench({ gap_mm: before.current });
        }}
      >
        <SheetBox sheet="chart" tree={chart} isHidden={isMissing} />
      </div>
      {isMissing && <p className="quiet solenoid-trouble">No curve of this solenoid yet.</p>}
    </figure>
  );
}

interface SheetBoxProps {
  readonly sheet: Sheet;
  readonly tree: SvgNode | null;
  readonly isHidden?: boolean;
}

function SheetBox({ sheet, tree, isHidden = false }: SheetBoxProps) {
  const box = useRef<HTMLDivElement>(null);
  const host = useSheet(tree);
  const fit = useCallback(
    (element: Element) => {
      const { width, height } = element.getBoundingClientRect();
      if (width > 0)
        setSheetSize(sheet, {
          width: Math.max(60, Math.round(width / PIXELS_PER_MM)),
          height: Math.max(50, Math.round(height / PIXELS_PER_MM)),
        });
    },
    [sheet],
  );
  useFitting(box, fit);
  return (
    <div className={`sheet solenoid-sheet solenoid-sheet-${sheet}`} ref={box} hidden={isHidden}>
      <div className="sheet-drawing" ref={host} />
    </div>
  );
}

function Travel() {
  const gap_mm = useBench((state) => state.gap_mm);
  const stroke_mm = useBench((state) => state.stroke_mm);
  const units = useUnits((state) => state.units);
  const to = (gap: number) => putOnBench({ gap_mm: Math.min(stroke_mm, Math.max(0, gap)) });
  return (
    <div className="travel">
      <label className="travel-words" htmlFor="solenoid-travel">
        Gap: <b>{amount(gap_mm, 'mm', units)}</b> from home
      </label>
      <input
        id="solenoid-travel"
        className="travel-slider"
        type="range"
        min={0}
        max={stroke_mm}
        step={0.05}
        value={Math.min(gap_mm, stroke_mm)}
        aria-valuetext={`${amount(gap_mm, 'mm', units)} from home`}
        onChange={(event) => to(Number(event.target.value))}
      />
      <TravelPlaces
        places={[
          { words: 'Home', gap_mm: 0 },
          { words: 'Fully out', gap_mm: stroke_mm },
        ]}
        reach_mm={stroke_mm}
        go={to}
      />
    </div>
  );
}
