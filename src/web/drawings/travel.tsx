/**
 * The one travel control: a slider from home outwards, for both drawings. Its thumb is moved by the browser itself; the
 * words beside it follow the drawings, so that a movement costs the page one round of work and not two.
 */
import { useEffect, useRef } from 'react';
import { desk, put, useDesk } from '../desk/desk.ts';
import { useUnits } from '../show/units.ts';
import { amount } from '../show/words.ts';
import { useDrawn } from './drawn.ts';
import { reachOf } from './reach.ts';
import { TravelPlaces } from './travel-places.tsx';

export function Travel() {
  const reach_mm = useDesk(reachOf);
  if (reach_mm === null) return null;
  return (
    <div className="travel">
      <TravelWords />
      <Slider reach_mm={reach_mm} />
      <Places reach_mm={reach_mm} />
    </div>
  );
}

function TravelWords() {
  const gap_mm = useDrawn((state) => state.drawn?.gap_mm ?? 0);
  const units = useUnits((state) => state.units);
  return (
    <label className="travel-words" htmlFor="travel">
      Travel: <b>{amount(gap_mm, 'mm', units)}</b> from home
    </label>
  );
}

function Slider({ reach_mm }: { readonly reach_mm: number }) {
  const slider = useRef<HTMLInputElement>(null);
  const units = useUnits((state) => state.units);
  useEffect(() => {
    const follow = () => {
      const element = slider.current;
      const { gap_mm } = desk();
      if (element === null) return;
      if (Math.abs(Number(element.value) - gap_mm) > 0.05) element.value = String(gap_mm);
      element.setAttribute('aria-valuetext', `${amount(gap_mm, 'mm', units)} from home`);
    };
    follow();
    return useDrawn.subscribe(follow);
  }, [units]);
  return (
    <input
      ref={slider}
      id="travel"
      className="travel-slider"
      type="range"
      min={0}
      max={reach_mm}
      step={0.1}
      defaultValue={desk().gap_mm}
      onInput={(event) => put({ gap_mm: Number(event.currentTarget.value) })}
    />
  );
}

function Places({ reach_mm }: { readonly reach_mm: number }) {
  const travel = useDesk((state) => state.assessment?.travel ?? null);
  const places = [
    { words: 'Home', gap: travel?.homeGap_mm ?? 0 },
    { words: 'Lever takes the load', gap: travel?.startGap_mm ?? null },
    { words: 'Fully out', gap: reach_mm },
  ].filter((place, i, all) => place.gap !== null && all.findIndex((other) => isNear(other.gap, place.gap)) === i);
  return (
    <TravelPlaces
      places={places.map(({ words, gap }) => ({ words, gap_mm: gap! }))}
      reach_mm={reach_mm}
      go={(gap_mm) => put({ gap_mm })}
    />
  );
}

const isNear = (a: number | null, b: number | null): boolean => a !== null && b !== null && Math.abs(a - b) < 0.05;
